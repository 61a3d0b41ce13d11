/* proof_page.c - page 1: is the printer true to scale, and what to do about it. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "gorewright/flight.h"
#include "paper/page_parts.h"
#include "paper/proof_page.h"

#define SQUARE_M 0.1
#define SQUARE_INCH_M (4 * METRES_PER_INCH)
#define GAP_M 0.006
#define INSET_M 0.003

enum { PARAGRAPHS_MOST = 32, PARTS_MOST = 3, BOXES_MOST = 4, WORD_MOST = 48 };

/* Where everything stands on the page. */
struct proof {
    struct frame frame;
    double cross_x_m, cross_y_m; /* where the two lines of the cross meet */
    double from_x_m, from_y_m;   /* left end, lower end */
    struct upright_bar bar;
    size_t squares; /* 0, 1 or 2 */
    struct rect square[2];
    struct text_box box[BOXES_MOST];
    size_t boxes;
};

/* ---- layout ------------------------------------------------------------ */

/* A box for text, of a width that the eye can follow. */
static void add_box(struct proof *proof, double x0_m, double y0_m, double x1_m, double y1_m) {
    if (x1_m - x0_m < 0.03 || y1_m - y0_m < 0.012)
        return;
    proof->box[proof->boxes++] =
        (struct text_box){x0_m, y1_m, fmin(x1_m - x0_m, 0.11), y1_m - y0_m};
}

static void add_square(struct proof *proof, double side_m, double x_m, double y_m) {
    proof->square[proof->squares++] = (struct rect){x_m, y_m, x_m + side_m, y_m + side_m};
    add_box(proof, x_m + INSET_M, y_m + INSET_M, x_m + side_m - INSET_M, y_m + side_m - INSET_M);
}

/* Both squares side by side, or one above the other, or one, or none; text in
 * and beside them. */
static void arrange(const struct template_plan *plan, struct proof *proof, struct rect room) {
    double wide_m = room.x1_m - room.x0_m, high_m = room.y1_m - room.y0_m;
    double both_m = SQUARE_M + SQUARE_INCH_M + GAP_M;
    bool inches = plan->design->paper.units == UNITS_INCH;
    double single_m =
        inches && wide_m >= SQUARE_INCH_M && high_m >= SQUARE_INCH_M ? SQUARE_INCH_M : SQUARE_M;
    if (wide_m >= both_m && high_m >= SQUARE_INCH_M) {
        double y_m = room.y1_m - SQUARE_INCH_M;
        add_square(proof, SQUARE_M, room.x0_m, y_m);
        add_square(proof, SQUARE_INCH_M, room.x0_m + SQUARE_M + GAP_M, y_m);
        add_box(proof, room.x0_m + both_m + GAP_M, room.y0_m, room.x1_m, room.y1_m);
        if (proof->boxes < 3)
            add_box(proof, room.x0_m, room.y0_m, room.x1_m, y_m - GAP_M);
    } else if (high_m >= both_m && wide_m >= SQUARE_INCH_M) {
        double y_m = room.y1_m - SQUARE_M;
        add_square(proof, SQUARE_M, room.x0_m, y_m);
        add_square(proof, SQUARE_INCH_M, room.x0_m, y_m - GAP_M - SQUARE_INCH_M);
        add_box(proof, room.x0_m + SQUARE_INCH_M + GAP_M, room.y0_m, room.x1_m, room.y1_m);
        if (proof->boxes < 3)
            add_box(proof, room.x0_m, room.y0_m, room.x1_m, room.y1_m - both_m - GAP_M);
    } else if (wide_m >= single_m && high_m >= single_m) {
        add_square(proof, single_m, room.x0_m, room.y1_m - single_m);
        add_box(proof, room.x0_m + single_m + GAP_M, room.y0_m, room.x1_m, room.y1_m);
        add_box(proof, room.x0_m, room.y0_m, room.x0_m + single_m, room.y1_m - single_m - GAP_M);
    } else {
        add_box(proof, room.x0_m, room.y0_m, room.x1_m, room.y1_m);
    }
}

