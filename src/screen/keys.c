/* keys.c - one table of keys. */
#include "screen/keys.h"

#include "gorewright/base.h"

#define KEY(place, shown, action, brief, words, ...)                                               \
    { place, {__VA_ARGS__}, shown, action, brief, words }

static const struct key_entry table[] = {
    KEY(IN_STEPS, "Enter", ACTION_GO_ON, "go on",
        "Take what is shown and go on; on Paper, write the templates and the sheets.", PRESS_ENTER),
    KEY(IN_STEPS, "Bksp", ACTION_GO_BACK, "back", "Back to the step before; PgUp does the same.",
        PRESS_BACKSPACE, PRESS_PAGE_UP, PRESS_BACK_TAB),
    KEY(IN_STEPS, "Right", ACTION_MORE, "more", "The next word, or a little more.", PRESS_RIGHT),
    KEY(IN_STEPS, "Space", ACTION_TYPE, "type",
        "Type another value for this choice, with its unit if you like; so does any digit.", ' ',
        'e'),
    KEY(IN_STEPS, "u", ACTION_UNDO, "undo", "Undo the last change, and the one before it...", 'u'),
    KEY(IN_STEPS, "r", ACTION_REDO, NULL, "Do again what was undone.", 'r'),
    KEY(IN_STEPS, "s", ACTION_SAVE, "save", "Save the design.", 's'),
    KEY(IN_STEPS, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', 'h', PRESS_F1),
    KEY(IN_STEPS, "q", ACTION_QUIT, "quit", "Leave; asks when something would be lost.", 'q'),
    KEY(IN_STEPS, "b", ACTION_BENCH, "bench", "To the bench: mark, cut and sew.", 'b'),
    KEY(IN_STEPS, "Down", ACTION_DOWN, "choose", "To the choice below.", PRESS_DOWN),
    KEY(IN_STEPS, "Up", ACTION_UP, NULL, "To the choice above.", PRESS_UP),
    KEY(IN_STEPS, "Left", ACTION_LESS, NULL, "The word before, or a little less.", PRESS_LEFT),
    KEY(IN_STEPS, "PgDn", ACTION_STEP_ON, NULL, "To the next step, writing nothing.",
        PRESS_PAGE_DOWN, PRESS_TAB),
    KEY(IN_STEPS, "Home", ACTION_FIRST, NULL, "To the first choice of this step.", PRESS_HOME),
    KEY(IN_STEPS, "End", ACTION_LAST, NULL, "To the last one.", PRESS_END),
    KEY(IN_STEPS, "d", ACTION_USUAL, NULL, "Put back the usual value of this choice.", 'd'),
    KEY(IN_STEPS, "/", ACTION_FIND, NULL, "Find any choice by a few of its letters.", '/', 'f'),
    KEY(IN_STEPS, "v", ACTION_VIEW, NULL,
        "Another drawing: whole envelope, one gore, one panel, a section, plans.", 'v'),
    KEY(IN_STEPS, "+", ACTION_ROW_UP, NULL, "The panel or section one row higher.", '+', '='),
    KEY(IN_STEPS, "-", ACTION_ROW_DOWN, NULL, "The panel or section one row lower.", '-'),
    KEY(IN_STEPS, ">", ACTION_GORE_RIGHT, NULL, "The colours: further gores to the right.", '>'),
    KEY(IN_STEPS, "<", ACTION_GORE_LEFT, NULL, "The colours: further gores to the left.", '<'),
    KEY(IN_STEPS, "p", ACTION_FLIGHT_PAGE, NULL,
        "The whole page that says whether it will fly and hold.", 'p'),
    KEY(IN_STEPS, "w", ACTION_STYLES_PAGE, NULL,
        "Which style: all three side by side, with pieces, seams, cloth, mass and hours.", 'w'),
    KEY(IN_STEPS, "a", ACTION_SAVE_AS, NULL, "Save under another name.", 'a'),
    KEY(IN_STEPS, "o", ACTION_OPEN, NULL, "Open a design.", 'o'),
    KEY(IN_STEPS, "n", ACTION_STARTERS, NULL, "A new design, from a starter.", 'n'),

    KEY(IN_TYPING, "Enter", ACTION_TAKE, "take it", "Take what was typed.", PRESS_ENTER),
    KEY(IN_TYPING, "Esc", ACTION_LEAVE, "leave it as it was", "Leave it as it was.", PRESS_ESCAPE),
    KEY(IN_TYPING, "Up", ACTION_UP, NULL, "When finding: the one above.", PRESS_UP),
    KEY(IN_TYPING, "Down", ACTION_DOWN, NULL, "When finding: the one below.", PRESS_DOWN,
        PRESS_TAB),

    KEY(IN_LIST, "Enter", ACTION_TAKE, "take this one", "Take this one.", PRESS_ENTER, ' '),
    KEY(IN_LIST, "Up", ACTION_UP, NULL, "The one above.", PRESS_UP),
    KEY(IN_LIST, "Down", ACTION_DOWN, "choose", "The one below.", PRESS_DOWN, PRESS_TAB),
    KEY(IN_LIST, "Esc", ACTION_LEAVE, "back", "Back, and nothing is changed.", PRESS_ESCAPE,
        PRESS_BACKSPACE, 'q'),

    KEY(IN_HELP, "Down", ACTION_DOWN, "further down", "Further down.", PRESS_DOWN, PRESS_PAGE_DOWN,
        ' '),
    KEY(IN_HELP, "Up", ACTION_UP, "further up", "Further up.", PRESS_UP, PRESS_PAGE_UP),
    KEY(IN_HELP, "Esc", ACTION_LEAVE, "back",
        "Back to where you were; any other key does the same.", PRESS_ESCAPE, PRESS_ENTER, 'q'),

    KEY(IN_BENCH, "Enter", ACTION_BENCH_NEXT, "next",
        "The next dimension, or after the last the next piece to mark; Space does the same.",
        PRESS_ENTER, PRESS_RIGHT, ' '),
    KEY(IN_BENCH, "Bksp", ACTION_BENCH_BACK, "back", "The dimension before.", PRESS_BACKSPACE,
        PRESS_LEFT),
    KEY(IN_BENCH, "m", ACTION_BENCH_MARKED, "marked", "Tick the piece as marked, or untick it.",
        'm'),
    KEY(IN_BENCH, "c", ACTION_BENCH_CUT, "cut", "Tick it as cut, or untick it.", 'c'),
    KEY(IN_BENCH, "s", ACTION_BENCH_SEWN, "sewn", "Tick it as sewn, or untick it.", 's'),
    KEY(IN_BENCH, "o", ACTION_BENCH_OVERVIEW, "overview",
        "What is done and what is left, all pieces at a glance.", 'o'),
    KEY(IN_BENCH, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', 'h', PRESS_F1),
    KEY(IN_BENCH, "Esc", ACTION_LEAVE, "steps", "Back to the steps.", PRESS_ESCAPE, 'b'),
    KEY(IN_BENCH, "u", ACTION_BENCH_UNDO, "undo", "Take back the last tick.", 'u'),
    KEY(IN_BENCH, "t", ACTION_BENCH_TO_DO, "to do", "To the next piece that wants this tick.", 't'),
    KEY(IN_BENCH, "Down", ACTION_BENCH_NEXT_PIECE, NULL, "The next template.", PRESS_DOWN),
    KEY(IN_BENCH, "Up", ACTION_BENCH_PREVIOUS_PIECE, NULL, "The template before.", PRESS_UP),
    KEY(IN_BENCH, "PgDn", ACTION_BENCH_NEXT_GORE, NULL, "The same piece in the next gore.",
        PRESS_PAGE_DOWN, '+'),
    KEY(IN_BENCH, "PgUp", ACTION_BENCH_PREVIOUS_GORE, NULL, "The same piece in the gore before.",
        PRESS_PAGE_UP, '-'),
    KEY(IN_BENCH, "/", ACTION_BENCH_JUMP, NULL,
        "Go to a piece by its name and gore, such as F03 7; a digit begins at "
        "once.",
        '/', 'g'),
    KEY(IN_BENCH, "f", ACTION_BENCH_MISFITS, NULL, "Cut pieces that no longer fit the design.",
        'f'),
    KEY(IN_BENCH, "q", ACTION_QUIT, NULL, "Leave; every tick is on the disk already.", 'q'),

};

const struct key_entry *key_entries(size_t *count) {
    *count = COUNT_OF(table);
    return table;
}

enum action key_action(enum place place, int key) {
    for (size_t i = 0; i < COUNT_OF(table); i++)
        for (size_t j = 0; j < KEYS_EACH; j++)
            if (table[i].place == place && table[i].key[j] == key && key != 0)
                return table[i].action;
    return ACTION_NONE;
}

const char *place_heading(enum place place) {
    static const char *const names[PLACE_COUNT] = {
        "Keys of the steps", "Keys while typing", "Keys in a list",
        "Keys in the help and in a page", "Keys of the bench"};
    return names[place];
}
