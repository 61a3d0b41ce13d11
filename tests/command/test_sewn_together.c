/* test_sewn_together.c - from what is printed back to the balloon.
 *
 * A builder has the flat pieces and nothing else.  This test reads `outlines`, `sheets` and
 * the slopes of `stations` as text, sews the pieces together in space by the lengths that
 * cloth keeps (tape sides, rulings, ridges), and compares what comes out with `figures`.
 * It knows the sections (a chord, a roof, an arc, standing on the chord and leaning with the
 * slope) but uses nothing of the program's own geometry. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_multifit_nlinear.h>

enum { ROWS = 60, POINTS = 4200, PANELS = 3 * ROWS, EDGES = 4 };

/* ---- reading ----------------------------------------------------------------- */

struct panel {
    char name[16], style[16], side[8];
    size_t row, count;
    size_t points, corner[EDGES]; /* corner: where each edge begins */
    double x_mm[POINTS], y_mm[POINTS];
    char printed[EDGES][16]; /* length of each sew edge on the dimension sheet */
};

struct printed {
    struct panel *panel; /* of PANELS */
    size_t panels, rows;
    double slope_rad[ROWS + 1], r_mm[ROWS + 1], z_mm[ROWS + 1];
    char *figures;
};

static const char *const edge_words[EDGES] = {"bottom", "right", "top", "left"};

static size_t edge_index(const char *word) {
    for (size_t e = 0; e < EDGES; e++)
        if (strcmp(word, edge_words[e]) == 0)
            return e;
    fail_msg("'%s' is no edge", word);
    return 0;
}

static struct panel *panel_named(struct printed *printed, const char *name) {
    for (size_t i = 0; i < printed->panels; i++)
        if (strcmp(printed->panel[i].name, name) == 0)
            return &printed->panel[i];
    return NULL;
}

static void read_outline_point(struct printed *printed, const char *line) {
    char name[16], style[16], side[8], kind[8], edge[8];
    size_t row, count, number;
    double x_mm, y_mm;
    assert_int_equal(sscanf(line, "%15s %15s %zu %7s %zu %7s %7s %zu %lf %lf", name, style, &row,
                            side, &count, kind, edge, &number, &x_mm, &y_mm),
                     10);
    if (strcmp(kind, "sew") != 0)
        return;
    struct panel *panel = panel_named(printed, name);
    if (panel == NULL) {
        assert_true(printed->panels < PANELS);
        panel = &printed->panel[printed->panels++];
        *panel = (struct panel){.row = row, .count = count};
        strcpy(panel->name, name);
        strcpy(panel->style, style);
        strcpy(panel->side, side);
        panel->corner[1] = panel->corner[2] = panel->corner[3] = POINTS;
    }
    assert_int_equal(number, panel->points);
    assert_true(panel->points < POINTS);
    size_t e = edge_index(edge);
    if (panel->corner[e] > panel->points)
        panel->corner[e] = panel->points;
    panel->x_mm[panel->points] = x_mm;
    panel->y_mm[panel->points++] = y_mm;
}

static void read_station(struct printed *printed, const char *line) {
    size_t j;
    double s_mm, r_mm, z_mm, slope_deg;
    assert_int_equal(sscanf(line, "%zu %lf %lf %lf %lf", &j, &s_mm, &r_mm, &z_mm, &slope_deg), 5);
    assert_true(j <= ROWS);
    printed->rows = j;
    printed->r_mm[j] = r_mm;
    printed->z_mm[j] = z_mm;
    printed->slope_rad[j] = slope_deg * PI / 180;
}

/* A page of the sheets begins "F03   CUT 16"; an edge is "   A-B  bottom ... 8.0  500.5  500.5
 * straight": allowance, sew line, end to end. */
