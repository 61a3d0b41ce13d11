/* cutting_drawing.c - the cloth with its pieces, to scale on paper.
 *
 * The roll runs down the page, its near edge at the left: so nothing is mirrored.  It goes on in
 * the next column, or on the next page; a colour begins on a page of its own.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "paper/cutting_page.h"
#include "paper/page_parts.h"

#define HEAD_M 0.010  /* words above a column */
#define RULE_M 0.013  /* the rule at the left of a column */
#define RIGHT_M 0.006 /* the upright bar */
#define ROLL_WINDOW_M 0.6
#define LEAST_TYPE_M (4 * POINT_M)

/* A stretch of a strip: one column of a page. */
struct segment {
    const struct cutting_cloth *cloth;
    size_t strip, page, column;
    double from_m;
};

struct map {
    struct template_plan plan; /* for what every page carries */
    const struct cutting *cutting;
    struct frame frame;
    double denominator; /* drawn at 1 : denominator */
    double pitch_m;     /* from column to column */
    size_t columns;
    double length_m;         /* of cloth in a column */
    struct segment *segment; /* owned */
    size_t segments;
};

/* ---- scale ------------------------------------------------------------------------ */

static double widest_m(const struct cutting *cutting) {
    double widest = 0;
    for (size_t i = 0; i < cutting->cloths; i++)
        for (size_t k = 0; k < cutting->cloth[i].strips; k++)
            widest = fmax(widest, cutting->cloth[i].strip[k].width_m);
    return widest;
}

static double longest_m(const struct cutting *cutting) {
    double longest = 0;
    for (size_t i = 0; i < cutting->cloths; i++)
        for (size_t k = 0; k < cutting->cloth[i].strips; k++)
            longest = fmax(longest, cutting->cloth[i].layout.used_m[k]);
    return longest;
}

/* A scale that a rule for models can measure, at which the widest cloth fits. */
static double denominator_for(const struct design *design, double width_m, double room_m) {
    static const double metric[] = {10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200};
    static const double inch[] = {12, 16, 24, 32, 48, 64, 96, 192};
    bool inches = design->paper.units == UNITS_INCH;
    size_t count = inches ? COUNT_OF(inch) : COUNT_OF(metric), i = 0;
    const double *of = inches ? inch : metric;
    while (i + 1 < count && width_m / of[i] > room_m)
        i++;
    return of[i];
}

static void set_scale(struct map *map) {
    double width_m = widest_m(map->cutting), window_m;
    map->frame = sheet_frame(&map->plan, false, ROLL_WINDOW_M);
    double room_m = map->frame.width_m - RULE_M - RIGHT_M;
    map->denominator = denominator_for(map->plan.design, width_m, room_m);
    map->pitch_m = RULE_M + width_m / map->denominator;
    map->columns = (size_t)fmax(1, floor((map->frame.width_m - RIGHT_M) / map->pitch_m));
    if (map->plan.paper.height_m <= 0) {
        window_m = HEAD_M + longest_m(map->cutting) / map->denominator + 0.001;
        map->frame = sheet_frame(&map->plan, false, fmin(ROLL_WINDOW_M, window_m));
    }
    map->length_m = (frame_window_m(&map->frame) - HEAD_M) * map->denominator;
}

/* ---- columns and pages ---------------------------------------------------------------- */

static bool add_segment(struct map *map, struct segment segment) {
    struct segment *more = realloc(map->segment, (map->segments + 1) * sizeof *more);
    if (more == NULL)
        return false;
    map->segment = more;
    map->segment[map->segments++] = segment;
    return true;
}

/* Returns: false without memory. */
static bool add_strip(struct map *map, const struct cutting_cloth *cloth, size_t strip,
                      size_t *column) {
    double used_m = cloth->layout.used_m[strip];
    for (size_t n = 0; (double)n * map->length_m < used_m; n++) {
        if (*column == map->columns) {
            *column = 0;
            map->plan.sheets++;
        }
        struct segment segment = {cloth, strip, map->plan.sheets, (*column)++,
                                  (double)n * map->length_m};
        if (!add_segment(map, segment))
            return false;
    }
    return true;
}

static bool lay_columns(struct map *map) {
    for (size_t i = 0; i < map->cutting->cloths; i++) {
        size_t column = 0;
        map->plan.sheets++;
        for (size_t k = 0; k < map->cutting->cloth[i].strips; k++)
            if (!add_strip(map, &map->cutting->cloth[i], k, &column))
                return false;
    }
    return true;
}

/* ---- drawing ------------------------------------------------------------------------------ */

/* A column at work: where the start of its stretch stands on the page. */
struct column {
    const struct map *map;
    const struct segment *segment;
    const struct cutting_strip *strip;
    double x_m, top_m, to_m; /* near edge; y of its start; end of the stretch on the cloth */
};

