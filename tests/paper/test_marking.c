/* test_marking.c - the steps to mark a piece: all that its sheet says, and nothing else. */
#include "support.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/paper.h"

/* ---- the numbers in a text ------------------------------------------------------- */

enum { NUMBERS_MOST = 1024 };
struct numbers {
    char text[NUMBERS_MOST][16];
    size_t count;
};

static bool holds(const struct numbers *numbers, const char *text) {
    for (size_t i = 0; i < numbers->count; i++)
        if (strcmp(numbers->text[i], text) == 0)
            return true;
    return false;
}

static void keep(struct numbers *numbers, const char *text, size_t length) {
    assert_true(numbers->count < NUMBERS_MOST && length < 16);
    char *copy = numbers->text[numbers->count];
    memcpy(copy, text, length);
    copy[length] = '\0';
    if (strcspn(copy, "123456789") < length) /* what is nothing is not measured */
        numbers->count++;
}

/* A whole number, a blank and a fraction are one length in inches. */
static size_t number_length(const char *c) {
    size_t sign = *c == '-', digits = strspn(c + sign, "0123456789");
    if (digits == 0)
        return 0;
    size_t length = sign + digits;
    if ((c[length] == '.' || c[length] == '/') && isdigit((unsigned char)c[length + 1]))
        return length + 1 + strspn(c + length + 1, "0123456789");
    size_t rest = c[length] == ' ' ? strspn(c + length + 1, "0123456789") : 0;
    if (rest > 0 && c[length + 1 + rest] == '/')
        return length + 2 + rest + strspn(c + length + 2 + rest, "0123456789");
    return length;
}

static void keep_all(struct numbers *numbers, const char *text) {
    for (const char *c = text; *c != '\0';) {
        bool begins = c == text || strchr(" \n(", c[-1]) != NULL;
        size_t length = begins ? number_length(c) : 0;
        if (length > 0)
            keep(numbers, c, length);
        c += length > 0 ? length : 1;
    }
}

static struct numbers numbers_of_sheet(const struct design *design, const struct envelope *envelope,
                                       const char *piece) {
    static struct numbers numbers;
    struct diagnostics messages = {0};
    struct text text = {0};
    numbers.count = 0;
    assert_int_equal(write_sheets(design, envelope, piece, &text, &messages), 0);
    char *line = strstr(text.bytes, "\n1 CORNERS");
    assert_non_null(line);
    for (line = strtok(line, "\n"); line != NULL; line = strtok(NULL, "\n"))
        keep_all(&numbers, isdigit((unsigned char)*line) ? line + 1 : line);
    text_free(&text);
    return numbers;
}

static struct numbers numbers_of_steps(const struct design *design, const struct marking *marking,
                                       bool with_words) {
    static struct numbers numbers;
    numbers.count = 0;
    for (size_t i = 0; i < marking->count; i++) {
        char length[32];
        keep_all(&numbers, format_length(design, marking->step[i].value_m, length));
        if (with_words)
            keep_all(&numbers, marking->step[i].words);
    }
    return numbers;
}

/* ---- on any design ------------------------------------------------------------------ */

static void check_piece(const struct design *design, const struct envelope *envelope,
                        const struct piece *piece) {
    static struct marking marking;
    marking_steps(design, envelope, piece, &marking);
    struct numbers sheet = numbers_of_sheet(design, envelope, piece->name);
    struct numbers all = numbers_of_steps(design, &marking, true);
    struct numbers shown = numbers_of_steps(design, &marking, false);
    assert_true(sheet.count > 25 && shown.count > 10);
    for (size_t i = 0; i < sheet.count; i++)
        if (!holds(&all, sheet.text[i]))
            fail_msg("%s: %s stands on the sheet and in no step", piece->name, sheet.text[i]);
    for (size_t i = 0; i < shown.count; i++)
        if (!holds(&sheet, shown.text[i]))
            fail_msg("%s: %s is a step and not on the sheet", piece->name, shown.text[i]);
}

static void every_number_of_a_sheet_is_in_the_steps_and_no_other(void **state) {
    (void)state;
    struct dice dice = {2024};
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        design.paper.inch_fraction = dice_whole(&dice, INCH_16, INCH_64);
        for (size_t t = 0; t < envelope->templates; t += 1 + envelope->templates / 6)
            check_piece(&design, envelope, &envelope->piece[t]);
        envelope_free(envelope);
    }
}

