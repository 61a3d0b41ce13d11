/* test_output.c - a file is written whole or not at all, whatever goes wrong. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Faults are put into system calls; the leak check of a sanitized build cannot run beside that. */
#define STRACE "ASAN_OPTIONS=detect_leaks=0 strace -qq -o /dev/null -e "

/* Run in a fresh folder $D with the file "old" in it, and list the folder afterwards.
 * $S is a design elsewhere and $F the figures made of it. */
static struct outcome in_fresh_folder(const char *command) {
    return run("D=%s/fresh; rm -rf $D; mkdir $D; cd $D; echo old >old; chmod 640 old; "
               "S=$D/../S; F=$D/../F; [ -e $F ] || { $GW starter >$S && $GW figures $S >$F; }; "
               "%s; status=$?; ls -A; exit $status",
               scratch_folder(), command);
}

static void assert_says(const char *text, const char *part) {
    if (strstr(text, part) == NULL)
        fail_msg("'%s' is not in: %s", part, text);
}

static void assert_outcome(const char *command, int status, const char *listing, const char *says) {
    struct outcome outcome = in_fresh_folder(command);
    if (outcome.status != status || strcmp(outcome.out, listing) != 0)
        fail_msg("%s\nstatus %d, want %d; folder:\n%s%s", command, outcome.status, status,
                 outcome.out, outcome.err);
    assert_says(outcome.err, says);
    outcome_free(&outcome);
}

#define UNTOUCHED " && test \"$(cat old)\" = old"

static void assert_shows_no_control_byte(const char *command, const char *text) {
    for (const char *c = text; *c != '\0'; c++)
        if ((*c != '\n' && (unsigned char)*c < ' ') || strncmp(c, "\302\233", 2) == 0)
            fail_msg("%s: byte %d is in: %s", command, (unsigned char)*c, text);
}

/* Every way by which a name comes back to the terminal: as an argument, a design, an output. */
static void no_control_byte_of_a_name_reaches_the_terminal(void **state) {
    (void)state;
    static const char *const commands[] = {
        "$GW \"$N\"",
        "$GW check \"$N\"",
        "$GW check --\"$N\" $S",
        "$GW \"$N\" $S",
        "cp ../broken \"$N\"; $GW check \"$N\"",
        "cp ../broken \"$N\"; $GW \"$N\"",
        "cp $S \"$N\"; $GW check \"$N\" $S",
        "cp ../wings \"$N\"; $GW check \"$N\"",
        "$GW figures $S -o \"$N/no\"",
        "mkdir \"$N\"; $GW figures $S -o \"$N\"",
        "cp $S \"$N\"; $GW starter -o \"$N\"",
        "$GW sheets $S --piece \"$N\"",
        "$GW templates $S --paper \"$N\" -o new",
        "$GW templates $S --measured \"$N\" -o new",
        "$GW flight $S --units \"$N\"",
    };
    scratch_file("name", "a\033[31mb\rc\nd\302\2332Je");
    scratch_file("short-name", "a\033[31mb");
    scratch_file("broken", "format = 1;\n\033[2J\n");
    scratch_file("wings", "format = 1;\nwings = 2;\n");
    for (size_t i = 0; i < COUNT_OF(commands); i++) {
        struct outcome outcome =
            run("D=%s/fresh; rm -rf $D; mkdir $D; cd $D; $GW starter >../S; S=../S; "
                "N=$(cat ../name); %s",
                scratch_folder(), commands[i]);
        assert_shows_no_control_byte(commands[i], outcome.err);
        assert_shows_no_control_byte(commands[i], outcome.out);
        assert_true(outcome.err[0] != '\0' || strstr(outcome.out, "a?[31mb?c?d?2Je:\n") != NULL);
        outcome_free(&outcome);
    }
    char command[300];
    snprintf(command, sizeof command, "$GW starter -o $(cat %s/short-name)", scratch_folder());
    struct outcome told = run_on_terminal(command);
    assert_says(told.out, "wrote a?[31mb");
    outcome_free(&told);
}

static void a_new_file_gets_the_usual_mode(void **state) {
    (void)state;
    assert_outcome("umask 027; $GW starter -o new && stat -c %a new", 0, "640\nnew\nold\n", "");
}

