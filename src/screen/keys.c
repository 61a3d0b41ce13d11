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
        "Type a value, with its unit if you like: what you type takes the place of the one there.",
        ' '),
    KEY(IN_STEPS, "u", ACTION_UNDO, "undo", "Undo the last change, and the one before it...", 'u'),
    KEY(IN_STEPS, "s", ACTION_SAVE, "save", "Save the design.", 's'),
    KEY(IN_STEPS, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', 'h', PRESS_F1),
    KEY(IN_STEPS, "q", ACTION_QUIT, "quit", "Leave; asks when something would be lost.", 'q'),
    KEY(IN_STEPS, "b", ACTION_BENCH, "bench", "To the bench: mark, cut and sew.", 'b'),
    KEY(IN_STEPS, "Down", ACTION_DOWN, "choose", "To the choice below.", PRESS_DOWN),
    KEY(IN_STEPS, "Up", ACTION_UP, NULL, "To the choice above.", PRESS_UP),
    KEY(IN_STEPS, "Left", ACTION_LESS, NULL, "The word before, or a little less.", PRESS_LEFT),
    KEY(IN_STEPS, "0 to 9", ACTION_TYPE_ANEW, NULL, "Type a value at once, a minus sign too.",
        PRESS_DIGIT, '.', '-'),
    KEY(IN_STEPS, "PgDn", ACTION_STEP_ON, NULL, "To the next step, writing nothing.",
        PRESS_PAGE_DOWN, PRESS_TAB),
    KEY(IN_STEPS, "Home", ACTION_FIRST, NULL, "To the first choice of this step.", PRESS_HOME),
    KEY(IN_STEPS, "End", ACTION_LAST, NULL, "To the last one.", PRESS_END),
    KEY(IN_STEPS, "r", ACTION_REDO, NULL, "Do again what was undone.", 'r'),
    KEY(IN_STEPS, "d", ACTION_USUAL, NULL, "Put back the usual value of this choice.", 'd'),
    KEY(IN_STEPS, "/", ACTION_FIND, NULL, "Find any choice by a few of its letters.", '/'),
    KEY(IN_STEPS, "v", ACTION_VIEW, NULL,
        "Another drawing: whole envelope, one gore, one panel, a section, plans.", 'v'),
    KEY(IN_STEPS, "]", ACTION_ROW_UP, NULL, "The panel or section one row higher.", ']'),
    KEY(IN_STEPS, "[", ACTION_ROW_DOWN, NULL, "The panel or section one row lower.", '['),
    KEY(IN_STEPS, ">", ACTION_GORE_RIGHT, NULL, "The colours: further gores to the right.", '>'),
    KEY(IN_STEPS, "<", ACTION_GORE_LEFT, NULL, "The colours: further gores to the left.", '<'),
    KEY(IN_STEPS, "f", ACTION_MISFITS, NULL, "Cut pieces that no longer fit the design.", 'f'),
    KEY(IN_STEPS, "p", ACTION_FLIGHT_PAGE, NULL,
        "The whole page that says whether it will fly and hold.", 'p'),
    KEY(IN_STEPS, "w", ACTION_STYLES_PAGE, NULL,
        "Which style: all three side by side, with pieces, seams, cloth, mass and hours.", 'w'),
    KEY(IN_STEPS, "a", ACTION_SAVE_AS, NULL, "Save under another name.", 'a'),
    KEY(IN_STEPS, "o", ACTION_OPEN, NULL, "Open a design.", 'o'),
    KEY(IN_STEPS, "n", ACTION_STARTERS, NULL, "A new design, from a starter.", 'n'),

    KEY(IN_WORDS, "Enter", ACTION_GO_ON, "go on", "Take what is shown and go on.", PRESS_ENTER),
    KEY(IN_WORDS, "Bksp", ACTION_GO_BACK, "back", "Back to the step before.", PRESS_BACKSPACE),
    KEY(IN_WORDS, "a to z", ACTION_TYPE_ANEW, "type",
        "Type at once, as digits do; the letters of the steps work on any other choice.",
        PRESS_LETTER, PRESS_DIGIT),
    KEY(IN_WORDS, "Space", ACTION_TYPE, "type", "Type, or change what is there.", ' '),
    KEY(IN_WORDS, "Down", ACTION_DOWN, "choose", "To the choice below; signs work as on the steps.",
        PRESS_DOWN),
    KEY(IN_WORDS, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', PRESS_F1),

    KEY(IN_TYPING, "Enter", ACTION_TAKE, "take it", "Take what was typed.", PRESS_ENTER),
    KEY(IN_TYPING, "Esc", ACTION_LEAVE, "leave it as it was", "Leave it as it was.", PRESS_ESCAPE),
    KEY(IN_TYPING, "Left", ACTION_EDIT, "change a part",
        "Change a part of the value instead of typing over all of it; so do Right, Bksp, Home "
        "and End.",
        PRESS_LEFT, PRESS_RIGHT, PRESS_HOME, PRESS_END),
    KEY(IN_TYPING, "Ctrl-U", ACTION_CLEAR, "clear", "Clear the line.", PRESS_ERASE_LINE),
    KEY(IN_TYPING, "Up", ACTION_UP, NULL, "When finding: the one above.", PRESS_UP),
    KEY(IN_TYPING, "Down", ACTION_DOWN, NULL, "When finding: the one below.", PRESS_DOWN,
        PRESS_TAB),
    KEY(IN_TYPING, "PgDn", ACTION_PAGE_DOWN, NULL, "When finding: a page further down.",
        PRESS_PAGE_DOWN),
    KEY(IN_TYPING, "PgUp", ACTION_PAGE_UP, NULL, "When finding: a page further up.", PRESS_PAGE_UP),

    KEY(IN_LIST, "Enter", ACTION_TAKE, "take it", "Take this one; Space does the same.",
        PRESS_ENTER, ' '),
    KEY(IN_LIST, "Up", ACTION_UP, NULL, "To the one above.", PRESS_UP),
    KEY(IN_LIST, "Down", ACTION_DOWN, "choose", "To the one below.", PRESS_DOWN, PRESS_TAB),
    KEY(IN_LIST, "PgDn", ACTION_PAGE_DOWN, NULL, "A page further down.", PRESS_PAGE_DOWN),
    KEY(IN_LIST, "PgUp", ACTION_PAGE_UP, NULL, "A page further up.", PRESS_PAGE_UP),
    KEY(IN_LIST, "Home", ACTION_FIRST, NULL, "To the first one.", PRESS_HOME),
    KEY(IN_LIST, "End", ACTION_LAST, NULL, "To the last one.", PRESS_END),
    KEY(IN_LIST, "Esc", ACTION_LEAVE, "back", "Back, and nothing is changed.", PRESS_ESCAPE,
        PRESS_BACKSPACE, 'q'),

    KEY(IN_HELP, "Enter", ACTION_GO_ON, "go on",
        "A page further down, and back at the end; Space does the same.", PRESS_ENTER, ' '),
    KEY(IN_HELP, "Down", ACTION_DOWN, "a line down", "A line further down.", PRESS_DOWN),
    KEY(IN_HELP, "Up", ACTION_UP, "up", "A line further up.", PRESS_UP),
    KEY(IN_HELP, "PgDn", ACTION_PAGE_DOWN, NULL, "A page further down.", PRESS_PAGE_DOWN),
    KEY(IN_HELP, "PgUp", ACTION_PAGE_UP, NULL, "A page further up.", PRESS_PAGE_UP),
    KEY(IN_HELP, "Home", ACTION_FIRST, NULL, "To the beginning.", PRESS_HOME),
    KEY(IN_HELP, "End", ACTION_LAST, NULL, "To the end.", PRESS_END),
    KEY(IN_HELP, "Esc", ACTION_LEAVE, "back", "Back to where you were.", PRESS_ESCAPE,
        PRESS_BACKSPACE, 'q'),

    KEY(IN_BENCH, "Enter", ACTION_BENCH_NEXT, "go on",
        "The next dimension, or after the last the next piece to mark; Space does the same.",
        PRESS_ENTER, PRESS_RIGHT, ' '),
    KEY(IN_BENCH, "Bksp", ACTION_BENCH_BACK, "back", "The dimension before; Left does the same.",
        PRESS_BACKSPACE, PRESS_LEFT),
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
    KEY(IN_BENCH, "Home", ACTION_BENCH_FIRST, NULL, "The first dimension.", PRESS_HOME),
    KEY(IN_BENCH, "End", ACTION_BENCH_LAST, NULL, "The last one.", PRESS_END),
    KEY(IN_BENCH, "/", ACTION_BENCH_JUMP, NULL,
        "Go to a piece by its name, its gore and, if you like, the number of a dimension, as they "
        "stand there: F03 7, or F03 7 5.",
        '/', 'g'),
    KEY(IN_BENCH, "0 to 9", ACTION_BENCH_JUMP_ANEW, NULL, "Go to the same piece in another gore.",
        PRESS_DIGIT),
    KEY(IN_BENCH, "f", ACTION_BENCH_MISFITS, NULL, "Cut pieces that no longer fit the design.",
        'f'),
    KEY(IN_BENCH, "q", ACTION_QUIT, NULL, "Leave; every tick is on the disk already.", 'q'),

    KEY(IN_OVERVIEW, "Enter", ACTION_BENCH_OPEN, "go on",
        "To the dimensions of the piece under the mark; Space does the same.", PRESS_ENTER, ' '),
    KEY(IN_OVERVIEW, "Right", ACTION_BENCH_NEXT, "move", "The mark along its row.", PRESS_RIGHT),
    KEY(IN_OVERVIEW, "m", ACTION_BENCH_MARKED, "marked", "Tick the piece as marked, or untick it.",
        'm'),
    KEY(IN_OVERVIEW, "c", ACTION_BENCH_CUT, "cut", "Tick it as cut, or untick it.", 'c'),
    KEY(IN_OVERVIEW, "s", ACTION_BENCH_SEWN, "sewn", "Tick it as sewn, or untick it.", 's'),
    KEY(IN_OVERVIEW, "/", ACTION_BENCH_JUMP, "find", "The mark to a piece by its name and gore.",
        '/', 'g'),
    KEY(IN_OVERVIEW, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', 'h', PRESS_F1),
    KEY(IN_OVERVIEW, "Esc", ACTION_BENCH_DIMENSIONS, "back", "Back to the dimensions.",
        PRESS_ESCAPE, PRESS_BACKSPACE, 'o', 'b'),
    KEY(IN_OVERVIEW, "u", ACTION_BENCH_UNDO, "undo", "Take back the last tick.", 'u'),
    KEY(IN_OVERVIEW, "t", ACTION_BENCH_TO_DO, "to do", "To the next piece that wants this tick.",
        't'),
    KEY(IN_OVERVIEW, "Left", ACTION_BENCH_BACK, NULL, "The mark back along its row.", PRESS_LEFT),
    KEY(IN_OVERVIEW, "Down", ACTION_BENCH_NEXT_PIECE, NULL, "One row nearer to the mouth.",
        PRESS_DOWN),
    KEY(IN_OVERVIEW, "Up", ACTION_BENCH_PREVIOUS_PIECE, NULL, "One row nearer to the crown.",
        PRESS_UP),
    KEY(IN_OVERVIEW, "PgDn", ACTION_BENCH_NEXT_GORE, NULL, "The same piece in the next gore.",
        PRESS_PAGE_DOWN, '+'),
    KEY(IN_OVERVIEW, "PgUp", ACTION_BENCH_PREVIOUS_GORE, NULL, "The same piece in the gore before.",
        PRESS_PAGE_UP, '-'),
    KEY(IN_OVERVIEW, "Home", ACTION_BENCH_FIRST, NULL, "The first piece of the row.", PRESS_HOME),
    KEY(IN_OVERVIEW, "End", ACTION_BENCH_LAST, NULL, "The last one.", PRESS_END),
    KEY(IN_OVERVIEW, "0 to 9", ACTION_BENCH_JUMP_ANEW, NULL,
        "The mark to the same piece in another gore.", PRESS_DIGIT),
    KEY(IN_OVERVIEW, "f", ACTION_BENCH_MISFITS, NULL, "Cut pieces that no longer fit the design.",
        'f'),
    KEY(IN_OVERVIEW, "q", ACTION_QUIT, NULL, "Leave; every tick is on the disk already.", 'q'),

    KEY(IN_MISFITS, "Enter", ACTION_BENCH_OPEN, "go on",
        "To the dimensions of this piece; Space does the same.", PRESS_ENTER, ' '),
    KEY(IN_MISFITS, "Down", ACTION_BENCH_NEXT_PIECE, "choose", "To the one below.", PRESS_DOWN),
    KEY(IN_MISFITS, "Up", ACTION_BENCH_PREVIOUS_PIECE, NULL, "To the one above.", PRESS_UP),
    KEY(IN_MISFITS, "PgDn", ACTION_BENCH_NEXT_GORE, NULL, "A page further down.", PRESS_PAGE_DOWN),
    KEY(IN_MISFITS, "PgUp", ACTION_BENCH_PREVIOUS_GORE, NULL, "A page further up.", PRESS_PAGE_UP),
    KEY(IN_MISFITS, "Home", ACTION_BENCH_FIRST, NULL, "To the first one.", PRESS_HOME),
    KEY(IN_MISFITS, "End", ACTION_BENCH_LAST, NULL, "To the last one.", PRESS_END),
    KEY(IN_MISFITS, "o", ACTION_BENCH_OVERVIEW, "overview",
        "What is done and what is left, all pieces at a glance.", 'o'),
    KEY(IN_MISFITS, "?", ACTION_HELP, "help", "All keys, and what they do.", '?', 'h', PRESS_F1),
    KEY(IN_MISFITS, "Esc", ACTION_BENCH_DIMENSIONS, "back", "Back to the dimensions.", PRESS_ESCAPE,
        PRESS_BACKSPACE, 'f', 'b'),
    KEY(IN_MISFITS, "q", ACTION_QUIT, NULL, "Leave; every tick is on the disk already.", 'q'),
};

const struct key_entry *key_entries(size_t *count) {
    *count = COUNT_OF(table);
    return table;
}

static bool is_digit(int key) {
    return key >= '0' && key <= '9';
}

static bool is_letter(int key) {
    return (key >= 'a' && key <= 'z') || (key >= 'A' && key <= 'Z') || (key >= 0x80 && key <= 0xFF);
}

static bool is_meant(int named, int key) {
    return named == key || (named == PRESS_LETTER && is_letter(key)) ||
           (named == PRESS_DIGIT && is_digit(key));
}

enum action key_action(enum place place, int key) {
    for (size_t i = 0; i < COUNT_OF(table); i++)
        for (size_t j = 0; j < KEYS_EACH; j++)
            if (table[i].place == place && key != 0 && is_meant(table[i].key[j], key))
                return table[i].action;
    return ACTION_NONE;
}

const char *place_heading(enum place place) {
    static const char *const names[PLACE_COUNT] = {
        [IN_STEPS] = "Keys of the steps",
        [IN_WORDS] = "Keys on a name, a colour or a list",
        [IN_TYPING] = "Keys while typing",
        [IN_LIST] = "Keys in a list",
        [IN_HELP] = "Keys in the help and in a page",
        [IN_BENCH] = "Keys of the bench",
        [IN_OVERVIEW] = "Keys of the overview of the bench",
        [IN_MISFITS] = "Keys among pieces that no longer fit",
    };
    return names[place];
}
