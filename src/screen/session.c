/* session.c - a design, every change of it, and the envelope that follows from it. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "gorewright/flight.h"
#include "gorewright/paper.h"
#include "screen/history.h"
#include "screen/session.h"
#include "screen/session_file.h"

/* ---- what follows from a design ---------------------------------------- */

/* A design looked at: its envelope, NULL when it cannot be built, and what there is to say about
 * it.  `kept`: the envelope is that of the session; otherwise it is owned. */
struct examined {
    struct envelope *envelope;
    struct design sized;
    bool kept;
    struct diagnostics messages;
};

/* Values that have no part in building an envelope, as they are in the other design.  With
 * size.by "load" all that weighs has a part. */
static void leave_aside(struct design *design, const struct design *other) {
    memcpy(design->name, other->name, sizeof design->name);
    memcpy(design->cloth.colour, other->cloth.colour, sizeof design->cloth.colour);
    design->cloth.strength_N_m = other->cloth.strength_N_m;
    design->cloth.seam_efficiency = other->cloth.seam_efficiency;
    design->cloth.hottest_C = other->cloth.hottest_C;
    design->cloth.emissivity = other->cloth.emissivity;
    design->tape.strength_N = other->tape.strength_N;
    design->heat = other->heat;
    design->wind = other->wind;
    design->pace = other->pace;
    design->paper = other->paper;
    if (design->size.by == SIZE_LOAD)
        return;
    design->tape = other->tape;
    design->thread = other->thread;
    design->vent = other->vent;
    design->rigging = other->rigging;
    design->rig = other->rig;
    design->weighed = other->weighed;
    design->air = other->air;
}

/* Whether the envelope at hand is that of another design too. */
static bool may_keep(const struct session *session, const struct design *design) {
    struct design like = *design;
    if (session->envelope == NULL || session->stale || session->messages.count > 0)
        return false; /* what building it said would be lost */
    leave_aside(&like, &session->design);
    return design_same(&session->design, &like);
}

static void examine(const struct session *session, const struct design *design,
                    struct examined *examined) {
    struct paper paper;
    if (design_check(design, NULL, &examined->messages) != 0)
        return;
    paper_find(design->paper.sheet, &paper, &examined->messages);
    examined->kept = may_keep(session, design);
    if (!examined->kept) {
        examined->envelope = flight_build(design, &examined->sized, &examined->messages);
        return;
    }
    examined->envelope = session->envelope;
    examined->sized = *design;
    examined->sized.size = session->sized.size;
    examined->sized.outline.lift_per_volume_N_m3 = session->sized.outline.lift_per_volume_N_m3;
}

static void adopt_envelope(struct session *session, const struct examined *examined) {
    struct session_file *file = session->file;
    session->stale = examined->envelope == NULL;
    if (examined->envelope == NULL)
        return;
    if (session->envelope != NULL) {
        file->before = session->envelope->built;
        file->mass_before_kg = session->masses.envelope_kg;
        file->templates_before = session->envelope->templates;
        file->has_before = true;
    }
    if (!examined->kept)
        envelope_free(session->envelope);
    session->envelope = examined->envelope;
    session->sized = examined->sized;
    session->masses = masses_of(&session->sized, session->envelope);
}

static void adopt(struct session *session, const struct design *design, struct examined *examined) {
    session->design = *design;
    diagnostics_free(&session->messages);
    diagnostics_free(&session->refused);
    session->messages = examined->messages;
    adopt_envelope(session, examined);
    session->changed =
        !session->file->is_saved || !design_same(&session->design, &session->file->saved);
}

static void adopt_design(struct session *session, const struct design *design) {
    struct examined examined = {0};
    examine(session, design, &examined);
    adopt(session, design, &examined);
}

/* ---- changes ----------------------------------------------------------- */

