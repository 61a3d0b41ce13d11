/* geometry.h - the one geometry module.
 *
 * From a design to an envelope: the outline that the load tapes follow, the
 * stations where rows meet, the section of each gore, every panel laid flat
 * with its allowances and marks, and the size of what will be built.
 * Every figure that is printed, shown or laid out comes from here.
 * Lengths in metres, angles in radians.
 */
#ifndef GOREWRIGHT_GEOMETRY_H
#define GOREWRIGHT_GEOMETRY_H

#include "gorewright/design.h"

/* ---- stations ---------------------------------------------------------- */

/* Where a row seam (or the mouth, or the crown opening) crosses the tapes. */
struct station {
    double s_m;         /* along the smooth outline, from the mouth */
    double r_m, z_m;    /* radius at the tapes, height above the mouth */
    double slope_rad;   /* of the smooth outline from the vertical, + where it widens */
    double chord_m;     /* straight from tape to tape across one gore */
    double bulge;       /* depth over chord of the section that stands on it */
    double side_m;      /* straight tape side of the row above; 0 at the crown */
    double departure_m; /* largest distance of that side from the smooth outline */
};

/* Length of the cloth across one gore: the section that stands on a chord.
 * Given: style; chord [m]; bulge 0 .. 0.5.  Returns: length [m]. */
double section_length_m(enum style style, double chord_m, double bulge);

/* A point of that section.  Given: u, -1 at the left tape to 1 at the right,
 * in equal steps of length.  Returns: x_m along the chord from its middle, h_m
 * above the chord, outwards. */
struct section_point {
    double x_m, h_m;
};
struct section_point section_at(enum style style, double chord_m, double bulge, double u);

/* ---- pieces ------------------------------------------------------------ */

/* A panel, or one half of a half-gore panel, is seen from outside, the crown up. */
enum edge { EDGE_BOTTOM, EDGE_RIGHT, EDGE_TOP, EDGE_LEFT, EDGE_COUNT };
enum side { SIDE_WHOLE, SIDE_LEFT, SIDE_RIGHT };
enum join_kind { JOIN_TAPE, JOIN_ROW, JOIN_RIDGE, HEM_MOUTH, HEM_CROWN, JOIN_KIND_COUNT };

struct flat_point {
    double x_m, y_m;
};

/* A closed line, counter-clockwise from the lower left corner, the first point
 * not repeated.  Points first[e] .. first[e + 1] - 1 begin or lie on edge e. */
struct ring {
    struct flat_point *point; /* owned by the envelope */
    size_t count;
    size_t first[EDGE_COUNT];
};

/* The edge that a point of a ring begins or lies on. */
enum edge ring_edge(const struct ring *ring, size_t point);

/* A match mark: meets its partner on the mating edge when pinned. */
struct match_mark {
    enum edge edge;
    double fraction;           /* of the edge's length, in ring direction */
    double along_m;            /* the same as a length */
    struct flat_point at;      /* on the sew line */
    struct flat_point outward; /* unit vector across the allowance */
};
enum { MARKS_MOST = 8 };

/* A template: one distinct flat piece and how many of it to cut.
 * Origin at the lower left corner of the sew line, x along the chord of its
 * bottom edge, y towards the crown. */
struct piece {
    char name[8]; /* F03, H03L, H03R, B03 */
    enum style style;
    enum side side;
    size_t row;   /* from 1 at the mouth */
    size_t count; /* how many to cut: one for each gore of that style */
    struct ring sew, cut;
    bool
        two_points[EDGE_COUNT]; /* cut corner where edge e begins: cut back, stepped, or at a hem */
    enum join_kind join[EDGE_COUNT];
    double allowance_m[EDGE_COUNT];
    double length_m[EDGE_COUNT]; /* along the sew line, exact */
    bool curved[EDGE_COUNT];
    double diagonal_rising_m;  /* lower left to upper right corner of the sew line */
    double diagonal_falling_m; /* upper left to lower right */
    struct match_mark mark[MARKS_MOST];
    size_t marks;
    double sewn_area_m2, cut_area_m2;
    struct flat_point cut_least, cut_most; /* box around the cut line */
    double twist;                          /* stretch asked of a billowed panel, 1/cos(tau/2) - 1 */
};

/* Corner of the sew line where edge `e` begins (EDGE_BOTTOM: lower left). */
struct flat_point piece_corner(const struct piece *piece, enum edge e);

/* Depth of a curved sew edge below or above its chord, for marking with a batten.
 * Given: along_m from the edge's left corner (bottom, top) or lower corner
 * (sides), 0 .. chord.  Returns: distance [m] from the chord, + away from the
 * piece, - into it. */
double piece_offset_m(const struct piece *piece, enum edge e, double along_m);

/* Chord of an edge of the sew line: straight from corner to corner [m]. */
double piece_chord_m(const struct piece *piece, enum edge e);

/* Corner of the cut line where edge `e` begins: one point, or two in ring order where a
 * long spike is cut back.  Returns: how many. */
size_t piece_cut_corner(const struct piece *piece, enum edge e, struct flat_point point[2]);

/* How far apart two pieces of neighbouring rows must lie, tape corner above tape corner, so as
 * not to overlap when laid flat: their edges may bend towards each other.
 * Given: pieces of one style and side.  Returns: distance [m], 0 where they fit as they are. */
double piece_gap_m(const struct piece *lower, const struct piece *upper);