static struct flat_point on_page(const struct column *column, double along_m, double across_m) {
    double scale = 1 / column->map->denominator;
    return (struct flat_point){column->x_m + across_m * scale,
                               column->top_m - (along_m - column->segment->from_m) * scale};
}

static void line(const struct column *column, double along0_m, double across0_m, double along1_m,
                 double across1_m, struct text *into) {
    struct flat_point a = on_page(column, along0_m, across0_m),
                      b = on_page(column, along1_m, across1_m);
    ps_line(into, a.x_m, a.y_m, b.x_m, b.y_m);
}

static void draw_cloth(const struct column *column, struct text *into) {
    const struct segment *segment = column->segment;
    double used_m = segment->cloth->layout.used_m[segment->strip];
    double width_m = column->strip->width_m, to_m = fmin(used_m, column->to_m);
    ps_pen(into, PEN_FINE);
    line(column, segment->from_m, 0, to_m, 0, into);
    line(column, segment->from_m, width_m, to_m, width_m, into);
    if (segment->from_m <= 0)
        line(column, 0, 0, 0, width_m, into);
    if (used_m <= column->to_m)
        line(column, used_m, 0, used_m, width_m, into);
}

/* Strokes every 10 cm with a figure every half metre; or every quarter foot, and every foot. */
static void draw_rule(const struct column *column, struct text *into) {
    bool inches = column->map->plan.design->paper.units == UNITS_INCH;
    double step_m = inches ? 3 * METRES_PER_INCH : 0.1, scale = 1 / column->map->denominator;
    long every = inches ? 4 : 5, first = lround(ceil(column->segment->from_m / step_m - 1e-9));
    char words[32];
    ps_pen(into, PEN_FINE);
    for (long n = first; (double)n * step_m <= column->to_m; n++) {
        double y_m = column->top_m - ((double)n * step_m - column->segment->from_m) * scale;
        double stroke_m = n % every == 0 ? 2 * MM : 1 * MM;
        ps_line(into, column->x_m - stroke_m, y_m, column->x_m, y_m);
        if (n % every != 0)
            continue;
        snprintf(words, sizeof words, inches ? "%.0f ft" : "%.1f m",
                 inches ? (double)(n / every) : (double)n * step_m);
        ps_text(into, FACE_PLAIN, TYPE_NOTE_M, ANCHOR_RIGHT, column->x_m - 2.6 * MM,
                y_m - 0.35 * TYPE_NOTE_M, words);
    }
}

static void draw_piece(const struct column *column, const struct cutting_piece *piece,
                       struct text *into) {
    double scale = 1 / column->map->denominator;
    struct flat_point at =
        on_page(column, piece->place.x_m, piece->place.y_m + column->strip->edge_m);
    text_add(into, "gsave ");
    ps_point(into, at.x_m, at.y_m);
    text_add(into, "translate %d rotate ", 90 * (int)piece->place.turn - 90);
    ps_ratio(into, scale);
    text_add(into, "dup scale [] 0 setdash ");
    ps_ratio(into, 0.7 / scale);
    text_add(into, "setlinewidth C%zu grestore\n", piece->piece + 1);
}

/* Template and gore in the middle, below them an arrow to the crown. */
static void label_piece(const struct column *column, const struct cutting_piece *piece,
                        struct text *into) {
    const struct map *map = column->map;
    double middle_m = (piece->from_m + piece->to_m) / 2;
    double wide_m = 0.7 * (piece->far_m - piece->near_m) / map->denominator;
    double tall_m = (piece->to_m - piece->from_m) / map->denominator;
    struct flat_point at = on_page(column, middle_m, (piece->near_m + piece->far_m) / 2);
    char words[32];
    if (middle_m < column->segment->from_m || middle_m >= column->to_m)
        return;
    snprintf(words, sizeof words, "%.7s %zu", map->plan.envelope->piece[piece->piece].name,
             piece->gore);
    double size_m = ps_fitting_size_m(FACE_PLAIN, TYPE_TITLE_M, wide_m, words);
    if (size_m < LEAST_TYPE_M || ps_text_width_m(FACE_PLAIN, size_m, words) > wide_m / 0.7 ||
        size_m > tall_m)
        return;
    ps_text(into, FACE_PLAIN, size_m, ANCHOR_CENTRE, at.x_m, at.y_m, words);
    if (tall_m < 6 * size_m)
        return;
    ps_point(into, at.x_m, at.y_m - 1.5 * size_m);
    text_add(into, "%d head\n", 90 * (int)piece->place.turn);
}