int session_change(struct session *session, const struct design *design, bool keep_broken) {
    struct examined examined = {0};
    diagnostics_free(&session->refused);
    if (design_same(&session->design, design))
        return 0;
    examine(session, design, &examined);
    bool broken = examined.messages.errors > 0 || examined.envelope == NULL;
    bool refused = broken && !keep_broken;
    if (!refused && history_add(session->history, &session->design, design) != 0) {
        diagnostics_free(&examined.messages);
        diagnose(&examined.messages, SEVERITY_ERROR, "memory", "",
                 "there is not enough memory to remember this change, so it was not made; save "
                 "your work");
        refused = true;
    }
    if (refused) {
        if (!examined.kept)
            envelope_free(examined.envelope);
        session->refused = examined.messages;
        return -1;
    }
    adopt(session, design, &examined);
    return broken ? -1 : 0;
}

bool session_undo(struct session *session) {
    struct design design = session->design;
    if (!history_back(session->history, &design))
        return false;
    adopt_design(session, &design);
    return true;
}

bool session_redo(struct session *session) {
    struct design design = session->design;
    if (!history_forth(session->history, &design))
        return false;
    adopt_design(session, &design);
    return true;
}

size_t session_undo_count(const struct session *session) {
    return history_backs(session->history);
}

size_t session_redo_count(const struct session *session) {
    return history_forths(session->history);
}

const struct built *session_before(const struct session *session) {
    return session->file->has_before ? &session->file->before : NULL;
}

double session_mass_before_kg(const struct session *session) {
    return session->file->has_before ? session->file->mass_before_kg : 0;
}

size_t session_templates_before(const struct session *session) {
    return session->file->has_before ? session->file->templates_before : 0;
}

/* ---- beginning and end ------------------------------------------------- */

static struct session *session_empty(void) {
    struct session *session = calloc(1, sizeof *session);
    if (session == NULL)
        return NULL;
    session->history = history_new();
    session->file = calloc(1, sizeof *session->file);
    if (session->file != NULL)
        session->file->lock.fd = -1;
    if (session->file != NULL && session->history != NULL)
        return session;
    session_free(session);
    return NULL;
}

void session_free(struct session *session) {
    if (session == NULL)
        return;
    if (session->file != NULL) {
        lock_drop(&session->file->lock);
        free(session->file->resolved);
        free(session->file->recovery);
    }
    envelope_free(session->envelope);
    text_free(&session->warning);
    diagnostics_free(&session->messages);
    diagnostics_free(&session->refused);
    history_free(session->history);
    free(session->file);
    free(session->path);
    free(session);
}

struct session *session_begin(const struct design *design) {
    struct session *session = session_empty();
    if (session == NULL)
        return NULL;
    session->file->saved = *design;
    session->file->is_saved = true;
    adopt_design(session, design);
    return session;
}

struct session *session_new(void) {
    struct design starter;
    design_starter(&starter);
    return session_begin(&starter);
}

static struct session *short_of_memory(struct session *session, struct diagnostics *messages) {
    diagnose(messages, SEVERITY_ERROR, "memory", "", "there is not enough memory to begin");
    session_free(session);
    return NULL;
}

/* Say at once what would otherwise be found out at the first save. */
static void warn_of_protection(struct session *session) {
    const char *resolved = session->file->resolved;
    if (access(resolved, F_OK) == 0 && access(resolved, W_OK) != 0)
        text_add(&session->warning,
                 "This file is write-protected: what you change can only be saved under another "
                 "name.");
    else if (!file_folder_takes_files(resolved))
        text_add(&session->warning,
                 "This folder is write-protected: nothing can be saved or ticked here.  Save the "
                 "design in another folder.");
}

/* The same file: its lock goes from one session to the other. */
static bool hand_over(struct session *from, struct session *to) {
    if (from == NULL || from->file->lock.fd < 0 || to->file->resolved == NULL ||
        strcmp(from->file->resolved, to->file->resolved) != 0)
        return false;
    to->file->lock = from->file->lock;
    from->file->lock = (struct lock){-1, NULL};
    return true;
}

/* Take the name of the design and lock it.  Given: old, whose lock may be handed over, or NULL.
 * Returns: false when memory is short. */
