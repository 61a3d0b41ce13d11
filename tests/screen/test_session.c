/* test_session.c - a design being worked on: undo, comparison, its file, its lock, recovery. */
#include "support.h"

#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "screen/session.h"
#include "screen/session_file.h"

static const char plain[] = "# my notes\nformat = 1; name = \"Owl\"; size: { height = 2.5; };\n";

static const char *path_of(const char *name) {
    static char paths[8][256];
    static size_t next;
    char *path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", scratch_folder(), name);
    return path;
}

static bool there(const char *name) {
    return access(path_of(name), F_OK) == 0;
}

static void assert_holds(const char *name, const char *content) {
    struct text text = {0};
    assert_int_equal(file_read(path_of(name), 100000, &text), 0);
    assert_string_equal(text.bytes == NULL ? "" : text.bytes, content);
    text_free(&text);
}

static struct session *opened(const char *path) {
    struct diagnostics messages = {0};
    struct session *session = session_open(path, &messages);
    if (session == NULL)
        fail_msg("%s: %s", path, messages.item[0].text);
    assert_int_equal(messages.count, 0);
    return session;
}

static int change(struct session *session, const char *key, const char *typed, bool keep_broken) {
    struct design design = session->design;
    struct diagnostics messages = {0};
    if (parameter_set(&design, (size_t)parameter_find(key), typed, &messages) != 0)
        fail_msg("%s: %s", key, messages.item[0].text);
    return session_change(session, &design, keep_broken);
}

/* Save, and see what is said. */
static void assert_saves(struct session *session, const char *path, bool over, enum saving want,
                         const char *says) {
    struct diagnostics messages = {0};
    enum saving got = session_save(session, path, over, &messages);
    if (got != want)
        fail_msg("saving gave %d, not %d: %s", got, want,
                 messages.count > 0 ? messages.item[0].text : "");
    assert_int_equal(messages.count, want == SAVED ? 0 : 1);
    if (want != SAVED && strstr(messages.item[0].text, says) == NULL)
        fail_msg("'%s' is not in: %s", says, messages.item[0].text);
    diagnostics_free(&messages);
}

/* The envelope at hand is that of the design at hand. */
static void assert_envelope_is_of_design(const struct session *session) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(&session->design, &messages);
    assert_non_null(envelope);
    assert_false(session->stale);
    assert_close(session->envelope->built.volume_m3, envelope->built.volume_m3, 0, 0);
    assert_close(session->envelope->built.cut_area_m2, envelope->built.cut_area_m2, 0, 0);
    assert_int_equal(session->envelope->templates, envelope->templates);
    envelope_free(envelope);
    diagnostics_free(&messages);
}

/* ---- changes, undo, comparison ----------------------------------------- */

static void a_new_session_is_the_starter_with_nothing_to_lose(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design starter;
    design_starter(&starter);
    assert_true(design_same(&session->design, &starter));
    assert_envelope_is_of_design(session);
    assert_false(session->changed);
    assert_null(session->path);
    assert_null(session_before(session));
    assert_int_equal(session_templates_before(session), 0);
    assert_int_equal(session->messages.count, 0);
    assert_false(session_undo(session));
    assert_false(session_redo(session));
    session_free(session);
    session_free(NULL);
}

static void a_change_is_built_and_compared_with_before(void **state) {
    (void)state;
    struct session *session = session_new();
    double volume = session->envelope->built.volume_m3;
    size_t templates = session->envelope->templates;
    assert_int_equal(change(session, "size.volume", "14", false), 0);
    assert_envelope_is_of_design(session);
    assert_true(session->changed);
    assert_close(session->envelope->built.volume_m3, 14, 0, 1e-6);
    assert_close(session_before(session)->volume_m3, volume, 0, 0);
    assert_int_equal(change(session, "gores.style", "half-gore", false), 0);
    assert_close(session_before(session)->volume_m3, 14, 0, 1e-6);
    assert_int_equal(session_templates_before(session), templates);
    assert_int_equal(session->envelope->templates, 2 * templates);
    assert_true(session_undo(session)); /* is a change too */
    assert_int_equal(session_templates_before(session), 2 * templates);
    session_free(session);
}

