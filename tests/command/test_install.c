/* test_install.c - what `make install` lays down, and that `make uninstall` takes it away. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

/* The build is done and must not be done anew: make is told that the program is up to date. */
#define MAKE "make -s -o all BUILD=$(dirname $GW) DESTDIR=$D PREFIX=/usr "

static struct outcome in_destination(const char *command) {
    return run("unset MAKEFLAGS MAKELEVEL; D=%s/root; %s", scratch_folder(), command);
}

static void install_lays_down_program_manual_and_samples(void **state) {
    (void)state;
    struct outcome outcome = in_destination(
        MAKE
        "install && cd $D && find . -type f | sort && "
        "usr/bin/gorewright --version && "
        "for f in usr/share/gorewright/samples/*; do usr/bin/gorewright check $f >/dev/null || "
        "exit 1; done");
    if (outcome.status != 0)
        fail_msg("status %d: %s%s", outcome.status, outcome.out, outcome.err);
    const char *const wanted[] = {"./usr/bin/gorewright\n", "./usr/share/man/man1/gorewright.1\n",
                                  "./usr/share/man/man5/gorewright-design.5\n",
                                  "./usr/share/gorewright/samples/", "gorewright " VERSION "\n"};
    for (size_t i = 0; i < COUNT_OF(wanted); i++)
        if (strstr(outcome.out, wanted[i]) == NULL)
            fail_msg("%s is not in:\n%s", wanted[i], outcome.out);
    outcome_free(&outcome);
}

static void a_first_balloon_made_again_keeps_the_design_its_builder_changed(void **state) {
    (void)state;
    struct outcome outcome = in_destination(
        "M=\"make -s -o all BUILD=$(dirname $GW) FIRST=$D/first first-balloon\"; mkdir -p $D; "
        "$M >/dev/null && grep -q Starter $D/first/sheets.txt && "
        "sed s/Starter/Heron/ $D/first/design.cfg >$D/mine && cp $D/mine $D/first/design.cfg && "
        "$M && cmp $D/mine $D/first/design.cfg && grep -q Heron $D/first/sheets.txt && "
        "head -c 4 $D/first/templates.ps; status=$?; rm -r $D/first $D/mine; exit $status");
    if (outcome.status != 0)
        fail_msg("status %d: %s%s", outcome.status, outcome.out, outcome.err);
    assert_non_null(strstr(outcome.out, "%!PS"));
    outcome_free(&outcome);
}

static void uninstall_leaves_no_file(void **state) {
    (void)state;
    struct outcome outcome = in_destination(MAKE "uninstall && find $D -type f");
    assert_int_equal(outcome.status, 0);
    assert_string_equal(outcome.out, "");
    outcome_free(&outcome);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(install_lays_down_program_manual_and_samples),
        cmocka_unit_test(a_first_balloon_made_again_keeps_the_design_its_builder_changed),
        cmocka_unit_test(uninstall_leaves_no_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