static bool take_name(struct session *session, const char *path, struct session *old) {
    struct session_file *file = session->file;
    session->path = joined(path, "", "");
    file->resolved = file_resolved(path);
    if (file->resolved == NULL && errno != ENOMEM) /* its folder has gone: saving will say so */
        file->resolved = joined(path, "", "");
    if (session->path == NULL || file->resolved == NULL)
        return false;
    file_sweep(file->resolved);
    enum locking locking =
        hand_over(old, session) ? LOCK_HELD : lock_take(&file->lock, file->resolved);
    session->reads_only = locking == LOCK_BUSY || locking == LOCK_UNREADABLE;
    if (session->reads_only)
        lock_say(locking, file->resolved, &session->warning);
    else
        warn_of_protection(session);
    file->stamp = stamp_of(file->resolved);
    return true;
}

/* Not to be opened: the reasons go to the caller. */
static struct session *give_up(struct session *session, struct diagnostics *why,
                               struct diagnostics *messages) {
    session_free(session);
    diagnostics_free(messages);
    *messages = *why;
    return NULL;
}

struct session *session_open_instead(struct session *old, const char *path,
                                     struct diagnostics *messages) {
    struct design_source source = {0};
    struct diagnostics first = {0};
    struct examined examined = {0};
    struct design design;
    struct session *session = session_empty();
    if (session == NULL)
        return short_of_memory(NULL, messages);
    /* Once to see whether it is a design at all, and once more under the lock. */
    if (read_mendable(path, &design, NULL, &first) != 0)
        return give_up(session, &first, messages);
    diagnostics_free(&first);
    if (!take_name(session, path, old))
        return short_of_memory(session, messages);
    if (read_mendable(path, &design, &source, &examined.messages) != 0) {
        design_source_free(&source);
        if (old != NULL)
            hand_over(session, old);
        return give_up(session, &examined.messages, messages);
    }
    session->file->saved = design;
    session->file->is_saved = true;
    if (examined.messages.errors == 0)
        examine(session, &design, &examined);
    design_locate(&examined.messages, &source);
    adopt(session, &design, &examined);
    design_source_free(&source);
    return session;
}

struct session *session_open(const char *path, struct diagnostics *messages) {
    return session_open_instead(NULL, path, messages);
}

const struct design *session_saved(const struct session *session) {
    return &session->file->saved;
}

/* Work begun from a recovery file was made on this state of the design's own file. */
static bool recovered_stamp(const char *recovery, struct stamp *stamp) {
    static const char sign[] = "# made on ";
    struct text text = {0};
    unsigned long long hash;
    size_t length;
    const char *line = file_read(recovery, FILE_BYTES_MOST, &text) == 0 && text.bytes != NULL
                           ? strstr(text.bytes, sign)
                           : NULL;
    bool found = line != NULL && sscanf(line + strlen(sign), "%zu %16llx", &length, &hash) == 2;
    if (found)
        *stamp = (struct stamp){true, length, hash};
    text_free(&text);
    return found;
}

/* What the file of the design holds, where it can be read. */
static void read_saved(const char *path, struct design *saved) {
    struct diagnostics nothing = {0};
    struct design design;
    if (read_mendable(path, &design, NULL, &nothing) == 0)
        *saved = design;
    diagnostics_free(&nothing);
}

struct session *session_open_recovery(const char *path, const char *recovery,
                                      struct diagnostics *messages) {
    struct design design;
    struct diagnostics read = {0};
    struct session *session = session_empty();
    if (session == NULL)
        return short_of_memory(NULL, messages);
    if (read_mendable(recovery, &design, NULL, &read) != 0)
        return give_up(session, &read, messages);
    diagnostics_free(&read);
    session->file->recovery = joined(recovery, "", "");
    if (session->file->recovery == NULL || (path != NULL && !take_name(session, path, NULL)))
        return short_of_memory(session, messages);
    session->file->saved = design;
    if (path != NULL) {
        recovered_stamp(recovery, &session->file->stamp);
        read_saved(path, &session->file->saved);
    }
    adopt_design(session, &design);
    return session;
}
