/* The previews: inside their box at any size, true in proportion, every dimension whole. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "screen/previews.h"

enum { COLUMNS_MOST = 200, ROWS_MOST_SHOWN = 60, BORDER = 2 };

/* A box of the size asked for in a canvas of known cells. */
struct drawn {
    struct canvas canvas;
    size_t columns, rows;
    struct cell cell[(COLUMNS_MOST + 2 * BORDER) * (ROWS_MOST_SHOWN + 2 * BORDER)];
};

static struct drawn drawn;
static const struct cell sentinel = {'#', CELL_WARNING};

static struct envelope *build(struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    diagnostics_free(&messages);
    assert_non_null(envelope);
    return envelope;
}

static struct envelope *starter(struct design *design, enum style style) {
    design_starter(design);
    design->gores.style = (int)style;
    return build(design);
}

static void draw(enum preview preview, const struct preview_job *job, size_t columns, size_t rows) {
    drawn.canvas =
        (struct canvas){columns + 2 * (size_t)BORDER, rows + 2 * (size_t)BORDER, drawn.cell};
    drawn.columns = columns;
    drawn.rows = rows;
    for (size_t i = 0; i < drawn.canvas.columns * drawn.canvas.rows; i++)
        drawn.cell[i] = sentinel;
    struct canvas_box box = {BORDER, BORDER, (double)columns, (double)rows};
    assert_true(preview_draw(preview, job, &drawn.canvas, box));
}

static struct cell at(long column, long row) {
    if (column < 0 || row < 0 || column >= (long)drawn.columns || row >= (long)drawn.rows)
        return (struct cell){' ', CELL_BLANK};
    return canvas_cell(&drawn.canvas, column + BORDER, row + BORDER);
}

/* The drawing as lines, blanks at their ends left off. */
static void write_drawing(struct text *into) {
    for (long row = 0; row < (long)drawn.rows; row++) {
        long width = (long)drawn.columns;
        while (width > 0 && at(width - 1, row).glyph == ' ')
            width--;
        for (long column = 0; column < width; column++)
            text_add(into, "%c", at(column, row).glyph);
        text_add(into, "\n");
    }
}

static size_t cells_of(enum cell_kind kind) {
    size_t count = 0;
    for (long row = 0; row < (long)drawn.rows; row++)
        for (long column = 0; column < (long)drawn.columns; column++)
            count += at(column, row).kind == kind;
    return count;
}

static bool shows(const char *words) {
    struct text text = {0};
    write_drawing(&text);
    bool found = strstr(text.bytes, words) != NULL;
    text_free(&text);
    return found;
}

static void assert_shows(const char *words) {
    struct text text = {0};
    write_drawing(&text);
    if (strstr(text.bytes, words) == NULL)
        fail_msg("\"%s\" is not on this drawing of %zu x %zu:\n%s", words, drawn.columns,
                 drawn.rows, text.bytes);
    text_free(&text);
}

static void assert_shows_length(const struct design *design, const char *before, double length_m) {
    char length[32], words[96];
    snprintf(words, sizeof words, "%s%s", before, format_length(design, length_m, length));
    assert_shows(words);
}

/* ---- inside the box --------------------------------------------------------------- */

static void assert_stays_inside(void) {
    for (long row = 0; row < (long)drawn.canvas.rows; row++)
        for (long column = 0; column < (long)drawn.canvas.columns; column++) {
            bool inside = column >= BORDER && row >= BORDER &&
                          column < (long)drawn.canvas.columns - BORDER &&
                          row < (long)drawn.canvas.rows - BORDER;
            struct cell cell = canvas_cell(&drawn.canvas, column, row);
            if (inside && (cell.glyph < ' ' || cell.glyph > '~' || cell.kind == sentinel.kind))
                fail_msg("cell %ld, %ld of %zu x %zu is not drawn", column, row, drawn.columns,
                         drawn.rows);
            if (!inside && (cell.glyph != sentinel.glyph || cell.kind != sentinel.kind))
                fail_msg("cell %ld, %ld beside %zu x %zu was touched", column, row, drawn.columns,
                         drawn.rows);
        }
}

static void every_size_stays_inside_its_box(void **state) {
    (void)state;
    struct design design[STYLE_COUNT];
    struct envelope *envelope[STYLE_COUNT];
    for (enum style style = FACETED; style < STYLE_COUNT; style++)
        envelope[style] = starter(&design[style], style);
    for (size_t columns = 1; columns <= COLUMNS_MOST; columns++)
        for (size_t rows = 1; rows <= ROWS_MOST_SHOWN; rows++)
            for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_COUNT; preview++) {
                enum style style = (enum style)((columns + rows) % STYLE_COUNT);
                struct preview_job job = {.design = &design[style],
                                          .envelope = envelope[style],
                                          .style = style,
                                          .lit_edge = (int)(rows % 7) - 1};
                draw(preview, &job, columns, rows);
                assert_stays_inside();
            }
    for (enum style style = FACETED; style < STYLE_COUNT; style++)
        envelope_free(envelope[style]);
}

