/* cautions.c - what can hurt, and who has the last word: said the same on every page. */
#include "gorewright/flight.h"

/* Common practice, no source. */
static const char *const cautions[] = {
    "Fire: burner and cloth are close together, and nylon melts. Keep the flame in the middle of "
    "the mouth, water and an extinguisher at hand, children and pets away.",
    "Propane: use it out of doors only, valves shut when nobody is at them; look for leaks with "
    "soapy water, never with a flame; gas work and filling cylinders are for licensed people.",
    "Hot crown: the cloth at the top takes the most heat; stay below its limit. Do not touch hot "
    "parts.",
    "Lines snag and lift: wear gloves, keep hands, feet and necks out of loops, and all lines far "
    "from power lines.",
    "Bystanders: keep everyone well back, and never fly over people, roads or animals.",
    "Wind: inflate and fly in nearly still air only.",
    "All figures are estimates, not a proof of strength or fitness to fly. The first inflation "
    "decides, on a tether. Local aviation, fire and gas rules, and licensed people, come first.",
    NULL,
};

const char *const *flight_cautions(void) {
    return cautions;
}