static void read_sheet_line(struct printed *printed, const char *line, struct panel **page) {
    char name[16], word[16];
    size_t count;
    if (line[0] == '\f')
        line++;
    if (sscanf(line, "%15s CUT %zu", name, &count) == 2) {
        *page = panel_named(printed, name);
        assert_non_null(*page);
        assert_int_equal((*page)->count, count);
    }
    size_t length = strlen(line);
    bool edge_line =
        length > 10 && strncmp(line, "   ", 3) == 0 && line[4] == '-' &&
        (strcmp(line + length - 5, "curve") == 0 || strcmp(line + length - 8, "straight") == 0);
    if (!edge_line)
        return;
    assert_non_null(*page);
    assert_int_equal(sscanf(line + 6, "%15s", word), 1);
    const char *numbers = strrchr(line, ' '); /* back over "curve" and "end to end" */
    for (int words = 0; words < 2; words++) {
        while (*numbers == ' ')
            numbers--;
        while (*numbers != ' ')
            numbers--;
    }
    assert_int_equal(sscanf(numbers, "%15s", (*page)->printed[edge_index(word)]), 1);
}

static void each_line(char *text, struct printed *printed, bool with_header,
                      void (*read)(struct printed *, const char *)) {
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        if (!with_header)
            read(printed, line);
        with_header = false;
    }
}

static char *output_of(const char *command, const char *path) {
    struct outcome outcome = run("$GW %s %s", command, path);
    if (outcome.status != 0)
        fail_msg("%s: %s", command, outcome.err);
    free(outcome.err);
    return outcome.out;
}

static struct printed read_printed(const char *path) {
    struct printed printed = {.panel = calloc(PANELS, sizeof *printed.panel)};
    assert_non_null(printed.panel);
    char *outlines = output_of("outlines", path), *stations = output_of("stations", path);
    char *sheets = output_of("sheets", path);
    each_line(outlines, &printed, true, read_outline_point);
    each_line(stations, &printed, true, read_station);
    struct panel *page = NULL;
    for (char *line = strtok(sheets, "\n"); line != NULL; line = strtok(NULL, "\n"))
        read_sheet_line(&printed, line, &page);
    printed.figures = output_of("figures", path);
    free(outlines);
    free(stations);
    free(sheets);
    return printed;
}

static void printed_free(struct printed *printed) {
    free(printed->panel);
    free(printed->figures);
}

static double figure(const struct printed *printed, const char *key) {
    char pattern[64];
    snprintf(pattern, sizeof pattern, "\n%s\t", key);
    const char *at = strstr(printed->figures, pattern);
    if (at == NULL)
        fail_msg("figures has no %s", key);
    return strtod(at + strlen(pattern), NULL);
}

/* ---- lengths on a flat piece --------------------------------------------------- */

static double apart_mm(const struct panel *panel, size_t a, size_t b) {
    return hypot(panel->x_mm[a] - panel->x_mm[b], panel->y_mm[a] - panel->y_mm[b]);
}

static double edge_mm(const struct panel *panel, size_t e) {
    size_t end = e + 1 < EDGES ? panel->corner[e + 1] : panel->points;
    double length_mm = 0;
    for (size_t i = panel->corner[e]; i < end; i++)
        length_mm += apart_mm(panel, i, (i + 1) % panel->points);
    return length_mm;
}

/* From a point of the bottom edge to the one above it, a fraction from the left corner. */
static double ruling_mm(const struct panel *panel, size_t numerator, size_t denominator) {
    size_t cells = panel->corner[1];
    assert_int_equal(cells % denominator, 0);
    assert_int_equal(panel->corner[3] - panel->corner[2], cells);
    size_t low = cells * numerator / denominator;
    return apart_mm(panel, low, panel->corner[3] - low);
}

static double flat_area_m2(const struct panel *panel) {
    double twice = 0;
    for (size_t i = 0; i < panel->points; i++) {
        size_t next = (i + 1) % panel->points;
        twice += panel->x_mm[i] * panel->y_mm[next] - panel->x_mm[next] * panel->y_mm[i];
    }
    return twice / 2 * 1e-6;
}

