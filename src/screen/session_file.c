/* session_file.c - the lock, what the file held, and saving. */
#include <errno.h>
#include <fcntl.h>
#include <pwd.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "screen/session.h"
#include "screen/session_file.h"

char *joined(const char *one, const char *two, const char *three) {
    size_t size = strlen(one) + strlen(two) + strlen(three) + 1;
    char *whole = malloc(size);
    if (whole != NULL)
        snprintf(whole, size, "%s%s%s", one, two, three);
    return whole;
}

/* ---- what a file held -------------------------------------------------- */

struct stamp stamp_of_bytes(const char *bytes, size_t length) {
    /* FNV-1a, 64 bits: public-domain arithmetic. */
    uint64_t hash = 0xCBF29CE484222325u;
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)bytes[i]) * 0x100000001B3u;
    return (struct stamp){true, length, hash};
}

struct stamp stamp_of(const char *path) {
    struct text text = {0};
    struct stamp stamp = {0};
    int reason = file_read(path, FILE_BYTES_MOST, &text);
    if (reason == 0)
        stamp = stamp_of_bytes(text.bytes, text.length);
    else
        stamp.exists = reason != ENOENT; /* there, but as nothing that was ever read */
    text_free(&text);
    return stamp;
}

bool stamp_same(const struct stamp *one, const struct stamp *other) {
    return one->exists == other->exists && one->length == other->length && one->hash == other->hash;
}

/* ---- the lock ---------------------------------------------------------- */

/* Still the file of that name?  Whoever held the lock before removes it on leaving. */
static bool is_at(int fd, const char *path) {
    struct stat held, there;
    return fstat(fd, &held) == 0 && lstat(path, &there) == 0 && held.st_dev == there.st_dev &&
           held.st_ino == there.st_ino;
}

/* Somebody else's lock can be tried when it can be read: others are meant to. */
static int open_lock(const char *path) {
    enum { FOR_ALL_TO_READ = 0644 };
    int fd = open(path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, FOR_ALL_TO_READ);
    if (fd < 0 && errno == EACCES)
        return open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (fd >= 0)
        (void)fchmod(fd, FOR_ALL_TO_READ); /* whatever the umask; it may be another's */
    return fd;
}

/* Who holds it, for whoever meets it. */
static void sign_lock(int fd) {
    char line[32];
    int length = snprintf(line, sizeof line, "%ld\n", (long)getpid());
    if (ftruncate(fd, 0) == 0)
        (void)!write(fd, line, (size_t)length);
}

static enum locking lock_once(struct lock *lock, bool *again) {
    struct stat there;
    *again = false;
    lock->fd = open_lock(lock->path);
    if (lock->fd < 0)
        return errno == EACCES && lstat(lock->path, &there) == 0 ? LOCK_UNREADABLE
                                                                 : LOCK_IMPOSSIBLE;
    if (flock(lock->fd, LOCK_EX | LOCK_NB) == 0) {
        *again = !is_at(lock->fd, lock->path);
        if (!*again) {
            sign_lock(lock->fd);
            return LOCK_HELD;
        }
    } else if (errno == EWOULDBLOCK) {
        close(lock->fd);
        lock->fd = -1;
        return LOCK_BUSY;
    } else
        unlink(lock->path); /* locks do not work here: leave none lying about */
    close(lock->fd);
    lock->fd = -1;
    return LOCK_IMPOSSIBLE;
}

/* The process that signed a lock, 0 when none did or it is no more. */
static long signed_by(const char *path) {
    struct text text = {0};
    long process = 0;
    if (file_read(path, 31, &text) == 0 && text.bytes != NULL)
        process = strtol(text.bytes, NULL, 10);
    text_free(&text);
    return process > 0 && (kill((pid_t)process, 0) == 0 || errno == EPERM) ? process : 0;
}

/* "user mary" */
static void add_owner(const char *path, struct text *into) {
    struct stat about;
    const struct passwd *owner = lstat(path, &about) == 0 ? getpwuid(about.st_uid) : NULL;
    if (owner != NULL)
        text_add(into, "user %s", owner->pw_name);
    else
        text_add(into, "another user");
}

