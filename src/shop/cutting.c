/* cutting.c - the pieces of a design laid out on its cloth, colour by colour. */
#include "shop/cutting.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void free_cloth(struct cutting_cloth *cloth) {
    free(cloth->strip);
    free(cloth->bolt);
    free(cloth->outline);
    free(cloth->outline_piece);
    free(cloth->piece);
    layout_free(&cloth->layout);
}

void cutting_free(struct cutting *cutting) {
    for (size_t i = 0; i < cutting->cloths; i++)
        free_cloth(&cutting->cloth[i]);
    *cutting = (struct cutting){0};
}

static int no_memory(struct diagnostics *messages) {
    diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory for the layout");
    return -1;
}

/* ---- what is to be cut ------------------------------------------------------------- */

/* The lengthwise grain runs across the gore, or up it; cloth with a right way up lies one way. */
static unsigned turns_of(const struct design *design) {
    bool up = design->cloth.warp == WARP_UP;
    if (design->cutting.lay == LAY_ONE_WAY)
        return up ? ONLY_TURN_90 : ONLY_TURN_0;
    return up ? TURNS_90_270 : TURNS_0_180;
}

static int add_outlines(const struct design *design, const struct envelope *envelope,
                        struct cutting_cloth *cloth) {
    cloth->outline = calloc(envelope->templates + 1, sizeof *cloth->outline);
    cloth->outline_piece = calloc(envelope->templates + 1, sizeof *cloth->outline_piece);
    if (cloth->outline == NULL || cloth->outline_piece == NULL)
        return -1;
    for (size_t i = 0; i < envelope->templates; i++) {
        const struct piece *piece = &envelope->piece[i];
        size_t count = piece_count_of(design, envelope, piece, cloth->cloth);
        if (count == 0)
            continue;
        cloth->outline_piece[cloth->outlines] = i;
        cloth->outline[cloth->outlines++] = (struct layout_outline){
            piece->name, piece->cut.point, piece->cut.count, count, turns_of(design)};
        cloth->pieces += count;
    }
    cloth->piece = calloc(cloth->pieces + 1, sizeof *cloth->piece);
    return cloth->piece == NULL ? -1 : 0;
}

size_t cutting_next_gore(const struct design *design, const struct envelope *envelope, size_t piece,
                         size_t cloth, size_t gore) {
    const struct piece *template = &envelope->piece[piece];
    for (size_t g = gore; g < envelope->gores; g++)
        if (piece_stands_in(envelope, template, g) &&
            design_colour_of(design, g, template->row, template->side == SIDE_RIGHT) == cloth)
            return g + 1;
    return 0;
}

/* ---- the fingerprint ------------------------------------------------------------------ */

unsigned long long fingerprint_of(unsigned long long before, const void *bytes, size_t count) {
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++)
        before = (before ^ byte[i]) * 1099511628211ull; /* FNV-1a, 64 bits */
    return before;
}

/* To a hundredth of a millimetre: noise in the last digits is no change. */
static unsigned long long with_length(unsigned long long before, double length_m) {
    long long steps = isfinite(length_m) ? llround(length_m * 1e5) : -1;
    unsigned char byte[8];
    for (size_t i = 0; i < sizeof byte; i++)
        byte[i] = (unsigned char)((unsigned long long)steps >> (8 * i));
    return fingerprint_of(before, byte, sizeof byte);
}

static unsigned long long with_number(unsigned long long before, size_t number) {
    return with_length(before, 1e-5 * (double)number);
}

static unsigned long long with_cloth(unsigned long long before, const struct design *design,
                                     const struct envelope *envelope,
                                     const struct cutting_cloth *cloth) {
    before = with_length(fingerprint_of(before, &cloth->colour.letter, 1), cloth->gap_m);
    for (size_t k = 0; k < cloth->strips; k++) {
        before = with_number(before, cloth->strip[k].offcut);
        before =
            with_length(with_length(before, cloth->strip[k].length_m), cloth->strip[k].width_m);
    }
    for (size_t o = 0; o < cloth->outlines; o++) {
        const struct layout_outline *outline = &cloth->outline[o];
        before = fingerprint_of(before, outline->name, strlen(outline->name) + 1);
        before = with_number(before, outline->turns);
        for (size_t gore = 0; (gore = cutting_next_gore(design, envelope, cloth->outline_piece[o],
                                                        cloth->cloth, gore)) > 0;)
            before = with_number(before, gore);
        for (size_t i = 0; i < outline->points; i++)
            before = with_length(with_length(before, outline->point[i].x_m), outline->point[i].y_m);
    }
    return before;
}

