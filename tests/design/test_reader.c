/* test_reader.c - from a design file to a design; what files can be that are none. */
#include "support.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "gorewright/design.h"

/* A reading of text in memory, to be freed. */
struct reading {
    int result;
    struct design design;
    struct design_source source;
    struct diagnostics messages;
    struct text written; /* the messages */
};

static struct reading read_bytes(const char *bytes, size_t length) {
    struct reading r = {0};
    r.result = design_read_text(bytes, length, "t.cfg", &r.design, &r.source, &r.messages);
    text_add(&r.written, "%s", "");
    diagnostics_write(&r.messages, &r.written);
    return r;
}

static struct reading read_string(const char *text) {
    return read_bytes(text, strlen(text));
}

static void forget(struct reading *r) {
    design_source_free(&r->source);
    diagnostics_free(&r->messages);
    text_free(&r->written);
}

/* Reads without a single message. */
static struct design accepted(const char *text) {
    struct reading r = read_string(text);
    assert_string_equal(r.written.bytes, "");
    assert_int_equal(r.result, 0);
    forget(&r);
    return r.design;
}

/* Reads with exactly these messages. */
static void assert_messages(const char *text, const char *messages) {
    struct reading r = read_string(text);
    assert_string_equal(r.written.bytes, messages);
    assert_int_equal(r.result, r.messages.errors == 0 ? 0 : -1);
    forget(&r);
}

/* Refused, with a first error of this code. */
static void assert_refused(const char *text, const char *code) {
    struct reading r = read_string(text);
    assert_int_equal(r.result, -1);
    assert_true(r.messages.count > 0);
    assert_string_equal(r.messages.item[0].code, code);
    forget(&r);
}

/* ---- values -------------------------------------------------------------- */

static void what_is_not_stated_is_the_starters(void **state) {
    (void)state;
    struct design starter, design = accepted("format = 1;");
    design_starter(&starter);
    assert_memory_equal(&design, &starter, sizeof design);
}

static void every_kind_of_value_is_taken(void **state) {
    (void)state;
    struct design d = accepted("format = 1;\n"
                               "name = \"Caf\xc3\xa9 \\\"Nine\\\" \\\\\";\n"
                               "size: { height = 3; };\n"
                               "outline: { mouth_diameter = 5e-1; crown_diameter = .4; };\n"
                               "gores: { count = 12; mix = (\"faceted\", \"billowed\"); };\n"
                               "rows: { count = 3; spacing = \"given\"; shares = (1, 1.25, 1); };\n"
                               "bulge: { stations = [0.0, 0.1, 0.15, 0.0]; };\n"
                               "cloth: { warp = \"up\" };\n");
    assert_string_equal(d.name, "Caf\xc3\xa9 \"Nine\" \\");
    assert_close(d.size.height_m, 3, 0, 0);
    assert_close(d.outline.mouth_diameter_m, 0.5, 0, 0);
    assert_close(d.outline.crown_diameter_m, 0.4, 0, 0);
    assert_int_equal(d.gores.count, 12);
    assert_int_equal(d.gores.mix.count, 2);
    assert_int_equal(d.gores.mix.value[1], BILLOWED);
    assert_int_equal(d.rows.shares.count, 3);
    assert_close(d.rows.shares.value[1], 1.25, 0, 0);
    assert_int_equal(d.bulge.stations.count, 4);
    assert_close(d.bulge.stations.value[2], 0.15, 0, 0);
    assert_int_equal(d.cloth.warp, WARP_UP);
}

static void points_may_be_lists_or_arrays(void **state) {
    (void)state;
    struct design d =
        accepted("format = 1; outline: { kind = \"table\"; table = ((0.3, 0), [1.2, 1.5],\n"
                 "(0.25, 2.75)); };");
    assert_int_equal(d.outline.table.count, 3);
    assert_close(d.outline.table.value[1].r_m, 1.2, 0, 0);
    assert_close(d.outline.table.value[1].z_m, 1.5, 0, 0);
    assert_close(d.outline.table.value[2].r_m, 0.25, 0, 0);
}

