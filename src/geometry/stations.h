/* stations.h - where rows meet. */
#ifndef GEOMETRY_STATIONS_H
#define GEOMETRY_STATIONS_H

#include "geometry/outline.h"

/* The skeleton of an envelope: its stations and who is built how. */
struct skeleton {
    size_t gores, rows;
    struct station station[ROWS_MOST + 1];
    size_t style_count[STYLE_COUNT];
    struct even_guess {
        double root;             /* of the departure of even rows; 0: none yet */
        double reach[ROWS_MOST]; /* length of each, in the outline's unit */
    } even;                      /* as found for the last size: a guess for the next */
};

/* Bulge at station j of `rows`: eased, or as listed (a list for another number of
 * rows is read by proportion). */
double station_bulge(const struct design *design, size_t rows, size_t j);

/* Style of gore i, 0 .. gores - 1. */
enum style gore_style_of(const struct design *design, size_t gore);

/* Divide a solved outline into rows as the design says, and stand each station on it.
 * Given: *skeleton zeroed before the first call, or as left by an earlier one. */
void stations_set(const struct design *design, const struct outline *outline, size_t rows,
                  struct skeleton *skeleton);

/* Fill in departure_m of each row: not needed while the size is still sought. */
void stations_depart(const struct outline *outline, struct skeleton *skeleton);

/* Largest distance of the smooth outline between two of its points from the straight line
 * that joins them, all in the outline's own unit. */
double outline_departure(const struct outline *outline, double from, double to);

#endif
