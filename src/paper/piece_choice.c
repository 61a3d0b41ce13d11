/* piece_choice.c - the only piece that was asked for. */
#include "paper/piece_choice.h"

const struct piece *piece_named(const struct envelope *envelope, const char *name) {
    for (size_t i = 0; i < envelope->templates; i++)
        if (same_in_any_case(name, envelope->piece[i].name))
            return &envelope->piece[i];
    return NULL;
}

/* "F01 to F08, H01L to H08R": templates stand by style, row and side. */
static void list_names(const struct envelope *envelope, struct text *into) {
    const struct piece *piece = envelope->piece;
    for (size_t i = 0; i < envelope->templates; i++) {
        bool first = i == 0 || piece[i].style != piece[i - 1].style;
        bool last = i + 1 == envelope->templates || piece[i].style != piece[i + 1].style;
        if (first)
            text_add(into, "%s%s", i > 0 ? ", " : "", piece[i].name);
        else if (last)
            text_add(into, " to %s", piece[i].name);
    }
}

int refuse_piece(const struct envelope *envelope, const char *name, struct diagnostics *messages) {
    struct text names = {0};
    list_names(envelope, &names);
    diagnose(messages, SEVERITY_ERROR, "no-such-piece", "",
             "there is no piece \"%s\"; this design has %s: name one of these", name,
             names.bytes == NULL ? "none" : names.bytes);
    text_free(&names);
    return -1;
}
