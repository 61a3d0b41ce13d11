/* test_record.c - the bench record: ticks kept through anything, and no foreign file touched. */
#define _DEFAULT_SOURCE /* setgroups */
#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <grp.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "gorewright/shop.h"

/* ---- a design with a file, an envelope and a record --------------------------- */

struct bench_of {
    char path[256], record_path[288];
    struct design design;
    struct envelope *envelope;
    struct record *record;
    struct diagnostics messages;
};

static void build(struct bench_of *at) {
    struct diagnostics messages = {0};
    envelope_free(at->envelope);
    at->envelope = envelope_build(&at->design, &messages);
    assert_non_null(at->envelope);
    diagnostics_free(&messages);
}

static void begin(struct bench_of *at) {
    static int number;
    char name[32];
    memset(at, 0, sizeof *at);
    snprintf(name, sizeof name, "design-%d.cfg", ++number);
    snprintf(at->path, sizeof at->path, "%s", scratch_file(name, "format = 1;\n"));
    snprintf(at->record_path, sizeof at->record_path, "%s.bench", at->path);
    design_starter(&at->design);
    build(at);
}

static void close_record(struct bench_of *at) {
    record_close(at->record);
    at->record = NULL;
    diagnostics_free(&at->messages);
}

static struct record *reopen(struct bench_of *at) {
    close_record(at);
    at->record = record_open(at->path, &at->design, &at->messages);
    return at->record;
}

static void end(struct bench_of *at) {
    close_record(at);
    envelope_free(at->envelope);
}

static const struct piece *named(const struct bench_of *at, const char *name) {
    for (size_t t = 0; t < at->envelope->templates; t++)
        if (strcmp(at->envelope->piece[t].name, name) == 0)
            return &at->envelope->piece[t];
    fail_msg("no piece %s", name);
    return NULL;
}

static bool set(struct bench_of *at, const char *name, size_t gore, enum tick tick, bool on) {
    return record_set(at->record, named(at, name), gore, tick, on, &at->messages);
}

static char *content_of(const char *path) {
    static char bytes[65536];
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    bytes[fread(bytes, 1, sizeof bytes - 1, file)] = '\0';
    fclose(file);
    return bytes;
}

static void write_record(struct bench_of *at, const char *content) {
    FILE *file = fopen(at->record_path, "wb");
    assert_non_null(file);
    fputs(content, file);
    assert_int_equal(fclose(file), 0);
}

static const char *code_of(const struct bench_of *at, size_t message) {
    return message < at->messages.count ? at->messages.item[message].code : "(none)";
}

static const char head[] = "gorewright bench record 1\ndesign Starter\n";

/* The lines after the head, shapes left out. */
static const char *ticks_of(const char *path) {
    static char ticks[65536];
    char *out = ticks;
    *out = '\0';
    for (char *line = strtok(content_of(path), "\n"); line != NULL; line = strtok(NULL, "\n"))
        if (strncmp(line, "shape ", 6) != 0 && strncmp(line, "gorewright ", 11) != 0 &&
            strncmp(line, "design ", 7) != 0)
            out += sprintf(out, "%s\n", line);
    return ticks;
}

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
        char name[8];
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
            char name[8];
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

/* ---- others at work --------------------------------------------------------------------- */

static void the_second_to_open_it_may_only_read_until_the_first_is_gone(void **state) {
    (void)state;
    struct bench_of first, second;
    begin(&first);
    reopen(&first);
    assert_true(set(&first, "F01", 1, TICK_CUT, true));
    second = first;
    second.record = NULL;
    second.messages = (struct diagnostics){0};
    assert_non_null(reopen(&second));
    assert_string_equal(code_of(&second, 0), "reads-only");
    assert_non_null(record_reads_only(second.record));
    assert_int_equal(record_progress(second.record, "F01", 1), 2);
    assert_false(set(&second, "F01", 2, TICK_CUT, true));
    assert_int_equal(record_progress(second.record, "F01", 2), 0);
    assert_true(set(&first, "F01", 3, TICK_CUT, true));
    close_record(&first);
    assert_non_null(reopen(&second));
    assert_null(record_reads_only(second.record));
    assert_true(set(&second, "F01", 2, TICK_CUT, true));
    close_record(&second);
    end(&first);
}