/* ---- one gore ------------------------------------------------------------------- */

/* What cloth keeps when it is sewn: the three lengths of each row that fix the next station.
 * Half-gore: tape side, ridge, and from the lower tape corner to the upper ridge corner.
 * Billowed: tape side, middle ruling, quarter ruling.  Faceted: tape side only. */
struct gore {
    char style[16];
    size_t count, rows;
    double angle_rad; /* half of what one gore takes of the circle */
    double slope_rad[ROWS + 1];
    double across_mm[ROWS + 1];             /* cloth from tape to tape, as drawn */
    size_t strokes[ROWS + 1];               /* straight strokes that a curved edge is drawn with */
    double kept_mm[ROWS + 1][3];            /* by row, from 1 */
    double bulge[ROWS + 1], z_mm[ROWS + 1]; /* what sewing finds */
};

static bool is(const struct gore *gore, const char *style) {
    return strcmp(gore->style, style) == 0;
}

/* Cloth from tape to tape over the chord, at station j; of an arc its strokes are measured. */
static double stretch_of(const struct gore *gore, size_t j, double bulge) {
    if (is(gore, "half-gore"))
        return sqrt(1 + 4 * bulge * bulge);
    double phi = 2 * atan(2 * bulge), strokes = (double)gore->strokes[j];
    return is(gore, "billowed") && fabs(phi) > 1e-6 ? strokes * sin(phi / strokes) / sin(phi) : 1;
}

struct point {
    double along, out, up; /* along the chord, from the axis, up [mm] */
};

/* The cloth of station j at u, -1 left tape .. 1 right tape. */
static struct point cloth_at(const struct gore *gore, size_t j, double bulge, double z_mm,
                             double u) {
    double chord = gore->across_mm[j] / stretch_of(gore, j, bulge), x = u * chord / 2, h = 0;
    double phi = 2 * atan(2 * bulge);
    if (is(gore, "half-gore"))
        h = bulge * chord * (1 - fabs(u));
    else if (is(gore, "billowed") && fabs(phi) > 1e-6) {
        double radius = chord / (2 * sin(phi));
        x = radius * sin(u * phi);
        h = radius * (cos(u * phi) - cos(phi));
    }
    double slope = gore->slope_rad[j];
    return (struct point){x, chord / 2 / tan(gore->angle_rad) + h * cos(slope),
                          z_mm - h * sin(slope)};
}

static double radius_mm(const struct gore *gore, size_t j) {
    return gore->across_mm[j] / stretch_of(gore, j, gore->bulge[j]) / 2 / sin(gore->angle_rad);
}

static double between(struct point a, struct point b) {
    return sqrt((a.along - b.along) * (a.along - b.along) + (a.out - b.out) * (a.out - b.out) +
                (a.up - b.up) * (a.up - b.up));
}

/* Where each kept length begins and ends, as u below and above. */
static void ends_of_kept(const struct gore *gore, size_t which, double *low, double *high) {
    *low = *high = -1;
    if (which == 1)
        *low = *high = 0;
    if (which == 2 && is(gore, "half-gore"))
        *high = 0;
    if (which == 2 && is(gore, "billowed"))
        *low = *high = -0.5;
}

/* ---- sewing: find bulge and height of each station ------------------------------- */

/* Unknowns: bulge of stations 0 .. rows, then height of 1 .. rows. */
static double unknown_z(const struct gore *gore, const gsl_vector *x, size_t j) {
    return j == 0 ? 0 : gsl_vector_get(x, gore->rows + j) * 1000;
}

static double misfit_mm(const struct gore *gore, const gsl_vector *x, size_t j, size_t which) {
    double low, high;
    ends_of_kept(gore, which, &low, &high);
    struct point below =
        cloth_at(gore, j - 1, gsl_vector_get(x, j - 1), unknown_z(gore, x, j - 1), low);
    struct point above = cloth_at(gore, j, gsl_vector_get(x, j), unknown_z(gore, x, j), high);
    return between(below, above) - gore->kept_mm[j][which];
}