static void things_carried_are_taken_with_their_masses(void **state) {
    (void)state;
    struct design d =
        accepted("format = 1;\n"
                 "rig: { others = ((\"camera \\\"B\\\"\", 0.12), (\"flag\", 1)); };\n");
    assert_int_equal(d.rig.others.count, 2);
    assert_string_equal(d.rig.others.value[0].name, "camera \"B\"");
    assert_close(d.rig.others.value[0].mass_kg, 0.12, 0, 0);
    assert_string_equal(d.rig.others.value[1].name, "flag");
    assert_close(d.rig.others.value[1].mass_kg, 1, 0, 0);
    assert_int_equal(accepted("format = 1; rig: { others = (); };").rig.others.count, 0);
}

static void a_load_fixes_the_size_when_asked(void **state) {
    (void)state;
    struct design d = accepted("format = 1; size: { by = \"load\"; };");
    assert_int_equal(d.size.by, SIZE_LOAD);
    /* One thing is enough, and so is one degree. */
    accepted("format = 1; size: { by = \"load\"; }; air: { ground = 20; inside = 21; };\n"
             "rig: { burner = 0; cylinder = 0; fuel = 0; basket = 0; radio = 0;\n"
             "       others = ((\"candle\", 0.01)); };");
    /* Silent while a mass is wrong by itself. */
    assert_messages("format = 1; size: { by = \"load\"; };\n"
                    "rig: { burner = -1; cylinder = 0; fuel = 0; basket = 0; radio = 0; };\n",
                    "t.cfg:2: error: rig.burner: -1 kg is out of range; give 0 to 200 kg\n");
}

static void the_ends_of_a_range_belong_to_it(void **state) {
    (void)state;
    assert_close(accepted("format=1; size: { volume = 15000; };").size.volume_m3, 15000, 0, 0);
    assert_close(accepted("format=1; size: { volume = 0.001; };").size.volume_m3, 0.001, 0, 0);
    assert_int_equal(accepted("format=1; gores: { count = 64; };").gores.count, 64);
    assert_int_equal(accepted("format=1; gores: { count = 3; };").gores.count, 3);
    assert_refused("format=1; size: { volume = 15000.000001; };", "range");
    assert_refused("format=1; size: { volume = 0.00099999; };", "range");
    assert_refused("format=1; gores: { count = 2; };", "range");
}

static void a_whole_number_that_would_wrap_into_the_range_is_refused(void **state) {
    (void)state;
    /* 2^32 + 16 wraps to 16 in a reader that does not look. */
    assert_refused("format=1; gores: { count = 4294967312; };", "range");
    assert_refused("format=1; gores: { count = -4294967280; };", "range");
    assert_refused("format=1; gores: { count = 0x100000010; };", "range");
    assert_refused("format=1; rows: { shares = (1, 4294967297, 1); };", "range");
    assert_int_equal(accepted("format=1; gores: { count = 0x10; };").gores.count, 16);
    assert_int_equal(accepted("format=1; gores: { count = 0x10L; };").gores.count, 16);
    assert_int_equal(accepted("format=1; gores: { count = 16L; };").gores.count, 16);
    assert_int_equal(accepted("format=1; gores: { count = 0000000000016; };").gores.count, 16);
}

static void a_text_of_63_bytes_fits_and_one_of_64_does_not(void **state) {
    (void)state;
    char text[200], name[65];
    memset(name, 'n', 64);
    name[63] = '\0';
    snprintf(text, sizeof text, "format = 1; name = \"%s\";", name);
    struct design d = accepted(text);
    assert_string_equal(d.name, name);
    name[63] = 'n';
    name[64] = '\0';
    snprintf(text, sizeof text, "format = 1; name = \"%s\";", name);
    assert_messages(text, "t.cfg:1: error: name: this text has 64 bytes; at most 63 can be "
                          "printed, so shorten it (a letter with an accent counts as two or "
                          "more)\n");
}

