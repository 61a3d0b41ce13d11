/* wind.h - what the wind sees of an envelope. */
#ifndef FLIGHT_WIND_H
#define FLIGHT_WIND_H

#include "gorewright/geometry.h"

/* Area of the envelope as seen from the side, above the mouth [m2]: straight from station to
 * station, the mean over all directions of the wind where gores are faceted.  Where they stand
 * out it is a little too large: of the cloth's girth and the circle around the section the
 * smaller is taken as round.  A place that is hidden behind a wider one does not count twice. */
double frontal_area_m2(const struct envelope *envelope);

/* Ends of the spread of a drag coefficient, over the one that is set (wind.drag).  A smooth
 * sphere falls from 0.47 to about 0.2 or less as the wind passes Re 2e5 to 4e5 (from memory),
 * for a diameter of 3 m at 1 to 2 m/s, the very winds in which models are handled: so down to
 * 0.2 of the usual 0.5.  Cloth that the wind dents holds more wind than a sphere; half as much
 * again is allowed for it (no source). */
#define DRAG_LOW 0.4
#define DRAG_HIGH 1.5

#endif
