/* walk.h - the walk-through: what is on the screen, what a key does to it.
 *
 * No terminal here: keys come in as numbers (keys.h), the picture goes out as a canvas.
 */
#ifndef SCREEN_WALK_H
#define SCREEN_WALK_H

#include "gorewright/drawing.h"
#include "gorewright/paper.h"
#include "gorewright/shop.h"
#include "screen/bench.h"
#include "screen/field.h"
#include "screen/keys.h"
#include "screen/previews.h"
#include "screen/session.h"
#include "screen/steps.h"

/* What lies over the steps or the bench, if anything. */
enum over { OVER_NOTHING, OVER_TYPING, OVER_LIST, OVER_QUESTION, OVER_HELP, OVER_PAGE };

enum typing { TYPING_VALUE, TYPING_FIND, TYPING_SAVE_AS, TYPING_OPEN, TYPING_JUMP };

enum list { LIST_STARTERS, LIST_FILES };

struct walk;
typedef void walk_doing(struct walk *walk);

/* One answer to a question; the first is that of Enter, and leaving is always one more. */
struct answer {
    int key;
    const char *words;
    walk_doing *then;
};
enum { ANSWERS_MOST = 3 };

/* Work that takes a moment: told on the screen first, then done. */
enum work { WORK_NONE, WORK_WRITE };

/* What a style would cost in this design, all else as it is. */
struct style_cost {
    bool buildable;
    size_t pieces;
    double seam_m, curved_m;
};

/* Figures that are dear to find: kept for the design they belong to. */
struct style_costs {
    bool known;
    struct design of;
    struct style_cost cost[STYLE_COUNT];
};

struct sheet_count {
    bool known, wrong; /* wrong: the paper cannot be printed on; `why` says it */
    struct design of;
    struct template_report report;
    struct text why;
};

/* Whether it will fly and hold: worked out only while it is shown. */
struct flight_outlook {
    bool known;
    struct design of;
    struct flight_answer answer[FLIGHT_ANSWERS_MOST];
    size_t answers;
    struct diagnostics warnings;
};

/* How many cut pieces of the bench record no longer fit: found anew when the design or its name
 * changes, and after the bench. */
struct cut_check {
    bool known;
    char *path; /* owned: of the design it is known for */
    struct design of;
    size_t misfits;
};

enum { FOUND_MOST = 128, FILES_MOST = 200 };

struct walk {
    struct session *session; /* owned */
    struct record *record;   /* owned; NULL until the bench is opened */
    char *record_of;         /* owned: the path it was opened for */
    struct bench bench;
    bool bench_begun;
    bool at_bench;

    enum step step;
    size_t cursor[STEP_COUNT]; /* among the choices asked for */
    int view[STEP_COUNT];      /* enum preview */
    size_t row;                /* shown as a panel or section, from 1; 0: the widest */
    size_t gore;               /* in view among the colours, from 1; 0: the first */

    enum over over;
    enum typing typing;
    struct field field;
    struct text fault; /* what is wrong with what was typed */
    size_t found[FOUND_MOST], founds, at_found;

    enum list list;
    size_t at_list;
    char *file[FILES_MOST]; /* owned: designs in this folder */
    size_t files;

    const struct answer *answer;
    size_t answers;
    struct text question;
    walk_doing *then; /* after saving */
    char *wanted;     /* owned: a path asked about */
    char *recovery;   /* owned: kept work that is offered */
    long help_top;    /* first row shown of the help, or of the page */
    struct text page; /* a page of text over the steps */

    struct text notice;
    enum cell_kind notice_kind;

    size_t pending; /* the parameter being stepped */
    int steps;      /* by how much, not yet done */

    enum work work;
    bool written;  /* the templates of this design, since the last change */
    bool outdated; /* templates were written, of an earlier state of this design */
    struct style_costs costs;
    struct sheet_count sheets;
    struct flight_outlook outlook;
    struct cut_check cuts;

    bool finished; /* the screens are to be closed */
};

/* Begin.  Given: the design file, NULL for the starter design.
 * Returns: NULL when it cannot be read or memory is short; why is in `messages`. */
struct walk *walk_new(const char *path, struct diagnostics *messages);
void walk_free(struct walk *walk);

/* Press a key.  Steps of a value are only collected: walk_settle does them. */
void walk_key(struct walk *walk, int key);

/* Do what was collected, and find the figures that the picture needs. */
void walk_settle(struct walk *walk);

