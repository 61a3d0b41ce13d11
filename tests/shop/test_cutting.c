/* test_cutting.c - a design laid out on its cloth: every piece once, kept as it was chalked. */
#include "support.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/cutting.h"
#include "gorewright/flight.h"
#include "gorewright/paper.h"
#include "gorewright/shop.h"

static const struct cutting_job least = {.effort = EFFORT_LEAST};

/* ---- designs ------------------------------------------------------------------------ */

static void set(struct design *design, const char *key, const char *typed) {
    struct diagnostics messages = {0};
    assert_int_equal(parameter_set(design, (size_t)parameter_find(key), typed, &messages), 0);
    diagnostics_free(&messages);
}

/* Small and quick: 8 gores of 3 rows in two colours. */
static void set_small(struct design *design) {
    design_starter(design);
    set(design, "name", "Small");
    set(design, "size.volume", "2 m3");
    set(design, "gores.count", "8");
    set(design, "rows.count", "3");
    set(design, "colours.cloths", "W white, R red");
    set(design, "colours.fill", "bands");
}

static struct envelope *built(struct design *design) {
    struct diagnostics messages = {0};
    struct text said = {0};
    struct envelope *envelope = flight_build(design, design, &messages);
    diagnostics_write(&messages, &said);
    if (envelope == NULL)
        fail_msg("%s", said.bytes);
    text_free(&said);
    diagnostics_free(&messages);
    return envelope;
}

static void make(const struct design *design, const struct envelope *envelope,
                 struct cutting *cutting) {
    struct diagnostics messages = {0};
    assert_int_equal(cutting_make(&least, design, envelope, cutting, &messages), 0);
    assert_true(cutting_check(cutting, &messages));
    assert_int_equal(messages.errors, 0);
    diagnostics_free(&messages);
}

/* ---- counts that agree ------------------------------------------------------------------ */

/* A number that stands behind ": " at the end of a line that begins "L name: ". */
static size_t listed(const char *page, const struct cloth_colour *colour) {
    char head[TEXT_MOST + 8], name[TEXT_MOST];
    snprintf(head, sizeof head, "\n%c %s: ", colour->letter, plain_text(colour->name, name));
    const char *at = strstr(page, head);
    return at == NULL ? 0 : strtoul(at + strlen(head), NULL, 10);
}

/* Lines of a cut list below the head of a colour, each counted by what its "cut" says. */
static size_t listed_in_lines(const char *page, const struct cloth_colour *colour) {
    char head[TEXT_MOST + 8], name[TEXT_MOST];
    size_t sum = 0;
    snprintf(head, sizeof head, "\n%c %s: ", colour->letter, plain_text(colour->name, name));
    const char *at = strstr(page, head);
    for (at = at == NULL ? "" : at + 1; *at != '\0' && *at != '\n';) {
        char piece[16], style[16], row[16], side[16];
        unsigned long count;
        if (strncmp(at, "  [ ]", 5) == 0 &&
            sscanf(at + 5, "%15s %15s %15s %15s %lu", piece, style, row, side, &count) == 5)
            sum += count;
        at += strcspn(at, "\n");
        at += *at == '\n';
    }
    return sum;
}

static void assert_counts_agree(const struct design *design, const struct envelope *envelope) {
    struct cutting cutting = {0};
    struct text list = {0};
    struct cloth_colour colour[CLOTHS_MOST];
    size_t cloths = design_cloths(design, colour), at = 0, all = 0;
    make(design, envelope, &cutting);
    write_cut_list(design, envelope, &list);
    struct materials materials = materials_of(design, envelope, &cutting);
    for (size_t i = 0; i < cloths; i++) {
        struct record_choice choice = {.colour = colour[i].name};
        size_t bench = record_count(NULL, design, envelope, choice).pieces;
        all += bench;
        assert_int_equal(listed(list.bytes, &colour[i]), bench);
        assert_int_equal(listed_in_lines(list.bytes, &colour[i]), bench);
        if (bench == 0)
            continue;
        assert_true(at < cutting.cloths);
        assert_int_equal(cutting.cloth[at].cloth, i);
        assert_int_equal(cutting.cloth[at].pieces, bench);
        assert_int_equal(cutting.cloth[at].layout.places, bench);
        assert_int_equal(materials.item[at].kind, MATERIAL_CLOTH);
        assert_int_equal(cutting.cloth[materials.item[at].cloth].cloth, i);
        assert_close(materials.item[at].needed_m, cutting_used_m(&cutting.cloth[at]), 0, 0);
        at++;
    }
    assert_int_equal(at, cutting.cloths);
    assert_int_equal(all, envelope->built.pieces);
    text_free(&list);
    cutting_free(&cutting);
}

