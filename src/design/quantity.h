/* quantity.h - units of the numbers that the builder types and reads. */
#ifndef DESIGN_QUANTITY_H
#define DESIGN_QUANTITY_H

#include "gorewright/design.h"

/* How much one unit shown (quantity_unit) is in the table's own unit: 0.001 for mm. */
double quantity_scale(const struct parameter *p, enum units units);

#endif
