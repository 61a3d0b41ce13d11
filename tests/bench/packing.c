/* packing.c - layouts beside open instances of irregular strip packing, and of the samples.
 *
 * The instances are no part of this project: PACKING_SETS names a folder of files
 * {name, strip_height, items: [{demand, allowed_orientations, shape: {data: [[x, y], ...]}}]}.
 * Usage: packing [effort [word in a file's name]]
 */
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "gorewright/cutting.h"
#include "gorewright/flight.h"

enum { SET_OUTLINES = 256, SET_POINTS = 20000 };

struct set {
    char name[64];
    struct layout_outline outline[SET_OUTLINES];
    char label[SET_OUTLINES][16];
    size_t outlines, pieces;
    struct flat_point point[SET_POINTS];
    size_t points;
    struct layout_bolt bolt;
    double scale; /* metres for one of the set's units */
};

/* ---- reading ------------------------------------------------------------------------- */

static const char *after(const char *at, const char *end, const char *key) {
    size_t length = strlen(key);
    for (; at + length < end; at++)
        if (*at == '"' && strncmp(at + 1, key, length) == 0 && at[1 + length] == '"')
            return strchr(at, ':') + 1;
    return NULL;
}

static unsigned read_turns(const char *at) {
    unsigned turns = 0;
    for (at = strchr(at, '[') + 1; *at != ']';) {
        char *end;
        double degrees = strtod(at, &end);
        if (end == at)
            at++;
        else
            turns |= 1u << ((int)(degrees / 90 + 0.5) % TURN_COUNT), at = end;
    }
    return turns;
}

static void read_points(struct set *set, struct layout_outline *outline, const char *at) {
    double pair[2];
    int depth = 0, k = 0;
    outline->point = &set->point[set->points];
    for (at = strchr(at, '['); at != NULL && *at != '\0';) {
        char *end;
        if (*at == '[') {
            depth++, at++, k = 0;
        } else if (*at == ']') {
            if (--depth == 0)
                break;
            at++;
        } else if (pair[k] = strtod(at, &end), end == at) {
            at++;
        } else {
            at = end;
            if (++k == 2 && set->points < SET_POINTS) {
                set->point[set->points++] = (struct flat_point){pair[0], pair[1]};
                outline->points++;
            }
            k %= 2;
        }
    }
    const struct flat_point *first = outline->point, *last = first + outline->points - 1;
    if (first->x_m == last->x_m && first->y_m == last->y_m)
        outline->points--;
}

static void read_item(struct set *set, const char *at, const char *end) {
    struct layout_outline *outline = &set->outline[set->outlines];
    const char *turns = after(at, end, "allowed_orientations"), *demand = after(at, end, "demand");
    *outline = (struct layout_outline){.turns = ONLY_TURN_0};
    snprintf(set->label[set->outlines], sizeof set->label[0], "%zu", set->outlines);
    outline->name = set->label[set->outlines++];
    outline->count = demand == NULL ? 1 : (size_t)strtod(demand, NULL);
    if (turns != NULL)
        outline->turns = read_turns(turns);
    read_points(set, outline, after(at, end, "data"));
    set->pieces += outline->count;
}

/* The sets come in units of their own: here each strip is as wide as a bolt of cloth. */
static const double CLOTH_WIDTH_M = 1.5;

static void scale_to_cloth(struct set *set) {
    set->scale = CLOTH_WIDTH_M / set->bolt.width_m;
    set->bolt.width_m = CLOTH_WIDTH_M;
    for (size_t i = 0; i < set->points; i++) {
        set->point[i].x_m *= set->scale;
        set->point[i].y_m *= set->scale;
    }
}

static bool read_set(const char *folder, const char *file, struct set *set) {
    static char text[4 << 20];
    char path[1024];
    snprintf(path, sizeof path, "%s/%s", folder, file);
    FILE *stream = fopen(path, "rb");
    if (stream == NULL)
        return false;
    size_t length = fread(text, 1, sizeof text - 1, stream);
    fclose(stream);
    text[length] = '\0';
    memset(set, 0, sizeof *set);
    snprintf(set->name, sizeof set->name, "%.*s", (int)strcspn(file, "."), file);
    const char *end = text + length, *height = after(text, end, "strip_height");
    if (height == NULL)
        return false;
    set->bolt = (struct layout_bolt){strtod(height, NULL), HUGE_VAL};
    const char *at = after(text, end, "items");
    while (at != NULL && set->outlines < SET_OUTLINES) {
        const char *shape = after(at, end, "data");
        if (shape == NULL)
            break;
        const char *next = shape;
        int depth = 0;
        do {
            depth += *next == '[';
            depth -= *next == ']';
            next++;
        } while (next < end && (depth > 0 || *(next - 1) != ']'));
        read_item(set, at, next);
        at = next;
    }
    scale_to_cloth(set);
    return set->outlines > 0;
}

/* ---- running ------------------------------------------------------------------------------ */

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Best use known, in per cent: as published with the sets. */
static double best_known(const char *name) {
    static const struct {
        const char *name;
        double use;
    } known[] = {{"dagli", 90.17}, {"shirts", 90.92}, {"fu", 92.40}};
    for (size_t i = 0; i < COUNT_OF(known); i++)
        if (strcmp(name, known[i].name) == 0)
            return known[i].use;
    return 0;
}

/* Least use asked for, in per cent. */
static double asked_for(const char *name, int effort) {
    if (strcmp(name, "dagli") != 0 && strcmp(name, "shirts") != 0)
        return 0;
    return effort == EFFORT_MOST ? 86 : effort == EFFORT_USUAL ? 80 : 0;
}

/* The highest effort is to end in this time on the sets that have a limit. */
static const double MOST_SECONDS = 60;

