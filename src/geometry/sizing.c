/* sizing.c - one unknown, the unit of the outline; one target, as sewn. */
#include "geometry/sizing.h"

#include <math.h>

/* How each target is read, and how it grows with the unit. */
struct target {
    const char *key, *name, *unit;
    size_t wanted;   /* offset in struct design */
    size_t measured; /* offset in struct measure */
    int power;
};

#define WANTED(member) offsetof(struct design, size.member)
#define MEASURED(member) offsetof(struct measure, member)

static const struct target targets[] = {
    [SIZE_VOLUME] = {"size.volume", "volume", "m3", WANTED(volume_m3), MEASURED(volume_m3), 3},
    [SIZE_HEIGHT] = {"size.height", "height", "m", WANTED(height_m), MEASURED(height_m), 1},
    [SIZE_DIAMETER] = {"size.diameter", "diameter", "m", WANTED(diameter_m), MEASURED(diameter_m),
                       1},
    [SIZE_GORE_LENGTH] = {"size.gore_length", "gore length", "m", WANTED(gore_length_m),
                          MEASURED(gore_length_m), 1},
    [SIZE_CLOTH_AREA] = {"size.cloth_area", "cloth area", "m2", WANTED(cloth_area_m2),
                         MEASURED(cloth_area_m2), 2},
};

struct trial {
    const struct design *design;
    const struct target *target;
    double wanted;
    size_t rows;
    struct outline *outline;
    struct skeleton *skeleton;
    struct measure *measure;
    enum outline_status status, hindrance; /* of this size; of the last size that failed */
};

static bool try_unit(struct trial *trial, double unit_m) {
    trial->status = outline_solve(trial->design, unit_m, trial->outline);
    if (trial->status != OUTLINE_FINE) {
        trial->hindrance = trial->status;
        return false;
    }
    stations_set(trial->design, trial->outline, trial->rows, trial->skeleton);
    *trial->measure = skeleton_measure(trial->skeleton);
    return true;
}

static double measured(const struct trial *trial) {
    return *(const double *)(const void *)((const char *)trial->measure + trial->target->measured);
}

/* Logarithm of size over target: nearly straight in the logarithm of the unit. */
static double oversize(double log_unit, void *context) {
    struct trial *trial = context;
    if (!try_unit(trial, exp(log_unit)))
        return -HUGE_VAL; /* mouth, crown and cloth are too much for so small a unit */
    return log(measured(trial) / trial->wanted) / trial->target->power;
}

struct hindrance {
    const char *code, *key, *text;
};

static const struct hindrance hindrances[] = {
    [OUTLINE_MOUTH_TOO_WIDE] = {"mouth-too-wide", "outline.mouth_diameter",
                                "the mouth is wider than a body of this size can carry: the "
                                "outline would have to leave it straight up or inwards"},
    [OUTLINE_TOO_HEAVY] = {"too-heavy", "outline.weight_from",
                           "the cloth is too heavy for an envelope of this size: the outline "
                           "would have to leave the mouth nearly level"},
    [OUTLINE_CROWN_TOO_WIDE] = {"crown-too-wide", "outline.crown_diameter",
                                "the crown opening would lie above the top: it is wider than the "
                                "body"},
};

static const char *remedy(const struct design *design, enum outline_status hindrance) {
    if (hindrance == OUTLINE_CROWN_TOO_WIDE)
        return "make the crown opening smaller";
    if (hindrance == OUTLINE_MOUTH_TOO_WIDE)
        return design->outline.kind == OUTLINE_BALL_AND_CONE
                   ? "make the mouth or outline.cone_angle smaller"
                   : "make the mouth smaller";
    return design->outline.weight_from == WEIGHT_RATIO
               ? "take a smaller outline.weight_ratio"
               : "take a lighter cloth (cloth.mass) or hotter air (outline.lift_per_volume), or "
                 "leave the weight out of the outline (outline.weight_from = \"none\")";
}

/* The least size, on the safe side in its third figure. */
static double rounded_up(double size) {
    double unit = pow(10, floor(log10(size)) - 2);
    return ceil(size / unit) * unit;
}

/* No unit meets the target: say which choice stands in the way and what would do. */
static void complain(struct trial *trial, double log_unit, struct diagnostics *messages) {
    const struct hindrance *why = &hindrances[trial->hindrance];
    const char *way_out = remedy(trial->design, trial->hindrance);
    const struct target *target = trial->target;
    size_t count;
    double most = parameters(&count)[parameter_find(target->key)].most, least = HUGE_VAL;
    if (trial->hindrance != OUTLINE_FINE && try_unit(trial, exp(log_unit) * (1 + 1e-6)))
        least = rounded_up(measured(trial));
    if (least <= most)
        diagnose(messages, SEVERITY_ERROR, why->code, why->key,
                 "%s; with it the %s must be at least about %.8g %s, and %s is %g: %s, or make "
                 "the size larger",
                 why->text, target->name, least, target->unit, target->key, trial->wanted, way_out);
    else if (trial->hindrance != OUTLINE_FINE)
        diagnose(messages, SEVERITY_ERROR, why->code, why->key,
                 "%s, and with no %s up to %g %s would it do: %s", why->text, target->name, most,
                 target->unit, way_out);
    else
        diagnose(messages, SEVERITY_ERROR, "no-size", target->key,
                 "no envelope of this outline has a %s of %g %s: change the size, the mouth or "
                 "the crown",
                 target->name, trial->wanted, target->unit);
}

/* A table scales as a whole, so one measure gives the factor. */
static bool size_table(struct trial *trial) {
    if (!try_unit(trial, 1))
        return false;
    if (trial->design->size.by == SIZE_TABLE)
        return true;
    trial->skeleton->even.root = 0; /* rows must come out as they did, to the last bit */
    return try_unit(trial, pow(trial->wanted / measured(trial), 1.0 / trial->target->power));
}

/* Unit of the first trial: what a sphere of about that size would have. */
static double first_unit(const struct trial *trial) {
    static const double of_sphere[] = {[1] = 0.6, [2] = 0.4, [3] = 1};
    double size = pow(trial->wanted, 1.0 / trial->target->power);
    double least =
        fmax(trial->design->outline.mouth_diameter_m, trial->design->outline.crown_diameter_m);
    return fmax(size * of_sphere[trial->target->power], least);
}

bool size_envelope(const struct design *design, size_t rows, struct outline *outline,
                   struct skeleton *skeleton, struct measure *measure,
                   struct diagnostics *messages) {
    if (design->size.by == SIZE_LOAD) {
        diagnose(messages, SEVERITY_ERROR, "no-size", "size.by",
                 "\"load\" cannot fix the size here, where nothing is known of air and rig; "
                 "write another word");
        return false;
    }
    const struct target *target = &targets[design->size.by == SIZE_TABLE ? 0 : design->size.by];
    struct trial trial = {design,
                          target,
                          *(const double *)(const void *)((const char *)design + target->wanted),
                          rows,
                          outline,
                          skeleton,
                          measure,
                          OUTLINE_FINE,
                          OUTLINE_FINE};
    if (design->outline.kind == OUTLINE_TABLE)
        return size_table(&trial);
    double log_unit;
    bool found = rising_root(oversize, &trial, log(1e-3), log(200), log(first_unit(&trial)), 0.05,
                             1e-12, &log_unit);
    /* Where the size jumps from "none" past its target, the root is no solution. */
    if (found && fabs(oversize(log_unit, &trial)) < 1e-9)
        return true;
    complain(&trial, log_unit, messages);
    return false;
}
