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
 * that of a code, more wind than can be held, ...). */
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
    const char *key;  /* of the setting for what was weighed, or of the mass itself */
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
    bool ceiling_beyond;      /* it lies higher than that */
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
    struct spread heat_up_J;   /* from outside temperature to at_K, losses left out */
    struct spread heat_up_min; /* at heat.burner_power, losses included; infinity: never */
    double vapour_pressure_Pa; /* of propane at the ground temperature, absolute */
    bool no_gas;               /* that is no more than the air at the field has: none comes out */
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
    size_t weakest_tape, weakest_cloth;         /* stations of the least factor of each */
    double held_N; /* lift beyond the weight of the envelope; 0 when there is none */
    bool natural;  /* the outline asks for no tension around the envelope */
    double wire_N, wire_factor, wire_length_m, wire_angle_rad; /* one flying wire */
};

/* At air.inside, all the lift held down at the mouth, the slope that of the smooth outline, the
 * weight of the envelope spread evenly over its cloth.
 * Up to 60 deg of slope the tension follows, for every outline, from the balance of heights of
 * what is above each cut, as sewn (the smooth body holds more air, so that its own tension is not
 * that of what is sewn).  Beyond, a natural outline carries on the tension from below, grown
 * by the weight it lifts, as if there were no tension around; other outlines carry tension around
 * as well, and the balance counts but where it would ask the cloth to push, or where the outline
 * is `level`: there the tension is that of the station below.
 * An envelope that does not lift its own weight carries no tension. */
struct loads loads_of(const struct design *sized, const struct envelope *envelope,
                      const struct lift *lift);

/* "mouth", "top of row 3", "crown, row 8". */
enum { STATION_NAME_MOST = 32 };
char *station_name(const struct envelope *envelope, size_t station, char into[STATION_NAME_MOST]);

/* What the rules for manned balloons ask for: guidance only. */
struct safety_code {
    const char *name, *clause;
    double envelope;
    bool envelope_recalled; /* that one is from memory, not read in the rule itself */
    double envelope_eased;  /* what it may fall to under conditions; 0: not stated here */
    double wires;           /* of fibre */
    double metal_wires;     /* 0: not stated here */
    double limit_load;      /* how many times the load is counted; 0: not stated here */
    const char *limit_clause;
};
const struct safety_code *safety_codes(size_t *count);

/* The factor that a code asks of a part, and the greatest that any code does. */
enum rated { RATED_ENVELOPE, RATED_WIRES };
double code_factor(const struct safety_code *code, enum rated part);
double greatest_code_factor(enum rated part);

/* ---- wind ----------------------------------------------------------------- */

/* Ends of the spread of a drag coefficient, over the one that is set (wind.drag).  A smooth
 * sphere falls from 0.47 to about 0.2 or less as the wind passes Re 2e5 to 4e5 (from memory),
 * for a diameter of 3 m at 1 to 2 m/s, the very winds in which models are handled: so down to
 * 0.2 of the usual 0.5.  Cloth that the wind dents holds more wind than a sphere; half as much
 * again is allowed for it (no source). */
#define DRAG_LOW 0.4
#define DRAG_HIGH 1.5

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
    char why[256];
    struct built figures;
    size_t templates;
    double mass_kg, hours;
    double needed_C, margin_K; /* to float the rig; from there to cloth.hottest */
    double free_kg;            /* lift beyond its weight at air.inside */
    double load_volume_m3;     /* that the load asks of this style by itself; 0: not sized by load,
                                  or not to be had */
    const char *skill;         /* a few words */
};
enum { COMPARED_MOST = STYLE_COUNT + 1 };

/* The three styles, and the design's own mix, at the size that the design asks for.  A design
 * sized by load is compared at one volume, that which its load asks of it as it stands or, where
 * that cannot be built, of the first style that can. */
struct comparison {
    struct style_figures style[COMPARED_MOST];
    size_t count;
    size_t own;       /* the one that is the design as it stands */
    size_t sized;     /* the one whose load gave the volume, when sized by load */
    double volume_m3; /* that volume; 0 when no style can be built for the load */
};
void styles_compare(const struct design *design, struct comparison *comparison);

/* Of tapes, rows and ridges, those that are not curved. */
double straight_seams_m(const struct built *built);

/* Hours from the paces of the design: pieces, straight and curved seams, tapes, finish [h]. */
double build_hours(const struct design *sized, const struct envelope *envelope);

/* ---- cautions ------------------------------------------------------------- */

/* Sentences about fire, gas, heat, lines, bystanders and wind.  NULL-ended. */
const char *const *flight_cautions(void);

#endif