static void any_design_stays_inside_its_box(void **state) {
    (void)state;
    struct dice dice = {21};
    for (int i = 0; i < 300; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct preview_job job = {.design = &design,
                                  .envelope = envelope,
                                  .style = (enum style)dice_whole(&dice, FACETED, BILLOWED),
                                  .row = (size_t)dice_whole(&dice, 0, ROWS_MOST),
                                  .side = (enum side)dice_whole(&dice, SIDE_WHOLE, SIDE_RIGHT),
                                  .lit_edge = dice_whole(&dice, LIT_NOTHING, LIT_FALLING),
                                  .at_mouth = dice_whole(&dice, 0, 1) == 1};
        for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_COUNT; preview++) {
            draw(preview, &job, (size_t)dice_whole(&dice, 1, COLUMNS_MOST),
                 (size_t)dice_whole(&dice, 1, ROWS_MOST_SHOWN));
            assert_stays_inside();
        }
        envelope_free(envelope);
    }
}

static void what_lies_off_the_canvas_is_left_out(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    static struct cell cell[20 * 10];
    struct canvas canvas = {20, 10, cell};
    const struct canvas_box box[] = {{-10, -4, 60, 24}, {15, 8, 60, 24}, {500, 500, 60, 24},
                                     {0, 0, 0, 0},      {0, 0, -3, 5},   {0, 0, (double)NAN, 5}};
    for (size_t i = 0; i < COUNT_OF(box); i++)
        for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_COUNT; preview++) {
            for (size_t c = 0; c < COUNT_OF(cell); c++)
                cell[c] = sentinel;
            assert_true(preview_draw(preview, &job, &canvas, box[i]));
            for (size_t c = 0; i > 0 && c < COUNT_OF(cell); c++)
                if (i > 1 || c % 20 < 15 || c / 20 < 8) /* only box 1 reaches onto the canvas */
                    assert_int_equal(cell[c].kind, sentinel.kind);
        }
    envelope_free(envelope);
}

static void without_an_envelope_the_box_is_blank(void **state) {
    (void)state;
    struct preview_job job = {.lit_edge = LIT_NOTHING};
    for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_COUNT; preview++) {
        draw(preview, &job, 60, 24);
        assert_int_equal(cells_of(CELL_BLANK), 60 * 24);
    }
}

static void a_small_box_shows_lines_without_words(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, BILLOWED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_PLAN; preview++) {
        draw(preview, &job, 20, 9);
        assert_int_equal(cells_of(CELL_DIMENSION), 0);
        assert_int_equal(cells_of(CELL_LABEL), 0);
        assert_true(cells_of(CELL_SOLID) > 10);
    }
    envelope_free(envelope);
}

/* ---- proportions -------------------------------------------------------------------- */

/* Box around the cells of a kind, or with a glyph (0: any). */
static void extent(enum cell_kind kind, char glyph, double *columns, double *rows) {
    long left = 1000, right = -1, top = 1000, foot = -1;
    for (long row = 0; row < (long)drawn.rows; row++)
        for (long column = 0; column < (long)drawn.columns; column++) {
            if (at(column, row).kind != kind || (glyph != 0 && at(column, row).glyph != glyph))
                continue;
            left = column < left ? column : left;
            right = column > right ? column : right;
            top = row < top ? row : top;
            foot = row > foot ? row : foot;
        }
    *columns = (double)(right - left + 1);
    *rows = (double)(foot - top + 1);
}

/* Each extent is known to about a cell at either end. */
static void assert_proportion(double columns, double rows, double width_m, double height_m) {
    double ratio = height_m / width_m;
    assert_close(2 * rows / columns, ratio, 0, 2 / rows + 2 / columns);
}

