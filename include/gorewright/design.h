/* design.h - what the builder decides.
 *
 * One plain struct, one table of parameters, a reader, a writer.  Everything
 * else in the program is worked out from these values.  Lengths in metres,
 * areas in square metres, and so on: the unit stands in each name.
 */
#ifndef GOREWRIGHT_DESIGN_H
#define GOREWRIGHT_DESIGN_H

#include "gorewright/base.h"

enum {
    DESIGN_FORMAT = 1, /* the number in the key `format` */
    GORES_LEAST = 3,
    GORES_MOST = 64,
    ROWS_MOST = 60,
    TABLE_MOST = 200, /* stations in an outline given as a table */
    ITEMS_MOST = 20,  /* further things that the rig carries */
    CLOTHS_MOST = 16, /* colours of cloth */
    STOCK_MOST = 24,  /* pieces of cloth in the cupboard, or bolts */
    TEXT_MOST = 64    /* bytes of a text value, its NUL included */
};

/* The order of each enum is the order of its words in the parameter table. */
enum size_by {
    SIZE_VOLUME,
    SIZE_HEIGHT,
    SIZE_DIAMETER,
    SIZE_GORE_LENGTH,
    SIZE_CLOTH_AREA,
    SIZE_TABLE,
    SIZE_LOAD /* what must be carried: see flight_build */
};
enum outline_kind { OUTLINE_NATURAL, OUTLINE_BALL_AND_CONE, OUTLINE_TABLE };
enum weight_from { WEIGHT_NONE, WEIGHT_RATIO, WEIGHT_CLOTH };
enum join { JOIN_SMOOTH, JOIN_STRAIGHT };
enum row_spacing { ROWS_EQUAL, ROWS_GIVEN, ROWS_EVEN_DEPARTURE };
enum style { FACETED, HALF_GORE, BILLOWED, STYLE_COUNT };
enum seam_type { SEAM_PLAIN, SEAM_LAPPED, SEAM_FELLED };
enum warp { WARP_ACROSS, WARP_UP };
enum units { UNITS_MM, UNITS_INCH };
enum fill {
    FILL_ONE,
    FILL_STRIPES,
    FILL_BANDS,
    FILL_SPIRAL,
    FILL_CHEQUER,
    FILL_GRADIENT,
    FILL_SCHEME
};
enum mirror { MIRROR_NO, MIRROR_YES };
enum lay { LAY_BOTH_WAYS, LAY_ONE_WAY };
enum inch_fraction { INCH_16, INCH_32, INCH_64 };

struct real_list {
    size_t count;
    double value[ROWS_MOST + 1];
};

struct style_list {
    size_t count;
    int value[GORES_MOST]; /* enum style */
};

struct point_list {
    size_t count;
    struct {
        double r_m, z_m;
    } value[TABLE_MOST];
};

struct item_list {
    size_t count;
    struct {
        char name[TEXT_MOST];
        double mass_kg;
    } value[ITEMS_MOST];
};

/* A colour is a cloth of its own; a number that is 0 is not given. */
struct cloth_colour {
    char letter; /* stands for it where there is no colour: A to Z, a to z, 0 to 9 */
    char name[TEXT_MOST];
    double width_m, mass_kg_m2, price_m; /* price of a metre off the roll */
};

struct cloth_list {
    size_t count;
    struct cloth_colour value[CLOTHS_MOST];
};

/* Cloth there is: a rectangle of one colour, its length along the warp. */
struct stock_list {
    size_t count;
    struct stock {
        char letter;              /* of its cloth */
        double length_m, width_m; /* width 0: that of its cloth */
    } value[STOCK_MOST];
};

/* A line of letters for each row. */
struct line_list {
    size_t count;
    char value[ROWS_MOST][GORES_MOST + 1];
};

/* A whole design: plain data, copied with `=`.  Whole numbers and choices are
 * int; see the parameter table for ranges and meaning. */
