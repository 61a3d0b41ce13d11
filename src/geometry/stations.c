/* stations.c - rows along the outline. */
#include "geometry/stations.h"

#include <math.h>

/* ---- departure of a straight side from the outline --------------------- */

struct side_line {
    const struct outline *outline;
    struct meridian_point from;
    double begin, end; /* of the side, along the outline */
    double slope, sine, cosine, sign;
};

static double distance(const struct side_line *line, double s) {
    struct meridian_point at = outline_unit_at(line->outline, s);
    double dr = at.r_m - line->from.r_m, dz = at.z_m - line->from.z_m;
    return dr * line->cosine - dz * line->sine;
}

/* Falls through zero where the outline runs parallel to the side, farthest from it. */
static double closing(double s, void *context) {
    const struct side_line *line = context;
    return -line->sign * sin(outline_unit_slope_at(line->outline, s) - line->slope);
}

/* Largest distance from the side over one smooth stretch of the outline. */
static double smooth_departure(struct side_line *line, double from, double to) {
    enum { SAMPLES = 4 };
    double step = (to - from) / SAMPLES, largest = 0, place = from, s;
    int first = from > line->begin ? 0 : 1, last = to < line->end ? SAMPLES : SAMPLES - 1;
    for (int i = first; i <= last; i++) { /* at its own ends the side departs nowhere */
        double d = distance(line, from + i * step);
        if (fabs(d) > fabs(largest)) {
            largest = d;
            place = from + i * step;
        }
    }
    if (largest == 0)
        return 0;
    line->sign = largest > 0 ? 1 : -1;
    if (rising_root(closing, line, fmax(place - step, from), fmin(place + step, to), place,
                    0.2 * step, 1e-10 * step, &s))
        largest = fmax(fabs(largest), fabs(distance(line, s)));
    return fabs(largest);
}

double outline_departure(const struct outline *outline, double from, double to) {
    struct side_line line = {
        .outline = outline, .from = outline_unit_at(outline, from), .begin = from, .end = to};
    struct meridian_point end = outline_unit_at(outline, to);
    line.slope = atan2(end.r_m - line.from.r_m, end.z_m - line.from.z_m);
    line.sine = sin(line.slope);
    line.cosine = cos(line.slope);
    double largest = 0;
    size_t pieces = outline_pieces(outline);
    for (size_t i = 0; i < pieces; i++) {
        double begin = fmax(from, outline_piece_start(outline, i));
        double finish = i + 1 < pieces ? fmin(to, outline_piece_start(outline, i + 1)) : to;
        if (finish > begin)
            largest = fmax(largest, smooth_departure(&line, begin, finish));
    }
    return largest;
}

/* ---- where the stations stand, in the outline's own unit ---------------- */

static void equal_rows(double length, size_t rows, double s[]) {
    for (size_t j = 0; j <= rows; j++)
        s[j] = length * (double)j / (double)rows;
}

static void given_rows(const struct real_list *shares, double length, double s[]) {
    double sum = 0, running = 0;
    for (size_t j = 0; j < shares->count; j++)
        sum += shares->value[j];
    for (size_t j = 0; j < shares->count; j++) {
        s[j] = length * running / sum;
        running += shares->value[j];
    }
    s[shares->count] = length;
}

struct march {
    const struct outline *outline;
    double from, reach, departure; /* reach: length of the row, a guess */
    double step;                   /* of the first secant, over reach */
};

static double excess(double to, void *context) {
    const struct march *march = context;
    /* Departure grows about as the square of the row: its root is nearly straight. */
    return sqrt(outline_departure(march->outline, march->from, to)) - sqrt(march->departure);
}

/* The end of the row that begins at from and departs by departure. */
static double row_end(struct march *march, double length) {
    if (excess(length, march) <= 0)
        return length;
    double end, guess = march->from + march->reach;
    if (guess >= length)
        guess = 0.5 * (march->from + length);
    rising_root(excess, march, march->from, length, guess, march->step * march->reach,
                1e-14 * length, &end);
    return end;
}

/* Lay rows of one departure from the mouth up.
 * Given: reach, the lengths of the rows as guessed; they are brought up to date.
 * Returns: the departure the last row would need, less the one tried: positive while the
 * rows fall short. */
static double lay_rows(struct march *march, size_t rows, double length, double s[],
                       double reach[]) {
    s[0] = 0;
    for (size_t j = 1; j < rows; j++) {
        march->from = s[j - 1];
        march->reach = reach[j - 1];
        s[j] = row_end(march, length);
        reach[j - 1] = s[j] - s[j - 1];
    }
    s[rows] = length;
    return outline_departure(march->outline, s[rows - 1], length) - march->departure;
}

struct laying {
    struct march march;
    size_t rows;
    double length, *s, *reach;
    double lacking;
};

