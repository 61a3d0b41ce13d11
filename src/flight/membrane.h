/* membrane.h - thin sheets under pressure that have an answer in closed form.
 *
 * They prove a solver and give a feeling for sizes.  None of them is the load in a real
 * envelope: a natural outline asks for little tension around, whatever the style.
 * Membrane stiffness E h in N/m; pressure in Pa; lengths in m.
 */
#ifndef FLIGHT_MEMBRANE_H
#define FLIGHT_MEMBRANE_H

/* A long flat strip held along both edges: tension [N/m] as a shallow arc,
 *     N = [E h p^2 c^2 / (24 (1 - nu^2))]^(1/3),
 * and how far its middle comes out.  Source: Timoshenko and Woinowsky-Krieger, Theory of
 * Plates and Shells, ch. 1; structural design manuals.
 * Given: stiffness > 0, pressure >= 0, width > 0, Poisson's ratio 0 .. 0.5. */
double strip_tension_N_m(double stiffness_N_m, double pressure_Pa, double width_m, double poisson);
double strip_depth_m(double tension_N_m, double pressure_Pa, double width_m);

/* The same strip with the arc taken whole, Poisson's ratio 0: of half-angle phi with
 *     phi / sin(phi) - 1 = N / (E h),  N = p c / (2 sin(phi)).
 * Returns: the half-angle [rad], 0 without pressure; or -1 when the arc would pass a half
 * circle, where the cloth no longer lies within its width. */
double arc_half_angle_rad(double stiffness_N_m, double pressure_Pa, double width_m);
double arc_tension_N_m(double half_angle_rad, double pressure_Pa, double width_m);
double arc_depth_m(double half_angle_rad, double width_m);

/* A flat disc held round its edge, that comes out far against its thickness: the middle moves
 * by k R (p R / (E h))^(1/3).  Returns k, which depends on Poisson's ratio, 0 .. 0.5: a power
 * series for the tension along the radius, after Hencky's equation f^2 (f'' + 3 f'/x) = -8. */
double disc_depth_factor(double poisson);

#endif
