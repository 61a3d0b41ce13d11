/* test_record.c - the bench record: what it says, what it makes of any file in its place. */
#include "support.h"

#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "shop/with_record.h"

static const char head[] = "gorewright bench record 1\ndesign Starter\n";

/* ---- ticks ---------------------------------------------------------------------- */

static void a_record_begins_with_its_first_tick(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    assert_int_equal(access(at.record_path, F_OK), -1);
    assert_true(set(&at, "F03", 7, TICK_MARKED, true));
    char want[256];
    snprintf(want, sizeof want, "%smarked F03 gore 7\n", head);
    assert_string_equal(content_of(at.record_path), want);
    end(&at);
}

static void a_tick_brings_those_before_it_and_taking_it_back_those_after_it(void **state) {
    (void)state;
    static const struct {
        enum tick tick;
        bool on;
        int progress;
        const char *line;
    } step[] = {
        {TICK_CUT, true, 2, "cut F03 gore 7\n"},
        {TICK_MARKED, true, 2, ""},
        {TICK_SEWN, true, 3, "sewn F03 gore 7\n"},
        {TICK_CUT, false, 1, "not cut F03 gore 7\n"},
        {TICK_SEWN, false, 1, ""},
        {TICK_SEWN, true, 3, "sewn F03 gore 7\n"},
        {TICK_MARKED, false, 0, "not marked F03 gore 7\n"},
    };
    struct bench_of at;
    char want[1024] = "";
    begin(&at);
    reopen(&at);
    for (size_t i = 0; i < COUNT_OF(step); i++) {
        assert_true(set(&at, "F03", 7, step[i].tick, step[i].on));
        assert_int_equal(record_progress(at.record, "F03", 7), step[i].progress);
        for (enum tick tick = TICK_MARKED; tick < TICK_COUNT; tick++)
            assert_int_equal(record_has(at.record, "F03", 7, tick), (int)tick < step[i].progress);
        strcat(want, step[i].line);
        assert_string_equal(ticks_of(at.record_path), want);
    }
    assert_int_equal(record_progress(at.record, "F03", 8), 0);
    assert_int_equal(record_progress(at.record, "F04", 7), 0);
    end(&at);
}

static void ticks_are_there_when_the_record_is_opened_again(void **state) {
    (void)state;
    struct bench_of at;
    struct dice dice = {7};
    int want[9][17] = {{0}};
    begin(&at);
    reopen(&at);
    for (int i = 0; i < 400; i++) {
        int row = dice_whole(&dice, 1, 8), gore = dice_whole(&dice, 1, 16);
        int tick = dice_whole(&dice, 0, 2), on = dice_whole(&dice, 0, 3) > 0;
        char name[16];
        snprintf(name, sizeof name, "F%02d", row);
        assert_true(set(&at, name, (size_t)gore, (enum tick)tick, on));
        int *now = &want[row][gore];
        *now = on && *now < tick + 1 ? tick + 1 : !on && *now > tick ? tick : *now;
        if (i % 50 == 0)
            assert_non_null(reopen(&at));
    }
    reopen(&at);
    assert_int_equal(at.messages.count, 0);
    for (int row = 1; row <= 8; row++)
        for (int gore = 1; gore <= 16; gore++) {
            char name[16];
            snprintf(name, sizeof name, "F%02d", row);
            assert_int_equal(record_progress(at.record, name, (size_t)gore), want[row][gore]);
        }
    end(&at);
}

static void dimensions_are_noted_with_the_first_cut_of_a_template_only(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    reopen(&at);
    assert_true(set(&at, "F03", 1, TICK_MARKED, true));
    assert_null(strstr(content_of(at.record_path), "shape"));
    assert_true(set(&at, "F03", 1, TICK_CUT, true));
    assert_true(set(&at, "F03", 2, TICK_CUT, true));
    reopen(&at);
    assert_true(set(&at, "F03", 3, TICK_SEWN, true));
    const struct piece *piece = named(&at, "F03");
    char *noted = strstr(content_of(at.record_path), "shape F03 "), want[512];
    assert_non_null(noted);
    assert_null(strstr(noted + 1, "shape"));
    int length = 0;
    static const char *const edges[] = {"bottom", "right", "top", "left"};
    length += sprintf(want, "shape F03");
    for (int e = 0; e < EDGE_COUNT; e++)
        length += sprintf(want + length, " %s %.4f", edges[e], piece->length_m[e] * 1e3);
    for (int e = 0; e < EDGE_COUNT; e++)
        length +=
            sprintf(want + length, " %s-allowance %.4f", edges[e], piece->allowance_m[e] * 1e3);
    sprintf(want + length,
            " diagonal-A-C %.4f diagonal-B-D %.4f bottom-curve 0.0000 top-curve 0.0000\n",
            piece->diagonal_rising_m * 1e3, piece->diagonal_falling_m * 1e3);
    noted[strcspn(noted, "\n") + 1] = '\0';
    assert_string_equal(noted, want);
    end(&at);
}

