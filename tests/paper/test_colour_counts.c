/* Pieces, area and mass by colour are the same wherever they stand: counted here panel by panel,
 * then read on sheets, front page, labels, summary, figures and in the counts of the bench. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"
#include "gorewright/shop.h"
#include "paper/colour_words.h"
#include "paper/sheets.h"

struct tally {
    size_t pieces;
    double area_m2;
};

struct job {
    struct design design;
    struct envelope *envelope;
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths;
    struct tally want[CLOTHS_MOST];
};

/* ---- counted panel by panel ------------------------------------------------------- */

static void count_half(struct job *job, size_t gore, size_t row, enum side side) {
    enum style style = (enum style)job->envelope->gore_style[gore];
    const struct piece *piece = envelope_piece(job->envelope, style, side, row);
    assert_non_null(piece);
    size_t cloth = design_colour_of(&job->design, gore, row, side == SIDE_RIGHT);
    assert_true(cloth < job->cloths);
    job->want[cloth].pieces++;
    job->want[cloth].area_m2 += piece->cut_area_m2;
}

static void count_panels(struct job *job) {
    job->cloths = design_cloths(&job->design, job->cloth);
    memset(job->want, 0, sizeof job->want);
    for (size_t gore = 0; gore < job->envelope->gores; gore++)
        for (size_t row = 1; row <= job->envelope->rows; row++) {
            bool halves = job->envelope->gore_style[gore] == HALF_GORE;
            count_half(job, gore, row, halves ? SIDE_LEFT : SIDE_WHOLE);
            if (halves)
                count_half(job, gore, row, SIDE_RIGHT);
        }
}

/* ---- read where they stand --------------------------------------------------------- */

/* Lines joined, with a single blank where one was broken. */
static char *joined(const char *from, size_t length) {
    char *words = malloc(length + 1);
    size_t used = 0;
    assert_non_null(words);
    for (size_t i = 0; i < length; i++) {
        char c = from[i] == '\n' ? ' ' : from[i];
        if (c != ' ' || (used > 0 && words[used - 1] != ' '))
            words[used++] = c;
    }
    words[used] = '\0';
    return words;
}

/* The sum of what stands behind "R name". */
static size_t pieces_in(const char *words, const struct cloth_colour *cloth) {
    char name[TEXT_MOST + 8];
    size_t sum = 0;
    snprintf(name, sizeof name, "%c %s ", cloth->letter, cloth->name);
    for (const char *at = strstr(words, name); at != NULL; at = strstr(at + 1, name))
        sum += strtoul(at + strlen(name), NULL, 10);
    return sum;
}

static void assert_read(const struct job *job, const char *words, const char *where) {
    for (size_t i = 0; i < job->cloths; i++) {
        size_t read = pieces_in(words, &job->cloth[i]);
        if (read != job->want[i].pieces)
            fail_msg("%s: %zu pieces of %c, not %zu:\n%s", where, read, job->cloth[i].letter,
                     job->want[i].pieces, words);
    }
}

static void check_sheets(const struct job *job) {
    struct text sheets = {0}, pages = {0}, front = {0};
    struct diagnostics messages = {0};
    assert_int_equal(write_sheets(&job->design, job->envelope, NULL, &sheets, &messages), 0);
    for (const char *at = strstr(sheets.bytes, "Colour: "); at != NULL;
         at = strstr(at + 1, "Colour: ")) {
        const char *end = strstr(at, "\n\n");
        text_add_bytes(&pages, at, (size_t)(end - at));
    }
    char *words = joined(pages.bytes, pages.length);
    assert_read(job, words, "sheets");
    free(words);
    sheet_front(&job->design, job->envelope, &front);
    words = joined(front.bytes, front.length);
    assert_read(job, words, "front page");
    free(words);
    text_free(&front);
    text_free(&pages);
    text_free(&sheets);
    diagnostics_free(&messages);
}

