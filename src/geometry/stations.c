/* stations.c - rows along the outline. */
#include "geometry/stations.h"

#include <math.h>

#include "geometry/root.h"

/* ---- departure of a straight side from the outline --------------------- */

struct side_line {
    const struct outline *outline;
    struct meridian_point from;
    double slope, sign;
};

static double distance(const struct side_line *line, double s_m) {
    struct meridian_point at = outline_at(line->outline, s_m);
    double dr = at.r_m - line->from.r_m, dz = at.z_m - line->from.z_m;
    return dr * cos(line->slope) - dz * sin(line->slope);
}

/* Falls through zero where the outline runs parallel to the side, farthest from it. */
static double closing(double s_m, void *context) {
    const struct side_line *line = context;
    return -line->sign * sin(outline_at(line->outline, s_m).slope_rad - line->slope);
}

double outline_departure_m(const struct outline *outline, double from_m, double to_m) {
    enum { SAMPLES = 4 };
    struct side_line line = {.outline = outline, .from = outline_at(outline, from_m)};
    struct meridian_point to = outline_at(outline, to_m);
    line.slope = atan2(to.r_m - line.from.r_m, to.z_m - line.from.z_m);
    double step = (to_m - from_m) / SAMPLES, largest = 0, place = from_m;
    for (int i = 1; i < SAMPLES; i++) {
        double d = distance(&line, from_m + i * step);
        if (fabs(d) > fabs(largest)) {
            largest = d;
            place = from_m + i * step;
        }
    }
    if (largest == 0)
        return 0;
    line.sign = largest > 0 ? 1 : -1;
    double s;
    if (rising_root(closing, &line, place - step, place + step, place, 0.2 * step, 1e-9 * step, &s))
        largest = fmax(fabs(largest), fabs(distance(&line, s)));
    return fabs(largest);
}

/* ---- where the stations stand ------------------------------------------ */

static void equal_rows(double length_m, size_t rows, double s_m[]) {
    for (size_t j = 0; j <= rows; j++)
        s_m[j] = length_m * (double)j / (double)rows;
}

static void given_rows(const struct real_list *shares, double length_m, double s_m[]) {
    double sum = 0, running = 0;
    for (size_t j = 0; j < shares->count; j++)
        sum += shares->value[j];
    for (size_t j = 0; j < shares->count; j++) {
        s_m[j] = length_m * running / sum;
        running += shares->value[j];
    }
    s_m[shares->count] = length_m;
}

struct march {
    const struct outline *outline;
    double from_m, reach_m, departure_m; /* reach_m: length of the row before, a guess */
};

static double excess(double to_m, void *context) {
    const struct march *march = context;
    /* Departure grows about as the square of the row: its root is nearly straight. */
    return sqrt(outline_departure_m(march->outline, march->from_m, to_m)) -
           sqrt(march->departure_m);
}

/* The end of the row that begins at from_m and departs by departure_m. */
static double row_end(struct march *march, double length_m) {
    if (excess(length_m, march) <= 0)
        return length_m;
    double end, guess = march->from_m + march->reach_m;
    if (guess >= length_m)
        guess = 0.5 * (march->from_m + length_m);
    rising_root(excess, march, march->from_m, length_m, guess, 0.02 * march->reach_m,
                1e-12 * length_m, &end);
    return end;
}

/* Lay rows of one departure from the mouth up.  Returns: the departure the last
 * row would need, less the one tried: positive while the rows fall short. */
static double lay_rows(struct march *march, size_t rows, double length_m, double s_m[]) {
    s_m[0] = 0;
    march->reach_m = length_m / (double)rows;
    for (size_t j = 1; j < rows; j++) {
        march->from_m = s_m[j - 1];
        s_m[j] = row_end(march, length_m);
        march->reach_m = s_m[j] - s_m[j - 1];
    }
    s_m[rows] = length_m;
    return outline_departure_m(march->outline, s_m[rows - 1], length_m) - march->departure_m;
}

struct laying {
    struct march march;
    size_t rows;
    double length_m, *s_m;
};

static double too_much(double root_of_departure, void *context) {
    struct laying *laying = context;
    laying->march.departure_m = root_of_departure * root_of_departure;
    double lacking = lay_rows(&laying->march, laying->rows, laying->length_m, laying->s_m);
    return -lacking / (root_of_departure + sqrt(fmax(0, lacking + laying->march.departure_m)));
}

/* The same largest departure in every row.  A straight outline departs nowhere:
 * then any rows will do, and equal ones are taken. */
static void even_rows(const struct outline *outline, size_t rows, double s_m[]) {
    double length_m = outline->length_m;
    equal_rows(length_m, rows, s_m);
    double most = outline_departure_m(outline, 0, length_m), largest = 0;
    for (size_t j = 0; j < rows; j++)
        largest = fmax(largest, outline_departure_m(outline, s_m[j], s_m[j + 1]));
    if (rows == 1 || largest < 1e-9 * length_m)
        return;
    struct laying laying = {{.outline = outline}, rows, length_m, s_m};
    double root, high = sqrt(fmax(most, largest)) * 1.01, guess = 0.9 * sqrt(largest);
    if (rising_root(too_much, &laying, 0, high, guess, 0.05 * guess, 1e-10 * high, &root))
        too_much(root, &laying);
    else
        equal_rows(length_m, rows, s_m);
}

static void place_rows(const struct design *design, const struct outline *outline, size_t rows,
                       double s_m[]) {
    bool listed = design->rows.spacing == ROWS_GIVEN && design->rows.shares.count == rows;
    if (listed)
        given_rows(&design->rows.shares, outline->length_m, s_m);
    else if (design->rows.spacing == ROWS_EVEN_DEPARTURE)
        even_rows(outline, rows, s_m);
    else
        equal_rows(outline->length_m, rows, s_m);
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
    double s_m[ROWS_MOST + 1];
    *skeleton = (struct skeleton){.gores = (size_t)design->gores.count, .rows = rows};
    place_rows(design, outline, rows, s_m);
    double half_angle = PI / (double)skeleton->gores;
    for (size_t j = 0; j <= rows; j++) {
        struct station *station = &skeleton->station[j];
        struct meridian_point at = outline_at(outline, s_m[j]);
        *station = (struct station){
            .s_m = s_m[j], .r_m = at.r_m, .z_m = at.z_m, .slope_rad = at.slope_rad};
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
        low->departure_m = outline_departure_m(outline, low->s_m, (low + 1)->s_m);
    }
}
