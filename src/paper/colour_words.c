/* colour_words.c - the colours a template is cut in, in words. */
#include "paper/colour_words.h"

#include <stdio.h>
#include <string.h>

enum { ROOM = COLOUR_WORDS_MOST - 8 }; /* behind it "..." still fits */

static size_t add(char *into, size_t used, const char *words) {
    size_t length = strlen(words);
    if (used >= ROOM)
        return used;
    if (used + length > ROOM) {
        strcpy(into + used, "...");
        return ROOM;
    }
    memcpy(into + used, words, length + 1);
    return used + length;
}

static const char *shown(const char *name, bool on_sheet, char into[TEXT_MOST]) {
    return on_sheet ? plain_text(name, into) : name;
}

static size_t add_gores(const struct design *design, const struct envelope *envelope,
                        const struct piece *piece, size_t cloth, char *into, size_t used) {
    char number[24];
    used = add(into, used, " (gores");
    for (size_t gore = 0; gore < envelope->gores; gore++) {
        if (!piece_stands_in(envelope, piece, gore) ||
            design_colour_of(design, gore, piece->row, piece->side == SIDE_RIGHT) != cloth)
            continue;
        snprintf(number, sizeof number, " %zu", gore + 1);
        used = add(into, used, number);
    }
    return add(into, used, ")");
}

char *colour_words(const struct design *design, const struct envelope *envelope,
                   const struct piece *piece, bool on_sheet, char into[COLOUR_WORDS_MOST]) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth), used = 0;
    char words[TEXT_MOST + 32], name[TEXT_MOST];
    into[0] = '\0';
    if (cloths == 1) {
        add(into, 0, shown(cloth[0].name, on_sheet, name));
        return into;
    }
    for (size_t i = 0; i < cloths; i++) {
        size_t count = piece_count_of(design, envelope, piece, i);
        if (count == 0)
            continue;
        snprintf(words, sizeof words, "%s%c %s %zu", used > 0 ? ", " : "", cloth[i].letter,
                 shown(cloth[i].name, on_sheet, name), count);
        used = add(into, used, words);
        if (on_sheet && count < piece->count)
            used = add_gores(design, envelope, piece, i, into, used);
    }
    return into;
}

char *cloth_words(const struct design *design, bool on_sheet, char into[COLOUR_WORDS_MOST]) {
    struct cloth_colour cloth[CLOTHS_MOST];
    size_t cloths = design_cloths(design, cloth), used = 0;
    char words[TEXT_MOST + 8], name[TEXT_MOST];
    into[0] = '\0';
    for (size_t i = 0; i < cloths; i++) {
        if (cloths > 1)
            snprintf(words, sizeof words, "%s%c %s", i > 0 ? ", " : "", cloth[i].letter,
                     shown(cloth[i].name, on_sheet, name));
        used = add(into, used, cloths > 1 ? words : shown(cloth[i].name, on_sheet, name));
    }
    return into;
}