static void an_existing_file_keeps_its_mode(void **state) {
    (void)state;
    assert_outcome("$GW figures $S -o old && test $(stat -c %a old) = 640 && cmp -s old $F", 0,
                   "old\n", "");
    assert_outcome(
        "chmod 4751 old; umask 077; $GW figures $S -o old && test $(stat -c %a old) = 4751", 0,
        "old\n", "");
}

static void a_link_is_followed_and_stays_a_link(void **state) {
    (void)state;
    assert_outcome("mkdir far; mv old far; ln -s far/old near; $GW figures $S -o near && "
                   "test -L near && cmp -s far/old $F && ls -A far",
                   0, "old\nfar\nnear\n", "");
    assert_outcome("ln -s nowhere link; $GW starter -o link", 1, "link\nold\n", "leads nowhere");
    assert_outcome("ln -s loop loop; $GW starter -o loop", 1, "loop\nold\n",
                   "leads back to itself");
}

static void what_is_no_plain_file_is_refused(void **state) {
    (void)state;
    assert_outcome("mkdir sub; $GW starter -o sub", 1, "old\nsub\n", "is a folder");
    assert_outcome("$GW starter -o sub/", 1, "old\n", "is the name of a folder");
    assert_outcome("$GW starter -o .", 1, "old\n", "is a folder");
    assert_outcome("$GW figures $S -o old/x", 1, "old\n", "Not a directory");
    assert_outcome("$GW starter -o sub/x", 1, "old\n", "make the folder first");
    assert_outcome("mkfifo pipe; $GW starter -o pipe", 1, "old\npipe\n", "not a plain file");
    assert_outcome("$GW starter -o /dev/full", 1, "old\n", "not a plain file");
    assert_outcome("$GW starter -o $(printf %0300d 1)", 1, "old\n", "shorter name");
}

static void the_design_itself_is_never_overwritten(void **state) {
    (void)state;
    const char *const ways[] = {"old", "./old", "link", "hard"};
    for (size_t i = 0; i < COUNT_OF(ways); i++) {
        char command[256];
        snprintf(command, sizeof command,
                 "$GW starter >old; cp old copy; ln -s old link; ln old hard; "
                 "$GW figures old -o %s; status=$?; cmp old copy; rm copy link hard; "
                 "(exit $status)",
                 ways[i]);
        assert_outcome(command, 1, "old\n", "is the design itself");
    }
}

static void a_first_design_is_written_only_where_nothing_stands(void **state) {
    (void)state;
    assert_outcome("$GW starter -o old; test $? = 1" UNTOUCHED, 0, "old\n",
                   "old: is there already; choose another name or remove it first");
    assert_outcome("$GW starter -o new && cmp -s new $S", 0, "new\nold\n", "");
    assert_outcome("ln -s old link; $GW starter -o link; test $? = 1" UNTOUCHED, 0, "link\nold\n",
                   "is there already");
}

static void another_design_is_never_overwritten(void **state) {
    (void)state;
    const char *const designs[] = {
        "cat $S",
        "echo \"format = 1; name = \\\"Heron\\\";\"",
        "echo \"/* mine */ format = 1;\"",
        "printf \"# mine\\n  format: 1\\nname = \\\"with a mistake\"",
    };
    for (size_t i = 0; i < COUNT_OF(designs); i++) {
        char command[256];
        snprintf(command, sizeof command,
                 "%s >old; cp old ../copy; $GW sheets -o old $S; test $? = 1 && cmp old ../copy",
                 designs[i]);
        assert_outcome(command, 0, "old\n", "old: is a design; choose another name");
    }
}

static void what_was_made_before_is_made_anew(void **state) {
    (void)state;
    assert_outcome("for c in stations outlines sheets templates figures; do "
                   "$GW $c -o old $S || exit 1; done; cmp -s old $F",
                   0, "old\n", "");
}

static void an_error_in_the_design_leaves_the_output_alone(void **state) {
    (void)state;
    assert_outcome("echo \"format = 9;\" >bad; $GW figures bad -o old; "
                   "test $? = 1" UNTOUCHED " && $GW figures bad -o new",
                   1, "bad\nold\n", "bad:1: error: format: ");
}

/* ---- faults ---------------------------------------------------------------- */

