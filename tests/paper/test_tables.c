/* Tables for other programs: figures, stations, outlines. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "support.h"

/* ---- reading a table back -------------------------------------------------------- */

enum { FIELDS_MOST = 12, FIELD_MOST = 40 };

struct line {
    char field[FIELDS_MOST][FIELD_MOST];
    size_t fields;
};

/* The next line of a table; false at its end. */
static bool next_line(const char **p, struct line *line) {
    if (**p == '\0')
        return false;
    line->fields = 0;
    for (;;) {
        size_t width = strcspn(*p, "\t\n");
        assert_true(line->fields < FIELDS_MOST && width > 0 && width < FIELD_MOST);
        snprintf(line->field[line->fields++], FIELD_MOST, "%.*s", (int)width, *p);
        *p += width + 1;
        if ((*p)[-1] == '\n')
            return true;
        assert_int_equal((*p)[-1], '\t');
    }
}

static double number(const char *field) {
    char *end;
    double value = strtod(field, &end);
    assert_int_equal(*end, '\0');
    assert_true(isfinite(value));
    return value;
}

/* What a figure reads back as; -1 when the table lacks it. */
static double figure(const char *table, const char *key, const char *unit) {
    struct line line;
    while (next_line(&table, &line)) {
        assert_int_equal(line.fields, 3);
        if (strcmp(line.field[0], key) != 0)
            continue;
        assert_string_equal(line.field[2], unit);
        return number(line.field[1]);
    }
    return -1;
}

static struct envelope *starter(struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    assert_non_null(envelope);
    diagnostics_free(&messages);
    return envelope;
}

/* ---- figures ------------------------------------------------------------------------ */

static void figures_read_back_to_the_last_bit(void **state) {
    (void)state;
    struct dice dice = {31};
    for (int i = 0; i < 40; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        const struct built *built = &envelope->built;
        struct text text = {0};
        write_figures(envelope, &text);
        const char *table = text.bytes;
        assert_memory_equal(table, "key\tvalue\tunit\n", 15);
        assert_true(figure(table, "gores", "1") == (double)envelope->gores);
        assert_true(figure(table, "rows", "1") == (double)envelope->rows);
        assert_true(figure(table, "pieces", "1") == (double)built->pieces);
        assert_true(figure(table, "templates", "1") == (double)envelope->templates);
        assert_true(figure(table, "gore_length", "m") == built->gore_length_m);
        assert_true(figure(table, "smooth_length", "m") == built->smooth_length_m);
        assert_true(figure(table, "max_diameter", "m") == built->max_diameter_m);
        assert_true(figure(table, "mid_diameter", "m") == built->mid_diameter_m);
        assert_true(figure(table, "height", "m") == built->height_m);
        assert_true(figure(table, "mouth_diameter", "m") == built->mouth_diameter_m);
        assert_true(figure(table, "crown_diameter", "m") == built->crown_diameter_m);
        assert_true(figure(table, "volume", "m3") == built->volume_m3);
        assert_true(figure(table, "sewn_area", "m2") == built->sewn_area_m2);
        assert_true(figure(table, "cut_area", "m2") == built->cut_area_m2);
        assert_true(figure(table, "cloth_mass", "kg") == built->cloth_mass_kg);
        assert_true(figure(table, "tape_seam_length", "m") == built->tape_seam_m);
        assert_true(figure(table, "row_seam_length", "m") == built->row_seam_m);
        assert_true(figure(table, "ridge_seam_length", "m") == built->ridge_seam_m);
        assert_true(figure(table, "curved_seam_length", "m") == built->curved_seam_m);
        assert_true(figure(table, "mouth_hem_length", "m") == built->mouth_hem_m);
        assert_true(figure(table, "crown_hem_length", "m") == built->crown_hem_m);
        assert_true(figure(table, "departure", "m") == built->departure_m);
        assert_true(figure(table, "twist", "1") == built->twist);
        assert_true(figure(table, "weight_ratio", "1") == built->weight_ratio);
        text_free(&text);
        envelope_free(envelope);
    }
}

static void seam_length_is_tapes_rows_and_ridges_together(void **state) {
    (void)state;
    struct envelope envelope = {.gores = 16};
    envelope.built.tape_seam_m = 60;
    envelope.built.row_seam_m = 45.5;
    envelope.built.ridge_seam_m = 12.25;
    struct text text = {0};
    write_figures(&envelope, &text);
    assert_close(figure(text.bytes, "seam_length", "m"), 117.75, 0, 1e-15);
    text_free(&text);
}

static void a_figure_that_is_no_number_is_left_out(void **state) {
    (void)state;
    struct envelope envelope = {.gores = 16};
    envelope.built.volume_m3 = (double)NAN;
    envelope.built.height_m = 3;
    envelope.built.departure_m = -0.0;
    struct text text = {0};
    write_figures(&envelope, &text);
    assert_null(strstr(text.bytes, "nan"));
    assert_null(strstr(text.bytes, "-0"));
    assert_true(figure(text.bytes, "volume", "m3") < 0);
    assert_close(figure(text.bytes, "height", "m"), 3, 0, 0);
    text_free(&text);
}

