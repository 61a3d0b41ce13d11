/* input.c - a design file, or standard input, made into an envelope. */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "command/input.h"
#include "command/output.h"
#include "command/overrides.h"

/* A design of every parameter, commented, is some 10 kB. */
enum { STANDARD_INPUT_MOST = 1 << 20, CHUNK = 65536 };

static const char standard_input[] = "standard input";

static int read_standard_input(struct text *text, struct diagnostics *messages) {
    char chunk[CHUNK];
    while (text->length <= STANDARD_INPUT_MOST) {
        ssize_t count = read(STDIN_FILENO, chunk, sizeof chunk);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0) {
            diagnose_at(messages, SEVERITY_ERROR, "read", standard_input, 0, "",
                        "cannot be read: %s", strerror(errno));
            return -1;
        }
        if (count == 0)
            return 0;
        text_add_bytes(text, chunk, (size_t)count);
    }
    diagnose_at(messages, SEVERITY_ERROR, "too-large", standard_input, 0, "",
                "is more than 1 MB; a design is a few kilobytes of text");
    return -1;
}

static int read_design(struct job *job, const char *path) {
    if (strcmp(path, "-") != 0)
        return design_read(path, &job->design, &job->source, &job->messages);
    struct text text = {0};
    int wrong = read_standard_input(&text, &job->messages);
    if (wrong == 0)
        wrong = design_read_text(text.bytes != NULL ? text.bytes : "", text.length, standard_input,
                                 &job->design, &job->source, &job->messages);
    text_free(&text);
    return wrong;
}

int job_load(struct job *job, const char *path) {
    struct text complaint = {0};
    int wrong = read_design(job, path);
    if (wrong == 0) {
        wrong = overrides_apply(job->request, &job->design, &complaint);
        text_free(&complaint);
    }
    if (wrong == 0) {
        job->envelope = envelope_build(&job->design, &job->messages);
        wrong = job->envelope == NULL ? -1 : 0;
    }
    return wrong;
}

void job_report(struct job *job) {
    struct text text = {0};
    overrides_locate(job->request, &job->messages);
    design_locate(&job->messages, &job->source);
    diagnostics_write(&job->messages, &text);
    output_messages(&text);
    text_free(&text);
    diagnostics_free(&job->messages);
}

void job_free(struct job *job) {
    envelope_free(job->envelope);
    design_source_free(&job->source);
    diagnostics_free(&job->messages);
}
