/* keys.h - one table of keys: the dispatcher, the line of keys at the bottom, the help screens
 * and the check of the manual page all read it.
 *
 * A key is the character it types (a byte), or one of enum press.
 */
#ifndef SCREEN_KEYS_H
#define SCREEN_KEYS_H

#include <stddef.h>

enum press {
    PRESS_TAB = '\t',
    PRESS_ENTER = '\n',
    PRESS_ESCAPE = 27,
    PRESS_REDRAW = 'L' & 0x1F,
    PRESS_ERASE_LINE = 'U' & 0x1F,
    PRESS_BACKSPACE = 0x100,
    PRESS_DELETE,
    PRESS_UP,
    PRESS_DOWN,
    PRESS_LEFT,
    PRESS_RIGHT,
    PRESS_HOME,
    PRESS_END,
    PRESS_PAGE_UP,
    PRESS_PAGE_DOWN,
    PRESS_BACK_TAB,
    PRESS_F1,
    PRESS_LETTER,    /* in the table alone: any letter */
    PRESS_DIGIT,     /* in the table alone: any digit */
    PRESS_OTHER,     /* a key that means nothing here */
    PRESS_INTERRUPT, /* Ctrl-C: leave what is open, or quit */
    PRESS_RESIZE,    /* the terminal has another size */
    PRESS_END_NOW    /* the terminal is gone, or a signal asks for the end */
};

/* Where a key works. */
enum place {
    IN_STEPS,    /* the walk-through */
    IN_WORDS,    /* the same with the cursor on a name, a colour or a list: before IN_STEPS */
    IN_TYPING,   /* a value, a name, a few letters to find by */
    IN_LIST,     /* a list to choose from */
    IN_HELP,     /* and in a page of text */
    IN_BENCH,    /* one dimension of one piece */
    IN_OVERVIEW, /* all pieces */
    IN_MISFITS,  /* cut pieces that no longer fit */
    PLACE_COUNT
};

enum action {
    ACTION_NONE,
    ACTION_GO_ON,
    ACTION_GO_BACK,
    ACTION_STEP_ON, /* to the next step, without doing anything in this one */
    ACTION_UP,
    ACTION_DOWN,
    ACTION_FIRST,
    ACTION_LAST,
    ACTION_LESS,
    ACTION_MORE,
    ACTION_TYPE,
    ACTION_TYPE_ANEW, /* with the key that was pressed */
    ACTION_USUAL,
    ACTION_FIND,
    ACTION_UNDO,
    ACTION_REDO,
    ACTION_VIEW,
    ACTION_FLIGHT_PAGE,
    ACTION_STYLES_PAGE,
    ACTION_ROW_UP,
    ACTION_ROW_DOWN,
    ACTION_GORE_RIGHT,
    ACTION_GORE_LEFT,
    ACTION_SAVE,
    ACTION_SAVE_AS,
    ACTION_OPEN,
    ACTION_STARTERS,
    ACTION_BENCH,
    ACTION_MISFITS,
    ACTION_HELP,
    ACTION_QUIT,
    ACTION_TAKE,
    ACTION_LEAVE,
    ACTION_PAGE_DOWN,
    ACTION_PAGE_UP,
    ACTION_EDIT,
    ACTION_CLEAR,
    ACTION_BENCH_NEXT,
    ACTION_BENCH_BACK,
    ACTION_BENCH_FIRST,
    ACTION_BENCH_LAST,
    ACTION_BENCH_OPEN,
    ACTION_BENCH_DIMENSIONS,
    ACTION_BENCH_MARKED,
    ACTION_BENCH_CUT,
    ACTION_BENCH_SEWN,
    ACTION_BENCH_UNDO,
    ACTION_BENCH_NEXT_PIECE,
    ACTION_BENCH_PREVIOUS_PIECE,
    ACTION_BENCH_NEXT_GORE,
    ACTION_BENCH_PREVIOUS_GORE,
    ACTION_BENCH_TO_DO,
    ACTION_BENCH_OVERVIEW,
    ACTION_BENCH_MISFITS,
    ACTION_BENCH_JUMP,
    ACTION_BENCH_JUMP_ANEW, /* with the digit that was pressed */
    ACTION_COUNT
};

enum { KEYS_EACH = 4 };

struct key_entry {
    enum place place;
    int key[KEYS_EACH]; /* 0 where there is none */
    const char *shown;  /* what is printed on the key */
    enum action action;
    const char *brief; /* for the line at the bottom; NULL: not shown there */
    const char *words; /* for help and manual */
};

/* Returns: the first entry, those of a place together, the most wanted first; *count how many. */
const struct key_entry *key_entries(size_t *count);

/* What a key does in a place; ACTION_NONE when it does nothing.  A key named in a place goes
 * before "any letter" there; a byte of any letter outside ASCII is one. */
enum action key_action(enum place place, int key);

const char *place_heading(enum place place); /* "Keys of the steps", ... */

#endif