static void figures_of_flight_read_back_to_the_last_bit(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    struct envelope *envelope = starter(&design);
    struct masses masses = masses_of(&design, envelope);
    struct lift lift = lift_of(&design, envelope, &masses);
    struct heat heat = heat_of(&design, envelope, &lift);
    struct loads loads = loads_of(&design, envelope, &lift);
    struct text text = {0};
    write_flight_figures(&design, envelope, &text);
    const char *table = text.bytes;
    assert_true(figure(table, "envelope_mass", "kg") == masses.envelope_kg);
    assert_true(figure(table, "rig_mass", "kg") == masses.rig_kg);
    assert_true(figure(table, "whole_mass", "kg") == masses.all_kg);
    assert_true(figure(table, "lift", "kg") == lift.gross_kg);
    assert_true(figure(table, "free_lift", "kg") == lift.free_kg);
    assert_true(figure(table, "needed_temperature", "C") == lift.needed_K - 273.15);
    assert_true(figure(table, "temperature_margin", "C") == lift.margin_K);
    assert_true(figure(table, "ceiling", "m") == lift.ceiling_m);
    assert_true(figure(table, "cloth_temperature_high", "C") == heat.cloth_K.high - 273.15);
    assert_true(figure(table, "heat_loss_low", "W/m2") == heat.flux_W_m2.low);
    assert_true(figure(table, "holding_power_high", "W") == heat.hold_W.high);
    assert_true(figure(table, "fuel_rate_low", "kg/h") == heat.fuel_kg_h.low);
    assert_true(figure(table, "propane_pressure", "Pa") == heat.vapour_pressure_Pa);
    assert_true(figure(table, "weakest_tape_station", "1") == (double)loads.weakest_tape);
    assert_true(figure(table, "tape_factor", "1") == loads.station[loads.weakest_tape].tape_factor);
    assert_true(figure(table, "weakest_cloth_station", "1") == (double)loads.weakest_cloth);
    assert_true(figure(table, "cloth_factor", "1") ==
                loads.station[loads.weakest_cloth].cloth_factor);
    assert_true(figure(table, "wire_load", "N") == loads.wire_N);
    assert_true(figure(table, "build_time", "h") == build_hours(&design, envelope));
    text_free(&text);
    envelope_free(envelope);
}

static void a_figure_of_flight_that_does_not_exist_is_left_out(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.rig.basket_kg = 400; /* no heat floats it */
    design.air.inside_C = 0;    /* and nothing is lifted or loaded */
    struct envelope *envelope = starter(&design);
    struct text text = {0};
    write_flight_figures(&design, envelope, &text);
    assert_null(strstr(text.bytes, "nan"));
    assert_null(strstr(text.bytes, "inf"));
    assert_null(strstr(text.bytes, "needed_temperature"));
    assert_null(strstr(text.bytes, "tape_factor"));
    assert_close(figure(text.bytes, "held_lift", "N"), 0, 0, 0);
    text_free(&text);
    envelope_free(envelope);
}

/* ---- stations ----------------------------------------------------------------------- */

static void check_station(const struct line *line, const struct station *station, size_t j,
                          const int *style, size_t styles) {
    assert_int_equal(line->fields, 6 + styles);
    assert_close(number(line->field[0]), (double)j, 0, 0);
    assert_close(number(line->field[1]), station->s_m * 1e3, 1e-6, 0);
    assert_close(number(line->field[2]), station->r_m * 1e3, 1e-6, 0);
    assert_close(number(line->field[3]), station->z_m * 1e3, 1e-6, 0);
    assert_close(number(line->field[4]) * PI / 180, station->slope_rad, 1e-10, 0);
    assert_close(number(line->field[5]), station->chord_m * 1e3, 1e-6, 0);
    for (size_t i = 0; i < styles; i++)
        assert_close(number(line->field[6 + i]),
                     section_length_m((enum style)style[i], station->chord_m, station->bulge) * 1e3,
                     1e-6, 0);
}

static void check_stations(struct design *design, const char *heading, const int *style,
                           size_t styles) {
    struct envelope *envelope = starter(design);
    struct text text = {0};
    write_stations(envelope, &text);
    assert_memory_equal(text.bytes, heading, strlen(heading));
    const char *p = text.bytes + strlen(heading);
    struct line line;
    size_t count = 0;
    for (; next_line(&p, &line); count++)
        check_station(&line, &envelope->station[count], count, style, styles);
    assert_int_equal(count, envelope->rows + 1);
    assert_null(strstr(text.bytes, "\t-0.000000\t"));
    text_free(&text);
    envelope_free(envelope);
}

