/* test_recovery.c - work that was cut short, kept and found again. */
#include <sys/stat.h>

#include "screen/with_session.h"

/* ---- recovery ---------------------------------------------------------- */

static void assert_recovery_written(struct session *session) {
    struct diagnostics messages = {0};
    if (session_write_recovery(session, &messages) != 0)
        fail_msg("%s", messages.item[0].text);
}

static struct session *recovered(const char *path, const char *recovery) {
    struct diagnostics messages = {0};
    struct session *session = session_open_recovery(path, recovery, &messages);
    if (session == NULL)
        fail_msg("%s", messages.item[0].text);
    return session;
}

static void unsaved_work_is_kept_found_and_taken_up_again(void **state) {
    (void)state;
    struct stat about;
    struct session *session = opened(scratch_file("work.cfg", plain));
    assert_recovery_written(session); /* nothing unsaved: nothing kept */
    assert_null(session_find_recovery(path_of("work.cfg")));
    change(session, "gores.count", "12", false);
    assert_recovery_written(session);
    struct design design = session->design;
    session_free(session);
    char *recovery = session_find_recovery(path_of("work.cfg"));
    assert_string_equal(recovery, path_of(".work.cfg.recovery"));
    assert_int_equal(stat(recovery, &about), 0);
    assert_int_equal(about.st_mode & 07777, 0600);
    assert_holds("work.cfg", plain);
    session = recovered(path_of("work.cfg"), recovery);
    assert_true(design_same(&session->design, &design));
    assert_true(session->changed);
    assert_envelope_is_of_design(session);
    assert_string_equal(session->path, path_of("work.cfg"));
    assert_true(there(".work.cfg.recovery")); /* until it is saved */
    assert_saves(session, NULL, false, SAVED, "");
    assert_false(there(".work.cfg.recovery"));
    assert_holds("work.cfg.before", plain);
    session_free(session);
    free(recovery);
}

static void kept_work_does_not_overwrite_a_file_changed_since(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("later.cfg", plain));
    change(session, "gores.count", "12", false);
    assert_recovery_written(session);
    session_free(session);
    scratch_file("later.cfg", "format = 1; size: { height = 4; };\n");
    char *recovery = session_find_recovery(path_of("later.cfg"));
    session = recovered(path_of("later.cfg"), recovery);
    assert_saves(session, NULL, false, SAVE_ASK, "changed by another program");
    session_free(session);
    session_drop_recovery(NULL, recovery);
    assert_false(there(".later.cfg.recovery"));
    free(recovery);
}

static void broken_work_is_kept_too(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("torn.cfg", plain));
    change(session, "gores.mix", "fbbbb", true);
    assert_recovery_written(session);
    struct design design = session->design;
    session_free(session);
    char *recovery = session_find_recovery(path_of("torn.cfg"));
    session = recovered(path_of("torn.cfg"), recovery);
    assert_true(design_same(&session->design, &design));
    assert_int_equal(session->messages.errors, 1);
    session_drop_recovery(session, NULL);
    assert_false(there(".torn.cfg.recovery"));
    session_free(session);
    free(recovery);
}

static void work_without_a_name_is_kept_in_the_state_folder(void **state) {
    (void)state;
    assert_int_equal(setenv("XDG_STATE_HOME", path_of("state"), 1), 0);
    assert_null(session_find_recovery(NULL));
    struct session *one = session_new(), *other = session_new();
    change(one, "gores.count", "12", false);
    change(other, "gores.count", "18", false);
    assert_recovery_written(one);
    assert_recovery_written(other);
    assert_recovery_written(other); /* in its own place again */
    session_free(one);
    session_free(other);
    size_t found = 0;
    int gores = 0;
    for (char *recovery; (recovery = session_find_recovery(NULL)) != NULL; found++) {
        struct session *session = recovered(NULL, recovery);
        assert_null(session->path);
        gores += session->design.gores.count;
        assert_saves(session, path_of(found == 0 ? "u1.cfg" : "u2.cfg"), false, SAVED, "");
        session_free(session);
        free(recovery);
    }
    assert_int_equal(found, 2);
    assert_int_equal(gores, 30);
}

static void a_reader_keeps_its_work_apart_from_the_writer(void **state) {
    (void)state;
    assert_int_equal(setenv("XDG_STATE_HOME", path_of("state2"), 1), 0);
    struct session *writer = opened(scratch_file("both.cfg", plain));
    struct session *reader = opened(path_of("both.cfg"));
    change(writer, "gores.count", "12", false);
    change(reader, "gores.count", "18", false);
    assert_recovery_written(writer);
    assert_recovery_written(reader);
    session_free(reader);
    session_free(writer);
    char *one = session_find_recovery(path_of("both.cfg")), *other = session_find_recovery(NULL);
    struct session *session = recovered(path_of("both.cfg"), one);
    assert_int_equal(session->design.gores.count, 12);
    session_free(session);
    session = recovered(NULL, other);
    assert_int_equal(session->design.gores.count, 18);
    session_free(session);
    free(one);
    free(other);
}