struct design {
    int format;
    char name[TEXT_MOST];
    struct {
        int by; /* enum size_by */
        double volume_m3, height_m, diameter_m, gore_length_m, cloth_area_m2;
    } size;
    struct {
        int kind; /* enum outline_kind */
        double mouth_diameter_m, crown_diameter_m;
        int weight_from; /* enum weight_from */
        double weight_ratio, lift_per_volume_N_m3;
        double cone_angle_deg;
        struct point_list table;
        int join; /* enum join */
    } outline;
    struct {
        int count;
        int style; /* enum style */
        struct style_list mix;
    } gores;
    struct {
        int count;
        int spacing; /* enum row_spacing */
        struct real_list shares;
    } rows;
    struct {
        double depth;
        int ease_rows;
        struct real_list stations;
    } bulge;
    struct {
        int tape, row, ridge; /* enum seam_type */
        double tape_width_m, row_width_m, ridge_width_m;
        double mouth_hem_m, crown_hem_m;
    } seams;
    struct {
        char colour[TEXT_MOST];
        double width_m, selvedge_m, mass_kg_m2;
        int warp; /* enum warp */
        double strength_N_m, seam_efficiency, hottest_C, emissivity;
        double price_m; /* of a metre off the roll; 0: not known */
    } cloth;
    struct {
        struct cloth_list cloths;
        int fill; /* enum fill */
        int span, turn;
        int mirror; /* enum mirror */
        struct line_list scheme, scheme_right;
    } colours;
    struct {
        double gap_m; /* between pieces */
        int lay;      /* enum lay */
        struct stock_list offcuts, bolts;
    } cutting;
    struct {
        double mass_kg_m, strength_N, turn_back_m; /* load tape; turn_back at each end */
    } tape;
    struct {
        double tex, waste;
    } thread;
    struct {
        double oversize; /* of the vent over the crown opening, share of its diameter */
        double ring_kg;  /* ring, centre and pull lines */
    } vent;
    struct {
        double frame_diameter_m, drop_m, wire_kg_m, wire_strength_N;
    } rigging;
    struct {
        double burner_kg, cylinder_kg, fuel_kg, basket_kg, radio_kg;
        struct item_list others;
    } rig;
    struct {
        double envelope_kg; /* 0: not weighed yet; otherwise counts instead of all below */
        double cloth_kg, tapes_kg, thread_kg, crown_kg, mouth_kg, lines_kg;
    } weighed;
    struct {
        double ground_C, altitude_m; /* air of the day, at the field */
        double inside_C;             /* what the builder means to fly with */
        double free_lift;            /* lift beyond the weight, share of the weight */
    } air;
    struct {
        double relative_wind_m_s, loss_factor, burner_efficiency, burner_W;
    } heat;
    struct {
        double drag, hold_N, expected_m_s;
    } wind;
    struct {
        double mark_and_cut_min, straight_m_h, curved_m_h, tape_m_h, finish_h;
    } pace;
    struct { /* what a shop sells; a price of 0 is not known */
        double cloth_step_m, tape_step_m, tape_price_m, wire_step_m, wire_price_m;
        double reel_m, reel_price;
    } buying;
    struct {
        char sheet[TEXT_MOST];
        double margin_m, overlap_m;
        double measured_across_m, measured_up_m;
        int units; /* enum units */
        double rounding_m;
        int inch_fraction; /* enum inch_fraction */
    } paper;
};

/* ---- the parameter table ----------------------------------------------- */

enum parameter_type {
    PARAMETER_WHOLE,  /* int */
    PARAMETER_REAL,   /* double */
    PARAMETER_TEXT,   /* char[TEXT_MOST] */
    PARAMETER_CHOICE, /* int, index into `choices` */
    PARAMETER_REALS,  /* struct real_list */
    PARAMETER_STYLES, /* struct style_list */
    PARAMETER_POINTS, /* struct point_list */
    PARAMETER_ITEMS,  /* struct item_list */
    PARAMETER_CLOTHS, /* struct cloth_list */
    PARAMETER_LINES,  /* struct line_list */
    PARAMETER_STOCK   /* struct stock_list */
};

/* One parameter: everything that reader, writer, manual, help and screens
 * know of it.  `least` and `most` bound a number, or each number of a list. */
struct parameter {
    const char *key; /* "group.name", or a bare name at the top */
    enum parameter_type type;
    const char *unit; /* "" when it has none */
    double least, most;
    double usual;               /* default of a number or a choice */
    const char *usual_text;     /* default of a text; NULL otherwise */
    const char *const *choices; /* NULL-ended words of a choice or style list */
    size_t offset;              /* of the member in struct design */
    const char *help;           /* one sentence; why the default is what it is */
};

/* The table, in the order of the file.  Returns: its first entry; *count how many. */
const struct parameter *parameters(size_t *count);

/* Index of `key` in the table, or -1. */
int parameter_find(const char *key);

/* The word that a choice parameter shows for `value`. */
const char *parameter_word(const char *key, int value);

/* ---- values as the builder types them ----------------------------------- */

/* The unit in which a parameter is shown, and in which a number without a unit is taken.
 * Lengths: inches when `units` is UNITS_INCH; otherwise millimetres when none of them can reach
 * 0.5 m (seams, hems, selvedges) and in the group `paper`, metres for the rest.  Areas: m2 or
 * ft2.  Volumes: m3 or ft3.  Masses: g or lb, of cloth g/m2, of tapes g/m; temperatures C or F,
 * forces N or lbf, power kW or BTU/h, speeds m/s or mph, heights above the sea m or ft.  The
 * table's own unit, or "", for the rest. */
const char *quantity_unit(const struct parameter *p, enum units units);

/* Read a number with its unit, or without (see quantity_unit): "3.2 m", "320cm", "85 mm",
 * "12 15/16 in", "12-15/16 in", "12.9375in", "10 ft 6 in", "450 litres", "40 g/m2",
 * "10 %".  Given: p, a parameter of numbers.  Returns: 0 with *value in the table's own unit,
 * within its range; or -1 with one message, a range in it said in the unit that was typed. */
int quantity_read(const struct parameter *p, enum units units, const char *typed, double *value,
                  struct diagnostics *messages);