/* What does not change the cloth does not cost the time of building it. */
static void an_envelope_stays_while_only_paper_rig_or_pace_change(void **state) {
    (void)state;
    struct session *session = session_new();
    const struct envelope *envelope = session->envelope;
    assert_int_equal(change(session, "paper.sheet", "A3", false), 0);
    assert_int_equal(change(session, "paper.units", "inch", false), 0);
    assert_int_equal(change(session, "name", "Other", false), 0);
    assert_int_equal(change(session, "pace.piece", "8", false), 0);
    assert_int_equal(change(session, "rig.basket", "300 g", false), 0);
    assert_ptr_equal(session->envelope, envelope);
    assert_true(design_same(&session->design, &session->sized));
    assert_true(session_undo(session));
    assert_ptr_equal(session->envelope, envelope);
    assert_close(session_mass_before_kg(session), session->masses.envelope_kg, 0, 0);
    assert_int_equal(change(session, "cloth.mass", "45", false), 0);
    assert_envelope_is_of_design(session);
    assert_true(session_mass_before_kg(session) < session->masses.envelope_kg);
    session_free(session);
}

static void an_envelope_for_a_load_grows_with_it_and_stays_for_paper(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "size.by", "load", false), 0);
    const struct envelope *envelope = session->envelope;
    double volume_m3 = envelope->built.volume_m3;
    assert_close(session->sized.size.volume_m3, volume_m3, 0, 1e-6);
    assert_int_equal(change(session, "paper.sheet", "A3", false), 0);
    assert_ptr_equal(session->envelope, envelope);
    assert_int_equal(session->sized.size.by, SIZE_VOLUME);
    assert_close(session->sized.size.volume_m3, volume_m3, 0, 1e-6);
    assert_string_equal(session->sized.paper.sheet, "A3");
    assert_int_equal(change(session, "rig.basket", "1 kg", false), 0);
    assert_true(session->envelope->built.volume_m3 > 1.2 * volume_m3);
    session_free(session);
}

static void a_change_to_the_same_is_none(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "size.volume", "12", false), 0);
    assert_false(session->changed);
    assert_int_equal(session_undo_count(session), 0);
    assert_null(session_before(session));
    session_free(session);
}

static void undo_and_redo_go_through_every_state(void **state) {
    (void)state;
    enum { STEPS = 60 };
    static struct design states[STEPS + 1];
    struct session *session = session_new();
    struct dice dice = {3};
    size_t count;
    parameters(&count);
    states[0] = session->design;
    for (size_t made = 0; made < STEPS;) {
        struct design design = session->design;
        parameter_step(&design, (size_t)dice_whole(&dice, 0, (int)count - 1),
                       dice_whole(&dice, 0, 1) == 0 ? -1 : 1);
        if (design_same(&design, &session->design))
            continue;
        session_change(session, &design, true);
        states[++made] = session->design;
    }
    assert_int_equal(session_undo_count(session), STEPS);
    for (size_t i = STEPS; i-- > 0;) {
        assert_true(session_undo(session));
        assert_memory_equal(&session->design, &states[i], sizeof states[i]);
    }
    assert_false(session_undo(session));
    assert_false(session->changed);
    assert_envelope_is_of_design(session);
    for (size_t i = 1; i <= STEPS; i++) {
        assert_true(session_redo(session));
        assert_memory_equal(&session->design, &states[i], sizeof states[i]);
    }
    assert_false(session_redo(session));
    session_free(session);
}

static void a_change_after_an_undo_forgets_what_was_taken_back(void **state) {
    (void)state;
    struct session *session = session_new();
    change(session, "size.volume", "13", false);
    change(session, "size.volume", "14", false);
    assert_true(session_undo(session));
    assert_int_equal(session_redo_count(session), 1);
    change(session, "size.volume", "15", false);
    assert_int_equal(session_redo_count(session), 0);
    assert_true(session_undo(session));
    assert_close(session->design.size.volume_m3, 13, 0, 0);
    assert_true(session_undo(session));
    assert_close(session->design.size.volume_m3, 12, 0, 0);
    session_free(session);
}

