/* history.c - a change is kept as the bytes of the design that it moved. */
#include <stdlib.h>
#include <string.h>

#include "screen/history.h"

/* Runs of bytes that differ, `gap` equal bytes apart at least.  A change holds for each run its
 * header, the bytes before, the bytes after. */
enum { GAP = 2 * sizeof(size_t) };
struct run {
    size_t offset, length;
};

struct change {
    unsigned char *bytes; /* owned */
    size_t length;
};

struct history {
    struct change *change; /* owned */
    size_t count, capacity;
    size_t made; /* changes up to here are made, those behind are taken back */
};

struct history *history_new(void) {
    return calloc(1, sizeof(struct history));
}

static void forget_from(struct history *history, size_t first) {
    for (size_t i = first; i < history->count; i++)
        free(history->change[i].bytes);
    history->count = first;
}

void history_free(struct history *history) {
    if (history == NULL)
        return;
    forget_from(history, 0);
    free(history->change);
    free(history);
}

/* The first run of differing bytes from `from` on; of length 0 when there is none. */
static struct run next_run(const unsigned char *one, const unsigned char *other, size_t from) {
    const size_t size = sizeof(struct design);
    while (from < size && one[from] == other[from])
        from++;
    size_t end = from;
    for (size_t at = from; at < size && at < end + GAP; at++)
        if (one[at] != other[at])
            end = at + 1;
    return (struct run){from, end - from};
}

/* Returns: how many bytes the change takes; they are put into `bytes` unless that is NULL. */
static size_t pack(const void *before, const void *after, unsigned char *bytes) {
    const unsigned char *one = before, *other = after;
    size_t used = 0;
    for (struct run run = next_run(one, other, 0); run.length > 0;
         run = next_run(one, other, run.offset + run.length)) {
        if (bytes != NULL) {
            unsigned char *at = bytes + used;
            memcpy(at, &run, sizeof run);
            memcpy(at + sizeof run, one + run.offset, run.length);
            memcpy(at + sizeof run + run.length, other + run.offset, run.length);
        }
        used += sizeof run + 2 * run.length;
    }
    return used;
}

static void unpack(const struct change *change, bool back, struct design *design) {
    struct run run;
    for (size_t at = 0; at < change->length; at += sizeof run + 2 * run.length) {
        memcpy(&run, change->bytes + at, sizeof run);
        const unsigned char *from = change->bytes + at + sizeof run + (back ? 0 : run.length);
        memcpy((unsigned char *)design + run.offset, from, run.length);
    }
}

static bool make_room(struct history *history) {
    if (history->made < history->capacity)
        return true;
    size_t capacity = history->capacity == 0 ? 64 : 2 * history->capacity;
    struct change *change = realloc(history->change, capacity * sizeof *change);
    if (change == NULL)
        return false;
    history->change = change;
    history->capacity = capacity;
    return true;
}

int history_add(struct history *history, const struct design *before, const struct design *after) {
    struct change change = {.length = pack(before, after, NULL)};
    change.bytes = malloc(change.length > 0 ? change.length : 1);
    if (change.bytes == NULL || !make_room(history)) {
        free(change.bytes);
        return -1;
    }
    pack(before, after, change.bytes);
    forget_from(history, history->made);
    history->change[history->made++] = change;
    history->count = history->made;
    return 0;
}

bool history_back(struct history *history, struct design *design) {
    if (history->made == 0)
        return false;
    unpack(&history->change[--history->made], true, design);
    return true;
}

bool history_forth(struct history *history, struct design *design) {
    if (history->made == history->count)
        return false;
    unpack(&history->change[history->made++], false, design);
    return true;
}

size_t history_backs(const struct history *history) {
    return history->made;
}

size_t history_forths(const struct history *history) {
    return history->count - history->made;
}
