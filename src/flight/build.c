/* build.c - the envelope, sized by whatever fixes its size: the load as well. */
#include <math.h>

#include "gorewright/flight.h"

/* Its mass as the size changes: cloth goes with the square of a length, seams and tapes with
 * the length, the rest stays. */
struct scaling {
    double square_kg_m2, line_kg_m, fixed_kg;
};

struct seeking {
    struct design trial; /* size.by "volume" */
    double lift_kg_m3;   /* lift of a cubic metre over what must be lifted by it */
};

/* ---- how mass grows ---------------------------------------------------------- */

/* A first guess.  Length over the cube root of the volume, area over the square of that: a closed
 * natural outline, within a few parts in a hundred for any cloth; flat gores take that much more
 * cloth for their volume. */
static const double area_of_unit = 4.92, gore_of_unit = 1.98, flat_gores = 1.025;

static double allowances_m(int seam, double width_m) {
    static const double widths[] = {[SEAM_PLAIN] = 2, [SEAM_LAPPED] = 1, [SEAM_FELLED] = 3};
    return widths[seam] * width_m;
}

/* Before any envelope is built. */
static struct scaling expected(const struct design *d) {
    double gores = (double)d->gores.count, across = area_of_unit / gore_of_unit;
    double strips_m2_m =
        gores * gore_of_unit * allowances_m(d->seams.tape, d->seams.tape_width_m) +
        (d->rows.count - 1) * across * allowances_m(d->seams.row, d->seams.row_width_m);
    struct scaling s = {
        .square_kg_m2 = area_of_unit * d->cloth.mass_kg_m2,
        .line_kg_m = strips_m2_m * d->cloth.mass_kg_m2 + gores * gore_of_unit * d->tape.mass_kg_m,
        .fixed_kg =
            rig_mass_kg(d) + d->vent.ring_kg + 2 * gores * d->tape.turn_back_m * d->tape.mass_kg_m};
    if (d->weighed.envelope_kg > 0)
        s = (struct scaling){0, 0, rig_mass_kg(d) + d->weighed.envelope_kg};
    return s;
}

/* From an envelope of about the right size. */
static struct scaling found(const struct design *d, const struct envelope *envelope,
                            const struct masses *masses) {
    double length_m = cbrt(envelope->built.volume_m3);
    double sewn_kg = envelope->built.sewn_area_m2 * d->cloth.mass_kg_m2;
    double allowances_kg = envelope->built.cloth_mass_kg - sewn_kg;
    double tapes_kg = envelope->built.tape_seam_m * d->tape.mass_kg_m;
    if (d->weighed.envelope_kg > 0)
        sewn_kg = allowances_kg = tapes_kg = 0;
    if (d->weighed.cloth_kg > 0)
        sewn_kg = allowances_kg = 0;
    if (d->weighed.tapes_kg > 0)
        tapes_kg = 0;
    double line_kg = allowances_kg + tapes_kg;
    return (struct scaling){sewn_kg / (length_m * length_m), line_kg / length_m,
                            masses->all_kg - sewn_kg - line_kg};
}

struct balance {
    const struct scaling *mass;
    double lift_kg_m3;
};

/* One change of sign: a cubic whose only positive coefficient is that of the cube. */
static double excess_lift_kg(double length_m, void *context) {
    const struct balance *b = context;
    return b->lift_kg_m3 * length_m * length_m * length_m -
           (b->mass->square_kg_m2 * length_m + b->mass->line_kg_m) * length_m - b->mass->fixed_kg;
}

/* The volume whose lift that mass would be. */
static double balanced_volume_m3(const struct scaling *mass, double lift_kg_m3) {
    struct balance balance = {mass, lift_kg_m3};
    double most_m = mass->square_kg_m2 / lift_kg_m3 + sqrt(mass->line_kg_m / lift_kg_m3) +
                    cbrt(mass->fixed_kg / lift_kg_m3);
    double length_m = most_m;
    rising_root(excess_lift_kg, &balance, 0, 1.01 * most_m, most_m, 0.1 * most_m, 1e-14 * most_m,
                &length_m);
    return length_m * length_m * length_m;
}

/* ---- the search ---------------------------------------------------------------- */

static double most_m3(void) {
    size_t count;
    return parameters(&count)[parameter_find("size.volume")].most;
}

/* Build at this volume.  Returns: the envelope, with what its mass would balance in `next_m3`;
 * NULL with errors when there is none of this size. */
static struct envelope *try_volume(struct seeking *s, double volume_m3, double *next_m3,
                                   struct diagnostics *messages) {
    s->trial.size.volume_m3 = volume_m3;
    struct envelope *envelope = envelope_build(&s->trial, messages);
    if (envelope == NULL)
        return NULL;
    struct masses masses = masses_of(&s->trial, envelope);
    struct scaling mass = found(&s->trial, envelope, &masses);
    *next_m3 = balanced_volume_m3(&mass, s->lift_kg_m3);
    return envelope;
}

/* The secant through two steps of volume -> balanced volume, in logarithms, where the slope is
 * small: the masses scale nearly as struct scaling has it.  `usual_slope` of the rest, found on
 * designs of every kind, serves while there is no secant or none of use. */
static const double usual_slope = 0.02;

static double next_log(double log_v, double log_next, double log_v_before, double log_next_before) {
    double slope = (log_next - log_next_before) / (log_v - log_v_before);
    if (!(fabs(slope) < 0.5))
        slope = usual_slope;
    return log_v + (log_next - log_v) / (1 - slope);
}

