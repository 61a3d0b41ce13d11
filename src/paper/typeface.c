/* typeface.c - how wide a text is, and its way into ISO Latin-1. */
#include <stdint.h>
#include <string.h>

#include "paper/postscript.h"

/* Advance widths of Helvetica and Helvetica-Bold, thousandths of the type size,
 * for 32 .. 126 and 160 .. 255 of ISO Latin-1; as `stringwidth` gives them. */
static const uint16_t low_width[][95] = {
    {
        278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
        556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
        1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
        667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
        333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
        556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
    },
    {
        278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
        975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
        667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
        333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
        611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
    },
};

static const uint16_t high_width[][96] = {
    {
        278, 333, 556, 556, 556, 556, 260,  556, 333, 737, 370, 556, 584, 333, 737, 333,
        400, 584, 333, 333, 333, 556, 537,  278, 333, 333, 365, 556, 834, 834, 834, 611,
        667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
        722, 722, 778, 778, 778, 778, 778,  584, 778, 722, 722, 722, 722, 667, 667, 611,
        556, 556, 556, 556, 556, 556, 889,  500, 556, 556, 556, 556, 278, 278, 278, 278,
        556, 556, 556, 556, 556, 556, 556,  584, 611, 556, 556, 556, 556, 500, 556, 500,
    },
    {
        278, 333, 556, 556, 556, 556, 280,  556, 333, 737, 370, 556, 584, 333, 737, 333,
        400, 584, 333, 333, 333, 611, 556,  278, 333, 333, 365, 556, 834, 834, 834, 611,
        722, 722, 722, 722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
        722, 722, 778, 778, 778, 778, 778,  584, 778, 722, 722, 722, 722, 667, 667, 611,
        556, 556, 556, 556, 556, 556, 889,  556, 556, 556, 556, 556, 278, 278, 278, 278,
        611, 611, 611, 611, 611, 611, 611,  584, 611, 611, 611, 611, 611, 556, 611, 556,
    },
};

/* One character of UTF-8.  Returns: the bytes it takes, at least 1; *code 0 when malformed. */
static size_t next_code(const unsigned char *at, uint32_t *code) {
    size_t more = *at >= 0xF0 ? 3 : *at >= 0xE0 ? 2 : *at >= 0xC0 ? 1 : 0;
    *code = *at < 0x80 ? *at : more == 0 ? 0 : *at & (0x3Fu >> more);
    for (size_t i = 1; i <= more; i++) {
        if ((at[i] & 0xC0) != 0x80) {
            *code = 0;
            return i;
        }
        *code = *code << 6 | (at[i] & 0x3Fu);
    }
    return more + 1;
}

static bool has_shape(uint32_t code) {
    return (code >= 32 && code <= 126) || (code >= 160 && code <= 255);
}

size_t latin_from_utf8(const char *utf8, unsigned char *into, size_t most) {
    const unsigned char *at = (const unsigned char *)utf8;
    size_t count = 0;
    for (uint32_t code; *at != '\0' && count < most; count++) {
        at += next_code(at, &code);
        into[count] = has_shape(code) ? (unsigned char)code : '?';
    }
    return count;
}

static size_t thousandths_of(enum face face, unsigned char latin) {
    return latin < 127 ? low_width[face][latin - 32] : high_width[face][latin - 160];
}

double ps_text_width_m(enum face face, double size_m, const char *utf8) {
    unsigned char latin[LATIN_MOST];
    size_t count = latin_from_utf8(utf8, latin, sizeof latin), thousandths = 0;
    for (size_t i = 0; i < count; i++)
        thousandths += thousandths_of(face, latin[i]);
    return (double)thousandths / 1000 * size_m;
}

char *ps_cut(enum face face, double size_m, double width_m, const char *utf8,
             char into[LATIN_MOST]) {
    static const char dots[] = "...";
    const unsigned char *at = (const unsigned char *)utf8;
    double room = (width_m + 1e-9) / size_m * 1000;
    double dots_room = room - 3 * (double)thousandths_of(face, '.');
    size_t used = 0, kept = 0, bytes = 0;
    while (at[bytes] != '\0' && (double)used <= room) {
        uint32_t code;
        if ((double)used <= dots_room && bytes < LATIN_MOST - sizeof dots)
            kept = bytes;
        bytes += next_code(at + bytes, &code);
        used += thousandths_of(face, has_shape(code) ? (unsigned char)code : '?');
    }
    if ((double)used <= room && bytes < LATIN_MOST) {
        memcpy(into, utf8, bytes + 1);
        return into;
    }
    while (kept > 0 && utf8[kept - 1] == ' ')
        kept--;
    memcpy(into, utf8, kept);
    memcpy(into + kept, dots, sizeof dots);
    return into;
}

double ps_fitting_size_m(enum face face, double most_m, double width_m, const char *utf8) {
    double width_at_most_m = ps_text_width_m(face, most_m, utf8);
    if (width_at_most_m <= width_m)
        return most_m;
    double size_m = most_m * width_m / width_at_most_m;
    return size_m < most_m / 2 ? most_m / 2 : size_m;
}
