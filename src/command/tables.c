/* tables.c - every command and every option, each said once. */
#include "gorewright/base.h"
#include "gorewright/command.h"
#include "command/actions.h"

static const struct option_entry option_table[OPTION_COUNT] = {
    [OPTION_OUTPUT] = {"output", 'o', "FILE", "write to FILE, the whole of it or nothing"},
    [OPTION_PAPER] = {"paper", 0, "SHEET", "sheet or roll to print on, instead of paper.sheet"},
    [OPTION_UNITS] = {"units", 0, "UNITS", "mm or inch, instead of paper.units"},
    [OPTION_MEASURED] = {"measured", 0, "ACROSSxUP",
                         "what the cross on page 1 measures on your print"},
    [OPTION_PIECE] = {"piece", 0, "NAME", "this piece only, such as F03"},
    [OPTION_SHEET] = {"sheet", 0, "NUMBER", "this sheet only, to print it again"},
    [OPTION_FORM] = {"form", 0, "FORM", "text, or postscript for a map to scale"},
    [OPTION_EFFORT] = {"effort", 0, "NUMBER", "1 quick to 8 slow; 4 when it is not said"},
    [OPTION_ANEW] = {"anew", 0, NULL, "make a new layout in place of the one that is kept"},
    [OPTION_MONO] = {"mono", 0, NULL, "no colours on the screens; NO_COLOR does the same"},
    [OPTION_HELP] = {"help", 'h', NULL, "say how to use the program, or a command"},
    [OPTION_VERSION] = {"version", 'V', NULL, "say which version this is"},
};

#define PAPER (TAKES(OPTION_PAPER) | TAKES(OPTION_UNITS) | TAKES(OPTION_MEASURED))

static const struct command_entry command_table[] = {
    {"starter", "", "print a first design, with comments, to change as you like",
     TAKES(OPTION_OUTPUT), 0, 0, false, run_starter},
    {"check", "FILE...", "report every error and warning, and what each design gives", PAPER, 1,
     (size_t)-1, false, run_check},
    {"figures", "FILE", "table of what will be built, and of how it would fly",
     TAKES(OPTION_OUTPUT), 1, 1, false, run_figures},
    {"flight", "FILE", "will it fly, will it hold: weights, lift, fuel, loads, wind",
     TAKES(OPTION_OUTPUT) | TAKES(OPTION_UNITS), 1, 1, false, run_flight},
    {"compare", "FILE", "faceted, half-gore and billowed side by side, at the same size",
     TAKES(OPTION_OUTPUT) | TAKES(OPTION_UNITS), 1, 1, false, run_compare},
    {"stations", "FILE", "table of the stations where rows meet", TAKES(OPTION_OUTPUT), 1, 1, false,
     run_stations},
    {"outlines", "FILE", "table of the sew line and cut line of every piece", TAKES(OPTION_OUTPUT),
     1, 1, false, run_outlines},
    {"sheets", "FILE", "dimension sheets, to mark pieces by hand with a rule and a batten",
     TAKES(OPTION_OUTPUT) | TAKES(OPTION_UNITS) | TAKES(OPTION_PIECE), 1, 1, false, run_sheets},
    {"templates", "FILE", "full-size paper templates, as PostScript for a printer",
     TAKES(OPTION_OUTPUT) | PAPER | TAKES(OPTION_PIECE) | TAKES(OPTION_SHEET), 1, 1, true,
     run_templates},
    {"layout", "FILE", "what cloth to buy, and where each piece lies on it",
     TAKES(OPTION_OUTPUT) | PAPER | TAKES(OPTION_FORM) | TAKES(OPTION_EFFORT) | TAKES(OPTION_ANEW),
     1, 1, false, run_layout},
    {"cutlist", "FILE", "how many pieces to cut, by colour, style, row and side",
     TAKES(OPTION_OUTPUT), 1, 1, false, run_cut_list},
    {"materials", "FILE", "cloth, tape, thread and lines to buy, and their cost",
     TAKES(OPTION_OUTPUT) | TAKES(OPTION_UNITS), 1, 1, false, run_materials},
};

const struct command_entry *commands(size_t *count) {
    *count = COUNT_OF(command_table);
    return command_table;
}

const struct option_entry *option_entries(size_t *count) {
    *count = COUNT_OF(option_table);
    return option_table;
}
