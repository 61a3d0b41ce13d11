/* command.h - the command line: one table of commands, one table of options.
 *
 * The parser, the help texts, the messages and the check of the manual page all
 * read these two tables.  Only this room prints, exits or touches files that
 * are written.
 */
#ifndef GOREWRIGHT_COMMAND_H
#define GOREWRIGHT_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

/* The order is that of the option table. */
enum option {
    OPTION_OUTPUT,
    OPTION_PAPER,
    OPTION_UNITS,
    OPTION_MEASURED,
    OPTION_PIECE,
    OPTION_SHEET,
    OPTION_FORM,
    OPTION_EFFORT,
    OPTION_ANEW,
    OPTION_MONO,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_COUNT
};

#define TAKES(option) (1u << (option))

/* What the screens take, which open when no command is named. */
#define SCREEN_OPTIONS TAKES(OPTION_MONO)

struct option_entry {
    const char *name;     /* without its dashes */
    char letter;          /* short form, or 0 */
    const char *argument; /* what its value is called, NULL when it takes none */
    const char *help;     /* one line */
};

struct request; /* what was asked for: src/command/arguments.h */

struct command_entry {
    const char *name;
    const char *arguments; /* "", "FILE" or "FILE..." */
    const char *help;      /* one line */
    unsigned options;      /* set of TAKES(); help is always taken */
    size_t files_least, files_most;
    bool unreadable;                           /* what it makes is of no use on a terminal */
    int (*run)(const struct request *request); /* returns the exit status */
};

/* Returns: the first entry; *count how many. */
const struct command_entry *commands(size_t *count);
const struct option_entry *option_entries(size_t *count);

enum exit_status { EXIT_FINE, EXIT_ERRORS, EXIT_USAGE };

/* Run the program.  Given: the arguments of main.  Returns: an exit status. */
int command_line(int argc, char *const argv[]);

#endif
