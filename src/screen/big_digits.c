/* big_digits.c - a figure in dots, to be read from across the room. */
#include <string.h>

#include "screen/big_digits.h"

/* The dots of a sign, row by row.  Pairs easily taken for one another, 1 and 7, 6 and 8, 0
 * and 8, differ in five dots or more. */
struct sign {
    char letter;
    const char *dots[BIG_DOTS_TALL];
};

static const struct sign signs[] = {
    {'?', {".###.", "#...#", "....#", "...#.", "..#..", ".....", "..#.."}},
    {'0', {".###.", "#...#", "#...#", "#...#", "#...#", "#...#", ".###."}},
    {'1', {"..#..", ".##..", "#.#..", "..#..", "..#..", "..#..", "#####"}},
    {'2', {".###.", "#...#", "....#", "...#.", "..#..", ".#...", "#####"}},
    {'3', {"####.", "....#", "....#", ".###.", "....#", "....#", "####."}},
    {'4', {"...#.", "..##.", ".#.#.", "#..#.", "#####", "...#.", "...#."}},
    {'5', {"#####", "#....", "####.", "....#", "....#", "#...#", ".###."}},
    {'6', {"..##.", ".#...", "#....", "####.", "#...#", "#...#", ".###."}},
    {'7', {"#####", "....#", "...#.", "..#..", ".#...", ".#...", ".#..."}},
    {'8', {".###.", "#...#", "#...#", ".###.", "#...#", "#...#", ".###."}},
    {'9', {".###.", "#...#", "#...#", ".####", "....#", "...#.", ".##.."}},
    {'.', {"..", "..", "..", "..", "..", "##", "##"}},
    {'/', {"..#", "..#", ".#.", ".#.", ".#.", "#..", "#.."}},
    {'-', {"....", "....", "....", "####", "....", "....", "...."}},
    {' ', {".", ".", ".", ".", ".", ".", "."}},
    {'m', {".....", ".....", "##.#.", "#.#.#", "#.#.#", "#.#.#", "#.#.#"}},
    {'i', {".#.", "...", "##.", ".#.", ".#.", ".#.", "###"}},
    {'n', {".....", ".....", "#.##.", "##..#", "#...#", "#...#", "#...#"}},
};

static const struct sign *sign_of(char letter) {
    for (size_t i = 0; i < COUNT_OF(signs); i++)
        if (signs[i].letter == letter)
            return &signs[i];
    return &signs[0];
}

size_t big_sizes(const struct big_size **sizes) {
    /* A cell is twice as tall as wide: a dot two columns wide is square. */
    static const struct big_size table[] = {{6, 3, 6}, {4, 2, 4}, {4, 2, 2},
                                            {2, 1, 2}, {2, 1, 1}, {1, 1, 1}};
    *sizes = table;
    return COUNT_OF(table);
}

static long columns_of(const struct sign *sign, struct big_size size) {
    return (long)strlen(sign->dots[0]) * size.dot_columns;
}

long big_columns(const char *figure, struct big_size size) {
    long columns = 0;
    for (const char *c = figure; *c != '\0'; c++)
        columns += columns_of(sign_of(*c), size) + (c[1] != '\0' ? size.gap_columns : 0);
    return columns;
}

static void fill(struct canvas *canvas, long column, long row, struct big_size size,
                 enum cell_kind kind) {
    for (long r = row; r < row + size.dot_rows; r++)
        for (long c = column; c < column + size.dot_columns; c++)
            canvas_put(canvas, c, r, kind, "#");
}

static void draw_sign(struct canvas *canvas, long column, long row, struct big_size size,
                      enum cell_kind kind, const struct sign *sign) {
    for (long y = 0; y < BIG_DOTS_TALL; y++)
        for (long x = 0; sign->dots[y][x] != '\0'; x++)
            if (sign->dots[y][x] == '#')
                fill(canvas, column + x * size.dot_columns, row + y * size.dot_rows, size, kind);
}

void big_draw(struct canvas *canvas, long column, long row, struct big_size size,
              enum cell_kind kind, const char *figure) {
    for (const char *c = figure; *c != '\0'; c++) {
        const struct sign *sign = sign_of(*c);
        draw_sign(canvas, column, row, size, kind, sign);
        column += columns_of(sign, size) + size.gap_columns;
    }
}
