/* test_writer.c - a design written reads back to the same values, bit for bit. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

#include "design/values.h"

/* ---- random designs ------------------------------------------------------ */

/* Often an end of the range, else anything between, with all its digits. */
static double any_real(struct dice *dice, const struct parameter *p) {
    switch (dice_whole(dice, 0, 9)) {
    case 0:
        return p->least;
    case 1:
        return p->most;
    case 2: /* few digits, as people write */
        return round(dice_between(dice, p->least, p->most) * 1000) / 1000 < p->least
                   ? p->least
                   : fmin(p->most, round(dice_between(dice, p->least, p->most) * 1000) / 1000);
    case 3:
        return fmax(p->least, fmin(p->most, p->least + 1e-17));
    default:
        return dice_between(dice, p->least, p->most);
    }
}

static double in_range(const struct parameter *p, double value) {
    return value < p->least ? p->least : value > p->most ? p->most : value;
}

static void any_text(struct dice *dice, char text[TEXT_MOST]) {
    static const char *const part[] = {
        "a",     "Z",  " x", "\\",       "\"",   "'",   "\xc3\xa9",         "\xe2\x82\xac",
        "#",     "/*", "//", "@include", "\\\"", "\\n", "\xf0\x9f\x8e\x88", "%s",
        "\\x41", ";"};
    memset(text, 0, TEXT_MOST);
    for (int i = dice_whole(dice, 1, 24); i > 0; i--) {
        const char *next = part[dice_whole(dice, 0, (int)COUNT_OF(part) - 1)];
        if (strlen(text) + strlen(next) < TEXT_MOST)
            strcat(text, next);
    }
}

static void any_list(struct dice *dice, const struct parameter *p, struct design *design) {
    size_t count =
        (size_t)dice_whole(dice, 0, 3) == 0 ? 0 : (size_t)dice_whole(dice, 1, (int)list_room(p));
    struct real_list *reals = member_of(design, p);
    struct style_list *styles = member_of(design, p);
    struct point_list *points = member_of(design, p);
    struct item_list *items = member_of(design, p);
    struct cloth_list *cloths = member_of(design, p);
    struct line_list *lines = member_of(design, p);
    struct stock_list *stock = member_of(design, p);
    *(size_t *)member_of(design, p) = count;
    for (size_t i = 0; i < count; i++) {
        if (p->type == PARAMETER_REALS)
            reals->value[i] = in_range(p, any_real(dice, p));
        else if (p->type == PARAMETER_STYLES)
            styles->value[i] = dice_whole(dice, 0, (int)p->most);
        else if (p->type == PARAMETER_CLOTHS) {
            struct cloth_colour *cloth = &cloths->value[i];
            any_text(dice, cloth->name);
            cloth->letter = (char)('A' + (int)i);
            cloth->width_m = dice_whole(dice, 0, 1) == 0 ? 0 : dice_between(dice, 0.3, 5);
            cloth->mass_kg_m2 = dice_whole(dice, 0, 1) == 0 ? 0 : dice_between(dice, 0.005, 0.5);
            cloth->price_m = dice_whole(dice, 0, 1) == 0 ? 0 : dice_whole(dice, 1, 10000);
        } else if (p->type == PARAMETER_STOCK) {
            bool wide = dice_whole(dice, 0, 1) == 1;
            stock->value[i] = (struct stock){'A', dice_between(dice, p->least, p->most),
                                             wide ? dice_between(dice, 0.3, 5) : 0};
        } else if (p->type == PARAMETER_LINES)
            memset(lines->value[i], 'A', (size_t)dice_whole(dice, 1, GORES_MOST));
        else if (p->type == PARAMETER_ITEMS) {
            any_text(dice, items->value[i].name);

            items->value[i].mass_kg = in_range(p, any_real(dice, p));
        } else {
            points->value[i].r_m = dice_between(dice, 0.001, p->most);
            points->value[i].z_m = in_range(p, any_real(dice, p));
        }
    }
}

