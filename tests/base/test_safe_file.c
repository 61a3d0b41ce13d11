/* test_safe_file.c - files written whole or not at all; what the program's own tests of output
 * (tests/command/test_output.c) cannot reach. */
#define _XOPEN_SOURCE 700 /* realpath */

#include "support.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *path_of(const char *name) {
    static char paths[8][256];
    static size_t next;
    char *path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", scratch_folder(), name);
    return path;
}

static int write_text(const char *path, unsigned mode, const char *content, char says[256]) {
    struct text text = {0}, complaint = {0};
    text_add(&text, "%s", content);
    int wrong = file_write(path, mode, &text, &complaint);
    snprintf(says, 256, "%s", complaint.bytes == NULL ? "" : complaint.bytes);
    text_free(&text);
    text_free(&complaint);
    return wrong;
}

static void assert_holds(const char *path, const char *content) {
    struct text text = {0};
    assert_int_equal(file_read(path, 1000, &text), 0);
    assert_string_equal(text.bytes == NULL ? "" : text.bytes, content);
    text_free(&text);
}

static unsigned mode_of(const char *path) {
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    return about.st_mode & 07777;
}

static void a_new_file_gets_the_mode_asked_for_less_the_umask(void **state) {
    (void)state;
    char says[256];
    mode_t before = umask(027);
    assert_int_equal(write_text(path_of("open"), 0666, "a", says), 0);
    assert_int_equal(write_text(path_of("private"), 0600, "b", says), 0);
    umask(before);
    assert_int_equal(mode_of(path_of("open")), 0640);
    assert_int_equal(mode_of(path_of("private")), 0600);
    assert_string_equal(says, "");
}

static void an_existing_file_keeps_its_mode_and_a_link_stays_a_link(void **state) {
    (void)state;
    char says[256];
    struct stat link;
    const char *file = scratch_file("target", "old");
    assert_int_equal(chmod(file, 0604), 0);
    assert_int_equal(symlink("target", path_of("link")), 0);
    assert_int_equal(write_text(path_of("link"), 0600, "new", says), 0);
    assert_holds(file, "new");
    assert_int_equal(mode_of(file), 0604);
    assert_int_equal(lstat(path_of("link"), &link), 0);
    assert_true(S_ISLNK(link.st_mode));
}

static void what_cannot_be_a_file_is_refused_in_words(void **state) {
    (void)state;
    char says[256];
    assert_int_equal(write_text("", 0666, "x", says), -1);
    assert_string_equal(says, "a file needs a name; give one");
    assert_int_equal(write_text(scratch_folder(), 0666, "x", says), -1);
    assert_non_null(strstr(says, "is a folder"));
    assert_int_equal(write_text(path_of("no/where"), 0666, "x", says), -1);
    assert_non_null(strstr(says, "make the folder first"));
    assert_int_equal(write_text("/dev/null", 0666, "x", says), -1);
    assert_non_null(strstr(says, "not a plain file"));
}

static void a_text_that_memory_was_too_short_for_is_not_written(void **state) {
    (void)state;
    struct text text = {.failed = true}, complaint = {0};
    const char *file = scratch_file("kept", "old");
    assert_int_equal(file_write(file, 0666, &text, &complaint), -1);
    assert_holds(file, "old");
    assert_non_null(strstr(complaint.bytes, "cannot write"));
    text_free(&complaint);
}

/* ---- signals ----------------------------------------------------------- */

static volatile sig_atomic_t caught;

static void catch_it(int number) {
    (void)number;
    caught = 1;
}

/* Write while a SIGTERM waits, which `handler` is to receive. */
static int write_while_waiting(void (*handler)(int), const char *path, char says[256]) {
    struct sigaction action = {.sa_handler = handler}, before;
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigset_t term, mask;
    sigemptyset(&term);
    sigaddset(&term, SIGTERM);
    sigaction(SIGTERM, &action, &before);
    sigprocmask(SIG_BLOCK, &term, &mask);
    raise(SIGTERM);
    int wrong = write_text(path, 0666, "new", says);
    if (handler == SIG_DFL) /* not to end this test */
        sigaction(SIGTERM, &ignore, NULL);
    sigprocmask(SIG_SETMASK, &mask, NULL);
    sigaction(SIGTERM, &before, NULL);
    return wrong;
}