void lock_say(enum locking locking, const char *resolved, struct text *into) {
    char *path = joined(resolved, ".lock", "");
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    if (path == NULL)
        return;
    if (locking == LOCK_UNREADABLE) {
        text_add(into, "Read only: %s is a lock of ", slash == NULL ? path : slash + 1);
        add_owner(path, into);
        text_add(into, ".  If nobody has this design open, remove that file.");
    } else {
        long process = signed_by(path);
        text_add(into, "Read only: ");
        if (process > 0)
            text_add(into, "process %ld of ", process);
        add_owner(path, into);
        text_add(into, " has this design open.  Save under another name here.");
    }
    free(path);
}

enum locking lock_take(struct lock *lock, const char *resolved) {
    enum { TRIES = 20 };
    enum locking result = LOCK_IMPOSSIBLE;
    bool again = true;
    *lock = (struct lock){-1, joined(resolved, ".lock", "")};
    for (int i = 0; lock->path != NULL && again && i < TRIES; i++)
        result = lock_once(lock, &again);
    if (result != LOCK_HELD)
        lock_drop(lock);
    return result;
}

void lock_drop(struct lock *lock) {
    if (lock->fd >= 0) {
        if (is_at(lock->fd, lock->path))
            unlink(lock->path);
        close(lock->fd);
    }
    free(lock->path);
    *lock = (struct lock){-1, NULL};
}

/* ---- reading ----------------------------------------------------------- */

int read_mendable(const char *path, struct design *design, struct design_source *source,
                  struct diagnostics *messages) {
    struct diagnostics values = {0};
    if (design_read(path, design, source, messages) == 0)
        return 0;
    /* Every error must be one that shows in the values themselves. */
    bool mendable = design->format == DESIGN_FORMAT && design_check(design, NULL, &values) != 0 &&
                    values.errors == messages->errors;
    diagnostics_free(&values);
    return mendable ? 0 : -1;
}

/* ---- saving ------------------------------------------------------------ */

/* One save under way. */
struct saving_job {
    struct session *session;
    const char *path;
    char *resolved; /* owned */
    bool own;       /* under the session's own name */
    struct text text;
    struct lock lock; /* of a new name */
    struct diagnostics *messages;
};

static enum saving fail(const struct saving_job *job, const char *code, const char *why) {
    diagnose(job->messages, SEVERITY_ERROR, code, "", "%s: %s", job->path, why);
    return SAVE_FAILED;
}

static enum saving fail_by(const struct saving_job *job, struct text *complaint) {
    diagnose(job->messages, SEVERITY_ERROR, "file", "", "%s",
             complaint->bytes != NULL ? complaint->bytes : "there is not enough memory to save");
    text_free(complaint);
    return SAVE_FAILED;
}

static enum saving prepare(struct saving_job *job) {
    const struct session *session = job->session;
    struct text complaint = {0};
    job->resolved = file_resolved(job->path);
    if (job->resolved == NULL) {
        file_complain(&complaint, "cannot write", job->path, errno);
        return fail_by(job, &complaint);
    }
    struct stat there;
    if (stat(job->resolved, &there) == 0 && !S_ISREG(there.st_mode))
        return fail(job, "file", "is a folder or a device; choose the name of a plain file");
    job->own =
        session->file->resolved != NULL && strcmp(session->file->resolved, job->resolved) == 0;
    if (job->own && session->reads_only)
        return fail(job, "reads-only",
                    "another window works on this design, so it cannot be saved from here; save "
                    "it under another name");
    enum locking locking = job->own ? LOCK_HELD : lock_take(&job->lock, job->resolved);
    if (locking == LOCK_BUSY || locking == LOCK_UNREADABLE)
        return fail(job, "reads-only",
                    "another window works on a design of this name; choose another name");
    return SAVED;
}

/* Is there something that the builder may not want to lose? */
static enum saving ask(const struct saving_job *job, const struct stamp *now, bool over) {
    if (over || !now->exists || (job->own && stamp_same(now, &job->session->file->stamp)))
        return SAVED;
    diagnose(job->messages, SEVERITY_WARNING, "overwrite", "",
             job->own ? "%s: was changed by another program since it was read here; save over "
                        "it, or under another name?"
                      : "%s: there is a file of this name already; save over it, or under "
                        "another name?",
             job->path);
    return SAVE_ASK;
}

/* Exactly what this program writes for the design in it: nothing is lost with it. */
static bool is_as_written(const struct text *content, const char *name) {
    struct design design = {0};
    struct diagnostics messages = {0};
    struct text text = {0};
    bool same = false;
    if (design_read_text(content->bytes, content->length, name, &design, NULL, &messages) == 0) {
        design_write(&design, WRITE_COMMENTED, &text);
        same = !text.failed && text.length == content->length &&
               memcmp(text.bytes, content->bytes, text.length) == 0;
    }
    diagnostics_free(&messages);
    text_free(&text);
    return same;
}