static void only_text_that_prints_is_taken(void **state) {
    (void)state;
    static const char *const good[] = {
        "A", "\xc2\xa1", "\xdf\xbf", "\xe2\x82\xac", "\xf0\x9f\x8e\x88", "a b"};
    static const char *const bad[] = {"\x01",
                                      "\x7f",
                                      "\xc2\x80",
                                      "\xc2\x9f",
                                      "\x80",
                                      "\xc3",
                                      "\xc0\x80",
                                      "\xe0\x80\x80",
                                      "\xf0\x80\x80\x80",
                                      "\xed\xbf\xbf",
                                      "\xf4\x90\x80\x80",
                                      "\xf8\x88\x80\x80\x80",
                                      "\xff",
                                      "\xe2\x80\xaa",
                                      "\xe2\x80\xae",
                                      "\xe2\x81\xa6",
                                      "\xe2\x81\xa9",
                                      "\xe2\x80\x8e",
                                      "\xe2\x80\xa8",
                                      "\xef\xbb\xbf",
                                      "\xef\xbf\xbf",
                                      " "};
    char text[100];
    for (size_t i = 0; i < COUNT_OF(good); i++) {
        snprintf(text, sizeof text, "format = 1; name = \"%s\";", good[i]);
        assert_string_equal(accepted(text).name, good[i]);
    }
    for (size_t i = 0; i < COUNT_OF(bad); i++) {
        snprintf(text, sizeof text, "format = 1; name = \"%s\";", bad[i]);
        assert_refused(text, "text");
    }
}

static void messages_show_no_raw_bytes_of_a_bad_text(void **state) {
    (void)state;
    struct reading r = read_string("format = 1; gores: { style = \"\x1b[31m\xe2\x80\xae\xff"
                                   "faceted faceted faceted faceted faceted faceted\"; };");
    assert_int_equal(r.result, -1);
    for (const char *at = r.written.bytes; *at != '\0'; at++)
        assert_true((*at >= ' ' && *at <= '~') || *at == '\n');
    assert_non_null(strstr(r.written.bytes, "\"?[31m??faceted"));
    forget(&r);
}

/* ---- the size ------------------------------------------------------------ */

static void a_size_stated_alone_governs(void **state) {
    (void)state;
    static const struct {
        const char *name;
        int by;
    } sizes[] = {{"volume", SIZE_VOLUME},
                 {"height", SIZE_HEIGHT},
                 {"diameter", SIZE_DIAMETER},
                 {"gore_length", SIZE_GORE_LENGTH},
                 {"cloth_area", SIZE_CLOTH_AREA}};
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        char text[80];
        snprintf(text, sizeof text, "format = 1; size: { %s = 5; };", sizes[i].name);
        assert_int_equal(accepted(text).size.by, sizes[i].by);
    }
    assert_int_equal(accepted("format = 1;").size.by, SIZE_VOLUME);
}

static void size_by_decides_between_several_sizes(void **state) {
    (void)state;
    struct design d =
        accepted("format = 1; size: { by = \"diameter\"; volume = 12; diameter = 2.5; };");
    assert_int_equal(d.size.by, SIZE_DIAMETER);
    assert_close(d.size.diameter_m, 2.5, 0, 0);
    assert_refused("format = 1; size: { volume = 9; diameter = 2.5; };", "sizes");
}

static void a_table_without_a_size_is_built_as_measured(void **state) {
    (void)state;
    static const char table[] = "format = 1; outline: { kind = \"table\"; table = ((0.3, 0), "
                                "(1, 1), (0.3, 2)); };";
    char scaled[200];
    assert_int_equal(accepted(table).size.by, SIZE_TABLE);
    snprintf(scaled, sizeof scaled, "%s size: { height = 3; };", table);
    assert_int_equal(accepted(scaled).size.by, SIZE_HEIGHT);
    snprintf(scaled, sizeof scaled, "%s size: { by = \"volume\"; };", table);
    assert_int_equal(accepted(scaled).size.by, SIZE_VOLUME);
}

/* ---- where things stand -------------------------------------------------- */

