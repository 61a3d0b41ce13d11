/* safe_file.c - a file is written whole or not at all. */
#define _XOPEN_SOURCE 700 /* realpath */

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/base.h"

enum { CHUNK = 65536, NAMES_TRIED = 100, TEMPORARY_NAME_MOST = 64 };

/* Of the name of a temporary file; between them the number of the run, "-" and another. */
static const char beginning[] = ".gorewright-", ending[] = ".tmp";

/* What to do about the usual reasons. */
static const char *advice(int reason) {
    static const struct {
        int reason;
        const char *advice;
    } table[] = {
        {ENOSPC, "make room on that disk and try again"},
        {EDQUOT, "make room in your share of that disk and try again"},
        {EFBIG, "raise the limit on file size (ulimit -f), or write to another disk"},
        {EROFS, "choose a folder that can be written to"},
        {EACCES, "choose a file and folder that you may write to"},
        {EPERM, "choose a file and folder that you may write to"},
        {ENOENT, "make the folder first"},
        {ENOTDIR, "a folder in that name is really a file"},
        {ENAMETOOLONG, "choose a shorter name"},
        {ELOOP, "that link leads back to itself: remove it, or choose another name"},
        {EBADF, "it is closed: send it to a file or a pipe, or add -o FILE"},
        {EIO, "the disk reports a fault: write to another one"},
    };
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (table[i].reason == reason)
            return table[i].advice;
    return "choose another place and try again";
}

void file_complain(struct text *complaint, const char *what, const char *path, int reason) {
    text_add(complaint, "%s: %s: %s; %s", path, what, strerror(reason), advice(reason));
}

int file_write_bytes(int fd, const char *bytes, size_t count) {
    while (count > 0) {
        ssize_t done = write(fd, bytes, count);
        if (done < 0 && errno == EINTR)
            continue;
        if (done <= 0) {
            if (done == 0)
                errno = ENOSPC;
            return -1;
        }
        bytes += done;
        count -= (size_t)done;
    }
    return 0;
}

/* ---- names ------------------------------------------------------------- */

static char *copied(const char *path, size_t length) {
    char *copy = malloc(length + 1);
    if (copy == NULL)
        return NULL;
    memcpy(copy, path, length);
    copy[length] = '\0';
    return copy;
}

/* Where the name of a file begins in its path: after the folder and its slash. */
static size_t folder_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

/* NULL when memory is short. */
static char *folder_of(const char *path) {
    size_t length = folder_length(path);
    return copied(length == 0 ? "." : path, length == 0 ? 1 : length);
}

bool file_folder_takes_files(const char *path) {
    char *name = folder_of(path);
    bool takes = name != NULL && access(name, W_OK | X_OK) == 0;
    free(name);
    return takes;
}

