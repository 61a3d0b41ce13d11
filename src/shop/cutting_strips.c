/* cutting_strips.c - the offcuts and bolts that a colour is cut from. */
#include <math.h>
#include <stdlib.h>

#include "shop/cutting.h"

/* Along the strip and across it, at any turn that is allowed. */
static struct flat_point room_for(const struct layout_outline *outline) {
    struct layout_place upright = {.turn = (outline->turns & TURNS_90_270) != 0 ? TURN_90 : TURN_0};
    struct layout_box box = layout_box(outline, &upright);
    return (struct flat_point){box.most.x_m - box.least.x_m, box.most.y_m - box.least.y_m};
}

static bool takes_any(const struct cutting_cloth *cloth, const struct layout_bolt *bolt) {
    for (size_t i = 0; i < cloth->outlines; i++) {
        struct flat_point room = room_for(&cloth->outline[i]);
        if (room.x_m <= bolt->length_m + LAYOUT_SLACK_M &&
            room.y_m <= bolt->width_m + LAYOUT_SLACK_M)
            return true;
    }
    return false;
}

static void warn_of_strip(const struct cutting_cloth *cloth, const struct cutting_strip *strip,
                          size_t entry, struct diagnostics *messages) {
    diagnose(messages, SEVERITY_WARNING, "not-used",
             strip->offcut ? "cutting.offcuts" : "cutting.bolts",
             "entry %zu: %.3f m long and %.3f m wide, this %s is too small for any piece of cloth "
             "%c, %s; it is not used",
             entry, strip->length_m, strip->width_m, strip->offcut ? "offcut" : "bolt",
             cloth->colour.letter, cloth->colour.name);
}

/* All of an offcut is good, where its width is stated; else it is as wide as its cloth, with
 * the selvedges of it. */
static struct cutting_strip strip_of(const struct design *design, const struct cutting_cloth *cloth,
                                     bool offcut, const struct stock *stock) {
    bool wide = stock->width_m > 0;
    return (struct cutting_strip){.offcut = offcut,
                                  .width_m = wide ? stock->width_m : cloth->colour.width_m,
                                  .length_m = stock->length_m,
                                  .edge_m = offcut && wide ? 0 : design->cloth.selvedge_m};
}

static struct layout_bolt bolt_of(const struct cutting_strip *strip) {
    return (struct layout_bolt){strip->width_m - 2 * strip->edge_m, strip->length_m};
}

static void add_stock(const struct design *design, bool offcut, struct cutting_cloth *cloth,
                      struct diagnostics *messages) {
    const struct stock_list *list = offcut ? &design->cutting.offcuts : &design->cutting.bolts;
    size_t number = 0;
    for (size_t i = 0; i < list->count; i++) {
        if (list->value[i].letter != cloth->colour.letter)
            continue;
        struct cutting_strip strip = strip_of(design, cloth, offcut, &list->value[i]);
        struct layout_bolt bolt = bolt_of(&strip);
        strip.number = ++number;
        if (bolt.width_m > 0 && takes_any(cloth, &bolt)) {
            cloth->strip[cloth->strips] = strip;
            cloth->bolt[cloth->strips++] = bolt;
        } else {
            warn_of_strip(cloth, &strip, i + 1, messages);
        }
    }
}

static bool has_bolts(const struct design *design, char letter) {
    for (size_t i = 0; i < design->cutting.bolts.count; i++)
        if (design->cutting.bolts.value[i].letter == letter)
            return true;
    return false;
}

/* Cloth off the roll, as much as it takes. */
static void add_endless(const struct design *design, struct cutting_cloth *cloth) {
    struct cutting_strip strip = {.number = 1,
                                  .width_m = cloth->colour.width_m,
                                  .length_m = HUGE_VAL,
                                  .edge_m = design->cloth.selvedge_m};
    cloth->strip[cloth->strips] = strip;
    cloth->bolt[cloth->strips++] = bolt_of(&strip);
}

int cutting_add_strips(const struct design *design, struct cutting_cloth *cloth,
                       struct diagnostics *messages) {
    cloth->strip = calloc(2 * STOCK_MOST + 1, sizeof *cloth->strip);
    cloth->bolt = calloc(2 * STOCK_MOST + 1, sizeof *cloth->bolt);
    if (cloth->strip == NULL || cloth->bolt == NULL) {
        diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory for the layout");
        return -1;
    }
    add_stock(design, true, cloth, messages);
    if (has_bolts(design, cloth->colour.letter))
        add_stock(design, false, cloth, messages);
    else
        add_endless(design, cloth);
    if (cloth->strips > 0)
        return 0;
    diagnose(messages, SEVERITY_ERROR, "no-cloth", "cutting.bolts",
             "no bolt of cloth %c, %s, takes any of its pieces; add one that is larger, or take "
             "its bolts out: then it is cut from one as long as it takes",
             cloth->colour.letter, cloth->colour.name);
    return -1;
}
