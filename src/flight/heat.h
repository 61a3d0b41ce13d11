/* heat.h - the balance behind the estimates of heat and fuel. */
#ifndef FLIGHT_HEAT_H
#define FLIGHT_HEAT_H

#include "flight/convection.h"

#define STEFAN_BOLTZMANN_W_m2_K4 5.670374419e-8 /* CODATA 2018 */

/* An envelope as its loss sees it: a sphere of the same volume in the air of the day. */
struct warm_sphere {
    double diameter_m, emissivity; /* of the cloth, 0 .. 1 */
    double outside_K, pressure_Pa;
    double wind_m_s; /* past the envelope, >= 0 */
};

typedef double nusselt_inside(double rayleigh);

/* The mean temperature of the cloth, where the heat that comes from the air inside leaves by
 * convection and radiation, and that heat:
 *     h_in (T_in - T) = h_out (T - T_out) + emissivity sigma (T^4 - T_out^4).
 * The sky and the ground count as warm as the air, sunshine as none; the cloth itself is no
 * hindrance.  Inside: free convection by `inside`.  Outside: h^4 = h_free^4 + h_wind^4, the rule
 * for a stream across a warm body (power 4 for spheres from memory), h_wind what the stream adds
 * to a sphere at rest; at most 19 % more than the greater of the two.
 * Given: inside_K.  Not warmer than outside: no loss, the cloth as warm as outside. */
struct heat_balance {
    double cloth_K, flux_W_m2;
    bool beyond; /* a correlation was used beyond the range it is stated for */
};
struct heat_balance heat_balance(const struct warm_sphere *sphere, double inside_K,
                                 nusselt_inside *inside);

/* Heat that brings the air of an envelope from one temperature to another [J].
 *     least: c p V / R (1 - from / to): what spills from the mouth has not been warmed.
 *     most:  c p V / R ln(to / from): what spills is as warm as the air inside.
 * At constant pressure and volume the heat in the air that stays, m c_v T = p V c_v / R, never
 * changes: in the second case all the heat given leaves with the air that spills, c T for each
 * kilogram, and must not be added once more.  What warms the cloth comes besides.
 * Given: absolute temperatures.  Returns: nothing when `to` is not the higher one. */
struct spread heat_up_energy_J(double pressure_Pa, double volume_m3, double from_K, double to_K);

/* Nylon, from memory [J/(kg K)]. */
#define NYLON_HEAT_J_kg_K 1700.0

/* Time to heat it up while the loss grows: the energy of each step over what is left of the
 * burner's heat, which is taken as a straight line within it.
 * Given: steps >= 1; energy spent by the beginning of the first step, and by the end of each, and
 * the heat left there, steps + 1 values each.  Returns: [s]; infinity when one of those left is
 * not above 0. */
double heat_up_time_s(const double *energy_J, const double *left_W, size_t steps);

#endif
