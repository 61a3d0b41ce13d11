/* cutting_file.c - a layout as a file: written, and read with suspicion. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shop/cutting.h"

static const char header[] = "gorewright cutting layout ";
enum { FILE_FORMAT = 1, SHOWN_MOST = 60, WORDS_MOST = 6, WORD_MOST = 40 };

static const char *const notes[] = {
    "# Where each piece lies on its cloth.  Do not change this file: what is chalked",
    "# follows it.  Below each cloth: piece, gore, strip, turn in degrees, and where the",
    "# lower left corner of its sew line lies along and across the strip, in metres.",
};

/* ---- written ------------------------------------------------------------------------ */

static void write_piece(const struct cutting_cloth *cloth, const struct cutting_piece *piece,
                        struct text *into) {
    char along[32], across[32];
    text_add(into, "%s %zu %zu %d %s %s\n", cloth->outline[piece->place.outline].name, piece->gore,
             piece->place.bolt + 1, 90 * (int)piece->place.turn,
             shortest_real(piece->place.x_m, along), shortest_real(piece->place.y_m, across));
}

void cutting_write(const struct cutting *cutting, const struct design *design, struct text *into) {
    text_add(into, "%s%d\n", header, FILE_FORMAT);
    for (size_t i = 0; i < COUNT_OF(notes); i++)
        text_add(into, "%s\n", notes[i]);
    text_add(into, "design %s\nmade-of %016llx\neffort %d\n", design->name, cutting->made_of,
             cutting->effort);
    for (size_t i = 0; i < cutting->cloths; i++) {
        const struct cutting_cloth *cloth = &cutting->cloth[i];
        text_add(into, "cloth %c %zu\n", cloth->colour.letter, cloth->pieces);
        for (size_t k = 0; k < cloth->pieces; k++)
            write_piece(cloth, &cloth->piece[k], into);
    }
    text_add(into, "end\n");
}

/* ---- read -------------------------------------------------------------------------------- */

struct reading {
    const char *name;
    const struct design *design;
    const struct envelope *envelope;
    struct cutting *cutting;
    struct diagnostics *messages;
    int line;
    struct cutting_cloth *cloth; /* that the lines belong to now; NULL before any */
    size_t wanted;               /* pieces that its line announced and that are still to come */
    size_t laid[CLOTHS_MOST];    /* of each colour */
    unsigned long long made_of;
    bool ended;
    char reason[160]; /* why it no longer holds, "" while it does */
};

/* A line cut at its blanks. */
struct words {
    size_t count;
    char word[WORDS_MOST][WORD_MOST];
};

static enum cutting_state broken(struct reading *reading, const char *what) {
    diagnose_at(reading->messages, SEVERITY_ERROR, "cutting-broken", reading->name, reading->line,
                "",
                "%s; this file was changed or cut short: put back a copy of it, or make a new "
                "layout with --anew",
                what);
    return CUTTING_BROKEN;
}

/* The first reason counts. */
static enum cutting_state void_by(struct reading *reading, const char *format, ...) FORMATTED(2, 3);

static enum cutting_state void_by(struct reading *reading, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    if (reading->reason[0] == '\0')
        vsnprintf(reading->reason, sizeof reading->reason, format, arguments);
    va_end(arguments);
    return CUTTING_SAME; /* read on: the file itself may be broken */
}

/* Returns: false when there are more words than any line has, longer ones, or other bytes than
 * printable ASCII. */
static bool split(const char *line, size_t length, struct words *words) {
    *words = (struct words){0};
    for (size_t at = 0; at < length;) {
        size_t end = at;
        while (end < length && line[end] != ' ') {
            if (line[end] < '!' || line[end] > '~')
                return false;
            end++;
        }
        if (end == at || words->count == WORDS_MOST || end - at >= WORD_MOST)
            return false;
        memcpy(words->word[words->count++], line + at, end - at);
        at = end + 1;
    }
    return words->count > 0;
}

/* A whole number without sign.  Returns: false when it is none or beyond `most`. */
static bool whole(const char *word, size_t most, size_t *number) {
    *number = 0;
    for (const char *c = word; *c != '\0'; c++) {
        if (*c < '0' || *c > '9' || *number > most)
            return false;
        *number = *number * 10 + (size_t)(*c - '0');
    }
    return word[0] != '\0' && *number <= most;
}

/* A place on a strip [m]. */
static bool length_of(const char *word, double *length_m) {
    char *end;
    if (strspn(word, "+-.0123456789e") != strlen(word))
        return false;
    *length_m = strtod(word, &end);
    return end != word && *end == '\0' && isfinite(*length_m) && fabs(*length_m) < 1e6;
}