static void any_value(struct dice *dice, const struct parameter *p, struct design *design) {
    switch (p->type) {
    case PARAMETER_WHOLE:
    case PARAMETER_CHOICE:
        *(int *)member_of(design, p) = dice_whole(dice, (int)p->least, (int)p->most);
        break;
    case PARAMETER_REAL:
        *(double *)member_of(design, p) = in_range(p, any_real(dice, p));
        break;
    case PARAMETER_TEXT:
        any_text(dice, member_of(design, p));
        break;
    default:
        any_list(dice, p, design);
        break;
    }
}

/* A scheme of letters that are there, as long as there are rows and gores. */
static void reconcile_colours(struct design *d) {
    struct line_list *const scheme[] = {&d->colours.scheme, &d->colours.scheme_right};
    for (size_t i = 0; i < d->colours.cloths.count; i++) {
        for (size_t j = 0; j < i; j++)
            if (strcmp(d->colours.cloths.value[i].name, d->colours.cloths.value[j].name) == 0)
                snprintf(d->colours.cloths.value[i].name, TEXT_MOST, "cloth %zu", i);
    }
    if (d->colours.fill == FILL_SCHEME && d->colours.scheme.count == 0)
        d->colours.scheme.count = 1;
    for (size_t s = 0; s < COUNT_OF(scheme); s++) {
        struct cloth_colour cloth[CLOTHS_MOST];
        design_cloths(d, cloth);
        if (scheme[s]->count > 0)
            scheme[s]->count = scheme[s]->count % 2 == 0 ? (size_t)d->rows.count : 1;
        for (size_t i = 0; i < scheme[s]->count; i++) {
            memset(scheme[s]->value[i], 0, sizeof scheme[s]->value[i]);
            memset(scheme[s]->value[i], cloth[0].letter, i % 2 == 0 ? 1 : (size_t)d->gores.count);
        }
    }
}

/* Make the counts agree where design_check asks for it. */
static void reconcile(struct dice *dice, struct design *d) {
    if (d->size.by == SIZE_LOAD) {
        d->rig.burner_kg = fmax(d->rig.burner_kg, 0.1);
        d->air.inside_C = fmax(d->air.inside_C, 61);
    }
    if (d->size.by == SIZE_TABLE)
        d->outline.kind = OUTLINE_TABLE;
    if (d->outline.kind == OUTLINE_TABLE && d->outline.table.count < 2) {
        d->outline.table.count = 2;
        d->outline.table.value[0].r_m = 0.3;
        d->outline.table.value[0].z_m = 0.0;
        d->outline.table.value[1].r_m = 1.0 / 3.0;
        d->outline.table.value[1].z_m = 2.0;
    }
    size_t rows = (size_t)d->rows.count;
    for (size_t i = d->rows.shares.count; i < rows; i++)
        d->rows.shares.value[i] = dice_between(dice, 0.5, 2);
    if (d->rows.spacing == ROWS_GIVEN || d->rows.shares.count > 0)
        d->rows.shares.count = rows;
    for (size_t i = d->bulge.stations.count; i < rows + 1; i++)
        d->bulge.stations.value[i] = dice_between(dice, 0, 0.5);
    if (d->bulge.stations.count > 0)
        d->bulge.stations.count = rows + 1;
    while (d->gores.mix.count > 0 && (size_t)d->gores.count % d->gores.mix.count != 0)
        d->gores.mix.count--;
    d->cloth.selvedge_m = fmin(d->cloth.selvedge_m, d->cloth.width_m / 3);
    reconcile_colours(d);
    struct stock_list *const stock[] = {&d->cutting.offcuts, &d->cutting.bolts};
    struct cloth_colour cloth[CLOTHS_MOST];
    design_cloths(d, cloth);
    for (size_t s = 0; s < COUNT_OF(stock); s++)
        for (size_t i = 0; i < stock[s]->count; i++)
            stock[s]->value[i].letter = cloth[0].letter;
}

/* Each parameter is changed with the given chance, in percent. */
static struct design any_design(struct dice *dice, int chance) {
    struct design design;
    size_t count;
    const struct parameter *p = parameters(&count);
    design_starter(&design);
    for (size_t i = 0; i < count; i++)
        if (dice_whole(dice, 1, 100) <= chance)
            any_value(dice, &p[i], &design);
    reconcile(dice, &design);
    return design;
}

/* ---- comparing ----------------------------------------------------------- */