static void proportions_are_true(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {
        .design = &design, .envelope = envelope, .row = 4, .lit_edge = LIT_NOTHING};
    const struct piece *piece = preview_piece(&job);
    double half_m = side_view_silhouette(envelope, true, widest_station(envelope)).x_m;
    for (size_t rows = 12; rows <= 56; rows += 4)
        for (size_t columns = 30; columns <= 120; columns += 15) {
            double wide, tall;
            draw(PREVIEW_SIDE, &job, columns, rows);
            for (long r = 0; r < (long)rows; r++) /* the ends of the line of the height */
                for (long c = 0; c < (long)columns; c++)
                    if (at(c, r).glyph == '^' || at(c, r).glyph == 'v')
                        drawn.canvas
                            .cell[(size_t)(r + BORDER) * drawn.canvas.columns +
                                  (size_t)(c + BORDER)]
                            .kind = CELL_LABEL;
            extent(CELL_SOLID, 0, &wide, &tall);
            assert_proportion(wide, tall, 2 * half_m, envelope->built.height_m);
            draw(PREVIEW_PANEL, &job, columns, rows);
            extent(CELL_SOLID, '+', &wide, &tall);
            assert_proportion(wide, tall, piece->length_m[EDGE_TOP],
                              piece_corner(piece, EDGE_TOP).y_m);
        }
    envelope_free(envelope);
}

static void a_gore_laid_flat_is_as_slender_as_it_is(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    double widest_m = envelope->station[widest_station(envelope)].chord_m, height_m = 0;
    for (size_t i = 0; i < envelope->templates; i++)
        height_m += piece_corner(&envelope->piece[i], EDGE_TOP).y_m;
    for (size_t rows = 20; rows <= 60; rows += 8) {
        double wide, tall;
        draw(PREVIEW_GORE, &job, 100, rows);
        extent(CELL_SOLID, 0, &wide, &tall);
        assert_proportion(wide, tall, widest_m, height_m);
        assert_true(tall >= (double)rows - 3);
    }
    envelope_free(envelope);
}

static void a_section_shows_its_depth_over_its_chord(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.style = BILLOWED;
    for (int i = 1; i <= 5; i++) {
        design.bulge.depth = 0.1 * i;
        struct envelope *envelope = build(&design);
        struct preview_job job = {.design = &design,
                                  .envelope = envelope,
                                  .style = BILLOWED,
                                  .row = 4,
                                  .lit_edge = LIT_NOTHING};
        double wide, tall;
        draw(PREVIEW_SECTION, &job, 60, 18);
        if (cells_of(CELL_SOLID) > 0 && !shows("would be")) { /* alone on its canvas */
            extent(CELL_SOLID, 0, &wide, &tall);
            assert_proportion(wide, tall, 1, design.bulge.depth);
        }
        assert_true(i < 3 || !shows("would be"));
        envelope_free(envelope);
    }
}

/* ---- dimensions ------------------------------------------------------------------------ */

static void check_side(const struct preview_job *job) {
    const struct built *built = &job->envelope->built;
    draw(PREVIEW_SIDE, job, drawn.columns, drawn.rows);
    assert_shows_length(job->design, "crown ", built->crown_diameter_m);
    assert_shows_length(job->design, "mouth ", built->mouth_diameter_m);
    assert_shows_length(job->design, "", built->max_diameter_m);
    assert_shows_length(job->design, "", built->height_m);
}

static void check_panel(const struct preview_job *job) {
    const struct piece *piece = preview_piece(job);
    draw(PREVIEW_PANEL, job, drawn.columns, drawn.rows);
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        assert_shows_length(job->design, "", piece->length_m[e]);
    assert_shows_length(job->design, "A-C ", piece->diagonal_rising_m);
    assert_shows_length(job->design, "B-D ", piece->diagonal_falling_m);
}

static void check_gore(const struct preview_job *job) {
    draw(PREVIEW_GORE, job, drawn.columns, drawn.rows);
    assert_shows_length(job->design, "gore length ", job->envelope->built.gore_length_m);
    assert_shows("row 1");
    assert_shows_length(job->design, "", job->envelope->station[0].side_m);
}

static void check_section(const struct preview_job *job) {
    const struct station *station = &job->envelope->station[job->row];
    draw(PREVIEW_SECTION, job, drawn.columns, drawn.rows);
    assert_shows_length(job->design, "chord ", station->chord_m);
    if (job->style != FACETED && station->bulge > 0)
        assert_shows_length(job->design, "depth ", station->bulge * station->chord_m);
    assert_shows_length(job->design, "",
                        section_length_m(job->style, station->chord_m, station->bulge));
    assert_shows(style_name(job->style));
}

static void every_dimension_stands_on_its_drawing_from_the_least_size_on(void **state) {
    (void)state;
    for (enum style style = FACETED; style < STYLE_COUNT; style++)
        for (enum units units = UNITS_MM; units <= UNITS_INCH; units++) {
            struct design design;
            struct envelope *envelope = starter(&design, style);
            design.paper.units = (int)units;
            struct preview_job job = {.design = &design,
                                      .envelope = envelope,
                                      .style = style,
                                      .row = 4,
                                      .lit_edge = LIT_NOTHING};
            for (size_t rows = PREVIEW_ROWS_LEAST; rows <= 56; rows += 2)
                for (size_t columns = PREVIEW_COLUMNS_LEAST; columns <= 120; columns += 5) {
                    drawn.columns = columns;
                    drawn.rows = rows;
                    check_side(&job);
                    check_panel(&job);
                    check_gore(&job);
                    check_section(&job);
                }
            envelope_free(envelope);
        }
}