static int misfits(const gsl_vector *x, void *data, gsl_vector *misfit) {
    const struct gore *gore = data;
    for (size_t j = 1; j <= gore->rows; j++)
        for (size_t which = 0; which < 3; which++)
            gsl_vector_set(misfit, 3 * (j - 1) + which, misfit_mm(gore, x, j, which));
    return GSL_SUCCESS;
}

/* With bulge `bulge` at station j, the height that the tape side asks for. */
static void place_station(const struct gore *gore, gsl_vector *x, size_t j, double bulge) {
    gsl_vector_set(x, j, bulge);
    double step =
        cloth_at(gore, j, bulge, 0, 1).along / sin(gore->angle_rad) -
        cloth_at(gore, j - 1, gsl_vector_get(x, j - 1), 0, 1).along / sin(gore->angle_rad);
    double rise_mm = sqrt(fmax(gore->kept_mm[j][0] * gore->kept_mm[j][0] - step * step, 1));
    gsl_vector_set(x, gore->rows + j, unknown_z(gore, x, j - 1) / 1000 + rise_mm / 1000);
}

/* A first guess from the mouth up: at each station the bulge that fits best. */
static void march_up(const struct gore *gore, double mouth_bulge, gsl_vector *x) {
    gsl_vector_set(x, 0, mouth_bulge);
    for (size_t j = 1; j <= gore->rows; j++) {
        double best = 0, least = HUGE_VAL;
        for (double bulge = 0; bulge <= 0.5; bulge += 0.005) {
            place_station(gore, x, j, bulge);
            double misfit = hypot(misfit_mm(gore, x, j, 1), misfit_mm(gore, x, j, 2));
            if (misfit < least) {
                least = misfit;
                best = bulge;
            }
        }
        place_station(gore, x, j, best);
    }
}

static double refine(struct gore *gore, gsl_multifit_nlinear_workspace *work,
                     const gsl_vector *start, gsl_multifit_nlinear_fdf *system) {
    int how;
    double worst_mm = 0;
    gsl_multifit_nlinear_init(start, system, work);
    gsl_multifit_nlinear_driver(200, 1e-13, 1e-13, 0, NULL, NULL, &how, work);
    const gsl_vector *x = gsl_multifit_nlinear_position(work);
    for (size_t j = 0; j <= gore->rows; j++) {
        gore->bulge[j] = gsl_vector_get(x, j);
        gore->z_mm[j] = unknown_z(gore, x, j);
    }
    const gsl_vector *misfit = gsl_multifit_nlinear_residual(work);
    for (size_t i = 0; i < system->n; i++)
        worst_mm = fmax(worst_mm, fabs(gsl_vector_get(misfit, i)));
    return worst_mm;
}

/* There are more lengths than unknowns, so that a fit to the thousandth of a millimetre is
 * the true one; the bulge at the mouth is tried until there is one.
 * Returns the largest misfit left [mm]. */
static double sew_bulging(struct gore *gore) {
    size_t unknowns = 2 * gore->rows + 1, lengths = 3 * gore->rows;
    gsl_multifit_nlinear_parameters parameters = gsl_multifit_nlinear_default_parameters();
    gsl_multifit_nlinear_workspace *work =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &parameters, lengths, unknowns);
    gsl_multifit_nlinear_fdf system = {.f = misfits, .n = lengths, .p = unknowns, .params = gore};
    gsl_vector *start = gsl_vector_alloc(unknowns);
    double worst_mm = HUGE_VAL;
    for (double mouth = 0; mouth <= 0.5 && worst_mm > 0.001; mouth += 0.01) {
        march_up(gore, mouth, start);
        worst_mm = refine(gore, work, start, &system);
    }
    gsl_vector_free(start);
    gsl_multifit_nlinear_free(work);
    return worst_mm;
}

