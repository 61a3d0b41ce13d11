/* letters.c - letters of UTF-8, and which of them may be shown. */
#include "gorewright/base.h"

size_t letter_at(const char *at, unsigned long *code) {
    static const unsigned long least[] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char *bytes = (const unsigned char *)at;
    size_t length = bytes[0] < 0x80             ? 1
                    : (bytes[0] & 0xE0) == 0xC0 ? 2
                    : (bytes[0] & 0xF0) == 0xE0 ? 3
                    : (bytes[0] & 0xF8) == 0xF0 ? 4
                                                : 0;
    if (length == 0)
        return 0;
    *code = length == 1 ? bytes[0] : bytes[0] & (0xFFu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if ((bytes[i] & 0xC0) != 0x80)
            return 0; /* the closing NUL stops here too */
        *code = *code << 6 | (bytes[i] & 0x3Fu);
    }
    if (*code < least[length] || *code > 0x10FFFF || (*code >= 0xD800 && *code <= 0xDFFF))
        return 0;
    return length;
}

enum letter_kind letter_kind(unsigned long c) {
    if (c < 0x20 || (c >= 0x7F && c <= 0x9F))
        return LETTER_CONTROLS;
    if (c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) ||
        (c >= 0x2066 && c <= 0x2069))
        return LETTER_TURNS;
    if (c == 0x2028 || c == 0x2029 || c == 0xFEFF || (c & 0xFFFE) == 0xFFFE ||
        (c >= 0xFDD0 && c <= 0xFDEF))
        return LETTER_UNSEEN;
    return LETTER_PRINTS;
}

void text_add_shown(struct text *text, const char *words) {
    while (*words != '\0') {
        unsigned long code;
        size_t length = letter_at(words, &code);
        bool prints = length > 0 && letter_kind(code) == LETTER_PRINTS;
        text_add_bytes(text, prints ? words : "?", prints ? length : 1);
        words += length > 0 ? length : 1;
    }
}
