/* materials_page.c - the shopping list. */
#include <stdio.h>
#include <string.h>

#include "paper/cutting_page.h"
#include "paper/lengths.h"
#include "paper/plain.h"
#include "paper/quantities.h"

static const char *const kind_names[] = {[MATERIAL_CLOTH] = "",
                                         [MATERIAL_TAPE] = "load tape",
                                         [MATERIAL_THREAD] = "thread, waste included",
                                         [MATERIAL_WIRE] = "flying wire"};

/* ---- the table ---------------------------------------------------------------------- */

static const char *name_of(const struct cutting *cutting, const struct material *item,
                           char into[CLOTH_NAME_MOST]) {
    if (item->kind != MATERIAL_CLOTH)
        return kind_names[item->kind];
    return cloth_name(&cutting->cloth[item->cloth], into);
}

static char *bought_words(const struct design *design, const struct material *item, char into[32]) {
    if (item->kind != MATERIAL_THREAD)
        return cloth_length(design, item->bought, into);
    snprintf(into, 32, "%.0f reel%s", item->bought, item->bought > 1 ? "s" : "");
    return into;
}

/* A price is for a metre, or in feet for a foot, so that price times length is the cost. */
static double shown_price(const struct design *design, const struct material *item) {
    bool feet = design->paper.units == UNITS_INCH && item->kind != MATERIAL_THREAD;
    return feet ? item->price * 12 * METRES_PER_INCH : item->price;
}

static void write_item(const struct design *design, const struct cutting *cutting,
                       const struct material *item, struct text *into) {
    char name[CLOTH_NAME_MOST], needed[32], bought[32];
    text_add(into, "  %-26.26s %12s %12s", name_of(cutting, item, name),
             cloth_length(design, item->needed_m, needed), bought_words(design, item, bought));
    if (item->price > 0)
        text_add(into, " %10.2f %12.2f\n", shown_price(design, item), item->bought * item->price);
    else
        text_add(into, " %10s %12s\n", "-", "-");
}

static void write_total(const struct cutting *cutting, const struct materials *materials,
                        struct text *into) {
    struct text words = {0};
    char name[CLOTH_NAME_MOST];
    if (materials->priced > 0)
        text_add(into, "  %-26s %12s %12s %10s %12.2f\n", "ALL THAT HAS A PRICE", "", "", "",
                 materials->cost);
    if (materials->priced == materials->count)
        return;
    text_add(&words, materials->priced > 0 ? "No price is stated for, and the sum leaves out:"
                                           : "No price is stated for:");
    for (size_t i = 0, said = 0; i < materials->count; i++)
        if (!(materials->item[i].price > 0))
            text_add(&words, "%s %s", said++ > 0 ? "," : "",
                     name_of(cutting, &materials->item[i], name));
    text_add(&words, ". Prices stand in colours.cloths or cloth.price and in the group buying.");
    if (words.failed)
        into->failed = true;
    else
        flow_text(into, words.bytes, 0, 2);
    text_free(&words);
}

/* ---- what it is for ----------------------------------------------------------------------- */

static void write_offcuts(const struct cutting *cutting, struct text *into) {
    char name[CLOTH_NAME_MOST], words[TEXT_MOST + 80];
    for (size_t i = 0; i < cutting->cloths; i++) {
        const struct cutting_cloth *cloth = &cutting->cloth[i];
        size_t pieces = 0;
        for (size_t k = 0; k < cloth->pieces; k++)
            pieces += cloth->strip[cloth->piece[k].place.bolt].offcut;
        if (pieces == 0)
            continue;
        snprintf(words, sizeof words, "%s: %zu of %zu pieces come from offcuts.",
                 cloth_name(cloth, name), pieces, cloth->pieces);
        text_add(into, "  - ");
        flow_text(into, words, 4, 4);
    }
}

static void write_item_notes(const struct design *sized, const struct notions *notions,
                             struct text *into) {
    char a[32], b[32], c[32], words[400];
    snprintf(words, sizeof words,
             "Load tape: %zu of %s, with %s turned back at each end, and %s once around the mouth.",
             notions->tapes, cloth_length(sized, notions->tape_each_m, a),
             cloth_length(sized, sized->tape.turn_back_m, b),
             cloth_length(sized, notions->mouth_band_m, c));
    text_add(into, "  - ");
    flow_text(into, words, 4, 4);
    snprintf(words, sizeof words,
             "Thread: %s in the seams, both threads, and %.0f %% for waste; %s on a reel.",
             cloth_length(sized, notions->thread_m, a), 100 * sized->thread.waste,
             cloth_length(sized, sized->buying.reel_m, b));
    text_add(into, "  - ");
    flow_text(into, words, 4, 4);
    snprintf(words, sizeof words,
             "Flying wire: %zu of %s from tape end to burner frame; add what your knots or splices "
             "take.",
             notions->wires, cloth_length(sized, notions->wire_each_m, a));
    text_add(into, "  - ");
    flow_text(into, words, 4, 4);
}

static void write_left_out(const struct design *sized, const struct notions *notions,
                           struct text *into) {
    char across[32], mass[SHOWN_MOST], words[500];
    text_add(into, "\nNOT IN THE LIST\n  - ");
    snprintf(words, sizeof words,
             "Vent: a flat disc %s %s across and its hem. Its sectors are not laid out; it takes "
             "cloth beyond the lengths above.",
             format_length(sized, notions->vent_diameter_m, across), length_unit(sized));
    flow_text(into, words, 4, 4);
    snprintf(words, sizeof words,
             "Crown ring with the lines of the vent: one, %s in all (vent.ring); lengths and "
             "thickness are not in this design.",
             show_with_unit(sized, MASS, sized->vent.ring_kg, mass));
    text_add(into, "  - ");
    flow_text(into, words, 4, 4);
    text_add(into, "  - ");
    flow_text(into,
              "Webbing, rings at the tape ends, handling and crown lines, heat-resistant cloth at "
              "the mouth, scoop or skirt, burner frame and basket: not in this design.",
              4, 4);
}

/* ---- the page ------------------------------------------------------------------------------- */

void write_materials(const struct design *sized, const struct envelope *envelope,
                     const struct cutting *cutting, struct text *into) {
    struct materials materials = materials_of(sized, envelope, cutting);
    struct notions notions = notions_of(sized, envelope);
    char name[TEXT_MOST], words[300];
    snprintf(words, sizeof words, "MATERIALS FOR %s", plain_text(sized->name, name));
    flow_text(into, words, 0, 0);
    snprintf(words, sizeof words,
             "Cloth from the cutting layout%s. To buy is what shops sell: in their steps of "
             "length, and thread in whole reels. Prices are in your own money%s.",
             cutting->kept ? " that is kept beside the design"
                           : ", worked out now; the command layout shows and keeps it",
             sized->paper.units == UNITS_INCH ? ", for a foot or a reel"
                                              : ", for a metre or a reel");
    flow_text(into, words, 0, 0);
    text_add(into, "\n  %-26s %12s %12s %10s %12s\n", "item", "needed", "to buy", "price", "cost");
    for (size_t i = 0; i < materials.count; i++)
        write_item(sized, cutting, &materials.item[i], into);
    write_total(cutting, &materials, into);
    text_add(into, "\nWHAT IT IS FOR\n");
    write_offcuts(cutting, into);
    write_item_notes(sized, &notions, into);
    write_left_out(sized, &notions, into);
}