static void check_labels(const struct job *job) {
    struct text all = {0};
    for (size_t t = 0; t < job->envelope->templates; t++) {
        char words[COLOUR_WORDS_MOST];
        text_add(&all, "%s; ",
                 colour_words(&job->design, job->envelope, &job->envelope->piece[t], false, words));
        assert_null(strstr(words, "..."));
    }
    assert_read(job, all.bytes, "labels");
    text_free(&all);
}

static void check_summary(const struct job *job) {
    struct text summary = {0};
    write_summary(&job->design, job->envelope, &summary);
    for (size_t i = 0; i < job->cloths; i++) {
        char name[TEXT_MOST + 8];
        size_t pieces = 0;
        double area_m2 = 0, mass_kg = 0;
        snprintf(name, sizeof name, "%c %s: ", job->cloth[i].letter, job->cloth[i].name);
        const char *at = strstr(summary.bytes, name);
        if (at == NULL || sscanf(at + strlen(name), "%zu pieces, %lf m2 cut, %lf kg", &pieces,
                                 &area_m2, &mass_kg) != 3)
            fail_msg("%s is not in the summary:\n%s", name, summary.bytes);
        assert_int_equal(pieces, job->want[i].pieces);
        assert_close(area_m2, job->want[i].area_m2, 0.00501, 1e-9);
        assert_close(mass_kg, job->want[i].area_m2 * job->cloth[i].mass_kg_m2, 0.00501, 1e-9);
    }
    text_free(&summary);
}

static double figure(const char *table, const char *name, char letter) {
    char key[48];
    snprintf(key, sizeof key, "\n%s_%c\t", name, letter);
    const char *line = strstr(table, key);
    if (line == NULL)
        fail_msg("%s is missing in\n%s", key, table);
    return strtod(line + strlen(key), NULL);
}

static void check_figures(const struct job *job) {
    struct text table = {0};
    double sum_kg = 0;
    write_figures(job->envelope, &table);
    write_colour_figures(&job->design, job->envelope, &table);
    for (size_t i = 0; i < job->cloths; i++) {
        const struct tally *want = &job->want[i];
        double mass_kg = figure(table.bytes, "cloth_mass", job->cloth[i].letter);
        assert_close(figure(table.bytes, "pieces", job->cloth[i].letter), (double)want->pieces, 0,
                     0);
        assert_close(figure(table.bytes, "cut_area", job->cloth[i].letter), want->area_m2, 1e-12,
                     1e-12);
        assert_close(mass_kg, want->area_m2 * job->cloth[i].mass_kg_m2, 1e-12, 1e-12);
        sum_kg += mass_kg;
    }
    assert_close(sum_kg, job->envelope->built.cloth_mass_kg, 0, 1e-12);
    text_free(&table);
}

static void check_bench(const struct job *job) {
    for (size_t i = 0; i < job->cloths; i++) {
        struct record_choice choice = {.colour = job->cloth[i].name};
        struct record_count count = record_count(NULL, &job->design, job->envelope, choice);
        assert_int_equal(count.pieces, job->want[i].pieces);
        assert_int_equal(record_left(count, TICK_CUT), job->want[i].pieces);
    }
}

static void check_everywhere(struct job *job) {
    count_panels(job);
    assert_true(job->cloths > 1);
    check_sheets(job);
    check_labels(job);
    check_summary(job);
    check_figures(job);
    check_bench(job);
}

/* ---- designs ---------------------------------------------------------------------- */

static void add_cloths(struct dice *dice, struct design *design) {
    static const char letters[] = "WRBgx7aQ0ZkYpTnU";
    struct cloth_list *cloths = &design->colours.cloths;
    cloths->count = (size_t)dice_whole(dice, 2, CLOTHS_MOST);
    for (size_t i = 0; i < cloths->count; i++) {
        struct cloth_colour *cloth = &cloths->value[i];
        *cloth = (struct cloth_colour){.letter = letters[i]};
        snprintf(cloth->name, sizeof cloth->name,
                 dice_whole(dice, 0, 1) == 0 ? "hue%zu"
                                             : "shade "
                                               "no%zu",
                 i);
        if (dice_whole(dice, 0, 1) == 0)
            cloth->mass_kg_m2 = dice_between(dice, 0.02, 0.08);
    }
}