/* The upright bar: beside the notes, or on a low page across the cross, halfway
 * between two of its ticks. */
static struct upright_bar upright_bar(const struct template_plan *plan, const struct proof *proof) {
    double above_m = proof->cross_y_m + 8 * MM, highest_m = proof->frame.height_m - 50.6 * MM;
    double end_m = proof->from_x_m + plan->correction.nominal_across_m;
    if (above_m <= highest_m)
        return (struct upright_bar){.x_m = proof->frame.width_m - 4 * MM, .y_m = above_m};
    return (struct upright_bar){.x_m = end_m - 5 * MM, .y_m = highest_m};
}

static struct proof lay_out(const struct template_plan *plan) {
    struct proof proof = {.frame = proof_frame(plan)};
    const struct correction *c = &plan->correction;
    double width_m = proof.frame.width_m, height_m = proof.frame.height_m;
    proof.from_x_m = (width_m - c->nominal_across_m) / 2;
    proof.from_y_m = proof.frame.footer_m + 1.5 * MM;
    proof.cross_x_m = proof.from_x_m + 5 * MM;
    proof.cross_y_m = proof.from_y_m + 5 * MM;
    proof.bar = upright_bar(plan, &proof);
    struct rect room = {proof.cross_x_m + 7.2 * MM, proof.cross_y_m + 8.5 * MM,
                        proof.bar.x_m - BAR_LEFT_M, height_m - 1 * MM};
    arrange(plan, &proof, room);
    return proof;
}

/* ---- the words --------------------------------------------------------- */

struct notes {
    struct paragraph item[PARAGRAPHS_MOST];
    size_t count;
    size_t part[PARTS_MOST + 1]; /* where each part begins */
    size_t parts;
};

/* How many sheets there are of each kind. */
struct tally {
    size_t all, kind[SHEET_SHARED + 1];
};

static struct paragraph *next(struct notes *notes, enum face face, double larger) {
    struct paragraph *paragraph = &notes->item[notes->count];
    if (notes->count + 1 < PARAGRAPHS_MOST)
        notes->count++;
    *paragraph = (struct paragraph){.face = face, .larger = larger};
    return paragraph;
}

static void heading(struct notes *notes, const char *words) {
    snprintf(next(notes, FACE_BOLD, 1.15)->words, sizeof notes->item[0].words, "%s", words);
}

static void begin_part(struct notes *notes) {
    notes->part[notes->parts++] = notes->count;
}

static void say(struct notes *notes, const char *format, ...) FORMATTED(2, 3);
static void say(struct notes *notes, const char *format, ...) {
    struct paragraph *paragraph = next(notes, FACE_PLAIN, 1);
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(paragraph->words, sizeof paragraph->words, format, arguments);
    va_end(arguments);
}

static void say_all(struct notes *notes, const char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++)
        say(notes, "%s", words[i]);
}

static struct tally tally_of(const struct template_plan *plan) {
    struct tally tally = {.all = plan->sheets};
    for (size_t i = 0; i < plan->sheets; i++)
        tally.kind[plan->sheet[i].kind]++;
    return tally;
}

static void say_what(const struct template_plan *plan, const struct tally *tally,
                     struct notes *notes) {
    static const char *const with[] = {NULL, "of notes", "of index", "with parts of pieces",
                                       "with whole pieces"};
    char kinds[200] = "";
    snprintf(next(notes, FACE_BOLD, 1.6)->words, sizeof notes->item[0].words, "%s",
             plan->design->name);
    for (size_t kind = SHEET_NOTES, used = 0; kind <= SHEET_SHARED; kind++)
        if (tally->kind[kind] > 0)
            used += (size_t)snprintf(kinds + used, sizeof kinds - used, ", %zu %s",
                                     tally->kind[kind], with[kind]);
    say(notes, "Full-size templates: %zu pieces to draw, %zu to cut. %zu sheets of %s: this one%s.",
        plan->envelope->templates, plan->envelope->built.pieces, tally->all, plan->paper.name,
        kinds);
}

