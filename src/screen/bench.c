/* bench.c - where one is at the bench, and what each action does. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "screen/bench_parts.h"

/* ---- words about it ---------------------------------------------------------- */

static void say(struct bench *bench, bool error, const char *format, ...) FORMATTED(3, 4);

static void say(struct bench *bench, bool error, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(bench->notice, sizeof bench->notice, format, list);
    va_end(list);
    bench->notice_is_error = error;
}

const struct piece *bench_piece(const struct bench *bench) {
    return &bench->envelope->piece[bench->at.piece];
}

static const char *name_of(const struct bench *bench, struct single_piece single) {
    return bench->envelope->piece[single.piece].name;
}

/* ---- where one is --------------------------------------------------------------- */

static void stand_at(struct bench *bench, struct single_piece single) {
    bool other = strcmp(bench->piece, name_of(bench, single)) != 0;
    bench->at = single;
    memcpy(bench->piece, name_of(bench, single), sizeof bench->piece);
    if (other)
        bench->step = 0;
    marking_steps(bench->design, bench->envelope, bench_piece(bench), &bench->marking);
    if (bench->step > bench->marking.count)
        bench->step = bench->marking.count;
}

static void begin_at(struct bench *bench, struct single_piece single) {
    bench->step = 0;
    stand_at(bench, single);
}

static bool same(struct single_piece a, struct single_piece b) {
    return a.piece == b.piece && a.gore == b.gore;
}

static bool is_in_gore(const struct bench *bench, struct single_piece single) {
    return piece_stands_in(bench->envelope, &bench->envelope->piece[single.piece], single.gore - 1);
}

/* The first of a template that is not marked, or its very first. */
static struct single_piece first_of(const struct bench *bench, size_t piece) {
    struct single_piece first = {piece, 1}, next;
    if (!is_in_gore(bench, first))
        first = single_piece_step(bench->envelope, first, 1);
    if (record_next(bench->record, bench->envelope, TICK_MARKED, first, &next) &&
        next.piece == piece)
        return next;
    return first;
}

static void next_template(struct bench *bench, int direction) {
    size_t count = bench->envelope->templates;
    struct single_piece to = bench->at;
    to.piece = (to.piece + (direction < 0 ? count - 1 : 1)) % count;
    begin_at(bench, is_in_gore(bench, to) ? to : first_of(bench, to.piece));
}

static void next_gore(struct bench *bench, int direction) {
    size_t count = bench->envelope->gores;
    struct single_piece to = bench->at;
    do
        to.gore = (to.gore - 1 + (direction < 0 ? count - 1 : 1)) % count + 1;
    while (!is_in_gore(bench, to));
    stand_at(bench, to);
}

/* ---- in the overview -------------------------------------------------------------- */

static bool find_piece(const struct bench *bench, size_t gore, size_t row, enum side side,
                       struct single_piece *found) {
    const struct piece *piece = envelope_piece(
        bench->envelope, (enum style)bench->envelope->gore_style[gore - 1], side, row);
    if (piece == NULL)
        return false;
    *found = (struct single_piece){(size_t)(piece - bench->envelope->piece), gore};
    return true;
}

static void move_up(struct bench *bench, int direction) {
    const struct piece *piece = bench_piece(bench);
    size_t row = piece->row + (size_t)direction;
    struct single_piece to;
    if (row >= 1 && row <= bench->envelope->rows &&
        find_piece(bench, bench->at.gore, row, piece->side, &to))
        begin_at(bench, to);
}

/* Along a row from letter to letter: the right half of a gore stands after its left half. */
static void move_along(struct bench *bench, int direction) {
    const struct piece *piece = bench_piece(bench);
    size_t gores = bench->envelope->gores, row = piece->row;
    enum side inner = direction > 0 ? SIDE_LEFT : SIDE_RIGHT,
              outer = SIDE_LEFT + SIDE_RIGHT - inner;
    struct single_piece to;
    if (piece->side == inner && find_piece(bench, bench->at.gore, row, outer, &to)) {
        begin_at(bench, to);
        return;
    }
    size_t gore = (bench->at.gore - 1 + (direction > 0 ? 1 : gores - 1)) % gores + 1;
    if (find_piece(bench, gore, row, SIDE_WHOLE, &to) || find_piece(bench, gore, row, inner, &to))
        begin_at(bench, to);
}

/* To the first or the last letter of the row. */
static void move_to_end(struct bench *bench, bool last) {
    size_t gore = last ? bench->envelope->gores : 1, row = bench_piece(bench)->row;
    struct single_piece to;
    if (find_piece(bench, gore, row, SIDE_WHOLE, &to) ||
        find_piece(bench, gore, row, last ? SIDE_RIGHT : SIDE_LEFT, &to))
        begin_at(bench, to);
}