static int is_sample(const struct dirent *entry) {
    return strstr(entry->d_name, ".cfg") != NULL;
}

static void every_sample_agrees_on_what_is_cut_from_which_cloth(void **state) {
    (void)state;
    struct dirent **entry;
    int count = scandir("samples", &entry, is_sample, alphasort);
    assert_true(count >= 8);
    for (int i = 0; i < count; i++) {
        char path[300];
        struct design design;
        struct diagnostics messages = {0};
        snprintf(path, sizeof path, "samples/%s", entry[i]->d_name);
        assert_int_equal(design_read(path, &design, NULL, &messages), 0);
        struct envelope *envelope = built(&design);
        assert_counts_agree(&design, envelope);
        envelope_free(envelope);
        diagnostics_free(&messages);
        free(entry[i]);
    }
    free(entry);
}

static void random_colours(struct dice *dice, struct design *design) {
    size_t count = (size_t)dice_whole(dice, 0, 4);
    design->colours.cloths.count = count;
    for (size_t i = 0; i < count; i++) {
        struct cloth_colour *cloth = &design->colours.cloths.value[i];
        *cloth = (struct cloth_colour){.letter = (char)('A' + (int)i)};
        snprintf(cloth->name, TEXT_MOST, "cloth %zu", i);
    }
    if (count < 2)
        return;
    design->colours.fill = dice_whole(dice, FILL_ONE, FILL_SCHEME);
    design->colours.span = dice_whole(dice, 1, 3);
    design->colours.turn = dice_whole(dice, 0, 5);
    design->colours.mirror = dice_whole(dice, MIRROR_NO, MIRROR_YES);
    if (design->colours.fill == FILL_SCHEME) {
        design->colours.scheme.count = 1;
        strcpy(design->colours.scheme.value[0], "A");
        design->colours.scheme_right.count = 1;
        strcpy(design->colours.scheme_right.value[0], "B");
    }
    design->cloth.warp = dice_whole(dice, WARP_ACROSS, WARP_UP);
    design->cutting.lay = dice_whole(dice, LAY_BOTH_WAYS, LAY_ONE_WAY);
}

/* Of the random designs those that a hobbyist might cut. */
static void random_designs_agree_on_what_is_cut_from_which_cloth(void **state) {
    (void)state;
    struct dice dice = {20};
    for (int designs = 0; designs < 200;) {
        struct design design;
        struct diagnostics messages = {0};
        random_design(&dice, &design);
        random_colours(&dice, &design);
        struct envelope *envelope =
            design.rows.count * design.gores.count > 36 ? NULL : envelope_build(&design, &messages);
        diagnostics_free(&messages);
        if (envelope == NULL)
            continue;
        design.cloth.width_m = 0; /* the widest piece fits one and a half times */
        for (size_t i = 0; i < envelope->templates; i++) {
            const struct piece *piece = &envelope->piece[i];
            double wide = design.cloth.warp == WARP_UP ? piece->cut_most.x_m - piece->cut_least.x_m
                                                       : piece->cut_most.y_m - piece->cut_least.y_m;
            design.cloth.width_m = fmax(design.cloth.width_m, 1.5 * wide + 0.03);
        }
        assert_counts_agree(&design, envelope);
        envelope_free(envelope);
        designs++;
    }
}

/* ---- where pieces lie ----------------------------------------------------------------------- */

