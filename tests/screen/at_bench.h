/* at_bench.h - a bench with a design, an envelope and a record, for tests. */
#ifndef TESTS_SCREEN_AT_BENCH_H
#define TESTS_SCREEN_AT_BENCH_H

#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "screen/bench.h"

/* ---- a bench with a design ----------------------------------------------------------- */

struct shop {
    const char *path;
    struct design design;
    struct envelope *envelope;
    struct record *record;
    struct diagnostics messages;
    struct bench bench;
};

__attribute__((unused)) static void rebuild(struct shop *shop) {
    struct diagnostics messages = {0};
    envelope_free(shop->envelope);
    shop->envelope = envelope_build(&shop->design, &messages);
    assert_non_null(shop->envelope);
    diagnostics_free(&messages);
}

__attribute__((unused)) static void begin_design(struct shop *shop, const struct design *design) {
    static int number;
    char name[32];
    memset(shop, 0, sizeof *shop);
    snprintf(name, sizeof name, "bench-%d.cfg", ++number);
    shop->path = scratch_file(name, "format = 1;\n");
    shop->design = *design;
    rebuild(shop);
    shop->record = record_open(shop->path, &shop->design, &shop->messages);
    assert_non_null(shop->record);
    bench_begin(&shop->bench, &shop->design, shop->envelope, shop->record);
}

__attribute__((unused)) static void begin(struct shop *shop, enum style style) {
    struct design design;
    design_starter(&design);
    design.gores.style = (int)style;
    begin_design(shop, &design);
}

__attribute__((unused)) static void begin_mixed(struct shop *shop) {
    static const int mix[] = {FACETED, HALF_GORE, FACETED, BILLOWED};
    struct design design;
    design_starter(&design);
    design.gores.mix.count = COUNT_OF(mix);
    memcpy(design.gores.mix.value, mix, sizeof mix);
    begin_design(shop, &design);
}

__attribute__((unused)) static void end(struct shop *shop) {
    bench_end(&shop->bench);
    record_close(shop->record);
    envelope_free(shop->envelope);
    diagnostics_free(&shop->messages);
}

__attribute__((unused)) static bool act(struct shop *shop, enum bench_action action) {
    return bench_act(&shop->bench, action);
}

__attribute__((unused)) static void assert_at(const struct shop *shop, const char *piece,
                                              size_t gore) {
    assert_string_equal(shop->bench.piece, piece);
    assert_string_equal(shop->envelope->piece[shop->bench.at.piece].name, piece);
    assert_int_equal(shop->bench.at.gore, gore);
}

__attribute__((unused)) static int progress(const struct shop *shop, const char *piece,
                                            size_t gore) {
    return record_progress(shop->record, piece, gore);
}

__attribute__((unused)) static struct text drawn(const struct shop *shop, size_t columns,
                                                 size_t rows) {
    struct canvas canvas = {columns, rows, malloc(columns * rows * sizeof(struct cell))};
    struct text text = {0};
    assert_non_null(canvas.cell);
    bench_draw(&shop->bench, &canvas);
    canvas_write(&canvas, &text);
    free(canvas.cell);
    return text;
}

__attribute__((unused)) static bool shows(const struct shop *shop, size_t columns, size_t rows,
                                          const char *words) {
    struct text text = drawn(shop, columns, rows);
    bool found = strstr(text.bytes, words) != NULL;
    text_free(&text);
    return found;
}

__attribute__((unused)) static void change(struct shop *shop, const struct design *design) {
    struct envelope *before = shop->envelope;
    shop->envelope = NULL;
    shop->design = *design;
    rebuild(shop);
    envelope_free(before);
    bench_change(&shop->bench, &shop->design, shop->envelope, shop->record);
}

/* The folder of golden files is found from the root of the source.  To write them anew
 * after a change that was meant: GOLDEN=write, then look at what changed. */
__attribute__((unused)) static void check_golden(const struct shop *shop, const char *name,
                                                 size_t columns, size_t rows) {
    char path[128];
    static char want[65536];
    struct text text = drawn(shop, columns, rows);
    snprintf(path, sizeof path, "tests/golden/screens/bench-%s-%zux%zu.txt", name, columns, rows);
    const char *golden = getenv("GOLDEN");
    bool anew = golden != NULL && strcmp(golden, "write") == 0;
    FILE *file = fopen(path, anew ? "w+" : "r");
    assert_non_null(file);
    if (anew) {
        fputs(text.bytes, file);
        rewind(file);
    }
    want[fread(want, 1, sizeof want - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text.bytes, want);
    text_free(&text);
}

#endif
