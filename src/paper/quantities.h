/* quantities.h - masses, temperatures, forces and so on, in the builder's units. */
#ifndef PAPER_QUANTITIES_H
#define PAPER_QUANTITIES_H

#include "gorewright/flight.h"

/* Metric, or with paper.units "inch" what goes with feet and pounds. */
enum quantity {
    MASS,        /* [kg] g, or lb */
    WHOLE_MASS,  /* [kg] kg, or lb, in three figures */
    TEMPERATURE, /* [K] C, or F */
    WARMTH,      /* a difference of temperatures [K] */
    HEIGHT,      /* [m] m, or ft */
    AREA,
    VOLUME,
    AIR_DENSITY,
    LIGHT_PRESSURE, /* [Pa] of hot air: Pa, or lb/ft2 */
    GAS_PRESSURE,   /* [Pa] in a cylinder: kPa, or psi */
    FORCE,
    RUNNING_FORCE, /* [N/m] across a metre of cloth, or an inch */
    SPEED,
    POWER,
    FLUX,
    ENERGY,
    FUEL_RATE, /* [kg/h] */
    QUANTITY_COUNT
};

enum { SHOWN_MOST = 32 };

/* A number in three figures, or whole when it is larger: "0.0123", "1.23", "12.3", "1234"; in
 * two for an estimate; "-" for what is no number.  Returns: `into`. */
char *three_figures(double value, char into[SHOWN_MOST]);
char *two_figures(double value, char into[SHOWN_MOST]);

/* A value in SI units in those of the page, and the name of the unit. */
double in_page_units(const struct design *design, enum quantity quantity, double value);
const char *page_unit(const struct design *design, enum quantity quantity);

/* Masses and temperatures go by whole grams, hundredths of a pound, whole degrees, all else in
 * three figures.  Returns: `into`, the number alone. */
char *show(const struct design *design, enum quantity quantity, double value,
           char into[SHOWN_MOST]);

/* The same with its unit behind it. */
char *show_with_unit(const struct design *design, enum quantity quantity, double value,
                     char into[SHOWN_MOST]);

/* "42 to 55 C"; one value where both read the same; "at least 42 C" without an upper end;
 * "-" for what is no number at all. */
enum { SPREAD_MOST = 2 * SHOWN_MOST };
char *show_spread(const struct design *design, enum quantity quantity, struct spread spread,
                  char into[SPREAD_MOST]);

/* The same without the unit, for a column that names it: "at least 42", "42 to 55". */
char *show_range(const struct design *design, enum quantity quantity, struct spread spread,
                 char into[SPREAD_MOST]);

/* The mass that `show` prints [kg]: a whole count of grams, or of hundredths of a pound. */
double printed_mass_kg(const struct design *design, double mass_kg);

/* The same of a difference of temperatures [K]: a whole count of degrees of the page. */
double printed_warmth_K(const struct design *design, double difference_K);

/* Round figures to whole steps so that they add up to their rounded sum: where rounding each by
 * itself would not, those that stand nearest to the next step take it, those that are `kept` only
 * after all others.
 * Given: step > 0; count values, their marks (NULL: none is kept), room for count figures.
 * Returns: the rounded sum. */
double settle_figures(double step, size_t count, const double value[], const bool kept[],
                      double printed[]);

/* A list of masses as printed: the totals of envelope and rig are those of the list, printed,
 * and the items add up to them; what the builder weighed or stated is changed last. */
struct masses printed_masses(const struct design *design, const struct masses *masses);

#endif
