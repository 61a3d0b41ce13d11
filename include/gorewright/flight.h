/* flight.h - will it fly, and will it hold.
 *
 * From a built envelope, the rig and the air of the day: weights, lift, heat, fuel, loads,
 * wind, and what each seam style would cost.  Every estimate carries its spread; none of it
 * is a proof of strength.  SI units; temperatures in kelvin where the name ends in _K, in
 * degrees Celsius where it ends in _C.
 */
#ifndef GOREWRIGHT_FLIGHT_H
#define GOREWRIGHT_FLIGHT_H

#include "gorewright/geometry.h"

#define ZERO_C_K 273.15

/* An estimate: from `low` to `high`. */
struct spread {
    double low, high;
};

/* ---- the envelope, sized by whatever fixes its size ----------------------- */

/* envelope_build for every size.by.  With size.by "load": the smallest envelope whose lift at
 * air.inside, in the air of the day, is the whole weight (its own and the rig) times
 * 1 + air.free_lift; a natural outline with weight_from "cloth" then takes its
 * lift_per_volume from that air too.
 * Given: a design that design_check accepts; `sized` may be the design itself.  Returns: the
 * envelope, to be freed, with *sized the design as built (size.by "volume" in place of
 * "load"); or NULL with errors in `messages` and *sized of no use. */
struct envelope *flight_build(const struct design *design, struct design *sized,
                              struct diagnostics *messages);

/* Rules between air, rig and cloth that do not stand in the way of cutting: each becomes a
 * warning that says what it means (inside colder than outside, hotter than the cloth may
 * become, rig without weight, too heavy to float, little fuel pressure, factor of safety below
 * both codes, more wind than can be held, ...). */
void flight_warn(const struct design *sized, const struct envelope *envelope,
                 struct diagnostics *messages);

/* ---- air ------------------------------------------------------------------ */

struct air {
    double temperature_K, pressure_Pa, density_kg_m3;
};

/* ISO 2533:1975, geopotential height -2000 .. 11000 m. */
struct air air_standard(double altitude_m);

/* The air of the day `above_field_m` above the field, 0 .. 11000 - air.altitude: the standard
 * pressure at the field, the ground temperature stated, 6.5 K/km less above it. */
struct air air_of_day(const struct design *design, double above_field_m);

/* Dry air, R = 287.05287 J/(kg K). */
double air_density_kg_m3(double pressure_Pa, double temperature_K);

/* ---- what it weighs ------------------------------------------------------- */

struct mass_item {
    const char *name; /* points into the design for rig.others */
    bool carried;     /* of the rig; otherwise of the envelope */
    bool weighed;     /* `kg` was weighed; `computed_kg` is what the geometry gives */
    double computed_kg, kg;
};

enum { MASS_ITEMS_MOST = 16 + ITEMS_MOST };

/* Item by item [kg], each as computed from the pieces, seams and settings, or as weighed.
 * Thread: 2.5 m a metre of stitch row, stitch type 301 of ISO 4915.  With weighed.envelope one
 * item, "envelope", stands for all its parts. */
struct masses {
    struct mass_item item[MASS_ITEMS_MOST];
    size_t count;
    double envelope_kg, rig_kg, all_kg;
};
struct masses masses_of(const struct design *sized, const struct envelope *envelope);

/* ---- tape, thread and lines ------------------------------------------------ */

/* What is sewn in beside the cloth, as the masses count it. */
struct notions {
    size_t tapes, wires;    /* one for each gore seam */
    double tape_each_m;     /* tape.turn_back at both ends included */
    double mouth_band_m;    /* load tape once around the mouth */
    double thread_m;        /* in the seams, both threads, without waste */
    double wire_each_m;     /* from tape end to burner frame, knots and splices left out */
    double vent_diameter_m; /* flat disc over the crown opening, hem left out */
};
struct notions notions_of(const struct design *sized, const struct envelope *envelope);

/* ---- lift ----------------------------------------------------------------- */

/* Lift of `volume_m3` of air at inside_K in air `outside`, as a mass [kg]: negative when it
 * is colder. */
double lift_kg(struct air outside, double volume_m3, double inside_K);

/* Temperature inside at which that volume carries mass_kg [K]; infinity when no heat would. */
double floating_temperature_K(struct air outside, double volume_m3, double mass_kg);

struct lift {
    struct air outside;
    double inside_K;          /* air.inside */
    double per_volume_N_m3;   /* at air.inside */
    double gross_kg, free_kg; /* at air.inside: all it lifts, and beyond its weight */
    bool floats;              /* some temperature carries the weight */
    double needed_K;          /* to float all; infinity when none does */
    double margin_K;          /* from there to cloth.hottest; negative: cloth too hot */
    double ceiling_m;         /* above the field, where cloth.hottest just carries it; 0 when
                                 it does not even at the field; 11000 - altitude at most */
};
struct lift lift_of(const struct design *sized, const struct envelope *envelope,
                    const struct masses *masses);

/* ---- heat and fuel -------------------------------------------------------- */

