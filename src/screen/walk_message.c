/* walk_message.c - what stands in the line of messages. */
#include "screen/plainly.h"
#include "screen/walk.h"

static enum cell_kind kind_of(const struct diagnostic *message) {
    return message->severity == SEVERITY_ERROR ? CELL_ERROR : CELL_WARNING;
}

/* Cut pieces that a change just made no longer fits: said where the change is made. */
static void say_misfits(const struct walk *walk, struct text *into) {
    size_t pieces = walk->cuts.misfits;
    bool types = walk_place_below(walk) == IN_WORDS; /* letters are typed there */
    if (pieces > 0)
        text_add(into, "%zu cut piece%s no longer fit%s this design: f %sshows which.", pieces,
                 pieces == 1 ? "" : "s", pieces == 1 ? "s" : "", types ? "on another choice " : "");
}

/* What is wrong with the design, or on Flight with the flight. */
static enum cell_kind say_state(const struct walk *walk, struct text *into) {
    const struct diagnostics *messages = &walk->session->messages;
    enum cell_kind kind = CELL_WARNING;
    if (messages->count == 0 && walk->step == STEP_FLIGHT)
        messages = &walk->outlook.warnings;
    say_misfits(walk, into);
    if (messages->count == 0)
        return kind;
    if (into->length > 0)
        text_add(into, "  ");
    say_message(&messages->item[0], NULL, into);
    if (messages->count > 1)
        text_add(into, "  (and %zu more)", messages->count - 1);
    return kind_of(&messages->item[0]);
}

enum cell_kind walk_message(const struct walk *walk, struct text *into) {
    if (walk->work == WORK_WRITE) {
        text_add(into, "Writing...");
        return CELL_HELP;
    }
    if (walk->over == OVER_QUESTION) {
        text_add(into, "%s", walk->question.bytes);
        return CELL_WARNING;
    }
    if (walk->notice.length > 0) {
        text_add(into, "%s", walk->notice.bytes);
        return walk->notice_kind;
    }
    return walk->at_bench ? CELL_HELP : say_state(walk, into);
}
