/* text.c - text that grows, and numbers that read back. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/base.h"

static bool make_room(struct text *text, size_t more) {
    if (text->failed)
        return false;
    if (more > (size_t)-1 / 4 - text->length) {
        text->failed = true;
        return false;
    }
    size_t needed = text->length + more + 1;
    if (needed <= text->capacity)
        return true;
    size_t capacity = text->capacity == 0 ? 1024 : text->capacity;
    while (capacity < needed)
        capacity += capacity / 2;
    char *bytes = realloc(text->bytes, capacity);
    if (bytes == NULL) {
        text->failed = true;
        return false;
    }
    text->bytes = bytes;
    text->capacity = capacity;
    return true;
}

void text_add_bytes(struct text *text, const char *bytes, size_t count) {
    if (!make_room(text, count))
        return;
    memcpy(text->bytes + text->length, bytes, count);
    text->length += count;
    text->bytes[text->length] = '\0';
}

void text_add(struct text *text, const char *format, ...) {
    /* One pass is enough for nearly every line; the second is for long ones. */
    for (size_t guess = 128;;) {
        if (!make_room(text, guess))
            return;
        va_list arguments;
        va_start(arguments, format);
        int length = vsnprintf(text->bytes + text->length, guess + 1, format, arguments);
        va_end(arguments);
        if (length < 0) {
            text->bytes[text->length] = '\0';
            text->failed = true;
            return;
        }
        if ((size_t)length <= guess) {
            text->length += (size_t)length;
            return;
        }
        guess = (size_t)length;
    }
}

void text_free(struct text *text) {
    free(text->bytes);
    *text = (struct text){0};
}

char *shortest_real(double value, char into[32]) {
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(into, 32, "%.*g", digits, value);
        if (strtod(into, NULL) == value) /* NOLINT: equality is the point */
            break;
    }
    if (strpbrk(into, ".e") == NULL)
        strcat(into, ".0");
    return into;
}
