/* compare.c - what each way of building the gores costs, at the same size. */
#include <math.h>
#include <string.h>

#include "gorewright/flight.h"

static const char *const skills[STYLE_COUNT] = {
    [FACETED] = "straight seams alone, the fewest pieces; the one to begin with",
    [HALF_GORE] = "straight seams alone, twice the pieces; left and right must not be mixed up",
    [BILLOWED] = "row seams whose two edges bend apart, to be eased together; the hardest",
};

/* As many whole words of the first error as there is room for. */
static void say_why(const struct diagnostics *messages, char why[], size_t size) {
    const char *text = "there is not enough memory";
    for (size_t i = messages->count; i-- > 0;)
        if (messages->item[i].severity == SEVERITY_ERROR)
            text = messages->item[i].text;
    size_t length = strlen(text);
    if (length >= size)
        for (length = size - 1; length > 0 && text[length] != ' ';)
            length--;
    memcpy(why, text, length);
    why[length] = '\0';
}

static void fill(const struct design *design, struct style_figures *figures) {
    struct diagnostics messages = {0};
    struct design sized;
    struct envelope *envelope = flight_build(design, &sized, &messages);
    figures->built = envelope != NULL;
    if (envelope == NULL) {
        say_why(&messages, figures->why, sizeof figures->why);
    } else {
        struct masses masses = masses_of(&sized, envelope);
        struct lift lift = lift_of(&sized, envelope, &masses);
        figures->figures = envelope->built;
        figures->templates = envelope->templates;
        figures->mass_kg = masses.envelope_kg;
        figures->needed_C = lift.needed_K - ZERO_C_K;
        figures->free_kg = lift.free_kg;
        figures->margin_K = lift.margin_K;
        figures->hours = build_hours(&sized, envelope);
    }
    envelope_free(envelope);
    diagnostics_free(&messages);
}

/* Gores of more than one style stand side by side. */
static bool is_mixed(const struct design *design) {
    for (size_t i = 1; i < design->gores.mix.count; i++)
        if (design->gores.mix.value[i] != design->gores.mix.value[0])
            return true;
    return false;
}

/* The hardest of the styles in a mix, which come in the order of what they ask. */
static const char *skill_of_mix(const struct design *design) {
    int hardest = FACETED;
    for (size_t i = 0; i < design->gores.mix.count; i++)
        if (design->gores.mix.value[i] > hardest)
            hardest = design->gores.mix.value[i];
    return skills[hardest];
}

/* Every gore in one style. */
static struct design alike(const struct design *design, int style) {
    struct design all = *design;
    all.gores.style = style;
    all.gores.mix.count = 0;
    return all;
}

/* The design as it stands and, beside it, every gore in one style each. */
struct ways {
    struct design way[COMPARED_MOST];
    size_t count;
};

static void find_ways(const struct design *design, struct ways *ways,
                      struct comparison *comparison) {
    for (int style = 0; style < STYLE_COUNT; style++) {
        ways->way[style] = alike(design, style);
        comparison->style[style] =
            (struct style_figures){.name = style_name((enum style)style), .skill = skills[style]};
    }
    ways->count = STYLE_COUNT;
    comparison->own =
        (size_t)(design->gores.mix.count > 0 ? design->gores.mix.value[0] : design->gores.style);
    if (is_mixed(design)) {
        comparison->own = ways->count;
        comparison->style[ways->count] =
            (struct style_figures){.name = "as designed", .skill = skill_of_mix(design)};
        ways->way[ways->count++] = *design;
    }
    comparison->count = ways->count;
}

/* What the load asks of each way by itself; then all at one of those volumes. */
static void settle_volume(struct ways *ways, struct comparison *comparison) {
    struct design asked[COMPARED_MOST];
    size_t chosen = ways->count;
    for (size_t i = 0; i < ways->count; i++) {
        struct diagnostics silent = {0};
        struct envelope *envelope = flight_build(&ways->way[i], &asked[i], &silent);
        if (envelope != NULL)
            comparison->style[i].load_volume_m3 = envelope->built.volume_m3;
        if (envelope != NULL && (chosen == ways->count || i == comparison->own))
            chosen = i;
        envelope_free(envelope);
        diagnostics_free(&silent);
    }
    if (chosen == ways->count)
        return;
    comparison->sized = chosen;
    comparison->volume_m3 = asked[chosen].size.volume_m3;
    for (size_t i = 0; i < ways->count; i++) {
        struct design way = asked[chosen];
        way.gores = ways->way[i].gores;
        ways->way[i] = way;
    }
}

void styles_compare(const struct design *design, struct comparison *comparison) {
    struct ways ways;
    *comparison = (struct comparison){0};
    find_ways(design, &ways, comparison);
    if (design->size.by == SIZE_LOAD)
        settle_volume(&ways, comparison);
    for (size_t i = 0; i < ways.count; i++)
        fill(&ways.way[i], &comparison->style[i]);
}
