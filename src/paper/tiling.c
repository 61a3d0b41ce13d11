/* tiling.c - one piece over several sheets. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/tiling.h"

/* Paper left white beside the cut line, so that all of the line is printed. */
#define AIR_M 0.001

/* ---- how a piece lies -------------------------------------------------- */

struct flat_point laid_size(const struct piece *piece, bool turned) {
    double width_m = piece->cut_most.x_m - piece->cut_least.x_m;
    double height_m = piece->cut_most.y_m - piece->cut_least.y_m;
    return turned ? (struct flat_point){height_m, width_m} : (struct flat_point){width_m, height_m};
}

struct flat_point laid_origin(const struct piece *piece, bool turned) {
    if (turned)
        return (struct flat_point){piece->cut_most.y_m, -piece->cut_least.x_m};
    return (struct flat_point){-piece->cut_least.x_m, -piece->cut_least.y_m};
}

struct rect rect_on_piece(const struct piece *piece, bool turned, struct rect laid) {
    struct flat_point origin = laid_origin(piece, turned);
    if (turned) /* laid x is -y of the piece, laid y is its x */
        return (struct rect){laid.y0_m - origin.y_m, origin.x_m - laid.x1_m, laid.y1_m - origin.y_m,
                             origin.x_m - laid.x0_m};
    return (struct rect){laid.x0_m - origin.x_m, laid.y0_m - origin.y_m, laid.x1_m - origin.x_m,
                         laid.y1_m - origin.y_m};
}

/* ---- rectangles and closed lines --------------------------------------- */

static bool inside_ring(const struct ring *ring, double x_m, double y_m) {
    bool inside = false;
    for (size_t i = 0, before = ring->count - 1; i < ring->count; before = i++) {
        struct flat_point a = ring->point[before], b = ring->point[i];
        if ((a.y_m > y_m) != (b.y_m > y_m) &&
            x_m < a.x_m + (y_m - a.y_m) / (b.y_m - a.y_m) * (b.x_m - a.x_m))
            inside = !inside;
    }
    return inside;
}

/* Narrow the part [*from, *to] of a line at + t d to where it lies in [least, most]. */
static bool narrow(double at, double d, double least, double most, double *from, double *to) {
    if (d == 0)
        return at >= least && at <= most;
    double t0 = (least - at) / d, t1 = (most - at) / d;
    *from = fmax(*from, fmin(t0, t1));
    *to = fmin(*to, fmax(t0, t1));
    return *from <= *to;
}

/* Most segments lie wholly to one side, which is quickly seen. */
static bool beside(double a, double b, double least, double most) {
    return (a < least && b < least) || (a > most && b > most);
}

bool segment_meets(struct flat_point a, struct flat_point b, struct rect rect) {
    if (beside(a.x_m, b.x_m, rect.x0_m, rect.x1_m) || beside(a.y_m, b.y_m, rect.y0_m, rect.y1_m))
        return false;
    double from = 0, to = 1;
    return narrow(a.x_m, b.x_m - a.x_m, rect.x0_m, rect.x1_m, &from, &to) &&
           narrow(a.y_m, b.y_m - a.y_m, rect.y0_m, rect.y1_m, &from, &to);
}

bool ring_meets(const struct ring *ring, struct rect rect) {
    for (size_t i = 0, before = ring->count - 1; i < ring->count; before = i++)
        if (segment_meets(ring->point[before], ring->point[i], rect))
            return true;
    return false;
}

bool ring_touches(const struct ring *ring, struct rect rect) {
    return ring_meets(ring, rect) || inside_ring(ring, rect.x0_m, rect.y0_m);
}

bool ring_holds(const struct ring *ring, struct rect rect) {
    return !ring_meets(ring, rect) && inside_ring(ring, rect.x0_m, rect.y0_m);
}

/* ---- tiles ------------------------------------------------------------- */

/* Windows in a row that cover a length; at most TILES_MOST + 1. */
static size_t windows_over(double length_m, double window_m, double overlap_m) {
    double count = ceil((length_m - overlap_m) / (window_m - overlap_m) - 1e-9);
    return count < 1 ? 1 : count > TILES_MOST ? TILES_MOST + 1 : (size_t)count;
}

static double covered_m(size_t count, double window_m, double overlap_m) {
    return (double)count * (window_m - overlap_m) + overlap_m;
}

