/* ledger.c - what the lines of a bench record add up to. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shop/ledger.h"

static const char *const tick_words[TICK_COUNT] = {"marked", "cut", "sewn"};

const char *tick_name(enum tick tick) {
    return tick_words[tick];
}

/* In the file the words of a name are joined by '-'. */
static const char *const measure_names[MEASURE_COUNT + 1] = {
    [MEASURE_LENGTH + EDGE_BOTTOM] = "bottom",
    [MEASURE_LENGTH + EDGE_RIGHT] = "right",
    [MEASURE_LENGTH + EDGE_TOP] = "top",
    [MEASURE_LENGTH + EDGE_LEFT] = "left",
    [MEASURE_ALLOWANCE + EDGE_BOTTOM] = "bottom allowance",
    [MEASURE_ALLOWANCE + EDGE_RIGHT] = "right allowance",
    [MEASURE_ALLOWANCE + EDGE_TOP] = "top allowance",
    [MEASURE_ALLOWANCE + EDGE_LEFT] = "left allowance",
    [MEASURE_RISING] = "diagonal A-C",
    [MEASURE_FALLING] = "diagonal B-D",
    [MEASURE_BOTTOM_DEPTH] = "bottom curve",
    [MEASURE_TOP_DEPTH] = "top curve",
    [MEASURE_NONE] = "piece",
};

const char *measure_name(enum measure measure) {
    return measure_names[measure];
}

void ledger_free(struct ledger *ledger) {
    free(ledger->tally);
    free(ledger->shape);
    *ledger = (struct ledger){0};
}

/* ---- shapes ------------------------------------------------------------------ */

static long long steps_of(double length_m) {
    return llround(length_m * 1e7);
}

struct shape shape_of(const struct piece *piece) {
    struct shape shape = {0};
    memcpy(shape.piece, piece->name, sizeof shape.piece);
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++) {
        shape.measure[MEASURE_LENGTH + e] = steps_of(piece->length_m[e]);
        shape.measure[MEASURE_ALLOWANCE + e] = steps_of(piece->allowance_m[e]);
    }
    shape.measure[MEASURE_RISING] = steps_of(piece->diagonal_rising_m);
    shape.measure[MEASURE_FALLING] = steps_of(piece->diagonal_falling_m);
    static const enum edge curved[] = {EDGE_BOTTOM, EDGE_TOP};
    for (size_t i = 0; i < COUNT_OF(curved); i++) {
        double half_m = piece_chord_m(piece, curved[i]) / 2;
        shape.measure[MEASURE_BOTTOM_DEPTH + i] =
            piece->curved[curved[i]] ? steps_of(piece_offset_m(piece, curved[i], half_m)) : 0;
    }
    return shape;
}

static void write_shape(const struct shape *shape, struct text *into) {
    text_add(into, "shape %s", shape->piece);
    for (int m = 0; m < MEASURE_COUNT; m++) {
        text_add(into, " ");
        for (const char *c = measure_names[m]; *c != '\0'; c++)
            text_add_bytes(into, *c == ' ' ? "-" : c, 1);
        text_add(into, " %.4f", (double)shape->measure[m] * 1e-4);
    }
    text_add(into, "\n");
}

/* ---- tallies ------------------------------------------------------------------- */