/* ---- ticks -------------------------------------------------------------------------- */

static void find_misfits(struct bench *bench) {
    misfits_free(&bench->misfits);
    record_misfits(bench->record, bench->envelope, length_step_m(bench->design) / 2,
                   &bench->misfits);
    if (bench->at_misfit >= bench->misfits.count)
        bench->at_misfit = 0;
}

static const char not_compared[] = "Not enough memory to compare every cut piece with this design.";

/* The tick itself is kept. */
static void say_failed(struct bench *bench) {
    if (bench->misfits.failed)
        say(bench, true, "%s", not_compared);
}

static bool remember(struct bench *bench) {
    if (bench->undos == bench->undo_capacity) {
        size_t capacity = bench->undo_capacity == 0 ? 64 : 2 * bench->undo_capacity;
        struct bench_undo *undo = realloc(bench->undo, capacity * sizeof *undo);
        if (undo == NULL)
            return false;
        bench->undo = undo;
        bench->undo_capacity = capacity;
    }
    struct bench_undo *undo = &bench->undo[bench->undos++];
    *undo = (struct bench_undo){.gore = bench->at.gore};
    memcpy(undo->piece, bench->piece, sizeof undo->piece);
    undo->before = record_state(bench->record, bench->piece, bench->at.gore);
    return true;
}

static void say_first(struct bench *bench, const struct diagnostics *messages) {
    say(bench, true, "%s", messages->count > 0 ? messages->item[0].text : "This cannot be ticked.");
}

const char *bench_to_do_word(enum tick tick) {
    static const char *const to_do[TICK_COUNT] = {"mark", "cut", "sew"};
    return to_do[tick];
}

const char *bench_so_far(const struct bench *bench) {
    static const char *const so_far[TICK_COUNT + 1] = {"nothing ticked", "marked", "marked and cut",
                                                       "marked, cut and sewn"};
    return so_far[record_progress(bench->record, bench->piece, bench->at.gore)];
}

/* "F03 gore 7: marked and cut.  12 left to cut." */
static void say_progress(struct bench *bench, const char *before) {
    struct record_count count = record_count(bench->record, bench->design, bench->envelope,
                                             (struct record_choice){NULL, 0, NULL});
    say(bench, false, "%s%s gore %zu: %s.  %zu left to %s.", before, bench->piece, bench->at.gore,
        bench_so_far(bench), record_left(count, bench->tick), bench_to_do_word(bench->tick));
}

static bool may_tick(struct bench *bench) {
    if (bench->record == NULL) {
        say(bench, true, "Save the design first: the ticks are kept beside it.");
        return false;
    }
    return true;
}

/* No piece is shown in the list of misfits: a tick would fall on one out of sight. */
static bool sees_piece(struct bench *bench) {
    if (bench->view != BENCH_MISFITS)
        return true;
    say(bench, true, "Ticks are made at a piece: press f to leave this list first.");
    return false;
}

static bool toggle(struct bench *bench, enum tick tick) {
    struct diagnostics messages = {0};
    if (!sees_piece(bench) || !may_tick(bench))
        return false;
    bool on = !record_has(bench->record, bench->piece, bench->at.gore, tick);
    bool remembered = remember(bench);
    bool done = record_set(bench->record, bench_piece(bench), bench->at.gore, tick, on, &messages);
    if (done) {
        bench->tick = tick;
        find_misfits(bench);
        say_progress(bench, "");
        say_failed(bench);
    } else {
        bench->undos -= remembered;
        say_first(bench, &messages);
    }
    diagnostics_free(&messages);
    return done;
}

static bool find_named(const struct bench *bench, const char *name, size_t *piece) {
    for (size_t t = 0; t < bench->envelope->templates; t++)
        if (strcmp(bench->envelope->piece[t].name, name) == 0) {
            *piece = t;
            return true;
        }
    return false;
}

static bool undo(struct bench *bench) {
    if (!may_tick(bench))
        return false;
    if (bench->undos == 0) {
        say(bench, true, "No tick was made since the bench was opened.");
        return false;
    }
    const struct bench_undo last = bench->undo[bench->undos - 1];
    struct single_piece single = {0, last.gore};
    if (!find_named(bench, last.piece, &single.piece) || !is_in_gore(bench, single)) {
        say(bench, true, "The last tick was on %s gore %zu, which this design no longer has.",
            last.piece, last.gore);
        return false;
    }
    struct diagnostics messages = {0};
    bool done = record_restore(bench->record, last.piece, last.gore, last.before, &messages);
    if (done) {
        bench->undos--;
        stand_at(bench, single);
        find_misfits(bench);
        say_progress(bench, "Taken back.  ");
        say_failed(bench);
    } else {
        say_first(bench, &messages);
    }
    diagnostics_free(&messages);
    return done;
}

