/* The envelope drawn from the side: true proportions, dimensions whole, any size of box. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/drawing.h"
#include "gorewright/paper.h"

struct drawing {
    struct design design;
    struct envelope *envelope;
    struct canvas canvas;
    struct text text;
};

static struct drawing draw_design(const struct design *design, size_t columns, size_t rows) {
    struct drawing drawing = {.design = *design, .canvas = {columns, rows, NULL}};
    struct diagnostics messages = {0};
    drawing.envelope = envelope_build(&drawing.design, &messages);
    assert_non_null(drawing.envelope);
    drawing.canvas.cell = malloc(columns * rows * sizeof *drawing.canvas.cell);
    assert_non_null(drawing.canvas.cell);
    canvas_clear(&drawing.canvas);
    draw_side_view(&drawing.design, drawing.envelope, &drawing.canvas,
                   (struct canvas_box){0, 0, (double)columns, (double)rows});
    canvas_write(&drawing.canvas, &drawing.text);
    diagnostics_free(&messages);
    return drawing;
}

static struct drawing draw(int kind, size_t columns, size_t rows) {
    struct design design;
    design_starter(&design);
    design.outline.kind = kind;
    return draw_design(&design, columns, rows);
}

static void drawing_free(struct drawing *drawing) {
    envelope_free(drawing->envelope);
    free(drawing->canvas.cell);
    text_free(&drawing->text);
}

/* Columns and rows that solid lines take. */
static void solid_extent(const struct canvas *canvas, double *columns, double *rows) {
    long left = (long)canvas->columns, right = -1, top = (long)canvas->rows, foot = -1;
    for (long row = 0; row < (long)canvas->rows; row++)
        for (long column = 0; column < (long)canvas->columns; column++)
            if (canvas_cell(canvas, column, row).kind == CELL_SOLID) {
                left = column < left ? column : left;
                right = column > right ? column : right;
                top = row < top ? row : top;
                foot = row > foot ? row : foot;
            }
    *columns = (double)(right - left + 1);
    *rows = (double)(foot - top + 1);
}

static void proportions_are_true_in_any_box(void **state) {
    (void)state;
    for (int kind = OUTLINE_NATURAL; kind <= OUTLINE_BALL_AND_CONE; kind++)
        for (size_t rows = 12; rows <= 60; rows += 6) {
            struct drawing drawing = draw(kind, 3 * rows + 20, rows);
            const struct built *built = &drawing.envelope->built;
            double columns, tall;
            solid_extent(&drawing.canvas, &columns, &tall);
            /* Each extent is known to about a cell at either end. */
            double ratio = built->height_m / built->max_diameter_m;
            assert_close(2 * tall / columns, ratio, 0, 2 / tall + 2 / columns);
            assert_true(tall >= (double)rows - 2 || columns >= 3 * (double)rows - 2);
            drawing_free(&drawing);
        }
}

static void every_dimension_stands_beside_the_drawing(void **state) {
    (void)state;
    for (size_t rows = 10; rows <= 60; rows++)
        for (size_t columns = 36; columns <= 200; columns += 41) {
            struct drawing drawing = draw(OUTLINE_NATURAL, columns, rows);
            assert_non_null(strstr(drawing.text.bytes, "crown 500.0"));
            assert_non_null(strstr(drawing.text.bytes, "widest 3058.0"));
            assert_non_null(strstr(drawing.text.bytes, "height"));
            assert_non_null(strstr(drawing.text.bytes, "2667.0"));
            assert_non_null(strstr(drawing.text.bytes, "mouth 600.0"));
            drawing_free(&drawing);
        }
}

static void the_smallest_boxes_are_safe(void **state) {
    (void)state;
    for (size_t rows = 1; rows <= 12; rows++)
        for (size_t columns = 1; columns <= 40; columns++) {
            struct drawing drawing = draw(OUTLINE_NATURAL, columns, rows);
            assert_false(drawing.text.failed);
            drawing_free(&drawing);
        }
}

