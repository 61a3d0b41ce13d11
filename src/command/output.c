/* output.c - to standard output, or to a file that is never left half written. */
#define _XOPEN_SOURCE 700 /* realpath */

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/design.h"
#include "command/leftovers.h"
#include "command/output.h"

enum { CHUNK = 65536, NAMES_TRIED = 100 };

void output_prepare(void) {
    /* The wrong way round on purpose: reading from 0 or writing to 1 still fails. */
    static const int mode[] = {O_WRONLY, O_RDONLY, O_RDONLY};
    for (int fd = 0; fd < 3; fd++)
        if (fcntl(fd, F_GETFD) < 0 && errno == EBADF && open("/dev/null", mode[fd]) != fd)
            return;
#ifdef SIGXFSZ
    signal(SIGXFSZ, SIG_IGN);
#endif
}

/* What to do about the usual reasons. */
static const char *advice(int reason) {
    static const struct {
        int reason;
        const char *advice;
    } table[] = {
        {ENOSPC, "make room on that disk and try again"},
        {EDQUOT, "make room in your share of that disk and try again"},
        {EFBIG, "the limit on file size (ulimit -f) is too low"},
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

static void complain(struct text *complaint, const char *what, const char *path, int reason) {
    text_add(complaint, "%s: %s: %s; %s", path, what, strerror(reason), advice(reason));
}

static int write_some(int fd, const char *bytes, size_t count) {
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

int output_standard(const struct text *text, struct text *complaint) {
    int wrong = write_some(STDOUT_FILENO, text->bytes, text->length);
    if (wrong == 0)
        wrong = close(STDOUT_FILENO);
    if (wrong == 0)
        return 0;
    if (errno != EPIPE)
        complain(complaint, "cannot write", "standard output", errno);
    return -1;
}

void output_messages(const struct text *text) {
    if (text->length > 0)
        (void)write_some(STDERR_FILENO, text->bytes, text->length);
}

void output_complaint(const struct text *complaint) {
    struct text line = {0};
    text_add(&line, "gorewright: %s\n",
             complaint->bytes != NULL ? complaint->bytes : "not enough memory");
    output_messages(&line);
    text_free(&line);
}

/* ---- a file ------------------------------------------------------------ */

struct target {
    char *path;      /* owned: links resolved */
    char *temporary; /* owned: beside it */
    int folder;      /* open, or -1 */
    bool exists;
    mode_t mode; /* of the existing file */
};

static void target_free(struct target *target) {
    if (target->folder >= 0)
        close(target->folder);
    free(target->path);
    free(target->temporary);
}

/* Is there anything about the existing file that forbids replacing it? */
static int check_existing(const char *path, const struct output_limits *limits,
                          struct target *target, struct text *complaint) {
    struct stat file, design;
    if (stat(target->path, &file) != 0)
        return 0;
    const char *design_path = limits->design_path;
    const char *refusal = NULL;
    if (S_ISDIR(file.st_mode))
        refusal = "is a folder; add the name of a file in it";
    else if (!S_ISREG(file.st_mode))
        refusal = "is not a plain file; to write there, leave -o out and use > instead";
    else if (design_path != NULL && stat(design_path, &design) == 0 &&
             design.st_dev == file.st_dev && design.st_ino == file.st_ino)
        refusal = "is the design itself; choose another name";
    else if (access(target->path, W_OK) != 0)
        refusal = "is write-protected; choose another name, or allow writing to it";
    else if (limits->only_new)
        refusal = "is there already; choose another name or remove it first";
    else if (design_seems(target->path))
        refusal = "is a design; choose another name, so that it is not lost";
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
    if (reason == ENOENT && lstat(path, &link) == 0) {
        text_add(complaint, "%s: is a link that leads nowhere; remove it, or choose another name",
                 path);
        return -1;
    }
    size_t length = strlen(path);
    if (reason != ENOENT) {
        complain(complaint, "cannot write", path, reason);
        return -1;
    }
    if (path[length - 1] == '/') {
        text_add(complaint, "%s: is the name of a folder; add the name of a file", path);
        return -1;
    }
    target->path = malloc(length + 1);
    if (target->path == NULL) {
        complain(complaint, "cannot write", path, ENOMEM);
        return -1;
    }
    memcpy(target->path, path, length + 1);
    return 0;
}

/* Open the folder, and leave room for the name of the temporary file. */
static int open_folder(const char *path, struct target *target, struct text *complaint) {
    const char *slash = strrchr(target->path, '/');
    size_t length = slash == NULL ? 0 : (size_t)(slash - target->path) + 1;
    target->temporary = malloc(length + TEMPORARY_NAME_MOST);
    if (target->temporary == NULL) {
        complain(complaint, "cannot write", path, ENOMEM);
        return -1;
    }
    memcpy(target->temporary, target->path, length);
    strcpy(target->temporary + length, length == 0 ? "." : "");
    target->folder = open(target->temporary, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    target->temporary[length] = '\0';
    if (target->folder >= 0)
        return 0;
    complain(complaint, "cannot open its folder", path, errno);
    return -1;
}

/* Create the temporary file under a name nothing else has.  Returns: it, or -1. */
static int create_temporary(struct target *target) {
    size_t length = strlen(target->temporary);
    for (int i = 0; i < NAMES_TRIED; i++) {
        temporary_name(i, target->temporary + length);
        int fd = open(target->temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
                      target->exists ? 0600 : 0666);
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    errno = EEXIST;
    return -1;
}

/* The signals that mean "stop", without those that are to be ignored. */
static void stop_signals(sigset_t *signals) {
    static const int number[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    sigemptyset(signals);
    for (size_t i = 0; i < COUNT_OF(number); i++) {
        struct sigaction now;
        if (sigaction(number[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
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

static int fill(int fd, const struct target *target, const struct text *text) {
    if (target->exists && fchmod(fd, target->mode) != 0)
        return -1;
    for (size_t done = 0; done < text->length;) {
        size_t count = text->length - done < CHUNK ? text->length - done : CHUNK;
        if (interrupted()) {
            errno = EINTR;
            return -1;
        }
        if (write_some(fd, text->bytes + done, count) != 0)
            return -1;
        done += count;
    }
    return fsync(fd);
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
        complain(complaint,
                 target->exists ? "cannot write (the old file is as it was)"
                                : "cannot write (nothing was left there)",
                 path, reason);
        return -1;
    }
    /* Some file systems cannot do this for a folder, and say so. */
    if (fsync(target->folder) != 0 && errno != EINVAL && errno != ENOTSUP) {
        text_add(complaint, "%s: written, but the disk did not confirm it: %s; check the file",
                 path, strerror(errno));
        return -1;
    }
    return 0;
}

int output_file(const char *path, const struct output_limits *limits, const struct text *text,
                struct text *complaint) {
    struct target target = {.folder = -1};
    sigset_t stop, before;
    int wrong = -1;
    if (resolve(path, &target, complaint) != 0 ||
        check_existing(path, limits, &target, complaint) != 0 ||
        open_folder(path, &target, complaint) != 0)
        goto out;
    sweep_leftovers(target.folder);
    stop_signals(&stop);
    sigprocmask(SIG_BLOCK, &stop, &before);
    wrong = save(path, &target, text, complaint);
    sigprocmask(SIG_SETMASK, &before, NULL);
out:
    target_free(&target);
    return wrong;
}
