/* diagnostics.c - messages collected in a list, shown by someone else. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gorewright/base.h"

static char *copy_of(const char *string) {
    size_t size = strlen(string) + 1;
    char *copy = malloc(size);
    if (copy != NULL)
        memcpy(copy, string, size);
    return copy;
}

static char *formatted(const char *format, va_list arguments) FORMATTED(1, 0);
static void add(struct diagnostics *list, enum severity severity, const char *code,
                const char *file, int line, const char *key, const char *format, va_list arguments)
    FORMATTED(7, 0);

static char *formatted(const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (length < 0)
        return NULL;
    char *string = malloc((size_t)length + 1);
    if (string != NULL)
        vsnprintf(string, (size_t)length + 1, format, arguments);
    return string;
}

static struct diagnostic *next_item(struct diagnostics *list) {
    if (list->count == list->capacity) {
        size_t capacity = list->capacity == 0 ? 8 : 2 * list->capacity;
        struct diagnostic *item = realloc(list->item, capacity * sizeof *item);
        if (item == NULL)
            return NULL;
        list->item = item;
        list->capacity = capacity;
    }
    return &list->item[list->count];
}

static void add(struct diagnostics *list, enum severity severity, const char *code,
                const char *file, int line, const char *key, const char *format,
                va_list arguments) {
    if (severity == SEVERITY_ERROR)
        list->errors++;
    else
        list->warnings++;
    struct diagnostic *item = next_item(list);
    char *text = formatted(format, arguments);
    if (item == NULL || text == NULL) {
        free(text);
        return;
    }
    *item = (struct diagnostic){.severity = severity, .code = code, .line = line, .text = text};
    snprintf(item->key, sizeof item->key, "%s", key);
    item->file = file == NULL ? NULL : copy_of(file);
    list->count++;
}

void diagnose(struct diagnostics *list, enum severity severity, const char *code, const char *key,
              const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(list, severity, code, NULL, 0, key, format, arguments);
    va_end(arguments);
}

void diagnose_at(struct diagnostics *list, enum severity severity, const char *code,
                 const char *file, int line, const char *key, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(list, severity, code, file, line, key, format, arguments);
    va_end(arguments);
}

void diagnostics_free(struct diagnostics *list) {
    for (size_t i = 0; i < list->count; i++) {
        free(list->item[i].file);
        free(list->item[i].text);
    }
    free(list->item);
    *list = (struct diagnostics){0};
}

static void write_one(const struct diagnostic *item, struct text *into) {
    text_add_shown(into, item->file == NULL ? "design" : item->file);
    text_add(into, ":");
    if (item->line > 0)
        text_add(into, "%d:", item->line);
    text_add(into, " %s: ", item->severity == SEVERITY_ERROR ? "error" : "warning");
    if (item->key[0] != '\0')
        text_add(into, "%s: ", item->key);
    text_add_shown(into, item->text);
    text_add(into, "\n");
}

void diagnostics_write(const struct diagnostics *list, struct text *into) {
    for (size_t i = 0; i < list->count; i++)
        write_one(&list->item[i], into);
}