static void every_single_piece_lies_once_and_in_order_along_the_roll(void **state) {
    (void)state;
    struct design design;
    struct cutting cutting = {0};
    set_small(&design);
    struct envelope *envelope = built(&design);
    make(&design, envelope, &cutting);
    size_t seen[3][9] = {{0}};
    for (size_t i = 0; i < cutting.cloths; i++)
        for (size_t k = 0; k < cutting.cloth[i].pieces; k++) {
            const struct cutting_piece *piece = &cutting.cloth[i].piece[k];
            const struct piece *template = &envelope->piece[piece->piece];
            assert_in_range(piece->gore, 1, 8);
            assert_int_equal(design_colour_of(&design, piece->gore - 1, template->row, false),
                             cutting.cloth[i].cloth);
            seen[piece->piece][piece->gore]++;
            if (k > 0 && piece->place.bolt == piece[-1].place.bolt)
                assert_true(piece->from_m >= piece[-1].from_m);
            assert_true(piece->near_m >= design.cloth.selvedge_m - 1e-9);
            assert_true(piece->far_m <= design.cloth.width_m - design.cloth.selvedge_m + 1e-6);
        }
    for (size_t t = 0; t < 3; t++)
        for (size_t gore = 1; gore <= 8; gore++)
            assert_int_equal(seen[t][gore], 1);
    cutting_free(&cutting);
    envelope_free(envelope);
}

static void the_grain_and_a_right_way_up_decide_how_pieces_are_turned(void **state) {
    (void)state;
    static const unsigned allowed[2][2] = {{TURNS_0_180, ONLY_TURN_0},
                                           {TURNS_90_270, ONLY_TURN_90}};
    for (int warp = WARP_ACROSS; warp <= WARP_UP; warp++)
        for (int lay = LAY_BOTH_WAYS; lay <= LAY_ONE_WAY; lay++) {
            struct design design;
            struct cutting cutting = {0};
            set_small(&design);
            design.cloth.warp = warp;
            design.cutting.lay = lay;
            struct envelope *envelope = built(&design);
            make(&design, envelope, &cutting);
            unsigned used = 0;
            for (size_t k = 0; k < cutting.cloth[0].pieces; k++)
                used |= 1u << cutting.cloth[0].piece[k].place.turn;
            assert_int_equal(used & ~allowed[warp][lay], 0);
            cutting_free(&cutting);
            envelope_free(envelope);
        }
}

static void the_crown_of_a_piece_points_where_its_turn_takes_it(void **state) {
    (void)state;
    static const struct {
        enum turn turn;
        const char *crown;
        double x, y;
    } ways[] = {{TURN_0, "far", 0, 1},
                {TURN_90, "start", -1, 0},
                {TURN_180, "near", 0, -1},
                {TURN_270, "end", 1, 0}};
    for (size_t i = 0; i < COUNT_OF(ways); i++) {
        struct cutting_piece piece = {.place = {.turn = ways[i].turn}};
        struct flat_point up = layout_point((struct flat_point){0, 1}, &piece.place);
        assert_close(up.x_m, ways[i].x, 1e-12, 0);
        assert_close(up.y_m, ways[i].y, 1e-12, 0);
        assert_string_equal(cutting_crown(&piece), ways[i].crown);
    }
}

/* ---- cloth ------------------------------------------------------------------------------------
 */

static void offcuts_are_used_first_and_are_not_bought(void **state) {
    (void)state;
    struct design design;
    struct cutting without = {0}, with = {0};
    set_small(&design);
    struct envelope *envelope = built(&design);
    make(&design, envelope, &without);
    set(&design, "cutting.offcuts", "W 1.6 1.5");
    make(&design, envelope, &with);
    assert_int_equal(with.cloth[0].strips, 2);
    assert_true(with.cloth[0].strip[0].offcut);
    size_t pieces = 0;
    for (size_t k = 0; k < with.cloth[0].pieces; k++)
        pieces += with.cloth[0].piece[k].place.bolt == 0;
    assert_true(pieces > 0);
    assert_true(cutting_used_m(&with.cloth[0]) < cutting_used_m(&without.cloth[0]) - 0.5);
    assert_close(cutting_used_m(&with.cloth[0]), with.cloth[0].layout.used_m[1], 0, 0);
    assert_close(cutting_used_m(&with.cloth[1]), cutting_used_m(&without.cloth[1]), 0, 0);
    assert_true(cutting_bound_m(&with.cloth[0]) <= cutting_used_m(&with.cloth[0]));
    cutting_free(&without);
    cutting_free(&with);
    envelope_free(envelope);
}