static void a_fault_at_any_step_leaves_the_old_file_and_no_other(void **state) {
    (void)state;
    const struct {
        const char *fault, *says;
    } cases[] = {
        {"inject=fsync:error=EIO", "Input/output error"},
        {"inject=fchmod:error=EPERM", "Operation not permitted"},
        {"inject=rename,renameat,renameat2:error=EROFS", "Read-only file system"},
    };
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        char command[512];
        snprintf(command, sizeof command, STRACE "%s $GW figures $S -o old; test $? = 1" UNTOUCHED,
                 cases[i].fault);
        assert_outcome(command, 0, "old\n", cases[i].says);
        snprintf(command, sizeof command, STRACE "%s $GW starter -o new; test $? = 1",
                 cases[i].fault);
        if (strstr(cases[i].fault, "fchmod") == NULL) /* a new file needs none */
            assert_outcome(command, 0, "old\n", cases[i].says);
    }
}

static void a_full_disk_leaves_the_old_file_and_no_other(void **state) {
    (void)state;
    /* The message would meet the same fault: only status and folder tell. */
    assert_outcome(STRACE "inject=write:error=ENOSPC $GW figures $S -o old; test $? = 1" UNTOUCHED,
                   0, "old\n", "");
    assert_outcome(STRACE "inject=write:error=ENOSPC:when=1 $GW figures $S -o old; "
                          "test $? = 1" UNTOUCHED,
                   0, "old\n", "No space left on device; make room");
    assert_outcome("$GW starter >d; ulimit -f 8; $GW templates d -o old; rm d; cat old; "
                   "$GW starter -o new; test $? = 1",
                   0, "old\nold\n", "File too large");
}

static void a_short_write_is_carried_on(void **state) {
    (void)state;
    assert_outcome(STRACE "inject=write:error=EINTR:when=1 $GW figures $S -o old && "
                          "cmp -s old $F",
                   0, "old\n", "");
}

static void a_folder_that_cannot_be_flushed_is_told(void **state) {
    (void)state;
    assert_outcome(STRACE "inject=fsync:error=EIO:when=2 $GW figures $S -o old; "
                          "test $? = 1 && cmp -s old $F",
                   0, "old\n", "the disk did not confirm it");
}

static void an_interrupt_at_any_step_leaves_a_whole_file_and_no_other(void **state) {
    (void)state;
    const char *const calls[] = {"fchmod", "write", "fsync", "rename", "sigpending"};
    const char *const signals[] = {"SIGINT", "SIGTERM", "SIGHUP", "SIGQUIT"};
    for (size_t i = 0; i < COUNT_OF(calls); i++)
        for (size_t j = 0; j < COUNT_OF(signals); j++) {
            char command[512];
            snprintf(command, sizeof command,
                     "ulimit -c 0; " STRACE "inject=%s%s:signal=%s:when=1 $GW figures $S -o old "
                     "2>/dev/null; test $? -gt 128 && "
                     "{ test \"$(cat old)\" = old || cmp -s old $F; }",
                     strcmp(calls[i], "sigpending") == 0 ? "rt_" : "", calls[i], signals[j]);
            assert_outcome(command, 0, "old\n", "");
        }
}

static void an_ignored_interrupt_changes_nothing(void **state) {
    (void)state;
    assert_outcome("trap \"\" INT; " STRACE "inject=write:signal=SIGINT:when=1 "
                   "$GW figures $S -o old && cmp -s old $F",
                   0, "old\n", "");
}

static void a_kill_at_any_step_leaves_a_whole_file(void **state) {
    (void)state;
    const char *const calls[] = {"fchmod", "write", "fsync", "rename"};
    for (size_t i = 0; i < COUNT_OF(calls); i++) {
        char command[512];
        snprintf(command, sizeof command,
                 STRACE "inject=%s:signal=SIGKILL:when=1 $GW figures $S -o old 2>/dev/null; "
                        "{ test \"$(cat old)\" = old || cmp -s old $F; } && "
                        "$GW figures $S -o old",
                 calls[i]);
        assert_outcome(command, 0, "old\n", "");
    }
}

static void a_temporary_file_of_another_run_is_never_touched(void **state) {
    (void)state;
    /* The program that exec starts keeps the number of the shell. */
    assert_outcome("sh -c \"echo keep >.gorewright-\\$\\$-0.tmp; exec $GW figures $S -o old\"; "
                   "cat .gorewright-*.tmp; rm .gorewright-*.tmp; cmp -s old $F",
                   0, "keep\nold\n", "");
}

