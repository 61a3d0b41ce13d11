/* steps.h - the steps of the walk-through: one table of what is asked where. */
#ifndef SCREEN_STEPS_H
#define SCREEN_STEPS_H

#include "gorewright/geometry.h"

enum step {
    STEP_SIZE,
    STEP_SHAPE,
    STEP_GORES,
    STEP_CLOTH,
    STEP_COLOURS,
    STEP_FLIGHT,
    STEP_PAPER,
    STEP_COUNT
};

/* One choice of a step: a parameter, and when it is asked for. */
struct step_choice {
    enum step step;
    const char *key;                            /* of the parameter */
    const char *label;                          /* at most 20 letters */
    bool (*asked)(const struct design *design); /* NULL: always */
    const char *help; /* instead of the parameter's own, which speaks of the file; or NULL */
};

struct step_entry {
    const char *name;
    const char *question;
};

const struct step_entry *step_entry(enum step step);

/* Every parameter but `format` stands in this table once. */
const struct step_choice *step_choices(size_t *count);

/* A sentence about a choice, the reason for its usual value included. */
const char *choice_help(const struct step_choice *choice);

/* Whether Left and Right go through the values of a parameter; the others are typed. */
bool choice_is_stepped(const char *key);

/* The next value of a choice that is stepped, as parameter_step; of a text, the next of the words
 * that are offered. */
void choice_step(struct design *design, size_t parameter, int direction);

bool choice_asked(const struct step_choice *choice, const struct design *design);

/* The choices that a step asks for in this design.
 * Returns: how many; choice[] holds their places in the table. */
enum { CHOICES_MOST = 48 };
size_t choices_of(enum step step, const struct design *design, size_t choice[CHOICES_MOST]);

/* A short line about a word that can be chosen, or NULL when there is none. */
const char *word_meaning(const char *key, int word);

/* Choices whose label, key or help holds every word of `letters`, best first.
 * Returns: how many, at most `most`; found[] holds their places in the table. */
size_t choices_found(const char *letters, size_t *found, size_t most);

/* What follows when a choice has changed from `before` to `after`: a figure that the new
 * choice needs is taken from the envelope as it is, one that fixed the size before goes back to
 * its usual value, a list is made as long as it has to be.
 * Given: key of what changed; the envelope of `before`, or NULL. */
void choice_follow(const char *key, const struct design *before, const struct envelope *envelope,
                   struct design *after);

#endif