static void cloth_too_small_for_any_piece_is_named_and_not_used(void **state) {
    (void)state;
    struct design design;
    struct cutting cutting = {0};
    struct diagnostics messages = {0};
    struct text said = {0};
    set_small(&design);
    struct envelope *envelope = built(&design);
    set(&design, "cutting.offcuts", "W 1.6 1.5, R 0.2 0.1, W 9 0.1");
    assert_int_equal(cutting_make(&least, &design, envelope, &cutting, &messages), 0);
    diagnostics_write(&messages, &said);
    assert_string_equal(said.bytes,
                        "design: warning: cutting.offcuts: entry 3: 9.000 m long and 0.100 m wide, "
                        "this offcut is too small for any piece of cloth W, white; it is not used\n"
                        "design: warning: cutting.offcuts: entry 2: 0.200 m long and 0.100 m wide, "
                        "this offcut is too small for any piece of cloth R, red; it is not used\n");
    assert_int_equal(cutting.cloth[0].strips, 2);
    assert_int_equal(cutting.cloth[1].strips, 1);
    text_free(&said);
    diagnostics_free(&messages);
    cutting_free(&cutting);
    envelope_free(envelope);
}

static void a_colour_may_come_from_several_bolts_of_limited_length(void **state) {
    (void)state;
    struct design design;
    struct cutting cutting = {0};
    set_small(&design);
    struct envelope *envelope = built(&design);
    set(&design, "cutting.bolts", "W 2, W 2, W 2");
    make(&design, envelope, &cutting);
    assert_int_equal(cutting.cloth[0].strips, 3);
    for (size_t k = 0; k < 3; k++)
        assert_true(cutting.cloth[0].layout.used_m[k] <= 2 + 1e-6);
    assert_true(cutting.cloth[0].layout.used_m[1] > 0);
    double bought = cutting_bought_m(&design, &cutting.cloth[0]);
    assert_true(bought >= cutting_used_m(&cutting.cloth[0]) - 1e-6);
    assert_close(bought / 0.1, round(bought / 0.1), 1e-9, 0);
    cutting_free(&cutting);
    envelope_free(envelope);
}

static void bolts_that_do_not_take_all_are_refused_with_their_colour(void **state) {
    (void)state;
    struct design design;
    struct cutting cutting = {0};
    struct diagnostics messages = {0};
    set_small(&design);
    struct envelope *envelope = built(&design);
    set(&design, "cutting.bolts", "R 1");
    assert_int_equal(cutting_make(&least, &design, envelope, &cutting, &messages), -1);
    assert_int_equal(messages.errors, 1);
    assert_string_equal(messages.item[0].key, "cutting.bolts");
    assert_non_null(strstr(messages.item[0].text, "cloth R, red: "));
    diagnostics_free(&messages);
    cutting_free(&cutting);
    envelope_free(envelope);
}

/* ---- kept --------------------------------------------------------------------------------------
 */

struct kept {
    struct design design;
    struct envelope *envelope;
    struct text text;
};

static struct kept keep_small(void) {
    struct kept kept = {.text = {0}};
    struct cutting cutting = {0};
    set_small(&kept.design);
    kept.envelope = built(&kept.design);
    make(&kept.design, kept.envelope, &cutting);
    cutting_write(&cutting, &kept.design, &kept.text);
    cutting_free(&cutting);
    return kept;
}

static void kept_free(struct kept *kept) {
    envelope_free(kept->envelope);
    text_free(&kept->text);
}

