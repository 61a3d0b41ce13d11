/* sheet_reader.h - a dimension sheet read back, as somebody with rule, square and
 * batten reads it: nothing is used but what is written on the page. */
#ifndef TESTS_SHEET_READER_H
#define TESTS_SHEET_READER_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_spline.h>

#include "gorewright/geometry.h"
#include "support.h"

enum { OFFSET_COLUMNS = 33, STATIONS_MOST = 80, DRAWN_MOST = 401 };

struct read_curve {
    size_t count;                  /* from one end, the middle included */
    double along_m[STATIONS_MOST]; /* the middle's is not printed: NAN */
    double offset_m[STATIONS_MOST];
};

struct read_sheet {
    bool inches;
    struct flat_point sew[EDGE_COUNT], cut[EDGE_COUNT][2];
    size_t cut_points[EDGE_COUNT], corners;
    double rising_m, falling_m;
    struct read_curve curve[EDGE_COUNT];
    double allowance_m[EDGE_COUNT], length_m[EDGE_COUNT], chord_m[EDGE_COUNT];
    double mark_m[EDGE_COUNT][MARKS_MOST + 1]; /* from the left or lower corner; last the length */
    size_t marks[EDGE_COUNT];
    double step_m[EDGE_COUNT][MARKS_MOST + 1];
    size_t steps[EDGE_COUNT];
};

/* ---- numbers ---------------------------------------------------------------- */

static double read_inches(const char **p) {
    double sign = 1;
    if (**p == '-') {
        sign = -1;
        (*p)++;
    }
    char *end;
    double value = (double)strtol(*p, &end, 10);
    assert_true(end > *p);
    if (*end == '/') {
        const char *under = end + 1;
        value /= (double)strtol(under, &end, 10);
    } else if (*end == ' ' && end[1] >= '0' && end[1] <= '9') {
        char *slash, *done;
        double over = (double)strtol(end + 1, &slash, 10);
        if (*slash == '/') {
            value += over / (double)strtol(slash + 1, &done, 10);
            end = done;
        }
    }
    *p = end;
    return sign * value * 0.0254;
}

/* The next length on a line; whether there was one. */
static bool read_length(const struct read_sheet *sheet, const char **p, double *length_m) {
    while (**p == ' ')
        (*p)++;
    const char *digit = **p == '-' ? *p + 1 : *p;
    if (*digit < '0' || *digit > '9')
        return false;
    if (sheet->inches) {
        *length_m = read_inches(p);
        return true;
    }
    char *end;
    *length_m = strtod(*p, &end) * 1e-3;
    *p = end;
    return true;
}

static double length_after(const struct read_sheet *sheet, const char *line, const char *word) {
    const char *p = strstr(line, word);
    assert_non_null(p);
    p += strlen(word);
    double length_m = 0;
    assert_true(read_length(sheet, &p, &length_m));
    return length_m;
}

/* ---- the steps ---------------------------------------------------------------- */

static void read_corner(struct read_sheet *sheet, const char *line) {
    static const char *const where[EDGE_COUNT] = {"   A  lower left", "   B  lower right",
                                                  "   C  upper right", "   D  upper left"};
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        if (strncmp(line, where[e], strlen(where[e])) != 0)
            continue;
        const char *p = line + strlen(where[e]);
        assert_true(read_length(sheet, &p, &sheet->sew[e].x_m));
        assert_true(read_length(sheet, &p, &sheet->sew[e].y_m));
        assert_true(read_length(sheet, &p, &sheet->cut[e][0].x_m));
        assert_true(read_length(sheet, &p, &sheet->cut[e][0].y_m));
        sheet->cut_points[e] = 1;
        sheet->corners = e + 1;
        return;
    }
    const char *second = strstr(line, "then on to");
    if (second == NULL || sheet->corners == 0)
        return;
    size_t e = sheet->corners - 1;
    const char *p = second + strlen("then on to");
    assert_true(read_length(sheet, &p, &sheet->cut[e][1].x_m));
    assert_true(read_length(sheet, &p, &sheet->cut[e][1].y_m));
    sheet->cut_points[e] = 2;
}

static void read_check(struct read_sheet *sheet, const char *line) {
    if (strncmp(line, "   Check: A-C", 13) != 0)
        return;
    sheet->rising_m = length_after(sheet, line, "A-C");
    sheet->falling_m = length_after(sheet, line, "B-D");
}