static void a_piece_or_gore_beyond_all_bounds_is_refused(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    reopen(&at);
    assert_false(set(&at, "F03", 0, TICK_CUT, true));
    assert_false(set(&at, "F03", GORES_MOST + 1, TICK_CUT, true));
    assert_int_equal(access(at.record_path, F_OK), -1);
    end(&at);
}

/* ---- what a crash or a hand leaves in the file ----------------------------------- */

static void a_torn_last_line_is_left_out_and_cut_off(void **state) {
    (void)state;
    static const char whole[] = "gorewright bench record 1\ndesign Starter\nmarked F01 gore 1\n"
                                "cut F01 gore 1\nmarked F01 gore 12\n";
    struct bench_of at;
    begin(&at);
    for (size_t length = 0; length <= strlen(whole); length++) {
        char part[256];
        snprintf(part, sizeof part, "%.*s", (int)length, whole);
        write_record(&at, part);
        assert_non_null(reopen(&at));
        const char *last = strrchr(part, '\n');
        bool torn = length > 0 && part[length - 1] != '\n';
        /* Of a header begun nothing is lost. */
        assert_int_equal(at.messages.count, torn && last != NULL);
        if (at.messages.count > 0)
            assert_string_equal(code_of(&at, 0), "torn-line");
        size_t lines = 0;
        for (const char *c = part; *c != '\0'; c++)
            lines += *c == '\n';
        assert_int_equal(record_progress(at.record, "F01", 1), lines < 3 ? 0
                                                               : (int)lines - 2 > 2
                                                                   ? 2
                                                                   : (int)lines - 2);
        assert_int_equal(record_progress(at.record, "F01", 12), lines == 5);
        assert_true(set(&at, "F02", 3, TICK_MARKED, true));
        assert_int_equal(reopen(&at) != NULL && at.messages.count == 0, 1);
        assert_int_equal(record_progress(at.record, "F02", 3), 1);
        assert_int_equal(record_progress(at.record, "F01", 12), lines == 5);
    }
    end(&at);
}

static void lines_not_understood_are_reported_and_kept(void **state) {
    (void)state;
    static const char *const strange[] = {
        "painted F01 gore 2",
        "marked F01 gore 65",
        "marked F01 gore 0",
        "marked F1 gore 2",
        "marked F01",
        "not F01 gore 2",
        "marked F01 gore 2 now",
        "not cut F01 gore 2 as before",
        "shape F01 bottom 12",
        "marked f01 gore 2",
        "marked F01 gore 2.5",
        "marked F01 gore -2",
        "marked F01L2 gore 2",
        "\x01\x02\xff",
        "shape F01 bottom 1 right 1 top 1 left 1 bottom-allowance 1 right-allowance 1 "
        "top-allowance 1 left-allowance 1 diagonal-A-C 1 diagonal-B-D nan bottom-curve 1 "
        "top-curve 1",
    };
    struct bench_of at;
    begin(&at);
    for (size_t i = 0; i < COUNT_OF(strange); i++) {
        char content[1024];
        snprintf(content, sizeof content, "%s# by hand\n\n%s\nmarked F05 gore 5\n", head,
                 strange[i]);
        write_record(&at, content);
        assert_non_null(reopen(&at));
        if (at.messages.count != 1 || at.messages.item[0].line != 5)
            fail_msg("\"%s\" was not reported", strange[i]);
        assert_string_equal(code_of(&at, 0), "unknown-line");
        assert_int_equal(at.messages.errors, 0);
        assert_int_equal(record_progress(at.record, "F01", 2), 0);
        assert_int_equal(record_progress(at.record, "F05", 5), 1);
        assert_true(set(&at, "F05", 6, TICK_MARKED, true));
        strcat(content, "marked F05 gore 6\n");
        assert_string_equal(content_of(at.record_path), content);
    }
    end(&at);
}

