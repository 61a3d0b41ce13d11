/* actions.c - what each command does: read, build, write to memory, put out. */
#include <string.h>
#include <unistd.h>

#include "gorewright/paper.h"
#include "command/actions.h"
#include "command/input.h"
#include "command/output.h"
#include "command/waiting.h"

/* Adds to `out`, and to `note` what is worth telling once it is written.
 * Returns: 0, or -1 with errors among the messages of the job. */
typedef int writer(struct job *job, struct text *out, struct text *note);
typedef int loader(struct job *job, const char *path);

static void say_written(const char *path, const struct text *note) {
    struct text line = {0};
    if (isatty(STDERR_FILENO)) {
        text_add(&line, "wrote ");
        text_add_shown(&line, path);
        text_add(&line, "%s%s\n", note->length > 0 ? ": " : "",
                 note->length > 0 ? note->bytes : "");
        output_messages(&line);
    }
    text_free(&line);
}

static int put_out(const struct request *request, const struct text *out, const struct text *note) {
    struct text complaint = {0};
    const char *path = request->value[OPTION_OUTPUT];
    bool to_file = path != NULL && strcmp(path, "-") != 0;
    int wrong;
    if (out->failed) {
        text_add(&complaint, "not enough memory for the output; nothing was written");
        wrong = -1;
    } else if (to_file) {
        /* A command that reads no design makes one, which its builder may have changed. */
        struct output_limits limits = {.only_new = request->files == 0};
        limits.design_path = request->files > 0 ? request->file[0] : NULL;
        wrong = output_file(path, &limits, out, &complaint);
    } else {
        wrong = output_standard(out, &complaint);
    }
    if (complaint.length > 0)
        output_complaint(&complaint);
    else if (wrong == 0 && to_file)
        say_written(path, note);
    text_free(&complaint);
    return wrong == 0 ? EXIT_FINE : EXIT_ERRORS;
}

/* The way of every command with one design: all in memory before anything goes out. */
static int deliver_from(loader *load_it, const struct request *request, writer *write_it) {
    struct job job = {.request = request};
    struct text out = {0}, note = {0};
    int status = EXIT_ERRORS;
    int wrong = load_it(&job, request->file[0]);
    if (wrong == 0)
        wrong = write_it(&job, &out, &note);
    job_report(&job);
    if (wrong == 0)
        status = put_out(request, &out, &note);
    text_free(&note);
    text_free(&out);
    job_free(&job);
    return status;
}

static int deliver(const struct request *request, writer *write_it) {
    return deliver_from(job_load, request, write_it);
}

static int figures(struct job *job, struct text *out, struct text *note) {
    (void)note;
    write_figures(job->envelope, out);
    write_colour_figures(&job->sized, job->envelope, out);
    write_flight_figures(&job->sized, job->envelope, out);
    return 0;
}

static int flight(struct job *job, struct text *out, struct text *note) {
    (void)note;
    flight_warn(&job->sized, job->envelope, &job->messages);
    write_flight(&job->sized, job->envelope, out);
    return 0;
}

/* The design's own style may be the one that cannot be built, as the page then says.  When it
 * can be, its warnings count; when none can, its errors. */
static int compare(struct job *job, struct text *out, struct text *note) {
    (void)note;
    struct diagnostics own = {0};
    bool any = write_comparison(&job->design, out) > 0;
    job->envelope = flight_build(&job->design, &job->sized, &own);
    for (size_t i = 0; i < own.count; i++)
        if (job->envelope != NULL || !any)
            diagnose(&job->messages, own.item[i].severity, own.item[i].code, own.item[i].key, "%s",
                     own.item[i].text);
    diagnostics_free(&own);
    return any ? 0 : -1;
}

static int stations(struct job *job, struct text *out, struct text *note) {
    (void)note;
    write_stations(job->envelope, out);
    return 0;
}

static int outlines(struct job *job, struct text *out, struct text *note) {
    (void)note;
    write_outlines(job->envelope, out);
    return 0;
}

static int sheets(struct job *job, struct text *out, struct text *note) {
    (void)note;
    return write_sheets(&job->sized, job->envelope, job->request->value[OPTION_PIECE], out,
                        &job->messages);
}

static int templates(struct job *job, struct text *out, struct text *note) {
    struct waiting waiting;
    struct progress progress = show_progress(&waiting);
    struct template_job wanted = {.piece = job->request->value[OPTION_PIECE],
                                  .sheet = job->request->overrides.sheet,
                                  .progress = &progress};
    struct template_report report;
    int wrong = write_templates(&job->sized, job->envelope, &wanted, out, &report, &job->messages);
    if (wrong == 0)
        say_paper_needed(&job->sized, &report, note);
    return wrong;
}