/* Flat panels: chords give the radii, sides give the heights. */
static void sew_flat(struct gore *gore) {
    for (size_t j = 1; j <= gore->rows; j++) {
        double step = radius_mm(gore, j) - radius_mm(gore, j - 1), side = gore->kept_mm[j][0];
        gore->z_mm[j] = gore->z_mm[j - 1] + sqrt(side * side - step * step);
    }
}

/* ---- from pieces to a gore --------------------------------------------------------- */

static void take_panel(struct gore *gore, const struct panel *panel) {
    size_t j = panel->row;
    bool left = strcmp(panel->side, "left") == 0, right = strcmp(panel->side, "right") == 0;
    assert_true(j >= 1 && j <= gore->rows);
    gore->count = panel->count;
    gore->across_mm[j - 1] += j == 1 ? edge_mm(panel, 0) : 0;
    gore->across_mm[j] += edge_mm(panel, 2);
    gore->strokes[j - 1] = j == 1 ? panel->corner[1] : gore->strokes[j - 1];
    gore->strokes[j] = panel->corner[3] - panel->corner[2];
    gore->kept_mm[j][0] = edge_mm(panel, right ? 1 : 3);
    if (left || right) {
        gore->kept_mm[j][1] = edge_mm(panel, right ? 3 : 1);
        gore->kept_mm[j][2] = left ? apart_mm(panel, panel->corner[0], panel->corner[2])
                                   : apart_mm(panel, panel->corner[1], panel->corner[3]);
    } else if (is(gore, "billowed") && panel->points > EDGES) {
        gore->kept_mm[j][1] = ruling_mm(panel, 1, 2);
        gore->kept_mm[j][2] = ruling_mm(panel, 1, 4);
    }
}

/* Every panel between two stations is one piece, or a left and a right one that mirror. */
static bool gore_from_pieces(const struct printed *printed, const char *style, struct gore *gore) {
    size_t panels = 0;
    *gore = (struct gore){.rows = printed->rows, .angle_rad = PI / figure(printed, "gores")};
    strcpy(gore->style, style);
    memcpy(gore->slope_rad, printed->slope_rad, sizeof gore->slope_rad);
    for (size_t i = 0; i < printed->panels; i++)
        if (strcmp(printed->panel[i].style, style) == 0) {
            take_panel(gore, &printed->panel[i]);
            panels++;
        }
    if (panels == 0)
        return false;
    assert_int_equal(panels, printed->rows * (is(gore, "half-gore") ? 2 : 1));
    if (is(gore, "faceted"))
        sew_flat(gore);
    else
        assert_close(sew_bulging(gore), 0, 0.001, 0);
    return true;
}

/* ---- what the gore encloses ---------------------------------------------------------- */

/* Six times the volume of the tetrahedron from the foot of the axis. */
static double det(struct point a, struct point b, struct point c) {
    return a.along * (b.out * c.up - b.up * c.out) - a.out * (b.along * c.up - b.up * c.along) +
           a.up * (b.along * c.out - b.out * c.along);
}

/* Between two planes through the axis, closed at mouth and crown by fans from the axis. */
static double gore_volume_m3(const struct gore *gore) {
    size_t cells = is(gore, "billowed") ? 128 : 2, top = gore->rows;
    double six = 0;
    for (size_t i = 0; i < cells; i++) {
        double u = -1 + 2 * (double)i / (double)cells, v = u + 2 / (double)cells;
        bool right = 2 * i >= cells; /* the diagonal leads from the lower tape up to the middle */
        for (size_t j = 0; j < top; j++) {
            struct point a = cloth_at(gore, j, gore->bulge[j], gore->z_mm[j], u);
            struct point b = cloth_at(gore, j, gore->bulge[j], gore->z_mm[j], v);
            struct point c = cloth_at(gore, j + 1, gore->bulge[j + 1], gore->z_mm[j + 1], v);
            struct point d = cloth_at(gore, j + 1, gore->bulge[j + 1], gore->z_mm[j + 1], u);
            six += right ? det(a, b, d) + det(b, c, d) : det(a, b, c) + det(a, c, d);
        }
        struct point mouth = {0, 0, gore->z_mm[0]}, crown = {0, 0, gore->z_mm[top]};
        six += det(mouth, cloth_at(gore, 0, gore->bulge[0], gore->z_mm[0], v),
                   cloth_at(gore, 0, gore->bulge[0], gore->z_mm[0], u));
        six += det(crown, cloth_at(gore, top, gore->bulge[top], gore->z_mm[top], u),
                   cloth_at(gore, top, gore->bulge[top], gore->z_mm[top], v));
    }
    return fabs(six) / 6 * 1e-9;
}

