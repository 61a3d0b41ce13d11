/* test_refused_commands.c - tests/golden/refused-commands.txt: what cannot be read, meant or
 * written, and all that is said about it.
 *
 * A case is a title "# ...", what is prepared "+ ...", the command "$ ...", its status "= ..." and
 * the messages "| ...".  It begins in a fresh folder with a design in it and a file "old"; the
 * folder must be the same afterwards, and nothing may be printed.
 */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define TABLE "tests/golden/refused-commands.txt"

/* `nobody` steps down to a user who owns nothing here, since nothing is forbidden to root;
 * `fault` lets system calls fail, on the file P alone when that is set.  The scratch folder is
 * open to both. */
static const char prelude[] =
    "gorewright() { \"$D/gw\" \"$@\"; }\n"
    "nobody() { shift; if [ $(id -u) = 0 ]; then setpriv --reuid=65534 --regid=65534 "
    "--clear-groups \"$D/gw\" \"$@\"; else gorewright \"$@\"; fi; }\n"
    "fault() { rule=$1; shift 2; ASAN_OPTIONS=detect_leaks=0 strace -qq -o /dev/null "
    "${P:+-P \"$D/in/$P\"} -e inject=\"$rule\" \"$D/gw\" \"$@\"; }\n"
    "state() { ls -lAR --time-style=+; cksum old design.cfg; } 2>/dev/null\n"
    "cd \"$D/in\"; echo old >old; cp \"$D/design\" design.cfg; chmod 644 old design.cfg\n";

struct table {
    FILE *file;
    char line[1024];
    bool ended;
};

static void next_line(struct table *table) {
    table->ended = fgets(table->line, sizeof table->line, table->file) == NULL;
    assert_true(table->ended || strchr(table->line, '\n') != NULL);
}

static bool takes(const struct table *table, const char *mark) {
    return !table->ended && strncmp(table->line, mark, strlen(mark)) == 0;
}

/* The shell script of the next case; its lines also go to `kept`.  Returns: false at the end. */
static bool next_script(struct table *table, struct text *script, struct text *kept) {
    while (!table->ended && !takes(table, "$ ")) {
        if (takes(table, "+ "))
            text_add(script, "%s", table->line + 2);
        text_add(kept, "%s", table->line);
        next_line(table);
    }
    if (table->ended)
        return false;
    text_add(kept, "%s", table->line);
    text_add(script, "state >\"$D/before\"\n%sstatus=$?\nchmod 755 .\nstate >\"$D/after\"\n",
             table->line + 2);
    text_add(script, "cmp \"$D/before\" \"$D/after\"\n");
    text_add(script, "chmod -Rf u+rwx .\ncd \"$D\"\nrm -rf in\nexit $status\n");
    next_line(table);
    return true;
}

/* What is to come of it, as the table says it. */
static void next_outcome(struct table *table, struct text *want) {
    for (text_add(want, "%s", ""); takes(table, "= ") || takes(table, "| "); next_line(table))
        text_add(want, "%s", table->line);
}

/* What came of it, in the words of the table. */
static void say_outcome(const struct outcome *outcome, struct text *got) {
    text_add(got, "= %d\n", outcome->status);
    for (const char *line = outcome->err; *line != '\0'; line += strcspn(line, "\n") + 1)
        text_add(got, "| %.*s\n", (int)strcspn(line, "\n"), line);
    if (outcome->out_length > 0)
        text_add(got, "printed or written:\n%s", outcome->out);
}

static void play(const char *script, struct text *got) {
    char *commands = test_malloc(sizeof prelude + strlen(script) + 1);
    strcpy(commands, prelude);
    strcat(commands, script);
    const char *path = scratch_file("case.sh", commands);
    test_free(commands);
    struct outcome outcome =
        run("D=%s; export D; mkdir $D/in; [ -e $D/gw ] || { chmod 755 $D; "
            "$GW starter >$D/design; cp $GW $D/gw; chmod 755 $D/gw; }; timeout 30 sh %s",
            scratch_folder(), path);
    say_outcome(&outcome, got);
    outcome_free(&outcome);
}

static void rewrite(const struct text *text) {
    FILE *file = fopen(TABLE, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text->bytes, 1, text->length, file), text->length);
    assert_int_equal(fclose(file), 0);
}

static void each_refused_command_says_exactly_this_and_changes_nothing(void **state) {
    (void)state;
    struct table table = {.file = fopen(TABLE, "rb")};
    struct text kept = {0}, script = {0};
    size_t cases = 0, wrong = 0;
    const char *golden = getenv("GOLDEN");
    struct outcome version = run("$GW --version"); /* GOLDEN=write must not record its absence */
    assert_int_equal(version.status, 0);
    outcome_free(&version);
    assert_non_null(table.file);
    for (next_line(&table); next_script(&table, &script, &kept); cases++) {
        struct text want = {0}, got = {0};
        next_outcome(&table, &want);
        play(script.bytes, &got);
        if (strcmp(got.bytes, want.bytes) != 0) {
            print_error("%sgot\n%swant\n%s", script.bytes, got.bytes, want.bytes);
            wrong++;
        }
        text_add(&kept, "%s", got.bytes);
        text_free(&want);
        text_free(&got);
        text_free(&script);
    }
    text_free(&script);
    fclose(table.file);
    if (golden != NULL && strcmp(golden, "write") == 0)
        rewrite(&kept);
    text_free(&kept);
    assert_true(cases >= 60);
    assert_int_equal(wrong, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_refused_command_says_exactly_this_and_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) != 0;
}
