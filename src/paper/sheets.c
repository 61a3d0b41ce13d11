/* sheets.c - dimension sheets: a page for each piece, to mark it by hand. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/lengths.h"
#include "paper/piece_choice.h"
#include "paper/plain.h"
#include "paper/colour_words.h"
#include "paper/sheets.h"

/* ---- shared words --------------------------------------------------------- */

const char *edge_corners(enum edge e) {
    static const char *const corners[EDGE_COUNT] = {"A-B", "B-C", "D-C", "A-D"};
    return corners[e];
}

char corner_letter(enum edge e) {
    return (char)('A' + e);
}

static bool stands_across(const struct piece *piece, const struct piece *other, enum edge e) {
    if (other->style != piece->style)
        return false;
    if (piece->join[e] == JOIN_RIDGE)
        return other->row == piece->row && other->side != piece->side;
    if (piece->join[e] != JOIN_ROW || other->side != piece->side)
        return false;
    return e == EDGE_TOP ? other->row == piece->row + 1 : other->row + 1 == piece->row;
}

const struct piece *piece_across(const struct sheet *sheet, enum edge e) {
    for (size_t i = 0; i < sheet->envelope->templates; i++)
        if (stands_across(sheet->piece, &sheet->envelope->piece[i], e))
            return &sheet->envelope->piece[i];
    return NULL;
}

char *gore_list(const struct envelope *envelope, enum style style, char *into) {
    size_t length = 0;
    into[0] = '\0';
    for (size_t g = 0; g < envelope->gores; g++) {
        if (envelope->gore_style[g] != (int)style)
            continue;
        size_t last = g;
        while (last + 1 < envelope->gores && envelope->gore_style[last + 1] == (int)style)
            last++;
        length += (size_t)snprintf(into + length, GORE_LIST_MOST - length, "%s%zu",
                                   length > 0 ? ", " : "", g + 1);
        if (last > g)
            length += (size_t)snprintf(into + length, GORE_LIST_MOST - length, "-%zu", last + 1);
        g = last;
    }
    return into;
}

void sheet_begin(const struct design *design, bool continued, struct text *into) {
    char name[TEXT_MOST], words[TEXT_MOST + 32];
    snprintf(words, sizeof words, "SHEETS FOR %s%s", plain_text(design->name, name),
             continued ? ", continued" : "");
    flow_text(into, words, 0, 0);
}

bool page_is_full(const struct text *text) {
    size_t lines = 0;
    for (size_t i = text->length; i > 0 && text->bytes[i - 1] != '\f'; i--)
        lines += text->bytes[i - 1] == '\n';
    return lines >= SHEET_LINES;
}

/* ---- a page ---------------------------------------------------------------- */

static void write_title(const struct sheet *sheet, struct text *into) {
    static const char *const shape[] = {"whole panel", "LEFT half", "RIGHT half"};
    const struct piece *piece = sheet->piece;
    text_add(into, "%s   CUT %zu   %s, %s, row %zu of %zu from the mouth\n", piece->name,
             piece->count, style_name(piece->style), shape[piece->side], piece->row,
             sheet->envelope->rows);
}

/* Whether the cut line, too, of one half is the mirror image of the other. */
static bool allowances_mirror(const struct piece *piece, const struct piece *other) {
    static const enum edge mirrored[EDGE_COUNT] = {
        [EDGE_BOTTOM] = EDGE_BOTTOM,
        [EDGE_RIGHT] = EDGE_LEFT,
        [EDGE_TOP] = EDGE_TOP,
        [EDGE_LEFT] = EDGE_RIGHT,
    };
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        if (fabs(piece->allowance_m[e] - other->allowance_m[mirrored[e]]) > 1e-9)
            return false;
    return true;
}

static void write_mirror_note(const struct sheet *sheet, struct text *into) {
    const struct piece *piece = sheet->piece;
    if (piece->side == SIDE_WHOLE)
        return;
    const struct piece *other = NULL;
    char words[192], mirror[144] = "";
    for (enum edge e = EDGE_BOTTOM; e < EDGE_COUNT; e++)
        if (piece->join[e] == JOIN_RIDGE)
            other = piece_across(sheet, e);
    if (other != NULL && allowances_mirror(piece, other))
        snprintf(mirror, sizeof mirror, " %s is its mirror image: keep the two apart.",
                 other->name);
    else if (other != NULL)
        snprintf(mirror, sizeof mirror,
                 " The sew line is the mirror image of %s; the cut line is not: do not turn the "
                 "pattern over.",
                 other->name);
    snprintf(words, sizeof words, "%s half, seen from outside.%s",
             piece->side == SIDE_LEFT ? "LEFT" : "RIGHT", mirror);
    flow_text(into, words, 0, 0);
}

static void write_heading(const struct sheet *sheet, struct text *into) {
    const struct design *design = sheet->design;
    char name[TEXT_MOST], colour[COLOUR_WORDS_MOST], gores[GORE_LIST_MOST], step[32];
    char words[TEXT_MOST + COLOUR_WORDS_MOST + GORE_LIST_MOST + 160];
    write_title(sheet, into);
    snprintf(words, sizeof words,
             "%s. Colour: %s. For gores %s, one in each. In %s, to the nearest %s.",
             plain_text(design->name, name),
             colour_words(design, sheet->envelope, sheet->piece, true, colour),
             gore_list(sheet->envelope, sheet->piece->style, gores), unit_in_words(design),
             design->paper.units == UNITS_INCH
                 ? parameter_word("paper.inch_fraction", design->paper.inch_fraction)
                 : format_length(design, design->paper.rounding_m, step));
    flow_text(into, words, 0, 0);
    write_mirror_note(sheet, into);
    text_add(into, "\n");
}

static void write_page(const struct sheet *sheet, struct text *into) {
    write_heading(sheet, into);
    sheet_drawing(sheet, into);
    sheet_tables(sheet, into);
}

/* ---- all pages --------------------------------------------------------------- */

int write_sheets(const struct design *design, const struct envelope *envelope, const char *piece,
                 struct text *into, struct diagnostics *messages) {
    const struct piece *only = piece == NULL ? NULL : piece_named(envelope, piece);
    bool first = true;
    if (piece != NULL && only == NULL)
        return refuse_piece(envelope, piece, messages);
    if (piece == NULL) {
        sheet_front(design, envelope, into);
        text_add(into, "\f");
        sheet_sewing(design, envelope, into);
        text_add(into, "\f");
        sheet_envelope(design, envelope, into);
        first = false;
    }
    for (size_t i = 0; i < envelope->templates; i++) {
        struct sheet sheet = {design, envelope, &envelope->piece[i]};
        if (only != NULL && sheet.piece != only)
            continue;
        if (!first)
            text_add(into, "\f");
        write_page(&sheet, into);
        first = false;
    }
    return 0;
}