/* ---- the comparison -------------------------------------------------------------------- */

static const char *const styles[] = {"faceted", "half-gore", "billowed"};

/* Of every comparison of a whole.  A tenth of a per cent would do; what is left is some 2e-5,
 * from straight strokes in place of curves, here and on the pieces. */
#define WITHIN 1e-4

static void compare_stations(const struct printed *printed, const struct gore *gore) {
    for (size_t j = 0; j <= gore->rows; j++) {
        assert_close(radius_mm(gore, j), printed->r_mm[j], 0.05, WITHIN);
        assert_close(gore->z_mm[j], printed->z_mm[j], 0.05, WITHIN);
    }
}

static void compare_whole(const struct printed *printed) {
    double volume_m3 = 0, area_m2 = 0;
    size_t gores = 0;
    for (size_t s = 0; s < COUNT_OF(styles); s++) {
        struct gore gore;
        double length_mm = 0;
        if (!gore_from_pieces(printed, styles[s], &gore))
            continue;
        for (size_t j = 1; j <= gore.rows; j++)
            length_mm += gore.kept_mm[j][0];
        assert_close(length_mm / 1000, figure(printed, "gore_length"), 0, WITHIN);
        compare_stations(printed, &gore);
        volume_m3 += (double)gore.count * gore_volume_m3(&gore);
        gores += gore.count;
    }
    for (size_t i = 0; i < printed->panels; i++)
        area_m2 += (double)printed->panel[i].count * flat_area_m2(&printed->panel[i]);
    assert_int_equal(gores, (size_t)figure(printed, "gores"));
    assert_close(volume_m3, figure(printed, "volume"), 0, WITHIN);
    assert_close(area_m2, figure(printed, "sewn_area"), 0, WITHIN);
}

/* The piece of the same style and side one row up. */
static struct panel *panel_above(struct printed *printed, const struct panel *panel) {
    for (size_t i = 0; i < printed->panels; i++) {
        struct panel *other = &printed->panel[i];
        if (other->row == panel->row + 1 && strcmp(other->style, panel->style) == 0 &&
            strcmp(other->side, panel->side) == 0)
            return other;
    }
    return NULL;
}

/* Both panels of a seam are equally long there, and their sheets print the same number. */
static void compare_seams(struct printed *printed) {
    for (size_t i = 0; i < printed->panels; i++) {
        struct panel *panel = &printed->panel[i], *above = panel_above(printed, panel);
        if (panel->row < printed->rows)
            assert_non_null(above);
        if (above != NULL) {
            assert_string_equal(panel->printed[2], above->printed[0]);
            assert_close(edge_mm(panel, 2), edge_mm(above, 0), 0.02, 0);
        }
        for (size_t j = 0; j < printed->panels; j++) {
            const struct panel *other = &printed->panel[j];
            if (other->row != panel->row)
                continue;
            size_t tape = strcmp(panel->side, "right") == 0 ? 1 : 3;
            size_t other_tape = strcmp(other->side, "right") == 0 ? 1 : 3;
            assert_string_equal(panel->printed[tape], other->printed[other_tape]);
        }
        for (size_t e = 0; e < EDGES; e++) /* rounded to half a millimetre */
            assert_close(strtod(panel->printed[e], NULL), edge_mm(panel, e), 0.27, 0);
    }
}