/* Labels that overlapped or touched would leave a number that nothing measures. */
struct known {
    char number[4000][32];
    size_t count;
};

static void know(struct known *known, const struct design *design, double length_m) {
    char length[32];
    format_length(design, length_m, length);
    for (char *part = strtok(length, " "); part != NULL; part = strtok(NULL, " "))
        if (known->count < COUNT_OF(known->number))
            strcpy(known->number[known->count++], part);
}

static void know_all(struct known *known, const struct preview_job *job) {
    const struct envelope *envelope = job->envelope;
    const struct built *built = &envelope->built;
    const double whole[] = {built->crown_diameter_m, built->mouth_diameter_m, built->max_diameter_m,
                            built->mid_diameter_m,   built->height_m,         built->gore_length_m};
    known->count = 0;
    for (size_t i = 0; i < COUNT_OF(whole); i++)
        know(known, job->design, whole[i]);
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
            know(known, job->design, piece->length_m[e]);
            know(known, job->design, piece->allowance_m[e]);
        }
        know(known, job->design, piece->diagonal_rising_m);
        know(known, job->design, piece->diagonal_falling_m);
    }
    for (size_t j = 0; j <= envelope->rows; j++) {
        const struct station *station = &envelope->station[j];
        know(known, job->design, station->chord_m);
        know(known, job->design, station->chord_m * station->bulge);
        for (enum style style = FACETED; style < STYLE_COUNT; style++)
            know(known, job->design, section_length_m(style, station->chord_m, station->bulge));
    }
}

static bool is_known(const struct known *known, const char *number) {
    for (size_t i = 0; i < known->count; i++)
        if (strcmp(known->number[i], number) == 0)
            return true;
    return false;
}

static bool is_word_kind(unsigned kind) {
    return kind == CELL_DIMENSION || kind == CELL_HELP;
}

/* The words of one row of cells that hold a digit are all numbers that were measured. */
static void check_row(const struct known *known, long row) {
    static const char *const words[] = {"crown",  "mouth",   "widest",    "height",  "at",
                                        "the",    "tapes",   "over",      "bulges",  "gore",
                                        "length", "chord",   "depth",     "across",  "would",
                                        "be",     "faceted", "half-gore", "billowed"};
    for (long column = 0; column < (long)drawn.columns; column++) {
        char word[64] = "";
        size_t length = 0;
        while (is_word_kind(at(column, row).kind) && at(column, row).glyph != ' ' && length < 63)
            word[length++] = at(column++, row).glyph;
        word[length] = '\0';
        if (length > 1 && word[length - 1] == ',')
            word[length - 1] = '\0';
        bool fine = length == 0 || is_known(known, word) || strcmp(word, "A-C") == 0 ||
                    strcmp(word, "B-D") == 0;
        for (size_t i = 0; i < COUNT_OF(words) && !fine; i++)
            fine = strcmp(word, words[i]) == 0;
        if (!fine) {
            struct text text = {0};
            write_drawing(&text);
            print_error("\"%s\" on row %ld is no whole label:\n%s", word, row, text.bytes);
            text_free(&text);
            fail();
        }
    }
}

static void no_two_labels_overlap_or_touch(void **state) {
    (void)state;
    static struct known known;
    struct dice dice = {22};
    for (int i = 0; i < 150; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        struct preview_job job = {.design = &design,
                                  .envelope = envelope,
                                  .style = (enum style)dice_whole(&dice, FACETED, BILLOWED),
                                  .row = (size_t)dice_whole(&dice, 0, (int)envelope->rows),
                                  .lit_edge = LIT_NOTHING};
        know_all(&known, &job);
        for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_PLAN; preview++)
            for (int size = 0; size < 4; size++) {
                draw(preview, &job, (size_t)dice_whole(&dice, 30, 120),
                     (size_t)dice_whole(&dice, 12, 56));
                for (long row = 0; row < (long)drawn.rows; row++)
                    check_row(&known, row);
            }
        envelope_free(envelope);
    }
}

static void a_mixed_envelope_names_its_styles(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.mix.count = 2;
    design.gores.mix.value[0] = BILLOWED;
    design.gores.mix.value[1] = HALF_GORE;
    struct envelope *envelope = build(&design);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_SIDE, &job, 60, 24);
    assert_shows("H half-gore");
    assert_shows("B billowed");
    assert_false(shows("F faceted"));
    draw(PREVIEW_SECTION, &job, 60, 24);
    assert_shows("half-gore 5");
    assert_shows("billowed 6");
    assert_shows("faceted would be 5");
    envelope_free(envelope);
}