static void many_strange_lines_are_counted_not_listed(void **state) {
    (void)state;
    char content[4096];
    size_t length = (size_t)sprintf(content, "%s", head);
    for (int i = 0; i < 100; i++)
        length += (size_t)sprintf(content + length, "strange %d\n", i);
    struct bench_of at;
    begin(&at);
    write_record(&at, content);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 11);
    assert_non_null(strstr(at.messages.item[10].text, "90 more lines"));
    end(&at);
}

static void a_record_written_by_hand_reads_with_blanks_and_other_line_ends(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    char content[256];
    snprintf(content, sizeof content, "%s  cut   F01\tgore 3 \r\n\r\n   \n#not cut F01 gore 3\n",
             head);
    write_record(&at, content);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    assert_int_equal(record_progress(at.record, "F01", 3), 2);
    end(&at);
}

/* As an editor on another system leaves it: read, and carried on in its own way. */
static void a_record_with_carriage_returns_is_read_and_keeps_them(void **state) {
    (void)state;
    struct bench_of at;
    static const char content[] = "gorewright bench record 1\r\ndesign Starter\r\n"
                                  "marked F01 gore 3\r\n";
    char want[512];
    begin(&at);
    write_record(&at, content);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    assert_int_equal(record_progress(at.record, "F01", 3), 1);
    assert_true(set(&at, "F01", 4, TICK_MARKED, true));
    snprintf(want, sizeof want, "%smarked F01 gore 4\r\n", content);
    assert_string_equal(content_of(at.record_path), want);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    assert_int_equal(record_progress(at.record, "F01", 4), 1);
    end(&at);
}

static void a_header_is_read_whatever_ends_it_and_no_other_format_is(void **state) {
    (void)state;
    static const struct {
        const char *content, *code; /* NULL: it is taken */
    } cases[] = {
        {"gorewright bench record 1 \n", NULL},
        {"gorewright bench record 1\r", NULL},
        {"gorewright bench rec", NULL},
        {"gorewright bench record 12\r\n", "bench-format"},
        {"gorewright bench record 2", "bench-format"},
        {"gorewright bench record 1x\n", "not-a-record"},
        {"gorewright bench record \r\n", "not-a-record"},
        {"\r\n", "not-a-record"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct bench_of at;
        begin(&at);
        write_record(&at, cases[i].content);
        struct record *record = reopen(&at);
        if (cases[i].code == NULL) {
            assert_non_null(record);
            assert_true(set(&at, "F01", 1, TICK_MARKED, true));
            assert_non_null(reopen(&at));
            assert_int_equal(record_progress(at.record, "F01", 1), 1);
        } else {
            assert_null(record);
            assert_string_equal(code_of(&at, 0), cases[i].code);
            assert_string_equal(content_of(at.record_path), cases[i].content);
        }
        end(&at);
    }
}

/* ---- another name ------------------------------------------------------------------- */

static void a_record_follows_the_name_of_its_design(void **state) {
    (void)state;
    struct bench_of at;
    char want[256];
    begin(&at);
    reopen(&at);
    strcpy(at.design.name, "Heron");
    assert_true(record_rename(at.record, &at.design, &at.messages)); /* nothing to follow yet */
    assert_int_equal(access(at.record_path, F_OK), -1);
    assert_true(set(&at, "F01", 1, TICK_MARKED, true));
    strcpy(at.design.name, "Avocet");
    assert_true(record_rename(at.record, &at.design, &at.messages));
    assert_true(record_rename(at.record, &at.design, &at.messages)); /* once is enough */
    snprintf(want, sizeof want,
             "gorewright bench record 1\ndesign Heron\nmarked F01 gore 1\ndesign Avocet\n");
    assert_string_equal(content_of(at.record_path), want);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    end(&at);
}

static void a_record_of_another_design_does_not_follow(void **state) {
    (void)state;
    struct bench_of at;
    static const char content[] = "gorewright bench record 1\ndesign Stork\nmarked F01 gore 1\n";
    begin(&at);
    write_record(&at, content);
    assert_non_null(reopen(&at));
    strcpy(at.design.name, "Heron");
    assert_true(record_rename(at.record, &at.design, &at.messages));
    assert_string_equal(content_of(at.record_path), content);
    assert_non_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "other-design");
    end(&at);
}