/* A reading as an example, and the word to write behind --measured for it: "176.4", or
 * "6-7/8in", to a sixteenth.  Returns: the length that the word says. */
static double example_reading(const struct design *design, double nominal_m, char word[WORD_MOST]) {
    double read_m = 0.98 * nominal_m;
    if (design->paper.units == UNITS_MM) {
        snprintf(word, WORD_MOST, "%.1f", read_m * 1000);
        return read_m;
    }
    unsigned parts = (unsigned)lround(read_m / METRES_PER_INCH * 16), of = 16;
    unsigned whole = parts / of, rest = parts % of;
    for (; rest > 0 && rest % 2 == 0; rest /= 2)
        of /= 2;
    if (rest == 0)
        snprintf(word, WORD_MOST, "%uin", whole);
    else
        snprintf(word, WORD_MOST, "%u-%u/%uin", whole, rest, of);
    return parts * METRES_PER_INCH / 16;
}

static void say_how_to_correct(const struct template_plan *plan, struct notes *notes) {
    const struct correction *c = &plan->correction;
    char across[WORD_MOST], up[WORD_MOST];
    if (is_corrected(plan)) {
        say(notes,
            "3. This print is corrected already (%.4f across, %.4f up), so the cross must now "
            "measure its full length. If it does, change nothing, and give --measured again when "
            "you print a sheet again. If not, take the correction out, print sheet 1 again and "
            "measure that one.",
            c->across, c->up);
        return;
    }
    double read_across_m = example_reading(plan->design, c->nominal_across_m, across);
    double read_up_m = example_reading(plan->design, c->nominal_up_m, up);
    say(notes,
        "3. If not, tell the program what you read. For %s across and %s up, say on the command "
        "line: --measured\xC2\xA0%sx%s (or keep it in the design under paper, in metres: "
        "measured_across = %.4f; measured_up = %.4f;)",
        across, up, across, up, read_across_m, read_up_m);
    say(notes, "Print sheet 1 again: the cross must then measure its full length. Up to 5 %% can "
               "be corrected; for more, look at the printer's settings.");
}

static void say_how_to_check(const struct template_plan *plan, struct notes *notes) {
    char across[64], up[64];
    nominal_words(plan->design, plan->correction.nominal_across_m, across);
    nominal_words(plan->design, plan->correction.nominal_up_m, up);
    heading(notes, "Check the printer first");
    say(notes, "1. Print this sheet alone, at actual size (100 %%). Turn off every setting that "
               "fits, shrinks or scales to the page, and automatic turning.");
    say(notes,
        "2. Lay a good steel rule on the cross and measure between the end ticks: it should be "
        "%s across and %s up. If both are right to %s, print the rest.",
        across, up, plan->design->paper.units == UNITS_INCH ? "1/64 in" : "half a millimetre");
    say_how_to_correct(plan, notes);
    say(notes,
        "4. Every sheet has two 50 mm bars; the upright one leaves gaps for lines in its way. "
        "Check a few while printing: paper grows when it is damp, and a new ream can differ.");
}

static const char tiled[] =
    "Pieces on several sheets: work row by row from tile a-01, the top left. Trim a sheet along "
    "its dash-dot line at the left and at the top, lay it on the flap of the sheet before it, up "
    "to the dotted line, and glue when the crosses with the same letter form one cross. The index "
    "shows every piece put together.";
static const char all_whole[] =
    "Every piece is whole on its sheet: cut it out and use it. The index says which sheet.";

static const char *const assembly[] = {
    "Solid line: cut here. Dashed line: sew here. Short ticks between them are match marks: they "
    "meet their partners when the panels are pinned.",
    "The arrow with one point shows the way up, to the crown; the one with two points shows the "
    "lengthwise grain of the cloth. Pieces are seen from outside. Left and right halves are not "
    "the same: mark each one as it is cut.",
};

