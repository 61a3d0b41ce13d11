/* suggest.c - guess which parameter or group a mistyped name was meant to be. */
#include "design/suggest.h"

#include <stdio.h>
#include <string.h>

#include "gorewright/design.h"

static const char *last_part(const char *key) {
    const char *dot = strrchr(key, '.');
    return dot == NULL ? key : dot + 1;
}

const char *nearest_key(const char *key) {
    size_t count;
    const struct parameter *p = parameters(&count);
    const char *nearest = NULL;
    size_t least = guessing_reach(last_part(key)) + 1;
    for (size_t i = 0; i < count; i++) {
        size_t distance = edit_distance(key, p[i].key);
        if (distance > 1 && strcmp(last_part(key), last_part(p[i].key)) == 0)
            distance = 1; /* the right name in the wrong place */
        if (distance < least) {
            least = distance;
            nearest = p[i].key;
        }
    }
    return nearest;
}

const char *nearest_group(const char *name, char group[GROUP_NAME_MOST]) {
    size_t count;
    const struct parameter *p = parameters(&count);
    size_t least = guessing_reach(name) + 1;
    bool found = false;
    for (size_t i = 0; i < count; i++) {
        char candidate[GROUP_NAME_MOST];
        const char *dot = strchr(p[i].key, '.');
        if (dot == NULL)
            continue;
        snprintf(candidate, sizeof candidate, "%.*s", (int)(dot - p[i].key), p[i].key);
        size_t distance = edit_distance(name, candidate);
        if (distance < least) {
            least = distance;
            found = true;
            memcpy(group, candidate, sizeof candidate);
        }
    }
    return found ? group : NULL;
}
