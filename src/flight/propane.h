/* propane.h - the fuel. */
#ifndef FLIGHT_PROPANE_H
#define FLIGHT_PROPANE_H

/* Lower heating value, the water leaving as steam.  NIST WebBook: 2219.2 kJ/mol of gas, less
 * four times 44.0 kJ/mol for the water, over 44.0956 g/mol. */
#define PROPANE_HEAT_J_kg 46.34e6

/* Fuel for a power, from its heating value [kg/h]. */
double fuel_rate_kg_h(double power_W, double heat_J_kg);

/* Pressure of the vapour over liquid propane, absolute [Pa]; pure propane at rest.  In a
 * cylinder that is drawn from, the liquid is colder than the day and the pressure lower; the
 * propane that is sold holds other gases as well.
 * Given: 100 .. 369 K (checked here against printed values from -50 C to 20 C); above the
 * critical point, 369.89 K, the critical pressure.
 * Source: the form of Wagner, with the figures of Lemmon, McLinden and Wagner (2009) from
 * memory; it meets all printed values of the tests within 0.3 %. */
double propane_pressure_Pa(double temperature_K);

#endif
