/* compare_page.c - which style: what each asks of the builder, side by side. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/flight_page.h"
#include "paper/plain.h"

enum { LABEL = 26, COLUMN = 13 };

/* One figure of a style, SI; what it is shown in is said by its row. */
typedef double figure_of(const struct style_figures *style);

static double pieces(const struct style_figures *style) {
    return (double)style->figures.pieces;
}
static double templates(const struct style_figures *style) {
    return (double)style->templates;
}
static double straight(const struct style_figures *style) {
    return straight_seams_m(&style->figures);
}
static double curved(const struct style_figures *style) {
    return style->figures.curved_seam_m;
}
static double cloth(const struct style_figures *style) {
    return style->figures.cut_area_m2;
}
static double mass(const struct style_figures *style) {
    return style->mass_kg;
}
static double volume(const struct style_figures *style) {
    return style->figures.volume_m3;
}
static double height(const struct style_figures *style) {
    return style->figures.height_m;
}
static double diameter(const struct style_figures *style) {
    return style->figures.mid_diameter_m;
}
static double needed(const struct style_figures *style) {
    return style->needed_C + ZERO_C_K;
}
static double beyond(const struct style_figures *style) {
    return style->free_kg;
}
static double load_volume(const struct style_figures *style) {
    return style->load_volume_m3 > 0 ? style->load_volume_m3 : HUGE_VAL;
}
static double hours(const struct style_figures *style) {
    return style->hours;
}

enum { COUNTED = QUANTITY_COUNT, HOURS };

struct row {
    const char *label;
    figure_of *figure;
    int quantity; /* enum quantity, or one of the two above */
};

static const struct row rows[] = {
    {"pieces to cut", pieces, COUNTED},
    {"templates", templates, COUNTED},
    {"straight seams", straight, HEIGHT},
    {"curved seams", curved, HEIGHT},
    {"cloth, cut", cloth, AREA},
    {"envelope weighs", mass, MASS},
    {"volume as sewn", volume, VOLUME},
    {"height", height, HEIGHT},
    {"widest, at mid-gore", diameter, HEIGHT},
    {"must be inside to float", needed, TEMPERATURE},
    {"lifts beyond its weight", beyond, MASS},
    {"hours to build", hours, HOURS},
};

static const struct row load_row = {"volume for load alone", load_volume, VOLUME};

static bool is_too_hot(const struct design *design, const struct style_figures *style) {
    return style->built && isfinite(style->needed_C) &&
           printed_warmth_K(design, style->margin_K) < 0;
}

static char *cell(const struct design *design, const struct row *row,
                  const struct style_figures *style, char into[SHOWN_MOST]) {
    bool known = style->built || row == &load_row;
    double value = known ? row->figure(style) : HUGE_VAL;
    if (row->quantity == HOURS)
        return two_figures(value, into);
    if (row->quantity == COUNTED && isfinite(value))
        snprintf(into, SHOWN_MOST, "%.0f", value);
    else if (row->quantity == COUNTED)
        three_figures(value, into);
    else
        show(design, (enum quantity)row->quantity, value, into);
    if (row->figure == needed && is_too_hot(design, style)) {
        char number[SHOWN_MOST];
        snprintf(number, sizeof number, "!%.30s", into);
        memcpy(into, number, sizeof number);
    }
    return into;
}

static void write_row(const struct design *design, const struct row *row,
                      const struct style_figures styles[], size_t count, struct text *into) {
    char label[64], number[SHOWN_MOST];
    bool bare = row->quantity >= QUANTITY_COUNT;
    snprintf(label, sizeof label, "%s%s%s", row->label, bare ? "" : ", ",
             bare ? "" : page_unit(design, (enum quantity)row->quantity));
    text_add(into, "%-*s", LABEL, label);
    for (size_t i = 0; i < count; i++)
        text_add(into, "%*s", COLUMN, cell(design, row, &styles[i], number));
    text_add(into, "\n");
}

static void write_names(const struct style_figures styles[], size_t count, struct text *into) {
    text_add(into, "\n%-*s", LABEL, "");
    for (size_t i = 0; i < count; i++)
        text_add(into, "%*s", COLUMN, styles[i].name);
    text_add(into, "\n");
}

static void write_too_hot(const struct design *design, const struct comparison *comparison,
                          struct text *into) {
    char hottest[SHOWN_MOST], words[160];
    bool any = false;
    for (size_t i = 0; i < comparison->count; i++)
        any |= is_too_hot(design, &comparison->style[i]);
    if (!any)
        return;
    snprintf(words, sizeof words,
             "! TOO HOT: the cloth stands %s on the mean, and the crown is hotter (cloth.hottest).",
             show_with_unit(design, TEMPERATURE, design->cloth.hottest_C + ZERO_C_K, hottest));
    flow_text(into, words, 0, 2);
}

