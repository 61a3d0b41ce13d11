/* layout.h - laying pieces out on strips of cloth.
 *
 * A bolt is a strip: x runs along the roll, y across it, both from a corner of the usable
 * cloth, selvedges left out.  Outlines are laid with a gap between them so that as little of
 * the roll as possible is used.  Lengths in metres.
 */
#ifndef GOREWRIGHT_LAYOUT_H
#define GOREWRIGHT_LAYOUT_H

#include "gorewright/geometry.h"

/* ---- what is to be laid out ------------------------------------------------ */

/* Counter-clockwise quarter turns of an outline about its own origin. */
enum turn { TURN_0, TURN_90, TURN_180, TURN_270, TURN_COUNT };

/* Sets of turns.  Cloth with a grain allows two, cloth with a right way up one.  Where the
 * roll runs up the gore, 90 and 270 stand for 0 and 180. */
enum turns {
    ONLY_TURN_0 = 1 << TURN_0,
    ONLY_TURN_90 = 1 << TURN_90,
    TURNS_0_180 = 1 << TURN_0 | 1 << TURN_180,
    TURNS_90_270 = 1 << TURN_90 | 1 << TURN_270,
    TURNS_ANY = TURNS_0_180 | TURNS_90_270
};

/* One outline and how many of it to cut. */
struct layout_outline {
    const char *name;               /* for messages */
    const struct flat_point *point; /* a simple closed line, the first point not repeated */
    size_t points;
    size_t count;
    unsigned turns; /* a set of turns, at least one */
};

/* A strip of cloth.  Bolts are used in the order given: offcuts stand first. */
struct layout_bolt {
    double width_m;  /* usable, > 0 */
    double length_m; /* > 0; HUGE_VAL for as much as it takes */
};

enum { EFFORT_LEAST = 1, EFFORT_USUAL = 4, EFFORT_MOST = 8, LAYOUT_PIECES_MOST = 20000 };

/* How a long search is going. */
struct layout_progress {
    double done;     /* share of the effort spent, 0 .. 1 */
    double length_m; /* the shortest layout so far: used of its last bolt */
};

struct layout_task {
    const struct layout_outline *outline;
    size_t outlines;
    const struct layout_bolt *bolt;
    size_t bolts;
    double gap_m; /* between any two pieces, >= 0; none is kept to the edges of the cloth */
    int effort;   /* EFFORT_LEAST .. EFFORT_MOST, each about three times the one before;
                  for few pieces those below the usual one are quicker still; 0 usual */
    /* Called now and then; false ends the search with what was found so far.  May be NULL. */
    bool (*carry_on)(void *context, const struct layout_progress *progress);
    void *context;
};

/* ---- a layout ------------------------------------------------------------ */

/* One piece: the outline's points are turned, then moved by (x, y). */
struct layout_place {
    size_t outline;
    size_t bolt;
    enum turn turn;
    double x_m, y_m;
};

struct cloth_layout {
    struct layout_place *place; /* owned; in the order of the outlines */
    size_t places;
    double *used_m; /* owned; by bolt, from its start to the end of its last piece */
    size_t bolts;
    double area_m2;       /* of all outlines */
    double cloth_m2;      /* used length by width, all bolts */
    double use;           /* area over cloth, 0 .. 1 */
    double area_bound_m;  /* no layout uses less of the last bolt: area over width */
    double lower_bound_m; /* the better bound of layout_lower_bound_m, >= area_bound_m */
};

/* A point of an outline where its place puts it. */
struct flat_point layout_point(struct flat_point point, const struct layout_place *place);

/* The box around an outline where its place puts it. */
struct layout_box {
    struct flat_point least, most;
};
struct layout_box layout_box(const struct layout_outline *outline,
                             const struct layout_place *place);

/* Fill in what follows from the places: lengths used, area, use and bounds.
 * Given: places whose outlines and bolts are those of the task; used_m with room for its bolts. */
void layout_measure(const struct layout_task *task, struct cloth_layout *layout);

/* Lay everything out.
 * Given: task.  Returns 0 and a layout that layout_check accepts, to be freed; or -1 with an
 * error in `messages`, `layout` empty: a piece wider than every bolt, pieces that find no room
 * on bolts of limited length, an outline that is none, memory.
 * The same task gives the same layout on every run; more effort never a longer one. */
int layout_make(const struct layout_task *task, struct cloth_layout *layout,
                struct diagnostics *messages);

/* Check a layout against the outlines themselves, by other means than those that made it:
 * every piece there as often as asked, turned only as allowed, inside its bolt, and no two
 * closer than the gap.  Reading errors up to LAYOUT_SLACK_M are let pass.
 * Returns 0, or -1 with an error in `messages` for each fault (the first 20). */
#define LAYOUT_SLACK_M 1e-6
int layout_check(const struct layout_task *task, const struct cloth_layout *layout,
                 struct diagnostics *messages);

/* A length of the last bolt that no layout can undercut, whatever the effort.
 * Beside area over width it counts, for each line across the cloth, how many of the pieces
 * that meet it find room there side by side.  Valid for any simple outlines; turns by 90 and
 * 270 degrees beside 0 and 180 leave the area only.
 * Returns: length [m], 0 where the earlier bolts may take everything. */
double layout_lower_bound_m(const struct layout_task *task);

/* The plain bound: what the area of all outlines takes of the last bolt's width once the bolts
 * before it are full. */
double layout_area_bound_m(const struct layout_task *task);

void layout_free(struct cloth_layout *layout);

#endif