static void write_head(const struct column *column, struct text *into) {
    const struct segment *segment = column->segment;
    const struct map *map = column->map;
    struct strip_view view = {map->plan.design, map->plan.envelope, segment->cloth, segment->strip};
    char name[32], from[32], title[TEXT_MOST + 48], cut[LATIN_MOST];
    double width_m = map->pitch_m - RULE_M / 2;
    snprintf(title, sizeof title, "%c %s, %s", segment->cloth->colour.letter,
             segment->cloth->colour.name, strip_name(&view, name));
    ps_text(into, FACE_BOLD, TYPE_TITLE_M, ANCHOR_LEFT, column->x_m, column->top_m + 5.5 * MM,
            ps_cut(FACE_BOLD, TYPE_TITLE_M, width_m, title, cut));
    snprintf(title, sizeof title, "from %s, 1 : %.0f",
             cloth_length(map->plan.design, segment->from_m, from), map->denominator);
    ps_text(into, FACE_PLAIN, TYPE_NOTE_M, ANCHOR_LEFT, column->x_m, column->top_m + 1.5 * MM,
            ps_cut(FACE_PLAIN, TYPE_NOTE_M, width_m, title, cut));
}

static void draw_column(const struct map *map, const struct segment *segment, struct text *into) {
    struct column column = {.map = map,
                            .segment = segment,
                            .strip = &segment->cloth->strip[segment->strip],
                            .x_m = RULE_M + (double)segment->column * map->pitch_m,
                            .top_m = map->frame.height_m - HEAD_M,
                            .to_m = segment->from_m + map->length_m};
    write_head(&column, into);
    draw_rule(&column, into);
    draw_cloth(&column, into);
    text_add(into, "gsave ");
    ps_point(into, column.x_m, column.top_m - map->length_m / map->denominator);
    ps_point(into, column.strip->width_m / map->denominator, map->length_m / map->denominator);
    text_add(into, "rectclip\n");
    for (size_t i = 0; i < segment->cloth->pieces; i++) {
        const struct cutting_piece *piece = &segment->cloth->piece[i];
        if (piece->place.bolt != segment->strip || piece->to_m < segment->from_m ||
            piece->from_m > column.to_m)
            continue;
        draw_piece(&column, piece, into);
        label_piece(&column, piece, into);
    }
    text_add(into, "grestore\n");
}

/* ---- the file ------------------------------------------------------------------------------- */

static void write_page(const struct map *map, size_t number, struct text *into) {
    char label[32], detail[200];
    snprintf(label, sizeof label, "%zu-layout", number);
    snprintf(
        detail, sizeof detail,
        "cloth with its cut lines at 1 : %.0f, outer face up; the roll runs down the page, its "
        "near edge at the left; arrows point to the crown",
        map->denominator);
    page_open(&map->plan, &map->frame, label, number, into);
    for (size_t i = 0; i < map->segments; i++)
        if (map->segment[i].page == number)
            draw_column(map, &map->segment[i], into);
    page_footer(&map->plan, &map->frame,
                &(struct footer){.title = "Cutting layout",
                                 .detail = detail,
                                 .number = number,
                                 .bar = upright_bar_at_edge(&map->frame)},
                into);
    page_close(into);
}

static void write_file(const struct map *map, struct text *into) {
    const struct template_plan *plan = &map->plan;
    ps_begin(into, &(struct ps_document){plan->design->name, map->frame.page_width_m,
                                         map->frame.page_height_m, plan->sheets});
    if (plan->paper.height_m > 0)
        ps_page_size(into, plan->paper.width_m, plan->paper.height_m);
    for (size_t i = 0; i < plan->envelope->templates; i++) {
        text_add(into, "/C%zu {\n", i + 1);
        ps_ring(into, &plan->envelope->piece[i].cut);
        text_add(into, "} bind def\n");
    }
    ps_setup_end(into);
    for (size_t number = 1; number <= plan->sheets; number++)
        write_page(map, number, into);
    ps_end(into);
}

static void fill_report(const struct map *map, struct template_report *report) {
    *report = (struct template_report){.sheets = map->plan.sheets, .paper = map->plan.paper};
    if (map->plan.paper.height_m <= 0)
        report->length_m = (double)map->plan.sheets * map->frame.page_height_m;
}

int write_cutting_map(const struct design *design, const struct envelope *envelope,
                      const struct cutting *cutting, struct text *into,
                      struct template_report *report, struct diagnostics *messages) {
    struct map map = {.cutting = cutting};
    map.plan = (struct template_plan){.design = design, .envelope = envelope};
    if (paper_find(design->paper.sheet, &map.plan.paper, messages) != 0 ||
        correction_find(design, &map.plan.paper, &map.plan.correction, messages) != 0)
        return -1;
    set_scale(&map);
    bool good = lay_columns(&map);
    if (good) {
        write_file(&map, into);
        fill_report(&map, report);
    }
    free(map.segment);
    if (good && !into->failed)
        return 0;
    diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory for the layout");
    return -1;
}