/* ---- lit ---------------------------------------------------------------------------- */

static void the_asked_edge_and_its_length_are_lit_and_nothing_else(void **state) {
    (void)state;
    for (enum style style = FACETED; style < STYLE_COUNT; style++) {
        struct design design;
        struct envelope *envelope = starter(&design, style);
        struct preview_job job = {
            .design = &design, .envelope = envelope, .style = style, .row = 3, .lit_edge = 0};
        const struct piece *piece = preview_piece(&job);
        for (job.lit_edge = LIT_NOTHING; job.lit_edge <= LIT_FALLING; job.lit_edge++) {
            char want[32] = "", lit[64] = "";
            size_t length = 0, lines = 0;
            double length_m = job.lit_edge < 0             ? 0
                              : job.lit_edge < EDGE_COUNT  ? piece->length_m[job.lit_edge]
                              : job.lit_edge == LIT_RISING ? piece->diagonal_rising_m
                                                           : piece->diagonal_falling_m;
            draw(PREVIEW_PANEL, &job, 70, 30);
            for (long row = 0; row < 30; row++)
                for (long column = 0; column < 70; column++) {
                    struct cell cell = at(column, row);
                    if (cell.kind == CELL_LIT && strchr("0123456789.", cell.glyph) != NULL)
                        lit[length++] = cell.glyph;
                    else if (cell.kind == CELL_LIT)
                        lines++;
                }
            if (job.lit_edge >= 0)
                format_length(&design, length_m, want);
            assert_string_equal(lit, want);
            assert_true(job.lit_edge < 0 ? lines == 0 : lines >= 10);
        }
        envelope_free(envelope);
    }
}

static void the_asked_row_of_a_gore_is_lit(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, HALF_GORE);
    struct preview_job job = {
        .design = &design, .envelope = envelope, .style = HALF_GORE, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_GORE, &job, 60, 40);
    assert_int_equal(cells_of(CELL_LIT), 0);
    job.row = 1;
    draw(PREVIEW_GORE, &job, 60, 40);
    assert_true(cells_of(CELL_LIT) >= 10);
    for (long row = 0; row < 30; row++) /* only near the mouth */
        for (long column = 0; column < 60; column++)
            assert_int_not_equal(at(column, row).kind, CELL_LIT);
    envelope_free(envelope);
}

static void match_marks_stand_beyond_the_sew_line(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {
        .design = &design, .envelope = envelope, .row = 4, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_PANEL, &job, 70, 26);
    size_t ticks = 0;
    for (long row = 0; row < 26; row++)
        for (long column = 0; column < 70; column++) {
            struct cell cell = at(column, row);
            bool alone = at(column - 1, row).kind != CELL_SOLID &&
                         at(column + 1, row).kind != CELL_SOLID &&
                         at(column, row - 1).glyph != '|' && at(column, row + 1).glyph != '|';
            ticks += cell.kind == CELL_SOLID && cell.glyph == '|' && alone;
        }
    assert_true(ticks >= 6); /* three on the bottom, three on the top */
    envelope_free(envelope);
}

/* ---- the plan ------------------------------------------------------------------------- */

static char checker(const void *context, size_t gore, size_t row) {
    const char *letters = context;
    return letters[(gore + row) % 2];
}

static void the_plan_shows_a_letter_for_every_panel(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, HALF_GORE);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_PLAN, &job, 16, 8);
    for (long row = 0; row < 8; row++)
        for (long column = 0; column < 16; column++)
            assert_int_equal(at(column, row).glyph, 'H');
    job.letter = checker;
    job.letter_context = "xy";
    job.letter_key = "x red  y blue";
    job.lit_gore = 3;
    draw(PREVIEW_PLAN, &job, 16, 8);
    for (long row = 0; row < 8; row++)
        for (long column = 0; column < 16; column++) {
            size_t gore = (size_t)column + 1, from_mouth = (size_t)(8 - row);
            assert_int_equal(at(column, row).glyph, checker("xy", gore, from_mouth));
            assert_int_equal(at(column, row).kind, gore == 3 ? CELL_LIT : CELL_TEXT);
        }
    draw(PREVIEW_PLAN, &job, 60, 24);
    assert_shows("x red  y blue");
    assert_shows(" 16");
    envelope_free(envelope);
}