struct heat {
    double at_K;               /* inside: what floats it, or air.inside when nothing does */
    struct spread cloth_K;     /* mean temperature of the cloth, by the balance alone */
    struct spread flux_W_m2;   /* loss through the cloth, heat.loss_factor included */
    struct spread hold_W;      /* burner heat to hold level, efficiency included */
    struct spread fuel_kg_h;   /* propane, lower heating value */
    struct spread minutes;     /* on rig.fuel, after heating up; 0: none left, nothing floats */
    double heat_up_J;          /* from outside temperature to at_K, losses left out */
    struct spread heat_up_min; /* at heat.burner_power, losses included; infinity: never */
    double vapour_pressure_Pa; /* of propane at the ground temperature, absolute */
    bool beyond;               /* a correlation was used beyond the range it is stated for */
};

/* The envelope as a sphere of its volume that loses heat through the sewn cloth and the closed
 * crown; what leaves through the open mouth is not counted.  From one published correlation of
 * the air inside to another, 2.5 apart; good to about a third even so.  Wind past an envelope is
 * nearly always `beyond` what was measured on spheres.  Inside not warmer than outside: no loss.
 * Every member is a number; only the minutes of heating up may be infinite. */
struct heat heat_of(const struct design *sized, const struct envelope *envelope,
                    const struct lift *lift);

/* ---- loads ---------------------------------------------------------------- */

struct station_load {
    double pressure_Pa;
    double tension_N;       /* total, all around, along the gore */
    double per_tape_N;      /* what one gore line carries */
    double cloth_alone_N_m; /* if cloth carried it alone, of girth round the tapes */
    double tape_factor;     /* strength over load, were the tape to carry it alone */
    double cloth_factor;    /* the same for cloth across a seam; both infinite without load */
    bool level;             /* outline within 5 deg of level: see loads_of */
};

struct loads {
    struct station_load station[ROWS_MOST + 1]; /* 0 mouth .. rows crown */
    size_t weakest; /* station whose better factor (tape or cloth) is the least */
    double held_N;  /* lift beyond the weight of the envelope; 0 when there is none */
    bool natural;   /* the outline asks for no tension around the envelope */
    double wire_N, wire_factor, wire_length_m, wire_angle_rad; /* one flying wire */
};

/* At air.inside, all the lift held down at the mouth, the slope that of the smooth outline, the
 * weight of the envelope spread evenly over its cloth.
 * A natural outline: the tension is that at the mouth, held / cos(slope), and grows by the
 * weight it lifts: exact, and free of the small cosines near the crown.  Other outlines carry
 * tension around as well: the tension along them follows from the balance of heights of what
 * is above each cut, but where that would ask the cloth to push, or where the outline is
 * `level`, from that of the station below as if there were no tension around.
 * An envelope that does not lift its own weight carries no tension. */
struct loads loads_of(const struct design *sized, const struct envelope *envelope,
                      const struct lift *lift);

/* What the rules for manned balloons ask for: guidance only. */
struct safety_code {
    const char *name, *clause;
    double envelope;
    double envelope_eased; /* what it may fall to under conditions; 0: not stated here */
    double wires;          /* of fibre */
    double metal_wires;    /* 0: not stated here */
    double limit_load;     /* factor on the load itself; 0: not stated here */
};
const struct safety_code *safety_codes(size_t *count);

/* ---- wind ----------------------------------------------------------------- */

/* Drag of the envelope in a steady wind >= 0, from 0.4 to 1.5 times wind.drag on its frontal
 * area [N]: for the usual 0.5, from a sphere past the fall of its drag to cloth dented by the
 * wind.  The air is that of the day at the field. */
struct spread drag_N(const struct design *sized, const struct envelope *envelope, double wind_m_s);

/* At air.inside, the envelope held by one line; a gust pulls harder.  Too heavy to lift, it is
 * dragged level. */
struct tether {
    struct spread drag_N, line_N; /* line: drag and free lift together */
    struct spread lean_rad;       /* of the line from the vertical */
};
struct tether tether_of(const struct design *sized, const struct envelope *envelope,
                        const struct lift *lift, double wind_m_s);

/* Steady wind at which the pull of that line passes wind.hold [m/s]; 0 when the lift alone
 * passes it. */
struct spread wind_to_hold_m_s(const struct design *sized, const struct envelope *envelope,
                               const struct lift *lift);

/* ---- which style ---------------------------------------------------------- */

struct style_figures {
    const char *name; /* a style, or "as designed" for a mix */
    bool built;       /* false: this style cannot be built at this size; `why` says why */
    char why[96];
    struct built figures;
    size_t templates;
    double mass_kg, needed_C, hours;
    const char *skill; /* a few words */
};
enum { COMPARED_MOST = STYLE_COUNT + 1 };

/* The three styles, and the design's own mix, at the size that the design asks for.
 * Returns: how many were filled. */
size_t styles_compare(const struct design *design, struct style_figures figures[COMPARED_MOST]);

/* Hours from the paces of the design: pieces, straight and curved seams, tapes, finish [h]. */
double build_hours(const struct design *sized, const struct envelope *envelope);

/* ---- cautions ------------------------------------------------------------- */

/* Sentences about fire, gas, heat, lines, bystanders and wind.  NULL-ended. */
const char *const *flight_cautions(void);

#endif