static void without_home_and_name_it_is_said_that_nothing_is_kept(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    char home[256];
    snprintf(home, sizeof home, "%s", getenv("HOME") == NULL ? "/" : getenv("HOME"));
    assert_int_equal(setenv("XDG_STATE_HOME", "not/from/the/root", 1), 0);
    assert_int_equal(unsetenv("HOME"), 0);
    struct session *session = session_new();
    change(session, "gores.count", "12", false);
    assert_int_equal(session_write_recovery(session, &messages), -1);
    assert_non_null(strstr(messages.item[0].text, "could not be kept"));
    assert_null(session_find_recovery(NULL));
    diagnostics_free(&messages);
    session_free(session);
    assert_int_equal(setenv("HOME", home, 1), 0);
}

static void a_link_in_place_of_the_recovery_file_is_not_followed(void **state) {
    (void)state;
    assert_int_equal(setenv("XDG_STATE_HOME", path_of("state3"), 1), 0);
    scratch_file("victim", "mine\n");
    struct session *session = opened(scratch_file("trap.cfg", plain));
    assert_int_equal(symlink("victim", path_of(".trap.cfg.recovery")), 0);
    change(session, "gores.count", "12", false);
    assert_recovery_written(session);
    assert_holds("victim", "mine\n");
    session_free(session);
    char *recovery = session_find_recovery(path_of("trap.cfg"));
    assert_non_null(strstr(recovery, "state3/gorewright/trap.cfg-"));
    session = recovered(path_of("trap.cfg"), recovery);
    assert_int_equal(session->design.gores.count, 12);
    session_free(session);
    free(recovery);
}

/* Opened again, worked on again, cut short again, and the first work never answered for. */
static void keep_work_with_gores(const char *path, const char *gores) {
    struct session *session = opened(path);
    change(session, "gores.count", gores, false);
    assert_recovery_written(session);
    session_free(session);
}

static void assert_found_and_dropped(const char *path, int gores) {
    char *recovery = session_find_recovery(path);
    assert_non_null(recovery);
    struct session *session = recovered(path, recovery);
    assert_int_equal(session->design.gores.count, gores);
    session_drop_recovery(session, NULL);
    session_free(session);
    free(recovery);
}

static void kept_work_that_nobody_answered_for_is_not_overwritten(void **state) {
    (void)state;
    assert_int_equal(setenv("XDG_STATE_HOME", path_of("state4"), 1), 0);
    const char *path = scratch_file("twice.cfg", plain);
    for (int place = 0; place < 2; place++) { /* beside it, and in the state folder */
        keep_work_with_gores(path, "12");
        keep_work_with_gores(path, "14");
        keep_work_with_gores(path, "18");
        assert_int_equal(there(".twice.cfg.recovery3"), place == 0);
        assert_found_and_dropped(path, 12);
        keep_work_with_gores(path, "20"); /* takes the place that is free now */
        assert_found_and_dropped(path, 20);
        assert_found_and_dropped(path, 14);
        assert_found_and_dropped(path, 18);
        assert_null(session_find_recovery(path));
        if (place == 0)
            assert_int_equal(symlink("nowhere", path_of(".twice.cfg.recovery")), 0);
    }
}

static void kept_work_knows_the_design_as_its_file_holds_it(void **state) {
    (void)state;
    struct session *session = opened(scratch_file("named.cfg", plain));
    change(session, "name", "Heron", false);
    assert_recovery_written(session);
    session_free(session);
    char *recovery = session_find_recovery(path_of("named.cfg"));
    session = recovered(path_of("named.cfg"), recovery);
    assert_string_equal(session->design.name, "Heron");
    assert_string_equal(session_saved(session)->name, "Owl");
    session_drop_recovery(session, NULL);
    session_free(session);
    free(recovery);
}

static void a_spoilt_recovery_file_is_refused(void **state) {
    (void)state;
    struct diagnostics messages = {0};
    scratch_file("sp.cfg", plain);
    const char *recovery = scratch_file(".sp.cfg.recovery", "format = 1; size: {");
    assert_null(session_open_recovery(path_of("sp.cfg"), recovery, &messages));
    assert_int_equal(messages.errors, 1);
    assert_false(there("sp.cfg.lock"));
    diagnostics_free(&messages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unsaved_work_is_kept_found_and_taken_up_again),
        cmocka_unit_test(kept_work_does_not_overwrite_a_file_changed_since),
        cmocka_unit_test(broken_work_is_kept_too),
        cmocka_unit_test(work_without_a_name_is_kept_in_the_state_folder),
        cmocka_unit_test(a_reader_keeps_its_work_apart_from_the_writer),
        cmocka_unit_test(without_home_and_name_it_is_said_that_nothing_is_kept),
        cmocka_unit_test(a_link_in_place_of_the_recovery_file_is_not_followed),
        cmocka_unit_test(kept_work_that_nobody_answered_for_is_not_overwritten),
        cmocka_unit_test(kept_work_knows_the_design_as_its_file_holds_it),
        cmocka_unit_test(a_spoilt_recovery_file_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