static size_t place_of(const struct ledger *ledger, const char *piece) {
    size_t low = 0, high = ledger->tallies;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (strcmp(ledger->tally[middle].piece, piece) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const struct tally *ledger_find(const struct ledger *ledger, const char *piece) {
    size_t at = place_of(ledger, piece);
    bool there = at < ledger->tallies && strcmp(ledger->tally[at].piece, piece) == 0;
    return there ? &ledger->tally[at] : NULL;
}

static bool room_for_tally(struct ledger *ledger) {
    if (ledger->tallies < ledger->tally_capacity)
        return true;
    size_t capacity = ledger->tally_capacity == 0 ? 8 : 2 * ledger->tally_capacity;
    struct tally *larger = realloc(ledger->tally, capacity * sizeof *larger);
    if (larger == NULL)
        return false;
    ledger->tally = larger;
    ledger->tally_capacity = capacity;
    return true;
}

static bool room_for_shape(struct ledger *ledger) {
    if (ledger->shapes < ledger->shape_capacity)
        return true;
    size_t capacity = ledger->shape_capacity == 0 ? 8 : 2 * ledger->shape_capacity;
    struct shape *larger = realloc(ledger->shape, capacity * sizeof *larger);
    if (larger == NULL)
        return false;
    ledger->shape = larger;
    ledger->shape_capacity = capacity;
    return true;
}

static struct tally *tally_of(struct ledger *ledger, const char *piece) {
    size_t at = place_of(ledger, piece);
    if (at < ledger->tallies && strcmp(ledger->tally[at].piece, piece) == 0)
        return &ledger->tally[at];
    if (ledger->tallies == TALLIES_MOST || !room_for_tally(ledger))
        return NULL;
    struct tally *tally = &ledger->tally[at];
    memmove(tally + 1, tally, (ledger->tallies++ - at) * sizeof *tally);
    *tally = (struct tally){0};
    snprintf(tally->piece, sizeof tally->piece, "%s", piece);
    return tally;
}

/* ---- reading a line --------------------------------------------------------------- */

enum { WORDS_MOST = 2 + 2 * MEASURE_COUNT, LINE_MOST = 1023 };

static size_t split(char *line, char *word[WORDS_MOST + 1]) {
    size_t count = 0;
    for (char *at = line + strspn(line, " \t\r"); *at != '\0'; at += strspn(at, " \t\r")) {
        if (count == WORDS_MOST + 1)
            return 0;
        word[count++] = at;
        at += strcspn(at, " \t\r");
        if (*at != '\0')
            *at++ = '\0';
    }
    return count;
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/* A letter for the style, two digits for the row, a letter for the half. */
static bool is_piece_name(const char *word) {
    if (word[0] < 'A' || word[0] > 'Z' || !is_digit(word[1]) || !is_digit(word[2]))
        return false;
    return word[3] == '\0' || ((word[3] == 'L' || word[3] == 'R') && word[4] == '\0');
}

/* A whole number 1 .. most in plain digits, or 0. */
static size_t small_number(const char *word, size_t most) {
    size_t length = strlen(word), value = 0;
    if (length == 0 || length > 6 || strspn(word, "0123456789") != length)
        return 0;
    for (; *word != '\0'; word++)
        value = 10 * value + (size_t)(*word - '0');
    return value <= most ? value : 0;
}

static int measure_of(const char *word) {
    for (int m = 0; m < MEASURE_COUNT; m++) {
        size_t i = 0;
        while (word[i] != '\0' &&
               (measure_names[m][i] == ' ' ? '-' : measure_names[m][i]) == word[i])
            i++;
        if (word[i] == '\0' && measure_names[m][i] == '\0')
            return m;
    }
    return -1;
}

static bool read_measure(const char *name, const char *number, struct shape *shape,
                         bool stated[MEASURE_COUNT]) {
    int m = measure_of(name);
    char *end;
    double mm = strtod(number, &end);
    if (m < 0 || stated[m] || *end != '\0' || end == number || !(fabs(mm) < 1e6))
        return false;
    shape->measure[m] = steps_of(mm * 1e-3);
    stated[m] = true;
    return true;
}

static bool read_shape(struct ledger *ledger, char *const word[], size_t words) {
    struct shape shape = {0};
    bool stated[MEASURE_COUNT] = {false};
    if (words != 2 + 2 * MEASURE_COUNT || !is_piece_name(word[1]))
        return false;
    for (size_t i = 2; i < words; i += 2)
        if (!read_measure(word[i], word[i + 1], &shape, stated))
            return false;
    struct tally *tally = tally_of(ledger, word[1]);
    if (tally == NULL || !room_for_shape(ledger))
        return false;
    memcpy(shape.piece, tally->piece, sizeof shape.piece);
    ledger->shape[ledger->shapes++] = shape;
    tally->latest = (unsigned)ledger->shapes;
    return true;
}

static void bring(struct tally *tally, size_t gore, int progress, bool as_before) {
    bool was_cut = tally->progress[gore - 1] > TICK_CUT;
    if (progress > TICK_CUT && !was_cut && !as_before)
        tally->shape[gore - 1] = tally->latest;
    tally->progress[gore - 1] = (unsigned char)progress;
}

/* [not] TICK PIECE gore N [as before] */
static bool read_tick(struct ledger *ledger, char *const word[], size_t words) {
    bool taken_back = words > 0 && strcmp(word[0], "not") == 0;
    size_t first = taken_back ? 1 : 0, rest = words - first, tick = 0;
    while (rest > 0 && tick < TICK_COUNT && strcmp(word[first], tick_words[tick]) != 0)
        tick++;
    if (rest < 4 || tick == TICK_COUNT || !is_piece_name(word[first + 1]) ||
        strcmp(word[first + 2], "gore") != 0)
        return false;
    bool as_before = !taken_back && rest == 6 && strcmp(word[first + 4], "as") == 0 &&
                     strcmp(word[first + 5], "before") == 0;
    size_t gore = small_number(word[first + 3], GORES_MOST);
    struct tally *tally =
        gore != 0 && (rest == 4 || as_before) ? tally_of(ledger, word[first + 1]) : NULL;
    if (tally == NULL)
        return false;
    int now = tally->progress[gore - 1], wanted = (int)tick + (taken_back ? 0 : 1);
    if (taken_back ? now > wanted : now < wanted)
        bring(tally, gore, wanted, as_before);
    return true;
}

static bool read_design(struct ledger *ledger, const char *line) {
    if (strncmp(line, "design ", 7) != 0)
        return false;
    snprintf(ledger->design, sizeof ledger->design, "%.*s", (int)strcspn(line + 7, "\r"), line + 7);
    return true;
}

bool ledger_read(struct ledger *ledger, const char *line, size_t length) {
    char copy[LINE_MOST + 1], *word[WORDS_MOST + 1];
    if (length > LINE_MOST || memchr(line, '\0', length) != NULL)
        return false;
    memcpy(copy, line, length);
    copy[length] = '\0';
    if (copy[0] == '#' || read_design(ledger, copy))
        return true;
    size_t words = split(copy, word);
    if (words == 0)
        return strspn(copy, " \t\r") == length;
    if (strcmp(word[0], "shape") == 0)
        return read_shape(ledger, word, words);
    return read_tick(ledger, word, words);
}

/* ---- writing ------------------------------------------------------------------------ */

/* The same dimensions, though they may have been noted twice.  Given: numbers from 1, 0 none. */
static bool same_shape(const struct ledger *ledger, unsigned one, unsigned other) {
    if (one == 0 || other == 0)
        return one == other;
    return memcmp(ledger->shape[one - 1].measure, ledger->shape[other - 1].measure,
                  sizeof ledger->shape[0].measure) == 0;
}

static bool shape_is_latest(const struct ledger *ledger, const struct tally *tally,
                            const struct shape *shape) {
    return tally != NULL && tally->latest != 0 &&
           memcmp(ledger->shape[tally->latest - 1].measure, shape->measure,
                  sizeof shape->measure) == 0;
}

static void write_tick(const char *piece, size_t gore, int progress, const char *how,
                       struct text *into) {
    text_add(into, "%s %s gore %zu%s\n", tick_words[progress - 1], piece, gore, how);
}

static void write_not(const char *piece, size_t gore, int progress, struct text *into) {
    text_add(into, "not %s %s gore %zu\n", tick_words[progress], piece, gore);
}

void ledger_write(const struct ledger *ledger, const struct piece *piece, size_t gore, int progress,
                  struct text *into) {
    const struct tally *tally = ledger_find(ledger, piece->name);
    int now = tally == NULL ? 0 : tally->progress[gore - 1];
    if (progress < now)
        write_not(piece->name, gore, progress, into);
    if (progress <= now)
        return;
    struct shape shape = shape_of(piece);
    if (now <= TICK_CUT && progress > TICK_CUT && !shape_is_latest(ledger, tally, &shape))
        write_shape(&shape, into);
    write_tick(piece->name, gore, progress, "", into);
}

struct piece_state ledger_state(const struct ledger *ledger, const char *piece, size_t gore) {
    const struct tally *tally = ledger_find(ledger, piece);
    if (tally == NULL)
        return (struct piece_state){0};
    return (struct piece_state){tally->progress[gore - 1], tally->shape[gore - 1]};
}

void ledger_restore(const struct ledger *ledger, const char *piece, size_t gore,
                    struct piece_state before, struct text *into) {
    const struct tally *tally = ledger_find(ledger, piece);
    struct piece_state now = ledger_state(ledger, piece, gore);
    bool cut_alike = same_shape(ledger, now.cut_to, before.cut_to);
    if (now.progress > TICK_CUT && before.progress > TICK_CUT && !cut_alike) {
        now.progress = TICK_CUT;
        write_not(piece, gore, now.progress, into);
    }
    if (before.progress < now.progress)
        write_not(piece, gore, before.progress, into);
    if (before.progress <= now.progress)
        return;
    bool is_cut = now.progress <= TICK_CUT && before.progress > TICK_CUT;
    bool noted_anew = is_cut && !cut_alike && before.cut_to != 0;
    if (noted_anew && !same_shape(ledger, before.cut_to, tally->latest))
        write_shape(&ledger->shape[before.cut_to - 1], into);
    write_tick(piece, gore, before.progress, is_cut && !noted_anew ? " as before" : "", into);
}