/* ---- the next one to do ---------------------------------------------------------------- */

/* The next piece after the present one that wants a tick. */
bool bench_to_do(const struct bench *bench, enum tick tick, struct single_piece *next) {
    struct single_piece from = bench->at;
    if (tick != TICK_SEWN)
        from = single_piece_step(bench->envelope, from, 1);
    return record_next(bench->record, bench->envelope, tick, from, next);
}

bool bench_first_to_do(const struct bench *bench, enum tick tick, struct single_piece *first) {
    return record_next(bench->record, bench->envelope, tick, bench->at, first);
}

static bool next_to_do(struct bench *bench, enum tick tick) {
    struct single_piece next;
    if (!bench_to_do(bench, tick, &next)) {
        say(bench, false, "Every piece is %s.", tick_name(tick));
        return false;
    }
    if (same(next, bench->at))
        say(bench, false, "This is the only piece not yet %s.", tick_name(tick));
    begin_at(bench, next);
    return true;
}

/* ---- actions ------------------------------------------------------------------------------ */

static bool next(struct bench *bench) {
    if (bench->step < bench->marking.count) {
        bench->step++;
        return true;
    }
    return next_to_do(bench, TICK_MARKED);
}

static bool back(struct bench *bench) {
    bench->step = bench->step == 0 ? bench->marking.count : bench->step;
    bench->step--;
    return true;
}

static bool measure_act(struct bench *bench, enum bench_action action) {
    switch (action) {
    case BENCH_NEXT:
        return next(bench);
    case BENCH_BACK:
        return back(bench);
    case BENCH_FIRST:
    case BENCH_LAST:
        bench->step =
            action == BENCH_LAST && bench->marking.count > 0 ? bench->marking.count - 1 : 0;
        return true;
    case BENCH_NEXT_PIECE:
    case BENCH_PREVIOUS_PIECE:
        next_template(bench, action == BENCH_NEXT_PIECE ? 1 : -1);
        return true;
    case BENCH_NEXT_GORE:
    case BENCH_PREVIOUS_GORE:
        next_gore(bench, action == BENCH_NEXT_GORE ? 1 : -1);
        return true;
    default:
        return false;
    }
}

static bool overview_act(struct bench *bench, enum bench_action action) {
    switch (action) {
    case BENCH_OPEN:
        bench->view = BENCH_MEASURE;
        return true;
    case BENCH_NEXT:
    case BENCH_BACK:
        move_along(bench, action == BENCH_NEXT ? 1 : -1);
        return true;
    case BENCH_FIRST:
    case BENCH_LAST:
        move_to_end(bench, action == BENCH_LAST);
        return true;
    case BENCH_NEXT_PIECE:
    case BENCH_PREVIOUS_PIECE:
        move_up(bench, action == BENCH_NEXT_PIECE ? -1 : 1);
        return true;
    case BENCH_NEXT_GORE:
    case BENCH_PREVIOUS_GORE:
        next_gore(bench, action == BENCH_NEXT_GORE ? 1 : -1);
        return true;
    default:
        return false;
    }
}

static bool open_misfit(struct bench *bench) {
    if (bench->misfits.count == 0) {
        bench->view = BENCH_MEASURE;
        return true;
    }
    const struct misfit *misfit = &bench->misfits.item[bench->at_misfit];
    struct single_piece to = {0, misfit->gore};
    if (!find_named(bench, misfit->piece, &to.piece) || !is_in_gore(bench, to)) {
        say(bench, true, "This design has no %s in gore %zu any more, so it has no dimensions.",
            misfit->piece, misfit->gore);
        return false;
    }
    begin_at(bench, to);
    bench->view = BENCH_MEASURE;
    return true;
}

/* Lines in the list of misfits that an action goes; ends are far away. */
static long misfit_lines(enum bench_action action) {
    enum { PAGE = 10, FAR = 1 << 28 };
    static const long lines[BENCH_ACTION_COUNT] = {
        [BENCH_NEXT] = 1,         [BENCH_BACK] = -1,
        [BENCH_NEXT_PIECE] = 1,   [BENCH_PREVIOUS_PIECE] = -1,
        [BENCH_NEXT_GORE] = PAGE, [BENCH_PREVIOUS_GORE] = -PAGE,
        [BENCH_LAST] = FAR,       [BENCH_FIRST] = -FAR,
    };
    return lines[action];
}

