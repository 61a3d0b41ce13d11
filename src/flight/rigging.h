/* rigging.h - the flying wires between the load tapes and the burner frame. */
#ifndef FLIGHT_RIGGING_H
#define FLIGHT_RIGGING_H

#include "gorewright/geometry.h"

/* One of the wires, which are all alike: straight from the lower end of a load tape to the
 * circle on the burner frame, in the plane of the tape. */
struct wire {
    double length_m;
    double angle_rad; /* from the vertical, 0 .. under a right angle */
};
struct wire wire_of(const struct design *sized, const struct envelope *envelope);

#endif
