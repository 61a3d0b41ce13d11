/* walk_typing.c - a value, a name or a few letters being typed. */
#include <stdlib.h>
#include <string.h>

#include "screen/plainly.h"
#include "screen/walk.h"

static void say_fault(struct walk *walk, const struct diagnostics *messages) {
    size_t count;
    const char *key = parameters(&count)[walk_parameter(walk)].key;
    text_free(&walk->fault);
    if (messages->count > 0)
        say_message(&messages->item[0], key, &walk->fault);
}

/* The field stays open, with what is wrong beside it, until the value can be taken. */
static void take_value(struct walk *walk) {
    size_t count, parameter = walk_parameter(walk);
    const struct session *session = walk->session;
    struct diagnostics messages = {0};
    struct design after = session->design;
    if (walk->field.fresh) { /* as it was shown: perhaps rounded, and not to be taken for exact */
        walk->over = OVER_NOTHING;
        return;
    }
    if (parameter_set(&after, parameter, walk->field.bytes, &messages) != 0) {
        say_fault(walk, &messages);
        diagnostics_free(&messages);
        return;
    }
    diagnostics_free(&messages);
    choice_follow(parameters(&count)[parameter].key, &session->design, session->envelope, &after);
    if (walk_change(walk, &after)) {
        walk->over = OVER_NOTHING;
        walk_to_keys(walk);
        return;
    }
    say_fault(walk, &session->refused);
    text_free(&walk->notice);
}

static void take_found(struct walk *walk) {
    size_t count, choice[CHOICES_MOST];
    if (walk->founds == 0)
        return;
    size_t wanted = walk->found[walk->at_found];
    const struct step_choice *found = &step_choices(&count)[wanted];
    walk->over = OVER_NOTHING;
    walk->step = found->step;
    count = choices_of(walk->step, &walk->session->design, choice);
    for (size_t i = 0; i < count; i++)
        if (choice[i] == wanted) {
            walk->cursor[walk->step] = i;
            return;
        }
    walk_say(walk, CELL_WARNING, "%s plays no part in this design: another choice here decides.",
             found->label);
}

static void take(struct walk *walk) {
    switch (walk->typing) {
    case TYPING_VALUE:
        take_value(walk);
        break;
    case TYPING_FIND:
        take_found(walk);
        break;
    case TYPING_SAVE_AS:
        walk->over = OVER_NOTHING;
        walk_save_under(walk, walk->field.bytes);
        break;
    case TYPING_OPEN:
        walk->over = OVER_NOTHING;
        walk_open(walk, walk->field.bytes);
        break;
    case TYPING_JUMP:
        walk->over = OVER_NOTHING;
        bench_jump(&walk->bench, walk->field.bytes);
        break;
    }
}

static void search(struct walk *walk) {
    walk->founds = choices_found(walk->field.bytes, walk->found, FOUND_MOST);
    walk->at_found = 0;
}

static bool edits(enum action action) {
    return action == ACTION_NONE || action == ACTION_EDIT || action == ACTION_CLEAR;
}

void walk_typing_key(struct walk *walk, int key) {
    enum action action = key_action(IN_TYPING, key);
    if (action == ACTION_TAKE) {
        take(walk);
    } else if (action == ACTION_LEAVE) {
        walk->over = OVER_NOTHING;
        walk->then = NULL;
    } else if (!edits(action)) {
        if (walk->typing == TYPING_FIND && walk->founds > 0)
            walk->at_found = walk_moved(action, walk->at_found, walk->founds);
    } else if (field_key(&walk->field, key)) {
        text_free(&walk->fault);
        if (walk->typing == TYPING_FIND)
            search(walk);
    }
}
