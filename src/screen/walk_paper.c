/* walk_paper.c - how many sheets, and out with them. */
#include <stdio.h>
#include <string.h>

#include "screen/plainly.h"
#include "screen/walk.h"

void walk_count_sheets(struct walk *walk) {
    const struct session *session = walk->session;
    struct sheet_count *sheets = &walk->sheets;
    struct diagnostics messages = {0};
    if (session->envelope == NULL || session->stale)
        return;
    if (sheets->known && design_same(&session->design, &sheets->of))
        return;
    text_free(&sheets->why);
    sheets->of = session->design;
    sheets->known = true;
    sheets->wrong =
        count_templates(&session->sized, session->envelope, &sheets->report, &messages) != 0;
    if (messages.count > 0)
        say_message(&messages.item[0], NULL, &sheets->why);
    diagnostics_free(&messages);
}

/* A name without its ".cfg". */
static size_t stem_length(const char *path) {
    size_t length = strlen(path);
    return length > 4 && strcmp(path + length - 4, ".cfg") == 0 ? length - 4 : length;
}

void walk_paper_names(const struct walk *walk, struct paper_names *names) {
    const char *path = walk->session->path;
    *names = (struct paper_names){0};
    if (path != NULL)
        text_add(&names->design, "%s", path);
    else
        walk_free_name(&walk->session->design, &names->design);
    if (names->design.failed || names->design.bytes == NULL)
        return;
    int stem = (int)stem_length(names->design.bytes);
    text_add(&names->templates, "%.*s-templates.ps", stem, names->design.bytes);
    text_add(&names->sheets, "%.*s-sheets.txt", stem, names->design.bytes);
}

void paper_names_free(struct paper_names *names) {
    text_free(&names->design);
    text_free(&names->templates);
    text_free(&names->sheets);
}

static bool put(struct walk *walk, const struct text *path, const struct text *text) {
    struct text complaint = {0};
    int wrong = -1;
    if (text->failed || path->failed || path->bytes == NULL)
        text_add(&complaint, "not enough memory; nothing was written");
    else if (design_seems(path->bytes))
        text_add(&complaint,
                 "%s: is a design, and stays as it is; rename it, or save this one under another "
                 "name",
                 path->bytes);
    else
        wrong = file_write(path->bytes, 0666, text, &complaint);
    if (wrong != 0)
        walk_say(walk, CELL_ERROR, "%s",
                 complaint.bytes != NULL ? complaint.bytes : "not enough memory");
    text_free(&complaint);
    return wrong == 0;
}

static void write_files(struct walk *walk, const struct paper_names *names) {
    const struct session *session = walk->session;
    const struct template_job all = {0};
    struct template_report report;
    struct text templates = {0}, sheets = {0};
    struct diagnostics messages = {0};
    if (write_templates(&session->sized, session->envelope, &all, &templates, &report, &messages) !=
            0 ||
        write_sheets(&session->sized, session->envelope, NULL, &sheets, &messages) != 0)
        walk_say_first(walk, &messages);
    else if (put(walk, &names->templates, &templates) && put(walk, &names->sheets, &sheets)) {
        walk->written = true;
        walk->outdated = false;
        walk_say(walk, CELL_HELP,
                 "Written. Print page 1 of %s first, at 100 %%, and measure its "
                 "cross.",
                 names->templates.bytes);
    }
    diagnostics_free(&messages);
    text_free(&templates);
    text_free(&sheets);
}

void walk_write(struct walk *walk) {
    struct session *session = walk->session;
    struct paper_names names;
    struct diagnostics messages = {0};
    if (session->envelope == NULL || session->stale) {
        walk_say(walk, CELL_ERROR, "This design cannot be built yet; see what is wrong with it.");
        return;
    }
    /* The paper and the design on the disk belong together: saved first, then back here. */
    if (session->path != NULL && session->changed) {
        walk_save(walk, walk_write);
        return;
    }
    walk_paper_names(walk, &names);
    /* A design without a name is kept with what is made from it. */
    if (session->path == NULL && names.design.bytes != NULL &&
        session_save(session, names.design.bytes, false, &messages) != SAVED)
        walk_say_first(walk, &messages);
    else
        write_files(walk, &names);
    diagnostics_free(&messages);
    paper_names_free(&names);
}
