/* walk_bench.c - the bench, as a place of the walk-through. */
#include <stdlib.h>
#include <string.h>

#include "screen/walk.h"

void walk_bench_ends(struct walk *walk) {
    if (walk->bench_begun)
        bench_end(&walk->bench);
    walk->bench_begun = false;
    walk->at_bench = false;
    record_close(walk->record);
    walk->record = NULL;
    free(walk->record_of);
    walk->record_of = NULL;
}

/* The record beside the design; another name has another one. */
static bool open_record(struct walk *walk) {
    const struct session *session = walk->session;
    struct diagnostics messages = {0};
    if (walk->record != NULL && strcmp(walk->record_of, session->path) == 0)
        return true;
    walk_bench_ends(walk);
    walk->record = (session->reads_only ? record_look : record_open)(
        session->path, session_saved(session), &messages);
    walk->record_of = walk->record != NULL ? malloc(strlen(session->path) + 1) : NULL;
    if (walk->record_of != NULL)
        strcpy(walk->record_of, session->path);
    walk_say_first(walk, &messages);
    diagnostics_free(&messages);
    if (walk->record_of != NULL)
        return true;
    record_close(walk->record);
    walk->record = NULL;
    return false;
}

/* The new file gets a copy of the ticks: what is cut stays cut, and nothing is cut twice. */
static void copy_record(const struct walk *walk, const char *path_before, struct text *note) {
    const char *slash = strrchr(path_before, '/');
    const char *name_before = slash == NULL ? path_before : slash + 1;
    struct diagnostics messages = {0};
    switch (record_copy(path_before, walk->session->path, &messages)) {
    case COPY_NOTHING:
        break;
    case COPY_MADE:
        text_add(note, "  It has a copy of the ticks of %s, which keeps its own.", name_before);
        break;
    case COPY_OTHER_THERE:
        text_add(note, "  The ticks already beside it stay as they are.");
        break;
    case COPY_FAILED:
        text_add(note, "  The ticks could not be copied: %s",
                 messages.count > 0 ? messages.item[0].text : "memory is short");
        break;
    }
    diagnostics_free(&messages);
}

static bool same_file(const char *one, const char *other) {
    char *first = file_resolved(one), *second = file_resolved(other);
    bool same = first != NULL && second != NULL && strcmp(first, second) == 0;
    free(first);
    free(second);
    return same;
}

/* A name that the design no longer has would be taken for another design's. */
static void rename_record(struct walk *walk, const struct design *before) {
    const struct session *session = walk->session;
    struct diagnostics messages = {0};
    bool is_open = walk->record != NULL && strcmp(walk->record_of, session->path) == 0;
    struct record *record = is_open ? walk->record : record_open(session->path, before, &messages);
    if (record != NULL)
        (void)record_rename(record, session_saved(session), &messages);
    if (!is_open)
        record_close(record);
    diagnostics_free(&messages);
}

void walk_bench_saved(struct walk *walk, const char *path_before, const struct design *before,
                      struct text *note) {
    if (path_before != NULL && !same_file(path_before, walk->session->path))
        copy_record(walk, path_before, note);
    if (strcmp(before->name, session_saved(walk->session)->name) != 0)
        rename_record(walk, before);
}

void walk_enter_bench(struct walk *walk) {
    const struct session *session = walk->session;
    if (session->envelope == NULL || session->stale) {
        walk_say(walk, CELL_ERROR, "This design cannot be built yet; the bench has to wait.");
        return;
    }
    if (session->path == NULL) {
        walk_save(walk, walk_enter_bench);
        walk_say(walk, CELL_HELP,
                 "The record of the bench is kept beside the design: save it "
                 "first.");
        return;
    }
    if (!open_record(walk))
        return;
    if (walk->bench_begun)
        bench_change(&walk->bench, &session->sized, session->envelope, walk->record);
    else
        bench_begin(&walk->bench, &session->sized, session->envelope, walk->record);
    walk->bench_begun = true;
    walk->at_bench = true;
}

void walk_show_misfits(struct walk *walk) {
    walk_enter_bench(walk);
    if (walk->at_bench) {
        bench_act(&walk->bench, BENCH_SHOW_DIMENSIONS);
        bench_act(&walk->bench, BENCH_SHOW_MISFITS);
    }
}

void walk_leave_bench(struct walk *walk) {
    walk->at_bench = false;
    walk->cuts.known = false;
}

/* ---- told on the steps --------------------------------------------------------- */

/* By the record as the bench holds it, or by one to look at. */
static size_t count_misfits(const struct walk *walk) {
    const struct session *session = walk->session;
    struct diagnostics messages = {0};
    struct misfits misfits = {0};
    struct record *looked_at = NULL;
    bool held = walk->record != NULL && strcmp(walk->record_of, session->path) == 0;
    if (!held)
        looked_at = record_look(session->path, &session->design, &messages);
    record_misfits(held ? walk->record : looked_at, session->envelope,
                   length_step_m(&session->design) / 2, &misfits);
    size_t pieces = misfits.pieces;
    misfits_free(&misfits);
    record_close(looked_at);
    diagnostics_free(&messages);
    return pieces;
}

static bool are_known(const struct cut_check *cuts, const struct session *session) {
    return cuts->known && cuts->path != NULL && strcmp(cuts->path, session->path) == 0 &&
           design_same(&cuts->of, &session->design);
}

void walk_find_misfits(struct walk *walk) {
    const struct session *session = walk->session;
    struct cut_check *cuts = &walk->cuts;
    if (session->path == NULL || session->envelope == NULL || session->stale) {
        cuts->misfits = 0;
        cuts->known = false;
        return;
    }
    if (are_known(cuts, session))
        return;
    free(cuts->path);
    cuts->path = malloc(strlen(session->path) + 1);
    if (cuts->path != NULL)
        strcpy(cuts->path, session->path);
    cuts->of = session->design;
    cuts->misfits = count_misfits(walk);
    cuts->known = true;
}

/* ---- keys ------------------------------------------------------------------------- */

bool walk_bench_action(struct walk *walk, enum action action) {
    static const struct {
        enum action action;
        enum bench_action does;
    } table[] = {
        {ACTION_BENCH_NEXT, BENCH_NEXT},
        {ACTION_BENCH_BACK, BENCH_BACK},
        {ACTION_BENCH_FIRST, BENCH_FIRST},
        {ACTION_BENCH_LAST, BENCH_LAST},
        {ACTION_BENCH_OPEN, BENCH_OPEN},
        {ACTION_BENCH_DIMENSIONS, BENCH_SHOW_DIMENSIONS},
        {ACTION_BENCH_MARKED, BENCH_TICK_MARKED},
        {ACTION_BENCH_CUT, BENCH_TICK_CUT},
        {ACTION_BENCH_SEWN, BENCH_TICK_SEWN},
        {ACTION_BENCH_UNDO, BENCH_UNDO},
        {ACTION_BENCH_NEXT_PIECE, BENCH_NEXT_PIECE},
        {ACTION_BENCH_PREVIOUS_PIECE, BENCH_PREVIOUS_PIECE},
        {ACTION_BENCH_NEXT_GORE, BENCH_NEXT_GORE},
        {ACTION_BENCH_PREVIOUS_GORE, BENCH_PREVIOUS_GORE},
        {ACTION_BENCH_TO_DO, BENCH_NEXT_TO_DO},
        {ACTION_BENCH_OVERVIEW, BENCH_SHOW_OVERVIEW},
        {ACTION_BENCH_MISFITS, BENCH_SHOW_MISFITS},
    };
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (table[i].action == action)
            return bench_act(&walk->bench, table[i].does);
    return false;
}
