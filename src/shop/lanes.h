/* lanes.h - an order in which pieces fill the cloth side by side in lanes. */
#ifndef SHOP_LANES_H
#define SHOP_LANES_H

#include "shop/overlap.h"

/* Outlines of which some are left to lay. */
struct lane_stock {
    double width_m, length_m; /* across the cloth, and along it beside others of its kind */
    size_t left;
};

/* Choose, again and again, outlines that together fill the width of the cloth best, and lay
 * them out in lanes beside each other until one of them runs out.
 * Given: stock, used up; width_m of the cloth; stray, how far a choice may stray at random
 * from the best, as a share of the width.  Returns: `order`, indices into stock. */
void lanes_order(struct lane_stock *stock, size_t kinds, double width_m, double stray,
                 struct random *random, size_t *order);

#endif
