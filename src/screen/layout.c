/* layout.c - where everything stands on a screen of any size. */
#include "screen/layout.h"

enum {
    LEFT_LEAST = 40, /* columns of the choices */
    LEFT_MOST = 56,
    GAP = 2,
    HELP_ROWS_LEAST = 6,
    HELP_ROWS_MOST = 10,
    ROOMY = 30 /* rows from which a row is left blank below the question */
};

static long between(long value, long least, long most) {
    return value < least ? least : value > most ? most : value;
}

struct layout layout_for(long columns, long rows) {
    struct layout layout = {.too_small =
                                columns < LAYOUT_COLUMNS_LEAST || rows < LAYOUT_ROWS_LEAST};
    struct area_box *area = layout.area;
    if (layout.too_small) {
        area[AREA_MESSAGE] = (struct area_box){0, 0, columns, rows > 0};
        return layout;
    }
    long left = between(columns * 2 / 5, LEFT_LEAST, LEFT_MOST);
    long top = rows >= ROOMY ? 3 : 2;
    long message = rows - 5;
    long body_rows = message - top;
    long help_rows = between(body_rows / 3, HELP_ROWS_LEAST, HELP_ROWS_MOST);
    long help = message - help_rows;
    area[AREA_STEPS] = (struct area_box){0, 0, columns, 1};
    area[AREA_QUESTION] = (struct area_box){0, 1, columns, 1};
    area[AREA_CHOICES] = (struct area_box){0, top, left, help - top - 1};
    area[AREA_HELP] = (struct area_box){0, help, left, help_rows};
    area[AREA_PREVIEW] = (struct area_box){left + GAP, 2, columns - left - GAP, message - 2};
    area[AREA_MESSAGE] = (struct area_box){0, message, columns, 2};
    area[AREA_FIGURES] = (struct area_box){0, rows - 3, columns, 2};
    area[AREA_KEYS] = (struct area_box){0, rows - 1, columns, 1};
    layout.body = (struct area_box){0, 2, columns, message - 2};
    return layout;
}
