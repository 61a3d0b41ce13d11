/* input.c - a design file, or standard input, made into an envelope. */
#include <string.h>
#include <unistd.h>

#include "gorewright/paper.h"
#include "command/input.h"
#include "command/output.h"
#include "command/overrides.h"

static int read_design(struct job *job, const char *path) {
    if (strcmp(path, "-") == 0)
        return design_read_descriptor(STDIN_FILENO, "standard input", &job->design, &job->source,
                                      &job->messages);
    return design_read(path, &job->design, &job->source, &job->messages);
}

/* All in one run: nothing later will look at the paper. */
static int refuse(struct job *job) {
    if ((job->request->command->options & TAKES(OPTION_PAPER)) != 0)
        (void)paper_check(&job->design, &job->messages);
    return -1;
}

int job_read(struct job *job, const char *path) {
    int wrong = read_design(job, path);
    overrides_apply(job->request, &job->design);
    return wrong;
}

int job_load(struct job *job, const char *path) {
    if (job_read(job, path) != 0)
        return refuse(job);
    job->envelope = flight_build(&job->design, &job->sized, &job->messages);
    return job->envelope == NULL ? refuse(job) : 0;
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