static enum cutting_state read_back(const struct text *text, const struct design *design,
                                    const struct envelope *envelope, struct text *said,
                                    struct text *again) {
    struct cutting cutting = {0};
    struct diagnostics messages = {0};
    enum cutting_state state = cutting_read(text, "kept", design, envelope, &cutting, &messages);
    bool good = state == CUTTING_SAME || state == CUTTING_CHANGED;
    assert_int_equal(messages.errors > 0, !good);
    if (again != NULL && good)
        cutting_write(&cutting, design, again);
    if (again != NULL && good)
        write_cutting(design, envelope, &cutting, again);
    diagnostics_write(&messages, said);
    diagnostics_free(&messages);
    cutting_free(&cutting);
    return state;
}

static void a_kept_layout_reads_back_to_the_same_bytes_and_the_same_page(void **state) {
    (void)state;
    struct kept kept = keep_small();
    struct cutting cutting = {0};
    struct text said = {0}, again = {0}, want = {0};
    make(&kept.design, kept.envelope, &cutting);
    cutting_write(&cutting, &kept.design, &want);
    write_cutting(&kept.design, kept.envelope, &cutting, &want);
    assert_int_equal(read_back(&kept.text, &kept.design, kept.envelope, &said, &again),
                     CUTTING_SAME);
    assert_string_equal(again.bytes, want.bytes);
    cutting_free(&cutting);
    text_free(&said);
    text_free(&again);
    text_free(&want);
    kept_free(&kept);
}

/* What became of the kept layout after a change of the design. */
static enum cutting_state after_change(const char *key, const char *typed, char said_of[300]) {
    struct kept kept = keep_small();
    struct text said = {0};
    set(&kept.design, key, typed);
    struct envelope *changed = built(&kept.design);
    enum cutting_state state = read_back(&kept.text, &kept.design, changed, &said, NULL);
    snprintf(said_of, 300, "%s", said.bytes == NULL ? "" : said.bytes);
    envelope_free(changed);
    text_free(&said);
    kept_free(&kept);
    return state;
}

static void only_a_change_of_pieces_or_cloth_touches_a_kept_layout(void **state) {
    (void)state;
    static const struct {
        const char *key, *typed;
        enum cutting_state state;
        const char *said;
    } changes[] = {
        {"rig.fuel", "0.4 kg", CUTTING_SAME, ""},
        {"name", "Another", CUTTING_SAME, ""},
        {"cloth.price", "4", CUTTING_SAME, ""},
        {"cutting.gap", "1 mm", CUTTING_CHANGED, ""},
        {"cloth.width", "1.6 m", CUTTING_CHANGED, ""},
        {"size.volume", "1.99 m3", CUTTING_VOID, "apart"},
        {"size.volume", "2.2 m3", CUTTING_VOID, "leaves the cloth"},
        {"cutting.gap", "9 mm", CUTTING_VOID, "apart"},
        {"cutting.lay", "one-way", CUTTING_VOID, "turned"},
        {"gores.count", "7", CUTTING_VOID, "is not cut from cloth"},
        {"gores.count", "9", CUTTING_VOID, "are cut from it now"},
        {"rows.count", "4", CUTTING_VOID, "are cut from it now"},
        {"colours.fill", "stripes", CUTTING_VOID, "is not cut from cloth"},
        {"colours.cloths", "W white, B blue", CUTTING_VOID, "nothing is cut from cloth R"},
    };
    for (size_t i = 0; i < COUNT_OF(changes); i++) {
        char said[300];
        enum cutting_state got = after_change(changes[i].key, changes[i].typed, said);
        if (got != changes[i].state || strstr(said, changes[i].said) == NULL)
            fail_msg("%s = %s: state %d, said: %s", changes[i].key, changes[i].typed, (int)got,
                     said);
        if (got == CUTTING_VOID)
            assert_non_null(strstr(said, "--anew"));
    }
}