static bool same_items(const struct item_list *one, const struct item_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = strcmp(one->value[i].name, other->value[i].name) == 0 &&
               memcmp(&one->value[i].mass_kg, &other->value[i].mass_kg, sizeof(double)) == 0;
    return same;
}

static bool same_cloths(const struct cloth_list *one, const struct cloth_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = one->value[i].letter == other->value[i].letter &&
               strcmp(one->value[i].name, other->value[i].name) == 0 &&
               memcmp(&one->value[i].width_m, &other->value[i].width_m, 3 * sizeof(double)) == 0;
    return same;
}

static bool same_lines(const struct line_list *one, const struct line_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = strcmp(one->value[i], other->value[i]) == 0;
    return same;
}

static bool same_stock(const struct stock_list *one, const struct stock_list *other) {
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = one->value[i].letter == other->value[i].letter &&
               memcmp(&one->value[i].length_m, &other->value[i].length_m, 2 * sizeof(double)) == 0;
    return same;
}

static bool same_value(const struct design *one, const struct design *other,
                       const struct parameter *p) {
    const void *a = value_of(one, p), *b = value_of(other, p);
    size_t count = list_room(p) > 0 ? *(const size_t *)a : 0;
    switch (p->type) {
    case PARAMETER_WHOLE:
    case PARAMETER_CHOICE:
        return memcmp(a, b, sizeof(int)) == 0;
    case PARAMETER_REAL:
        return memcmp(a, b, sizeof(double)) == 0;
    case PARAMETER_TEXT:
        return strcmp(a, b) == 0;
    case PARAMETER_REALS:
        return memcmp(a, b, offsetof(struct real_list, value) + count * sizeof(double)) == 0;
    case PARAMETER_STYLES:
        return *(const size_t *)b == count &&
               memcmp(((const struct style_list *)a)->value, ((const struct style_list *)b)->value,
                      count * sizeof(int)) == 0;
    case PARAMETER_POINTS:
        return memcmp(a, b, offsetof(struct point_list, value) + count * 2 * sizeof(double)) == 0;
    case PARAMETER_ITEMS:
        return same_items(a, b);
    case PARAMETER_CLOTHS:
        return same_cloths(a, b);
    case PARAMETER_LINES:
        return same_lines(a, b);
    case PARAMETER_STOCK:
        return same_stock(a, b);
    }
    return false;
}

static void assert_same(const struct design *one, const struct design *other,
                        const struct text *file) {
    size_t count;
    const struct parameter *p = parameters(&count);
    for (size_t i = 0; i < count; i++)
        if (!same_value(one, other, &p[i]))
            fail_msg("%s does not read back from\n%s", p[i].key, file->bytes);
}

static void assert_reads_back(const struct design *design, enum design_writing how) {
    struct text file = {0}, said = {0};
    struct design again;
    struct diagnostics messages = {0};
    design_write(design, how, &file);
    assert_false(file.failed);
    if (design_read_text(file.bytes, file.length, "f", &again, NULL, &messages) != 0) {
        diagnostics_write(&messages, &said);
        fail_msg("%s\nfrom\n%s", said.bytes, file.bytes);
    }
    assert_same(design, &again, &file);
    diagnostics_free(&messages);
    text_free(&file);
}

/* ---- tests --------------------------------------------------------------- */

static void random_designs_read_back_bit_for_bit(void **state) {
    (void)state;
    struct dice dice = {1};
    size_t count;
    const struct parameter *p = parameters(&count);
    size_t changed[PARAMETERS_MOST] = {0};
    struct design starter;
    design_starter(&starter);
    for (int i = 0; i < 600; i++) {
        struct design design = any_design(&dice, i % 3 == 0 ? 100 : 30);
        assert_reads_back(&design, WRITE_CHANGES);
        assert_reads_back(&design, WRITE_COMMENTED);
        for (size_t j = 0; j < count; j++)
            changed[j] += !same_value(&design, &starter, &p[j]);
    }
    for (size_t j = 1; j < count; j++) /* all but format have been other than the starter's */
        if (changed[j] < 20)
            fail_msg("%s was tried %zu times only", p[j].key, changed[j]);
}

