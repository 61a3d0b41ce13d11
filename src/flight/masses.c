/* masses.c - what it weighs, item by item. */
#include "flight/rigging.h"
#include "gorewright/flight.h"

/* ---- thread ------------------------------------------------------------------ */

/* Stitch type 301 (ISO 4915), both threads together, for each metre of a row of stitches. */
#define THREAD_PER_ROW 2.5

/* Rows of stitches: common practice, no source, and as gorewright-design(5) tells how to sew. */
static const double seam_rows[] = {[SEAM_PLAIN] = 1, [SEAM_LAPPED] = 2, [SEAM_FELLED] = 2};
static const double hem_rows = 1, tape_rows = 2; /* a tape is sewn down along both its edges */

static double mouth_band_m(const struct envelope *envelope) {
    return girth_m(envelope, 0);
}

static double stitched_m(const struct design *sized, const struct envelope *envelope) {
    const struct built *built = &envelope->built;
    return built->tape_seam_m * (seam_rows[sized->seams.tape] + tape_rows) +
           built->row_seam_m * seam_rows[sized->seams.row] +
           built->ridge_seam_m * seam_rows[sized->seams.ridge] +
           (built->mouth_hem_m + built->crown_hem_m) * hem_rows +
           mouth_band_m(envelope) * tape_rows;
}

/* ---- the parts by length ------------------------------------------------------------ */

struct notions notions_of(const struct design *sized, const struct envelope *envelope) {
    return (struct notions){
        .tapes = envelope->gores,
        .wires = envelope->gores,
        .tape_each_m = envelope->built.gore_length_m + 2 * sized->tape.turn_back_m,
        .mouth_band_m = mouth_band_m(envelope),
        .thread_m = stitched_m(sized, envelope) * THREAD_PER_ROW,
        .wire_each_m = wire_of(sized, envelope).length_m,
        .vent_diameter_m = envelope->built.crown_diameter_m * (1 + sized->vent.oversize),
    };
}

static double thread_kg(const struct design *sized, const struct envelope *envelope) {
    return notions_of(sized, envelope).thread_m * sized->thread.tex * 1e-6;
}

/* ---- the other parts ----------------------------------------------------------- */

static double cloth_kg(const struct design *sized, const struct envelope *envelope) {
    (void)sized;
    return envelope->built.cloth_mass_kg;
}

static double tapes_kg(const struct design *sized, const struct envelope *envelope) {
    struct notions notions = notions_of(sized, envelope);
    return notions.tape_each_m * (double)notions.tapes * sized->tape.mass_kg_m;
}

/* The vent is a flat disc of the same cloth. */
static double crown_kg(const struct design *sized, const struct envelope *envelope) {
    double radius_m = 0.5 * notions_of(sized, envelope).vent_diameter_m;
    return PI * radius_m * radius_m * sized->cloth.mass_kg_m2 + sized->vent.ring_kg;
}

/* Load tape once around. */
static double mouth_kg(const struct design *sized, const struct envelope *envelope) {
    return notions_of(sized, envelope).mouth_band_m * sized->tape.mass_kg_m;
}

/* One wire from each tape. */
static double lines_kg(const struct design *sized, const struct envelope *envelope) {
    struct notions notions = notions_of(sized, envelope);
    return notions.wire_each_m * (double)notions.wires * sized->rigging.wire_kg_m;
}

static const struct part {
    const char *name, *key;
    double (*computed_kg)(const struct design *sized, const struct envelope *envelope);
    size_t weighed; /* offset in struct design */
} parts[] = {
    {"cloth", "weighed.cloth", cloth_kg, offsetof(struct design, weighed.cloth_kg)},
    {"load tapes", "weighed.tapes", tapes_kg, offsetof(struct design, weighed.tapes_kg)},
    {"thread", "weighed.thread", thread_kg, offsetof(struct design, weighed.thread_kg)},
    {"crown and vent", "weighed.crown", crown_kg, offsetof(struct design, weighed.crown_kg)},
    {"mouth band", "weighed.mouth", mouth_kg, offsetof(struct design, weighed.mouth_kg)},
    {"flying wires", "weighed.lines", lines_kg, offsetof(struct design, weighed.lines_kg)},
};

/* ---- all of it ------------------------------------------------------------------- */

static void add_part(struct masses *masses, const char *name, const char *key, double computed_kg,
                     double weighed_kg) {
    bool weighed = weighed_kg > 0;
    masses->item[masses->count++] = (struct mass_item){
        name, key, false, weighed, computed_kg, weighed ? weighed_kg : computed_kg};
}

static void add_carried(struct masses *masses, const char *name, const char *key, double kg) {
    masses->item[masses->count++] = (struct mass_item){name, key, true, false, kg, kg};
}

static void add_envelope(const struct design *sized, const struct envelope *envelope,
                         struct masses *masses) {
    double all_kg = 0;
    for (size_t i = 0; i < COUNT_OF(parts); i++) {
        const char *weighed = (const char *)sized + parts[i].weighed;
        double computed_kg = parts[i].computed_kg(sized, envelope);
        all_kg += computed_kg;
        if (sized->weighed.envelope_kg <= 0)
            add_part(masses, parts[i].name, parts[i].key, computed_kg,
                     *(const double *)(const void *)weighed);
    }
    if (sized->weighed.envelope_kg > 0)
        add_part(masses, "envelope", "weighed.envelope", all_kg, sized->weighed.envelope_kg);
}

static void add_rig(const struct design *sized, struct masses *masses) {
    add_carried(masses, "burner", "rig.burner", sized->rig.burner_kg);
    add_carried(masses, "cylinder", "rig.cylinder", sized->rig.cylinder_kg);
    add_carried(masses, "fuel", "rig.fuel", sized->rig.fuel_kg);
    add_carried(masses, "basket", "rig.basket", sized->rig.basket_kg);
    add_carried(masses, "radio", "rig.radio", sized->rig.radio_kg);
    for (size_t i = 0; i < sized->rig.others.count; i++)
        add_carried(masses, sized->rig.others.value[i].name, "rig.others",
                    sized->rig.others.value[i].mass_kg);
}

struct masses masses_of(const struct design *sized, const struct envelope *envelope) {
    struct masses masses = {0};
    add_envelope(sized, envelope, &masses);
    add_rig(sized, &masses);
    for (size_t i = 0; i < masses.count; i++)
        *(masses.item[i].carried ? &masses.rig_kg : &masses.envelope_kg) += masses.item[i].kg;
    masses.all_kg = masses.envelope_kg + masses.rig_kg;
    return masses;
}
