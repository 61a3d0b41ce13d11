/* compare_page.c - which style: what each asks of the builder, side by side. */
#include <math.h>
#include <stdio.h>

#include "gorewright/paper.h"
#include "paper/plain.h"
#include "paper/quantities.h"

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
    const struct built *built = &style->figures;
    return built->tape_seam_m + built->row_seam_m + built->ridge_seam_m - built->curved_seam_m;
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
    {"hours to build", hours, HOURS},
};

static char *cell(const struct design *design, const struct row *row,
                  const struct style_figures *style, char into[SHOWN_MOST]) {
    double value = style->built ? row->figure(style) : HUGE_VAL;
    if (row->quantity == HOURS)
        return two_figures(value, into);
    if (row->quantity == COUNTED && isfinite(value))
        snprintf(into, SHOWN_MOST, "%.0f", value);
    else if (row->quantity == COUNTED)
        three_figures(value, into);
    else
        show(design, (enum quantity)row->quantity, value, into);
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

static void write_words(const struct style_figures *style, struct text *into) {
    char words[256];
    snprintf(words, sizeof words, style->built ? "%s: %s." : "%s CANNOT BE BUILT LIKE THIS: %s ...",
             style->name, style->built ? style->skill : style->why);
    flow_text(into, words, 0, 2);
}

static const char *const notes[] = {
    "All three stand on the same tape lines, so one envelope may mix them (gores.mix).",
    "Loads in cloth and tape need the inflation on paper, which is not worked out here. Common "
    "practice: a gore that stands out between its tapes leaves less load in the cloth and puts "
    "more on the tapes.",
    "Hours go by the paces of the design (pace.*): put in your own.",
    "Estimates, all of them; the first inflation decides.",
};

static void write_size(const struct design *design, const struct design *compared,
                       struct text *into) {
    char words[256], volume[SHOWN_MOST];
    if (design->size.by != compared->size.by)
        snprintf(words, sizeof words,
                 "Each style sized anew by the same volume, %s, which the load asks of the design "
                 "as it is; all else as designed.",
                 show_with_unit(design, VOLUME, compared->size.volume_m3, volume));
    else
        snprintf(words, sizeof words, "Each style sized anew by the same %s, all else as designed.",
                 parameter_word("size.by", design->size.by));
    flow_text(into, words, 0, 0);
}

size_t write_comparison(const struct design *design, struct text *into) {
    struct design compared;
    struct style_figures styles[COMPARED_MOST];
    size_t count = styles_compare(design, &compared, styles), built = 0;
    for (size_t i = 0; i < count; i++)
        built += styles[i].built;
    if (built == 0)
        return 0;
    char name[TEXT_MOST];
    text_add(into, "WHICH STYLE: %s\n", plain_text(design->name, name));
    write_size(design, &compared, into);
    write_names(styles, count, into);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        write_row(design, &rows[i], styles, count, into);
    text_add(into, "\nWhat the sewing asks\n");
    for (size_t i = 0; i < count; i++)
        write_words(&styles[i], into);
    text_add(into, "\n");
    for (size_t i = 0; i < COUNT_OF(notes); i++)
        flow_text(into, notes[i], 0, 0);
    return built;
}
