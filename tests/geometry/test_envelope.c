/* Properties of whole envelopes over random designs. */
#include "support.h"

#include <math.h>
#include <string.h>

enum { DESIGNS = 600 };

static const struct piece *find(const struct envelope *envelope, enum style style, size_t row,
                                enum side side) {
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        if (piece->style == style && piece->row == row && piece->side == side)
            return piece;
    }
    return NULL;
}

/* ---- mating edges ------------------------------------------------------ */

static void mating_edges_have_the_same_length(const struct design *design,
                                              const struct envelope *envelope) {
    (void)design;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        const struct piece *above = find(envelope, piece->style, piece->row + 1, piece->side);
        double side_m = envelope->station[piece->row - 1].side_m;
        if (above != NULL) {
            assert_close(edge_length_m(&above->sew, EDGE_BOTTOM),
                         edge_length_m(&piece->sew, EDGE_TOP), 1e-9, 0);
            assert_close(above->length_m[EDGE_BOTTOM], piece->length_m[EDGE_TOP], 0, 0);
        }
        for (int e = EDGE_RIGHT; e <= EDGE_LEFT; e += 2)
            if (piece->join[e] == JOIN_TAPE)
                assert_close(edge_length_m(&piece->sew, (enum edge)e), side_m, 1e-9, 0);
        if (piece->side == SIDE_LEFT) {
            const struct piece *right = find(envelope, HALF_GORE, piece->row, SIDE_RIGHT);
            assert_close(edge_length_m(&right->sew, EDGE_LEFT),
                         edge_length_m(&piece->sew, EDGE_RIGHT), 1e-9, 0);
            assert_close(right->length_m[EDGE_LEFT], piece->length_m[EDGE_RIGHT], 0, 0);
        }
    }
}

/* ---- lengths ----------------------------------------------------------- */

static void tape_sides_add_up_and_edges_have_their_length(const struct design *design,
                                                          const struct envelope *envelope) {
    (void)design;
    double sum = 0;
    for (size_t j = 0; j < envelope->rows; j++)
        sum += envelope->station[j].side_m;
    assert_close(sum, envelope->built.gore_length_m, 0, 1e-12);
    assert_true(envelope->built.gore_length_m <= envelope->built.smooth_length_m * (1 + 1e-9));
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        for (int e = 0; e < EDGE_COUNT; e++) {
            double along = edge_length_m(&piece->sew, (enum edge)e);
            /* The points stand on the exact arc, so they are never longer than it. */
            assert_true(along <= piece->length_m[e] * (1 + 1e-9));
            assert_close(along, piece->length_m[e], 1e-9, piece->curved[e] ? 0.007 : 1e-9);
            if (!piece->curved[e])
                assert_close(piece_chord_m(piece, (enum edge)e), piece->length_m[e], 1e-9, 0);
        }
    }
}

static double target_met(const struct design *design, const struct built *built) {
    switch (design->size.by) {
    case SIZE_VOLUME:
        return built->volume_m3 / design->size.volume_m3;
    case SIZE_HEIGHT:
        return built->height_m / design->size.height_m;
    case SIZE_DIAMETER:
        return built->max_diameter_m / design->size.diameter_m;
    case SIZE_GORE_LENGTH:
        return built->gore_length_m / design->size.gore_length_m;
    default:
        return built->sewn_area_m2 / design->size.cloth_area_m2;
    }
}

static void built_size_meets_the_target(const struct design *design,
                                        const struct envelope *envelope) {
    assert_close(target_met(design, &envelope->built), 1, 0, 1e-9);
    if (design->outline.kind != OUTLINE_TABLE) {
        assert_close(envelope->built.mouth_diameter_m, design->outline.mouth_diameter_m, 1e-9, 0);
        assert_close(envelope->built.crown_diameter_m, design->outline.crown_diameter_m, 1e-9, 0);
    }
}

/* ---- left and right ---------------------------------------------------- */

