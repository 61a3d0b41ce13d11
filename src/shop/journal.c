/* journal.c - a file that only grows, a line at a time, each line on the disk when it counts. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "shop/journal.h"

static const char taken[] = "another window has it open", locked[] = "it is write-protected",
                  folder_locked[] = "its folder is write-protected",
                  changed[] = "it was changed by something else meanwhile; open the design again",
                  broken[] = "the disk does not take it";

static int refuse(const struct journal *journal, struct diagnostics *messages, const char *code,
                  const char *text) {
    diagnose_at(messages, SEVERITY_ERROR, code, journal->path, 0, "", "%s", text);
    return -1;
}

/* What a reason means for one who stands at the bench, and what to do: short, for it has to
 * stand on one line of a screen. */
static const char *remedy(int reason, const char **what) {
    static const struct {
        int reason;
        const char *what, *remedy;
    } table[] = {
        {ENOSPC, "the disk is full", "make room on it and try again"},
        {EDQUOT, "your share of the disk is full", "make room and try again"},
        {EFBIG, "it may not grow", "raise the limit on file size (ulimit -f)"},
        {EIO, "the disk reports a fault", "save to another disk"},
    };
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (table[i].reason == reason) {
            *what = table[i].what;
            return table[i].remedy;
        }
    *what = strerror(reason);
    return "try again";
}

static int refuse_for(const struct journal *journal, struct diagnostics *messages, const char *what,
                      int reason) {
    const char *why, *then = remedy(reason, &why);
    diagnose_at(messages, SEVERITY_ERROR, "bench-file", journal->path, 0, "", "%s: %s; %s", what,
                why, then);
    return -1;
}

/* ---- where it is ----------------------------------------------------------- */

/* Beside the file itself when `beside` is a link to it. */
static int find(struct journal *journal, const char *beside, const char *ending,
                struct diagnostics *messages) {
    char *target = file_resolved(beside);
    if (target == NULL) {
        diagnose_at(messages, SEVERITY_ERROR, "bench-file", beside, 0, "",
                    "cannot find the design: %s; save it first", strerror(errno));
        return -1;
    }
    size_t length = strlen(target), more = strlen(ending) + 1;
    journal->path = realloc(target, length + more);
    if (journal->path == NULL) {
        free(target);
        diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory");
        return -1;
    }
    memcpy(journal->path + length, ending, more);
    return 0;
}

/* ---- opening ------------------------------------------------------------------ */

/* Nothing is opened before it is known to be a plain file of a sensible size. */
static int look(struct journal *journal, struct diagnostics *messages) {
    struct stat file;
    if (stat(journal->path, &file) != 0) {
        if (errno != ENOENT)
            return refuse_for(journal, messages, "cannot look at it", errno);
        if (lstat(journal->path, &file) == 0)
            return refuse(journal, messages, "dead-link",
                          "is a link that leads nowhere; remove it");
        if (!file_folder_takes_files(journal->path))
            journal->reads_only = folder_locked;
        return 0;
    }
    if (!S_ISREG(file.st_mode))
        return refuse(journal, messages, "not-a-file",
                      "is not a plain file; move it away, the bench record goes there");
    if (file.st_size > (off_t)journal->most)
        return refuse(journal, messages, "too-large",
                      "is too large for a bench record; move it away");
    journal->fd = open(journal->path, O_RDWR | O_APPEND | O_CLOEXEC);
    if (journal->fd < 0 && (errno == EACCES || errno == EROFS || errno == EPERM)) {
        journal->reads_only = locked;
        journal->fd = open(journal->path, O_RDONLY | O_CLOEXEC);
    }
    if (journal->fd < 0)
        return refuse_for(journal, messages, "cannot open it", errno);
    return 0;
}

static void hold(struct journal *journal) {
    /* Where a file system knows no locks, none is asked for. */
    if (flock(journal->fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
        journal->reads_only = taken;
}

static int read_all(struct journal *journal, struct text *content, struct diagnostics *messages) {
    char chunk[16384];
    for (;;) {
        ssize_t got = read(journal->fd, chunk, sizeof chunk);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return refuse_for(journal, messages, "cannot read it", errno);
        if (got == 0)
            break;
        text_add_bytes(content, chunk, (size_t)got);
        if (content->failed || content->length > journal->most)
            return refuse(journal, messages, "too-large",
                          "is too large for a bench record; move it away");
    }
    journal->size = (off_t)content->length;
    return 0;
}

int journal_open(struct journal *journal, const char *beside, const char *ending, size_t most,
                 struct text *content, struct diagnostics *messages) {
    *journal = (struct journal){.fd = -1, .most = most, .reads_only = journal->reads_only};
    if (find(journal, beside, ending, messages) != 0 || look(journal, messages) != 0)
        return -1;
    if (journal->fd < 0)
        return 0;
    if (journal->reads_only == NULL)
        hold(journal);
    return read_all(journal, content, messages);
}

void journal_close(struct journal *journal) {
    if (journal->fd >= 0)
        close(journal->fd);
    free(journal->path);
    *journal = (struct journal){.fd = -1};
}

/* ---- writing -------------------------------------------------------------------- */

static int cut_back(struct journal *journal) {
    if (ftruncate(journal->fd, journal->size) == 0)
        return 0;
    journal->reads_only = broken;
    return -1;
}

void journal_keep(struct journal *journal, size_t size) {
    journal->size = (off_t)size;
    if (journal->fd >= 0 && journal->reads_only == NULL)
        (void)cut_back(journal);
}

int journal_create(struct journal *journal, struct diagnostics *messages) {
    if (journal->fd >= 0)
        return 0;
    journal->fd = open(journal->path, O_RDWR | O_APPEND | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
    if (journal->fd < 0 && errno == EEXIST) {
        journal->reads_only = taken;
        return refuse(journal, messages, "reads-only",
                      "cannot be begun: another window has begun one");
    }
    if (journal->fd < 0)
        return refuse_for(journal, messages, "cannot begin it", errno);
    journal->size = 0;
    hold(journal);
    if (file_flush_folder(journal->path) == 0)
        return 0;
    int reason = errno;
    unlink(journal->path);
    close(journal->fd);
    journal->fd = -1;
    return refuse_for(journal, messages, "cannot begin it", reason);
}

/* An editor may have put another file in its place, or lines into it. */
static bool still_ours(const struct journal *journal) {
    struct stat named, open_file;
    return stat(journal->path, &named) == 0 && fstat(journal->fd, &open_file) == 0 &&
           named.st_dev == open_file.st_dev && named.st_ino == open_file.st_ino &&
           open_file.st_size == journal->size;
}

bool journal_add(struct journal *journal, const struct text *lines, struct diagnostics *messages) {
    if (lines->failed)
        return refuse(journal, messages, "memory", "not enough memory") == 0;
    if (journal->reads_only == NULL && !still_ours(journal))
        journal->reads_only = changed;
    if (journal->reads_only != NULL) {
        diagnose_at(messages, SEVERITY_ERROR, "reads-only", journal->path, 0, "",
                    "nothing can be ticked: %s", journal->reads_only);
        return false;
    }
    if ((size_t)journal->size + lines->length > journal->most)
        return refuse(journal, messages, "too-large", "is full; move it away to begin another") ==
               0;
    if (file_write_bytes(journal->fd, lines->bytes, lines->length) != 0 ||
        file_flush(journal->fd) != 0) {
        refuse_for(journal, messages, "not kept", errno);
        (void)cut_back(journal);
        return false;
    }
    journal->size += (off_t)lines->length;
    return true;
}