static double too_much(double root_of_departure, void *context) {
    struct laying *laying = context;
    laying->march.departure = root_of_departure * root_of_departure;
    laying->lacking =
        lay_rows(&laying->march, laying->rows, laying->length, laying->s, laying->reach);
    laying->march.step = 1e-3; /* from now on the rows are known about as well as that */
    double needed = fmax(0, laying->lacking + laying->march.departure);
    return root_of_departure - sqrt(needed);
}

static double largest_departure(const struct outline *outline, size_t rows, const double s[]) {
    double largest = 0;
    for (size_t j = 0; j < rows; j++)
        largest = fmax(largest, outline_departure(outline, s[j], s[j + 1]));
    return largest;
}

/* The same largest departure in every row.  A straight outline departs nowhere, and a
 * wavy one may jump past any even division: then equal rows are taken.
 * Given: what was found at the last size, as a guess.  Returns: it for this one. */
static void even_rows(const struct outline *outline, size_t rows, double s[],
                      struct even_guess *even) {
    double length = outline->length;
    equal_rows(length, rows, s);
    double largest = largest_departure(outline, rows, s);
    if (rows == 1 || largest < 1e-9 * length)
        return;
    double high = 1.01 * sqrt(fmax(outline_departure(outline, 0, length), largest));
    bool known = even->root > 0 && even->root < high;
    for (size_t j = 0; j < rows && !known; j++)
        even->reach[j] = length / (double)rows;
    double guess = known ? even->root : 0.9 * sqrt(largest), step = known ? 1e-4 : 0.05;
    struct march march = {.outline = outline, .step = known ? 1e-3 : 0.02};
    struct laying laying = {march, rows, length, s, even->reach, 0};
    bool found =
        rising_root(too_much, &laying, 0, high, guess, step * guess, 1e-13 * high, &even->root);
    if (found)
        too_much(even->root, &laying);
    if (found && fabs(laying.lacking) <= 1e-6 * laying.march.departure)
        return;
    equal_rows(length, rows, s);
    even->root = 0;
}

static void place_rows(const struct design *design, const struct outline *outline, size_t rows,
                       double s[], struct even_guess *even) {
    bool listed = design->rows.spacing == ROWS_GIVEN && design->rows.shares.count == rows;
    if (listed)
        given_rows(&design->rows.shares, outline->length, s);
    else if (design->rows.spacing == ROWS_EVEN_DEPARTURE)
        even_rows(outline, rows, s, even);
    else
        equal_rows(outline->length, rows, s);
}

/* ---- what stands on them ----------------------------------------------- */

double station_bulge(const struct design *design, size_t rows, size_t j) {
    const struct real_list *list = &design->bulge.stations;
    if (list->count > 0) {
        double at = (double)j * (double)(list->count - 1) / (double)rows;
        size_t below = (size_t)at;
        if (below + 1 >= list->count)
            return list->value[list->count - 1];
        return list->value[below] +
               (at - (double)below) * (list->value[below + 1] - list->value[below]);
    }
    double from_end = (double)(j < rows - j ? j : rows - j);
    double ease = (double)design->bulge.ease_rows;
    return design->bulge.depth * (from_end < ease ? from_end / ease : 1);
}

enum style gore_style_of(const struct design *design, size_t gore) {
    const struct style_list *mix = &design->gores.mix;
    int style = mix->count > 0 ? mix->value[gore % mix->count] : design->gores.style;
    return (enum style)style;
}

void stations_set(const struct design *design, const struct outline *outline, size_t rows,
                  struct skeleton *skeleton) {
    double s[ROWS_MOST + 1];
    *skeleton = (struct skeleton){
        .gores = (size_t)design->gores.count, .rows = rows, .even = skeleton->even};
    place_rows(design, outline, rows, s, &skeleton->even);
    double half_angle = PI / (double)skeleton->gores;
    for (size_t j = 0; j <= rows; j++) {
        struct station *station = &skeleton->station[j];
        double s_m = s[j] * outline->unit_m;
        struct meridian_point at = outline_at(outline, s_m);
        *station =
            (struct station){.s_m = s_m, .r_m = at.r_m, .z_m = at.z_m, .slope_rad = at.slope_rad};
        station->chord_m = 2 * at.r_m * sin(half_angle);
        station->bulge = station_bulge(design, rows, j);
    }
    for (size_t j = 0; j < rows; j++) {
        struct station *low = &skeleton->station[j], *high = low + 1;
        low->side_m = hypot(high->r_m - low->r_m, high->z_m - low->z_m);
    }
    for (size_t i = 0; i < skeleton->gores; i++)
        skeleton->style_count[gore_style_of(design, i)]++;
}

void stations_depart(const struct outline *outline, struct skeleton *skeleton) {
    for (size_t j = 0; j < skeleton->rows; j++) {
        struct station *low = &skeleton->station[j];
        double unit_m = outline->unit_m;
        low->departure_m =
            unit_m * outline_departure(outline, low->s_m / unit_m, (low + 1)->s_m / unit_m);
    }
}
