/* convection.h - how air takes heat from a wall, or gives heat to it.
 *
 * Nu, Ra, Re and Pr are the Nusselt, Rayleigh, Reynolds and Prandtl numbers, lengths taken
 * as the diameter of a sphere.
 */
#ifndef FLIGHT_CONVECTION_H
#define FLIGHT_CONVECTION_H

#include "flight/air.h"

/* Dry air at constant pressure: 7/2 R, from the ratio 1.4 of the heat capacities that the
 * US Standard Atmosphere 1976 takes. */
#define HEAT_CAPACITY_J_kg_K (3.5 * GAS_J_kg_K)

/* US Standard Atmosphere 1976, from some 100 K to 1000 K: viscosity [Pa s], conductivity
 * [W/(m K)]. */
double air_viscosity_Pa_s(double temperature_K);
double air_conductivity_W_m_K(double temperature_K);

/* The air between a wall and the air far from it, taken at the mean of both temperatures. */
struct film {
    double temperature_K, density_kg_m3, viscosity_Pa_s, conductivity_W_m_K, prandtl;
};
struct film film_of(double pressure_Pa, double temperature_K);

/* Ra for a difference of temperatures >= 0 across the film; expansion of an ideal gas, 1/T. */
double rayleigh(const struct film *film, double difference_K, double length_m);

/* A sphere in still air outside (Churchill 1983): Nu.  Properties at the film temperature;
 * Pr >= 0.7 or next to it.  `laminar` is stated for Ra <= 1e11.  The full form holds on both
 * sides; its printed checks lie at Ra 7e6 and 9e8.  At 1e11 the two stand apart by a factor of
 * 1.9, so changing over there would make a larger envelope lose twice as much per area:
 * estimates take the full form throughout, which is the greater of the two. */
double nusselt_sphere_laminar(double rayleigh, double prandtl);
double nusselt_sphere(double rayleigh, double prandtl);

/* Largest Ra for which correlations of free convection are commonly stated; from memory. */
#define RAYLEIGH_MOST 1e13

/* A sphere in a stream (Whitaker 1972): Nu.  Properties at the temperature of the stream;
 * viscosity_ratio is that there over that at the wall.  Measured for Re 3.5 .. 7.6e4, Pr 0.71 ..
 * 380, ratio 1 .. 3.2 (range from memory).  A balloon in wind lies beyond it, and the ratio of
 * air at a warm wall a little below. */
double nusselt_stream(double reynolds, double prandtl, double viscosity_ratio);
#define REYNOLDS_MOST 7.6e4

/* Air inside a warm envelope: Nu by two published forms, 2.5 apart.  Properties at the film
 * temperature.
 *     weak:   0.59 Ra^(1/4), above 1e9 0.13 Ra^(1/3): a wall that stands upright (from memory)
 *     strong: 2.5 (2 + 0.6 Ra^(1/4)), above 1.35e8 0.325 Ra^(1/3)
 * Both are carried, as the two ends of every estimate of heat. */
double nusselt_inside_weak(double rayleigh);
double nusselt_inside_strong(double rayleigh);

#endif