/* One line of offsets: a pair of numbers for each curved edge still running. */
static void read_offsets(struct read_sheet *sheet, const char *line, const enum edge *edge,
                         size_t edges) {
    for (size_t i = 0; i < edges; i++) {
        struct read_curve *curve = &sheet->curve[edge[i]];
        if (strlen(line) < OFFSET_COLUMNS * i)
            continue;
        char field[OFFSET_COLUMNS + 1];
        snprintf(field, sizeof field, "%s", line + OFFSET_COLUMNS * i);
        const char *p = field;
        double along_m = (double)NAN;
        p += strspn(p, " ");
        if (*p == '\0')
            continue;
        assert_true(curve->count < STATIONS_MOST);
        if (strncmp(p, "middle", 6) == 0)
            p += 6;
        else
            assert_true(read_length(sheet, &p, &along_m));
        curve->along_m[curve->count] = along_m;
        assert_true(read_length(sheet, &p, &curve->offset_m[curve->count]));
        curve->count++;
    }
}

static void read_edge(struct read_sheet *sheet, const char *line) {
    static const char *const start[EDGE_COUNT] = {"   A-B  bottom", "   B-C  right", "   D-C  top",
                                                  "   A-D  left"};
    for (size_t e = 0; e < EDGE_COUNT; e++) {
        if (strncmp(line, start[e], strlen(start[e])) != 0)
            continue;
        const char *p = line + 36; /* past the names, which hold figures of their own */
        assert_true(read_length(sheet, &p, &sheet->allowance_m[e]));
        assert_true(read_length(sheet, &p, &sheet->length_m[e]));
        assert_true(read_length(sheet, &p, &sheet->chord_m[e]));
    }
}

static size_t read_row(const struct read_sheet *sheet, const char *p, double *into) {
    size_t count = 0;
    while (count <= MARKS_MOST && read_length(sheet, &p, &into[count]))
        count++;
    return count;
}

/* Running distances of one edge; the line of steps under them belongs to the same edge. */
static void read_marks(struct read_sheet *sheet, const char *line, int *edge) {
    static const struct {
        const char *start;
        int edge;
    } known[] = {{"   bottom from A   ", EDGE_BOTTOM},
                 {"   top    from D   ", EDGE_TOP},
                 {"   left   from A   ", EDGE_LEFT},
                 {"   right  from B   ", EDGE_RIGHT},
                 {"   sides  from A, B", EDGE_LEFT}};
    for (size_t i = 0; i < COUNT_OF(known); i++) {
        if (strncmp(line, known[i].start, strlen(known[i].start)) != 0)
            continue;
        *edge = known[i].edge;
        sheet->marks[*edge] = read_row(sheet, line + 19, sheet->mark_m[*edge]);
        if (strstr(line, "sides") != NULL) {
            sheet->marks[EDGE_RIGHT] = sheet->marks[EDGE_LEFT];
            memcpy(sheet->mark_m[EDGE_RIGHT], sheet->mark_m[EDGE_LEFT],
                   sizeof sheet->mark_m[EDGE_LEFT]);
        }
    }
    if (strncmp(line, "     step", 9) == 0 && *edge >= 0)
        sheet->steps[*edge] = read_row(sheet, line + 9, sheet->step_m[*edge]);
}

/* ---- the page ------------------------------------------------------------------- */

enum part { PART_HEAD, PART_CORNERS, PART_CURVES, PART_EDGES, PART_MARKS, PART_COUNT };

struct reading {
    struct read_sheet *page;
    enum part part;
    enum edge curved[2]; /* the edge each pair of columns of offsets belongs to */
    size_t curves;
    int marked;
};

static void read_curve_heading(struct reading *reading, const char *line) {
    if (strstr(line, "BOTTOM from A, B") != NULL)
        reading->curved[reading->curves++] = EDGE_BOTTOM;
    if (strstr(line, "TOP from D, C") != NULL)
        reading->curved[reading->curves++] = EDGE_TOP;
}