static void left_half_is_the_mirror_of_the_right(const struct design *design,
                                                 const struct envelope *envelope) {
    bool plain = design->seams.tape != SEAM_FELLED && design->seams.row != SEAM_FELLED &&
                 design->seams.ridge != SEAM_FELLED;
    for (size_t row = 1; row <= envelope->rows && envelope->style_count[HALF_GORE] > 0; row++) {
        const struct piece *left = find(envelope, HALF_GORE, row, SIDE_LEFT);
        const struct piece *right = find(envelope, HALF_GORE, row, SIDE_RIGHT);
        double width = left->sew.point[1].x_m;
        static const size_t partner[] = {1, 0, 3, 2};
        for (size_t k = 0; k < 4; k++) {
            assert_close(left->sew.point[k].x_m, width - right->sew.point[partner[k]].x_m, 1e-9, 0);
            assert_close(left->sew.point[k].y_m, right->sew.point[partner[k]].y_m, 1e-9, 0);
        }
        if (plain)
            assert_close(left->cut_area_m2, right->cut_area_m2, 0, 1e-9);
    }
}

/* ---- the cut line ------------------------------------------------------ */

static double distance_to_stretch(struct flat_point p, struct flat_point a, struct flat_point b) {
    double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, size = dx * dx + dy * dy;
    double t = size > 0 ? ((p.x_m - a.x_m) * dx + (p.y_m - a.y_m) * dy) / size : 0;
    t = fmin(fmax(t, 0), 1);
    return hypot(p.x_m - a.x_m - t * dx, p.y_m - a.y_m - t * dy);
}

static double distance_to_ring(struct flat_point p, const struct ring *ring) {
    double least = HUGE_VAL;
    for (size_t i = 0; i < ring->count; i++)
        least =
            fmin(least, distance_to_stretch(p, ring->point[i], ring->point[(i + 1) % ring->count]));
    return least;
}

static bool inside(struct flat_point p, const struct ring *ring) {
    bool in = false;
    for (size_t i = 0; i < ring->count; i++) {
        struct flat_point a = ring->point[i], b = ring->point[(i + 1) % ring->count];
        if ((a.y_m > p.y_m) != (b.y_m > p.y_m) &&
            p.x_m < a.x_m + (b.x_m - a.x_m) * (p.y_m - a.y_m) / (b.y_m - a.y_m))
            in = !in;
    }
    return in;
}

static double turn(struct flat_point a, struct flat_point b, struct flat_point c) {
    return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

static bool crosses_itself(const struct ring *ring) {
    for (size_t i = 0; i < ring->count; i++)
        for (size_t j = i + 2; j < ring->count; j++) {
            if (i == 0 && j + 1 == ring->count)
                continue;
            struct flat_point a = ring->point[i], b = ring->point[i + 1];
            struct flat_point c = ring->point[j], d = ring->point[(j + 1) % ring->count];
            double size = 1e-16;
            if (turn(a, b, c) * turn(a, b, d) < -size * size &&
                turn(c, d, a) * turn(c, d, b) < -size * size)
                return true;
        }
    return false;
}

static double distance_to_edge(struct flat_point p, const struct ring *ring, int e) {
    size_t end = e + 1 < EDGE_COUNT ? ring->first[e + 1] : ring->count;
    double least = HUGE_VAL;
    for (size_t i = ring->first[e]; i < end; i++)
        least =
            fmin(least, distance_to_stretch(p, ring->point[i], ring->point[(i + 1) % ring->count]));
    return least;
}

/* The middle of stretch k of the sew line has its edge's allowance around it, no more and no
 * less; near a corner, at least what lies between it and the neighbouring edge. */
static void check_clearance(const struct piece *piece, int e, size_t k) {
    const struct ring *sew = &piece->sew;
    struct flat_point a = sew->point[k], b = sew->point[(k + 1) % sew->count];
    struct flat_point middle = {(a.x_m + b.x_m) / 2, (a.y_m + b.y_m) / 2};
    double clear = distance_to_ring(middle, &piece->cut), least = piece->allowance_m[e];
    for (int other = 0; other < EDGE_COUNT; other++)
        if (other != e)
            least = fmin(least, distance_to_edge(middle, sew, other));
    if (least > 1e-6)
        assert_true(inside(middle, &piece->cut));
    assert_true(clear >= least - 1e-6);
    assert_true(clear <= piece->allowance_m[e] + 1e-9 ||
                piece->cut.first[(e + 1) % EDGE_COUNT] == piece->cut.first[e] + 1);
}

static void cut_line_is_simple_and_holds_the_sew_line(const struct design *design,
                                                      const struct envelope *envelope) {
    (void)design;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        if (piece->sew.count > 140)
            continue; /* crossing tests go with the square of the points */
        assert_false(crosses_itself(&piece->cut));
        for (int e = 0; e < EDGE_COUNT; e++)
            for (size_t k = piece->sew.first[e];
                 k < (e + 1 < EDGE_COUNT ? piece->sew.first[e + 1] : piece->sew.count); k++)
                check_clearance(piece, e, k);
    }
}

