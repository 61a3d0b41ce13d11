/* pace.c - how long it takes to build, at the builder's own pace. */
#include "gorewright/flight.h"

double straight_seams_m(const struct built *built) {
    return built->tape_seam_m + built->row_seam_m + built->ridge_seam_m - built->curved_seam_m;
}

double build_hours(const struct design *sized, const struct envelope *envelope) {
    const struct built *built = &envelope->built;
    return (double)built->pieces * sized->pace.mark_and_cut_min / 60 +
           straight_seams_m(built) / sized->pace.straight_m_h +
           built->curved_seam_m / sized->pace.curved_m_h +
           built->tape_seam_m / sized->pace.tape_m_h + sized->pace.finish_h;
}