static void two_that_begin_a_record_at_once_do_not_write_over_each_other(void **state) {
    (void)state;
    struct bench_of first, second;
    begin(&first);
    reopen(&first);
    second = first;
    second.record = NULL;
    second.messages = (struct diagnostics){0};
    assert_non_null(reopen(&second));
    assert_true(set(&first, "F01", 1, TICK_MARKED, true));
    assert_false(set(&second, "F01", 2, TICK_MARKED, true));
    assert_non_null(record_reads_only(second.record));
    assert_string_equal(ticks_of(first.record_path), "marked F01 gore 1\n");
    assert_true(set(&first, "F01", 3, TICK_MARKED, true));
    close_record(&second);
    end(&first);
}

/* The tail of a line that the first is writing is not the reader's to cut off. */
static void one_that_only_reads_changes_nothing(void **state) {
    (void)state;
    struct bench_of at, other;
    begin(&at);
    reopen(&at);
    assert_true(set(&at, "F01", 1, TICK_MARKED, true));
    FILE *file = fopen(at.record_path, "ab");
    fputs("marked F01 go", file);
    fclose(file);
    char before[512];
    snprintf(before, sizeof before, "%s", content_of(at.record_path));
    other = at;
    other.record = NULL;
    other.messages = (struct diagnostics){0};
    assert_non_null(reopen(&other));
    assert_string_equal(content_of(at.record_path), before);
    close_record(&other);
    end(&at);
}

static void a_record_changed_by_an_editor_meanwhile_is_not_written_into(void **state) {
    (void)state;
    for (int how = 0; how < 3; how++) {
        struct bench_of at;
        begin(&at);
        reopen(&at);
        assert_true(set(&at, "F01", 1, TICK_MARKED, true));
        char longer[512], other[320];
        snprintf(longer, sizeof longer, "%s# a note\n", content_of(at.record_path));
        snprintf(other, sizeof other, "%s~", at.record_path);
        if (how == 1)
            assert_int_equal(rename(at.record_path, other), 0);
        if (how == 2)
            unlink(at.record_path);
        else
            write_record(&at, longer);
        assert_false(set(&at, "F01", 2, TICK_MARKED, true));
        assert_string_equal(code_of(&at, 0), "reads-only");
        assert_int_equal(record_progress(at.record, "F01", 2), 0);
        if (how != 2)
            assert_string_equal(content_of(at.record_path), longer);
        assert_non_null(reopen(&at));
        assert_true(set(&at, "F01", 2, TICK_MARKED, true));
        end(&at);
    }
}

/* ---- a disk that does not take it ---------------------------------------------------------- */

/* Run in a child process that may not do as root does.  Returns: its exit status. */
static int as_nobody(int (*act)(struct bench_of *), struct bench_of *at) {
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (geteuid() == 0 && (setgroups(0, NULL) != 0 || setgid(65534) != 0 || setuid(65534) != 0))
            _exit(99);
        _exit(act(at));
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 100;
}

/* 0 when it opens to be read only, says so, and refuses a tick. */
static int reads_only(struct bench_of *at) {
    if (reopen(at) == NULL || record_reads_only(at->record) == NULL)
        return 1;
    if (at->messages.warnings != 1 || at->messages.errors != 0)
        return 2;
    if (record_set(at->record, &at->envelope->piece[0], 5, TICK_CUT, true, &at->messages))
        return 3;
    return record_progress(at->record, at->envelope->piece[0].name, 5) == 0 ? 0 : 4;
}

static void write_protection_is_told_of_at_once(void **state) {
    (void)state;
    struct bench_of at;
    char folder[280];
    begin(&at);
    assert_int_equal(chmod(scratch_folder(), 0755), 0);
    snprintf(folder, sizeof folder, "%s/protected", scratch_folder());
    assert_int_equal(mkdir(folder, 0755), 0);
    snprintf(at.path, sizeof at.path, "%s/protected/design.cfg", scratch_folder());
    snprintf(at.record_path, sizeof at.record_path, "%s.bench", at.path);
    FILE *file = fopen(at.path, "w");
    assert_non_null(file);
    fclose(file);
    assert_int_equal(chmod(folder, 0555), 0);
    assert_int_equal(as_nobody(reads_only, &at), 0); /* no record yet, none to be begun */
    assert_int_equal(chmod(folder, 0755), 0);
    write_record(&at, "gorewright bench record 1\ndesign Starter\ncut F01 gore 1\n");
    assert_int_equal(chmod(at.record_path, 0444), 0);
    assert_int_equal(as_nobody(reads_only, &at), 0); /* a record that may only be read */
    assert_string_equal(ticks_of(at.record_path), "cut F01 gore 1\n");
    end(&at);
}