static void a_file_cut_short_anywhere_is_never_taken_for_whole(void **state) {
    (void)state;
    struct kept kept = keep_small();
    for (size_t length = 0; length < kept.text.length; length++) {
        struct text part = {0}, said = {0};
        text_add_bytes(&part, kept.text.bytes, length);
        if (part.bytes == NULL)
            text_add(&part, "%s", "");
        enum cutting_state got = read_back(&part, &kept.design, kept.envelope, &said, NULL);
        if (got != CUTTING_BROKEN && got != CUTTING_FOREIGN)
            fail_msg("cut at byte %zu: state %d: %s", length, (int)got, said.bytes);
        assert_int_equal(strncmp(said.bytes, "kept:", 5), 0);
        text_free(&part);
        text_free(&said);
    }
    kept_free(&kept);
}

/* Whatever is changed in it, what is taken holds: read_back's checks saw to that. */
static void a_file_with_bytes_changed_is_refused_or_holds(void **state) {
    (void)state;
    static const char other[] = "0123456789.-+e \n#Wx/\\\"\x01\xff";
    struct kept kept = keep_small();
    struct dice dice = {7};
    size_t refused = 0, body = (size_t)(strstr(kept.text.bytes, "cloth ") - kept.text.bytes);
    for (int i = 0; i < 600; i++) {
        struct text part = {0}, said = {0};
        text_add_bytes(&part, kept.text.bytes, kept.text.length);
        for (int n = dice_whole(&dice, 1, 3); n > 0; n--)
            part.bytes[dice_whole(&dice, (int)body, (int)part.length - 1)] =
                other[dice_whole(&dice, 0, (int)sizeof other - 2)];
        enum cutting_state got = read_back(&part, &kept.design, kept.envelope, &said, NULL);
        refused += got != CUTTING_SAME && got != CUTTING_CHANGED;
        text_free(&part);
        text_free(&said);
    }
    assert_true(refused > 300);
    kept_free(&kept);
}

/* The kept text with its line number `number` (from 1) replaced. */
static void with_line(const struct text *text, size_t number, const char *line, struct text *into) {
    const char *at = text->bytes;
    for (size_t i = 1; *at != '\0'; i++) {
        size_t length = strcspn(at, "\n") + 1;
        if (i == number)
            text_add(into, "%s", line);
        else
            text_add_bytes(into, at, length);
        at += length;
    }
}

static void a_broken_line_is_named_with_its_number(void **state) {
    (void)state;
    static const char *const lines[] = {
        "F01 1 1 0 0.1\n",                    /* a word is missing */
        "F01 1 1 45 0.1 0.1\n",               /* no turn that there is */
        "F01 0 1 0 0.1 0.1\n",                /* no gore */
        "F01 1 1 0 nan 0.1\n",                /* no number */
        "F01 1 1 0 0.1 1e999\n",              /* beyond all numbers */
        "F01 1 99999999999999999999 0 0 0\n", /* beyond all whole numbers */
        "/etc/passwd\n",                      /* a path leads nowhere */
        "include ../other.cfg\n",             /* nor this */
        "F01  1 1 0 0.1 0.1\n",               /* two blanks */
        "cloth W 3\n",                        /* pieces of the one before are missing */
        "end\n",
        "F01 1 1 0 0.1 0.1 0.1\n",
    };
    struct kept kept = keep_small();
    for (size_t i = 0; i < COUNT_OF(lines); i++) {
        struct text part = {0}, said = {0};
        with_line(&kept.text, 10, lines[i], &part);
        enum cutting_state got = read_back(&part, &kept.design, kept.envelope, &said, NULL);
        if (got != CUTTING_BROKEN || strncmp(said.bytes, "kept:10: error: ", 16) != 0)
            fail_msg("%s: state %d: %s", lines[i], (int)got, said.bytes);
        text_free(&part);
        text_free(&said);
    }
    kept_free(&kept);
}

/* ---- beside the design
 * ----------------------------------------------------------------------------- */

struct opened {
    int status;
    struct cutting cutting;
    struct text said;
};