static void the_drawing_is_as_wide_as_the_envelope_for_any_number_of_gores(void **state) {
    (void)state;
    for (int gores = GORES_LEAST; gores <= GORES_MOST; gores++) {
        struct design design;
        struct diagnostics messages = {0};
        design_starter(&design);
        design.gores.count = gores;
        struct envelope *envelope = envelope_build(&design, &messages);
        assert_non_null(envelope);
        double widest = 0;
        for (int i = 0; i < gores; i++)
            widest = fmax(widest, fabs(sin((2 * i + 1) * PI / gores)));
        double r = envelope->station[4].r_m;
        assert_close(side_view_silhouette(envelope, true, 4).x_m, r * widest, 1e-12, 0);
        assert_close(side_view_silhouette(envelope, false, 4).x_m, -r * widest, 1e-12, 0);
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
}

static void left_and_right_are_alike(void **state) {
    (void)state;
    struct drawing drawing = draw(OUTLINE_NATURAL, 100, 30);
    struct flat_point left = side_view_corner(drawing.envelope, 11, 4);
    struct flat_point right = side_view_corner(drawing.envelope, 3, 4);
    assert_close(left.x_m, -side_view_corner(drawing.envelope, 4, 4).x_m, 1e-12, 0);
    assert_close(right.x_m, drawing.envelope->station[4].r_m * sin(7 * PI / 16), 1e-12, 0);
    assert_true(side_view_faces(drawing.envelope, 3));
    assert_false(side_view_faces(drawing.envelope, 4));
    drawing_free(&drawing);
}

/* ---- colours ------------------------------------------------------------------- */

static struct design coloured(int style) {
    struct design design;
    design_starter(&design);
    design.gores.style = style;
    design.colours.cloths =
        (struct cloth_list){3, {{.letter = 'W'}, {.letter = 'R'}, {.letter = 'B'}}};
    strcpy(design.colours.cloths.value[0].name, "white");
    strcpy(design.colours.cloths.value[1].name, "deep red");
    strcpy(design.colours.cloths.value[2].name, "blue");
    design.colours.fill = FILL_STRIPES;
    return design;
}

/* The letters in one row of the canvas; each with a blank on either side. */
static size_t letters_in_row(const struct canvas *canvas, long row, char letters[64]) {
    size_t count = 0;
    for (long column = 0; column < (long)canvas->columns; column++) {
        struct cell cell = canvas_cell(canvas, column, row);
        if (cell.kind != CELL_TEXT)
            continue;
        assert_int_equal(canvas_cell(canvas, column - 1, row).kind, CELL_BLANK);
        assert_int_equal(canvas_cell(canvas, column + 1, row).kind, CELL_BLANK);
        letters[count++] = cell.glyph;
    }
    letters[count] = '\0';
    return count;
}

/* Each row with letters has a part of `wanted`, as seen from gore 1 to either side. */
static size_t letters_of(const struct drawing *drawing, const char *wanted) {
    size_t all = 0;
    for (long row = 0; row < (long)drawing->canvas.rows; row++) {
        char letters[64];
        size_t count = letters_in_row(&drawing->canvas, row, letters);
        if (strstr(wanted, letters) == NULL)
            fail_msg("%s is no part of %s:\n%s", letters, wanted, drawing->text.bytes);
        all += count;
    }
    return all;
}

static void visible_panels_carry_the_letters_of_their_colours(void **state) {
    (void)state;
    size_t least = 0;
    for (size_t rows = 10; rows <= 60; rows += 2)
        for (size_t columns = 30; columns <= 200; columns += 17) {
            struct design design = coloured(FACETED);
            struct drawing drawing = draw_design(&design, columns, rows);
            size_t letters = letters_of(&drawing, "RBWWRBW"); /* gores 14 15 16 1 2 3 4 */
            assert_true(letters > 0 || rows < 30 || columns < 100);
            least += letters;
            drawing_free(&drawing);
        }
    assert_true(least > 1000);
}

static void rows_of_colour_stand_above_each_other(void **state) {
    (void)state;
    struct design design = coloured(FACETED);
    design.colours.fill = FILL_BANDS;
    struct drawing drawing = draw_design(&design, 140, 50);
    char seen[64] = "";
    size_t rows = 0;
    for (long row = 49; row >= 0; row--) {
        char letters[64];
        size_t count = letters_in_row(&drawing.canvas, row, letters);
        for (size_t i = 1; i < count; i++)
            assert_int_equal(letters[i], letters[0]);
        if (count > 0)
            seen[rows++] = letters[0];
    }
    assert_non_null(strstr("WRBWRBWR", seen));
    assert_true(rows >= 6);
    drawing_free(&drawing);
}

static void halves_that_differ_have_both_letters_or_none(void **state) {
    (void)state;
    for (size_t rows = 20; rows <= 60; rows += 4) {
        struct design design = coloured(HALF_GORE);
        design.colours.fill = FILL_SCHEME;
        design.colours.scheme.count = design.colours.scheme_right.count = 1;
        strcpy(design.colours.scheme.value[0], "W");
        strcpy(design.colours.scheme_right.value[0], "R");
        struct drawing drawing = draw_design(&design, 3 * rows + 20, rows);
        for (long row = 0; row < (long)rows; row++) {
            char letters[64];
            size_t count = letters_in_row(&drawing.canvas, row, letters);
            assert_int_equal(count % 2, 0);
            for (size_t i = 0; i < count; i++)
                assert_int_equal(letters[i], i % 2 == 0 ? 'W' : 'R');
        }
        assert_true(rows < 44 || letters_of(&drawing, "WRWRWRWRWRWRWRWR") > 0);
        drawing_free(&drawing);
    }
}

static void the_letters_are_explained_and_one_colour_needs_none(void **state) {
    (void)state;
    struct design design = coloured(BILLOWED);
    struct drawing drawing = draw_design(&design, 100, 40);
    assert_non_null(strstr(drawing.text.bytes, "R deep red"));
    drawing_free(&drawing);
    design.colours.cloths.count = 1;
    drawing = draw_design(&design, 100, 40);
    assert_int_equal(letters_of(&drawing, ""), 0);
    assert_null(strstr(drawing.text.bytes, "W white"));
    drawing_free(&drawing);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(proportions_are_true_in_any_box),
        cmocka_unit_test(every_dimension_stands_beside_the_drawing),
        cmocka_unit_test(the_smallest_boxes_are_safe),
        cmocka_unit_test(the_drawing_is_as_wide_as_the_envelope_for_any_number_of_gores),
        cmocka_unit_test(left_and_right_are_alike),
        cmocka_unit_test(visible_panels_carry_the_letters_of_their_colours),
        cmocka_unit_test(rows_of_colour_stand_above_each_other),
        cmocka_unit_test(halves_that_differ_have_both_letters_or_none),
        cmocka_unit_test(the_letters_are_explained_and_one_colour_needs_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