static bool fingerprint(const char *word, unsigned long long *value) {
    char *end;
    if (strlen(word) != 16 || strspn(word, "0123456789abcdef") != 16)
        return false;
    *value = strtoull(word, &end, 16);
    return true;
}

static enum cutting_state read_cloth(struct reading *reading, const struct words *words) {
    size_t count;
    if (reading->wanted > 0)
        return broken(reading, "pieces of the cloth before are missing");
    if (words->count != 3 || strlen(words->word[1]) != 1 ||
        !whole(words->word[2], LAYOUT_PIECES_MOST, &count))
        return broken(reading, "this line names no cloth with a number of pieces");
    reading->wanted = count;
    reading->cloth = NULL;
    for (size_t i = 0; i < reading->cutting->cloths; i++)
        if (reading->cutting->cloth[i].colour.letter == words->word[1][0])
            reading->cloth = &reading->cutting->cloth[i];
    if (reading->cloth == NULL)
        return void_by(reading, "nothing is cut from cloth %s any more", words->word[1]);
    if (reading->laid[reading->cloth - reading->cutting->cloth] > 0)
        return broken(reading, "this cloth stands here twice");
    return CUTTING_SAME;
}

/* Whether that single piece is cut from the cloth at hand. */
static bool belongs(const struct reading *reading, size_t outline, size_t gore) {
    return gore > 0 && cutting_next_gore(reading->design, reading->envelope,
                                         reading->cloth->outline_piece[outline],
                                         reading->cloth->cloth, gore - 1) == gore;
}

static enum cutting_state lay_piece(struct reading *reading, const struct words *words, size_t gore,
                                    struct layout_place place) {
    struct cutting_cloth *cloth = reading->cloth;
    if (cloth == NULL)
        return CUTTING_SAME; /* of a cloth that is no more */
    size_t *laid = &reading->laid[cloth - reading->cutting->cloth];
    while (place.outline < cloth->outlines &&
           strcmp(cloth->outline[place.outline].name, words->word[0]) != 0)
        place.outline++;
    if (place.outline == cloth->outlines || !belongs(reading, place.outline, gore))
        return void_by(reading, "piece %s of gore %zu is not cut from cloth %c any more",
                       words->word[0], gore, cloth->colour.letter);
    if (place.bolt >= cloth->strips)
        return void_by(reading, "there is no strip %zu of cloth %c any more", place.bolt + 1,
                       cloth->colour.letter);
    size_t piece = cloth->outline_piece[place.outline];
    for (size_t i = 0; i < *laid; i++)
        if (cloth->piece[i].piece == piece && cloth->piece[i].gore == gore)
            return broken(reading, "this piece stands here twice");
    if (*laid == cloth->pieces)
        return broken(reading, "here are more pieces than there are");
    cloth->piece[(*laid)++] = (struct cutting_piece){.piece = piece, .gore = gore, .place = place};
    return CUTTING_SAME;
}

static enum cutting_state read_piece(struct reading *reading, const struct words *words) {
    struct layout_place place = {0};
    size_t gore, strip, degrees;
    if (words->count != 6 || !whole(words->word[1], GORES_MOST, &gore) || gore == 0 ||
        !whole(words->word[2], 2 * STOCK_MOST + 1, &strip) || strip == 0 ||
        !whole(words->word[3], 270, &degrees) || degrees % 90 != 0 ||
        !length_of(words->word[4], &place.x_m) || !length_of(words->word[5], &place.y_m))
        return broken(reading, "this line is not understood");
    if (reading->wanted == 0)
        return broken(reading, "here is a piece more than its cloth announced");
    reading->wanted--;
    place.bolt = strip - 1;
    place.turn = (enum turn)(degrees / 90);
    return lay_piece(reading, words, gore, place);
}

static enum cutting_state read_line(struct reading *reading, const char *line, size_t length) {
    struct words words;
    size_t effort;
    if (length == 0 || line[0] == '#' || strncmp(line, "design ", 7) == 0)
        return CUTTING_SAME;
    if (!split(line, length, &words))
        return broken(reading, "this line is not understood");
    if (reading->ended)
        return broken(reading, "this line stands behind the end");
    if (strcmp(words.word[0], "made-of") == 0)
        return words.count == 2 && fingerprint(words.word[1], &reading->made_of)
                   ? CUTTING_SAME
                   : broken(reading, "this line is not understood");
    if (strcmp(words.word[0], "effort") == 0) {
        if (words.count != 2 || !whole(words.word[1], EFFORT_MOST, &effort) || effort == 0)
            return broken(reading, "this line is not understood");
        reading->cutting->effort = (int)effort;
        return CUTTING_SAME;
    }
    if (strcmp(words.word[0], "cloth") == 0)
        return read_cloth(reading, &words);
    if (strcmp(words.word[0], "end") != 0)
        return read_piece(reading, &words);
    reading->ended = true;
    return reading->wanted == 0 ? CUTTING_SAME : broken(reading, "pieces are missing before here");
}