static void write_words(const struct style_figures *style, struct text *into) {
    char words[384];
    snprintf(words, sizeof words, style->built ? "%s: %s." : "%s CANNOT BE BUILT LIKE THIS: %s",
             style->name, style->built ? style->skill : style->why);
    text_add(into, "  ");
    flow_text(into, words, 2, 2);
}

static const char *const notes[] = {
    "All three can be built on one set of tape lines, so one envelope may mix them (gores.mix); "
    "here each is sized on its own.",
    "Loads in cloth and tape need the inflation on paper, which is not worked out here. Common "
    "practice: a gore that stands out between its tapes leaves less load in the cloth and puts "
    "more on the tapes.",
    "Hours go by the paces of the design (pace.*): put in your own.",
    "Estimates, all of them; the first inflation decides.",
};

/* Whose volume it is that the load asks for. */
static void say_load(const struct design *design, const struct comparison *comparison, char *into,
                     size_t size) {
    const char *own = comparison->style[comparison->own].name,
               *sized = comparison->style[comparison->sized].name;
    bool mixed = comparison->own >= STYLE_COUNT;
    char volume[SHOWN_MOST];
    show_with_unit(design, VOLUME, comparison->volume_m3, volume);
    if (comparison->sized == comparison->own)
        snprintf(into, size,
                 "Each style sized anew by the same volume, %s, which the load asks of the design "
                 "as it is; all else as designed.",
                 volume);
    else
        snprintf(into, size,
                 "Each style sized anew by the same volume, %s, which the load asks of %s gores; "
                 "your %s ones cannot be built for it. All else as designed.",
                 volume, sized, mixed ? "mixed" : own);
}

static void write_size(const struct design *design, const struct comparison *comparison,
                       struct text *into) {
    char words[256];
    if (comparison->volume_m3 > 0)
        say_load(design, comparison, words, sizeof words);
    else
        snprintf(words, sizeof words, "Each style sized anew by the same %s, all else as designed.",
                 parameter_word("size.by", design->size.by));
    flow_text(into, words, 0, 0);
}

/* A design without any bulge has one all the same, which its builder has not thought of. */
static void write_bulge(const struct design *design, const struct comparison *comparison,
                        struct text *into) {
    char words[128];
    if (comparison->own != FACETED)
        return;
    if (design->bulge.stations.count > 0)
        snprintf(words, sizeof words, "Half-gores and billowed gores stand out by bulge.stations.");
    else
        snprintf(words, sizeof words,
                 "Half-gores and billowed gores stand out by %g of their width (bulge.depth).",
                 design->bulge.depth);
    flow_text(into, words, 0, 0);
}

static void write_table(const struct design *design, const struct comparison *comparison,
                        struct text *into) {
    write_names(comparison->style, comparison->count, into);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        write_row(design, &rows[i], comparison->style, comparison->count, into);
    if (comparison->volume_m3 > 0)
        write_row(design, &load_row, comparison->style, comparison->count, into);
    write_too_hot(design, comparison, into);
}

/* Of the design as it is, when it can be built. */
static void write_note(const struct design *design, struct text *into) {
    struct diagnostics silent = {0};
    struct design sized;
    struct envelope *envelope = flight_build(design, &sized, &silent);
    if (envelope != NULL)
        flight_take_note(&sized, envelope, into);
    envelope_free(envelope);
    diagnostics_free(&silent);
}

size_t write_comparison(const struct design *design, struct text *into) {
    struct comparison comparison;
    size_t built = 0;
    styles_compare(design, &comparison);
    for (size_t i = 0; i < comparison.count; i++)
        built += comparison.style[i].built;
    if (built == 0)
        return 0;
    char name[TEXT_MOST];
    text_add(into, "WHICH STYLE: %s\n", plain_text(design->name, name));
    write_size(design, &comparison, into);
    write_bulge(design, &comparison, into);
    write_note(design, into);
    write_table(design, &comparison, into);
    text_add(into, "\nWhat the sewing asks\n");
    for (size_t i = 0; i < comparison.count; i++)
        write_words(&comparison.style[i], into);
    text_add(into, "\n");
    for (size_t i = 0; i < COUNT_OF(notes); i++)
        flow_text(into, notes[i], 0, 0);
    return built;
}