static void a_record_is_copied_to_a_free_place_only(void **state) {
    (void)state;
    struct bench_of at, other;
    char content[256];
    begin(&at);
    begin(&other);
    assert_int_equal(record_copy(at.path, other.path, &at.messages), COPY_NOTHING);
    reopen(&at);
    assert_true(set(&at, "F01", 1, TICK_MARKED, true));
    assert_int_equal(record_copy(at.path, other.path, &at.messages), COPY_MADE);
    snprintf(content, sizeof content, "%s", content_of(at.record_path));
    assert_string_equal(content_of(other.record_path), content);
    assert_true(set(&at, "F01", 2, TICK_MARKED, true));
    assert_int_equal(record_copy(at.path, other.path, &at.messages), COPY_OTHER_THERE);
    assert_string_equal(content_of(other.record_path), content);
    assert_int_equal(at.messages.count, 0);
    assert_int_equal(unlink(other.record_path), 0);
    struct rlimit limit, tight;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    tight = limit;
    tight.rlim_cur = 10;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &tight), 0);
    enum record_copying copying = record_copy(at.path, other.path, &at.messages);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    signal(SIGXFSZ, handler);
    assert_int_equal(copying, COPY_FAILED);
    assert_int_equal(at.messages.errors, 1);
    assert_int_equal(access(other.record_path, F_OK), -1);
    end(&other);
    end(&at);
}

static void the_record_of_another_design_is_used_and_warned_of_once_ticked(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    write_record(&at, "gorewright bench record 1\ndesign Heron\nmarked F01 gore 1\n");
    assert_non_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "other-design");
    assert_non_null(strstr(at.messages.item[0].text, "Heron"));
    assert_int_equal(at.messages.errors, 0);
    assert_int_equal(record_progress(at.record, "F01", 1), 1);
    assert_true(set(&at, "F01", 2, TICK_MARKED, true));
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    end(&at);
}

static void any_bytes_in_a_record_are_survived_and_kept(void **state) {
    (void)state;
    static const char *const words[] = {"cut",
                                        "F01",
                                        "gore",
                                        "7",
                                        "not ",
                                        " ",
                                        "\n",
                                        "shape",
                                        "marked F02 gore 3\n",
                                        "as before",
                                        "\r",
                                        "\t",
                                        "bottom",
                                        "1e400",
                                        "-",
                                        "99999999999999999999",
                                        "\xff",
                                        "design "};
    struct bench_of at;
    struct dice dice = {11};
    begin(&at);
    for (int round = 0; round < 500; round++) {
        char content[2048];
        int length = sprintf(content, "%s", head);
        for (int i = dice_whole(&dice, 0, 60); i > 0; i--)
            length +=
                sprintf(content + length, "%s", words[dice_whole(&dice, 0, COUNT_OF(words) - 1)]);
        write_record(&at, content);
        assert_non_null(reopen(&at));
        char *last = strrchr(content, '\n');
        last[1] = '\0';
        assert_string_equal(content_of(at.record_path), content);
    }
    end(&at);
}

static void no_number_of_names_or_lines_slows_it_down_beyond_bearing(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    FILE *file = fopen(at.record_path, "wb");
    assert_non_null(file);
    fputs(head, file);
    for (int i = 0; ftell(file) < RECORD_BYTES_MOST - 64; i++)
        fprintf(file, "cut %c%02d%s gore %d\n", 'A' + i % 26, i / 26 % 100, i % 2 ? "L" : "",
                i % 64 + 1);
    fclose(file);
    alarm(20);
    assert_non_null(reopen(&at));
    alarm(0);
    end(&at);
}

/* ---- files that are none of its business ------------------------------------------- */

static void a_file_that_is_no_bench_record_is_refused_and_left_alone(void **state) {
    (void)state;
    static const struct {
        const char *content, *code;
    } file[] = {
        {"hello", "not-a-record"},
        {"hello\n", "not-a-record"},
        {"gorewright", NULL}, /* its own header, begun */
        {"gorewright bench record 2\ncut F01 gore 1\n", "bench-format"},
        {"gorewright bench record 10\n", "bench-format"},
        {"\n", "not-a-record"},
        {"marked F01 gore 1\n", "not-a-record"},
    };
    struct bench_of at;
    begin(&at);
    for (size_t i = 0; i < COUNT_OF(file); i++) {
        write_record(&at, file[i].content);
        struct record *record = reopen(&at);
        if (file[i].code == NULL) {
            assert_non_null(record);
            continue;
        }
        assert_null(record);
        assert_string_equal(code_of(&at, 0), file[i].code);
        assert_int_equal(at.messages.errors, 1);
        assert_string_equal(content_of(at.record_path), file[i].content);
    }
    end(&at);
}

