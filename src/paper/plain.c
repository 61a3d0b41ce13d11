/* plain.c - the builder's words on plain paper. */
#include <string.h>

#include "paper/plain.h"

enum { PAGE_COLUMNS = 79 };

/* U+00C0 .. U+017F, the accented letters of European alphabets. */
static const char near_letter[] =
    "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty"
    "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIiIiJjKkkLlLlLlLlLlNnNnNnnNnOoOoOoOoRrRrRrSsSs"
    "SsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs";

_Static_assert(sizeof near_letter == 0x180 - 0xC0 + 1, "one letter for each code point");

/* The code point at *p, and *p moved past it; what is not UTF-8 counts as one unknown. */
static unsigned long next_code_point(const unsigned char **p) {
    unsigned long lead = *(*p)++;
    size_t more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
    unsigned long code = more == 0 ? lead : lead & (0x3Fu >> more);
    for (; more > 0 && (**p & 0xC0) == 0x80; more--)
        code = code << 6 | (*(*p)++ & 0x3Fu);
    return code;
}

char *plain_text(const char *utf8, char into[TEXT_MOST]) {
    const unsigned char *p = (const unsigned char *)utf8;
    size_t length = 0;
    while (*p != '\0' && length < TEXT_MOST - 1) {
        unsigned long code = next_code_point(&p);
        if (code >= 0x300 && code < 0x370)
            continue; /* an accent of the letter before it */
        if (code >= ' ' && code <= '~')
            into[length++] = (char)code;
        else if (code >= 0xC0 && code < 0x180)
            into[length++] = near_letter[code - 0xC0];
        else
            into[length++] = code == 0xA0 ? ' ' : '?';
    }
    while (length > 0 && into[length - 1] == ' ')
        length--;
    into[length] = '\0';
    return into;
}

void flow_text(struct text *into, const char *words, size_t column, size_t indent) {
    bool at_start = column <= indent;
    for (const char *word = words + strspn(words, " "); *word != '\0';) {
        size_t length = strcspn(word, " ");
        if (!at_start && column + 1 + length > PAGE_COLUMNS) {
            text_add(into, "\n");
            column = 0;
            at_start = true;
        }
        if (at_start && column < indent) {
            text_add(into, "%*s", (int)(indent - column), "");
            column = indent;
        } else if (!at_start) {
            text_add(into, " ");
            column++;
        }
        text_add_bytes(into, word, length);
        column += length;
        at_start = false;
        word += length;
        word += strspn(word, " ");
    }
    text_add(into, "\n");
}
