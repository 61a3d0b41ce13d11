/* ghostscript.h - running a PostScript file, and looking at what it printed. */
#ifndef TESTS_PAPER_GHOSTSCRIPT_H
#define TESTS_PAPER_GHOSTSCRIPT_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "paper/postscript.h"
#include "support.h"

/* ---- running ------------------------------------------------------------- */

/* Run a shell command that must succeed; returns what it printed, to be freed. */
static inline char *shell(const char *format, ...) FORMATTED(1, 2);
static inline char *shell(const char *format, ...) {
    char command[2048];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(command, sizeof command, format, arguments);
    va_end(arguments);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t capacity = 1 << 16, used = 0;
    char *out = malloc(capacity);
    assert_non_null(out);
    for (size_t got; (got = fread(out + used, 1, capacity - used - 1, pipe)) > 0;) {
        used += got;
        if (capacity - used < 2)
            out = realloc(out, capacity *= 2);
        assert_non_null(out);
    }
    out[used] = '\0';
    if (pclose(pipe) != 0)
        print_error("failed: %s\n%s\n", command, out);
    else
        return out;
    free(out);
    fail();
    return NULL;
}

/* Keep a PostScript text as a file of the scratch folder. */
static inline const char *keep(const struct text *ps) {
    static int number;
    char name[32];
    snprintf(name, sizeof name, "t%d.ps", number++);
    return scratch_file(name, ps->bytes);
}

/* ---- pictures ------------------------------------------------------------ */

/* A page as printed at 10 dots a millimetre, row 0 at the top. */
struct picture {
    size_t width, height;
    unsigned char *grey; /* owned; 0 is black */
};

enum { DOTS_PER_MM = 10 };

/* Print one page of a file. */
static inline struct picture print_page(const char *path, size_t page) {
    char out[256];
    snprintf(out, sizeof out, "%s/page.pgm", scratch_folder());
    free(shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=pgmraw -r254 -dFirstPage=%zu "
               "-dLastPage=%zu -sOutputFile=%s %s 2>&1",
               page, page, out, path));
    FILE *file = fopen(out, "rb");
    assert_non_null(file);
    char line[256];
    struct picture picture = {0};
    int numbers = 0;
    assert_non_null(fgets(line, sizeof line, file)); /* P5 */
    while (numbers < 2 && fgets(line, sizeof line, file) != NULL)
        if (line[0] != '#')
            numbers = sscanf(line, "%zu %zu", &picture.width, &picture.height);
    assert_non_null(fgets(line, sizeof line, file)); /* 255 */
    picture.grey = malloc(picture.width * picture.height);
    assert_non_null(picture.grey);
    assert_int_equal(fread(picture.grey, 1, picture.width * picture.height, file),
                     picture.width * picture.height);
    fclose(file);
    remove(out);
    return picture;
}

static inline bool is_ink(const struct picture *p, long x, long y) {
    return x >= 0 && y >= 0 && x < (long)p->width && y < (long)p->height &&
           p->grey[(size_t)y * p->width + (size_t)x] < 128;
}

/* Length of the run of ink that begins at x, y. */
static inline long run_across(const struct picture *p, long x, long y) {
    long end = x;
    while (is_ink(p, end, y))
        end++;
    return end - x;
}

static inline long run_down(const struct picture *p, long x, long y) {
    long end = y;
    while (is_ink(p, x, end))
        end++;
    return end - y;
}

#endif