static void folders_pipes_dead_links_and_giants_are_refused(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    assert_int_equal(mkdir(at.record_path, 0755), 0);
    assert_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "not-a-file");
    assert_int_equal(rmdir(at.record_path), 0);

    assert_int_equal(mkfifo(at.record_path, 0644), 0);
    assert_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "not-a-file");
    assert_int_equal(unlink(at.record_path), 0);

    assert_int_equal(symlink("/nowhere/at/all", at.record_path), 0);
    assert_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "dead-link");
    assert_int_equal(unlink(at.record_path), 0);

    write_record(&at, head);
    assert_int_equal(truncate(at.record_path, RECORD_BYTES_MOST + 1), 0);
    assert_null(reopen(&at));
    assert_string_equal(code_of(&at, 0), "too-large");
    struct stat file;
    assert_int_equal(stat(at.record_path, &file), 0);
    assert_int_equal(file.st_size, RECORD_BYTES_MOST + 1);
    end(&at);
}

static void a_record_never_grows_beyond_what_can_be_opened_again(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    FILE *file = fopen(at.record_path, "wb");
    assert_non_null(file);
    fputs(head, file);
    while (ftell(file) < RECORD_BYTES_MOST - 10)
        fputs("#\n", file);
    fclose(file);
    assert_non_null(reopen(&at));
    assert_false(set(&at, "F01", 1, TICK_MARKED, true));
    assert_string_equal(code_of(&at, 0), "too-large");
    assert_non_null(reopen(&at));
    end(&at);
}

static void a_link_to_the_design_finds_the_record_beside_the_design(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    reopen(&at);
    assert_true(set(&at, "F01", 1, TICK_CUT, true));
    close_record(&at);
    char link[300], folder[280];
    snprintf(folder, sizeof folder, "%s/elsewhere", scratch_folder());
    mkdir(folder, 0755);
    snprintf(link, sizeof link, "%s/link.cfg", folder);
    assert_int_equal(symlink(at.path, link), 0);
    at.record = record_open(link, &at.design, &at.messages);
    assert_non_null(at.record);
    assert_string_equal(record_path(at.record), at.record_path);
    assert_int_equal(record_progress(at.record, "F01", 1), 2);
    end(&at);
}

static void a_new_record_has_the_mode_that_the_umask_leaves(void **state) {
    (void)state;
    static const mode_t masks[] = {022, 077, 0};
    mode_t before = umask(022);
    for (size_t i = 0; i < COUNT_OF(masks); i++) {
        struct bench_of at;
        struct stat file;
        begin(&at);
        umask(masks[i]);
        reopen(&at);
        assert_true(set(&at, "F01", 1, TICK_MARKED, true));
        assert_int_equal(stat(at.record_path, &file), 0);
        assert_int_equal(file.st_mode & 07777, 0644 & ~masks[i]);
        end(&at);
    }
    umask(before);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_record_begins_with_its_first_tick),
        cmocka_unit_test(a_tick_brings_those_before_it_and_taking_it_back_those_after_it),
        cmocka_unit_test(ticks_are_there_when_the_record_is_opened_again),
        cmocka_unit_test(dimensions_are_noted_with_the_first_cut_of_a_template_only),
        cmocka_unit_test(a_piece_or_gore_beyond_all_bounds_is_refused),
        cmocka_unit_test(a_torn_last_line_is_left_out_and_cut_off),
        cmocka_unit_test(lines_not_understood_are_reported_and_kept),
        cmocka_unit_test(many_strange_lines_are_counted_not_listed),
        cmocka_unit_test(a_record_written_by_hand_reads_with_blanks_and_other_line_ends),
        cmocka_unit_test(a_record_with_carriage_returns_is_read_and_keeps_them),
        cmocka_unit_test(a_header_is_read_whatever_ends_it_and_no_other_format_is),
        cmocka_unit_test(a_record_follows_the_name_of_its_design),
        cmocka_unit_test(a_record_of_another_design_does_not_follow),
        cmocka_unit_test(a_record_is_copied_to_a_free_place_only),
        cmocka_unit_test(the_record_of_another_design_is_used_and_warned_of_once_ticked),
        cmocka_unit_test(any_bytes_in_a_record_are_survived_and_kept),
        cmocka_unit_test(no_number_of_names_or_lines_slows_it_down_beyond_bearing),
        cmocka_unit_test(a_file_that_is_no_bench_record_is_refused_and_left_alone),
        cmocka_unit_test(folders_pipes_dead_links_and_giants_are_refused),
        cmocka_unit_test(a_record_never_grows_beyond_what_can_be_opened_again),
        cmocka_unit_test(a_link_to_the_design_finds_the_record_beside_the_design),
        cmocka_unit_test(a_new_record_has_the_mode_that_the_umask_leaves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
