/* command_line.c - from the arguments to a command and its exit status. */
#include "gorewright/design.h"
#include "gorewright/screen.h"
#include "command/arguments.h"
#include "command/help.h"
#include "command/output.h"
#include "command/overrides.h"

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

/* Values of options are wrong use, found before any file is read. */
static int check_values(const struct request *request, struct text *complaint) {
    struct design scratch;
    size_t sheet;
    design_starter(&scratch);
    if (overrides_apply(request, &scratch, complaint) != 0)
        return -1;
    return sheet_wanted(request, &sheet, complaint);
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

static int answer(const struct request *request, struct text *complaint) {
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
    if (check_values(request, complaint) != 0)
        return usage_error(request, complaint);
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
        status = answer(&request, &complaint);
    text_free(&complaint);
    request_free(&request);
    return status;
}