static void long_lists_and_texts_are_undone_to_the_bit(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design before = session->design, after = before;
    memset(after.name, 'n', 30);
    after.outline.kind = OUTLINE_TABLE;
    after.size.by = SIZE_TABLE;
    after.outline.table.count = TABLE_MOST;
    for (size_t i = 0; i < TABLE_MOST; i++) {
        double part = (double)i / (TABLE_MOST - 1);
        after.outline.table.value[i].z_m = 3 * part;
        after.outline.table.value[i].r_m = 0.3 + sin(PI * part);
    }
    assert_int_equal(session_change(session, &after, false), 0);
    assert_true(session_undo(session));
    assert_memory_equal(&session->design, &before, sizeof before);
    assert_true(session_redo(session));
    assert_memory_equal(&session->design, &after, sizeof after);
    session_free(session);
}

/* ---- designs with errors ----------------------------------------------- */

static void a_broken_change_is_refused_and_nothing_moves(void **state) {
    (void)state;
    struct session *session = session_new();
    struct design before = session->design;
    assert_int_equal(change(session, "gores.mix", "fbbbb", false), -1);
    assert_memory_equal(&session->design, &before, sizeof before);
    assert_envelope_is_of_design(session);
    assert_int_equal(session->messages.count, 0);
    assert_int_equal(session->refused.errors, 1);
    assert_string_equal(session->refused.item[0].key, "gores.mix");
    assert_int_equal(session_undo_count(session), 0);
    assert_false(session->changed);
    assert_int_equal(change(session, "gores.mix", "fb", false), 0);
    assert_int_equal(session->refused.count, 0);
    session_free(session);
}

static void a_broken_change_can_be_kept_beside_the_last_good_envelope(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "gores.mix", "fbbbb", true), -1);
    assert_int_equal(session->design.gores.mix.count, 5);
    assert_true(session->stale);
    assert_non_null(session->envelope);
    assert_close(session->envelope->built.volume_m3, 12, 0, 1e-6);
    assert_int_equal(session->messages.errors, 1);
    assert_string_equal(session->messages.item[0].key, "gores.mix");
    assert_int_equal(change(session, "gores.count", "15", false), 0); /* mended */
    assert_envelope_is_of_design(session);
    assert_int_equal(session->messages.errors, 0);
    assert_true(session_undo(session)); /* back to the broken one */
    assert_true(session->stale);
    assert_true(session_undo(session));
    assert_envelope_is_of_design(session);
    session_free(session);
}

static void what_cannot_be_built_or_printed_is_broken_too(void **state) {
    (void)state;
    struct session *session = session_new();
    assert_int_equal(change(session, "cloth.width", "0.2", true), -1);
    assert_true(session->stale);
    assert_true(session->messages.errors > 0);
    assert_true(session_undo(session));
    assert_int_equal(change(session, "paper.sheet", "napkin", false), -1);
    assert_string_equal(session->refused.item[0].key, "paper.sheet");
    assert_int_equal(change(session, "paper.sheet", "napkin", true), -1);
    assert_envelope_is_of_design(session); /* it can be built, though not printed */
    assert_string_equal(session->messages.item[0].key, "paper.sheet");
    session_free(session);
}

static void a_file_whose_values_contradict_each_other_is_opened_to_be_mended(void **state) {
    (void)state;
    struct session *session = opened(
        scratch_file("mend.cfg", "format = 1;\nsize: { volume = 12; };\ngores: { count = 15;\n"
                                 "mix = (\"faceted\", \"billowed\"); };\n"));
    assert_null(session->envelope);
    assert_true(session->stale);
    assert_int_equal(session->messages.errors, 1);
    assert_string_equal(session->messages.item[0].key, "gores.mix");
    assert_int_equal(session->messages.item[0].line, 4);
    assert_false(session->changed);
    assert_int_equal(change(session, "gores.count", "16", false), 0);
    assert_envelope_is_of_design(session);
    assert_null(session_before(session));
    session_free(session);
}