static void compare_sheets(const struct printed *printed) {
    double length_mm = 0;
    for (size_t i = 0; i < printed->panels; i++) {
        const struct panel *panel = &printed->panel[i];
        if (strcmp(panel->style, printed->panel[0].style) == 0 && strcmp(panel->side, "right") != 0)
            length_mm += strtod(panel->printed[3], NULL);
    }
    assert_close(length_mm / 1000, figure(printed, "gore_length"), 0, 1e-3);
}

static void sew_and_compare(const char *design) {
    const char *path = scratch_file("sewn.design", design);
    struct printed printed = read_printed(path);
    compare_whole(&printed);
    compare_seams(&printed);
    compare_sheets(&printed);
    printed_free(&printed);
}

static void faceted_pieces_sew_up_to_the_printed_envelope(void **state) {
    (void)state;
    sew_and_compare("format = 1;");
    sew_and_compare("format = 1; gores: { count = 5; }; rows: { count = 12; "
                    "spacing = \"even-departure\"; }; size: { height = 2.2; };");
}

static void half_gores_sew_up_to_the_printed_envelope(void **state) {
    (void)state;
    sew_and_compare("format = 1; gores: { count = 12; style = \"half-gore\"; }; "
                    "size: { height = 3.0; };");
    sew_and_compare("format = 1; gores: { count = 24; style = \"half-gore\"; }; "
                    "bulge: { depth = 0.3; ease_rows = 3; }; rows: { count = 10; }; "
                    "outline: { kind = \"ball-and-cone\"; }; size: { diameter = 3.5; };");
}

static void billowed_pieces_sew_up_to_the_printed_envelope(void **state) {
    (void)state;
    sew_and_compare("format = 1; gores: { style = \"billowed\"; };");
    sew_and_compare("format = 1; gores: { count = 12; style = \"billowed\"; }; "
                    "bulge: { depth = 0.3; ease_rows = 2; }; "
                    "outline: { kind = \"ball-and-cone\"; }; size: { cloth_area = 25.0; };");
}

static void a_mixed_envelope_sews_up_gore_by_gore(void **state) {
    (void)state;
    sew_and_compare("format = 1; size: { gore_length = 4.0; }; gores: { count = 12; "
                    "mix = (\"faceted\", \"billowed\", \"half-gore\", \"billowed\"); }; "
                    "bulge: { depth = 0.15; ease_rows = 2; };");
}

static void bulging_mouth_and_crown_sew_up_too(void **state) {
    (void)state;
    const char *const style[] = {"half-gore", "billowed"};
    for (size_t s = 0; s < COUNT_OF(style); s++) {
        char design[1024];
        snprintf(design, sizeof design,
                 "format = 1; size: { by = \"table\"; }; outline: { kind = \"table\"; table = "
                 "((0.3, 0.0), (0.9, 0.8), (1.3, 1.7), (1.1, 2.5), (0.3, 3.0)); }; "
                 "gores: { count = 14; style = \"%s\"; }; rows: { count = 6; "
                 "spacing = \"given\"; shares = (2, 1, 1.5, 1, 1, 1.2); }; "
                 "bulge: { stations = (0.05, 0.2, 0.1, 0.25, 0.1, 0.2, 0.08); };",
                 style[s]);
        sew_and_compare(design);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faceted_pieces_sew_up_to_the_printed_envelope),
        cmocka_unit_test(half_gores_sew_up_to_the_printed_envelope),
        cmocka_unit_test(billowed_pieces_sew_up_to_the_printed_envelope),
        cmocka_unit_test(a_mixed_envelope_sews_up_gore_by_gore),
        cmocka_unit_test(bulging_mouth_and_crown_sew_up_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
