/* check.h - what the rules of design_check share. */
#ifndef DESIGN_CHECK_H
#define DESIGN_CHECK_H

#include "gorewright/design.h"

struct checking {
    const struct design *design;
    const struct design_source *source; /* NULL when not known */
    struct diagnostics *messages;
};

/* A rule between values is silent while one of them is wrong by itself. */
bool check_is_wrong(const struct checking *c, const char *key);

/* A list that is wanted but not there is reported where it is asked for. */
const char *check_place(const struct checking *c, const char *list, const char *asked_by);

/* "rows.count is 8" or "rows.count is not stated, so it is 8". */
const char *check_count_words(const struct checking *c, const char *key, int count, char into[64]);

/* ---- colours: check_colours.c -------------------------------------------- */

void check_cloths(const struct checking *c, const struct parameter *p);
void check_lines(const struct checking *c, const struct parameter *p);
void rule_colours(const struct checking *c);

/* ---- cloth to cut from: check_cutting.c ------------------------------------- */

void check_stock(const struct checking *c, const struct parameter *p);
void rule_cutting(const struct checking *c);

/* "W, R or B": the letters of the cloths of a design. */
enum { LETTERS_MOST = CLOTHS_MOST * 5 };
void cloth_letters(const struct design *design, char into[LETTERS_MOST]);
bool cloth_is_defined(const struct design *design, char letter);

/* A number that may be left out (0), else in the range of the parameter `like`; said of entry
 * `entry` of `p`. */
void check_given(const struct checking *c, const struct parameter *p, size_t entry,
                 const char *like, double value);

#endif