static void a_plan_too_large_for_its_room_says_what_it_leaves_out(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.count = GORES_MOST;
    design.rows.count = 40;
    struct envelope *envelope = build(&design);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_PLAN, &job, 60, 24);
    assert_shows("1 gore in 2, 1 row in 2");
    draw(PREVIEW_PLAN, &job, 100, 50);
    assert_false(shows("1 gore in"));
    envelope_free(envelope);
}

/* ---- the colours ----------------------------------------------------------------------- */

static void add_cloth(struct design *design, char letter, const char *name) {
    struct cloth_list *cloths = &design->colours.cloths;
    cloths->value[cloths->count].letter = letter;
    snprintf(cloths->value[cloths->count++].name, TEXT_MOST, "%s", name);
}

/* Random colours of a design whose gores and rows are set. */
static void colour_at_random(struct dice *dice, struct design *design) {
    static const char letters[] = "WRBgx7aQ0ZkYpTnU";
    size_t cloths = (size_t)dice_whole(dice, 1, CLOTHS_MOST);
    design->colours.cloths = (struct cloth_list){0};
    for (size_t i = 0; i < cloths; i++) {
        char name[TEXT_MOST];
        bool is_long = dice_whole(dice, 0, 5) == 0;
        snprintf(name, sizeof name, "%s%zu",
                 is_long ? "a name that goes on for long, cloth " : "no", i);
        add_cloth(design, letters[i], name);
    }
    design->colours.fill = dice_whole(dice, FILL_ONE, FILL_SCHEME);
    design->colours.span = dice_whole(dice, 1, 5);
    design->colours.turn = dice_whole(dice, 0, 9);
    design->colours.mirror = dice_whole(dice, MIRROR_NO, MIRROR_YES);
    struct line_list *scheme[] = {&design->colours.scheme, &design->colours.scheme_right};
    for (size_t s = 0; design->colours.fill == FILL_SCHEME && s < COUNT_OF(scheme); s++) {
        scheme[s]->count = (size_t)design->rows.count;
        for (size_t i = 0; i < scheme[s]->count; i++)
            for (int gore = 0; gore < design->gores.count; gore++)
                scheme[s]->value[i][gore] = letters[dice_whole(dice, 0, (int)cloths - 1)];
    }
}

/* Numbers of the gores and rows shown in part; all where nothing is said. */
struct part {
    size_t first_gore, last_gore, first_row, last_row;
};

static struct part part_shown(const struct envelope *envelope) {
    struct part part = {1, envelope->gores, 1, envelope->rows};
    struct text text = {0};
    size_t all;
    write_drawing(&text);
    const char *gores = strstr(text.bytes, "\ngores "), *rows = strstr(text.bytes, "\nrows ");
    if (gores != NULL)
        assert_int_equal(
            sscanf(gores, "\ngores %zu-%zu of %zu:", &part.first_gore, &part.last_gore, &all), 3);
    if (rows != NULL)
        assert_int_equal(
            sscanf(rows, "\nrows %zu-%zu of %zu:", &part.first_row, &part.last_row, &all), 3);
    text_free(&text);
    return part;
}

/* The letters of one row of the drawing, its number and blanks left out. */
static size_t letters_of_row(size_t row, char letters[2000]) {
    char number[8];
    snprintf(number, sizeof number, "%2zu", row);
    for (long r = 0; r < (long)drawn.rows; r++)
        for (long c = 0; c + 2 < (long)drawn.columns; c++) {
            size_t count = 0;
            bool here = at(c + 1, r).kind != CELL_TEXT && at(c, r).glyph == number[0] &&
                        at(c + 1, r).glyph == number[1] && at(c + 2, r).glyph == ' ' &&
                        at(c + 3, r).kind == CELL_TEXT;
            for (long k = c + 3; here && k < (long)drawn.columns; k++)
                if (at(k, r).kind == CELL_TEXT)
                    letters[count++] = at(k, r).glyph;
            if (here)
                return count;
        }
    fail_msg("row %zu is not shown", row);
    return 0;
}

/* Each gore has as many letters as the others, half of them for each half. */
static void assert_row_is_coloured(const struct preview_job *job, const struct part *part,
                                   size_t row) {
    static char letters[2000];
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t count = letters_of_row(row, letters), gores = part->last_gore - part->first_gore + 1;
    assert_int_equal(count % gores, 0);
    design_cloths(job->design, cloth);
    for (size_t i = 0; i < count; i++) {
        size_t each = count / gores, gore = part->first_gore - 1 + i / each;
        bool halves = job->envelope->gore_style[gore] == HALF_GORE, right = i % each >= each / 2;
        if (each % 2 == 1 && halves) /* one letter: the halves are alike */
            assert_int_equal(design_colour_of(job->design, gore, row, false),
                             design_colour_of(job->design, gore, row, true));
        assert_int_equal(letters[i],
                         cloth[design_colour_of(job->design, gore, row, halves && right)].letter);
    }
}

