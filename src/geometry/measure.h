/* measure.h - volume and area of what will be sewn, from its stations alone. */
#ifndef GEOMETRY_MEASURE_H
#define GEOMETRY_MEASURE_H

#include "geometry/space.h"
#include "geometry/stations.h"

/* Cloth of one panel between two sections, as sewn: the triangulated strip in the limit of
 * many rulings.  Returns: area [m2]. */
double panel_area_m2(const struct section *low, const struct section *high);

/* Volume that one panel adds: the cone over it from the mouth's middle [m3]. */
double panel_volume_m3(const struct section *low, const struct section *high);

/* Largest stretch that the twist of a billowed panel asks for: 1/cos(tau/2) - 1, tau
 * the angle between the tangent planes at the two ends of a ruling. */
double panel_twist(const struct section *low, const struct section *high);

/* The figures a size can be given in. */
struct measure {
    double volume_m3, height_m, diameter_m, gore_length_m, cloth_area_m2;
};

/* Volume is closed at mouth and crown by fans from the axis at the height of the tape
 * corners; height and diameter are those of tape corners. */
struct measure skeleton_measure(const struct skeleton *skeleton);

/* Largest diameter at mid-gore over all stations and the styles present [m]. */
double skeleton_mid_diameter_m(const struct skeleton *skeleton);

#endif
