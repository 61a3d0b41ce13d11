/* nearest.c - guess what a mistyped word was meant to be. */
#include <string.h>

#include "gorewright/base.h"

enum { WORD_MOST = 63 };

static size_t smaller(size_t a, size_t b) {
    return a < b ? a : b;
}

size_t edit_distance(const char *one, const char *other) {
    size_t rows = smaller(strlen(one), WORD_MOST), columns = smaller(strlen(other), WORD_MOST);
    size_t cost[3][WORD_MOST + 1]; /* this row, the one before, the one before that */
    for (size_t j = 0; j <= columns; j++)
        cost[0][j] = j;
    for (size_t i = 1; i <= rows; i++) {
        size_t *now = cost[i % 3], *before = cost[(i + 2) % 3], *earlier = cost[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= columns; j++) {
            size_t change = before[j - 1] + (one[i - 1] != other[j - 1]);
            now[j] = smaller(change, smaller(before[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                now[j] = smaller(now[j], earlier[j - 2] + 1);
        }
    }
    return cost[rows % 3][columns];
}

size_t guessing_reach(const char *word) {
    size_t letters = strlen(word);
    return letters < 3 ? 1 : (letters + 1) / 3;
}

const char *nearest_word(const char *word, const char *const *choices) {
    const char *nearest = NULL;
    size_t least = guessing_reach(word) + 1;
    for (; *choices != NULL; choices++) {
        size_t distance = edit_distance(word, *choices);
        if (distance < least) {
            least = distance;
            nearest = *choices;
        }
    }
    return nearest;
}
