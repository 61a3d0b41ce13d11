/* with_record.h - a design with a file, an envelope and a bench record, for tests. */
#ifndef TESTS_SHOP_WITH_RECORD_H
#define TESTS_SHOP_WITH_RECORD_H

#include "support.h"

#include <stdio.h>
#include <string.h>

#include "gorewright/shop.h"

struct bench_of {
    char path[256], record_path[288];
    struct design design;
    struct envelope *envelope;
    struct record *record;
    struct diagnostics messages;
};

static void build(struct bench_of *at) {
    struct diagnostics messages = {0};
    envelope_free(at->envelope);
    at->envelope = envelope_build(&at->design, &messages);
    assert_non_null(at->envelope);
    diagnostics_free(&messages);
}

static void begin(struct bench_of *at) {
    static int number;
    char name[32];
    memset(at, 0, sizeof *at);
    snprintf(name, sizeof name, "design-%d.cfg", ++number);
    snprintf(at->path, sizeof at->path, "%s", scratch_file(name, "format = 1;\n"));
    snprintf(at->record_path, sizeof at->record_path, "%s.bench", at->path);
    design_starter(&at->design);
    build(at);
}

static void close_record(struct bench_of *at) {
    record_close(at->record);
    at->record = NULL;
    diagnostics_free(&at->messages);
}

static struct record *reopen(struct bench_of *at) {
    close_record(at);
    at->record = record_open(at->path, &at->design, &at->messages);
    return at->record;
}

static void end(struct bench_of *at) {
    close_record(at);
    envelope_free(at->envelope);
}

static const struct piece *named(const struct bench_of *at, const char *name) {
    for (size_t t = 0; t < at->envelope->templates; t++)
        if (strcmp(at->envelope->piece[t].name, name) == 0)
            return &at->envelope->piece[t];
    fail_msg("no piece %s", name);
    return NULL;
}

static bool set(struct bench_of *at, const char *name, size_t gore, enum tick tick, bool on) {
    return record_set(at->record, named(at, name), gore, tick, on, &at->messages);
}

static char *content_of(const char *path) {
    static char bytes[65536];
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    bytes[fread(bytes, 1, sizeof bytes - 1, file)] = '\0';
    fclose(file);
    return bytes;
}

static void write_record(struct bench_of *at, const char *content) {
    FILE *file = fopen(at->record_path, "wb");
    assert_non_null(file);
    fputs(content, file);
    assert_int_equal(fclose(file), 0);
}

static const char *code_of(const struct bench_of *at, size_t message) {
    return message < at->messages.count ? at->messages.item[message].code : "(none)";
}

/* The lines after the head, shapes left out. */
static const char *ticks_of(const char *path) {
    static char ticks[65536];
    char *out = ticks;
    *out = '\0';
    for (char *line = strtok(content_of(path), "\n"); line != NULL; line = strtok(NULL, "\n"))
        if (strncmp(line, "shape ", 6) != 0 && strncmp(line, "gorewright ", 11) != 0 &&
            strncmp(line, "design ", 7) != 0)
            out += sprintf(out, "%s\n", line);
    return ticks;
}

#endif