/* The folder of a file, opened; -1 with errno. */
static int open_folder_of(const char *path) {
    char *name = folder_of(path);
    int folder = name == NULL ? -1 : open(name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int reason = errno;
    free(name);
    errno = reason;
    return folder;
}

/* A name in a folder whose links are resolved; NULL with errno. */
static char *resolved_in_folder(const char *path) {
    size_t length = folder_length(path);
    char *folder = folder_of(path);
    char *real = folder == NULL ? NULL : realpath(folder, NULL);
    free(folder);
    if (real == NULL)
        return NULL;
    size_t size = strlen(real) + strlen(path + length) + 2;
    char *whole = malloc(size);
    if (whole != NULL)
        snprintf(whole, size, "%s/%s", strcmp(real, "/") == 0 ? "" : real, path + length);
    free(real);
    return whole;
}

char *file_resolved(const char *path) {
    struct stat link;
    char *real = realpath(path, NULL);
    if (real != NULL || errno != ENOENT || lstat(path, &link) == 0)
        return real;
    return resolved_in_folder(path);
}

/* ---- where to write ---------------------------------------------------- */

struct target {
    char *path;      /* owned: links resolved */
    char *temporary; /* owned: beside it */
    int folder;      /* open, or -1 */
    bool exists;
    mode_t mode; /* of the existing file, or wanted for a new one */
};

static void target_free(struct target *target) {
    if (target->folder >= 0)
        close(target->folder);
    free(target->path);
    free(target->temporary);
}

/* Is there anything about the existing file that forbids replacing it? */
static int check_existing(const char *path, struct target *target, struct text *complaint) {
    struct stat file;
    if (stat(target->path, &file) != 0)
        return 0;
    const char *refusal = NULL;
    if (S_ISDIR(file.st_mode))
        refusal = "is a folder; add the name of a file in it";
    else if (!S_ISREG(file.st_mode))
        refusal = "is not a plain file; choose the name of a plain file";
    else if (access(target->path, W_OK) != 0)
        refusal = "is write-protected; choose another name, or allow writing to it";
    if (refusal != NULL) {
        text_add(complaint, "%s: %s", path, refusal);
        return -1;
    }
    target->exists = true;
    target->mode = file.st_mode & 07777;
    return 0;
}

static int resolve(const char *path, struct target *target, struct text *complaint) {
    struct stat link;
    target->path = realpath(path, NULL);
    if (target->path != NULL)
        return 0;
    int reason = errno;
    size_t length = strlen(path);
    if (length == 0)
        text_add(complaint, "a file needs a name; give one");
    else if (reason != ENOENT)
        file_complain(complaint, "cannot write", path, reason);
    else if (lstat(path, &link) == 0)
        text_add(complaint, "%s: is a link that leads nowhere; remove it, or choose another name",
                 path);
    else if (path[length - 1] == '/')
        text_add(complaint, "%s: is the name of a folder; add the name of a file", path);
    else if ((target->path = copied(path, length)) != NULL)
        return 0;
    else
        file_complain(complaint, "cannot write", path, ENOMEM);
    return -1;
}

/* Open the folder, and leave room for the name of the temporary file. */
static int open_folder(const char *path, struct target *target, struct text *complaint) {
    size_t length = folder_length(target->path);
    target->temporary = malloc(length + TEMPORARY_NAME_MOST);
    if (target->temporary == NULL) {
        file_complain(complaint, "cannot write", path, ENOMEM);
        return -1;
    }
    memcpy(target->temporary, target->path, length);
    strcpy(target->temporary + length, length == 0 ? "." : "");
    target->folder = open(target->temporary, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    target->temporary[length] = '\0';
    if (target->folder >= 0)
        return 0;
    file_complain(complaint, "cannot open its folder", path, errno);
    return -1;
}

/* ---- what killed runs left ---------------------------------------------- */

/* The number of the run that gave a file its name, or 0 when none did. */
static pid_t run_of(const char *name) {
    static const char digits[] = "0123456789";
    size_t length = strlen(beginning);
    if (strncmp(name, beginning, length) != 0)
        return 0;
    const char *run = name + length, *number = run + strspn(run, digits);
    if (number == run || number - run > 10 || *number != '-')
        return 0;
    number++;
    length = strspn(number, digits);
    if (length == 0 || strcmp(number + length, ending) != 0)
        return 0;
    long id = strtol(run, NULL, 10);
    return id > 0 && id <= INT_MAX ? (pid_t)id : 0;
}

static bool is_over(pid_t run) {
    return kill(run, 0) != 0 && errno == ESRCH;
}

static bool is_ours(int folder, const char *name) {
    struct stat file;
    return fstatat(folder, name, &file, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG(file.st_mode) &&
           file.st_uid == geteuid() && file.st_nlink == 1;
}

/* The descriptor stays open. */
static void sweep_folder(int folder) {
    int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *list = again < 0 ? NULL : fdopendir(again);
    if (list == NULL) {
        if (again >= 0)
            close(again);
        return;
    }
    for (struct dirent *entry; (entry = readdir(list)) != NULL;) {
        pid_t run = run_of(entry->d_name);
        if (run > 0 && is_over(run) && is_ours(folder, entry->d_name))
            unlinkat(folder, entry->d_name, 0);
    }
    closedir(list);
}

void file_sweep(const char *path) {
    int folder = open_folder_of(path);
    if (folder < 0)
        return;
    sweep_folder(folder);
    close(folder);
}

/* ---- writing ----------------------------------------------------------- */

/* Create the temporary file under a name nothing else has.  Returns: it, or -1. */
static int create_temporary(struct target *target) {
    size_t length = strlen(target->temporary);
    for (int i = 0; i < NAMES_TRIED; i++) {
        snprintf(target->temporary + length, TEMPORARY_NAME_MOST, "%s%ld-%d%s", beginning,
                 (long)getpid(), i, ending);
        int fd = open(target->temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
                      target->exists ? 0600 : target->mode);
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    errno = EEXIST;
    return -1;
}

/* The signals that would end the program at once: not those ignored, nor those it handles. */
static void stop_signals(sigset_t *signals) {
    static const int number[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    sigemptyset(signals);
    for (size_t i = 0; i < COUNT_OF(number); i++) {
        struct sigaction now;
        if (sigaction(number[i], NULL, &now) == 0 && now.sa_handler == SIG_DFL)
            sigaddset(signals, number[i]);
    }
}

/* The signals are held back while the temporary file exists: has one come? */
static bool interrupted(void) {
    sigset_t stop, waiting;
    stop_signals(&stop);
    sigpending(&waiting);
    for (int number = 1; number < 32; number++)
        if (sigismember(&stop, number) == 1 && sigismember(&waiting, number) == 1)
            return true;
    return false;
}

int file_flush(int fd) {
    int wrong;
    do
        wrong = fsync(fd);
    while (wrong != 0 && errno == EINTR);
    return wrong;
}

/* Some file systems cannot do this for a folder, and say so. */
static int flush_open_folder(int fd) {
    return file_flush(fd) == 0 || errno == EINVAL || errno == ENOTSUP ? 0 : -1;
}

int file_flush_folder(const char *path) {
    int folder = open_folder_of(path);
    if (folder < 0)
        return -1;
    int wrong = flush_open_folder(folder), reason = errno;
    close(folder);
    errno = reason;
    return wrong;
}

static int fill(int fd, const struct target *target, const struct text *text) {
    if (target->exists && fchmod(fd, target->mode) != 0)
        return -1;
    for (size_t done = 0; done < text->length;) {
        size_t count = text->length - done < CHUNK ? text->length - done : CHUNK;
        if (interrupted()) {
            errno = EINTR;
            return -1;
        }
        if (file_write_bytes(fd, text->bytes + done, count) != 0)
            return -1;
        done += count;
    }
    return file_flush(fd);
}

/* Returns: 0, or the reason.  The target is whole before and after. */
static int replace(struct target *target, const struct text *text) {
    int fd = create_temporary(target);
    if (fd < 0)
        return errno;
    int reason = fill(fd, target, text) == 0 ? 0 : errno;
    if (close(fd) != 0 && reason == 0)
        reason = errno;
    if (reason == 0 && interrupted())
        reason = EINTR;
    if (reason == 0 && rename(target->temporary, target->path) != 0)
        reason = errno;
    if (reason != 0)
        unlink(target->temporary);
    return reason;
}

static int save(const char *path, struct target *target, const struct text *text,
                struct text *complaint) {
    int reason = replace(target, text);
    if (reason != 0) {
        file_complain(complaint,
                      target->exists ? "cannot write (the old file is as it was)"
                                     : "cannot write (nothing was left there)",
                      path, reason);
        return -1;
    }
    if (flush_open_folder(target->folder) != 0) {
        text_add(complaint, "%s: written, but the disk did not confirm it: %s; check the file",
                 path, strerror(errno));
        return -1;
    }
    return 0;
}

int file_write(const char *path, unsigned mode, const struct text *text, struct text *complaint) {
    struct target target = {.folder = -1, .mode = (mode_t)mode};
    sigset_t stop, before;
    int wrong = -1;
    if (text->failed) {
        file_complain(complaint, "cannot write", path, ENOMEM);
        return -1;
    }
    if (resolve(path, &target, complaint) != 0 || check_existing(path, &target, complaint) != 0 ||
        open_folder(path, &target, complaint) != 0)
        goto out;
    sweep_folder(target.folder);
    stop_signals(&stop);
    sigprocmask(SIG_BLOCK, &stop, &before);
    wrong = save(path, &target, text, complaint);
    sigprocmask(SIG_SETMASK, &before, NULL);
out:
    target_free(&target);
    return wrong;
}

/* ---- reading ----------------------------------------------------------- */

static int read_plain(int fd, size_t most, struct text *into) {
    char bytes[8192];
    struct stat about;
    if (fstat(fd, &about) != 0)
        return errno;
    if (!S_ISREG(about.st_mode))
        return S_ISDIR(about.st_mode) ? EISDIR : EINVAL;
    for (size_t length = 0;;) {
        ssize_t got = read(fd, bytes, sizeof bytes);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return got < 0 ? errno : into->failed ? ENOMEM : 0;
        length += (size_t)got;
        if (length > most)
            return EFBIG;
        text_add_bytes(into, bytes, (size_t)got);
    }
}

int file_read(const char *path, size_t most, struct text *into) {
    /* Not to wait for the other end should the name be a pipe. */
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (fd < 0)
        return errno;
    int reason = read_plain(fd, most, into);
    close(fd);
    return reason;
}
