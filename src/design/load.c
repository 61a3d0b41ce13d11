/* load.c - the bytes of a design file. */
#include "design/load.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/design.h"

static int refuse(struct diagnostics *messages, const char *path, const char *text) {
    diagnose_at(messages, SEVERITY_ERROR, "file", path, 0, "", "%s", text);
    return -1;
}

struct fault {
    int error;
    const char *text;
};

static const struct fault opening_faults[] = {
    {ENOENT, "there is no such file; look at its name and its folder"},
    {ENOTDIR, "there is no such file; look at its name and its folder"},
    {EACCES, "this file may not be read; give yourself the right to read it and its folder"},
    {ELOOP, "this name is a link that leads back to itself; give the file itself"},
};

static const struct fault reading_faults[] = {
    {EISDIR, "this is a folder; give a design file"},
    {EBADF, "there is nothing to read from, for it is closed; give a design file"},
};

static int refuse_fault(struct diagnostics *messages, const char *path, const struct fault *fault,
                        size_t faults, const char *what) {
    int error = errno;
    for (size_t i = 0; i < faults; i++)
        if (fault[i].error == error)
            return refuse(messages, path, fault[i].text);
    diagnose_at(messages, SEVERITY_ERROR, "file", path, 0, "",
                "cannot be %s: %s; try again, or with a copy of it on another disk", what,
                strerror(error));
    return -1;
}

static int refuse_opening(struct diagnostics *messages, const char *path) {
    return refuse_fault(messages, path, opening_faults, COUNT_OF(opening_faults), "opened");
}

static int refuse_kind(struct diagnostics *messages, const char *path, mode_t mode) {
    if (S_ISDIR(mode))
        return refuse(messages, path, "this is a folder; give the name of a design file in it");
    return refuse(messages, path,
                  "this is no ordinary file but a device or a pipe; give a design file");
}

int load_descriptor(int file, const char *path, struct text *content,
                    struct diagnostics *messages) {
    char bytes[8192];
    for (;;) {
        ssize_t got = read(file, bytes, sizeof bytes);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return refuse_fault(messages, path, reading_faults, COUNT_OF(reading_faults), "read");
        if (got == 0)
            return 0;
        text_add_bytes(content, bytes, (size_t)got);
        if (content->failed)
            return refuse(
                messages, path,
                "there is not enough memory to read it; end other programs and try again");
        if (content->length > DESIGN_BYTES_MOST)
            return refuse(messages, path,
                          "this is longer than a megabyte, the most that is read; a design has a "
                          "few thousand bytes, so look whether it is one");
    }
}

int load_file(const char *path, struct text *content, struct diagnostics *messages) {
    /* Not to wait for the other end should the name be a pipe. */
    int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0)
        return refuse_opening(messages, path);
    struct stat about;
    int result = -1;
    if (fstat(file, &about) != 0)
        refuse_opening(messages, path);
    else if (!S_ISREG(about.st_mode))
        refuse_kind(messages, path, about.st_mode);
    else
        result = load_descriptor(file, path, content, messages);
    close(file);
    return result;
}

/* ---- what looks like a design ---------------------------------------------- */

static bool states_format(const char *line) {
    line += strspn(line, " \t");
    if (strncmp(line, "format", 6) != 0)
        return false;
    line += 6;
    line += strspn(line, " \t");
    return *line == '=' || *line == ':';
}

bool design_seems(const char *path) {
    struct text content = {0};
    struct diagnostics messages = {0};
    struct design design;
    bool seems = false;
    design_starter(&design);
    if (load_file(path, &content, &messages) == 0 && content.length > 0) {
        for (const char *line = content.bytes; line != NULL && !seems;) {
            seems = states_format(line);
            line = strchr(line, '\n');
            line = line == NULL ? NULL : line + 1;
        }
        seems = seems || design_read_text(content.bytes, content.length, path, &design, NULL,
                                          &messages) == 0;
    }
    text_free(&content);
    diagnostics_free(&messages);
    return seems;
}

/* ---- what a builder calls it -------------------------------------------------- */

char *design_file_named(const char *name) {
    static const char ending[] = ".cfg";
    size_t length = strlen(name);
    char *path = malloc(length + sizeof ending);
    if (path == NULL)
        return NULL;
    memcpy(path, name, length);
    memcpy(path + length, ending, sizeof ending);
    if (length == 0 || access(name, F_OK) == 0 || access(path, F_OK) != 0)
        path[length] = '\0';
    return path;
}