/* ---- begun ------------------------------------------------------------------------------- */

/* Returns: 0; or -1 with an error. */
static int begin_cloth(const struct design *design, const struct envelope *envelope,
                       struct cutting_cloth *cloth, struct diagnostics *messages) {
    if (add_outlines(design, envelope, cloth) != 0)
        return no_memory(messages);
    return cutting_add_strips(design, cloth, messages);
}

int cutting_begin(const struct design *design, const struct envelope *envelope,
                  struct cutting *cutting, struct diagnostics *messages) {
    struct cloth_colour colour[CLOTHS_MOST];
    size_t cloths = design_cloths(design, colour);
    int status = 0;
    cutting->made_of = FINGERPRINT_BEGIN;
    for (size_t i = 0; i < cloths; i++) {
        if (cloth_cut(design, envelope, i).pieces == 0)
            continue;
        struct cutting_cloth *cloth = &cutting->cloth[cutting->cloths++];
        *cloth = (struct cutting_cloth){.cloth = i, .colour = colour[i]};
        cloth->gap_m = design->cutting.gap_m;
        if (begin_cloth(design, envelope, cloth, messages) != 0)
            status = -1;
        else
            cutting->made_of = with_cloth(cutting->made_of, design, envelope, cloth);
    }
    return status;
}

struct layout_task cutting_task(const struct cutting_cloth *cloth) {
    return (struct layout_task){.outline = cloth->outline,
                                .outlines = cloth->outlines,
                                .bolt = cloth->bolt,
                                .bolts = cloth->strips,
                                .gap_m = cloth->gap_m};
}

/* ---- in order along the strips ------------------------------------------------------------- */

static int along_the_strips(const void *one, const void *other) {
    const struct cutting_piece *a = one, *b = other;
    if (a->place.bolt != b->place.bolt)
        return a->place.bolt < b->place.bolt ? -1 : 1;
    if (a->from_m != b->from_m)
        return a->from_m < b->from_m ? -1 : 1;
    if (a->near_m != b->near_m)
        return a->near_m < b->near_m ? -1 : 1;
    if (a->piece != b->piece)
        return a->piece < b->piece ? -1 : 1;
    return (a->gore > b->gore) - (a->gore < b->gore);
}

static void measure_box(const struct cutting_cloth *cloth, struct cutting_piece *piece) {
    struct layout_box box = layout_box(&cloth->outline[piece->place.outline], &piece->place);
    double edge_m = cloth->strip[piece->place.bolt].edge_m;
    piece->from_m = box.least.x_m;
    piece->to_m = box.most.x_m;
    piece->near_m = box.least.y_m + edge_m;
    piece->far_m = box.most.y_m + edge_m;
}

void cutting_arrange(struct cutting_cloth *cloth) {
    size_t next = 0;
    for (size_t i = 0; i < cloth->pieces; i++)
        measure_box(cloth, &cloth->piece[i]);
    qsort(cloth->piece, cloth->pieces, sizeof *cloth->piece, along_the_strips);
    for (size_t o = 0; o < cloth->outlines; o++)
        for (size_t i = 0; i < cloth->pieces; i++)
            if (cloth->piece[i].place.outline == o)
                cloth->layout.place[next++] = cloth->piece[i].place;
    struct layout_task task = cutting_task(cloth);
    layout_measure(&task, &cloth->layout);
}

/* Each template's gores in turn, in the order in which its pieces lie. */
static void number_gores(const struct design *design, const struct envelope *envelope,
                         struct cutting_cloth *cloth) {
    for (size_t o = 0; o < cloth->outlines; o++) {
        size_t gore = 0;
        for (size_t i = 0; i < cloth->pieces; i++)
            if (cloth->piece[i].place.outline == o)
                gore = cloth->piece[i].gore = cutting_next_gore(
                    design, envelope, cloth->outline_piece[o], cloth->cloth, gore);
    }
}

/* ---- made ---------------------------------------------------------------------------------- */

/* What the engine says, said of a colour. */
static void say_of(const struct cutting_cloth *cloth, const struct diagnostics *own,
                   struct diagnostics *messages) {
    for (size_t i = 0; i < own->count; i++)
        diagnose(messages, own->item[i].severity, own->item[i].code, "cutting.bolts",
                 "cloth %c, %s: %s", cloth->colour.letter, cloth->colour.name, own->item[i].text);
}