struct tiling tiling_of(const struct piece *piece, struct window window, bool turned) {
    struct flat_point size = laid_size(piece, turned);
    double width_m = size.x_m + 2 * AIR_M, height_m = size.y_m + 2 * AIR_M;
    struct tiling tiling = {.window = window, .turned = turned};
    tiling.columns = windows_over(width_m, window.width_m, window.overlap_m);
    tiling.rows = windows_over(height_m, window.height_m, window.overlap_m);
    if (tiling.columns > TILES_MOST || tiling.rows > TILES_MOST ||
        tiling.columns * tiling.rows > TILES_MOST)
        tiling.rows = 0;
    else if (window.roll)
        tiling.window.height_m =
            (height_m - window.overlap_m) / (double)tiling.rows + window.overlap_m;
    window = tiling.window;
    tiling.left_m = (size.x_m - covered_m(tiling.columns, window.width_m, window.overlap_m)) / 2;
    tiling.bottom_m = (size.y_m - covered_m(tiling.rows, window.height_m, window.overlap_m)) / 2;
    return tiling;
}

struct rect tile_window(const struct tiling *tiling, size_t row, size_t column) {
    const struct window *window = &tiling->window;
    size_t above_bottom = tiling->rows - 1 - row;
    double x_m = tiling->left_m + (double)column * (window->width_m - window->overlap_m);
    double y_m = tiling->bottom_m + (double)above_bottom * (window->height_m - window->overlap_m);
    return (struct rect){x_m, y_m, x_m + window->width_m, y_m + window->height_m};
}

struct rect tile_cell(const struct tiling *tiling, size_t row, size_t column) {
    struct rect cell = tile_window(tiling, row, column);
    double half_m = tiling->window.overlap_m / 2;
    cell.x0_m += column > 0 ? half_m : 0;
    cell.x1_m -= column + 1 < tiling->columns ? half_m : 0;
    cell.y0_m += row + 1 < tiling->rows ? half_m : 0;
    cell.y1_m -= row > 0 ? half_m : 0;
    return cell;
}

bool tile_wanted(const struct tiling *tiling, const struct piece *piece, size_t row,
                 size_t column) {
    struct rect cell = tile_cell(tiling, row, column);
    return ring_touches(&piece->cut, rect_on_piece(piece, tiling->turned, cell));
}

size_t tiles_wanted(const struct tiling *tiling, const struct piece *piece) {
    size_t wanted = 0;
    for (size_t row = 0; row < tiling->rows; row++)
        for (size_t column = 0; column < tiling->columns; column++)
            wanted += tile_wanted(tiling, piece, row, column);
    return wanted;
}

static double roll_length_m(const struct tiling *tiling) {
    return tiling->window.roll ? (double)(tiling->rows * tiling->columns) * tiling->window.height_m
                               : 0;
}

struct tiling tiling_choose(const struct piece *piece, const struct window *windows, size_t count) {
    struct tiling best = {0};
    size_t fewest = 0;
    for (int turned = 0; turned <= 1; turned++) {
        for (size_t i = 0; i < count; i++) {
            struct tiling tiling = tiling_of(piece, windows[i], turned);
            size_t sheets = tiles_wanted(&tiling, piece);
            if (sheets == 0 || (fewest > 0 && sheets > fewest))
                continue;
            if (fewest == 0 || sheets < fewest ||
                roll_length_m(&tiling) < roll_length_m(&best) - AIR_M) {
                best = tiling;
                fewest = sheets;
            }
        }
    }
    return best;
}

/* ---- names ------------------------------------------------------------- */

static const char letters_without_figures[] = "abcdefghjkmnpqrstuvwxyz"; /* no i, l, o */

/* A number in letters, 0 for the first of the alphabet, as columns of a table are named. */
static size_t in_letters(size_t number, const char *alphabet, char *into) {
    size_t letters = strlen(alphabet), count = 0;
    char reversed[8];
    do {
        reversed[count++] = alphabet[number % letters];
        number /= letters;
    } while (number-- > 0 && count < 3);
    for (size_t i = 0; i < count; i++)
        into[i] = reversed[count - 1 - i];
    into[count] = '\0';
    return count;
}

char *tile_name(const struct tiling *tiling, size_t row, size_t column, char into[16]) {
    size_t letters = in_letters(row, letters_without_figures, into);
    int digits = tiling->columns > 999 ? 4 : tiling->columns > 99 ? 3 : 2;
    snprintf(into + letters, 16 - letters, "-%0*u", digits, (unsigned)(column + 1) % 10000);
    return into;
}

char *pair_letters(const struct tiling *tiling, size_t row, size_t column, bool below,
                   char into[8]) {
    size_t upright = tiling->rows * (tiling->columns - 1);
    size_t seam =
        below ? upright + row * tiling->columns + column : row * (tiling->columns - 1) + column;
    in_letters(seam, letters_without_figures, into);
    return into;
}
