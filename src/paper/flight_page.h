/* flight_page.h - the parts of the page that says whether it will fly. */
#ifndef PAPER_FLIGHT_PAGE_H
#define PAPER_FLIGHT_PAGE_H

#include "gorewright/paper.h"
#include "paper/quantities.h"

/* What the page is made from: everything worked out once. */
struct flight {
    const struct design *design;
    const struct envelope *envelope;
    struct masses masses;
    struct masses printed;    /* the same as they are printed, adding up */
    double gross_kg, left_kg; /* lift, and what it lifts beyond its weight, as printed */
    double margin_K;          /* lift.margin_K as printed */
    struct lift lift;
    struct heat heat;
    struct loads loads;
};

/* All that the page is made from. */
void work_out_flight(const struct design *sized, const struct envelope *envelope,
                     struct flight *flight);

/* A line "  label          words ...", broken at blanks under its words. */
void flight_line(struct text *into, const char *label, const char *format, ...) FORMATTED(3, 4);

/* What flight_warn says of it under "TAKE NOTE"; nothing when there is nothing. */
void flight_take_note(const struct design *sized, const struct envelope *envelope,
                      struct text *into);

/* Words as lines indented by two. */
void flight_note(const char *words, struct text *into);

/* Lift by outside and inside temperature; temperature needed by outside temperature and rig. */
void flight_lift_tables(const struct flight *flight, struct text *into);

/* Load and factor at every station, the weakest of tapes and of cloth named, the two codes beside.
 */
void flight_loads(const struct flight *flight, struct text *into);

#endif