/* The progress of one colour as that of all of them. */
struct share {
    const struct cutting_job *job;
    size_t before, of; /* pieces of the colours that are done, and of all */
    size_t pieces;     /* of this one */
};

static bool tell_share(void *context, const struct layout_progress *progress) {
    const struct share *share = context;
    struct layout_progress all = *progress;
    all.done = ((double)share->before + progress->done * (double)share->pieces) / (double)share->of;
    return share->job->carry_on(share->job->context, &all);
}

static int lay_cloth(struct share *share, int effort, const struct design *design,
                     const struct envelope *envelope, struct cutting_cloth *cloth,
                     struct diagnostics *messages) {
    struct layout_task task = cutting_task(cloth);
    struct diagnostics own = {0};
    task.effort = effort;
    task.carry_on = share->job->carry_on != NULL ? tell_share : NULL;
    task.context = share;
    int status = layout_make(&task, &cloth->layout, &own);
    say_of(cloth, &own, messages);
    diagnostics_free(&own);
    if (status != 0)
        return -1;
    for (size_t i = 0; i < cloth->pieces; i++) {
        struct layout_place place = cloth->layout.place[i];
        cloth->piece[i] =
            (struct cutting_piece){.piece = cloth->outline_piece[place.outline], .place = place};
    }
    cutting_arrange(cloth);
    number_gores(design, envelope, cloth);
    return 0;
}

int cutting_make(const struct cutting_job *job, const struct design *design,
                 const struct envelope *envelope, struct cutting *cutting,
                 struct diagnostics *messages) {
    struct share share = {.job = job};
    int status = cutting_begin(design, envelope, cutting, messages);
    cutting->effort = job->effort > 0 ? job->effort : EFFORT_USUAL;
    for (size_t i = 0; i < cutting->cloths; i++)
        share.of += cutting->cloth[i].pieces;
    for (size_t i = 0; status == 0 && i < cutting->cloths; i++) {
        struct cutting_cloth *cloth = &cutting->cloth[i];
        share.pieces = cloth->pieces;
        status = lay_cloth(&share, cutting->effort, design, envelope, cloth, messages);
        share.before += cloth->pieces;
    }
    return status;
}

bool cutting_check(const struct cutting *cutting, struct diagnostics *messages) {
    bool good = true;
    for (size_t i = 0; i < cutting->cloths; i++) {
        struct layout_task task = cutting_task(&cutting->cloth[i]);
        struct diagnostics own = {0};
        good = layout_check(&task, &cutting->cloth[i].layout, &own) == 0 && good;
        say_of(&cutting->cloth[i], &own, messages);
        diagnostics_free(&own);
    }
    return good;
}

/* ---- what it comes to ------------------------------------------------------------------------ */

double cutting_used_m(const struct cutting_cloth *cloth) {
    double sum_m = 0;
    for (size_t k = 0; k < cloth->strips; k++)
        if (!cloth->strip[k].offcut)
            sum_m += cloth->layout.used_m[k];
    return sum_m;
}

double cutting_bought_m(const struct design *design, const struct cutting_cloth *cloth) {
    double step_m = design->buying.cloth_step_m, steps = 0;
    for (size_t k = 0; k < cloth->strips; k++)
        if (!cloth->strip[k].offcut)
            steps += ceil(cloth->layout.used_m[k] / step_m - 1e-6);
    return steps * step_m;
}

double cutting_bound_m(const struct cutting_cloth *cloth) {
    double area_m2 = cloth->layout.area_m2, widest_m = 0;
    if (cloth->strips == 1)
        return cloth->layout.lower_bound_m;
    for (size_t k = 0; k < cloth->strips; k++) {
        if (cloth->strip[k].offcut)
            area_m2 -= cloth->bolt[k].width_m * cloth->bolt[k].length_m;
        else
            widest_m = fmax(widest_m, cloth->bolt[k].width_m);
    }
    return widest_m > 0 ? fmax(0, area_m2 / widest_m) : 0;
}

const char *cutting_crown(const struct cutting_piece *piece) {
    static const char *const ways[TURN_COUNT] = {
        [TURN_0] = "far", [TURN_90] = "start", [TURN_180] = "near", [TURN_270] = "end"};
    return ways[piece->place.turn];
}
