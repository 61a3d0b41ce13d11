/* rigging.c - the flying wires between the load tapes and the burner frame. */
#include "flight/rigging.h"

#include <math.h>

struct wire wire_of(const struct design *sized, const struct envelope *envelope) {
    double across_m = fabs(envelope->station[0].r_m - 0.5 * sized->rigging.frame_diameter_m);
    double drop_m = sized->rigging.drop_m;
    return (struct wire){hypot(across_m, drop_m), atan2(across_m, drop_m)};
}