/* ---- marks ------------------------------------------------------------- */

static void match_marks_stand_on_the_sew_line(const struct design *design,
                                              const struct envelope *envelope) {
    (void)design;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        assert_int_equal(piece->marks, 8);
        for (size_t k = 0; k < piece->marks; k++) {
            const struct match_mark *mark = &piece->mark[k];
            assert_close(hypot(mark->outward.x_m, mark->outward.y_m), 1, 1e-9, 0);
            assert_close(mark->along_m, mark->fraction * piece->length_m[mark->edge], 1e-12, 0);
            assert_close(distance_to_ring(mark->at, &piece->sew), 0, 1e-9, 0);
        }
    }
}

/* ---- styles ------------------------------------------------------------ */

static void no_bulge(struct design *design) {
    design->bulge.depth = 0;
    design->bulge.stations.count = 0;
    design->gores.mix.count = 0;
    if (design->outline.kind != OUTLINE_TABLE && design->size.by == SIZE_CLOTH_AREA)
        design->size.by = SIZE_HEIGHT;
}

static struct envelope *in_style(struct design design, enum style style) {
    struct diagnostics messages = {0};
    design.gores.style = (int)style;
    struct envelope *envelope = envelope_build(&design, &messages);
    diagnostics_free(&messages);
    return envelope;
}

static void styles_agree_without_bulge(void **state) {
    (void)state;
    struct dice dice = {7};
    for (int i = 0; i < DESIGNS; i++) {
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        no_bulge(&design);
        struct envelope *flat = in_style(design, FACETED), *half = in_style(design, HALF_GORE);
        struct envelope *billow = in_style(design, BILLOWED);
        for (size_t row = 1; flat != NULL && row <= flat->rows; row++) {
            const struct piece *f = find(flat, FACETED, row, SIDE_WHOLE);
            const struct piece *b = find(billow, BILLOWED, row, SIDE_WHOLE);
            const struct piece *l = find(half, HALF_GORE, row, SIDE_LEFT);
            const struct piece *r = find(half, HALF_GORE, row, SIDE_RIGHT);
            for (size_t k = 0; k < 4; k++) {
                assert_close(b->sew.point[k].x_m, f->sew.point[k].x_m, 1e-9, 0);
                assert_close(b->sew.point[k].y_m, f->sew.point[k].y_m, 1e-9, 0);
            }
            /* The halves, ridge to ridge, make the whole. */
            assert_close(l->sew.point[0].x_m, f->sew.point[0].x_m, 1e-9, 0);
            assert_close(l->sew.point[3].x_m, f->sew.point[3].x_m, 1e-9, 0);
            double ridge = l->sew.point[1].x_m;
            assert_close(r->sew.point[1].x_m + ridge, f->sew.point[1].x_m, 1e-9, 0);
            assert_close(r->sew.point[2].x_m + ridge, f->sew.point[2].x_m, 1e-9, 0);
            assert_close(r->sew.point[2].y_m, f->sew.point[2].y_m, 1e-9, 0);
        }
        if (flat != NULL)
            assert_close(billow->built.volume_m3, flat->built.volume_m3, 0, 1e-9);
        envelope_free(flat);
        envelope_free(half);
        envelope_free(billow);
    }
}

static void mixing_styles_changes_no_tape(void **state) {
    (void)state;
    struct dice dice = {8};
    for (int i = 0; i < DESIGNS; i++) {
        struct design design;
        envelope_free(random_envelope(&dice, &design));
        if (design.size.by == SIZE_VOLUME || design.size.by == SIZE_CLOTH_AREA)
            design.size.by = SIZE_GORE_LENGTH;
        design.gores.mix.count = 0;
        struct envelope *plain = in_style(design, FACETED);
        for (int k = 0; k < design.gores.count; k++)
            design.gores.mix.value[k] = dice_whole(&dice, FACETED, BILLOWED);
        design.gores.mix.count = (size_t)design.gores.count;
        struct envelope *mixed = in_style(design, FACETED);
        assert_true((plain == NULL) == (mixed == NULL));
        for (size_t j = 0; plain != NULL && j <= plain->rows; j++) {
            assert_close(mixed->station[j].side_m, plain->station[j].side_m, 1e-12, 0);
            assert_close(mixed->station[j].r_m, plain->station[j].r_m, 1e-12, 0);
            assert_close(mixed->station[j].z_m, plain->station[j].z_m, 1e-12, 0);
        }
        envelope_free(plain);
        envelope_free(mixed);
    }
}