static void a_deadly_signal_breaks_off_with_the_old_file_whole(void **state) {
    (void)state;
    char says[256];
    const char *file = scratch_file("deadly", "old");
    assert_int_equal(write_while_waiting(SIG_DFL, file, says), -1);
    assert_non_null(strstr(says, "the old file is as it was"));
    assert_holds(file, "old");
}

static void a_signal_that_is_handled_does_not_break_off(void **state) {
    (void)state;
    char says[256];
    const char *file = scratch_file("handled", "old");
    caught = 0;
    assert_int_equal(write_while_waiting(catch_it, file, says), 0);
    assert_holds(file, "new");
    assert_int_equal(caught, 1);
}

/* ---- reading, names, sweeping ------------------------------------------ */

static void reading_takes_plain_files_of_a_bounded_length(void **state) {
    (void)state;
    struct text text = {0};
    const char *file = scratch_file("ten", "0123456789");
    assert_int_equal(file_read(file, 10, &text), 0);
    assert_int_equal(text.length, 10);
    text_free(&text);
    assert_int_equal(file_read(file, 9, &text), EFBIG);
    text_free(&text);
    assert_int_equal(file_read(path_of("nothing"), 9, &text), ENOENT);
    assert_int_equal(file_read(scratch_folder(), 9, &text), EISDIR);
    assert_int_equal(mkfifo(path_of("pipe"), 0600), 0);
    assert_int_equal(file_read(path_of("pipe"), 9, &text), EINVAL);
    text_free(&text);
}

static void a_name_is_resolved_also_before_the_file_is_there(void **state) {
    (void)state;
    char *folder = realpath(scratch_folder(), NULL), wanted[300];
    assert_int_equal(mkdir(path_of("real"), 0700), 0);
    assert_int_equal(symlink("real", path_of("by-link")), 0);
    char *name = file_resolved(path_of("by-link/new.cfg"));
    snprintf(wanted, sizeof wanted, "%s/real/new.cfg", folder);
    assert_string_equal(name, wanted);
    free(name);
    scratch_file("real/new.cfg", "x");
    name = file_resolved(path_of("by-link/new.cfg"));
    assert_string_equal(name, wanted);
    free(name);
    free(folder);
    assert_null(file_resolved(path_of("no/where")));
    assert_int_equal(errno, ENOENT);
    assert_int_equal(symlink("lost", path_of("dangling")), 0);
    assert_null(file_resolved(path_of("dangling")));
}

static bool there(const char *path) {
    return access(path, F_OK) == 0;
}

static void only_temporaries_of_the_dead_are_swept(void **state) {
    (void)state;
    char names[4][128];
    pid_t dead = fork();
    if (dead == 0)
        _exit(0);
    assert_int_equal(waitpid(dead, NULL, 0), dead);
    snprintf(names[0], sizeof names[0], "sweep/.gorewright-%ld-3.tmp", (long)dead);
    snprintf(names[1], sizeof names[1], "sweep/.gorewright-%ld-0.tmp", (long)getpid());
    snprintf(names[2], sizeof names[2], "sweep/.gorewright-%ld-0.tmp.mine", (long)dead);
    snprintf(names[3], sizeof names[3], "sweep/gorewright-%ld-0.tmp", (long)dead);
    assert_int_equal(mkdir(path_of("sweep"), 0700), 0);
    for (size_t i = 0; i < 4; i++)
        scratch_file(names[i], "x");
    file_sweep(path_of("sweep/design.cfg"));
    assert_false(there(path_of(names[0])));
    for (size_t i = 1; i < 4; i++)
        assert_true(there(path_of(names[i])));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_file_gets_the_mode_asked_for_less_the_umask),
        cmocka_unit_test(an_existing_file_keeps_its_mode_and_a_link_stays_a_link),
        cmocka_unit_test(what_cannot_be_a_file_is_refused_in_words),
        cmocka_unit_test(a_text_that_memory_was_too_short_for_is_not_written),
        cmocka_unit_test(a_deadly_signal_breaks_off_with_the_old_file_whole),
        cmocka_unit_test(a_signal_that_is_handled_does_not_break_off),
        cmocka_unit_test(reading_takes_plain_files_of_a_bounded_length),
        cmocka_unit_test(a_name_is_resolved_also_before_the_file_is_there),
        cmocka_unit_test(only_temporaries_of_the_dead_are_swept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
