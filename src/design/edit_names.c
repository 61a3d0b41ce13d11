/* edit_names.c - parts of a typed list: what parts its entries, and their names. */
#include <string.h>

#include "design/edit.h"
#include "design/values.h"

static bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

int refuse_words(const struct typing *t, const struct parameter *p, const char *wanted) {
    char shown[48];
    diagnose(t->messages, SEVERITY_ERROR, "type", p->key, "\"%s\" does not fit here; %s",
             shown_text(t->typed, shown), wanted);
    return -1;
}

int refuse_count(const struct typing *t, const struct parameter *p) {
    diagnose(t->messages, SEVERITY_ERROR, "count", p->key,
             "this list is too long; at most %zu entries can be used", list_room(p));
    return -1;
}

const char *past_blanks(const char *at) {
    while (is_blank(*at))
        at++;
    return at;
}

const char *past_separator(const char *at) {
    at = past_blanks(at);
    return past_blanks(*at == ',' ? at + 1 : at);
}

/* ---- names ----------------------------------------------------------------- */

static bool wants_quotes(const char *name, size_t length, const char *parting) {
    if (length == 0)
        return false;
    if (name[0] == '"' || is_blank(name[0]) || is_blank(name[length - 1]))
        return true;
    for (size_t i = 0; i < length; i++)
        if (strchr(parting, name[i]) != NULL)
            return true;
    return false;
}

void show_name(const char *name, const char *parting, struct text *into) {
    const char *end = memchr(name, '\0', TEXT_MOST);
    size_t length = end == NULL ? TEXT_MOST - 1 : (size_t)(end - name);
    if (!wants_quotes(name, length, parting)) {
        text_add_bytes(into, name, length);
        return;
    }
    text_add(into, "\"");
    for (size_t i = 0; i < length; i++)
        text_add(into, name[i] == '"' ? "\"\"" : "%c", name[i]);
    text_add(into, "\"");
}

size_t quoted_length(const char *at) {
    if (at[0] != '"')
        return 0;
    for (size_t i = 1; at[i] != '\0'; i++) {
        if (at[i] != '"')
            continue;
        if (at[i + 1] != '"')
            return i + 1;
        i++;
    }
    return 0;
}

/* Returns: the length without the quotes around it, and with each pair in it as one; what is
 * longer than a name is only counted. */
static size_t unquote(const char *from, size_t length, char name[TEXT_MOST]) {
    bool quoted = length >= 2 && quoted_length(from) == length;
    size_t used = 0;
    for (size_t i = quoted; i < length - quoted; i++) {
        if (used < TEXT_MOST - 1)
            name[used] = from[i];
        used++;
        i += quoted && from[i] == '"';
    }
    return used;
}

bool take_name(const struct typing *t, const struct parameter *p, const char *from, size_t length,
               char name[TEXT_MOST]) {
    while (length > 0 && is_blank(from[length - 1]))
        length--;
    memset(name, 0, TEXT_MOST);
    length = unquote(from, length, name);
    if (length >= TEXT_MOST) {
        diagnose(t->messages, SEVERITY_ERROR, "text", p->key,
                 "a name has %zu bytes; at most %d can be printed, so shorten it", length,
                 TEXT_MOST - 1);
        return false;
    }
    const char *fault = text_fault(name);
    if (fault[0] != '\0')
        diagnose(t->messages, SEVERITY_ERROR, "text", p->key, "a name %s", fault);
    return fault[0] == '\0';
}
