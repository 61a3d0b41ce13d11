/* cutting_open.c - the layout kept beside a design: found, made, never replaced unasked. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "shop/cutting.h"

static const char ending[] = ".cutting";
enum { KEPT_BYTES_MOST = 4 << 20 };

char *cutting_path(const char *design_path) {
    char *real = file_resolved(design_path);
    char *path = real == NULL ? NULL : malloc(strlen(real) + sizeof ending);
    if (path != NULL) {
        strcpy(path, real);
        strcat(path, ending);
    }
    free(real);
    return path;
}

/* The kept file, as far as there is one. */
struct kept {
    const char *path; /* NULL: nothing is kept */
    bool there;
    struct text text; /* owned */
};

static int complain(const struct kept *kept, const char *what, int reason,
                    struct diagnostics *messages) {
    struct text complaint = {0};
    file_complain(&complaint, what, kept->path, reason);
    diagnose(messages, SEVERITY_ERROR, "cutting-file", "", "%s",
             complaint.failed ? "not enough memory" : complaint.bytes);
    text_free(&complaint);
    return -1;
}

static int look(const struct cutting_job *job, struct kept *kept, struct diagnostics *messages) {
    if (job->design_path == NULL)
        return 0;
    if (kept->path == NULL) {
        diagnose(messages, SEVERITY_ERROR, "cutting-file", "",
                 "cannot find the folder of %s, where its layout is kept", job->design_path);
        return -1;
    }
    int reason = file_read(kept->path, KEPT_BYTES_MOST, &kept->text);
    kept->there = reason == 0;
    return reason == 0 || reason == ENOENT
               ? 0
               : complain(kept, "cannot read the layout kept in", reason, messages);
}

/* ---- a new one --------------------------------------------------------------------------- */

/* Kept beside the design, or a warning that it is not. */
static void keep(const struct kept *kept, const struct design *design, struct cutting *cutting,
                 struct diagnostics *messages) {
    struct text text = {0}, complaint = {0};
    cutting_write(cutting, design, &text);
    if (text.failed)
        text_add(&complaint, "not enough memory");
    else
        cutting->kept = file_write(kept->path, 0666, &text, &complaint) == 0;
    if (!cutting->kept)
        diagnose(messages, SEVERITY_WARNING, "not-kept", "", "this layout is not kept: %s",
                 complaint.bytes);
    text_free(&text);
    text_free(&complaint);
}

static int make_new(const struct cutting_job *job, const struct kept *kept,
                    const struct design *design, const struct envelope *envelope,
                    struct cutting *cutting, struct diagnostics *messages) {
    if (cutting_make(job, design, envelope, cutting, messages) != 0)
        return -1;
    if (!cutting_check(cutting, messages)) {
        diagnose(messages, SEVERITY_ERROR, "internal", "",
                 "the layout that was made is not good: this is a fault of the program; nothing "
                 "is written");
        return -1;
    }
    if (job->keep && kept->path != NULL)
        keep(kept, design, cutting, messages);
    return 0;
}

/* ---- the kept one ---------------------------------------------------------------------------- */

static int use_kept(const struct cutting_job *job, const struct kept *kept,
                    const struct design *design, const struct envelope *envelope,
                    struct cutting *cutting, struct diagnostics *messages) {
    enum cutting_state state =
        cutting_read(&kept->text, kept->path, design, envelope, cutting, messages);
    if (state != CUTTING_SAME && state != CUTTING_CHANGED)
        return -1;
    cutting->kept = true;
    if (state == CUTTING_CHANGED)
        diagnose_at(messages, SEVERITY_WARNING, "cutting-changed", kept->path, 0, "",
                    "pieces or cloth have changed since this layout was made; it still holds, and "
                    "is shown; for a new one add --anew");
    if (job->effort > 0 && job->effort != cutting->effort)
        diagnose_at(messages, SEVERITY_WARNING, "cutting-effort", kept->path, 0, "",
                    "this layout was made with effort %d and is shown as it is; for a new one "
                    "with effort %d add --anew",
                    cutting->effort, job->effort);
    return 0;
}

/* A file that keeps no layout of this program's is never written over. */
static bool may_replace(const struct kept *kept, const struct design *design,
                        const struct envelope *envelope, struct diagnostics *messages) {
    struct cutting old = {0};
    struct diagnostics own = {0};
    bool foreign = kept->there && cutting_read(&kept->text, kept->path, design, envelope, &old,
                                               &own) == CUTTING_FOREIGN;
    if (foreign)
        diagnose_at(messages, SEVERITY_ERROR, own.item[0].code, kept->path, 0, "", "%s",
                    own.item[0].text);
    diagnostics_free(&own);
    cutting_free(&old);
    return !foreign;
}

int cutting_open(const struct cutting_job *job, const struct design *design,
                 const struct envelope *envelope, struct cutting *cutting,
                 struct diagnostics *messages) {
    char *path = job->design_path == NULL ? NULL : cutting_path(job->design_path);
    struct kept kept = {.path = path};
    int status = look(job, &kept, messages);
    if (status == 0 && kept.there && !job->anew)
        status = use_kept(job, &kept, design, envelope, cutting, messages);
    else if (status == 0)
        status = may_replace(&kept, design, envelope, messages)
                     ? make_new(job, &kept, design, envelope, cutting, messages)
                     : -1;
    text_free(&kept.text);
    free(path);
    return status;
}