static bool misfits_act(struct bench *bench, enum bench_action action) {
    long count = (long)bench->misfits.count, at = (long)bench->at_misfit;
    if (action == BENCH_OPEN)
        return open_misfit(bench);
    long to = at + misfit_lines(action);
    to = to >= count ? count - 1 : to;
    to = to < 0 ? 0 : to;
    bench->at_misfit = (size_t)to;
    return to != at;
}

static bool show(struct bench *bench, enum bench_view view) {
    bench->view = bench->view == view ? BENCH_MEASURE : view;
    bench->at_misfit = 0;
    return true;
}

bool bench_act(struct bench *bench, enum bench_action action) {
    static bool (*const moves[])(struct bench *, enum bench_action) = {
        [BENCH_MEASURE] = measure_act,
        [BENCH_OVERVIEW] = overview_act,
        [BENCH_MISFITS] = misfits_act,
    };
    say(bench, false, "%s", "");
    switch (action) {
    case BENCH_TICK_MARKED:
    case BENCH_TICK_CUT:
    case BENCH_TICK_SEWN:
        return toggle(bench, (enum tick)(action - BENCH_TICK_MARKED));
    case BENCH_UNDO:
        return undo(bench);
    case BENCH_NEXT_TO_DO:
        return next_to_do(bench, bench->tick);
    case BENCH_SHOW_OVERVIEW:
        return show(bench, BENCH_OVERVIEW);
    case BENCH_SHOW_MISFITS:
        return show(bench, BENCH_MISFITS);
    case BENCH_SHOW_DIMENSIONS:
        bench->view = BENCH_MEASURE;
        return true;
    default:
        return moves[bench->view](bench, action);
    }
}

/* ---- jumping -------------------------------------------------------------------------------- */