/* A copy beside it, under the first name that is free or holds the same already. */
static int keep_copy(const char *resolved, const struct text *content, struct text *complaint) {
    enum { COPIES_MOST = 99 };
    const struct stamp stamp = stamp_of_bytes(content->bytes, content->length);
    for (int i = 1; i <= COPIES_MOST; i++) {
        char number[16] = "";
        if (i > 1)
            snprintf(number, sizeof number, "%d", i);
        char *name = joined(resolved, ".before", number);
        if (name == NULL)
            break;
        struct stamp there = stamp_of(name);
        bool free_name = !there.exists;
        int wrong = free_name ? file_write(name, 0666, content, complaint) : 0;
        free(name);
        if (free_name || stamp_same(&there, &stamp))
            return wrong;
    }
    text_add(complaint,
             "%s: its old content could not be kept beside it as .before: move older such "
             "copies away, then save again",
             resolved);
    return -1;
}

static void complain_of_reading(const struct saving_job *job, int reason, struct text *complaint) {
    if (reason == EFBIG) /* the usual advice is about writing */
        text_add(complaint, "%s: what is there is longer than any design; choose another name",
                 job->path);
    else
        file_complain(complaint, "cannot read what is there", job->path, reason);
}

/* What a person wrote into the file is kept before it is written over. */
static enum saving keep_hand_written(const struct saving_job *job) {
    struct text content = {0}, complaint = {0};
    int wrong = 0, reason = file_read(job->resolved, FILE_BYTES_MOST, &content);
    if (reason == 0 && content.length > 0 && !is_as_written(&content, job->path))
        wrong = keep_copy(job->resolved, &content, &complaint);
    else if (reason != 0 && reason != ENOENT) {
        wrong = -1;
        complain_of_reading(job, reason, &complaint);
    }
    text_free(&content);
    return wrong == 0 ? SAVED : fail_by(job, &complaint);
}

/* From now on the file is the session's own. */
static void take_over(struct saving_job *job, char *path) {
    struct session *session = job->session;
    struct session_file *file = session->file;
    if (!job->own) {
        lock_drop(&file->lock);
        file->lock = job->lock;
        job->lock = (struct lock){-1, NULL};
        free(file->resolved);
        file->resolved = job->resolved;
        job->resolved = NULL;
        session->reads_only = false;
        text_free(&session->warning);
    }
    free(session->path);
    session->path = path;
    file->stamp = stamp_of_bytes(job->text.bytes, job->text.length);
    file->saved = session->design;
    file->is_saved = true;
    session->changed = false;
    session_drop_recovery(session, NULL);
}

static enum saving write_design(struct saving_job *job) {
    struct session_file *file = job->session->file;
    struct text complaint = {0};
    char *path = joined(job->path, "", "");
    design_write(&job->session->design, WRITE_COMMENTED, &job->text);
    if (path == NULL || job->text.failed) {
        free(path);
        return fail(job, "memory", "there is not enough memory to save; close other programs");
    }
    const struct stamp wanted = stamp_of_bytes(job->text.bytes, job->text.length);
    if (file_write(job->path, 0666, &job->text, &complaint) == 0) {
        take_over(job, path);
        return SAVED;
    }
    free(path);
    struct stamp now = stamp_of(job->resolved);
    if (job->own && stamp_same(&now, &wanted)) /* there, if not certainly on the disk */
        file->stamp = now;
    return fail_by(job, &complaint);
}

enum saving session_save(struct session *session, const char *path, bool over,
                         struct diagnostics *messages) {
    struct saving_job job = {.session = session,
                             .path = path != NULL ? path : session->path,
                             .lock = {-1, NULL},
                             .messages = messages};
    if (job.path == NULL) {
        diagnose(messages, SEVERITY_ERROR, "name", "", "this design has no file yet; name one");
        return SAVE_FAILED;
    }
    enum saving result = prepare(&job);
    if (result == SAVED) {
        struct stamp now = stamp_of(job.resolved);
        result = ask(&job, &now, over);
    }
    if (result == SAVED)
        result = keep_hand_written(&job);
    if (result == SAVED)
        result = write_design(&job);
    lock_drop(&job.lock);
    free(job.resolved);
    text_free(&job.text);
    return result;
}