static void write_notes(const struct template_plan *plan, const struct tally *tally,
                        struct notes *notes) {
    notes->count = notes->parts = 0;
    begin_part(notes);
    say_what(plan, tally, notes);
    say_how_to_check(plan, notes);
    begin_part(notes);
    heading(notes, "Take care");
    for (const char *const *caution = flight_cautions(); *caution != NULL; caution++)
        say(notes, "%s", *caution);
    begin_part(notes);
    heading(notes, "From paper to cloth");
    say(notes, "%s", tally->kind[SHEET_TILE] > 0 ? tiled : all_whole);
    say_all(notes, assembly, COUNT_OF(assembly));
    notes->part[notes->parts] = notes->count;
}

/* ---- fitting the words ------------------------------------------------- */

/* How the notes are set: each part in a box of its own, or run on from box to box. */
struct setting {
    double size_m;
    bool apart;
};

/* Set the notes, or measure only with `into` NULL.  Returns: paragraphs that fit. */
static size_t set_notes(const struct notes *notes, const struct proof *proof,
                        struct setting setting, struct text *into) {
    if (!setting.apart)
        return flow_paragraphs(notes->item, notes->count, proof->box, proof->boxes, setting.size_m,
                               into);
    size_t fitting = 0;
    for (size_t i = 0; i < notes->parts && i < proof->boxes; i++)
        fitting +=
            flow_paragraphs(notes->item + notes->part[i], notes->part[i + 1] - notes->part[i],
                            &proof->box[i], 1, setting.size_m, into);
    return fitting;
}

/* The largest type at which all of the notes fit, or the least allowed; parts
 * are kept apart unless that would make the type small. */
static struct setting settle(const struct notes *notes, const struct proof *proof) {
    static const double least[] = {7.5, 6};
    for (size_t way = 0; way < COUNT_OF(least); way++) {
        for (double points = 10; points >= least[way]; points -= 0.25) {
            struct setting setting = {points * POINT_M, way == 0};
            if (set_notes(notes, proof, setting, NULL) == notes->count)
                return setting;
        }
    }
    return (struct setting){6 * POINT_M, false};
}

static struct text_box whole_window(const struct frame *frame) {
    return (struct text_box){1 * MM, frame->height_m - 1 * MM, frame->width_m - 6 * MM,
                             frame_window_m(frame) - 2 * MM};
}

/* Where the notes go on after page 1 and `pages` sheets more. */
static size_t notes_before(const struct notes *notes, const struct proof *proof,
                           struct setting setting, size_t pages) {
    size_t done = set_notes(notes, proof, setting, NULL);
    struct text_box box = whole_window(&proof->frame);
    for (size_t i = 0; i < pages && done < notes->count; i++) {
        size_t set =
            flow_paragraphs(notes->item + done, notes->count - done, &box, 1, setting.size_m, NULL);
        done += set > 0 ? set : notes->count;
    }
    return done;
}

size_t proof_notes_needed(const struct template_plan *plan) {
    /* The sheets are not counted yet: leave room for large numbers. */
    const struct tally most = {TILES_MOST, {1, TILES_MOST, TILES_MOST, TILES_MOST, TILES_MOST}};
    struct proof proof = lay_out(plan);
    struct notes notes;
    write_notes(plan, &most, &notes);
    struct setting setting = settle(&notes, &proof);
    size_t pages = 0;
    while (notes_before(&notes, &proof, setting, pages) < notes.count)
        pages++;
    return pages;
}

/* ---- drawing ----------------------------------------------------------- */

/* One line of the cross, lying: from its left end, with short ticks each centimetre or
 * half inch, longer ones every ten or every inch, and the longest at both ends. */
static void measured_line(struct text *into, bool inches, double x_m, double y_m, double length_m,
                          bool upright) {
    double step_m = inches ? METRES_PER_INCH / 2 : 10 * MM;
    size_t ticks = (size_t)llround(length_m / step_m), longer = inches ? 2 : 10;
    text_add(into, "gsave ");
    ps_point(into, x_m, y_m);
    text_add(into, "translate%s\n", upright ? " 90 rotate" : "");
    ps_line(into, 0, 0, length_m, 0);
    for (size_t i = 0; i <= ticks; i++) {
        double half_m = i == 0 || i == ticks ? 3 * MM : i % longer == 0 ? 1.5 * MM : 0.7 * MM;
        ps_line(into, (double)i * step_m, -half_m, (double)i * step_m, half_m);
    }
    text_add(into, "grestore\n");
}