static void every_panel_in_view_has_the_letter_of_its_colour(void **state) {
    (void)state;
    struct dice dice = {77};
    size_t windows = 0;
    for (int i = 0; i < 300; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        colour_at_random(&dice, &design);
        struct preview_job job = {.design = &design,
                                  .envelope = envelope,
                                  .row = (size_t)dice_whole(&dice, 0, design.rows.count),
                                  .gore = (size_t)dice_whole(&dice, 0, design.gores.count),
                                  .lit_edge = LIT_NOTHING};
        draw(PREVIEW_COLOURS, &job, (size_t)dice_whole(&dice, 36, COLUMNS_MOST),
             (size_t)dice_whole(&dice, 14, ROWS_MOST_SHOWN));
        assert_stays_inside();
        struct part part = part_shown(envelope);
        assert_true(part.last_gore <= envelope->gores && part.last_row <= envelope->rows);
        assert_true(job.gore == 0 || (part.first_gore <= job.gore && job.gore <= part.last_gore));
        assert_true(job.row == 0 || (part.first_row <= job.row && job.row <= part.last_row));
        windows += part.last_gore - part.first_gore + 1 < envelope->gores ||
                   part.last_row - part.first_row + 1 < envelope->rows;
        for (size_t row = part.first_row; row <= part.last_row; row++)
            assert_row_is_coloured(&job, &part, row);
        envelope_free(envelope);
    }
    assert_true(windows > 20);
}

static void a_window_of_the_colours_says_so_in_whole_words(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.count = GORES_MOST;
    design.rows.count = ROWS_MOST;
    struct envelope *envelope = build(&design);
    struct preview_job job = {
        .design = &design, .envelope = envelope, .gore = 64, .row = 30, .lit_edge = LIT_NOTHING};
    draw(PREVIEW_COLOURS, &job, PREVIEW_COLUMNS_LEAST, PREVIEW_ROWS_LEAST + 2);
    assert_shows("\ngores 38-64 of 64: < > move\nrows 25-34 of 60: [ ] move\nW white");
    envelope_free(envelope);
}

static void the_colours_say_what_each_of_them_takes(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    static const size_t size[][2] = {{38, 17}, {58, 23}, {76, 36}, {142, 53}};
    add_cloth(&design, 'W', "white");
    add_cloth(&design, 'R', "deep red");
    add_cloth(&design, 'b', "blue");
    design.colours.fill = FILL_STRIPES;
    for (size_t i = 0; i < COUNT_OF(size); i++)
        for (size_t c = 0; c < 3; c++) {
            char words[96];
            struct cloth_cut cut = cloth_cut(&design, envelope, c);
            snprintf(words, sizeof words, "%c %-8s %4zu pieces %6.2f m2",
                     design.colours.cloths.value[c].letter, design.colours.cloths.value[c].name,
                     cut.pieces, cut.area_m2);
            draw(PREVIEW_COLOURS, &job, size[i][0], size[i][1]);
            assert_shows(words);
        }
    design.paper.units = UNITS_INCH;
    draw(PREVIEW_COLOURS, &job, 60, 24);
    assert_shows(" ft2");
    envelope_free(envelope);
}

static void a_long_name_is_broken_and_not_cut(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    add_cloth(&design, 'W', "white with a name that goes on as long as a name may go on here");
    add_cloth(&design, 'R', "abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyz");
    draw(PREVIEW_COLOURS, &job, 38, 18);
    assert_shows("W white with a name that goes on as\nlong as a name may go on here");
    assert_shows("abcdefghijklmnopqrstuvwxyzabcdefghijkl");
    assert_shows("\nmnopqrstuvwxyz");
    envelope_free(envelope);
}

static void a_legend_of_many_colours_leaves_out_areas_before_pieces(void **state) {
    (void)state;
    struct design design;
    struct envelope *envelope = starter(&design, FACETED);
    struct preview_job job = {.design = &design, .envelope = envelope, .lit_edge = LIT_NOTHING};
    for (size_t i = 0; i < CLOTHS_MOST; i++) {
        char name[8];
        snprintf(name, sizeof name, "no%zu", i);
        add_cloth(&design, (char)('A' + (int)i), name);
    }
    design.colours.fill = FILL_STRIPES;
    draw(PREVIEW_COLOURS, &job, 38, 17);
    assert_shows("pieces: A no0 8, B no1 8,");
    assert_shows("P no15 8");
    draw(PREVIEW_COLOURS, &job, 38, 30);
    assert_shows("P no15    8 pieces   1.7");
    for (size_t i = 0; i < CLOTHS_MOST; i++)
        strcat(design.colours.cloths.value[i].name, " with a name of its own");
    draw(PREVIEW_COLOURS, &job, 38, 17);
    assert_shows("... and more, in a taller window");
    envelope_free(envelope);
}