static void what_cannot_be_built_is_shown_where_the_file_says_it(void **state) {
    (void)state;
    struct session *session = opened(scratch_file(
        "narrow.cfg", "format = 1;\nsize: { volume = 12; };\nrows: {\n  count = 1; };\n"
                      "cloth: {\n  width = 0.2; };\n"));
    assert_true(session->stale);
    assert_null(session->envelope);
    assert_true(session->messages.errors > 0);
    for (size_t i = 0; i < session->messages.count; i++) {
        bool rows = strcmp(session->messages.item[i].key, "rows.count") == 0;
        assert_int_equal(session->messages.item[i].line, rows ? 4 : 6);
        assert_string_equal(session->messages.item[i].file, path_of("narrow.cfg"));
    }
    session_free(session);
}

static void a_file_that_is_no_design_is_not_opened(void **state) {
    (void)state;
    static const struct {
        const char *content, *code;
    } cases[] = {
        {"format = 1; size: { volum = 12; };", "unknown-key"},
        {"format = 1; size: { volume = 12; ", "syntax"},
        {"format = 2;", "range"},
        {"name = \"x\";", "format"},
        {"format = 1; size: { volume = \"big\"; };", "type"},
        {"format = 1; size: { volume = 12; height = 3; };", "sizes"},
        {"format = 1; size: { volum = 12; };\ngores: { count = 2; };", "unknown-key"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        struct diagnostics messages = {0};
        assert_null(session_open(scratch_file("bad.cfg", cases[i].content), &messages));
        assert_string_equal(messages.item[0].code, cases[i].code);
        assert_non_null(messages.item[0].file);
        assert_false(there("bad.cfg.lock"));
        diagnostics_free(&messages);
    }
    struct diagnostics messages = {0};
    assert_null(session_open(path_of("missing.cfg"), &messages));
    assert_int_equal(messages.errors, 1);
    assert_false(there("missing.cfg.lock"));
    diagnostics_free(&messages);
}

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

static void the_lock_is_private_and_another_process_meets_it(void **state) {
    (void)state;
    struct stat about;
    struct session *session = opened(scratch_file("met.cfg", plain));
    assert_int_equal(stat(path_of("met.cfg.lock"), &about), 0);
    assert_int_equal(about.st_mode & 07777, 0600);
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
        cmocka_unit_test(a_new_session_is_the_starter_with_nothing_to_lose),
        cmocka_unit_test(a_change_is_built_and_compared_with_before),
        cmocka_unit_test(an_envelope_stays_while_only_paper_rig_or_pace_change),
        cmocka_unit_test(an_envelope_for_a_load_grows_with_it_and_stays_for_paper),
        cmocka_unit_test(a_change_to_the_same_is_none),
        cmocka_unit_test(undo_and_redo_go_through_every_state),
        cmocka_unit_test(a_change_after_an_undo_forgets_what_was_taken_back),
        cmocka_unit_test(long_lists_and_texts_are_undone_to_the_bit),
        cmocka_unit_test(a_broken_change_is_refused_and_nothing_moves),
        cmocka_unit_test(a_broken_change_can_be_kept_beside_the_last_good_envelope),
        cmocka_unit_test(what_cannot_be_built_or_printed_is_broken_too),
        cmocka_unit_test(a_file_whose_values_contradict_each_other_is_opened_to_be_mended),
        cmocka_unit_test(what_cannot_be_built_is_shown_where_the_file_says_it),
        cmocka_unit_test(a_file_that_is_no_design_is_not_opened),
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
        cmocka_unit_test(the_lock_is_private_and_another_process_meets_it),
        cmocka_unit_test(two_never_hold_one_lock_while_others_come_and_go),
        cmocka_unit_test(unsaved_work_is_kept_found_and_taken_up_again),
        cmocka_unit_test(kept_work_does_not_overwrite_a_file_changed_since),
        cmocka_unit_test(broken_work_is_kept_too),
        cmocka_unit_test(work_without_a_name_is_kept_in_the_state_folder),
        cmocka_unit_test(a_reader_keeps_its_work_apart_from_the_writer),
        cmocka_unit_test(without_home_and_name_it_is_said_that_nothing_is_kept),
        cmocka_unit_test(a_link_in_place_of_the_recovery_file_is_not_followed),
        cmocka_unit_test(a_spoilt_recovery_file_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