static void every_step_has_a_name_of_its_own_and_a_whole_sentence(void **state) {
    (void)state;
    struct dice dice = {2025};
    static struct marking marking;
    size_t most = 0;
    for (int i = 0; i < 60; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        design.paper.units = dice_whole(&dice, UNITS_MM, UNITS_INCH);
        for (size_t t = 0; t < envelope->templates; t++) {
            marking_steps(&design, envelope, &envelope->piece[t], &marking);
            most = marking.count > most ? marking.count : most;
            for (size_t s = 0; s < marking.count; s++) {
                const struct marking_step *step = &marking.step[s];
                size_t length = strlen(step->words);
                assert_true(length > 20 && length < sizeof step->words - 1);
                assert_int_equal(step->words[length - 1], '.');
                assert_true(strlen(step->name) < sizeof step->name - 1);
                assert_in_range(step->line, 0, MARKING_FALLING);
                assert_true(s == 0 || step->part >= marking.step[s - 1].part);
                for (size_t other = 0; other < s; other++)
                    assert_string_not_equal(step->name, marking.step[other].name);
            }
        }
        envelope_free(envelope);
    }
    assert_true(most < MARKING_MOST);
}

/* Laying the corners out from the steps alone gives the piece. */
static void corners_set_out_by_the_steps_are_those_of_the_piece(void **state) {
    (void)state;
    struct dice dice = {5};
    static struct marking marking;
    for (int i = 0; i < 40; i++) {
        struct design design;
        struct envelope *envelope = random_envelope(&dice, &design);
        const struct piece *piece = &envelope->piece[envelope->templates / 2];
        struct flat_point corner[EDGE_COUNT] = {{0, 0}};
        marking_steps(&design, envelope, piece, &marking);
        for (size_t s = 0; s < marking.count && marking.step[s].part == MARKING_CORNERS; s++) {
            const struct marking_step *step = &marking.step[s];
            struct flat_point *at = &corner[step->name[0] - 'A'];
            if (strstr(step->name, ", up") != NULL)
                at->y_m = step->value_m;
            else
                at->x_m = step->value_m;
            assert_true((strstr(step->words, "to the left") != NULL) <= (step->value_m < 0));
            assert_true((strstr(step->words, "square down") != NULL) ==
                        (strstr(step->name, ", up") && step->value_m < 0));
        }
        for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
            assert_close(corner[e].x_m, piece_corner(piece, e).x_m, length_step_m(&design), 0);
            assert_close(corner[e].y_m, piece_corner(piece, e).y_m, length_step_m(&design), 0);
        }
        envelope_free(envelope);
    }
}

static void the_line_of_a_check_is_the_one_it_measures(void **state) {
    (void)state;
    struct design design;
    struct diagnostics messages = {0};
    static struct marking marking;
    design_starter(&design);
    struct envelope *envelope = envelope_build(&design, &messages);
    assert_non_null(envelope);
    const struct piece *piece = &envelope->piece[2];
    marking_steps(&design, envelope, piece, &marking);
    size_t checks = 0;
    for (size_t s = 0; s < marking.count; s++) {
        const struct marking_step *step = &marking.step[s];
        if (step->part != MARKING_CHECK)
            continue;
        struct flat_point a = piece_corner(piece, (enum edge)(step->name[0] - 'A'));
        struct flat_point b = piece_corner(piece, (enum edge)(step->name[2] - 'A'));
        static const char *const corners[] = {"A-B", "B-C", "D-C", "A-D", "A-C", "B-D"};
        assert_string_equal(step->name, corners[step->line]);
        double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m;
        assert_close(step->value_m * step->value_m, dx * dx + dy * dy, 1e-9, 0);
        checks++;
    }
    assert_int_equal(checks, 5);
    envelope_free(envelope);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_number_of_a_sheet_is_in_the_steps_and_no_other),
        cmocka_unit_test(every_step_has_a_name_of_its_own_and_a_whole_sentence),
        cmocka_unit_test(corners_set_out_by_the_steps_are_those_of_the_piece),
        cmocka_unit_test(the_line_of_a_check_is_the_one_it_measures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
