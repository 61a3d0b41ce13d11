/* help.h - texts made from the tables of commands and options. */
#ifndef COMMAND_HELP_H
#define COMMAND_HELP_H

#include "gorewright/base.h"
#include "gorewright/command.h"

/* Help on the whole program, at most 79 columns. */
void help_all(struct text *into);

/* Help on one command. */
void help_command(const struct command_entry *command, struct text *into);

/* Add "; did you mean ...?" when something near exists. */
void suggest_command(const char *word, struct text *into);
void suggest_option(const char *given, struct text *into);
void suggest_letter(char letter, struct text *into);

/* "sheets and templates do", "it stands alone": who takes an option. */
void list_takers(enum option option, struct text *into);

#endif