static void stations_run_from_the_mouth_with_the_section_of_the_only_style(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.style = HALF_GORE;
    static const int style[] = {HALF_GORE};
    check_stations(&design, "station\ts_mm\tr_mm\tz_mm\tslope_deg\tchord_mm\tsection_mm\n", style,
                   1);
}

static void a_mixed_envelope_has_a_section_for_gore_1_and_one_for_each_style(void **state) {
    (void)state;
    struct design design;
    design_starter(&design);
    design.gores.mix = (struct style_list){4, {BILLOWED, FACETED, BILLOWED, HALF_GORE}};
    static const int style[] = {BILLOWED, FACETED, HALF_GORE, BILLOWED};
    check_stations(
        &design,
        "station\ts_mm\tr_mm\tz_mm\tslope_deg\tchord_mm\tsection_mm\tsection_faceted_mm\t"
        "section_half-gore_mm\tsection_billowed_mm\n",
        style, 4);
}

/* ---- outlines ------------------------------------------------------------------------ */

static const char outlines_heading[] =
    "piece\tstyle\trow\tside\tcount\tline\tedge\tpoint\tx_mm\ty_mm\n";

static void check_ring(const char **p, const struct piece *piece, const struct ring *ring,
                       const char *name) {
    for (size_t i = 0; i < ring->count; i++) {
        struct line line;
        assert_true(next_line(p, &line));
        assert_int_equal(line.fields, 10);
        enum edge e = EDGE_LEFT;
        while (e > EDGE_BOTTOM && i < ring->first[e])
            e--;
        assert_string_equal(line.field[0], piece->name);
        assert_string_equal(line.field[1], style_name(piece->style));
        assert_close(number(line.field[2]), (double)piece->row, 0, 0);
        assert_string_equal(line.field[3], side_name(piece->side));
        assert_close(number(line.field[4]), (double)piece->count, 0, 0);
        assert_string_equal(line.field[5], name);
        assert_string_equal(line.field[6], edge_name(e));
        assert_close(number(line.field[7]), (double)i, 0, 0);
        assert_close(number(line.field[8]), ring->point[i].x_m * 1e3, 5.001e-7, 0);
        assert_close(number(line.field[9]), ring->point[i].y_m * 1e3, 5.001e-7, 0);
    }
}

static void outlines_give_the_sew_line_then_the_cut_line_of_each_piece(void **state) {
    (void)state;
    struct dice dice = {32};
    for (int i = 0; i < 20; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        struct text text = {0};
        write_outlines(envelope, &text);
        const char *p = text.bytes + strlen(outlines_heading);
        assert_memory_equal(text.bytes, outlines_heading, strlen(outlines_heading));
        for (size_t j = 0; j < envelope->templates; j++) {
            check_ring(&p, &envelope->piece[j], &envelope->piece[j].sew, "sew");
            check_ring(&p, &envelope->piece[j], &envelope->piece[j].cut, "cut");
        }
        assert_int_equal(*p, '\0');
        assert_null(strstr(text.bytes, "\t-0.000000"));
        text_free(&text);
        envelope_free(envelope);
    }
}

static void a_coordinate_that_rounds_to_nothing_has_no_sign(void **state) {
    (void)state;
    struct flat_point point[4] = {{-0.0, -1e-12}, {1, 0}, {1, 1}, {-4e-10, 1}};
    struct ring ring = {.point = point, .count = 4, .first = {0, 1, 2, 3}};
    struct piece piece = {.name = "F01", .row = 1, .count = 3, .sew = ring, .cut = ring};
    struct envelope envelope = {.piece = &piece, .templates = 1};
    struct text text = {0};
    write_outlines(&envelope, &text);
    assert_non_null(strstr(text.bytes, "\tsew\tbottom\t0\t0.000000\t0.000000\n"));
    assert_non_null(strstr(text.bytes, "\tsew\tleft\t3\t0.000000\t1000.000000\n"));
    assert_null(strstr(text.bytes, "-0.0"));
    text_free(&text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_read_back_to_the_last_bit),
        cmocka_unit_test(seam_length_is_tapes_rows_and_ridges_together),
        cmocka_unit_test(a_figure_that_is_no_number_is_left_out),
        cmocka_unit_test(figures_of_flight_read_back_to_the_last_bit),
        cmocka_unit_test(a_figure_of_flight_that_does_not_exist_is_left_out),
        cmocka_unit_test(stations_run_from_the_mouth_with_the_section_of_the_only_style),
        cmocka_unit_test(a_mixed_envelope_has_a_section_for_gore_1_and_one_for_each_style),
        cmocka_unit_test(outlines_give_the_sew_line_then_the_cut_line_of_each_piece),
        cmocka_unit_test(a_coordinate_that_rounds_to_nothing_has_no_sign),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
