/* test_arguments.c - the command line read against its tables; values that options set. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "gorewright/design.h"
#include "command/arguments.h"
#include "command/overrides.h"

/* The arguments of one case, as on a command line, and what came of them. */
struct reading {
    struct request request;
    struct text complaint;
    int wrong;
};

static struct reading reading_of(const char *const *word) {
    struct reading reading = {0};
    char *argv[16] = {(char *)"gorewright"};
    int argc = 1;
    while (*word != NULL)
        argv[argc++] = (char *)*word++;
    reading.wrong = arguments_read(argc, argv, &reading.request, &reading.complaint);
    return reading;
}

static void reading_free(struct reading *reading) {
    request_free(&reading->request);
    text_free(&reading->complaint);
}

#define READ(...) reading_of((const char *const[]){__VA_ARGS__, NULL})

static void options_stand_anywhere_and_in_every_form(void **state) {
    (void)state;
    struct reading cases[] = {
        READ("templates", "--output", "x.ps", "--paper", "A3", "d"),
        READ("templates", "d", "--output=x.ps", "--paper=A3"),
        READ("templates", "-o", "x.ps", "d", "--paper", "A3"),
        READ("-ox.ps", "--paper=A3", "templates", "d"),
        READ("templates", "--paper", "Letter", "-o", "y", "-o", "x.ps", "--paper=A3", "--", "d"),
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        const struct request *request = &cases[i].request;
        assert_int_equal(cases[i].wrong, 0);
        assert_string_equal(request->command->name, "templates");
        assert_string_equal(request->value[OPTION_OUTPUT], "x.ps");
        assert_string_equal(request->value[OPTION_PAPER], "A3");
        assert_null(request->value[OPTION_PIECE]);
        assert_int_equal(request->files, 1);
        assert_string_equal(request->file[0], "d");
        reading_free(&cases[i]);
    }
}

static void two_dashes_end_the_options(void **state) {
    (void)state;
    struct reading reading = READ("check", "--", "--paper", "-o", "-");
    assert_int_equal(reading.wrong, 0);
    assert_int_equal(reading.request.files, 3);
    assert_string_equal(reading.request.file[0], "--paper");
    assert_string_equal(reading.request.file[2], "-");
    reading_free(&reading);
}

static void help_is_given_even_where_a_file_is_missing(void **state) {
    (void)state;
    struct reading reading = READ("figures", "--help");
    assert_int_equal(reading.wrong, 0);
    assert_non_null(reading.request.value[OPTION_HELP]);
    reading_free(&reading);
    reading = READ("-hV");
    assert_int_equal(reading.wrong, 0);
    assert_non_null(reading.request.value[OPTION_VERSION]);
    reading_free(&reading);
}

static void without_a_command_it_is_the_screens_for_a_file_that_is_there(void **state) {
    (void)state;
    struct reading reading = READ("samples/lapwing.cfg", "--mono");
    assert_int_equal(reading.wrong, 0);
    assert_null(reading.request.command);
    assert_int_equal(reading.request.files, 1);
    assert_string_equal(reading.request.file[0], "samples/lapwing.cfg");
    assert_non_null(reading.request.value[OPTION_MONO]);
    reading_free(&reading);
    reading = READ("--units", "inch");
    assert_int_equal(reading.wrong, -1);
    assert_string_equal(
        reading.complaint.bytes,
        "the screens do not take --units; check, flight, compare, sheets, templates, "
        "layout and materials do");
    reading_free(&reading);
}

static void the_ending_of_a_design_for_the_screens_may_be_left_out(void **state) {
    (void)state;
    struct reading reading = READ("samples/lapwing");
    assert_int_equal(reading.wrong, 0);
    assert_null(reading.request.command);
    assert_string_equal(reading.request.file[0], "samples/lapwing.cfg");
    reading_free(&reading);
    reading = READ("samples/lapwin");
    assert_int_equal(reading.wrong, -1);
    assert_non_null(strstr(reading.complaint.bytes, "there is no file 'samples/lapwin' here"));
    reading_free(&reading);
}

