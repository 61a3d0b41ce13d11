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

/* A size that does not hang on the style: a load is turned into the volume that the design asks
 * for it as it stands or, where that cannot be built, the first style that can. */
static struct design at_one_size(const struct design *design) {
    if (design->size.by != SIZE_LOAD)
        return *design;
    for (int style = -1; style < STYLE_COUNT; style++) {
        struct diagnostics silent = {0};
        struct design sized, asked = style < 0 ? *design : alike(design, style);
        struct envelope *envelope = flight_build(&asked, &sized, &silent);
        bool built = envelope != NULL;
        envelope_free(envelope);
        diagnostics_free(&silent);
        if (!built)
            continue;
        sized.gores.style = design->gores.style;
        sized.gores.mix = design->gores.mix;
        return sized;
    }
    return *design;
}

size_t styles_compare(const struct design *design, struct design *compared,
                      struct style_figures figures[COMPARED_MOST]) {
    size_t count = 0;
    *compared = at_one_size(design);
    for (int style = 0; style < STYLE_COUNT; style++) {
        struct design all = alike(compared, style);
        figures[count] =
            (struct style_figures){.name = style_name((enum style)style), .skill = skills[style]};
        fill(&all, &figures[count++]);
    }
    if (is_mixed(design)) {
        figures[count] =
            (struct style_figures){.name = "as designed", .skill = skill_of_mix(design)};
        fill(compared, &figures[count++]);
    }
    return count;
}