static void move_messages(struct diagnostics *from, struct diagnostics *to) {
    for (size_t i = 0; i < from->count; i++)
        diagnose(to, from->item[i].severity, from->item[i].code, from->item[i].key, "%s",
                 from->item[i].text);
    diagnostics_free(from);
}

static void refuse_volume(const struct seeking *s, struct diagnostics *messages) {
    diagnose(messages, SEVERITY_ERROR, "no-size", "size.by",
             "to be carried at %g C inside, the load and the envelope itself ask for more than %g "
             "m3, the most that can be worked out: carry less, take a lighter cloth, or hotter air "
             "(air.inside)",
             s->trial.air.inside_C, most_m3());
}

static void explain_volume(double volume_m3, struct diagnostics *messages) {
    diagnose(messages, SEVERITY_ERROR, "no-size", "size.by",
             "the load asks for about %.3g m3, and no envelope of that size can be built, as said "
             "in the other message; carry more, change what stands in the way, or state a larger "
             "size.volume in place of size.by \"load\"",
             volume_m3);
}

/* Too small for its mouth, crown or cloth is the usual reason for a first guess to fail. */
static struct envelope *try_larger(struct seeking *s, double *volume_m3, double *next_m3) {
    struct envelope *envelope = NULL;
    double larger_m3 = *volume_m3;
    while (envelope == NULL && (larger_m3 *= 1.5) <= most_m3()) {
        struct diagnostics silent = {0};
        envelope = try_volume(s, larger_m3, next_m3, &silent);
        diagnostics_free(&silent);
    }
    if (envelope != NULL)
        *volume_m3 = larger_m3;
    return envelope;
}

enum { TRIALS_MOST = 40 };

/* Volume after volume, until the mass asks for the volume that it was found at.
 * Returns: the envelope, with its warnings among the messages; or NULL with errors. */
static struct envelope *seek(struct seeking *s, double volume_m3, struct diagnostics *messages) {
    double before = HUGE_VAL, next_before = HUGE_VAL, next_m3 = volume_m3;
    for (int trial = 0; trial < TRIALS_MOST && volume_m3 <= most_m3(); trial++) {
        struct diagnostics own = {0};
        struct envelope *envelope = try_volume(s, volume_m3, &next_m3, &own);
        if (envelope == NULL && trial == 0 &&
            (envelope = try_larger(s, &volume_m3, &next_m3)) != NULL)
            diagnostics_free(&own);
        double now = log(volume_m3), next = log(next_m3);
        if (envelope == NULL || fabs(next - now) < 1e-9) {
            move_messages(&own, messages);
            if (envelope == NULL)
                explain_volume(volume_m3, messages);
            return envelope;
        }
        diagnostics_free(&own);
        envelope_free(envelope);
        volume_m3 = exp(next_log(now, next, before, next_before));
        before = now;
        next_before = next;
    }
    refuse_volume(s, messages);
    return NULL;
}

/* ---- the door ------------------------------------------------------------------ */

/* Returns: false with an error when that air carries nothing. */
static bool begin(const struct design *design, struct seeking *s, struct diagnostics *messages) {
    double per_m3 = lift_kg(air_of_day(design, 0), 1, design->air.inside_C + ZERO_C_K);
    if (!(per_m3 > 0)) {
        diagnose_cold_air(messages, SEVERITY_ERROR, "needs", design);
        return false;
    }
    s->trial = *design;
    s->trial.size.by = SIZE_VOLUME;
    s->trial.cloth.width_m = 1e6; /* whether the pieces fit is asked of the last one only */
    for (size_t i = 0; i < s->trial.colours.cloths.count; i++)
        s->trial.colours.cloths.value[i].width_m = 0;
    s->trial.cutting.bolts.count = 0;
    if (design->outline.kind == OUTLINE_NATURAL && design->outline.weight_from == WEIGHT_CLOTH)
        s->trial.outline.lift_per_volume_N_m3 = GRAVITY_m_s2 * per_m3;
    s->lift_kg_m3 = per_m3 / (1 + design->air.free_lift);
    return true;
}

static struct envelope *build_for_load(const struct design *design, struct design *sized,
                                       struct diagnostics *messages) {
    struct seeking s;
    if (!begin(design, &s, messages))
        return NULL;
    struct scaling mass = expected(design);
    double first_m3 = flat_gores * balanced_volume_m3(&mass, s.lift_kg_m3);
    struct envelope *envelope = seek(&s, first_m3, messages);
    s.trial.cloth.width_m = design->cloth.width_m;
    s.trial.colours.cloths = design->colours.cloths;
    s.trial.cutting.bolts = design->cutting.bolts;
    *sized = s.trial; /* which may be the design itself */
    if (envelope != NULL && !cloth_fits(sized, envelope, messages)) {
        envelope_free(envelope);
        envelope = NULL;
    }
    if (envelope != NULL && sized->air.inside_C > sized->cloth.hottest_C)
        diagnose(
            messages, SEVERITY_WARNING, "too-hot", "air.inside",
            "sized for air that its cloth cannot stand: %g C inside, and %g C is the most that "
            "it may become (cloth.hottest); in cooler air it must be larger",
            sized->air.inside_C, sized->cloth.hottest_C);
    return envelope;
}

struct envelope *flight_build(const struct design *design, struct design *sized,
                              struct diagnostics *messages) {
    if (design->size.by == SIZE_LOAD)
        return build_for_load(design, sized, messages);
    if (sized != design)
        *sized = *design;
    return envelope_build(sized, messages);
}