static void numbers_at_the_edge_read_back(void **state) {
    (void)state;
    static const double edge[] = {0.1,    1.0 / 3.0, 5e-324, -0.0,
                                  1e-300, 0.2 + 0.1, 0.5,    0.49999999999999994};
    for (size_t i = 0; i < COUNT_OF(edge); i++) {
        struct design design;
        design_starter(&design);
        design.bulge.depth = edge[i];
        assert_reads_back(&design, WRITE_CHANGES);
        assert_reads_back(&design, WRITE_COMMENTED);
    }
}

static char *written(const struct design *design, enum design_writing how, struct text *file) {
    text_free(file);
    design_write(design, how, file);
    return file->bytes;
}

static void the_starter_is_written_short(void **state) {
    (void)state;
    struct design design;
    struct text file = {0};
    design_starter(&design);
    assert_string_equal(written(&design, WRITE_CHANGES, &file), "format = 1;\n"
                                                                "name = \"Starter\";\n"
                                                                "\n"
                                                                "size: {\n"
                                                                "    by = \"volume\";\n"
                                                                "    volume = 12.0;\n"
                                                                "};\n");
    text_free(&file);
}

static void changes_are_written_in_the_order_of_the_table(void **state) {
    (void)state;
    struct design d;
    struct text file = {0};
    design_starter(&d);
    strcpy(d.name, "A \"B\" \\");
    d.size.by = SIZE_HEIGHT;
    d.gores.count = 12;
    d.gores.mix = (struct style_list){2, {HALF_GORE, BILLOWED}};
    d.rows.count = 3;
    d.rows.shares = (struct real_list){3, {1, 1.25, 1e-3}};
    assert_string_equal(written(&d, WRITE_CHANGES, &file),
                        "format = 1;\n"
                        "name = \"A \\\"B\\\" \\\\\";\n"
                        "\n"
                        "size: {\n"
                        "    by = \"height\";\n"
                        "    height = 3.0;\n"
                        "};\n"
                        "\n"
                        "gores: {\n"
                        "    count = 12;\n"
                        "    mix = (\"half-gore\", \"billowed\");\n"
                        "};\n"
                        "\n"
                        "rows: {\n"
                        "    count = 3;\n"
                        "    shares = (1.0, 1.25, 0.001);\n"
                        "};\n");
    text_free(&file);
}

static void a_commented_file_has_every_key_and_every_help(void **state) {
    (void)state;
    struct design design;
    struct text file = {0}, flat = {0};
    size_t count;
    const struct parameter *p = parameters(&count);
    design_starter(&design);
    written(&design, WRITE_COMMENTED, &file);
    for (const char *at = file.bytes; *at != '\0';) { /* comments unwrapped */
        size_t gap = strspn(at, "\n #");
        text_add_bytes(&flat, gap > 0 ? " " : at, 1);
        at += gap > 0 ? gap : 1;
    }
    for (size_t i = 0; i < count; i++) {
        char setting[64], range[WORDS_MOST];
        const char *dot = strchr(p[i].key, '.');
        snprintf(setting, sizeof setting, " %s = ", dot == NULL ? p[i].key : dot + 1);
        const char *help = strstr(flat.bytes, p[i].help);
        if (help == NULL || strstr(help, setting) == NULL)
            fail_msg("%s is not there with its help", p[i].key);
        const char *allowed = p[i].choices != NULL          ? choice_words(&p[i], range)
                              : p[i].type == PARAMETER_TEXT ? "Up to 63 bytes"
                              : p[i].type == PARAMETER_CLOTHS
                                  ? "Up to 16, a letter or digit and a name"
                              : p[i].type == PARAMETER_LINES ? "Letters of colours.cloths"
                                                             : range_words(&p[i], range);
        const char *found = strstr(help, allowed);
        if (found == NULL || found > strstr(help, setting))
            fail_msg("%s does not say \"%s\"", p[i].key, allowed);
    }
    text_free(&flat);
    text_free(&file);
}

