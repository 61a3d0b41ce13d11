/* plainly.h - messages as the screens say them: by the names of the choices, not by the keys of a
 * file. */
#ifndef SCREEN_PLAINLY_H
#define SCREEN_PLAINLY_H

#include "gorewright/base.h"

/* The name of a choice where it stands alone: "Gores"; "Seam between rows, its width".
 * Given: key of a parameter.  Returns: into; the key itself when the screens do not ask for it. */
char *plain_name(const char *key, char into[64]);

/* Add a sentence, the name of the choice in the place of each key of a parameter in it. */
void say_plainly(const char *words, struct text *into);

/* Add a message: the name of the choice it is about, then what it says.
 * Given: not_about, a key that need not be named, for it is in view; or NULL. */
void say_message(const struct diagnostic *message, const char *not_about, struct text *into);

#endif