/* Show a number with its unit, at most 7 digits or an exact fraction of an inch.
 * Given: value in the table's own unit, finite.  Returns: `into`, which quantity_read takes for
 * the same value to 1e-6 of it (a temperature to 1e-5 degrees more). */
char *quantity_show(const struct parameter *p, enum units units, double value, char into[48]);

/* One parameter of a design as text: "3.2 m", "half-gore", "16"; lists as "4 3 2 1",
 * "faceted billowed", "0.3 0, 1.1 1.6" (stations, radius and height in metres), "camera 120 g,
 * flag 50 g", "" when empty. */
void parameter_show(const struct design *design, size_t parameter, struct text *into);

/* The same from text.  Words may be cut short while they stay clear, styles down to a letter
 * each ("fbfb"); an empty text empties a list.  Text that parameter_show gave changes nothing.
 * Given: parameter, an index in the table; typed.  Returns: 0; or -1 with one message that says
 * what is allowed, and the design as it was. */
int parameter_set(struct design *design, size_t parameter, const char *typed,
                  struct diagnostics *messages);

/* The next sensible value up (+1) or down (-1): the next word of a choice, going round; the
 * next whole number; the next round number in the unit shown, some hundredths of the value
 * away.  Stays in range; texts and lists stay as they are. */
void parameter_step(struct design *design, size_t parameter, int direction);

/* Both hold the same values, bit for bit; unused places of texts and lists do not count. */
bool design_same(const struct design *one, const struct design *other);

/* ---- colours -------------------------------------------------------------- */

/* The cloths of a design in full: what colours.cloths leaves out is taken from the group cloth;
 * without any, the one cloth of that group, its letter the first of its name in upper case.
 * Given: a design that design_check accepts.  Returns: how many, at least 1. */
size_t design_cloths(const struct design *design, struct cloth_colour cloth[CLOTHS_MOST]);

/* The widest that one of those cloths is to be had in, selvedges included: of its bolts
 * (cutting.bolts), or where it has none its own width [m]. */
double design_widest_m(const struct design *design, const struct cloth_colour *cloth);

/* The cloth of one panel, or of one half of it.
 * Given: a design that design_check accepts; gore from 0; row from 1 at the mouth; right, the
 * right half of a half-gore.  Returns: an index into the cloths of design_cloths. */
size_t design_colour_of(const struct design *design, size_t gore, size_t row, bool right);

/* ---- reading and writing ----------------------------------------------- */

enum { PARAMETERS_MOST = 160 };

/* Where each stated value stands, so that a later check can cite its line. */
struct design_source {
    char *file;                /* owned: the name as the builder gave it */
    int line[PARAMETERS_MOST]; /* by index in the table; 0: not stated */
};

/* The built-in starter design: every parameter at its default. */
void design_starter(struct design *design);

/* Read the design file `path` over the starter design.
 * Given: path.  Returns 0 when there was no error, -1 otherwise; every error
 * and warning found goes to `messages` with file and line.
 * `source` may be NULL; otherwise it is filled and is to be freed. */
int design_read(const char *path, struct design *design, struct design_source *source,
                struct diagnostics *messages);

/* The same from an open descriptor; `name` stands for it in messages. */
int design_read_descriptor(int file, const char *name, struct design *design,
                           struct design_source *source, struct diagnostics *messages);

/* The same from text in memory; `name` stands for the file in messages. */
int design_read_text(const char *text, size_t length, const char *name, struct design *design,
                     struct design_source *source, struct diagnostics *messages);

/* Whether a file is a design, or was meant to be one: a line of it begins with `format =`, or it
 * can be read.  What cannot be opened is none. */
bool design_seems(const char *path);

/* The file that a builder means by a name: itself, or NAME.cfg where that alone is there.
 * Returns: its path, to be freed; NULL when memory is short. */
char *design_file_named(const char *name);

/* Check a design: every value against its range, and the rules between values that need no
 * geometry.  It may have been put together by any means: NaN, infinities, words and counts out
 * of range are found, not trusted.
 * Given: source, where each value was stated, or NULL when that is not known (then nothing is
 * said about values stated in vain).  A rule between values is silent while `messages`
 * already holds an error about one of them.  Returns 0, or -1 when errors were found; messages name
 * the key, their place is filled in by design_locate. */
int design_check(const struct design *design, const struct design_source *source,
                 struct diagnostics *messages);

/* Everything that is carried [kg]. */
double rig_mass_kg(const struct design *design);

/* A message about air.inside, which is no higher than air.ground. */
void diagnose_cold_air(struct diagnostics *messages, enum severity severity, const char *code,
                       const struct design *design);

/* Give each message that has no place yet the line where its key is stated; that of the
 * format when it is not. */
void design_locate(struct diagnostics *messages, const struct design_source *source);

void design_source_free(struct design_source *source);

enum design_writing {
    WRITE_CHANGES,  /* only what differs from the starter, and what must be said */
    WRITE_COMMENTED /* every parameter, each under a comment with help, unit and range */
};

/* The design as a file that reads back to the same values, bit for bit.
 * Given: a design that design_check accepts. */
void design_write(const struct design *design, enum design_writing how, struct text *into);

#endif