static void no_line_is_wider_than_79_columns_or_ends_in_a_blank(void **state) {
    (void)state;
    struct dice dice = {2};
    for (int i = 0; i < 50; i++) {
        struct design design = any_design(&dice, 60);
        strcpy(design.name, "ASCII only: bytes are columns here");
        strcpy(design.cloth.colour, "white");
        strcpy(design.paper.sheet, "A3");
        for (size_t j = 0; j < design.rig.others.count; j++)
            strcpy(design.rig.others.value[j].name, "a bag with \"tools\"");
        for (size_t j = 0; j < design.colours.cloths.count; j++)
            strcpy(design.colours.cloths.value[j].name, "red");
        struct text file = {0};
        char *line = written(&design, i % 2 == 0 ? WRITE_COMMENTED : WRITE_CHANGES, &file);
        for (; *line != '\0'; line += strcspn(line, "\n") + 1) {
            size_t width = strcspn(line, "\n");
            assert_int_equal(line[width], '\n');
            if (width > 79 || (width > 0 && line[width - 1] == ' '))
                fail_msg("%.*s", (int)width, line);
        }
        text_free(&file);
    }
}

/* A builder takes the # away before an example: it must be right for this design. */
static void the_examples_of_empty_lists_can_be_used(void **state) {
    (void)state;
    static const struct {
        const char *start, *key;
    } lists[] = {
        {"    # table = ", "outline.table"},   {"    # mix = ", "gores.mix"},
        {"    # shares = ", "rows.shares"},    {"    # stations = ", "bulge.stations"},
        {"    # others = ", "rig.others"},     {"    # cloths = ", "colours.cloths"},
        {"    # scheme = ", "colours.scheme"}, {"    # scheme_right = ", "colours.scheme_right"}};
    static const int gores[] = {16, 15, 7}, rows[] = {8, 1, 60};
    for (size_t i = 0; i < COUNT_OF(lists) * COUNT_OF(rows); i++) {
        struct design design, again;
        struct text file = {0};
        struct diagnostics messages = {0};
        size_t list = i % COUNT_OF(lists), size = i / COUNT_OF(lists);
        design_starter(&design);
        design.gores.count = gores[size];
        design.rows.count = rows[size];
        char *at = strstr(written(&design, WRITE_COMMENTED, &file), lists[list].start);
        assert_non_null(at);
        for (bool more = true; more; at = strchr(at, '\n') + 1) { /* to the line with the ; */
            at[strspn(at, " ")] = ' ';
            more = strcspn(at, ";") > strcspn(at, "\n");
        }
        assert_int_equal(design_read_text(file.bytes, file.length, "f", &again, NULL, &messages),
                         0);
        size_t count;
        const struct parameter *p = &parameters(&count)[parameter_find(lists[list].key)];
        assert_true(*(const size_t *)value_of(&again, p) > 0);
        diagnostics_free(&messages);
        text_free(&file);
    }
}

static void a_commented_file_brings_no_warning(void **state) {
    (void)state;
    struct design design, again;
    struct text file = {0};
    struct diagnostics messages = {0};
    design_starter(&design);
    for (int by = SIZE_VOLUME; by <= SIZE_LOAD; by++) {
        if (by == SIZE_TABLE)
            continue; /* it needs one */
        design.size.by = by;
        written(&design, WRITE_COMMENTED, &file);
        design_read_text(file.bytes, file.length, "f", &again, NULL, &messages);
        assert_int_equal(messages.count, 0);
    }
    text_free(&file);
}

static void the_same_design_gives_the_same_bytes(void **state) {
    (void)state;
    struct dice dice = {3};
    struct design design = any_design(&dice, 100);
    struct text one = {0}, other = {0};
    assert_string_equal(written(&design, WRITE_COMMENTED, &one),
                        written(&design, WRITE_COMMENTED, &other));
    text_free(&one);
    text_free(&other);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_designs_read_back_bit_for_bit),
        cmocka_unit_test(numbers_at_the_edge_read_back),
        cmocka_unit_test(the_starter_is_written_short),
        cmocka_unit_test(changes_are_written_in_the_order_of_the_table),
        cmocka_unit_test(a_commented_file_has_every_key_and_every_help),
        cmocka_unit_test(no_line_is_wider_than_79_columns_or_ends_in_a_blank),
        cmocka_unit_test(the_examples_of_empty_lists_can_be_used),
        cmocka_unit_test(a_commented_file_brings_no_warning),
        cmocka_unit_test(the_same_design_gives_the_same_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
