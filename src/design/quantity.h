/* quantity.h - units of the numbers that the builder types and reads. */
#ifndef DESIGN_QUANTITY_H
#define DESIGN_QUANTITY_H

#include "gorewright/design.h"

/* A value in the table's own unit as the number shown (see quantity_unit), and back. */
double quantity_shown(const struct parameter *p, enum units units, double value);
double quantity_meant(const struct parameter *p, enum units units, double shown);

#endif