static void wrong_use_is_refused_in_words_that_help(void **state) {
    (void)state;
    const struct {
        const char *word[5], *says;
    } cases[] = {
        {{"templates", "d", "--piece"}, "--piece needs a value: --piece NAME"},
        {{"templates", "d", "--piece="}, "--piece needs a value: --piece NAME"},
        {{"templates", "-o"}, "--output needs a value: --output FILE"},
        {{"templates", "d", "--help=yes"}, "--help takes no value"},
        {{"templates", "d", "--pieces=F03"}, "there is no option --pieces; did you mean --piece?"},
        {{"templates", "d", "-x"}, "there is no option -x"},
        {{"templates"}, "templates needs a design file: gorewright templates FILE"},
        {{"check"}, "check needs a design file: gorewright check FILE..."},
        {{"templates", "a", "b"}, "templates takes one file: 'b' is one too many"},
        {{"starter", "a"}, "starter takes no file: 'a' is one too many"},
        {{"tempaltes", "a"}, "there is no command 'tempaltes'; did you mean 'templates'?"},
        {{"xyz", "a"}, "there is no command 'xyz'"},
        {{"nosuch.cfg"}, "there is no file 'nosuch.cfg' here; see what there is with ls *.cfg"},
        {{"help"}, "there is no command 'help'; did you mean gorewright --help?"},
        {{"version"}, "there is no command 'version'; did you mean gorewright --version?"},
        {{"samples/lapwing.cfg", "check"},
         "there is no command 'samples/lapwing.cfg'; did you mean "
         "gorewright check samples/lapwing.cfg?"},
        {{"check", "a", "-v"}, "there is no option -v; did you mean -V?"},
        {{"check", "a", "-O", "b"}, "there is no option -O; did you mean -o?"},
        {{"check", ""}, "the name of a design file given to check is empty"},
        {{"check", "a", ""}, "the name of a design file given to check is empty"},
        {{"", "a"}, "there is no command ''"},
        {{"figures", "a", "--piece", "F03"},
         "figures does not take --piece; sheets and templates do"},
        {{"sheets", "a", "--sheet", "3"}, "sheets does not take --sheet; templates does"},
        {{"starter", "--paper", "A4"},
         "starter does not take --paper; check, templates and layout do"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct reading reading = reading_of(cases[i].word);
        assert_int_equal(reading.wrong, -1);
        assert_string_equal(reading.complaint.bytes, cases[i].says);
        reading_free(&reading);
    }
}

/* ---- values ------------------------------------------------------------ */

static int apply(enum option option, const char *value, struct design *design,
                 struct text *complaint) {
    struct request request = {0};
    request.value[option] = value;
    design_starter(design);
    int wrong = overrides_read(&request, complaint);
    overrides_apply(&request, design);
    return wrong;
}

static void measured_is_read_in_mm_and_in_inches(void **state) {
    (void)state;
    const struct {
        const char *value;
        double across_mm, up_mm;
    } cases[] = {
        {"189.5x276", 189.5, 276},
        {"189.5mmx276mm", 189.5, 276},
        {"189.5x276mm", 189.5, 276},
        {"7.5inx10in", 190.5, 254},
        {"7.5x10in", 190.5, 254},
        {"7.5inx10", 190.5, 254},
        {"7-1/2inx10-7/8in", 190.5, 276.225},
        {"3/4inx25mm", 19.05, 25},
        {"190x10in", 4826, 254},
        {"7 1/2inx9in", 190.5, 228.6},
        {"7 1/2 in x 9 3/4 in", 190.5, 247.65},
        {"7-1/2INX9IN", 190.5, 228.6},
        {"7.5in\xC3\x97"
         "9in",
         190.5, 228.6},
        {"180 x 240 mm", 180, 240},
        {"179.05MMX239.25", 179.05, 239.25},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct design design;
        struct text complaint = {0};
        assert_int_equal(apply(OPTION_MEASURED, cases[i].value, &design, &complaint), 0);
        assert_close(design.paper.measured_across_m, cases[i].across_mm / 1000, 1e-12, 0);
        assert_close(design.paper.measured_up_m, cases[i].up_mm / 1000, 1e-12, 0);
        text_free(&complaint);
    }
}

static void values_that_make_no_sense_are_refused_by_option(void **state) {
    (void)state;
    const struct {
        enum option option;
        const char *value, *says;
    } cases[] = {
        {OPTION_MEASURED, "189.5", "--measured: '189.5' is not ACROSSxUP"},
        {OPTION_MEASURED, "179,5x239", "has a comma; write a decimal point, as in 179.5x239"},
        {OPTION_MEASURED, "7x9", "has no unit"},
        {OPTION_MEASURED, "6-7/8x9", "write in behind each"},
        {OPTION_MEASURED, "7 1/2 1/2inx9in", "is not ACROSSxUP"},
        {OPTION_MEASURED, "7-1/2-1/2inx9in", "is not ACROSSxUP"},
        {OPTION_MEASURED, "7-inx9in", "is not ACROSSxUP"},
        {OPTION_MEASURED, "7 1/0inx9in", "is not ACROSSxUP"},
        {OPTION_MEASURED, "0x10x276", "is not ACROSSxUP"},
        {OPTION_MEASURED, "-3x4", "is not ACROSSxUP"},
        {OPTION_MEASURED, "1e3x4", "is not ACROSSxUP"},
        {OPTION_MEASURED, "infxnan", "is not ACROSSxUP"},
        {OPTION_MEASURED, "1.2.3x4", "is not ACROSSxUP"},
        {OPTION_MEASURED, "1/0x4", "is not ACROSSxUP"},
        {OPTION_MEASURED, "3x4cm", "is not ACROSSxUP"},
        {OPTION_MEASURED, "3 4 x 5", "is not ACROSSxUP"},
        {OPTION_MEASURED, "99999999999x4", "is not ACROSSxUP"},
        {OPTION_MEASURED, "0x4", "out of range; more than 0 and at most 20000 mm"},
        {OPTION_MEASURED, "3x20001", "out of range; more than 0 and at most 20000 mm"},
        {OPTION_UNITS, "cm", "--units: 'cm' is not a unit for sheets; use mm or inch"},
        {OPTION_PAPER, "A99", "--paper: "},
        {OPTION_PAPER, "500x700", "does not say its unit; add mm, cm or in, as in \"500x700mm\""},
        {OPTION_PAPER, "roll 914", "add mm, cm or in, as in \"roll 914mm\""},
        {OPTION_PAPER, "123456789 123456789 123456789 123456789 123456789 123456789 1234",
         "--paper: at most 63 bytes are allowed"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct design design, starter;
        struct text complaint = {0};
        design_starter(&starter);
        assert_int_equal(apply(cases[i].option, cases[i].value, &design, &complaint), -1);
        if (strstr(complaint.bytes, cases[i].says) == NULL)
            print_error("%s\n", complaint.bytes);
        assert_non_null(strstr(complaint.bytes, cases[i].says));
        assert_memory_equal(&design, &starter, sizeof design);
        text_free(&complaint);
    }
}

static void paper_and_units_reach_the_design(void **state) {
    (void)state;
    struct design design;
    struct text complaint = {0};
    assert_int_equal(apply(OPTION_PAPER, "roll 914mm", &design, &complaint), 0);
    assert_string_equal(design.paper.sheet, "roll 914mm");
    assert_int_equal(apply(OPTION_UNITS, "inch", &design, &complaint), 0);
    assert_int_equal(design.paper.units, UNITS_INCH);
    const char *const inches[] = {"inches", "in", "INCH", "In"}, *const mm[] = {"mm", "MM"};
    for (size_t i = 0; i < COUNT_OF(inches); i++) {
        assert_int_equal(apply(OPTION_UNITS, inches[i], &design, &complaint), 0);
        assert_int_equal(design.paper.units, UNITS_INCH);
    }
    for (size_t i = 0; i < COUNT_OF(mm); i++) {
        assert_int_equal(apply(OPTION_UNITS, mm[i], &design, &complaint), 0);
        assert_int_equal(design.paper.units, UNITS_MM);
    }
    text_free(&complaint);
}

static void an_option_that_is_not_given_changes_nothing(void **state) {
    (void)state;
    struct request request = {0};
    struct design design, before;
    design_starter(&design);
    strcpy(design.paper.sheet, "A3");
    design.paper.units = UNITS_INCH;
    design.paper.measured_across_m = 0.2;
    before = design;
    overrides_apply(&request, &design);
    assert_memory_equal(&design, &before, sizeof design);
}

static void sheets_count_from_one(void **state) {
    (void)state;
    const struct {
        const char *value;
        int wrong;
        size_t sheet;
    } cases[] = {{NULL, 0, 0},   {"1", 0, 1},  {"83", 0, 83},      {"0", -1, 0}, {"-1", -1, 0},
                 {"1.5", -1, 0}, {"x", -1, 0}, {"9999999", -1, 0}, {"", -1, 0}};
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct request request = {0};
        struct text complaint = {0};
        request.value[OPTION_SHEET] = cases[i].value;
        assert_int_equal(overrides_read(&request, &complaint), cases[i].wrong);
        assert_int_equal(request.overrides.sheet, cases[i].sheet);
        assert_int_equal(complaint.length > 0, cases[i].wrong != 0);
        text_free(&complaint);
    }
}

static void a_message_about_an_overridden_key_names_the_option(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct request request = {0};
    request.value[OPTION_MEASURED] = "1x1";
    diagnose(&messages, SEVERITY_ERROR, "x", "paper.measured_up", "too small");
    diagnose(&messages, SEVERITY_ERROR, "x", "paper.sheet", "too small");
    diagnose_at(&messages, SEVERITY_ERROR, "x", "d", 3, "paper.measured_across", "too small");
    overrides_locate(&request, &messages);
    assert_string_equal(messages.item[0].file, "command line");
    assert_string_equal(messages.item[0].key, "--measured");
    assert_null(messages.item[1].file);
    assert_string_equal(messages.item[2].file, "d");
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(options_stand_anywhere_and_in_every_form),
        cmocka_unit_test(two_dashes_end_the_options),
        cmocka_unit_test(help_is_given_even_where_a_file_is_missing),
        cmocka_unit_test(without_a_command_it_is_the_screens_for_a_file_that_is_there),
        cmocka_unit_test(the_ending_of_a_design_for_the_screens_may_be_left_out),
        cmocka_unit_test(wrong_use_is_refused_in_words_that_help),
        cmocka_unit_test(measured_is_read_in_mm_and_in_inches),
        cmocka_unit_test(values_that_make_no_sense_are_refused_by_option),
        cmocka_unit_test(paper_and_units_reach_the_design),
        cmocka_unit_test(an_option_that_is_not_given_changes_nothing),
        cmocka_unit_test(sheets_count_from_one),
        cmocka_unit_test(a_message_about_an_overridden_key_names_the_option),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
