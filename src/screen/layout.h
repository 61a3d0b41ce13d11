/* layout.h - where everything stands on a screen of any size. */
#ifndef SCREEN_LAYOUT_H
#define SCREEN_LAYOUT_H

#include <stdbool.h>

/* The same thing stands in the same place on every screen. */
enum area {
    AREA_STEPS,    /* where we are, and the name of the file */
    AREA_QUESTION, /* what is to be decided here */
    AREA_CHOICES,
    AREA_HELP, /* about the choice the cursor is on */
    AREA_PREVIEW,
    AREA_MESSAGE,
    AREA_FIGURES, /* the few that decide, and what they were before the last change */
    AREA_KEYS,
    AREA_COUNT
};

struct area_box {
    long column, row, columns, rows; /* in cells; nothing when rows or columns is 0 */
};

enum { LAYOUT_COLUMNS_LEAST = 80, LAYOUT_ROWS_LEAST = 24 };

struct layout {
    bool too_small; /* only AREA_MESSAGE has room: one line */
    struct area_box area[AREA_COUNT];
    struct area_box body; /* between the steps and the message: for a screen with one drawing */
};

/* Given: any size, 0 x 0 included.  Returns: areas that lie inside it and do not overlap. */
struct layout layout_for(long columns, long rows);

#endif
