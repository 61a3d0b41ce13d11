/* words.c - words compared without regard to case, the same in every locale. */
#include "gorewright/base.h"

char ascii_lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool same_in_any_case(const char *one, const char *other) {
    while (*one != '\0' && ascii_lower(*one) == ascii_lower(*other))
        one++, other++;
    return *one == *other;
}
