#define _DEFAULT_SOURCE /* setgroups */
#include "support.h"

#include <grp.h>
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

int as_nobody(int (*act)(void *given), void *given) {
    enum { NOBODY = 65534 };
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (geteuid() == 0 &&
            (setgroups(0, NULL) != 0 || setgid(NOBODY) != 0 || setuid(NOBODY) != 0))
            _exit(99);
        _exit(act(given));
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 100;
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
    snprintf(command, sizeof command,
             "GW='%s'; export GW; { timeout 120 sh -c '%s'; } >%s 2>%s </dev/null", program,
             arguments, out, err);
    int status = system(command);
    struct outcome outcome = {.status = WIFEXITED(status) ? WEXITSTATUS(status) : 255};
    outcome.out = whole_file(out, &outcome.out_length);
    outcome.err = whole_file(err, NULL);
    return outcome;
}

struct outcome run_on_terminal(const char *command) {
    return run("SHELL=/bin/sh script -qec \"cd %s; %s\" /dev/null </dev/null", scratch_folder(),
               command);
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

/* ---- random designs ---------------------------------------------------- */

static void random_table(struct dice *dice, struct design *design) {
    struct point_list *table = &design->outline.table;
    double mouth = dice_between(dice, 0.05, 0.5), crown = dice_between(dice, 0.05, 0.5);
    table->count = (size_t)dice_whole(dice, 3, 24);
    for (size_t i = 0; i < table->count; i++) {
        double part = (double)i / (double)(table->count - 1);
        double ends = mouth + (crown - mouth) * part;
        table->value[i].r_m = ends + sin(PI * part) * dice_between(dice, 0.95, 1.0);
        table->value[i].z_m = 2.4 * part;
    }
    design->outline.join = dice_whole(dice, JOIN_SMOOTH, JOIN_STRAIGHT);
}

static void random_size(struct dice *dice, struct design *design) {
    double height = exp(dice_between(dice, log(0.4), log(28)));
    design->size.by = dice_whole(dice, SIZE_VOLUME, SIZE_CLOTH_AREA);
    design->size.height_m = height;
    design->size.diameter_m = height;
    design->size.gore_length_m = 1.5 * height;
    design->size.volume_m3 = 0.5 * height * height * height;
    design->size.cloth_area_m2 = 3 * height * height;
    design->outline.mouth_diameter_m = height * dice_between(dice, 0.05, 0.3);
    design->outline.crown_diameter_m = height * dice_between(dice, 0.05, 0.3);
}

static void random_rows(struct dice *dice, struct design *design) {
    size_t rows = (size_t)dice_whole(dice, 1, dice_whole(dice, 0, 9) == 0 ? ROWS_MOST : 14);
    design->rows.count = (int)rows;
    design->rows.spacing = dice_whole(dice, ROWS_EQUAL, ROWS_EVEN_DEPARTURE);
    if (design->rows.spacing == ROWS_GIVEN)
        for (size_t j = 0; j < rows; j++)
            design->rows.shares.value[design->rows.shares.count++] = dice_between(dice, 0.5, 2);
    design->bulge.depth =
        dice_whole(dice, 0, 3) == 0 ? dice_between(dice, 0, 0.5) : dice_between(dice, 0, 0.2);
    design->bulge.ease_rows = dice_whole(dice, 0, 3);
    if (dice_whole(dice, 0, 3) == 0)
        for (size_t j = 0; j <= rows; j++)
            design->bulge.stations.value[design->bulge.stations.count++] =
                dice_between(dice, 0, 0.25);
}

static void random_gores(struct dice *dice, struct design *design) {
    design->gores.count =
        dice_whole(dice, GORES_LEAST, dice_whole(dice, 0, 4) == 0 ? GORES_MOST : 24);
    design->gores.style = dice_whole(dice, FACETED, BILLOWED);
    int count = design->gores.count;
    if (dice_whole(dice, 0, 2) > 0)
        return;
    design->gores.mix.count = (size_t)(count % 4 == 0 ? 4 : count % 3 == 0 ? 3 : count);
    for (size_t i = 0; i < design->gores.mix.count; i++)
        design->gores.mix.value[i] = dice_whole(dice, FACETED, BILLOWED);
}

static void random_seams(struct dice *dice, struct design *design) {
    design->seams.tape = dice_whole(dice, SEAM_PLAIN, SEAM_FELLED);
    design->seams.row = dice_whole(dice, SEAM_PLAIN, SEAM_FELLED);
    design->seams.ridge = dice_whole(dice, SEAM_PLAIN, SEAM_FELLED);
    design->seams.tape_width_m = dice_between(dice, 0, 0.02);
    design->seams.row_width_m = dice_between(dice, 0, 0.02);
    design->seams.ridge_width_m = dice_between(dice, 0, 0.02);
    design->seams.mouth_hem_m = dice_between(dice, 0, 0.05);
    design->seams.crown_hem_m = dice_between(dice, 0, 0.05);
}

void random_design(struct dice *dice, struct design *design) {
    design_starter(design);
    design->outline.kind = dice_whole(dice, OUTLINE_NATURAL, OUTLINE_TABLE);
    if (design->outline.kind == OUTLINE_TABLE)
        random_table(dice, design);
    design->outline.weight_from = dice_whole(dice, WEIGHT_NONE, WEIGHT_CLOTH);
    design->outline.weight_ratio = dice_between(dice, 0, 0.4);
    design->outline.cone_angle_deg = dice_between(dice, 10, 55);
    random_size(dice, design);
    random_rows(dice, design);
    random_gores(dice, design);
    random_seams(dice, design);
    design->cloth.width_m = 200; /* beyond what a file may say: never the limit here */
}

struct envelope *random_envelope(struct dice *dice, struct design *design) {
    for (;;) {
        struct diagnostics messages = {0};
        random_design(dice, design);
        struct envelope *envelope = envelope_build(design, &messages);
        assert_true(envelope != NULL || messages.errors > 0);
        diagnostics_free(&messages);
        if (envelope != NULL)
            return envelope;
    }
}

double edge_length_m(const struct ring *ring, enum edge e) {
    size_t end = e + 1 < EDGE_COUNT ? ring->first[e + 1] : ring->count;
    double sum = 0;
    for (size_t i = ring->first[e]; i < end; i++) {
        struct flat_point a = ring->point[i], b = ring->point[(i + 1) % ring->count];
        sum += hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    }
    return sum;
}