/* ---- as they look ----------------------------------------------------------------------- */

/* The folder of golden files is found from the root of the source.  To write them anew
 * after a change that was meant: GOLDEN=write, then look at what changed. */
static void check_golden(const char *name, const char *text) {
    char path[128];
    snprintf(path, sizeof path, "tests/golden/screens/%s.txt", name);
    const char *golden = getenv("GOLDEN");
    bool anew = golden != NULL && strcmp(golden, "write") == 0;
    FILE *file = fopen(path, anew ? "w+" : "r");
    assert_non_null(file);
    if (anew) {
        fputs(text, file);
        rewind(file);
    }
    static char want[65536];
    want[fread(want, 1, sizeof want - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, want);
}

/* A spiral, halves that differ, a gradient. */
static void colour_by_style(struct design *design) {
    static const int fill[] = {FILL_SPIRAL, FILL_SCHEME, FILL_GRADIENT};
    add_cloth(design, 'W', "white");
    add_cloth(design, 'R', "deep red");
    add_cloth(design, 'B', "blue");
    design->colours.fill = fill[design->gores.style];
    design->colours.span = 2;
    design->colours.scheme.count = design->colours.scheme_right.count = 1;
    strcpy(design->colours.scheme.value[0], "WR");
    strcpy(design->colours.scheme_right.value[0], "B");
}

static void drawings_look_as_they_did_when_they_were_looked_at(void **state) {
    (void)state;
    static const char *const name[PREVIEW_COUNT] = {"side",    "gore", "panel",
                                                    "section", "plan", "colours"};
    static const size_t size[][2] = {{38, 17}, {60, 24}, {100, 50}};
    for (enum preview preview = PREVIEW_SIDE; preview < PREVIEW_COUNT; preview++)
        for (size_t i = 0; i < COUNT_OF(size); i++) {
            struct text text = {0};
            char file[64];
            for (enum style style = FACETED; style < STYLE_COUNT; style++) {
                struct design design;
                struct envelope *envelope = starter(&design, style);
                struct preview_job job = {.design = &design,
                                          .envelope = envelope,
                                          .style = style,
                                          .lit_edge = LIT_NOTHING};
                if (preview == PREVIEW_COLOURS)
                    colour_by_style(&design);
                draw(preview, &job, size[i][0], size[i][1]);
                text_add(&text, "%s, %s\n", style_name(style), preview_name(preview));
                write_drawing(&text);
                envelope_free(envelope);
            }
            snprintf(file, sizeof file, "preview_%s_%zux%zu", name[preview], size[i][0],
                     size[i][1]);
            check_golden(file, text.bytes);
            text_free(&text);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_size_stays_inside_its_box),
        cmocka_unit_test(any_design_stays_inside_its_box),
        cmocka_unit_test(what_lies_off_the_canvas_is_left_out),
        cmocka_unit_test(without_an_envelope_the_box_is_blank),
        cmocka_unit_test(a_small_box_shows_lines_without_words),
        cmocka_unit_test(proportions_are_true),
        cmocka_unit_test(a_gore_laid_flat_is_as_slender_as_it_is),
        cmocka_unit_test(a_section_shows_its_depth_over_its_chord),
        cmocka_unit_test(every_dimension_stands_on_its_drawing_from_the_least_size_on),
        cmocka_unit_test(no_two_labels_overlap_or_touch),
        cmocka_unit_test(a_mixed_envelope_names_its_styles),
        cmocka_unit_test(the_asked_edge_and_its_length_are_lit_and_nothing_else),
        cmocka_unit_test(the_asked_row_of_a_gore_is_lit),
        cmocka_unit_test(match_marks_stand_beyond_the_sew_line),
        cmocka_unit_test(the_plan_shows_a_letter_for_every_panel),
        cmocka_unit_test(a_plan_too_large_for_its_room_says_what_it_leaves_out),
        cmocka_unit_test(every_panel_in_view_has_the_letter_of_its_colour),
        cmocka_unit_test(a_window_of_the_colours_says_so_in_whole_words),
        cmocka_unit_test(the_colours_say_what_each_of_them_takes),
        cmocka_unit_test(a_long_name_is_broken_and_not_cut),
        cmocka_unit_test(a_legend_of_many_colours_leaves_out_areas_before_pieces),
        cmocka_unit_test(drawings_look_as_they_did_when_they_were_looked_at),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