/* ---- the envelope ------------------------------------------------------ */

struct outline; /* the smooth meridian: src/geometry/outline.h */

/* What will be built, as sewn (not the smooth outline, unless it says so). */
struct built {
    double gore_length_m;   /* sum of the straight tape sides */
    double smooth_length_m; /* the outline's own length */
    double max_diameter_m;  /* at the tapes, largest station */
    double mid_diameter_m;  /* largest, in the middle of a gore, any style */
    double height_m;        /* mouth to highest tape corner */
    double mouth_diameter_m, crown_diameter_m;
    double volume_m3;
    double sewn_area_m2, cut_area_m2;
    double tape_seam_m, row_seam_m, ridge_seam_m, curved_seam_m;
    double mouth_hem_m, crown_hem_m;
    double departure_m;   /* largest, of straight sides from the smooth outline */
    double twist;         /* largest, of billowed panels */
    double cloth_mass_kg; /* cut pieces */
    double weight_ratio;  /* Sigma of a natural outline, 0 otherwise */
    size_t pieces;
};

struct envelope {
    struct outline *outline; /* owned */
    size_t gores, rows;
    struct station station[ROWS_MOST + 1]; /* 0 mouth .. rows crown */
    int gore_style[GORES_MOST];            /* enum style, by gore */
    size_t style_count[STYLE_COUNT];       /* gores of each style */
    struct piece *piece;                   /* owned: by style, row, side */
    size_t templates;
    struct built built;
};

/* Work out the whole envelope of a design.
 * Given: a design that the reader accepted; what size.by "load" asks for is not known here
 * (see flight_build) and is refused.  Returns: the envelope, to be freed, or NULL with at least one
 * error in `messages` (each naming the parameter to change); warnings may come with a usable
 * envelope. */
struct envelope *envelope_build(const struct design *design, struct diagnostics *messages);

void envelope_free(struct envelope *envelope);

/* Whether the cloth takes every piece with its allowances.  Returns: false with an error that
 * names the least number of rows (or gores, when the warp runs up the gore) that would fit. */
bool cloth_fits(const struct design *design, const struct envelope *envelope,
                struct diagnostics *messages);

/* Whether a template has a piece in a gore (from 0): the gore is built in its style. */
bool piece_stands_in(const struct envelope *envelope, const struct piece *piece, size_t gore);

/* What is cut of one cloth, an index into those of design_cloths. */
struct cloth_cut {
    size_t pieces;
    double area_m2;
};
struct cloth_cut cloth_cut(const struct design *design, const struct envelope *envelope,
                           size_t cloth);

/* How many pieces of one template are cut from one cloth. */
size_t piece_count_of(const struct design *design, const struct envelope *envelope,
                      const struct piece *piece, size_t cloth);

/* The piece for a style, side and row, or NULL when there is none. */
const struct piece *envelope_piece(const struct envelope *envelope, enum style style,
                                   enum side side, size_t row);

/* One gore, or one half of it, laid flat: each piece upright above the one before, its lower
 * tape corner over that one's upper tape corner, moved apart where they would overlap.
 * Returns: rows, and where the origin of each piece lies (place[0]: row 1 at 0, 0); 0 when
 * there is no such gore. */
size_t gore_laid_flat(const struct envelope *envelope, enum style style, enum side side,
                      struct flat_point place[ROWS_MOST]);

/* Length of the cloth all the way round at a station: the sections of all gores, laid flat.
 * Given: station 0 .. rows.  Returns: length [m]; with faceted gores alone, the girth
 * straight from tape to tape. */
double girth_m(const struct envelope *envelope, size_t station);

/* A point of the smooth outline at s, 0 .. smooth length [m]. */
struct meridian_point {
    double r_m, z_m, slope_rad;
};
struct meridian_point envelope_outline_at(const struct envelope *envelope, double s_m);

/* A tape corner as seen from the side, gore 1 towards the viewer and gore 2 to its right:
 * x_m across from the axis, y_m up from the mouth.
 * Given: tape 0 .. gores - 1, the right side of gore tape + 1; station 0 .. rows. */
struct flat_point side_view_corner(const struct envelope *envelope, size_t tape, size_t station);

/* The tape runs down the near half of the envelope, its edges included. */
bool side_view_faces(const struct envelope *envelope, size_t tape);

/* A point of the cloth on a row seam as seen from the side.
 * Given: gore from 0; station; u, -1 at the gore's left tape to 1 at its right. */
struct flat_point side_view_cloth(const struct envelope *envelope, size_t gore, size_t station,
                                  double u);

/* The outermost point of the cloth at a station, on the right or on the left as seen from the
 * side: beyond the tapes where a gore stands out there. */
struct flat_point side_view_silhouette(const struct envelope *envelope, bool right, size_t station);

/* The station with the largest radius at the tapes, the lowest of several. */
size_t widest_station(const struct envelope *envelope);

/* The fewest rows with which every piece fits the cloth, all else unchanged
 * (row shares taken as equal).  Returns: 1 .. ROWS_MOST, or 0 when none does. */
size_t fewest_rows(const struct design *design);

const char *style_name(enum style style);        /* "faceted", "half-gore", "billowed" */
const char *side_name(enum side side);           /* "-", "left", "right" */
const char *edge_name(enum edge edge);           /* "bottom", ... */
const char *join_kind_name(enum join_kind kind); /* "tape side", "row seam", ... */

#endif
