/* test_cloths.c - pieces, area, mass and width by the cloth they are cut from. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "gorewright/shop.h"

static void add_cloths(struct design *d, size_t cloths) {
    d->colours.cloths.count = cloths;
    for (size_t i = 0; i < cloths; i++) {
        struct cloth_colour *cloth = &d->colours.cloths.value[i];
        cloth->letter = (char)('A' + (int)i);
        snprintf(cloth->name, sizeof cloth->name, "cloth %zu", i);
    }
}

static struct envelope *built(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    diagnostics_free(&messages);
    return envelope;
}

/* By cloth, by template and in the bench's own counts. */
static void assert_adds_up(const struct design *design, const struct envelope *envelope) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth), pieces = 0;
    double area_m2 = 0;
    for (size_t i = 0; i < cloths; i++) {
        struct cloth_cut cut = cloth_cut(design, envelope, i);
        struct record_choice choice = {.colour = cloth[i].name};
        assert_int_equal(record_count(NULL, design, envelope, choice).pieces, cut.pieces);
        pieces += cut.pieces;
        area_m2 += cut.area_m2;
    }
    assert_int_equal(pieces, envelope->built.pieces);
    assert_close(area_m2, envelope->built.cut_area_m2, 0, 1e-12);
    for (size_t t = 0; t < envelope->templates; t++) {
        size_t count = 0;
        for (size_t i = 0; i < cloths; i++)
            count += piece_count_of(design, envelope, &envelope->piece[t], i);
        assert_int_equal(count, envelope->piece[t].count);
    }
}

static void counts_by_colour_add_up_in_random_designs(void **state) {
    (void)state;
    struct dice dice = {11};
    size_t done = 0;
    for (int i = 0; i < 200; i++) {
        struct design d;
        design_starter(&d);
        d.cloth.width_m = 5;
        d.gores.count = 2 * dice_whole(&dice, 2, 16);
        d.gores.mix.count = 2;
        d.gores.mix.value[0] = dice_whole(&dice, 0, STYLE_COUNT - 1);
        d.gores.mix.value[1] = dice_whole(&dice, 0, STYLE_COUNT - 1);
        d.rows.count = dice_whole(&dice, 3, 12);
        add_cloths(&d, (size_t)dice_whole(&dice, 0, 6));
        d.colours.fill = dice_whole(&dice, 0, FILL_GRADIENT);
        d.colours.span = dice_whole(&dice, 1, 5);
        d.colours.turn = dice_whole(&dice, 0, GORES_MOST);
        d.colours.mirror = dice_whole(&dice, 0, 1);
        struct envelope *envelope = built(&d);
        if (envelope != NULL) {
            assert_adds_up(&d, envelope);
            done++;
        }
        envelope_free(envelope);
    }
    assert_true(done > 180);
}

static void counts_by_colour_add_up_in_every_sample(void **state) {
    (void)state;
    static const char *const sample[] = {"avocet", "bittern", "curlew",   "dunlin",
                                         "godwit", "lapwing", "redshank", "snipe"};
    for (size_t i = 0; i < COUNT_OF(sample); i++) {
        char path[64];
        struct design d;
        struct diagnostics messages = {0};
        snprintf(path, sizeof path, "samples/%s.cfg", sample[i]);
        assert_int_equal(design_read(path, &d, NULL, &messages), 0);
        if (d.size.by == SIZE_LOAD) {
            d.size.by = SIZE_VOLUME;
            d.size.volume_m3 = 12;
        }
        add_cloths(&d, 3);
        d.colours.fill = FILL_SPIRAL;
        struct envelope *envelope = built(&d);
        if (envelope == NULL)
            fail_msg("%s cannot be built", path);
        assert_adds_up(&d, envelope);
        envelope_free(envelope);
        diagnostics_free(&messages);
    }
}

static void each_cloth_weighs_what_it_weighs(void **state) {
    (void)state;
    struct design d;
    design_starter(&d);
    struct envelope *plain = built(&d);
    add_cloths(&d, 2);
    d.colours.fill = FILL_STRIPES;
    d.colours.cloths.value[1].mass_kg_m2 = 3 * d.cloth.mass_kg_m2;
    struct envelope *striped = built(&d);
    assert_non_null(plain);
    assert_non_null(striped);
    assert_close(striped->built.cloth_mass_kg, 2 * plain->built.cloth_mass_kg, 0, 1e-12);
    envelope_free(plain);
    envelope_free(striped);
}

static void a_piece_is_held_against_the_width_of_its_own_cloth(void **state) {
    (void)state;
    struct design d;
    struct diagnostics messages = {0};
    design_starter(&d);
    add_cloths(&d, 2);
    d.colours.cloths.value[1].width_m = 0.3;
    struct envelope *envelope = built(&d); /* the narrow cloth is not used */
    assert_non_null(envelope);
    envelope_free(envelope);
    d.colours.fill = FILL_BANDS;
    assert_null(envelope_build(&d, &messages));
    assert_string_equal(messages.item[0].code, "cloth-too-narrow");
    assert_non_null(strstr(messages.item[0].text, "0.280 m between"));
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_by_colour_add_up_in_random_designs),
        cmocka_unit_test(counts_by_colour_add_up_in_every_sample),
        cmocka_unit_test(each_cloth_weighs_what_it_weighs),
        cmocka_unit_test(a_piece_is_held_against_the_width_of_its_own_cloth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