/* ---- the cloth ---------------------------------------------------------- */

/* The layout of the design: kept beside it, unless it came from standard input. */
static int open_layout(struct job *job, bool keep, struct cutting *cutting) {
    const struct request *request = job->request;
    const char *path = request->file[0];
    struct waiting waiting;
    (void)show_progress(&waiting);
    struct cutting_job wanted = {.design_path = strcmp(path, "-") == 0 ? NULL : path,
                                 .effort = request->overrides.effort,
                                 .anew = request->value[OPTION_ANEW] != NULL,
                                 .keep = keep,
                                 .carry_on = show_layout_progress,
                                 .context = &waiting};
    int wrong = cutting_open(&wanted, &job->sized, job->envelope, cutting, &job->messages);
    show_layout_end(&waiting);
    return wrong;
}

static int layout(struct job *job, struct text *out, struct text *note) {
    struct cutting cutting = {0};
    struct template_report report;
    int wrong = open_layout(job, true, &cutting);
    if (wrong == 0 && !job->request->overrides.postscript) {
        write_cutting(&job->sized, job->envelope, &cutting, out);
    } else if (wrong == 0) {
        wrong =
            write_cutting_map(&job->sized, job->envelope, &cutting, out, &report, &job->messages);
        if (wrong == 0)
            say_paper_needed(&job->sized, &report, note);
    }
    cutting_free(&cutting);
    return wrong;
}

static int cut_list(struct job *job, struct text *out, struct text *note) {
    (void)note;
    write_cut_list(&job->sized, job->envelope, out);
    return 0;
}

/* A layout that is not kept is worked out, and not kept: to buy is not yet to chalk. */
static int materials(struct job *job, struct text *out, struct text *note) {
    struct cutting cutting = {0};
    (void)note;
    int wrong = open_layout(job, false, &cutting);
    if (wrong == 0)
        write_materials(&job->sized, job->envelope, &cutting, out);
    cutting_free(&cutting);
    return wrong;
}

int run_starter(const struct request *request) {
    struct design design;
    struct text out = {0}, note = {0};
    design_starter(&design);
    design_write(&design, WRITE_COMMENTED, &out);
    int status = put_out(request, &out, &note);
    text_free(&out);
    return status;
}

int run_figures(const struct request *request) {
    return deliver(request, figures);
}

int run_flight(const struct request *request) {
    return deliver(request, flight);
}

int run_compare(const struct request *request) {
    return deliver_from(job_read, request, compare);
}

int run_stations(const struct request *request) {
    return deliver(request, stations);
}

int run_outlines(const struct request *request) {
    return deliver(request, outlines);
}

int run_sheets(const struct request *request) {
    return deliver(request, sheets);
}

int run_templates(const struct request *request) {
    return deliver(request, templates);
}

int run_layout(const struct request *request) {
    return deliver(request, layout);
}

int run_cut_list(const struct request *request) {
    return deliver(request, cut_list);
}

int run_materials(const struct request *request) {
    return deliver(request, materials);
}

/* ---- check ------------------------------------------------------------- */

/* Everything that a later command could stumble over, the paper included. */
static int check_one(const struct request *request, const char *path, struct text *out) {
    struct job job = {.request = request};
    struct template_report report;
    int wrong = job_load(&job, path);
    if (wrong == 0)
        wrong = count_templates(&job.sized, job.envelope, &report, &job.messages);
    if (wrong == 0)
        flight_warn(&job.sized, job.envelope, &job.messages);
    job_report(&job);
    if (wrong == 0) {
        if (request->files > 1) {
            text_add(out, "%s", out->length > 0 ? "\n" : "");
            text_add_shown(out, path);
            text_add(out, ":\n");
        }
        write_summary(&job.sized, job.envelope, out);
        text_add(out, "Templates take ");
        say_paper_needed(&job.sized, &report, out);
        text_add(out, ".\n");
    }
    job_free(&job);
    return wrong;
}

int run_check(const struct request *request) {
    struct text out = {0}, note = {0};
    int status = EXIT_FINE;
    for (size_t i = 0; i < request->files; i++)
        if (check_one(request, request->file[i], &out) != 0)
            status = EXIT_ERRORS;
    if (out.length > 0 && put_out(request, &out, &note) != EXIT_FINE)
        status = EXIT_ERRORS;
    text_free(&out);
    return status;
}