static char upper(char c) {
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

static const char *after_blanks(const char *typed) {
    return typed + strspn(typed, " \t");
}

/* Digits at *typed as a number, and *typed moved past them; 0 when there are none. */
static size_t number_at(const char **typed) {
    size_t value = 0;
    for (; **typed >= '0' && **typed <= '9'; (*typed)++)
        value = value < 1000 ? 10 * value + (size_t)(**typed - '0') : value;
    return value;
}

/* A name at *typed, "b5" for "B05", and *typed moved past it.  A half may be left out.
 * Returns: whether there is such a piece. */
static bool name_at(const struct bench *bench, const char **typed, size_t *piece) {
    char name[32], letter = upper(**typed);
    (*typed)++;
    size_t row = number_at(typed);
    char half = upper(**typed);
    bool says_half = half == 'L' || half == 'R';
    *typed += says_half;
    snprintf(name, sizeof name, "%c%02zu%c", letter, row, says_half ? half : '\0');
    if (find_named(bench, name, piece))
        return true;
    snprintf(name, sizeof name, "%c%02zuL", letter, row);
    return !says_half && find_named(bench, name, piece);
}

/* A number at *typed, behind its word or without, and *typed moved past it. */
static size_t number_after(const char **typed, const char *word) {
    *typed = after_blanks(*typed);
    size_t i = 0;
    while (word[i] != '\0' && upper((*typed)[i]) == word[i])
        i++;
    if (word[i] == '\0')
        *typed = after_blanks(*typed + i);
    size_t number = number_at(typed);
    *typed = after_blanks(*typed);
    return number;
}

/* "F01 to F08, H01L to H08R": every template is named between two of these. */
static void list_pieces(const struct envelope *envelope, char *into, size_t size) {
    size_t length = 0;
    into[0] = '\0';
    for (size_t t = 0; t < envelope->templates; t++) {
        const struct piece *piece = &envelope->piece[t];
        bool first = t == 0 || piece[-1].style != piece->style;
        bool last = t + 1 == envelope->templates || piece[1].style != piece->style;
        if (first || last)
            length += (size_t)snprintf(into + length, size - length, "%s%s",
                                       first ? (t == 0 ? "" : ", ") : " to ", piece->name);
        if (length >= size)
            return;
    }
}

static bool refuse_name(struct bench *bench, const char *typed) {
    char pieces[80], name[16];
    list_pieces(bench->envelope, pieces, sizeof pieces);
    snprintf(name, sizeof name, "%.12s", after_blanks(typed));
    char *blank = strpbrk(name, " \t");
    if (blank != NULL)
        *blank = '\0';
    if (name[0] != '\0')
        say(bench, true,
            "There is no piece %s: there are %s.  Type one and its gore, such as %s %zu.", name,
            pieces, bench->piece, bench->at.gore);
    else
        say(bench, true, "Type a piece and its gore, such as %s %zu: there are %s.", bench->piece,
            bench->at.gore, pieces);
    return false;
}

static bool refuse_rest(struct bench *bench, const char *rest) {
    say(bench, true,
        "\"%.20s\" is too much: type a piece, its gore and, if you like, the number of a "
        "dimension, such as %s %zu 5.",
        rest, bench->piece, bench->at.gore);
    return false;
}

static bool refuse_gore(struct bench *bench, struct single_piece wanted) {
    const struct envelope *envelope = bench->envelope;
    if (wanted.gore < 1 || wanted.gore > envelope->gores)
        say(bench, true, "There is no gore %zu; there are 1 to %zu.", wanted.gore, envelope->gores);
    else
        say(bench, true, "%s is not in gore %zu: that one is %s.", name_of(bench, wanted),
            wanted.gore, style_name((enum style)envelope->gore_style[wanted.gore - 1]));
    return false;
}

static bool show_dimension(struct bench *bench, size_t dimension) {
    if (dimension < 1 || dimension > bench->marking.count) {
        say(bench, true, "%s has no dimension %zu; it has 1 to %zu.", bench->piece, dimension,
            bench->marking.count);
        return false;
    }
    bench->step = dimension - 1;
    bench->view = BENCH_MEASURE;
    return true;
}

bool bench_jump(struct bench *bench, const char *typed) {
    const char *rest = after_blanks(typed);
    struct single_piece to = bench->at;
    size_t dimension = 0;
    say(bench, false, "%s", "");
    bool named = upper(*rest) >= 'A' && upper(*rest) <= 'Z' && upper(*rest) != 'G';
    if (named && !name_at(bench, &rest, &to.piece))
        return refuse_name(bench, typed);
    bool says_gore = *after_blanks(rest) != '\0';
    if (says_gore)
        to.gore = number_after(&rest, "GORE");
    bool says_dimension = says_gore && *rest != '\0';
    if (says_dimension)
        dimension = number_after(&rest, "DIMENSION");
    if (!named && !says_gore)
        return refuse_name(bench, typed);
    if (*rest != '\0')
        return refuse_rest(bench, rest);
    if (!is_in_gore(bench, to)) {
        if (says_gore)
            return refuse_gore(bench, to);
        to = first_of(bench, to.piece);
    }
    begin_at(bench, to);
    bench->view = bench->view == BENCH_MISFITS ? BENCH_MEASURE : bench->view;
    return !says_dimension || show_dimension(bench, dimension);
}

/* ---- begin, change, end -----------------------------------------------------------------------
 */

static struct single_piece first_to_mark(const struct bench *bench) {
    struct single_piece first = {0, 1};
    if (!record_next(bench->record, bench->envelope, TICK_MARKED, first, &first))
        first = first_of(bench, 0);
    return first;
}

void bench_misfit_words(const struct bench *bench, char into[80]) {
    size_t pieces = bench->misfits.pieces;
    snprintf(into, 80, "%s%zu cut piece%s no longer fit%s this design",
             bench->misfits.failed ? "At least " : "", pieces, pieces == 1 ? "" : "s",
             pieces == 1 ? "s" : "");
}

static void say_misfits(struct bench *bench) {
    char words[80];
    bench_misfit_words(bench, words);
    if (bench->misfits.pieces > 0)
        say(bench, true, "%s: f shows which.", words);
    say_failed(bench);
}

void bench_begin(struct bench *bench, const struct design *design, const struct envelope *envelope,
                 struct record *record) {
    *bench = (struct bench){.design = design, .envelope = envelope, .record = record};
    begin_at(bench, first_to_mark(bench));
    find_misfits(bench);
    say_misfits(bench);
}

void bench_end(struct bench *bench) {
    misfits_free(&bench->misfits);
    free(bench->undo);
    bench->undo = NULL;
    bench->undos = bench->undo_capacity = 0;
}

void bench_change(struct bench *bench, const struct design *design, const struct envelope *envelope,
                  struct record *record) {
    struct single_piece at = {0, bench->at.gore};
    if (record != bench->record)
        bench->undos = 0;
    bench->design = design;
    bench->envelope = envelope;
    bench->record = record;
    say(bench, false, "%s", "");
    if (find_named(bench, bench->piece, &at.piece) && is_in_gore(bench, at))
        stand_at(bench, at);
    else
        begin_at(bench, first_to_mark(bench));
    find_misfits(bench);
    say_misfits(bench);
}
