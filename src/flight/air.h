/* air.h - constants of the standard air. */
#ifndef FLIGHT_AIR_H
#define FLIGHT_AIR_H

#include "gorewright/flight.h"

/* ISO 2533:1975: dry air, and how it cools up to the top of the lowest layer. */
#define GAS_J_kg_K 287.05287
#define LAPSE_K_m 0.0065
#define AIR_TOP_m 11000.0

#endif
