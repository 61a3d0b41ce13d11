/* cautions.c - what can hurt, said once. */
#include "gorewright/flight.h"

static const char *const cautions[] = {
    "Every figure is an estimate, not a proof of strength or of fitness to fly. The first "
    "inflation, held down in still air, is the test.",
    "Local rules for aviation, fire and gas, and the people licensed for them, come first.",
    "Fire: flame and cloth are close, and nylon melts. Keep the flame in the middle of the mouth, "
    "and water or an extinguisher at hand.",
    "Propane: out of doors only, valves off when unwatched; look for leaks with soapy water, never "
    "with a flame. Gas work and cylinder filling are for people licensed to do it.",
    "Hot crown: the cloth at the top takes the most heat, more than the mean printed here. Stay "
    "below its limit, and do not touch hot parts.",
    "Lines snag and lift: no line round a hand, foot or neck; keep all of them far from power "
    "lines. Wear gloves.",
    "Height: what goes up comes down, on somebody. Keep bystanders, children above all, well back; "
    "never fly over people, roads or animals.",
    "Wind: inflate and fly in nearly still air only. A gust pulls harder than the steady wind "
    "worked out here.",
    NULL,
};

const char *const *flight_cautions(void) {
    return cautions;
}