static void read_line(struct reading *reading, const char *line) {
    static const char *const heading[PART_COUNT] = {"?", " CORNERS.  ", " CURVES.  ",
                                                    " CUT LINE.  ", " MATCH MARKS.  "};
    struct read_sheet *page = reading->page;
    for (enum part part = PART_CORNERS; part < PART_COUNT; part++)
        if (strstr(line, heading[part]) == line + 1)
            reading->part = part;
    if (reading->part == PART_HEAD && strstr(line, "inches,") != NULL)
        page->inches = true;
    if (reading->part == PART_CORNERS) {
        read_corner(page, line);
        read_check(page, line);
    } else if (reading->part == PART_CURVES && reading->curves == 0) {
        read_curve_heading(reading, line);
    } else if (reading->part == PART_CURVES) {
        read_offsets(page, line, reading->curved, reading->curves);
    } else if (reading->part == PART_EDGES) {
        read_edge(page, line);
    } else if (reading->part == PART_MARKS) {
        read_marks(page, line, &reading->marked);
    }
}

/* Read one page; it ends at NUL or at a form feed. */
static struct read_sheet read_page(const char *page) {
    struct read_sheet sheet = {0};
    struct reading reading = {.page = &sheet, .marked = -1};
    size_t length = strcspn(page, "\f");
    for (const char *p = page; p < page + length; p += strcspn(p, "\n\f") + 1) {
        char line[160];
        snprintf(line, sizeof line, "%.*s", (int)strcspn(p, "\n\f"), p);
        read_line(&reading, line);
    }
    assert_int_equal(sheet.corners, EDGE_COUNT);
    return sheet;
}

/* ---- set out on the cloth --------------------------------------------------------- */

/* One edge as drawn, in ring direction: a straight line, or a batten (a cubic, free at
 * both ends) bent through the offset points.  Returns: number of points. */
static size_t draw_edge(const struct read_sheet *sheet, enum edge e,
                        struct flat_point line[DRAWN_MOST]) {
    struct flat_point from = sheet->sew[e], to = sheet->sew[(e + 1) % EDGE_COUNT];
    const struct read_curve *curve = &sheet->curve[e];
    line[0] = from;
    line[1] = to;
    if (curve->count == 0)
        return 2;
    double chord_m = hypot(to.x_m - from.x_m, to.y_m - from.y_m);
    double along[2 * STATIONS_MOST], offset[2 * STATIONS_MOST];
    size_t last = 2 * curve->count - 2; /* the same figures hold from either end */
    for (size_t i = 0; i < curve->count; i++) {
        along[i] = i + 1 == curve->count ? chord_m / 2 : curve->along_m[i];
        along[last - i] = chord_m - along[i];
        offset[i] = offset[last - i] = curve->offset_m[i];
    }
    gsl_spline *batten = gsl_spline_alloc(gsl_interp_cspline, last + 1);
    gsl_spline_init(batten, along, offset, last + 1);
    double x = (to.x_m - from.x_m) / chord_m, y = (to.y_m - from.y_m) / chord_m;
    for (size_t i = 0; i < DRAWN_MOST; i++) {
        double s = chord_m * (double)i / (DRAWN_MOST - 1);
        double out = gsl_spline_eval(batten, fmin(s, along[last]), NULL);
        line[i] = (struct flat_point){from.x_m + s * x + out * y, from.y_m + s * y - out * x};
    }
    gsl_spline_free(batten);
    return DRAWN_MOST;
}

/* The sew line of a page, drawn. */
struct drawn {
    struct flat_point line[EDGE_COUNT][DRAWN_MOST];
    size_t count[EDGE_COUNT];
};

static void draw_sheet(const struct read_sheet *sheet, struct drawn *drawn) {
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        drawn->count[e] = draw_edge(sheet, e, drawn->line[e]);
}

/* Distance of a point from a drawn line [m]. */
static double distance_from(struct flat_point p, const struct flat_point *line, size_t count) {
    double least = HUGE_VAL;
    for (size_t i = 0; i + 1 < count; i++) {
        double dx = line[i + 1].x_m - line[i].x_m, dy = line[i + 1].y_m - line[i].y_m;
        double px = p.x_m - line[i].x_m, py = p.y_m - line[i].y_m, size = dx * dx + dy * dy;
        double along = size > 0 ? fmin(fmax((px * dx + py * dy) / size, 0), 1) : 0;
        least = fmin(least, hypot(px - along * dx, py - along * dy));
    }
    return least;
}

#endif
