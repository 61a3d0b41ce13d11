/* help.c - everything said about commands and options is made from their tables. */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "command/help.h"

static void add_option(const struct option_entry *option, struct text *into) {
    char name[48];
    snprintf(name, sizeof name, "--%s%s%s", option->name, option->argument != NULL ? " " : "",
             option->argument != NULL ? option->argument : "");
    if (option->letter != 0)
        text_add(into, "  -%c, %-22s %s\n", option->letter, name, option->help);
    else
        text_add(into, "      %-22s %s\n", name, option->help);
}

void help_all(struct text *into) {
    size_t count;
    text_add(into, "Gores, panels, templates and dimension sheets for model hot-air balloons.\n\n"
                   "usage: gorewright COMMAND [OPTION...] [FILE]\n"
                   "       gorewright [--mono] [FILE]               the screens\n\ncommands:\n");
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count; i++)
        text_add(into, "  %-10s %s\n", command[i].name, command[i].help);
    text_add(into, "\noptions (a command takes some of them: gorewright COMMAND --help):\n");
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        add_option(&option[i], into);
    text_add(into, "\nFILE is a design; - stands for standard input.\n"
                   "Exit status: 0 fine, 1 errors, 2 wrong use.\n\n"
                   "Start with:  gorewright     the screens, which lead from size to paper\n"
                   "or with:     gorewright starter -o my-balloon.cfg\n\n"
                   "A calculation is never the last word: the first inflation is. Fire, gas and\n"
                   "height can hurt: follow your local rules and ask people licensed for them.\n");
}

void help_command(const struct command_entry *command, struct text *into) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    text_add(into, "usage: gorewright %s [OPTION...]%s%s\n\n%s: %s.\n\noptions:\n", command->name,
             command->arguments[0] != '\0' ? " " : "", command->arguments, command->name,
             command->help);
    for (size_t i = 0; i < count; i++)
        if ((command->options & TAKES(i)) != 0 || i == OPTION_HELP)
            add_option(&option[i], into);
    if (command->files_most > 0)
        text_add(into, "\nFILE is a design; - stands for standard input.\n");
}

static bool is_option(const char *word) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(option[i].name, word) == 0)
            return true;
    return false;
}

static bool is_file(const char *path) {
    struct stat file;
    return stat(path, &file) == 0 && S_ISREG(file.st_mode);
}

void suggest_command(const char *word, struct text *into) {
    enum { COMMANDS_MOST = 32 };
    const char *name[COMMANDS_MOST + 1] = {NULL};
    size_t count;
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count && i < COMMANDS_MOST; i++)
        name[i] = command[i].name;
    const char *nearest = nearest_word(word, name);
    if (is_option(word))
        text_add(into, "; did you mean gorewright --%s?", word);
    else if (is_file(word))
        text_add(into, "; did you mean gorewright check %s?", word);
    else if (nearest != NULL)
        text_add(into, "; did you mean '%s'?", nearest);
}

void suggest_option(const char *given, struct text *into) {
    const char *name[OPTION_COUNT + 1] = {NULL};
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        name[i] = option[i].name;
    const char *nearest = nearest_word(given, name);
    if (nearest != NULL)
        text_add(into, "; did you mean --%s?", nearest);
}

void suggest_letter(char letter, struct text *into) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        if (option[i].letter != 0 && ascii_lower(option[i].letter) == ascii_lower(letter))
            text_add(into, "; did you mean -%c?", option[i].letter);
}

void list_takers(enum option option, struct text *into) {
    size_t count, takers = 0, said = 0;
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count; i++)
        takers += (command[i].options & TAKES(option)) != 0;
    for (size_t i = 0; i < count; i++) {
        if ((command[i].options & TAKES(option)) == 0)
            continue;
        const char *before = said == 0 ? "" : said + 1 == takers ? " and " : ", ";
        text_add(into, "%s%s", before, command[i].name);
        said++;
    }
    if (takers == 0)
        text_add(into, "the screens");
    text_add(into, takers == 1 ? " does" : " do");
}
