/* test_session_file.c - the file of a design being worked on, and its lock. */
#include <fcntl.h>
#include <pwd.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include "screen/with_session.h"

/* ---- saving ------------------------------------------------------------ */

static void what_is_saved_opens_the_same_and_is_not_changed(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_saves(session, NULL, false, SAVE_FAILED, "no file yet");
    change(session, "gores.style", "billowed", false);
    assert_saves(session, path_of("new.cfg"), false, SAVED, "");
    assert_false(session->changed);
    assert_string_equal(session->path, path_of("new.cfg"));
    assert_false(there("new.cfg.before"));
    change(session, "gores.count", "12", false);
    assert_true(session->changed);
    assert_saves(session, NULL, false, SAVED, "");
    assert_false(there("new.cfg.before")); /* written by the program: nothing to keep */
    struct design design = session->design;
    session_undo(session);
    assert_true(session->changed);
    session_redo(session);
    assert_false(session->changed);
    session_free(session);
    session = opened(path_of("new.cfg"));
    assert_true(design_same(&session->design, &design));
    assert_int_equal(session->messages.errors, 0);
    session_free(session);
}

static void a_file_written_by_hand_is_kept_once(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("owl.cfg", plain));
    assert_int_equal(chmod(path_of("owl.cfg"), 0640), 0);
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_holds("owl.cfg.before", plain);
    change(session, "gores.count", "14", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_holds("owl.cfg.before", plain);
    assert_false(there("owl.cfg.before2"));
    struct stat about;
    assert_int_equal(stat(path_of("owl.cfg"), &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
    session_free(session);
    /* Notes added later are other notes. */
    session = opened(scratch_file("owl.cfg", "# more\nformat = 1; size: { height = 2; };\n"));
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_holds("owl.cfg.before", plain);
    assert_holds("owl.cfg.before2", "# more\nformat = 1; size: { height = 2; };\n");
    session_free(session);
}

static void the_starter_as_the_program_writes_it_is_not_kept(void **state) {
    (void)state;
    struct text text = {0};
    struct design starter;
    design_starter(&starter);
    design_write(&starter, WRITE_COMMENTED, &text);
    struct session *session = opened(scratch_file("starter.cfg", text.bytes));
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_false(there("starter.cfg.before"));
    session_free(session);
    text_free(&text);
}

static void a_file_changed_by_others_is_overwritten_only_when_asked(void **state) {
    (void)state;
    static const char theirs[] = "format = 1; name = \"Own\"; size: { height = 2.5; };\n";
    struct session *session = opened(scratch_file("shared.cfg", plain));
    change(session, "gores.count", "12", false);
    scratch_file("shared.cfg", theirs);
    assert_saves(session, NULL, false, SAVE_ASK, "changed by another program");
    assert_holds("shared.cfg", theirs);
    assert_true(session->changed);
    assert_saves(session, NULL, true, SAVED, "");
    assert_holds("shared.cfg.before", theirs);
    assert_saves(session, NULL, false, SAVED, ""); /* now it is its own */
    session_free(session);
}

static void a_change_of_the_same_length_is_noticed(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("same.cfg", plain));
    char other[sizeof plain];
    memcpy(other, plain, sizeof plain);
    strstr(other, "2.5")[0] = '3';
    scratch_file("same.cfg", other);
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVE_ASK, "changed by another program");
    scratch_file("same.cfg", plain); /* as it was: nothing to ask */
    assert_saves(session, NULL, false, SAVED, "");
    session_free(session);
}

static void a_file_that_has_gone_is_written_again(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("gone.cfg", plain));
    assert_int_equal(unlink(path_of("gone.cfg")), 0);
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_true(there("gone.cfg"));
    session_free(session);
}

static void saving_under_another_name_takes_that_name(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("first.cfg", plain));
    scratch_file("taken.cfg", "a shopping list\n");
    assert_saves(session, path_of("taken.cfg"), false, SAVE_ASK, "a file of this name already");
    assert_holds("taken.cfg", "a shopping list\n");
    assert_string_equal(session->path, path_of("first.cfg"));
    assert_true(there("first.cfg.lock"));
    assert_false(there("taken.cfg.lock"));
    assert_saves(session, path_of("second.cfg"), false, SAVED, "");
    assert_string_equal(session->path, path_of("second.cfg"));
    assert_holds("first.cfg", plain);
    assert_false(there("first.cfg.lock"));
    assert_true(there("second.cfg.lock"));
    assert_saves(session, path_of("taken.cfg"), true, SAVED, "");
    assert_holds("taken.cfg.before", "a shopping list\n");
    session_free(session);
    assert_false(there("taken.cfg.lock"));
}