static void what_a_killed_run_left_behind_is_swept(void **state) {
    (void)state;
    assert_outcome("sh -c true & gone=$!; wait $gone; touch .gorewright-$gone-0.tmp "
                   ".gorewright-$gone-17.tmp; $GW figures $S -o old",
                   0, "old\n", "");
    /* Not those of a live run, nor what only looks alike. */
    assert_outcome("touch .gorewright-1-0.tmp .gorewright-x-0.tmp .gorewright--9-0.tmp; "
                   "sh -c true & gone=$!; wait $gone; mkdir .gorewright-$gone-0.tmp; "
                   "ln -s old .gorewright-$gone-1.tmp; touch .gorewright-$gone-0.tmp~ "
                   ".gorewright-$gone-.tmp; $GW figures $S -o old && ls -A | wc -l && "
                   "rm -rf .gorewright-*",
                   0, "8\nold\n", "");
}

/* ---- rights ----------------------------------------------------------------- */

/* As root nothing is forbidden: step down to a user who owns nothing here. */
static void assert_unprivileged(const char *prepare, const char *arguments, int status,
                                const char *says) {
    const char *step_down =
        geteuid() == 0 ? "setpriv --reuid=65534 --regid=65534 --clear-groups" : "";
    struct outcome outcome =
        run("D=%s/rights; chmod -Rf u+rwx $D; rm -rf $D; mkdir $D; chmod 755 $D/..; cd $D; "
            "cp $GW gw; chmod 755 gw; ./gw starter >design; echo old >old; chmod 444 old; %s; "
            "ls -A >before; chmod 555 .; %s ./gw %s; status=$?; chmod 755 .; "
            "ls -A | cmp - before; cat old; exit $status",
            scratch_folder(), prepare, step_down, arguments);
    assert_int_equal(outcome.status, status);
    assert_string_equal(outcome.out, "old\n");
    assert_says(outcome.err, says);
    outcome_free(&outcome);
}

static void what_may_not_be_read_or_written_is_said(void **state) {
    (void)state;
    assert_unprivileged("true", "figures design -o new", 1, "Permission denied");
    assert_unprivileged("true", "figures design -o old", 1, "write-protected");
    assert_unprivileged("chmod 000 design", "figures design", 1, "may not be read");
    assert_unprivileged("chmod 000 design", "check design", 1, "design: error: ");
    assert_unprivileged("mkdir shut; ln -s shut/x link; chmod 000 shut", "figures design -o link",
                        1, "link: cannot write: Permission denied");
}

/* ---- descriptors ------------------------------------------------------------ */

static void messages_never_land_in_the_file(void **state) {
    (void)state;
    assert_outcome("$GW starter -o new 2>&- && $GW check new >/dev/null", 0, "new\nold\n", "");
    assert_outcome("$GW starter -o new <&- >&- 2>&- && $GW check new >/dev/null", 0, "new\nold\n",
                   "");
    assert_outcome("$GW figures nothing -o new <&- >&- 2>&-", 1, "old\n", "");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_control_byte_of_a_name_reaches_the_terminal),
        cmocka_unit_test(a_new_file_gets_the_usual_mode),
        cmocka_unit_test(an_existing_file_keeps_its_mode),
        cmocka_unit_test(a_link_is_followed_and_stays_a_link),
        cmocka_unit_test(what_is_no_plain_file_is_refused),
        cmocka_unit_test(the_design_itself_is_never_overwritten),
        cmocka_unit_test(a_first_design_is_written_only_where_nothing_stands),
        cmocka_unit_test(another_design_is_never_overwritten),
        cmocka_unit_test(what_was_made_before_is_made_anew),
        cmocka_unit_test(an_error_in_the_design_leaves_the_output_alone),
        cmocka_unit_test(a_fault_at_any_step_leaves_the_old_file_and_no_other),
        cmocka_unit_test(a_full_disk_leaves_the_old_file_and_no_other),
        cmocka_unit_test(a_short_write_is_carried_on),
        cmocka_unit_test(a_folder_that_cannot_be_flushed_is_told),
        cmocka_unit_test(an_interrupt_at_any_step_leaves_a_whole_file_and_no_other),
        cmocka_unit_test(an_ignored_interrupt_changes_nothing),
        cmocka_unit_test(a_kill_at_any_step_leaves_a_whole_file),
        cmocka_unit_test(a_temporary_file_of_another_run_is_never_touched),
        cmocka_unit_test(what_a_killed_run_left_behind_is_swept),
        cmocka_unit_test(what_may_not_be_read_or_written_is_said),
        cmocka_unit_test(messages_never_land_in_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