static enum cutting_state read_lines(struct reading *reading, const struct text *text) {
    enum cutting_state state = CUTTING_SAME;
    for (size_t start = 0; state == CUTTING_SAME && start < text->length;) {
        const char *line = text->bytes + start;
        const char *end = memchr(line, '\n', text->length - start);
        reading->line++;
        if (end == NULL)
            return broken(reading, "the last line is not finished");
        if (reading->line > 1)
            state = read_line(reading, line, (size_t)(end - line));
        start += (size_t)(end - line) + 1;
    }
    if (state == CUTTING_SAME && !reading->ended)
        return broken(reading, "the end is missing");
    return state;
}

/* ---- what is to be thought of it --------------------------------------------------------------
 */

static enum cutting_state judge_header(const struct reading *reading, const struct text *text) {
    char first[48];
    int length = snprintf(first, sizeof first, "%s%d\n", header, FILE_FORMAT);
    if (text->length >= (size_t)length && memcmp(text->bytes, first, (size_t)length) == 0)
        return CUTTING_SAME;
    bool ours = text->length > sizeof header && memcmp(text->bytes, header, sizeof header - 1) == 0;
    diagnose_at(reading->messages, SEVERITY_ERROR, "not-a-layout", reading->name, 1, "", "%s",
                ours ? "is of a newer format than this program knows; use a newer one"
                     : "is not a cutting layout; move it away, the layout goes there");
    return CUTTING_FOREIGN;
}

static void find_missing(struct reading *reading) {
    for (size_t i = 0; i < reading->cutting->cloths; i++) {
        const struct cutting_cloth *cloth = &reading->cutting->cloth[i];
        if (reading->laid[i] != cloth->pieces)
            void_by(reading, "it lays %zu pieces on cloth %c, and %zu are cut from it now",
                    reading->laid[i], cloth->colour.letter, cloth->pieces);
    }
}

static enum cutting_state complain(struct reading *reading) {
    diagnose_at(reading->messages, SEVERITY_ERROR, "cutting-void", reading->name, 0, "",
                "the design has changed, and this layout no longer holds: %s; look at what is "
                "chalked and cut already, then make a new one with --anew",
                reading->reason);
    return CUTTING_VOID;
}

/* Returns: false without memory. */
static bool arrange(struct cutting *cutting) {
    for (size_t i = 0; i < cutting->cloths; i++) {
        struct cutting_cloth *cloth = &cutting->cloth[i];
        struct cloth_layout *layout = &cloth->layout;
        layout->place = calloc(cloth->pieces + 1, sizeof *layout->place);
        layout->used_m = calloc(cloth->strips + 1, sizeof *layout->used_m);
        if (layout->place == NULL || layout->used_m == NULL)
            return false;
        layout->places = cloth->pieces;
        layout->bolts = cloth->strips;
        cutting_arrange(cloth);
    }
    return true;
}

static enum cutting_state judge(struct reading *reading) {
    struct diagnostics faults = {0};
    find_missing(reading);
    if (reading->reason[0] != '\0')
        return complain(reading);
    if (!arrange(reading->cutting))
        void_by(reading, "not enough memory for it");
    else if (!cutting_check(reading->cutting, &faults))
        void_by(reading, "%.150s", faults.item == NULL ? "" : faults.item[0].text);
    diagnostics_free(&faults);
    if (reading->reason[0] != '\0')
        return complain(reading);
    return reading->made_of == reading->cutting->made_of ? CUTTING_SAME : CUTTING_CHANGED;
}

enum cutting_state cutting_read(const struct text *text, const char *name,
                                const struct design *design, const struct envelope *envelope,
                                struct cutting *cutting, struct diagnostics *messages) {
    struct reading reading = {.name = name,
                              .design = design,
                              .envelope = envelope,
                              .cutting = cutting,
                              .messages = messages};
    enum cutting_state state = judge_header(&reading, text);
    if (state == CUTTING_SAME && cutting_begin(design, envelope, cutting, messages) != 0)
        return CUTTING_VOID;
    if (state == CUTTING_SAME)
        state = read_lines(&reading, text);
    return state == CUTTING_SAME ? judge(&reading) : state;
}