/* Do the work that waits, if any.  Returns: whether there was some; then draw again. */
bool walk_work(struct walk *walk);

/* Draw the screen on a canvas of any size.  Given: a settled walk.
 * Returns: where the cursor stands, -1, -1 when nothing is typed. */
struct canvas_place walk_draw(const struct walk *walk, struct canvas *canvas);

/* ---- for the files of the walk-through ------------------------------------- */

/* Say something in the message line until the next key. */
void walk_say(struct walk *walk, enum cell_kind kind, const char *format, ...) FORMATTED(3, 4);
/* The same with the first error, else the first warning, of a list. */
void walk_say_first(struct walk *walk, const struct diagnostics *messages);

void walk_ask(struct walk *walk, const struct answer *answers, size_t count, const char *format,
              ...) FORMATTED(4, 5);

void walk_type(struct walk *walk, enum typing typing, const char *text);

/* The choice under the cursor: its place in step_choices, and its parameter in the table. */
size_t walk_choice(const struct walk *walk);
size_t walk_parameter(const struct walk *walk);

/* Which keys work now; while a question is asked, those of what lies under it. */
enum place walk_place(const struct walk *walk);
/* The same without what lies over the steps or the bench. */
enum place walk_place_below(const struct walk *walk);

/* The cursor to the next choice below, or else the first one, where letters are keys. */
void walk_to_keys(struct walk *walk);

/* Where a key leads in a list.  Given: at < count, count > 0. */
size_t walk_moved(enum action action, size_t at, size_t count);

/* Put a changed design in the place of the present one; says why when it cannot be.
 * Returns: whether it was. */
bool walk_change(struct walk *walk, const struct design *design);

/* Another session takes the place of the present one, which is ended. */
void walk_replace_session(struct walk *walk, struct session *session);

/* walk_files.c */
void walk_save(struct walk *walk, walk_doing *then); /* then: once it is saved; may be NULL */
void walk_save_as(struct walk *walk, walk_doing *then);
void walk_save_under(struct walk *walk, const char *path);
void walk_open_list(struct walk *walk);
void walk_open(struct walk *walk, const char *path);
void walk_open_file(struct walk *walk, size_t file);
void walk_starter_list(struct walk *walk);
void walk_begin_starter(struct walk *walk, size_t starter);
void walk_quit(struct walk *walk);
void walk_offer_recovery(struct walk *walk);
/* The program has to end: keep unsaved work, and say so, or why not, in `farewell`. */
void walk_keep_work(struct walk *walk, struct text *farewell);
/* A name for a file that is not there yet, made from the name of the design. */
void walk_free_name(const struct design *design, struct text *into);

/* walk_paper.c */
void walk_count_sheets(struct walk *walk);
void walk_write(struct walk *walk);
/* The files that are written: the design (NULL when it has no name yet), templates, sheets. */
struct paper_names {
    struct text design, templates, sheets;
};
void walk_paper_names(const struct walk *walk, struct paper_names *names);
void paper_names_free(struct paper_names *names);

/* walk_flight.c */
void walk_find_outlook(struct walk *walk);
void walk_outlook_free(struct flight_outlook *outlook);
void walk_flight_page(struct walk *walk);
void walk_styles_page(struct walk *walk);

/* walk_bench.c */
void walk_enter_bench(struct walk *walk);
void walk_leave_bench(struct walk *walk);
/* To the list of cut pieces that no longer fit. */
void walk_show_misfits(struct walk *walk);
void walk_find_misfits(struct walk *walk);
bool walk_bench_action(struct walk *walk, enum action action);
void walk_bench_ends(struct walk *walk);
/* The design was saved: its record follows it to another name, and to another file as a copy.
 * Given: where it was kept until then (NULL: nowhere) and how it was called; what is worth
 * telling is added to `note`. */
void walk_bench_saved(struct walk *walk, const char *path_before, const struct design *before,
                      struct text *note);

/* walk_message.c */
/* What is asked or said, else what is wrong with the design or with pieces already cut.
 * Returns: how it is shown; nothing is added when there is nothing to say. */
enum cell_kind walk_message(const struct walk *walk, struct text *into);

/* walk_typing.c */
void walk_typing_key(struct walk *walk, int key);

/* walk_draw.c, walk_help.c */
void draw_help(const struct walk *walk, struct canvas *canvas);
long help_rows(const struct walk *walk, long columns);
/* A page of text, one line of it in a row. */
void draw_page(const struct walk *walk, struct canvas *canvas);
long page_rows(const struct walk *walk);

#endif