static void the_source_tells_the_line_of_each_stated_value(void **state) {
    (void)state;
    struct reading r = read_string("format = 1;\n\nsize:\n{\n  height\n  = 3;\n};\n/* note\n */ "
                                   "gores: { style = \"billowed\"; };");
    assert_int_equal(r.result, 0);
    assert_string_equal(r.source.file, "t.cfg");
    assert_int_equal(r.source.line[parameter_find("format")], 1);
    assert_int_equal(r.source.line[parameter_find("size.height")], 5);
    assert_int_equal(r.source.line[parameter_find("gores.style")], 9);
    assert_int_equal(r.source.line[parameter_find("gores.count")], 0);
    forget(&r);
}

static void later_messages_are_given_their_place(void **state) {
    (void)state;
    struct reading r = read_string("format = 1;\nrows: {\n  count = 5; };\n");
    struct diagnostics later = {0};
    diagnose(&later, SEVERITY_ERROR, "any", "rows.count", "one");
    diagnose(&later, SEVERITY_ERROR, "any", "cloth.width", "two");
    diagnose_at(&later, SEVERITY_ERROR, "any", "other.cfg", 9, "rows.count", "three");
    design_locate(&later, &r.source);
    struct text text = {0};
    diagnostics_write(&later, &text);
    assert_string_equal(text.bytes, "t.cfg:3: error: rows.count: one\n"
                                    "t.cfg:1: error: cloth.width: two\n"
                                    "other.cfg:9: error: rows.count: three\n");
    text_free(&text);
    diagnostics_free(&later);
    forget(&r);
}

static void all_errors_are_told_in_one_reading_by_line(void **state) {
    (void)state;
    assert_messages(
        "gores: { count = 2; };\nsize: { volume = \"big\"; };\ncloth: { widht = 1.4; };\n",
        "t.cfg: error: format: not stated; write  format = 1;  as the first line, so that this "
        "and later programs know how to read the file\n"
        "t.cfg:1: error: gores.count: 2 is out of range; give 3 to 64\n"
        "t.cfg:2: error: size.volume: the text \"big\" does not fit here; write a number, 0.001 "
        "to 15000 m3\n"
        "t.cfg:3: error: cloth.widht: there is no such setting; did you mean cloth.width?  It is "
        "written  cloth: { width = ...; };\n");
}

static void a_rule_is_silent_while_one_of_its_values_is_wrong(void **state) {
    (void)state;
    assert_messages("format = 1; rows: { count = 99; spacing = \"given\"; shares = (1, 1); };",
                    "t.cfg:1: error: rows.count: 99 is out of range; give 1 to 60\n");
}

/* ---- form ---------------------------------------------------------------- */

static void strings_and_comments_hide_what_stands_in_them(void **state) {
    (void)state;
    assert_string_equal(accepted("format = 1; name = \"@include /* # // { \";").name,
                        "@include /* # // { ");
    accepted("format = 1; # @include \"x\" /*\n// /* \"\n/* @include \"y\" ( # */ name = \"A\";");
    accepted("/* a * b ** / c */format = 1;/**/");
    accepted("format = 1; # no line end");
    accepted("format = 1; // no line end");
    accepted("format = 1");
}

static void a_byte_order_mark_and_dos_line_ends_do_no_harm(void **state) {
    (void)state;
    struct design d = accepted("\xEF\xBB\xBF"
                               "format = 1;\r\n# note\r\nrows: { count = 5; };\r\n");
    assert_int_equal(d.rows.count, 5);
}

static void a_repeated_name_in_another_group_is_no_repetition(void **state) {
    (void)state;
    struct design d = accepted("format = 1; gores: { count = 12; }; rows: { count = 5; };");
    assert_int_equal(d.gores.count, 12);
    assert_int_equal(d.rows.count, 5);
}

static void deep_nesting_and_long_rows_of_brackets_are_refused_soon(void **state) {
    (void)state;
    enum { LENGTH = 900000 };
    char *text = malloc(LENGTH + 32);
    assert_non_null(text);
    for (const char *sign = "([{"; *sign != '\0'; sign++) {
        strcpy(text, "format = 1; x = ");
        size_t start = strlen(text);
        memset(text + start, *sign, LENGTH);
        text[start + LENGTH] = '\0';
        struct reading r = read_string(text);
        assert_int_equal(r.result, -1);
        assert_int_equal(r.messages.count, 1);
        forget(&r);
    }
    free(text);
}

