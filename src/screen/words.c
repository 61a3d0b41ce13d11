/* words.c - values and figures as short words, and words in a box. */
#include "screen/words.h"

#include <stdio.h>
#include <string.h>

static const double FOOT_m = 0.3048;

void plain_letters(const char *utf8, char *into, size_t size) {
    size_t length = 0;
    for (; *utf8 != '\0' && length + 1 < size; utf8++) {
        unsigned char byte = (unsigned char)*utf8;
        if ((byte & 0xC0) == 0x80)
            continue; /* the rest of a letter */
        into[length++] = byte >= ' ' && byte <= '~' ? *utf8 : '?';
    }
    into[length] = '\0';
}

char *shorten(const char *utf8, size_t most, char *into) {
    plain_letters(utf8, into, most + 1);
    size_t letters = 0;
    for (const char *c = utf8; *c != '\0'; c++)
        letters += ((unsigned char)*c & 0xC0) != 0x80;
    if (letters > most && most >= 4)
        memcpy(into + most - 3, "...", 3);
    return into;
}

char *show_value(const struct design *design, const char *key, size_t most, char into[64]) {
    struct text text = {0};
    parameter_show(design, (size_t)parameter_find(key), &text);
    bool measured = strncmp(key, "paper.measured", 14) == 0,
         weighed = strncmp(key, "weighed.", 8) == 0;
    if ((measured || weighed) && text.length > 1 && text.bytes[0] == '0' && text.bytes[1] == ' ') {
        text_free(&text);
        text_add(&text, measured ? "not measured" : "not weighed");
    }
    shorten(text.length > 0 ? text.bytes : "none", most < 63 ? most : 63, into);
    text_free(&text);
    return into;
}

void allowed_words(const struct design *design, const struct parameter *p, struct text *into) {
    char least[48], most[48], usual[48];
    enum units units = (enum units)design->paper.units;
    switch (p->type) {
    case PARAMETER_WHOLE:
        text_add(into, "%g to %g; usual %g.", p->least, p->most, p->usual);
        break;
    case PARAMETER_REAL:
        text_add(into, "%s to %s; usual %s.", quantity_show(p, units, p->least, least),
                 quantity_show(p, units, p->most, most), quantity_show(p, units, p->usual, usual));
        break;
    case PARAMETER_CHOICE:
        text_add(into, "Usual: %s.", p->choices[(int)p->usual]);
        break;
    case PARAMETER_STYLES:
        text_add(into, "Space to type: f, h, b, one for each gore; nothing for all alike.");
        break;
    case PARAMETER_REALS:
        text_add(into, "Space to type: %g to %g each, blanks between; nothing for none.", p->least,
                 p->most);
        break;
    case PARAMETER_ITEMS:
        text_add(into, "Space to type: camera 120 g, flag 0.05 kg; nothing for none.");
        break;
    case PARAMETER_POINTS:
        text_add(into, "Space to type: radius height, radius height, ... in metres.");
        break;
    case PARAMETER_CLOTHS:
        text_add(into, "Space to type: W white, R red, ...; nothing for one colour.");
        break;
    case PARAMETER_LINES:
        text_add(into, "Space to type: letters, one for each gore, a blank between rows.");
        break;
    case PARAMETER_STOCK:
        text_add(into, "Space to type: W 2.4 1.1, R 3 1.5: letter, length, width in m.");
        break;
    case PARAMETER_TEXT:
        text_add(into, "Space to type.  Usual: %s.", p->usual_text);
        break;
    }
}

void cost_words(const struct design *design, const struct style_cost *cost, enum style style,
                char into[96]) {
    bool feet = design->paper.units == UNITS_INCH;
    if (!cost->buildable) {
        snprintf(into, 96, "%-10s cannot be built as it is", style_name(style));
        return;
    }
    snprintf(into, 96, "%-10s %zu pieces, %.0f %s of seam", style_name(style), cost->pieces,
             feet ? cost->seam_m / FOOT_m : cost->seam_m, feet ? "ft" : "m");
}

long put_words(struct canvas *canvas, struct area_box box, enum cell_kind kind, const char *words) {
    return put_words_from(canvas, box, 0, kind, words);
}

long put_words_from(struct canvas *canvas, struct area_box box, long skipped, enum cell_kind kind,
                    const char *words) {
    long row = 0, column = 0, most = box.columns - 2;
    if (words == NULL)
        return 0;
    for (words += strspn(words, " \n"); *words != '\0' && row < box.rows;) {
        size_t length = strcspn(words, " \n");
        char word[160];
        snprintf(word, sizeof word, "%.*s", (int)length, words);
        if (column > 0 && column + 1 + (long)length > most) {
            row++;
            column = 0;
            continue;
        }
        long at = box.column + 1 + column + (column > 0);
        if (row >= skipped)
            canvas_put(canvas, at, box.row + row, kind, word);
        column = at + (long)strlen(word) - box.column - 1;
        words += length;
        words += strspn(words, " \n");
    }
    return row + (column > 0 && row < box.rows);
}