static void add_scheme(struct dice *dice, const struct design *design, struct line_list *scheme) {
    int gores = design->gores.count;
    scheme->count = dice_whole(dice, 0, 1) == 0 ? 1 : (size_t)design->rows.count;
    for (size_t i = 0; i < scheme->count; i++) {
        int length = dice_whole(dice, 1, gores);
        while (gores % length != 0)
            length--;
        for (int at = 0; at < length; at++) {
            int cloth = dice_whole(dice, 0, (int)design->colours.cloths.count - 1);
            scheme->value[i][at] = design->colours.cloths.value[cloth].letter;
        }
    }
}

static void add_colours(struct dice *dice, struct design *design) {
    add_cloths(dice, design);
    design->colours.fill = dice_whole(dice, FILL_ONE, FILL_SCHEME);
    design->colours.span = dice_whole(dice, 1, 6);
    design->colours.turn = dice_whole(dice, 0, design->gores.count);
    design->colours.mirror = dice_whole(dice, MIRROR_NO, MIRROR_YES);
    if (design->colours.fill != FILL_SCHEME)
        return;
    add_scheme(dice, design, &design->colours.scheme);
    if (dice_whole(dice, 0, 1) == 0)
        add_scheme(dice, design, &design->colours.scheme_right);
}

static struct envelope *build(const struct design *design) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(design, &messages);
    diagnostics_free(&messages);
    return envelope;
}

static void every_count_by_colour_agrees_in_random_designs(void **state) {
    (void)state;
    struct dice dice = {47};
    size_t halves = 0, mixed = 0, schemes = 0;
    for (int i = 0; i < 200; i++) {
        struct job job;
        struct diagnostics messages = {0};
        envelope_free(random_envelope(&dice, &job.design));
        add_colours(&dice, &job.design);
        job.design.cloth.width_m = 5;
        if (design_check(&job.design, NULL, &messages) != 0)
            fail_msg("%s: %s", messages.item[0].key, messages.item[0].text);
        diagnostics_free(&messages);
        job.design.cloth.width_m = 200;
        job.envelope = build(&job.design);
        assert_non_null(job.envelope);
        check_everywhere(&job);
        halves += job.envelope->style_count[HALF_GORE] > 0;
        mixed += job.design.gores.mix.count > 0;
        schemes += job.design.colours.fill == FILL_SCHEME;
        envelope_free(job.envelope);
    }
    assert_true(halves > 30);
    assert_true(mixed > 30);
    assert_true(schemes > 15);
}

/* As it is where it has colours, else with some. */
static void every_count_by_colour_agrees_in_every_sample(void **state) {
    (void)state;
    static const char *const sample[] = {"avocet", "bittern", "curlew",   "dunlin",
                                         "godwit", "lapwing", "redshank", "snipe"};
    struct dice dice = {48};
    size_t coloured = 0;
    for (size_t i = 0; i < COUNT_OF(sample); i++) {
        char path[64];
        struct job job;
        struct design plain;
        struct diagnostics messages = {0};
        snprintf(path, sizeof path, "samples/%s.cfg", sample[i]);
        assert_int_equal(design_read(path, &plain, NULL, &messages), 0);
        coloured += plain.colours.cloths.count > 1;
        if (plain.colours.cloths.count < 2)
            add_colours(&dice, &plain);
        plain.paper.units = UNITS_MM; /* the summary has areas in m2 alone by colour */
        job.envelope = flight_build(&plain, &job.design, &messages);
        if (job.envelope == NULL)
            fail_msg("%s: %s", path, messages.item[0].text);
        check_everywhere(&job);
        envelope_free(job.envelope);
        diagnostics_free(&messages);
    }
    assert_true(coloured >= 4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_count_by_colour_agrees_in_random_designs),
        cmocka_unit_test(every_count_by_colour_agrees_in_every_sample),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
