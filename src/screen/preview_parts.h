/* preview_parts.h - the drawings behind previews.h, each on a blank canvas of its own. */
#ifndef SCREEN_PREVIEW_PARTS_H
#define SCREEN_PREVIEW_PARTS_H

#include "screen/previews.h"

enum { PREVIEW_CELLS_MOST = 1000 }; /* columns or rows; beyond it nothing is drawn */

/* Returns: false out of memory.  Given: a job with an envelope. */
bool preview_side(const struct preview_job *job, struct canvas *canvas);
bool preview_gore(const struct preview_job *job, struct canvas *canvas);
bool preview_panel(const struct preview_job *job, struct canvas *canvas);
bool preview_section(const struct preview_job *job, struct canvas *canvas);
bool preview_plan(const struct preview_job *job, struct canvas *canvas);
bool preview_colours(const struct preview_job *job, struct canvas *canvas);

size_t preview_row(const struct preview_job *job);       /* 1 .. rows */
enum style preview_style(const struct preview_job *job); /* one that is built */
bool preview_has_words(const struct canvas *canvas);     /* room for dimensions */

#endif
