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
        cmocka_unit_test(uninstall_leaves_no_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