static void bytes_that_are_no_text_are_refused(void **state) {
    (void)state;
    struct reading r = read_bytes("format = 1;\0name = 2;", 21);
    assert_string_equal(r.messages.item[0].code, "file");
    forget(&r);
    r = read_bytes("", 0);
    assert_string_equal(r.messages.item[0].code, "file");
    forget(&r);
    r = read_bytes("\xEF\xBB\xBF", 3);
    assert_string_equal(r.messages.item[0].code, "file");
    forget(&r);
}

/* Whatever passes the first look is read by libconfig too: its own "syntax error", which says
 * nothing to a builder, is not to be seen. */
static void random_tokens_never_bring_libconfigs_own_message(void **state) {
    (void)state;
    static const char *const token[] = {
        "a",  "b",   "size", "=",    "=",  ":",  ";",  ";",    "{",      "}",     "(",
        ")",  "[",   "]",    "1",    "2.", ".5", "-3", "1e3",  "0x1F",   "\"t\"", "\"\\\"\"",
        "\n", "5L",  "true", "#c\n", ",",  " ",  " ",  "a=1;", "b=2.5;", "c={",   "};",
        "=1", "*z=", "x-y",  "//\n", "=(", ");", "\t", "/**/", "d:",     "+7",    "-"};
    struct dice dice = {20};
    size_t accepted_ones = 0;
    for (int round = 0; round < 40000; round++) {
        char text[400] = "";
        for (int i = dice_whole(&dice, 1, round % 2 == 0 ? 5 : 24); i > 0; i--)
            strcat(text, token[dice_whole(&dice, 0, (int)COUNT_OF(token) - 1)]);
        struct reading r = read_string(text);
        if (strstr(r.written.bytes, "(syntax error)") != NULL)
            fail_msg("%s brings\n%s", text, r.written.bytes);
        accepted_ones += r.messages.count == 0 || strcmp(r.messages.item[0].code, "syntax") != 0;
        forget(&r);
    }
    assert_true(accepted_ones > 1000); /* the dice do reach libconfig */
}

static void random_bytes_in_a_good_file_never_crash(void **state) {
    (void)state;
    struct design starter;
    struct text good = {0};
    design_starter(&starter);
    design_write(&starter, WRITE_COMMENTED, &good);
    struct dice dice = {21};
    size_t refused = 0;
    for (int round = 0; round < 3000; round++) {
        char *bad = malloc(good.length);
        assert_non_null(bad);
        memcpy(bad, good.bytes, good.length);
        for (int i = dice_whole(&dice, 1, 6); i > 0; i--)
            bad[dice_whole(&dice, 0, (int)good.length - 1)] = (char)dice_whole(&dice, -128, 127);
        struct reading r = read_bytes(bad, (size_t)dice_whole(&dice, 0, (int)good.length));
        assert_int_equal(r.result, r.messages.errors > 0 ? -1 : 0);
        refused += r.result != 0;
        forget(&r);
        free(bad);
    }
    assert_true(refused > 1000 && refused < 3000);
    text_free(&good);
}

static void the_point_of_a_number_is_a_point_in_every_locale(void **state) {
    (void)state;
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "nl_NL.UTF-8"};
    bool found = false;
    for (size_t i = 0; i < COUNT_OF(names) && !found; i++)
        found = setlocale(LC_NUMERIC, names[i]) != NULL;
    struct design d = accepted("format = 1; size: { height = 3.25; };");
    setlocale(LC_NUMERIC, "C");
    assert_close(d.size.height_m, 3.25, 0, 0);
    if (!found)
        print_message("no locale with a decimal comma here: read in C only\n");
}

/* ---- files --------------------------------------------------------------- */

static void assert_file_refused(const char *path, const char *words) {
    struct design design;
    struct design_source source;
    struct diagnostics messages = {0};
    assert_int_equal(design_read(path, &design, &source, &messages), -1);
    assert_int_equal(messages.count, 1);
    assert_string_equal(messages.item[0].code, "file");
    assert_string_equal(messages.item[0].file, path);
    if (strstr(messages.item[0].text, words) == NULL)
        fail_msg("\"%s\" does not say \"%s\"", messages.item[0].text, words);
    design_source_free(&source);
    diagnostics_free(&messages);
}

