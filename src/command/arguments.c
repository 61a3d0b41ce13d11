/* arguments.c - the command line read against the two tables. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "command/arguments.h"
#include "command/help.h"
#include "command/overrides.h"

struct line {
    int argc;
    char *const *argv;
    int next; /* argument not yet looked at */
};

static int find_option(const char *name) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(option[i].name, name) == 0)
            return (int)i;
    return -1;
}

static int find_letter(char letter) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    for (size_t i = 0; i < count; i++)
        if (option[i].letter == letter)
            return (int)i;
    return -1;
}

static const struct command_entry *find_command(const char *name) {
    size_t count;
    const struct command_entry *command = commands(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(command[i].name, name) == 0)
            return &command[i];
    return NULL;
}

/* Take the value of option `id`: `attached` to it, or the next argument. */
static int take_value(struct line *line, int id, const char *attached, struct request *request,
                      struct text *complaint) {
    size_t count;
    const struct option_entry *option = &option_entries(&count)[id];
    const char *value = attached;
    if (value == NULL && line->next < line->argc)
        value = line->argv[line->next++];
    if (value == NULL || value[0] == '\0') {
        text_add(complaint, "--%s needs a value: --%s %s", option->name, option->name,
                 option->argument);
        return -1;
    }
    request->value[id] = value;
    return 0;
}

static int take_long(struct line *line, const char *argument, struct request *request,
                     struct text *complaint) {
    char name[64]; /* longer than any option */
    const char *equals = strchr(argument, '=');
    size_t length = equals != NULL ? (size_t)(equals - argument) : strlen(argument);
    snprintf(name, sizeof name, "%.*s", (int)length - 2, argument + 2);
    int id = find_option(name);
    if (id < 0) {
        text_add(complaint, "there is no option --%s", name);
        suggest_option(name, complaint);
        return -1;
    }
    size_t count;
    if (option_entries(&count)[id].argument != NULL)
        return take_value(line, id, equals != NULL ? equals + 1 : NULL, request, complaint);
    if (equals != NULL) {
        text_add(complaint, "--%s takes no value", name);
        return -1;
    }
    request->value[id] = "";
    return 0;
}

/* "-hV", "-o FILE" or "-oFILE". */
static int take_letters(struct line *line, const char *argument, struct request *request,
                        struct text *complaint) {
    for (const char *letter = argument + 1; *letter != '\0'; letter++) {
        int id = find_letter(*letter);
        if (id < 0) {
            text_add(complaint, "there is no option %s", argument);
            suggest_letter(*letter, complaint);
            return -1;
        }
        size_t count;
        if (option_entries(&count)[id].argument != NULL)
            return take_value(line, id, letter[1] != '\0' ? letter + 1 : NULL, request, complaint);
        request->value[id] = "";
    }
    return 0;
}

static int no_such_command(const char *word, struct text *complaint) {
    text_add(complaint, "there is no command '%s'", word);
    suggest_command(word, complaint);
    return -1;
}

/* A word with a dot or a slash is meant for a file. */
static int no_such_word(const char *word, struct text *complaint) {
    if (strpbrk(word, "./") == NULL)
        return no_such_command(word, complaint);
    text_add(complaint, "there is no file '%s' here; see what there is with ls *.cfg", word);
    return -1;
}

/* A command comes first; the name of a file that is there, alone, is for the screens. */
static int take_word(const char *word, struct request *request, struct text *complaint) {
    if (request->command == NULL && request->files > 0)
        return no_such_command(request->file[0], complaint);
    if (request->command == NULL) {
        request->command = find_command(word);
        if (request->command != NULL)
            return 0;
        request->found = design_file_named(word);
        if (request->found == NULL || access(request->found, F_OK) != 0)
            return no_such_word(word, complaint);
        word = request->found;
    }
    request->file[request->files++] = word;
    return 0;
}

static int check_options(const struct request *request, struct text *complaint) {
    size_t count;
    const struct option_entry *option = option_entries(&count);
    unsigned taken = request->command != NULL ? request->command->options : SCREEN_OPTIONS;
    for (size_t i = 0; i < count; i++) {
        if (request->value[i] == NULL || (taken & TAKES(i)) != 0)
            continue;
        if (request->command != NULL)
            text_add(complaint, "%s does not take --%s; ", request->command->name, option[i].name);
        else
            text_add(complaint, "the screens do not take --%s; ", option[i].name);
        list_takers((enum option)i, complaint);
        return -1;
    }
    return 0;
}

/* The array ends in NULL. */
static bool names_nothing(const struct request *request) {
    for (const char **file = request->file; *file != NULL; file++)
        if ((*file)[0] == '\0')
            return true;
    return false;
}

static int check_files(const struct request *request, struct text *complaint) {
    const struct command_entry *command = request->command;
    if (request->files < command->files_least)
        text_add(complaint, "%s needs a design file: gorewright %s %s", command->name,
                 command->name, command->arguments);
    else if (request->files > command->files_most)
        text_add(complaint, "%s takes %s: '%s' is one too many", command->name,
                 command->files_most == 0 ? "no file" : "one file",
                 request->file[command->files_most]);
    else if (names_nothing(request))
        text_add(complaint, "the name of a design file given to %s is empty", command->name);
    else
        return 0;
    return -1;
}

static int take_all(struct line *line, struct request *request, struct text *complaint) {
    bool options_ended = false;
    int wrong = 0;
    while (wrong == 0 && line->next < line->argc) {
        const char *argument = line->argv[line->next++];
        if (options_ended || argument[0] != '-' || argument[1] == '\0')
            wrong = take_word(argument, request, complaint);
        else if (strcmp(argument, "--") == 0)
            options_ended = true;
        else if (argument[1] == '-')
            wrong = take_long(line, argument, request, complaint);
        else
            wrong = take_letters(line, argument, request, complaint);
    }
    return wrong;
}

int arguments_read(int argc, char *const argv[], struct request *request, struct text *complaint) {
    struct line line = {argc, argv, 1};
    request->file = calloc((size_t)argc + 1, sizeof *request->file);
    if (request->file == NULL) {
        text_add(complaint, "not enough memory");
        return -1;
    }
    if (take_all(&line, request, complaint) != 0)
        return -1;
    if (request->value[OPTION_HELP] != NULL || request->value[OPTION_VERSION] != NULL)
        return 0;
    if (check_options(request, complaint) != 0 ||
        (request->command != NULL && check_files(request, complaint) != 0))
        return -1;
    return request->command != NULL ? overrides_read(request, complaint) : 0;
}

void request_free(struct request *request) {
    free(request->file);
    free(request->found);
    *request = (struct request){0};
}
