#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

void check_close(double got, double want, double absolute, double relative, const char *what,
                 const char *file, int line) {
    double allowed = absolute + relative * fabs(want);
    if (isfinite(got) && isfinite(want) && fabs(got - want) <= allowed)
        return;
    print_error("%s: got %.17g, want %.17g, off by %.3g, allowed %.3g\n", what, got, want,
                got - want, allowed);
    _fail(file, line);
}

static char folder[64];

static void remove_folder(void) {
    char command[96];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    if (system(command) != 0)
        fprintf(stderr, "could not remove %s\n", folder);
}

const char *scratch_folder(void) {
    if (folder[0] == '\0') {
        strcpy(folder, "/tmp/gorewright-test-XXXXXX");
        assert_non_null(mkdtemp(folder));
        atexit(remove_folder);
    }
    return folder;
}

const char *scratch_file(const char *name, const char *content) {
    static char paths[8][256];
    static size_t next;
    char *path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", scratch_folder(), name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(content, 1, strlen(content), file), strlen(content));
    assert_int_equal(fclose(file), 0);
    return path;
}

static char *whole_file(const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    size_t capacity = 65536, used = 0;
    char *bytes = malloc(capacity);
    assert_non_null(bytes);
    for (size_t got; (got = fread(bytes + used, 1, capacity - used - 1, file)) > 0;) {
        used += got;
        if (capacity - used < 2) {
            capacity *= 2;
            bytes = realloc(bytes, capacity);
            assert_non_null(bytes);
        }
    }
    fclose(file);
    bytes[used] = '\0';
    if (length != NULL)
        *length = used;
    return bytes;
}

struct outcome run(const char *format, ...) {
    char arguments[4096], command[8192], out[128], err[128];
    va_list list;
    va_start(list, format);
    vsnprintf(arguments, sizeof arguments, format, list);
    va_end(list);
    const char *program = getenv("GOREWRIGHT");
    if (program == NULL)
        program = "build/gorewright";
    snprintf(out, sizeof out, "%s/.out", scratch_folder());
    snprintf(err, sizeof err, "%s/.err", scratch_folder());
    snprintf(command, sizeof command, "GW='%s'; export GW; { timeout 120 sh -c '%s'; } >%s 2>%s </dev/null",
             program, arguments, out, err);
    int status = system(command);
    struct outcome outcome = {.status = WIFEXITED(status) ? WEXITSTATUS(status) : 255};
    outcome.out = whole_file(out, &outcome.out_length);
    outcome.err = whole_file(err, NULL);
    return outcome;
}

void outcome_free(struct outcome *outcome) {
    free(outcome->out);
    free(outcome->err);
    *outcome = (struct outcome){0};
}

/* SplitMix64: public-domain arithmetic, good enough to vary designs. */
static uint64_t dice_bits(struct dice *dice) {
    uint64_t z = (dice->state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double dice_between(struct dice *dice, double least, double most) {
    return least + (most - least) * (double)(dice_bits(dice) >> 11) / 9007199254740992.0;
}

int dice_whole(struct dice *dice, int least, int most) {
    return least + (int)(dice_bits(dice) % (uint64_t)(most - least + 1));
}