static void what_is_no_file_is_called_by_its_name(void **state) {
    (void)state;
    char path[256];
    assert_file_refused(scratch_folder(), "folder");
    snprintf(path, sizeof path, "%s/none.cfg", scratch_folder());
    assert_file_refused(path, "no such file");
    snprintf(path, sizeof path, "%s/pipe", scratch_folder());
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_file_refused(path, "no ordinary file");
    snprintf(path, sizeof path, "%s/loop", scratch_folder());
    assert_int_equal(symlink(path, path), 0);
    assert_file_refused(path, "leads back to itself");
    assert_file_refused(scratch_file("empty.cfg", ""), "empty");
    snprintf(path, sizeof path, "%s/below", scratch_file("plain.cfg", "format = 1;"));
    assert_file_refused(path, "no such file");
}

static void a_file_without_the_right_to_read_is_refused(void **state) {
    (void)state;
    const char *path = scratch_file("secret.cfg", "format = 1;");
    assert_int_equal(chmod(path, 0), 0);
    bool root = geteuid() == 0; /* who may read anything */
    if (root)
        assert_int_equal(seteuid(65534), 0);
    assert_file_refused(path, "may not be read");
    if (root)
        assert_int_equal(seteuid(0), 0);
}

static void a_file_longer_than_a_megabyte_is_refused(void **state) {
    (void)state;
    enum { LENGTH = 1000001 };
    char *content = malloc(LENGTH + 1);
    assert_non_null(content);
    memset(content, '#', LENGTH);
    memcpy(content, "format = 1;\n", 12);
    content[LENGTH] = '\0';
    assert_file_refused(scratch_file("long.cfg", content), "a design has a few thousand bytes");
    content[LENGTH - 1] = '\0'; /* a million bytes are read */
    struct design design;
    struct diagnostics messages = {0};
    assert_int_equal(design_read(scratch_file("big.cfg", content), &design, NULL, &messages), 0);
    assert_int_equal(messages.count, 0);
    free(content);
}

static void a_file_is_named_in_messages_as_it_was_given(void **state) {
    (void)state;
    const char *path = scratch_file("named.cfg", "format = 1;\nrows: { count = 0; };\n");
    struct design design;
    struct design_source source;
    struct diagnostics messages = {0};
    assert_int_equal(design_read(path, &design, &source, &messages), -1);
    assert_string_equal(messages.item[0].file, path);
    assert_int_equal(messages.item[0].line, 2);
    assert_string_equal(source.file, path);
    design_source_free(&source);
    diagnostics_free(&messages);
}

/* ---- a design in memory -------------------------------------------------- */

/* One error, under this key. */
static void assert_fault(const struct design *design, const char *key, const char *code) {
    struct diagnostics messages = {0};
    assert_int_equal(design_check(design, NULL, &messages), -1);
    assert_true(messages.count > 0);
    assert_string_equal(messages.item[0].key, key);
    assert_string_equal(messages.item[0].code, code);
    diagnostics_free(&messages);
}