/* What a line of the cross measures, beside it; `at` beside the crossing. */
static void cross_words(struct text *into, double type, enum anchor anchor, double length_m,
                        struct flat_point at, const char *words) {
    double room_m = length_m - 20 * MM, middle_m = 7 * MM + room_m / 2;
    double size_m = ps_fitting_size_m(FACE_BOLD, 0.003 * fmin(type, 1.4), room_m, words);
    if (anchor == ANCHOR_UP)
        at.y_m += middle_m;
    else
        at.x_m += middle_m;
    ps_text(into, FACE_BOLD, size_m, anchor, at.x_m, at.y_m, words);
}

static void draw_cross(const struct template_plan *plan, const struct proof *proof,
                       struct text *into) {
    const struct correction *c = &plan->correction;
    char words[96], length[64];
    bool inches = plan->design->paper.units == UNITS_INCH;
    ps_pen(into, PEN_FINE);
    measured_line(into, inches, proof->from_x_m, proof->cross_y_m, c->nominal_across_m, false);
    measured_line(into, inches, proof->cross_x_m, proof->from_y_m, c->nominal_up_m, true);
    snprintf(words, sizeof words, "%s between the end ticks",
             nominal_words(plan->design, c->nominal_across_m, length));
    cross_words(into, proof->frame.type, ANCHOR_CENTRE, c->nominal_across_m,
                (struct flat_point){proof->cross_x_m, proof->cross_y_m + 3 * MM}, words);
    snprintf(words, sizeof words, "%s between the end ticks",
             nominal_words(plan->design, c->nominal_up_m, length));
    cross_words(into, proof->frame.type, ANCHOR_UP, c->nominal_up_m,
                (struct flat_point){proof->cross_x_m + 5.5 * MM, proof->cross_y_m}, words);
}

static void draw_square(struct text *into, struct rect square) {
    double side_m = square.x1_m - square.x0_m;
    ps_box(into, square.x0_m, square.y0_m, side_m, side_m);
    ps_text(into, FACE_BOLD, TYPE_NOTE_M, ANCHOR_RIGHT, square.x1_m - 1 * MM, square.y0_m + 1 * MM,
            side_m > SQUARE_M ? "4 in square" : "100 mm square");
}

void proof_page_write(const struct template_plan *plan, struct text *into) {
    struct proof proof = lay_out(plan);
    struct tally tally = tally_of(plan);
    struct notes notes;
    write_notes(plan, &tally, &notes);
    draw_cross(plan, &proof, into);
    for (size_t i = 0; i < proof.squares; i++)
        draw_square(into, proof.square[i]);
    set_notes(&notes, &proof, settle(&notes, &proof), into);
    page_footer(plan, &proof.frame,
                &(struct footer){.title = "Scale check",
                                 .detail = "print at actual size, then measure the cross",
                                 .number = 1,
                                 .bar = proof.bar},
                into);
}

void notes_page_write(const struct template_plan *plan, size_t number, size_t which,
                      struct text *into) {
    struct proof proof = lay_out(plan);
    struct frame frame = proof.frame;
    struct tally tally = tally_of(plan);
    struct notes notes;
    write_notes(plan, &tally, &notes);
    struct setting setting = settle(&notes, &proof);
    size_t done = notes_before(&notes, &proof, setting, which);
    struct text_box box = whole_window(&frame);
    if (done < notes.count)
        flow_paragraphs(notes.item + done, notes.count - done, &box, 1, setting.size_m, into);
    page_footer(plan, &frame,
                &(struct footer){.title = "Notes",
                                 .detail = "what did not fit on sheet 1",
                                 .number = number,
                                 .bar = upright_bar_at_edge(&frame)},
                into);
}
