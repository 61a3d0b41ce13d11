/* wind.h - what the wind sees of an envelope. */
#ifndef FLIGHT_WIND_H
#define FLIGHT_WIND_H

#include "gorewright/geometry.h"

/* Area of the envelope as seen from the side, above the mouth [m2]: straight from station to
 * station, the mean over all directions of the wind where gores are faceted.  Where they stand
 * out it is a little too large: of the cloth's girth and the circle around the section the
 * smaller is taken as round.  A place that is hidden behind a wider one does not count twice. */
double frontal_area_m2(const struct envelope *envelope);

#endif
