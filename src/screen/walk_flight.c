/* walk_flight.c - will it fly, and will it hold. */
#include "gorewright/flight.h"
#include "screen/walk.h"

void walk_outlook_free(struct flight_outlook *outlook) {
    diagnostics_free(&outlook->warnings);
    outlook->known = false;
}

void walk_find_outlook(struct walk *walk) {
    const struct session *session = walk->session;
    struct flight_outlook *outlook = &walk->outlook;
    if (session->envelope == NULL || session->stale)
        return;
    if (outlook->known && design_same(&session->design, &outlook->of))
        return;
    walk_outlook_free(outlook);
    outlook->of = session->design;
    outlook->known = true;
    outlook->answers = flight_answers(&session->sized, session->envelope, outlook->answer);
    flight_warn(&session->sized, session->envelope, &outlook->warnings);
}

/* ---- whole pages ----------------------------------------------------------------- */

static void open_page(struct walk *walk) {
    if (walk->page.failed || walk->page.length == 0) {
        walk_say(walk, CELL_ERROR, "There is not enough memory for this page.");
        return;
    }
    walk->help_top = 0;
    walk->over = OVER_PAGE;
}

void walk_flight_page(struct walk *walk) {
    const struct session *session = walk->session;
    text_free(&walk->page);
    if (session->envelope == NULL || session->stale) {
        walk_say(walk, CELL_ERROR, "This design cannot be built yet, so nothing is known of it.");
        return;
    }
    write_flight(&session->sized, session->envelope, &walk->page);
    open_page(walk);
}

void walk_styles_page(struct walk *walk) {
    struct diagnostics messages = {0};
    bool whole = design_check(&walk->session->design, NULL, &messages) == 0;
    diagnostics_free(&messages);
    text_free(&walk->page);
    if (!whole)
        walk_say(walk, CELL_ERROR, "Mend the values that are out of range first.");
    else if (write_comparison(&walk->session->design, &walk->page) == 0)
        walk_say(walk, CELL_ERROR, "No style can be built at this size.");
    else
        open_page(walk);
}