static struct opened open_with(const struct kept *kept, struct cutting_job job) {
    struct opened opened = {.said = {0}};
    struct diagnostics messages = {0};
    opened.status = cutting_open(&job, &kept->design, kept->envelope, &opened.cutting, &messages);
    diagnostics_write(&messages, &opened.said);
    if (opened.said.bytes == NULL)
        text_add(&opened.said, "%s", "");
    diagnostics_free(&messages);
    return opened;
}

static void opened_free(struct opened *opened) {
    cutting_free(&opened->cutting);
    text_free(&opened->said);
}

static void read_file(const char *path, struct text *into) {
    assert_int_equal(file_read(path, 1 << 20, into), 0);
}

static void a_layout_is_kept_and_given_again_and_replaced_only_when_asked(void **state) {
    (void)state;
    struct kept kept = keep_small();
    const char *design = scratch_file("kept.cfg", "format = 1;\n");
    struct cutting_job job = {.design_path = design, .effort = 1, .keep = true};
    char *path = cutting_path(design);
    struct text first = {0}, second = {0};

    struct opened opened = open_with(&kept, job);
    assert_int_equal(opened.status, 0);
    assert_true(opened.cutting.kept);
    assert_string_equal(opened.said.bytes, "");
    opened_free(&opened);
    read_file(path, &first);

    job.effort = 3; /* said, but the kept one is shown */
    opened = open_with(&kept, job);
    assert_int_equal(opened.status, 0);
    assert_int_equal(opened.cutting.effort, 1);
    assert_non_null(strstr(opened.said.bytes, "made with effort 1"));
    opened_free(&opened);
    read_file(path, &second);
    assert_string_equal(first.bytes, second.bytes);
    text_free(&second);

    job.anew = true;
    opened = open_with(&kept, job);
    assert_int_equal(opened.status, 0);
    assert_int_equal(opened.cutting.effort, 3);
    opened_free(&opened);
    read_file(path, &second);
    assert_null(strstr(second.bytes, "effort 1\n"));
    text_free(&first);
    text_free(&second);
    unlink(path);
    free(path);
    kept_free(&kept);
}

static void a_layout_that_no_longer_holds_stays_on_the_disk(void **state) {
    (void)state;
    struct kept kept = keep_small();
    const char *design = scratch_file("void.cfg", "format = 1;\n");
    struct cutting_job job = {.design_path = design, .effort = 1, .keep = true};
    char *path = cutting_path(design);
    struct text first = {0}, second = {0};
    struct opened opened = open_with(&kept, job);
    opened_free(&opened);
    read_file(path, &first);
    set(&kept.design, "cutting.gap", "12 mm");
    opened = open_with(&kept, job);
    assert_int_equal(opened.status, -1);
    assert_non_null(strstr(opened.said.bytes, "no longer holds"));
    opened_free(&opened);
    read_file(path, &second);
    assert_string_equal(first.bytes, second.bytes);
    text_free(&first);
    text_free(&second);
    unlink(path);
    free(path);
    kept_free(&kept);
}

static void a_file_that_keeps_no_layout_is_never_written_over(void **state) {
    (void)state;
    static const char *const foreign[] = {"a letter to my aunt\n", "",
                                          "gorewright cutting layout 2\nend\n"};
    struct kept kept = keep_small();
    const char *design = scratch_file("aunt.cfg", "format = 1;\n");
    char *path = cutting_path(design);
    for (size_t i = 0; i < COUNT_OF(foreign); i++)
        for (int anew = 0; anew <= 1; anew++) {
            struct text after = {0};
            scratch_file("aunt.cfg.cutting", foreign[i]);
            struct opened opened = open_with(
                &kept, (struct cutting_job){
                           .design_path = design, .effort = 1, .keep = true, .anew = anew == 1});
            assert_int_equal(opened.status, -1);
            assert_int_equal(strncmp(opened.said.bytes, path, strlen(path)), 0);
            opened_free(&opened);
            read_file(path, &after);
            assert_string_equal(after.bytes == NULL ? "" : after.bytes, foreign[i]);
            text_free(&after);
        }
    unlink(path);
    assert_int_equal(mkdir(path, 0700), 0);
    struct opened opened =
        open_with(&kept, (struct cutting_job){.design_path = design, .effort = 1, .keep = true});
    assert_int_equal(opened.status, -1);
    assert_non_null(strstr(opened.said.bytes, "cannot read the layout kept in"));
    opened_free(&opened);
    rmdir(path);
    free(path);
    kept_free(&kept);
}