/* ---- scale ------------------------------------------------------------- */

static void scale_design(struct design *design, double by) {
    design->size.height_m *= by;
    design->size.diameter_m *= by;
    design->size.gore_length_m *= by;
    design->size.cloth_area_m2 *= by * by;
    design->size.volume_m3 *= by * by * by;
    design->outline.mouth_diameter_m *= by;
    design->outline.crown_diameter_m *= by;
    design->outline.lift_per_volume_N_m3 /= by; /* so that Sigma stays the same */
}

static void scaling_scales_every_length(void **state) {
    (void)state;
    struct dice dice = {9};
    for (int i = 0; i < DESIGNS; i++) {
        struct design design;
        struct envelope *small = random_envelope(&dice, &design);
        struct diagnostics messages = {0};
        double by = dice_between(&dice, 0.5, 2);
        scale_design(&design, by);
        struct envelope *large = envelope_build(&design, &messages);
        assert_non_null(large);
        for (size_t j = 0; j <= small->rows; j++) {
            double allowed = 1e-8 * large->built.height_m;
            assert_close(large->station[j].r_m, by * small->station[j].r_m, allowed, 0);
            assert_close(large->station[j].z_m, by * small->station[j].z_m, allowed, 0);
            assert_close(large->station[j].s_m, by * small->station[j].s_m, allowed, 0);
        }
        for (size_t k = 0; k < small->templates; k++)
            for (int e = 0; e < EDGE_COUNT; e++)
                assert_close(large->piece[k].length_m[e], by * small->piece[k].length_m[e],
                             1e-8 * large->built.height_m, 0);
        assert_close(large->built.volume_m3, by * by * by * small->built.volume_m3, 0, 1e-7);
        envelope_free(small);
        envelope_free(large);
        diagnostics_free(&messages);
    }
}

/* ---- counting ---------------------------------------------------------- */

static void every_gore_has_all_its_pieces(const struct design *design,
                                          const struct envelope *envelope) {
    size_t pieces = 0, per_gore = 0;
    double ridge = 0;
    for (size_t i = 0; i < envelope->templates; i++) {
        pieces += envelope->piece[i].count;
        if (envelope->piece[i].side == SIDE_LEFT)
            ridge += (double)envelope->piece[i].count * envelope->piece[i].length_m[EDGE_RIGHT];
    }
    for (size_t i = 0; i < envelope->gores; i++)
        per_gore += envelope->rows * (envelope->gore_style[i] == HALF_GORE ? 2 : 1);
    assert_int_equal(pieces, per_gore);
    assert_int_equal(envelope->built.pieces, pieces);
    assert_int_equal(envelope->gores, design->gores.count);
    assert_close(envelope->built.ridge_seam_m, ridge, 1e-9, 0);
    assert_close(envelope->built.tape_seam_m,
                 (double)envelope->gores * envelope->built.gore_length_m, 1e-9, 0);
}

typedef void property(const struct design *design, const struct envelope *envelope);

static void every_property_holds_for_random_designs(void **state) {
    static property *const properties[] = {
        mating_edges_have_the_same_length,
        tape_sides_add_up_and_edges_have_their_length,
        built_size_meets_the_target,
        left_half_is_the_mirror_of_the_right,
        cut_line_is_simple_and_holds_the_sew_line,
        match_marks_stand_on_the_sew_line,
        every_gore_has_all_its_pieces,
    };
    (void)state;
    struct dice dice = {1};
    for (int i = 0; i < DESIGNS; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        for (size_t k = 0; k < COUNT_OF(properties); k++)
            properties[k](&design, envelope);
        envelope_free(envelope);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_property_holds_for_random_designs),
        cmocka_unit_test(styles_agree_without_bulge),
        cmocka_unit_test(mixing_styles_changes_no_tape),
        cmocka_unit_test(scaling_scales_every_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
