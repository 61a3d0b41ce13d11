/* test_record_kept.c - ticks kept through others at work, failing disks and kill -9. */
#include "support.h"

#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "shop/with_record.h"

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

static void a_link_put_in_its_place_before_it_begins_is_not_followed(void **state) {
    (void)state;
    struct bench_of at;
    char elsewhere[280];
    begin(&at);
    reopen(&at);
    snprintf(elsewhere, sizeof elsewhere, "%s/not-to-be-made", scratch_folder());
    assert_int_equal(symlink(elsewhere, at.record_path), 0);
    assert_false(set(&at, "F01", 1, TICK_MARKED, true));
    assert_int_equal(access(elsewhere, F_OK), -1);
    end(&at);
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

/* 0 when it opens to be read only, says so, and refuses a tick. */
static int reads_only(void *given) {
    struct bench_of *at = given;
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
    assert_non_null(strstr(at.messages.item[0].text, "ulimit -f"));
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
    for (size_t i = 0; i < at.messages.count; i++)
        fputs(at.messages.item[i].text, stderr);
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
    assert_int_equal(tick_under_strace(&at, "-e trace=write,fsync", trace), 0);
    char *content = content_of(trace);
    char *folder = strstr(content, "fsync("), *line = strstr(content, "\"gorewrigh\"...");
    assert_non_null(folder);
    assert_non_null(line);
    char *synced = strstr(line, "fsync("), *told = strstr(content, "\"+\"");
    assert_non_null(synced);
    assert_non_null(told);
    assert_true(folder < line && line < synced && synced < told);
    end(&at);
}

static void a_disk_that_fails_refuses_the_tick_and_leaves_the_record_whole(void **state) {
    (void)state;
    static const char *const faults[] = {"-e inject=fsync:error=EIO",
                                         "-e inject=ftruncate,fsync:error=EIO"};
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

static void an_interrupted_flush_is_asked_for_again(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    assert_int_equal(tick_under_strace(&at, "-e inject=fsync:error=EINTR:when=1..3", "/dev/null"),
                     0);
    assert_non_null(reopen(&at));
    assert_int_equal(record_progress(at.record, "F01", 1), 2);
    end(&at);
}

/* Without its name on the disk it would be gone after a power cut. */
static void a_record_whose_folder_the_disk_does_not_take_is_not_begun(void **state) {
    (void)state;
    struct bench_of at;
    begin(&at);
    assert_int_equal(tick_under_strace(&at, "-e inject=fsync:error=EIO:when=1", "/dev/null"), 1);
    assert_int_equal(access(at.record_path, F_OK), -1);
    assert_int_equal(tick_under_strace(&at, "-e inject=fsync:error=EINVAL:when=1", "/dev/null"),
                     0); /* a file system that knows no such thing */
    end(&at);
}

/* The bench has one line of 80 columns for it: what is wrong and what to do both fit. */
static void why_a_tick_is_not_kept_fits_on_one_line(void **state) {
    (void)state;
    static const char *const faults[] = {"ENOSPC", "EDQUOT", "EFBIG", "EIO"};
    for (size_t i = 0; i < COUNT_OF(faults); i++) {
        struct bench_of at;
        char told[300], options[64], command[1024];
        begin(&at);
        snprintf(told, sizeof told, "%s/told", scratch_folder());
        snprintf(options, sizeof options, "-e inject=write:error=%s:when=1", faults[i]);
        snprintf(command, sizeof command,
                 "ASAN_OPTIONS=detect_leaks=0 strace -qq -o /dev/null %s %s tick %s 2>%s", options,
                 myself, at.path, told);
        assert_int_not_equal(system(command), 0);
        char *text = content_of(told);
        if (strlen(text) > 78 || strchr(text, ';') == NULL)
            fail_msg("%s: %zu columns: %s", faults[i], strlen(text), text);
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
        cmocka_unit_test(the_second_to_open_it_may_only_read_until_the_first_is_gone),
        cmocka_unit_test(two_that_begin_a_record_at_once_do_not_write_over_each_other),
        cmocka_unit_test(a_link_put_in_its_place_before_it_begins_is_not_followed),
        cmocka_unit_test(one_that_only_reads_changes_nothing),
        cmocka_unit_test(a_record_changed_by_an_editor_meanwhile_is_not_written_into),
        cmocka_unit_test(write_protection_is_told_of_at_once),
        cmocka_unit_test(a_full_disk_refuses_the_tick_and_leaves_the_record_whole),
        cmocka_unit_test(a_disk_too_full_to_begin_a_record_leaves_one_that_can_be_begun),
        cmocka_unit_test(a_tick_is_on_the_disk_before_it_is_told_of),
        cmocka_unit_test(a_disk_that_fails_refuses_the_tick_and_leaves_the_record_whole),
        cmocka_unit_test(an_interrupted_flush_is_asked_for_again),
        cmocka_unit_test(a_record_whose_folder_the_disk_does_not_take_is_not_begun),
        cmocka_unit_test(why_a_tick_is_not_kept_fits_on_one_line),
        cmocka_unit_test(no_acknowledged_tick_is_lost_when_it_is_killed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
