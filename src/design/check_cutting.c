/* check_cutting.c - the cloth there is to cut from. */
#include "design/check.h"
#include "design/values.h"

/* A list written in the wrong unit is not to fill the screen. */
enum { LIST_ERRORS_MOST = 3 };

static bool length_fits(const struct checking *c, const struct parameter *p, size_t entry,
                        double length_m) {
    bool fits = length_m >= p->least && length_m <= p->most;
    if (!fits)
        diagnose_range(c->messages, p, entry, length_m);
    return fits;
}

void check_stock(const struct checking *c, const struct parameter *p) {
    const struct stock_list *list = value_of(c->design, p);
    if (list->count > list_room(p)) {
        diagnose(c->messages, SEVERITY_ERROR, "count", p->key,
                 "this list has %zu entries; at most %zu can be used, so shorten it", list->count,
                 list_room(p));
        return;
    }
    for (size_t i = 0, wrong = 0; i < list->count && wrong < LIST_ERRORS_MOST; i++) {
        wrong += !length_fits(c, p, i + 1, list->value[i].length_m);
        check_given(c, p, i + 1, "cloth.width", list->value[i].width_m);
    }
}

/* ---- rules ------------------------------------------------------------------ */

static void rule_letters(const struct checking *c, const char *key, const struct stock_list *list) {
    char letters[LETTERS_MOST];
    if (check_is_wrong(c, key) || check_is_wrong(c, "cloth.colour"))
        return;
    for (size_t i = 0; i < list->count; i++)
        if (!cloth_is_defined(c->design, list->value[i].letter)) {
            const char name[] = {list->value[i].letter, '\0'};
            char shown[48];
            cloth_letters(c->design, letters);
            diagnose(c->messages, SEVERITY_ERROR, "colour", key,
                     "entry %zu: no cloth has the letter %s; write %s, or add a cloth to "
                     "colours.cloths",
                     i + 1, shown_text(name, shown), letters);
            return;
        }
}

static void rule_bolt_widths(const struct checking *c) {
    const struct stock_list *list = &c->design->cutting.bolts;
    char number[32];
    if (check_is_wrong(c, "cutting.bolts") || check_is_wrong(c, "cloth.selvedge"))
        return;
    for (size_t i = 0; i < list->count; i++)
        if (list->value[i].width_m > 0 &&
            list->value[i].width_m <= 2 * c->design->cloth.selvedge_m) {
            diagnose(c->messages, SEVERITY_ERROR, "needs", "cutting.bolts",
                     "entry %zu: the two selvedges (cloth.selvedge) leave nothing of a bolt that "
                     "is %s m wide; give its width with the selvedges, or a smaller selvedge",
                     i + 1, plain_number(list->value[i].width_m, number));
            return;
        }
}

void rule_cutting(const struct checking *c) {
    if (check_is_wrong(c, "colours.cloths"))
        return;
    rule_letters(c, "cutting.offcuts", &c->design->cutting.offcuts);
    rule_letters(c, "cutting.bolts", &c->design->cutting.bolts);
    rule_bolt_widths(c);
}
