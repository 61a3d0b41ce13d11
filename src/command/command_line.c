/* command_line.c - from the arguments to a command and its exit status. */
#include <string.h>
#include <unistd.h>

#include "gorewright/screen.h"
#include "command/arguments.h"
#include "command/help.h"
#include "command/output.h"

static int usage_error(const struct request *request, const struct text *complaint) {
    struct text line = {0};
    const struct command_entry *command = request->command;
    output_complaint(complaint);
    text_add(&line, "See 'gorewright %s%s--help'.\n", command != NULL ? command->name : "",
             command != NULL ? " " : "");
    output_messages(&line);
    text_free(&line);
    return EXIT_USAGE;
}

static int tell(struct text *text) {
    struct text complaint = {0};
    int wrong = output_standard(text, &complaint);
    if (complaint.length > 0)
        output_complaint(&complaint);
    text_free(&complaint);
    text_free(text);
    return wrong == 0 ? EXIT_FINE : EXIT_ERRORS;
}

static bool goes_to_terminal(const struct request *request) {
    const char *path = request->value[OPTION_OUTPUT];
    return (path == NULL || strcmp(path, "-") == 0) && isatty(STDOUT_FILENO);
}

/* No command: the screens.  What they have to say comes once the terminal is given back. */
static int run_screens(const struct request *request) {
    struct screen_wishes wishes = {request->files > 0 ? request->file[0] : NULL,
                                   request->value[OPTION_MONO] != NULL};
    struct text farewell = {0};
    bool terminal = screen_has_terminal();
    int status = screen_run(&wishes, &farewell) == 0 ? EXIT_FINE : EXIT_ERRORS;
    output_messages(&farewell);
    text_free(&farewell);
    return terminal ? status : EXIT_USAGE;
}

static int answer(const struct request *request) {
    struct text text = {0};
    if (request->value[OPTION_VERSION] != NULL) {
        text_add(&text, "gorewright %s\n", VERSION);
        return tell(&text);
    }
    if (request->value[OPTION_HELP] != NULL) {
        if (request->command != NULL)
            help_command(request->command, &text);
        else
            help_all(&text);
        return tell(&text);
    }
    if (request->command == NULL)
        return run_screens(request);
    if ((request->command->unreadable || request->overrides.postscript) &&
        goes_to_terminal(request)) {
        text_add(&text,
                 "%s makes PostScript, which is no use on a terminal; add -o FILE, such as "
                 "-o my-balloon.ps, or pipe it to a printer: ... | lp",
                 request->command->name);
        int status = usage_error(request, &text);
        text_free(&text);
        return status;
    }
    return request->command->run(request);
}

int command_line(int argc, char *const argv[]) {
    struct request request = {0};
    struct text complaint = {0};
    int status;
    output_prepare();
    if (arguments_read(argc, argv, &request, &complaint) != 0)
        status = usage_error(&request, &complaint);
    else
        status = answer(&request);
    text_free(&complaint);
    request_free(&request);
    return status;
}
