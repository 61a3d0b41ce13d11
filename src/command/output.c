/* output.c - to standard output, or to a file that is never left half written. */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/cutting.h"
#include "command/output.h"

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

int output_standard(const struct text *text, struct text *complaint) {
    int wrong = file_write_bytes(STDOUT_FILENO, text->bytes, text->length);
    if (wrong == 0)
        wrong = close(STDOUT_FILENO);
    if (wrong == 0)
        return 0;
    if (errno != EPIPE)
        file_complain(complaint, "cannot write", "standard output", errno);
    return -1;
}

void output_messages(const struct text *text) {
    if (text->length > 0)
        (void)file_write_bytes(STDERR_FILENO, text->bytes, text->length);
}

void output_complaint(const struct text *complaint) {
    struct text line = {0};
    text_add(&line, "gorewright: ");
    text_add_shown(&line, complaint->bytes != NULL ? complaint->bytes : "not enough memory");
    text_add(&line, "\n");
    output_messages(&line);
    text_free(&line);
}

/* ---- a file ------------------------------------------------------------ */

static bool same_file(const struct stat *one, const char *other_path) {
    struct stat other;
    return stat(other_path, &other) == 0 && one->st_dev == other.st_dev &&
           one->st_ino == other.st_ino;
}

/* Whether a file is the one that keeps the layout of a design. */
static bool keeps_layout(const struct stat *file, const char *design_path) {
    char *path = cutting_path(design_path);
    bool keeps = path != NULL && same_file(file, path);
    free(path);
    return keeps;
}

/* What about an existing plain file forbids replacing it?  NULL: nothing known here. */
static const char *refusal_of(const char *path, const struct stat *file,
                              const struct output_limits *limits) {
    if (limits->design_path != NULL && same_file(file, limits->design_path))
        return "is the design itself; choose another name";
    if (limits->design_path != NULL && keeps_layout(file, limits->design_path))
        return "keeps the layout of this design; choose another name";
    if (limits->only_new)
        return "is there already; choose another name or remove it first";
    if (design_seems(path))
        return "is a design; choose another name, so that it is not lost";
    return NULL;
}

int output_file(const char *path, const struct output_limits *limits, const struct text *text,
                struct text *complaint) {
    struct stat file;
    const char *refusal = NULL;
    if (stat(path, &file) == 0 && !S_ISDIR(file.st_mode))
        refusal = S_ISREG(file.st_mode)
                      ? refusal_of(path, &file, limits)
                      : "is not a plain file; to write there, leave -o out and use > instead";
    if (refusal == NULL)
        return file_write(path, 0666, text, complaint);
    text_add(complaint, "%s: %s", path, refusal);
    return -1;
}
