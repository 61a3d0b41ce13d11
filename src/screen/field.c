/* field.c - one line being typed. */
#include "screen/field.h"

#include <string.h>

#include "screen/keys.h"

static bool is_inside_letter(char byte) {
    return ((unsigned char)byte & 0xC0) == 0x80;
}

void field_begin(struct field *field, const char *text) {
    size_t length = strlen(text);
    field->length = length < FIELD_MOST ? length : FIELD_MOST - 1;
    memcpy(field->bytes, text, field->length);
    field->bytes[field->length] = '\0';
    field->cursor = field->length;
    field->fresh = false;
}

void field_begin_over(struct field *field, const char *text) {
    field_begin(field, text);
    field->fresh = field->length > 0;
}

static void go_left(struct field *field) {
    while (field->cursor > 0 && is_inside_letter(field->bytes[--field->cursor]))
        continue;
}

static void go_right(struct field *field) {
    while (field->cursor < field->length && is_inside_letter(field->bytes[++field->cursor]))
        continue;
}

/* Take out the bytes from the cursor up to `end`. */
static void take_out(struct field *field, size_t end) {
    memmove(field->bytes + field->cursor, field->bytes + end, field->length - end + 1);
    field->length -= end - field->cursor;
}

static void put_in(struct field *field, char byte) {
    if (field->length + 1 >= FIELD_MOST)
        return;
    memmove(field->bytes + field->cursor + 1, field->bytes + field->cursor,
            field->length - field->cursor + 1);
    field->bytes[field->cursor++] = byte;
    field->length++;
}

/* A letter at a field as it was begun takes its place; a blank only keeps it. */
static bool begin_anew(struct field *field, int key) {
    if (field->fresh && key > ' ')
        field_begin(field, "");
    bool kept = field->fresh;
    field->fresh = false;
    return kept;
}

static bool put_letter(struct field *field, int key) {
    if (key < ' ' || key == 0x7F || key > 0xFF)
        return false;
    if (!begin_anew(field, key))
        put_in(field, (char)key);
    return true;
}

static bool edit(struct field *field, int key) {
    size_t before = field->cursor;
    switch (key) {
    case PRESS_LEFT:
        go_left(field);
        return true;
    case PRESS_RIGHT:
        go_right(field);
        return true;
    case PRESS_HOME:
        field->cursor = 0;
        return true;
    case PRESS_END:
        field->cursor = field->length;
        return true;
    case PRESS_BACKSPACE:
        go_left(field);
        take_out(field, before);
        return true;
    case PRESS_DELETE:
        go_right(field);
        before = field->cursor - before;
        field->cursor -= before;
        take_out(field, field->cursor + before);
        return true;
    case PRESS_ERASE_LINE:
        field_begin(field, "");
        return true;
    default:
        return false;
    }
}

bool field_key(struct field *field, int key) {
    if (!edit(field, key))
        return put_letter(field, key);
    field->fresh = false;
    return true;
}

size_t field_letters(const struct field *field, size_t at) {
    size_t letters = 0;
    for (size_t i = 0; i < at && i < field->length; i++)
        letters += !is_inside_letter(field->bytes[i]);
    return letters;
}