static void a_full_disk_refuses_the_tick_and_leaves_the_record_whole(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    reopen(&at);
    assert_true(set(&at, "F01", 1, TICK_MARKED, true));
    char before[1024];
    snprintf(before, sizeof before, "%s", content_of(at.record_path));
    struct rlimit limit;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    for (size_t room = 0; room < 40; room++) {
        struct rlimit tight = {strlen(before) + room, limit.rlim_max};
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &tight), 0);
        bool done = set(&at, "F01", 2, TICK_CUT, true);
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
        assert_false(done);
        assert_int_equal(record_progress(at.record, "F01", 2), 0);
        assert_string_equal(content_of(at.record_path), before);
    }
    assert_string_equal(code_of(&at, 0), "bench-file");
    assert_non_null(strstr(at.messages.item[0].text, "make room"));
    signal(SIGXFSZ, handler);
    assert_true(set(&at, "F01", 2, TICK_CUT, true));
    reopen(&at);
    assert_int_equal(record_progress(at.record, "F01", 2), 2);
    end(&at);
}

static void a_disk_too_full_to_begin_a_record_leaves_one_that_can_be_begun(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    reopen(&at);
    struct rlimit limit;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    struct rlimit tight = {20, limit.rlim_max};
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &tight), 0);
    bool done = set(&at, "F01", 2, TICK_CUT, true);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    signal(SIGXFSZ, handler);
    assert_false(done);
    assert_non_null(reopen(&at));
    assert_int_equal(at.messages.count, 0);
    assert_true(set(&at, "F01", 2, TICK_CUT, true));
    end(&at);
}

/* What this program does when it is started again with "tick" and the path of a design: one tick,
 * told of with a "+" on standard output. */
static int tick_once(const char *path) {
    struct bench_of at = {.record = NULL};
    snprintf(at.path, sizeof at.path, "%s", path);
    design_starter(&at.design);
    build(&at);
    bool done = reopen(&at) != NULL &&
                record_set(at.record, &at.envelope->piece[0], 1, TICK_CUT, true, &at.messages);
    if (done && write(STDOUT_FILENO, "+", 1) != 1)
        done = false;
    end(&at);
    return done ? 0 : 1;
}

static const char *myself;

static int tick_under_strace(const struct bench_of *at, const char *options, const char *trace) {
    char command[1024];
    snprintf(command, sizeof command,
             "ASAN_OPTIONS=detect_leaks=0 strace -qq -s 9 -o %s %s %s tick %s >/dev/null", trace,
             options, myself, at->path);
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 100;
}

static void a_tick_is_on_the_disk_before_it_is_told_of(void **state) {
    (void)state;
    struct bench_of at;
    char trace[300];
    begin(&at);
    snprintf(trace, sizeof trace, "%s/trace", scratch_folder());
    assert_int_equal(tick_under_strace(&at, "-e trace=write,fsync,fdatasync", trace), 0);
    char *content = content_of(trace);
    char *folder = strstr(content, "fsync("), *line = strstr(content, "\"gorewrigh\"...");
    assert_non_null(folder);
    assert_non_null(line);
    char *synced = strstr(line, "fdatasync("), *told = strstr(content, "\"+\"");
    assert_non_null(synced);
    assert_non_null(told);
    assert_true(folder < line && line < synced && synced < told);
    end(&at);
}

static void a_disk_that_fails_refuses_the_tick_and_leaves_the_record_whole(void **state) {
    (void)state;
    static const char *const faults[] = {"-e inject=fdatasync:error=EIO",
                                         "-e inject=ftruncate,fdatasync:error=EIO"};
    for (size_t i = 0; i < COUNT_OF(faults); i++) {
        struct bench_of at;
        begin(&at);
        reopen(&at);
        assert_true(set(&at, "F02", 2, TICK_MARKED, true));
        close_record(&at);
        assert_int_equal(tick_under_strace(&at, faults[i], "/dev/null"), 1);
        assert_non_null(reopen(&at));
        assert_int_equal(record_progress(at.record, "F02", 2), 1);
        if (i == 0)
            assert_string_equal(ticks_of(at.record_path), "marked F02 gore 2\n");
        end(&at);
    }
}

/* ---- kill -9 ----------------------------------------------------------------------------------
 */

struct blow { /* one tick of a long evening, the same each time it is asked for */
    size_t template, gore;
    enum tick tick;
    bool on;
};

static struct blow blow_of(int number) {
    struct dice dice = {(uint64_t)number * 7919u + 5u};
    return (struct blow){(size_t)dice_whole(&dice, 0, 7), (size_t)dice_whole(&dice, 1, 16),
                         (enum tick)dice_whole(&dice, 0, 2), dice_whole(&dice, 0, 4) > 0};
}

