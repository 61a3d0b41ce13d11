/* record.h - the inside of a bench record. */
#ifndef SHOP_RECORD_H
#define SHOP_RECORD_H

#include "shop/journal.h"
#include "shop/ledger.h"

struct record {
    struct journal journal;
    struct ledger ledger;
    char design[TEXT_MOST]; /* name of the present design, on one line */
    bool ends_in_cr;        /* its lines end as on other systems, and so will those added */
};

#endif