static void where_no_file_can_be_nothing_is_lost(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("still.cfg", plain));
    change(session, "gores.count", "12", false);
    assert_saves(session, scratch_folder(), true, SAVE_FAILED, "is a folder");
    assert_saves(session, path_of("no/where.cfg"), false, SAVE_FAILED, "make the folder first");
    assert_saves(session, "/dev/null", true, SAVE_FAILED, "device");
    assert_true(session->changed);
    assert_string_equal(session->path, path_of("still.cfg"));
    assert_saves(session, NULL, false, SAVED, "");
    session_free(session);
}

static void a_full_disk_leaves_the_old_file_and_the_work(void **state) {
    (void)state;
    struct rlimit before, small;
    struct session *session = opened(scratch_file("full.cfg", plain));
    change(session, "gores.count", "12", false);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 200; /* enough for the copy of the old file, not for the new one */
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    assert_saves(session, NULL, false, SAVE_FAILED, "the old file is as it was");
    assert_saves(session, path_of("full-too.cfg"), false, SAVE_FAILED, "nothing was left there");
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_holds("full.cfg", plain);
    assert_false(there("full-too.cfg"));
    assert_false(there("full-too.cfg.lock"));
    assert_true(session->changed);
    assert_saves(session, NULL, false, SAVED, "");
    assert_holds("full.cfg.before", plain);
    assert_false(there("full.cfg.before2"));
    session_free(session);
}