static void tick_away(struct bench_of *at, int from, int acknowledge) {
    if (reopen(at) == NULL)
        _exit(1);
    for (int i = from;; i++) {
        struct blow blow = blow_of(i);
        if (!record_set(at->record, &at->envelope->piece[blow.template], blow.gore, blow.tick,
                        blow.on, &at->messages))
            _exit(2);
        if (write(acknowledge, "+", 1) != 1)
            _exit(3);
    }
}

static void after(int want[8][17], int number) {
    struct blow blow = blow_of(number);
    int *now = &want[blow.template][blow.gore], tick = (int)blow.tick;
    *now = blow.on && *now < tick + 1 ? tick + 1 : !blow.on && *now > tick ? tick : *now;
}

static bool stands(const struct bench_of *at, int want[8][17]) {
    for (size_t t = 0; t < 8; t++)
        for (size_t gore = 1; gore <= 16; gore++)
            if (record_progress(at->record, at->envelope->piece[t].name, gore) != want[t][gore])
                return false;
    return true;
}

/* Of a killed process every tick it was told of is there, and at most the one it was about to
 * be told of on top. */
static void no_acknowledged_tick_is_lost_when_it_is_killed(void **state) {
    (void)state;
    enum { KILLS = 250 };
    struct bench_of at;
    struct dice dice = {99};
    int want[8][17] = {{0}}, number = 0, unacknowledged = 0;
    begin(&at);
    for (int kill_number = 0; kill_number < KILLS; kill_number++) {
        int ends[2], acknowledged = 0, status;
        char sign;
        assert_int_equal(pipe(ends), 0);
        pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            close(ends[0]);
            tick_away(&at, number, ends[1]);
        }
        close(ends[1]);
        int enough = dice_whole(&dice, 0, 12);
        while (acknowledged < enough && read(ends[0], &sign, 1) == 1)
            acknowledged++;
        struct timespec moment = {0, (long)dice_between(&dice, 0, 900e3)};
        nanosleep(&moment, NULL);
        kill(child, SIGKILL);
        while (read(ends[0], &sign, 1) == 1)
            acknowledged++;
        close(ends[0]);
        assert_int_equal(waitpid(child, &status, 0), child);
        assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
        for (int i = 0; i < acknowledged; i++)
            after(want, number++);
        assert_non_null(reopen(&at));
        assert_int_equal(at.messages.errors, 0);
        if (!stands(&at, want)) {
            after(want, number++);
            unacknowledged++;
            assert_true(stands(&at, want));
        }
        close_record(&at);
    }
    print_message("%d ticks, %d kills, %d of them after the line and before the word\n", number,
                  KILLS, unacknowledged);
    assert_true(number > KILLS);
    end(&at);
}

int main(int count, char *argument[]) {
    if (count == 3 && strcmp(argument[1], "tick") == 0)
        return tick_once(argument[2]);
    myself = argument[0];
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
        cmocka_unit_test(the_record_of_another_design_is_used_and_warned_of_once_ticked),
        cmocka_unit_test(any_bytes_in_a_record_are_survived_and_kept),
        cmocka_unit_test(no_number_of_names_or_lines_slows_it_down_beyond_bearing),
        cmocka_unit_test(a_file_that_is_no_bench_record_is_refused_and_left_alone),
        cmocka_unit_test(folders_pipes_dead_links_and_giants_are_refused),
        cmocka_unit_test(a_record_never_grows_beyond_what_can_be_opened_again),
        cmocka_unit_test(a_link_to_the_design_finds_the_record_beside_the_design),
        cmocka_unit_test(a_new_record_has_the_mode_that_the_umask_leaves),
        cmocka_unit_test(the_second_to_open_it_may_only_read_until_the_first_is_gone),
        cmocka_unit_test(two_that_begin_a_record_at_once_do_not_write_over_each_other),
        cmocka_unit_test(one_that_only_reads_changes_nothing),
        cmocka_unit_test(a_record_changed_by_an_editor_meanwhile_is_not_written_into),
        cmocka_unit_test(write_protection_is_told_of_at_once),
        cmocka_unit_test(a_full_disk_refuses_the_tick_and_leaves_the_record_whole),
        cmocka_unit_test(a_disk_too_full_to_begin_a_record_leaves_one_that_can_be_begun),
        cmocka_unit_test(a_tick_is_on_the_disk_before_it_is_told_of),
        cmocka_unit_test(a_disk_that_fails_refuses_the_tick_and_leaves_the_record_whole),
        cmocka_unit_test(no_acknowledged_tick_is_lost_when_it_is_killed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