static bool run_task(const char *name, const struct layout_task *task, size_t pieces,
                     double scale) {
    struct cloth_layout layout;
    struct diagnostics messages = {0};
    double begun = seconds();
    int status = layout_make(task, &layout, &messages);
    double took = seconds() - begun;
    if (status == 0)
        status = layout_check(task, &layout, &messages);
    double checked = seconds() - begun - took;
    struct text text = {0};
    diagnostics_write(&messages, &text);
    double least = asked_for(name, task->effort);
    bool enough = 100 * layout.use >= least;
    bool quick = least <= 0 || took <= MOST_SECONDS;
    bool good = status == 0 && enough && quick;
    if (status == 0)
        printf("%-10s %5zu pieces  effort %2d  length %9.3f  use %6.2f %%  bound %6.2f %%  best "
               "known %5.2f %%  %6.2f s  check %.2f s%s\n",
               name, pieces, task->effort, layout.used_m[0] / scale, 100 * layout.use,
               100 * layout.area_bound_m / layout.lower_bound_m, best_known(name), took, checked,
               good      ? ""
               : !enough ? "  TOO LITTLE"
                         : "  TOO LONG");
    if (text.bytes != NULL)
        printf("%s: %s", name, text.bytes);
    fflush(stdout);
    text_free(&text);
    diagnostics_free(&messages);
    layout_free(&layout);
    return good;
}

static bool run_set(const char *folder, const char *file, int effort, bool highest_too) {
    static struct set set;
    if (!read_set(folder, file, &set)) {
        printf("%s: cannot be read\n", file);
        return false;
    }
    struct layout_task task = {.outline = set.outline,
                               .outlines = set.outlines,
                               .bolt = &set.bolt,
                               .bolts = 1,
                               .effort = effort};
    bool good = run_task(set.name, &task, set.pieces, set.scale);
    task.effort = EFFORT_MOST;
    if (highest_too && asked_for(set.name, EFFORT_MOST) > 0)
        good = run_task(set.name, &task, set.pieces, set.scale) && good;
    return good;
}

/* ---- samples ------------------------------------------------------------------------------- */

/* A sample on the cloth it names, as the command layout lays it. */
static bool run_sample(const char *path, const char *name, int effort) {
    static const double least = 88; /* use asked for, in per cent, at the usual effort */
    struct diagnostics messages = {0};
    struct design design;
    struct envelope *envelope = NULL;
    struct cutting cutting = {0};
    const struct cutting_job job = {.effort = effort};
    if (design_read(path, &design, NULL, &messages) == 0)
        envelope = flight_build(&design, &design, &messages);
    double begun = seconds();
    bool good = envelope != NULL &&
                cutting_make(&job, &design, envelope, &cutting, &messages) == 0 &&
                cutting_check(&cutting, &messages);
    for (size_t i = 0; good && i < cutting.cloths; i++) {
        const struct cutting_cloth *cloth = &cutting.cloth[i];
        double use = 100 * cloth->layout.use;
        bool enough = effort < EFFORT_USUAL || use >= least;
        printf("%-12s %5zu pieces  effort %2d  length %9.3f  use %6.2f %%  limit %5.2f %%  bound "
               "%9.3f  %6.2f s%s\n",
               name, cloth->pieces, effort, cutting_used_m(cloth), use, least,
               cutting_bound_m(cloth), seconds() - begun, enough ? "" : "  TOO LITTLE");
        good = enough;
    }
    cutting_free(&cutting);
    envelope_free(envelope);
    diagnostics_free(&messages);
    return good;
}

/* Thousands of pieces: the large sample as often as asked, on one roll. */
static bool run_many(const char *path, int effort, size_t times) {
    struct diagnostics messages = {0};
    struct design design;
    struct envelope *envelope = NULL;
    struct cutting cutting = {0};
    size_t pieces = 0;
    if (design_read(path, &design, NULL, &messages) == 0)
        envelope = flight_build(&design, &design, &messages);
    bool good = envelope != NULL && cutting_make(&(struct cutting_job){.effort = EFFORT_LEAST},
                                                 &design, envelope, &cutting, &messages) == 0;
    if (good) {
        struct layout_task task = cutting_task(&cutting.cloth[0]);
        for (size_t i = 0; i < task.outlines; i++)
            pieces += cutting.cloth[0].outline[i].count *= times;
        task.effort = effort;
        good = run_task("many", &task, pieces, 1);
    }
    cutting_free(&cutting);
    envelope_free(envelope);
    diagnostics_free(&messages);
    return good;
}

int main(int count, char **argument) {
    int effort = count > 1 ? atoi(argument[1]) : EFFORT_USUAL;
    const char *only = count > 2 ? argument[2] : "";
    const char *folder = getenv("PACKING_SETS");
    bool good = true;
    struct dirent **entry;
    int files = folder == NULL ? -1 : scandir(folder, &entry, NULL, alphasort);
    if (files < 0)
        printf("open packing instances: skipped, PACKING_SETS names no folder of them\n");
    for (int i = 0; i < files; i++)
        if (strstr(entry[i]->d_name, ".json") != NULL && strstr(entry[i]->d_name, only) != NULL)
            good = run_set(folder, entry[i]->d_name, effort, count < 2) && good;
    files = scandir("samples", &entry, NULL, alphasort);
    for (int i = 0; i < files; i++)
        if (strstr(entry[i]->d_name, ".cfg") != NULL && strstr(entry[i]->d_name, only) != NULL) {
            char path[512];
            snprintf(path, sizeof path, "samples/%s", entry[i]->d_name);
            good = run_sample(path, entry[i]->d_name, effort) && good;
        }
    if (strstr("many", only) != NULL || only[0] == '\0')
        good = run_many("samples/godwit.cfg", effort, 15) && good;
    return good ? 0 : 1;
}