static void a_design_in_memory_is_not_trusted(void **state) {
    (void)state;
    struct design starter, d;
    design_starter(&starter);
    d = starter, d.size.volume_m3 = nan("");
    assert_fault(&d, "size.volume", "range");
    d = starter, d.cloth.mass_kg_m2 = HUGE_VAL;
    assert_fault(&d, "cloth.mass", "range");
    d = starter, d.bulge.depth = -HUGE_VAL;
    assert_fault(&d, "bulge.depth", "range");
    d = starter, d.gores.style = 3;
    assert_fault(&d, "gores.style", "word");
    d = starter, d.size.by = -1;
    assert_fault(&d, "size.by", "word");
    d = starter, d.rows.shares.count = SIZE_MAX;
    assert_fault(&d, "rows.shares", "count");
    d = starter, d.gores.mix.count = 1, d.gores.mix.value[0] = 77;
    assert_fault(&d, "gores.mix", "word");
    d = starter, d.outline.table.count = 1, d.outline.table.value[0].r_m = nan("");
    assert_fault(&d, "outline.table", "range");
    d = starter, d.rig.others.count = ITEMS_MOST + 1;
    assert_fault(&d, "rig.others", "count");
    d = starter, d.rig.others.count = 1, d.rig.others.value[0].mass_kg = 1;
    assert_fault(&d, "rig.others", "text");
    memset(d.rig.others.value[0].name, 'x', TEXT_MOST);
    assert_fault(&d, "rig.others", "text");
    strcpy(d.rig.others.value[0].name, "camera"), d.rig.others.value[0].mass_kg = nan("");
    assert_fault(&d, "rig.others", "range");
    d = starter, d.air.inside_C = nan("");
    assert_fault(&d, "air.inside", "range");
    d = starter, d.size.by = SIZE_LOAD, d.air.inside_C = d.air.ground_C;
    assert_fault(&d, "air.inside", "needs");
    d = starter, memset(d.name, 'x', sizeof d.name);
    assert_fault(&d, "name", "text");
    d = starter, d.rows.spacing = ROWS_GIVEN;
    assert_fault(&d, "rows.shares", "needs");
    d = starter, d.outline.kind = OUTLINE_TABLE;
    assert_fault(&d, "outline.table", "needs");
}

static void nothing_is_said_of_values_in_vain_without_a_source(void **state) {
    (void)state;
    struct design d;
    struct diagnostics messages = {0};
    design_starter(&d);
    d.outline.weight_ratio = 0.2;
    d.outline.join = JOIN_STRAIGHT;
    assert_int_equal(design_check(&d, NULL, &messages), 0);
    assert_int_equal(messages.count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_not_stated_is_the_starters),
        cmocka_unit_test(every_kind_of_value_is_taken),
        cmocka_unit_test(points_may_be_lists_or_arrays),
        cmocka_unit_test(things_carried_are_taken_with_their_masses),
        cmocka_unit_test(a_load_fixes_the_size_when_asked),
        cmocka_unit_test(the_ends_of_a_range_belong_to_it),
        cmocka_unit_test(a_whole_number_that_would_wrap_into_the_range_is_refused),
        cmocka_unit_test(a_text_of_63_bytes_fits_and_one_of_64_does_not),
        cmocka_unit_test(only_text_that_prints_is_taken),
        cmocka_unit_test(messages_show_no_raw_bytes_of_a_bad_text),
        cmocka_unit_test(a_size_stated_alone_governs),
        cmocka_unit_test(size_by_decides_between_several_sizes),
        cmocka_unit_test(a_table_without_a_size_is_built_as_measured),
        cmocka_unit_test(the_source_tells_the_line_of_each_stated_value),
        cmocka_unit_test(later_messages_are_given_their_place),
        cmocka_unit_test(all_errors_are_told_in_one_reading_by_line),
        cmocka_unit_test(a_rule_is_silent_while_one_of_its_values_is_wrong),
        cmocka_unit_test(strings_and_comments_hide_what_stands_in_them),
        cmocka_unit_test(a_byte_order_mark_and_dos_line_ends_do_no_harm),
        cmocka_unit_test(a_repeated_name_in_another_group_is_no_repetition),
        cmocka_unit_test(deep_nesting_and_long_rows_of_brackets_are_refused_soon),
        cmocka_unit_test(bytes_that_are_no_text_are_refused),
        cmocka_unit_test(random_tokens_never_bring_libconfigs_own_message),
        cmocka_unit_test(random_bytes_in_a_good_file_never_crash),
        cmocka_unit_test(the_point_of_a_number_is_a_point_in_every_locale),
        cmocka_unit_test(what_is_no_file_is_called_by_its_name),
        cmocka_unit_test(a_file_without_the_right_to_read_is_refused),
        cmocka_unit_test(a_file_longer_than_a_megabyte_is_refused),
        cmocka_unit_test(a_file_is_named_in_messages_as_it_was_given),
        cmocka_unit_test(a_design_in_memory_is_not_trusted),
        cmocka_unit_test(nothing_is_said_of_values_in_vain_without_a_source),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
