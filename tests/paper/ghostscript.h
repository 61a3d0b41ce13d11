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

/* A page as printed, row 0 at the top: a bit for each dot, 1 for ink, rows of whole bytes. */
struct picture {
    size_t width, height;
    long per_mm;
    unsigned char *bits; /* owned */
};

enum { DOTS_PER_MM = 10 };

static inline size_t row_bytes(const struct picture *p) {
    return (p->width + 7) / 8;
}

static inline void picture_path(size_t number, char path[256]) {
    snprintf(path, 256, "%s/page%zu.pbm", scratch_folder(), number);
}

/* Print some pages of a file; they are taken as picture_taken(1) and so on. */
static inline void print_pages(const char *path, size_t first, size_t last, long per_mm) {
    free(shell("gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=pbmraw -r%ld -dFirstPage=%zu "
               "-dLastPage=%zu -sOutputFile=%s/page%%d.pbm %s 2>&1",
               per_mm * 254 / 10, first, last, scratch_folder(), path));
}

static inline struct picture picture_taken(size_t number, long per_mm) {
    char path[256], line[256];
    picture_path(number, path);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    struct picture picture = {.per_mm = per_mm};
    int numbers = 0;
    assert_non_null(fgets(line, sizeof line, file)); /* P4 */
    while (numbers < 2 && fgets(line, sizeof line, file) != NULL)
        if (line[0] != '#')
            numbers = sscanf(line, "%zu %zu", &picture.width, &picture.height);
    size_t count = row_bytes(&picture) * picture.height;
    picture.bits = malloc(count);
    assert_non_null(picture.bits);
    assert_int_equal(fread(picture.bits, 1, count, file), count);
    fclose(file);
    remove(path);
    return picture;
}

/* Print one page of a file. */
static inline struct picture print_page(const char *path, size_t page, long per_mm) {
    print_pages(path, page, page, per_mm);
    return picture_taken(1, per_mm);
}

static inline bool is_ink(const struct picture *p, long x, long y) {
    return x >= 0 && y >= 0 && x < (long)p->width && y < (long)p->height &&
           (p->bits[(size_t)y * row_bytes(p) + (size_t)x / 8] >> (7 - x % 8) & 1) != 0;
}

/* The first dot of ink in row y from x on; the width where there is none. */
static inline long next_ink(const struct picture *p, long x, long y) {
    const unsigned char *row = p->bits + (size_t)y * row_bytes(p);
    while (x < (long)p->width && !is_ink(p, x, y))
        x += x % 8 == 0 && row[x / 8] == 0 ? 8 : 1;
    return x < (long)p->width ? x : (long)p->width;
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
