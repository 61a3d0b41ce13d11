/* plainly.c - messages as the screens say them: by the names of the choices. */
#include "screen/plainly.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "screen/steps.h"

/* Words about the file or the command line, and what they mean here. */
static const struct {
    const char *there, *here;
} phrases[] = {
    {"all masses of the group rig are 0", "nothing is carried"},
    {"; state what is carried, or write another word here", "; say what is carried"},
    {"the group air", "the air under Flight"},
    {"without --measured (or with this key at 0)", "with 0 here"},
};

/* ---- names -------------------------------------------------------------------- */

/* The choice of a key, or -1. */
static long choice_of(const char *key, size_t length) {
    size_t count;
    const struct step_choice *choice = step_choices(&count);
    for (size_t i = 0; i < count; i++)
        if (strlen(choice[i].key) == length && strncmp(choice[i].key, key, length) == 0)
            return (long)i;
    return -1;
}

/* A label that is set in belongs to the last one before it that is not. */
static char *name_of(long choice, char into[64]) {
    size_t count;
    const struct step_choice *table = step_choices(&count);
    const char *label = table[choice].label;
    long whole = choice;
    while (whole > 0 && table[whole].label[0] == ' ')
        whole--;
    if (whole == choice)
        snprintf(into, 64, "%s", label);
    else
        snprintf(into, 64, "%s, %s", table[whole].label, label + strspn(label, " "));
    return into;
}

char *plain_name(const char *key, char into[64]) {
    long choice = choice_of(key, strlen(key));
    if (choice >= 0)
        return name_of(choice, into);
    snprintf(into, 64, "%s", key);
    return into;
}

/* ---- sentences ------------------------------------------------------------------ */

static bool is_part_of_key(char c) {
    return isalnum((unsigned char)c) || c == '_';
}

/* Length of the key at `at`, "group.name"; 0 when none stands there. */
static size_t key_length(const char *at) {
    size_t group = 0, length;
    while (is_part_of_key(at[group]))
        group++;
    if (group == 0 || at[group] != '.' || !is_part_of_key(at[group + 1]))
        return 0;
    length = group + 1;
    while (is_part_of_key(at[length]))
        length++;
    return length;
}

/* What one of the phrases becomes.  Returns: bytes of `at` it takes, 0 when there is none. */
static size_t say_phrase(const char *at, struct text *into) {
    for (size_t i = 0; i < COUNT_OF(phrases); i++) {
        size_t length = strlen(phrases[i].there);
        if (strncmp(at, phrases[i].there, length) == 0) {
            text_add(into, "%s", phrases[i].here);
            return length;
        }
    }
    return 0;
}

static size_t say_key(const char *at, struct text *into) {
    char name[64];
    size_t length = key_length(at);
    long choice = length > 0 ? choice_of(at, length) : -1;
    if (choice < 0)
        return 0;
    text_add(into, "%s", name_of(choice, name));
    return length;
}

void say_plainly(const char *words, struct text *into) {
    bool inside = false; /* a word */
    while (*words != '\0') {
        size_t taken = inside ? 0 : say_phrase(words, into);
        if (taken == 0 && !inside)
            taken = say_key(words, into);
        if (taken == 0) {
            text_add_bytes(into, words, 1);
            inside = is_part_of_key(*words) || *words == '.';
            taken = 1;
        }
        words += taken;
    }
}

void say_message(const struct diagnostic *message, const char *not_about, struct text *into) {
    char name[64];
    bool named = message->key[0] != '\0' && choice_of(message->key, strlen(message->key)) >= 0;
    if (named && (not_about == NULL || strcmp(message->key, not_about) != 0))
        text_add(into, "%s: ", plain_name(message->key, name));
    say_plainly(message->text != NULL ? message->text : "", into);
}