/* ---- materials
 * ----------------------------------------------------------------------------------------- */

static void materials_are_sold_in_steps_and_cost_what_they_cost(void **state) {
    (void)state;
    struct design design;
    struct cutting cutting = {0};
    set_small(&design);
    set(&design, "colours.cloths", "W white / 0 / 0 / 4, R red");
    set(&design, "buying.tape_price", "0.5");
    set(&design, "buying.tape_step", "10 m");
    set(&design, "buying.reel", "50 m");
    set(&design, "buying.reel_price", "3");
    struct envelope *envelope = built(&design);
    make(&design, envelope, &cutting);
    struct materials m = materials_of(&design, envelope, &cutting);
    struct notions notions = notions_of(&design, envelope);
    assert_int_equal(m.count, 5);
    assert_int_equal(m.priced, 3);
    double tape_m =
        8 * (envelope->built.gore_length_m + 2 * design.tape.turn_back_m) + girth_m(envelope, 0);
    assert_close(m.item[2].needed_m, tape_m, 1e-9, 0);
    assert_close(m.item[2].bought, 10 * ceil(tape_m / 10), 1e-9, 0);
    assert_close(m.item[3].needed_m, 1.15 * notions.thread_m, 1e-9, 0);
    assert_close(m.item[3].bought, ceil(1.15 * notions.thread_m / 50), 0, 0);
    assert_close(m.cost, 4 * m.item[0].bought + 0.5 * m.item[2].bought + 3 * m.item[3].bought, 1e-9,
                 0);
    /* thread and tape weigh what the masses say */
    struct masses masses = masses_of(&design, envelope);
    assert_close(masses.item[1].kg, 8 * notions.tape_each_m * design.tape.mass_kg_m, 1e-12, 0);
    assert_close(masses.item[2].kg, notions.thread_m * design.thread.tex * 1e-6, 1e-12, 0);
    cutting_free(&cutting);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_sample_agrees_on_what_is_cut_from_which_cloth),
        cmocka_unit_test(random_designs_agree_on_what_is_cut_from_which_cloth),
        cmocka_unit_test(every_single_piece_lies_once_and_in_order_along_the_roll),
        cmocka_unit_test(the_grain_and_a_right_way_up_decide_how_pieces_are_turned),
        cmocka_unit_test(the_crown_of_a_piece_points_where_its_turn_takes_it),
        cmocka_unit_test(offcuts_are_used_first_and_are_not_bought),
        cmocka_unit_test(cloth_too_small_for_any_piece_is_named_and_not_used),
        cmocka_unit_test(a_colour_may_come_from_several_bolts_of_limited_length),
        cmocka_unit_test(bolts_that_do_not_take_all_are_refused_with_their_colour),
        cmocka_unit_test(a_kept_layout_reads_back_to_the_same_bytes_and_the_same_page),
        cmocka_unit_test(only_a_change_of_pieces_or_cloth_touches_a_kept_layout),
        cmocka_unit_test(a_file_cut_short_anywhere_is_never_taken_for_whole),
        cmocka_unit_test(a_file_with_bytes_changed_is_refused_or_holds),
        cmocka_unit_test(a_broken_line_is_named_with_its_number),
        cmocka_unit_test(a_layout_is_kept_and_given_again_and_replaced_only_when_asked),
        cmocka_unit_test(a_layout_that_no_longer_holds_stays_on_the_disk),
        cmocka_unit_test(a_file_that_keeps_no_layout_is_never_written_over),
        cmocka_unit_test(materials_are_sold_in_steps_and_cost_what_they_cost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