static void a_link_is_saved_through(void **state) {
    (void)state;
    struct stat about;
    scratch_file("real.cfg", plain);
    assert_int_equal(symlink("real.cfg", path_of("link.cfg")), 0);
    struct session *session = opened(path_of("link.cfg"));
    assert_true(there("real.cfg.lock")); /* one lock whatever the name */
    change(session, "gores.count", "12", false);
    assert_saves(session, NULL, false, SAVED, "");
    assert_int_equal(lstat(path_of("link.cfg"), &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_holds("real.cfg.before", plain);
    session_free(session);
}

/* ---- the lock ---------------------------------------------------------- */

static void a_second_session_on_one_design_only_reads(void **state) {
    (void)state;
    struct session *first = opened(scratch_file("pair.cfg", plain));
    assert_int_equal(symlink("pair.cfg", path_of("alias.cfg")), 0);
    struct session *second = opened(path_of("alias.cfg"));
    assert_false(first->reads_only);
    assert_true(second->reads_only);
    change(second, "gores.count", "12", false);
    assert_saves(second, NULL, true, SAVE_FAILED, "another window");
    assert_holds("pair.cfg", plain);
    assert_saves(second, path_of("pair-copy.cfg"), false, SAVED, "");
    assert_false(second->reads_only);
    assert_saves(second, path_of("pair.cfg"), true, SAVE_FAILED, "another window");
    session_free(second);
    assert_true(there("pair.cfg.lock"));
    session_free(first);
    assert_false(there("pair.cfg.lock"));
    first = opened(path_of("pair.cfg"));
    assert_false(first->reads_only);
    session_free(first);
}

static void the_lock_of_a_killed_program_does_not_hold(void **state) {
    (void)state;
    scratch_file("killed.cfg", plain);
    pid_t other = fork();
    if (other == 0) {
        struct diagnostics messages = {0};
        session_open(path_of("killed.cfg"), &messages);
        kill(getpid(), SIGKILL);
    }
    assert_int_equal(waitpid(other, NULL, 0), other);
    assert_true(there("killed.cfg.lock"));
    struct session *session = opened(path_of("killed.cfg"));
    assert_false(session->reads_only);
    session_free(session);
    assert_false(there("killed.cfg.lock"));
}

static void the_lock_can_be_read_by_all_and_another_process_meets_it(void **state) {
    (void)state;
    struct stat about;
    mode_t mask = umask(077);
    struct session *session = opened(scratch_file("met.cfg", plain));
    umask(mask);
    assert_int_equal(stat(path_of("met.cfg.lock"), &about), 0);
    assert_int_equal(about.st_mode & 07777, 0644);
    pid_t other = fork();
    if (other == 0) {
        int fd = open(path_of("met.cfg.lock"), O_RDWR);
        _exit(fd >= 0 && flock(fd, LOCK_EX | LOCK_NB) != 0 ? 7 : 0);
    }
    int status = 0;
    assert_int_equal(waitpid(other, &status, 0), other);
    assert_int_equal(WEXITSTATUS(status), 7);
    session_free(session);
}

/* Take the lock again and again; the mark shows when two hold it at once. */
static int contend(const char *path, const char *mark) {
    for (int i = 0; i < 2000; i++) {
        struct lock lock;
        if (lock_take(&lock, path) != LOCK_HELD)
            continue;
        int fd = open(mark, O_CREAT | O_EXCL | O_WRONLY, 0600);
        if (fd < 0)
            return 1;
        close(fd);
        unlink(mark);
        lock_drop(&lock);
    }
    return 0;
}

static void two_never_hold_one_lock_while_others_come_and_go(void **state) {
    (void)state;
    pid_t child[3];
    const char *path = scratch_file("crowd.cfg", plain), *mark = path_of("crowd.mark");
    for (size_t i = 0; i < COUNT_OF(child); i++)
        if ((child[i] = fork()) == 0)
            _exit(contend(path, mark));
    int together = 0, status = 0;
    for (size_t i = 0; i < COUNT_OF(child); i++) {
        assert_int_equal(waitpid(child[i], &status, 0), child[i]);
        together += status != 0;
    }
    assert_int_equal(together, 0);
}

/* Opened a second time in the place of itself, it is not met as another's. */
static void a_design_opened_again_in_its_own_place_keeps_its_lock(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct session *first = opened(scratch_file("again.cfg", plain));
    assert_int_equal(symlink("again.cfg", path_of("again-too.cfg")), 0);
    struct session *second = session_open_instead(first, path_of("again-too.cfg"), &messages);
    assert_non_null(second);
    assert_false(second->reads_only);
    session_free(first);
    assert_true(there("again.cfg.lock"));
    struct session *other = opened(path_of("again.cfg"));
    assert_true(other->reads_only);
    session_free(other);
    change(second, "gores.count", "12", false);
    assert_saves(second, NULL, false, SAVED, "");
    session_free(second);
    assert_false(there("again.cfg.lock"));
}

static void a_design_that_cannot_be_opened_again_leaves_the_old_one_its_lock(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    struct session *first = opened(scratch_file("spoilt.cfg", plain));
    scratch_file("spoilt.cfg", "format = 1; size: {");
    assert_null(session_open_instead(first, path_of("spoilt.cfg"), &messages));
    diagnostics_free(&messages);
    scratch_file("spoilt.cfg", plain);
    struct session *other = opened(path_of("spoilt.cfg"));
    assert_true(other->reads_only);
    session_free(other);
    change(first, "gores.count", "12", false);
    assert_saves(first, NULL, false, SAVED, "");
    session_free(first);
}

/* What somebody else meets who opens a design. */
struct meeting {
    const char *path;
    bool reads_only;
    const char *says; /* "": nothing */
};

static int meet(void *given) {
    const struct meeting *meeting = given;
    struct diagnostics messages = {0};
    struct session *session = session_open(meeting->path, &messages);
    if (session == NULL)
        return 1;
    const char *said = session->warning.bytes == NULL ? "" : session->warning.bytes;
    if (session->reads_only != meeting->reads_only)
        return 2;
    bool as_wanted =
        meeting->says[0] == '\0' ? said[0] == '\0' : strstr(said, meeting->says) != NULL;
    if (!as_wanted || strlen(said) > 156) { /* two rows of the screen */
        print_error("said: %s\n", said);
        return 3;
    }
    session_free(session);
    return 0;
}

/* A folder that anybody may write to; returns the path of a design in it. */
static const char *shared_design(const char *folder) {
    char name[64];
    assert_int_equal(chmod(scratch_folder(), 0755), 0);
    assert_int_equal(mkdir(path_of(folder), 0755), 0);
    assert_int_equal(chmod(path_of(folder), 0777), 0);
    snprintf(name, sizeof name, "%s/d.cfg", folder);
    const char *path = scratch_file(name, plain);
    assert_int_equal(chmod(path, 0666), 0);
    return path;
}

static void whose_lock_it_is_is_told_and_what_to_do(void **state) {
    (void)state;
    char says[64];
    const char *path = shared_design("locked");
    const struct passwd *me = getpwuid(geteuid());
    struct session *holder = opened(path);
    snprintf(says, sizeof says, "process %ld of user %s has this design open", (long)getpid(),
             me->pw_name);
    assert_int_equal(as_nobody(meet, &(struct meeting){path, true, says}), 0);
    session_free(holder);
    assert_int_equal(as_nobody(meet, &(struct meeting){path, false, ""}), 0);
    /* Left behind by a program that let nobody read it. */
    scratch_file("locked/d.cfg.lock", "");
    assert_int_equal(chmod(path_of("locked/d.cfg.lock"), 0), 0);
    snprintf(says, sizeof says, "d.cfg.lock is a lock of user %s.", me->pw_name);
    assert_int_equal(as_nobody(meet, &(struct meeting){path, true, says}), 0);
    assert_int_equal(as_nobody(meet, &(struct meeting){path, true, "remove that file"}), 0);
}

static void the_lock_another_user_left_behind_does_not_hold(void **state) {
    (void)state;
    const char *path = shared_design("left");
    scratch_file("left/d.cfg.lock", "1\n");
    assert_int_equal(chmod(path_of("left/d.cfg.lock"), 0444), 0);
    assert_int_equal(as_nobody(meet, &(struct meeting){path, false, ""}), 0);
}

static void write_protection_is_told_of_when_a_design_is_opened(void **state) {
    (void)state;
    const char *path = shared_design("protected");
    assert_int_equal(as_nobody(meet, &(struct meeting){path, false, ""}), 0);
    assert_int_equal(chmod(path, 0444), 0);
    assert_int_equal(
        as_nobody(meet, &(struct meeting){path, false, "This file is write-protected"}), 0);
    assert_int_equal(chmod(path, 0666), 0);
    assert_int_equal(chmod(path_of("protected"), 0555), 0);
    assert_int_equal(
        as_nobody(meet, &(struct meeting){path, false, "This folder is write-protected"}), 0);
    assert_int_equal(chmod(path_of("protected"), 0755), 0);
}

/* The limit on files that may be written has nothing to do with it. */
static void a_file_too_long_to_be_read_is_not_called_a_limit_on_writing(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("small.cfg", plain));
    FILE *file = fopen(path_of("giant.cfg"), "w");
    assert_non_null(file);
    assert_int_equal(fseek(file, FILE_BYTES_MOST, SEEK_SET), 0);
    assert_int_equal(fputc('x', file), 'x');
    assert_int_equal(fclose(file), 0);
    assert_saves(session, path_of("giant.cfg"), true, SAVE_FAILED, "longer than any design");
    session_free(session);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_saved_opens_the_same_and_is_not_changed),
        cmocka_unit_test(a_file_written_by_hand_is_kept_once),
        cmocka_unit_test(the_starter_as_the_program_writes_it_is_not_kept),
        cmocka_unit_test(a_file_changed_by_others_is_overwritten_only_when_asked),
        cmocka_unit_test(a_change_of_the_same_length_is_noticed),
        cmocka_unit_test(a_file_that_has_gone_is_written_again),
        cmocka_unit_test(saving_under_another_name_takes_that_name),
        cmocka_unit_test(where_no_file_can_be_nothing_is_lost),
        cmocka_unit_test(a_full_disk_leaves_the_old_file_and_the_work),
        cmocka_unit_test(a_link_is_saved_through),
        cmocka_unit_test(a_second_session_on_one_design_only_reads),
        cmocka_unit_test(the_lock_of_a_killed_program_does_not_hold),
        cmocka_unit_test(the_lock_can_be_read_by_all_and_another_process_meets_it),
        cmocka_unit_test(two_never_hold_one_lock_while_others_come_and_go),
        cmocka_unit_test(a_design_opened_again_in_its_own_place_keeps_its_lock),
        cmocka_unit_test(a_design_that_cannot_be_opened_again_leaves_the_old_one_its_lock),
        cmocka_unit_test(whose_lock_it_is_is_told_and_what_to_do),
        cmocka_unit_test(the_lock_another_user_left_behind_does_not_hold),
        cmocka_unit_test(write_protection_is_told_of_when_a_design_is_opened),
        cmocka_unit_test(a_file_too_long_to_be_read_is_not_called_a_limit_on_writing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
