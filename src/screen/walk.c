/* walk.c - the walk-through: what a key does. */
#include "screen/walk.h"
#include "gorewright/flight.h"
#include "screen/layout.h"
#include "screen/plainly.h"
#include "screen/starters.h"
#include "screen/words.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PAGE_ROWS = LAYOUT_ROWS_LEAST - 2, LIST_PAGE = 8 };

/* ---- telling and asking ------------------------------------------------------ */

static void add_formatted(struct text *into, const char *format, va_list list) FORMATTED(2, 0);

static void add_formatted(struct text *into, const char *format, va_list list) {
    char line[1024];
    vsnprintf(line, sizeof line, format, list);
    text_add(into, "%s", line);
}

void walk_say(struct walk *walk, enum cell_kind kind, const char *format, ...) {
    va_list list;
    va_start(list, format);
    text_free(&walk->notice);
    add_formatted(&walk->notice, format, list);
    va_end(list);
    walk->notice_kind = kind;
}

void walk_say_first(struct walk *walk, const struct diagnostics *messages) {
    const struct diagnostic *first = NULL;
    struct text words = {0};
    for (size_t i = 0; i < messages->count; i++)
        if (first == NULL ||
            (first->severity == SEVERITY_WARNING && messages->item[i].severity == SEVERITY_ERROR))
            first = &messages->item[i];
    if (first == NULL)
        return;
    say_message(first, NULL, &words);
    walk_say(walk, first->severity == SEVERITY_ERROR ? CELL_ERROR : CELL_WARNING, "%s",
             words.bytes != NULL ? words.bytes : first->text);
    text_free(&words);
}

void walk_ask(struct walk *walk, const struct answer *answers, size_t count, const char *format,
              ...) {
    va_list list;
    va_start(list, format);
    text_free(&walk->question);
    add_formatted(&walk->question, format, list);
    va_end(list);
    walk->answer = answers;
    walk->answers = count;
    walk->over = OVER_QUESTION;
}

void walk_type(struct walk *walk, enum typing typing, const char *text) {
    text_free(&walk->fault);
    field_begin_over(&walk->field, text);
    walk->typing = typing;
    walk->over = OVER_TYPING;
    if (typing == TYPING_FIND) {
        walk->at_found = 0;
        walk->founds = choices_found("", walk->found, FOUND_MOST);
    }
}

/* ---- choices -------------------------------------------------------------------- */

static size_t choices_here(const struct walk *walk, size_t choice[CHOICES_MOST]) {
    return choices_of(walk->step, &walk->session->design, choice);
}

size_t walk_choice(const struct walk *walk) {
    size_t choice[CHOICES_MOST];
    size_t count = choices_here(walk, choice), at = walk->cursor[walk->step];
    return choice[at < count ? at : count - 1];
}

size_t walk_parameter(const struct walk *walk) {
    size_t count;
    return (size_t)parameter_find(step_choices(&count)[walk_choice(walk)].key);
}

static const struct parameter *parameter_here(const struct walk *walk) {
    size_t count;
    return &parameters(&count)[walk_parameter(walk)];
}

enum place walk_place_below(const struct walk *walk) {
    static const enum place bench[] = {
        [BENCH_MEASURE] = IN_BENCH, [BENCH_OVERVIEW] = IN_OVERVIEW, [BENCH_MISFITS] = IN_MISFITS};
    if (walk->at_bench)
        return bench[walk->bench.view];
    return choice_is_stepped(parameter_here(walk)->key) ? IN_STEPS : IN_WORDS;
}

enum place walk_place(const struct walk *walk) {
    static const enum place over[] = {[OVER_TYPING] = IN_TYPING,
                                      [OVER_LIST] = IN_LIST,
                                      [OVER_HELP] = IN_HELP,
                                      [OVER_PAGE] = IN_HELP};
    bool below = walk->over == OVER_NOTHING || walk->over == OVER_QUESTION;
    return below ? walk_place_below(walk) : over[walk->over];
}

/* What is asked for has changed: the cursor stays on the same choice, or near it. */
static void keep_cursor(struct walk *walk, size_t choice) {
    size_t now[CHOICES_MOST], count = choices_here(walk, now);
    size_t *cursor = &walk->cursor[walk->step];
    if (*cursor >= count)
        *cursor = count - 1;
    for (size_t i = 0; i < count; i++)
        if (now[i] == choice)
            *cursor = i;
}

static void move_cursor(struct walk *walk, long by) {
    size_t choice[CHOICES_MOST];
    long count = (long)choices_here(walk, choice), at = (long)walk->cursor[walk->step] + by;
    walk->cursor[walk->step] = (size_t)(at < 0 ? 0 : at >= count ? count - 1 : at);
}

static void go_up(struct walk *walk) {
    move_cursor(walk, -1);
}

static void go_down(struct walk *walk) {
    move_cursor(walk, 1);
}

void walk_to_keys(struct walk *walk) {
    size_t choice[CHOICES_MOST], count = choices_here(walk, choice),
                                 *at = &walk->cursor[walk->step];
    while (*at < count && walk_place(walk) == IN_WORDS)
        ++*at;
    if (*at == count)
        *at = 0;
}

static void go_first(struct walk *walk) {
    walk->cursor[walk->step] = 0;
}

static void go_last(struct walk *walk) {
    move_cursor(walk, CHOICES_MOST);
}

/* ---- changes -------------------------------------------------------------------- */

/* What was written before is now of an earlier state. */
static void paper_ages(struct walk *walk) {
    walk->outdated = walk->outdated || walk->written;
    walk->written = false;
}

static bool put_in_place(struct walk *walk, const struct design *design) {
    struct session *session = walk->session;
    size_t choice = walk_choice(walk);
    if (design_same(design, &session->design))
        return true;
    /* What cannot be built is refused; one that could not be built anyway is mended bit by bit. */
    bool broken = session->stale || session->envelope == NULL;
    if (session_change(session, design, broken) != 0 && !broken)
        return false;
    paper_ages(walk);
    keep_cursor(walk, choice);
    return true;
}

bool walk_change(struct walk *walk, const struct design *design) {
    if (put_in_place(walk, design))
        return true;
    walk_say_first(walk, &walk->session->refused);
    return false;
}

/* Why the first word that cannot be built was passed over. */
static void say_passed(const struct walk *walk, size_t parameter, const struct design *word,
                       struct text *into) {
    const struct diagnostics *refused = &walk->session->refused;
    struct text shown = {0};
    size_t count;
    parameter_show(word, parameter, &shown);
    if (shown.bytes != NULL && refused->count > 0) {
        text_add(into, "Not \"%s\": ", shown.bytes);
        say_message(&refused->item[0], parameters(&count)[parameter].key, into);
    }
    text_free(&shown);
}

/* One step of a value, and of a choice on to the next word that can be built. */
static bool step_once(struct walk *walk, size_t parameter, int direction) {
    size_t count;
    const struct parameter *p = &parameters(&count)[parameter];
    const struct design *before = &walk->session->design;
    struct design word = *before;
    struct text passed = {0};
    bool done = false;
    int tries = p->type == PARAMETER_CHOICE ? (int)p->most : 1;
    for (int i = 0; i < tries && !done; i++) {
        choice_step(&word, parameter, direction);
        struct design after = word;
        choice_follow(p->key, before, walk->session->envelope, &after);
        done = put_in_place(walk, &after);
        if (!done && p->type == PARAMETER_CHOICE && passed.length == 0)
            say_passed(walk, parameter, &word, &passed);
    }
    if (!done)
        walk_say_first(walk, &walk->session->refused);
    else if (passed.length > 0)
        walk_say(walk, CELL_WARNING, "%s", passed.bytes);
    text_free(&passed);
    return done;
}

/* Many steps at once: all together if that can be, else as far as it goes. */
static void do_steps(struct walk *walk) {
    size_t count, parameter = walk->pending;
    const struct parameter *p = &parameters(&count)[parameter];
    int steps = walk->steps, direction = steps < 0 ? -1 : 1;
    walk->steps = 0;
    if (steps == 0)
        return;
    struct design after = walk->session->design;
    for (int i = 0; i != steps; i += direction)
        choice_step(&after, parameter, direction);
    choice_follow(p->key, &walk->session->design, walk->session->envelope, &after);
    if (put_in_place(walk, &after))
        return;
    for (int i = 0; i != steps; i += direction)
        if (!step_once(walk, parameter, direction))
            return;
}

static void step_value(struct walk *walk, int direction) {
    size_t parameter = walk_parameter(walk);
    if (!choice_is_stepped(parameter_here(walk)->key)) {
        walk_say(walk, CELL_HELP, "This one is typed: begin at once, or press Space to change it.");
        return;
    }
    if (walk->pending != parameter)
        do_steps(walk);
    walk->pending = parameter;
    walk->steps += direction;
}

static void step_less(struct walk *walk) {
    step_value(walk, -1);
}

static void step_more(struct walk *walk) {
    step_value(walk, 1);
}

static void type_value(struct walk *walk) {
    struct text text = {0};
    value_to_type(&walk->session->design, parameter_here(walk)->key, &text);
    walk_type(walk, TYPING_VALUE, text.bytes != NULL ? text.bytes : "");
    text_free(&text);
}

static void type_anew(struct walk *walk, int key) {
    walk_type(walk, walk->at_bench ? TYPING_JUMP : TYPING_VALUE, "");
    field_key(&walk->field, key);
}

static void put_usual(struct walk *walk) {
    struct design usual, after = walk->session->design;
    struct text text = {0};
    struct diagnostics messages = {0};
    size_t parameter = walk_parameter(walk);
    design_starter(&usual);
    usual.paper.units = after.paper.units;
    parameter_show(&usual, parameter, &text);
    if (parameter_set(&after, parameter, text.bytes != NULL ? text.bytes : "", &messages) != 0) {
        walk_say_first(walk, &messages);
    } else {
        choice_follow(parameter_here(walk)->key, &walk->session->design, walk->session->envelope,
                      &after);
        if (walk_change(walk, &after))
            walk_say(walk, CELL_HELP, "The usual value.");
    }
    diagnostics_free(&messages);
    text_free(&text);
}

static void undo(struct walk *walk) {
    size_t choice = walk_choice(walk);
    if (!session_undo(walk->session))
        walk_say(walk, CELL_HELP, "There is nothing to undo.");
    else
        paper_ages(walk);
    keep_cursor(walk, choice);
}

static void redo(struct walk *walk) {
    size_t choice = walk_choice(walk);
    if (!session_redo(walk->session))
        walk_say(walk, CELL_HELP, "There is nothing to do again.");
    else
        paper_ages(walk);
    keep_cursor(walk, choice);
}

/* ---- steps and drawings ------------------------------------------------------------ */

static void step_on(struct walk *walk) {
    if (walk->step + 1 < STEP_COUNT)
        walk->step++;
    else
        walk_say(walk, CELL_HELP, "This is the last step; b goes to the bench.");
}

static void go_on(struct walk *walk) {
    if (walk->step + 1 < STEP_COUNT)
        walk->step++;
    else if (walk->written)
        walk_enter_bench(walk);
    else
        walk->work = WORK_WRITE;
}

static void go_back(struct walk *walk) {
    if (walk->step > STEP_SIZE)
        walk->step--;
    else
        walk_say(walk, CELL_HELP, "This is the first step; q leaves.");
}

static void next_view(struct walk *walk) {
    walk->view[walk->step] = (walk->view[walk->step] + 1) % PREVIEW_COUNT;
}

static void show_row(struct walk *walk, long by) {
    const struct envelope *envelope = walk->session->envelope;
    if (envelope == NULL)
        return;
    long row = (long)(walk->row > 0 ? walk->row : preview_widest_row(envelope)) + by;
    walk->row = (size_t)(row < 1 ? 1 : row > (long)envelope->rows ? (long)envelope->rows : row);
    int view = walk->view[walk->step];
    if (view != PREVIEW_PANEL && view != PREVIEW_SECTION && view != PREVIEW_COLOURS)
        walk->view[walk->step] = PREVIEW_PANEL;
}

static void row_up(struct walk *walk) {
    show_row(walk, 1);
}

static void row_down(struct walk *walk) {
    show_row(walk, -1);
}

static void show_gore(struct walk *walk, long by) {
    const struct envelope *envelope = walk->session->envelope;
    if (envelope == NULL)
        return;
    long gore = (long)(walk->gore > 0 ? walk->gore : 1) + by, gores = (long)envelope->gores;
    walk->gore = (size_t)(gore < 1 ? 1 : gore > gores ? gores : gore);
    walk->view[walk->step] = PREVIEW_COLOURS;
}

static void gore_right(struct walk *walk) {
    show_gore(walk, 4);
}

static void gore_left(struct walk *walk) {
    show_gore(walk, -4);
}

/* ---- other places -------------------------------------------------------------------- */

static void find(struct walk *walk) {
    walk_type(walk, TYPING_FIND, "");
}

static void save(struct walk *walk) {
    walk_save(walk, NULL);
}

static void save_as(struct walk *walk) {
    walk_save_as(walk, NULL);
}

static void help(struct walk *walk) {
    walk->help_top = 0;
    walk->over = OVER_HELP;
}

/* What the keys of the steps do; the bench has its own. */
static walk_doing *const doing[ACTION_COUNT] = {
    [ACTION_GO_ON] = go_on,
    [ACTION_GO_BACK] = go_back,
    [ACTION_STEP_ON] = step_on,
    [ACTION_UP] = go_up,
    [ACTION_DOWN] = go_down,
    [ACTION_FIRST] = go_first,
    [ACTION_LAST] = go_last,
    [ACTION_LESS] = step_less,
    [ACTION_MORE] = step_more,
    [ACTION_TYPE] = type_value,
    [ACTION_USUAL] = put_usual,
    [ACTION_FIND] = find,
    [ACTION_UNDO] = undo,
    [ACTION_REDO] = redo,
    [ACTION_VIEW] = next_view,
    [ACTION_FLIGHT_PAGE] = walk_flight_page,
    [ACTION_STYLES_PAGE] = walk_styles_page,
    [ACTION_ROW_UP] = row_up,
    [ACTION_ROW_DOWN] = row_down,
    [ACTION_GORE_RIGHT] = gore_right,
    [ACTION_GORE_LEFT] = gore_left,
    [ACTION_SAVE] = save,
    [ACTION_SAVE_AS] = save_as,
    [ACTION_OPEN] = walk_open_list,
    [ACTION_STARTERS] = walk_starter_list,
    [ACTION_BENCH] = walk_enter_bench,
    [ACTION_MISFITS] = walk_show_misfits,
    [ACTION_HELP] = help,
    [ACTION_QUIT] = walk_quit,
};

/* ---- keys, by what lies on top ----------------------------------------------------------- */

/* A key that does nothing says so: it may have been meant for something. */
static void say_unknown(struct walk *walk, int key) {
    if (key == PRESS_ESCAPE)
        walk_say(walk, CELL_HELP,
                 "There is nothing to leave here: Bksp goes a step back, q leaves.");
    else if (key > ' ' && key < 0x7F)
        walk_say(walk, CELL_HELP, "%c does nothing here; ? lists the keys.", key);
}

static void bench_key(struct walk *walk, int key) {
    enum action action = key_action(walk_place(walk), key);
    if (action == ACTION_LEAVE)
        walk_leave_bench(walk);
    else if (action == ACTION_HELP || action == ACTION_QUIT)
        doing[action](walk);
    else if (action == ACTION_BENCH_JUMP)
        walk_type(walk, TYPING_JUMP, "");
    else if (action == ACTION_BENCH_JUMP_ANEW)
        type_anew(walk, key);
    else if (action == ACTION_NONE)
        say_unknown(walk, key);
    else
        walk_bench_action(walk, action);
}

static void steps_key(struct walk *walk, int key) {
    enum action action = key_action(walk_place(walk), key);
    if (action == ACTION_NONE)
        action = key_action(IN_STEPS, key);
    if (action != ACTION_LESS && action != ACTION_MORE)
        do_steps(walk);
    if (action == ACTION_TYPE_ANEW)
        type_anew(walk, key);
    else if (doing[action] != NULL)
        doing[action](walk);
    else
        say_unknown(walk, key);
}

/* Where `action` leads from `at` among `count`, a page of them being `page`. */
static long moved(enum action action, long at, long count, long page) {
    long to = at;
    switch (action) {
    case ACTION_UP:
        to = at - 1;
        break;
    case ACTION_DOWN:
        to = at + 1;
        break;
    case ACTION_PAGE_UP:
        to = at - page;
        break;
    case ACTION_PAGE_DOWN:
        to = at + page;
        break;
    case ACTION_FIRST:
        to = 0;
        break;
    case ACTION_LAST:
        to = count - 1;
        break;
    default:
        break;
    }
    to = to < count - 1 ? to : count - 1;
    return to > 0 ? to : 0;
}

size_t walk_moved(enum action action, size_t at, size_t count) {
    return (size_t)moved(action, (long)at, (long)count, LIST_PAGE);
}

static void help_key(struct walk *walk, int key) {
    enum action action = key_action(IN_HELP, key);
    long rows = walk->over == OVER_PAGE ? page_rows(walk) : help_rows(walk, LAYOUT_COLUMNS_LEAST);
    long tops = rows - PAGE_ROWS + 1;
    bool at_end = walk->help_top + 1 >= tops;
    if (action == ACTION_LEAVE || (action == ACTION_GO_ON && at_end))
        walk->over = OVER_NOTHING;
    else
        walk->help_top = moved(action == ACTION_GO_ON ? ACTION_PAGE_DOWN : action, walk->help_top,
                               tops, PAGE_ROWS - 2);
}

/* Enter is no answer: who goes on with it does not overwrite or take up what was not read. */
static void question_key(struct walk *walk, int key) {
    const struct answer *taken = NULL;
    for (size_t i = 0; i < walk->answers; i++)
        if (key == walk->answer[i].key)
            taken = &walk->answer[i];
    if (taken == NULL && key != PRESS_ESCAPE && key != PRESS_BACKSPACE)
        return;
    walk->over = OVER_NOTHING;
    if (taken != NULL)
        taken->then(walk);
    else
        walk->then = NULL;
}

static size_t list_length(const struct walk *walk) {
    size_t count = walk->files + 1; /* and one to type a name */
    if (walk->list == LIST_STARTERS)
        starters(&count);
    return count;
}

static void list_key(struct walk *walk, int key) {
    enum action action = key_action(IN_LIST, key);
    walk->at_list = walk_moved(action, walk->at_list, list_length(walk));
    if (action == ACTION_LEAVE)
        walk->over = OVER_NOTHING;
    else if (action == ACTION_TAKE) {
        walk->over = OVER_NOTHING;
        if (walk->list == LIST_STARTERS)
            walk_begin_starter(walk, walk->at_list);
        else
            walk_open_file(walk, walk->at_list);
    }
}

void walk_key(struct walk *walk, int key) {
    if (key == PRESS_RESIZE || key == PRESS_REDRAW)
        return;
    text_free(&walk->notice);
    if (key == PRESS_INTERRUPT && walk->over == OVER_NOTHING) {
        do_steps(walk);
        doing[ACTION_QUIT](walk); /* whatever letters mean here */
        return;
    }
    if (key == PRESS_INTERRUPT) /* leaves what lies on top */
        key = PRESS_ESCAPE;
    switch (walk->over) {
    case OVER_NOTHING:
        if (walk->at_bench)
            bench_key(walk, key);
        else
            steps_key(walk, key);
        break;
    case OVER_TYPING:
        walk_typing_key(walk, key);
        break;
    case OVER_LIST:
        list_key(walk, key);
        break;
    case OVER_QUESTION:
        question_key(walk, key);
        break;
    case OVER_HELP:
    case OVER_PAGE:
        help_key(walk, key);
        break;
    }
}

/* ---- what the picture needs ------------------------------------------------------------------ */

static void find_cost(const struct design *design, struct style_cost *cost) {
    struct diagnostics messages = {0};
    struct design sized;
    struct envelope *envelope = NULL;
    if (design_check(design, NULL, &messages) == 0)
        envelope = flight_build(design, &sized, &messages);
    *cost = (struct style_cost){.buildable = envelope != NULL};
    if (envelope != NULL) {
        const struct built *built = &envelope->built;
        cost->pieces = built->pieces;
        cost->seam_m = built->tape_seam_m + built->row_seam_m + built->ridge_seam_m;
        cost->curved_m = built->curved_seam_m;
    }
    envelope_free(envelope);
    diagnostics_free(&messages);
}

/* Only while a style is being chosen: it takes an envelope for each of them. */
static void find_costs(struct walk *walk) {
    const char *key = parameter_here(walk)->key;
    struct design design = walk->session->design;
    if (walk->at_bench || strcmp(key, "gores.style") != 0)
        return;
    design.gores.style = FACETED;
    design.gores.mix.count = 0;
    if (walk->costs.known && design_same(&design, &walk->costs.of))
        return;
    walk->costs.of = design;
    walk->costs.known = true;
    for (int style = 0; style < STYLE_COUNT; style++) {
        design.gores.style = style;
        find_cost(&design, &walk->costs.cost[style]);
    }
}

void walk_settle(struct walk *walk) {
    do_steps(walk); /* the envelope is another one after it */
    const struct envelope *envelope = walk->session->envelope;
    find_costs(walk);
    if (walk->step == STEP_PAPER && !walk->at_bench)
        walk_count_sheets(walk);
    if (walk->step == STEP_FLIGHT && !walk->at_bench)
        walk_find_outlook(walk);
    if (!walk->at_bench)
        walk_find_misfits(walk);
    if (envelope != NULL && walk->row > envelope->rows)
        walk->row = envelope->rows;
    if (envelope != NULL && walk->gore > envelope->gores)
        walk->gore = envelope->gores;
}

bool walk_work(struct walk *walk) {
    enum work work = walk->work;
    walk->work = WORK_NONE;
    if (work == WORK_WRITE)
        walk_write(walk);
    return work != WORK_NONE;
}

/* ---- beginning and end --------------------------------------------------------------------------
 */

void walk_replace_session(struct walk *walk, struct session *session) {
    walk_bench_ends(walk);
    session_free(walk->session);
    walk->session = session;
    walk->step = STEP_SIZE;
    memset(walk->cursor, 0, sizeof walk->cursor);
    walk->row = 0;
    walk->gore = 0;
    walk->written = false;
    walk->outdated = false;
    walk->steps = 0;
}

static void say_cautions(struct walk *walk) {
    const struct text *warning = &walk->session->warning;
    if (warning->length > 0)
        walk_say(walk, CELL_WARNING, "Fire, gas, height: mind your local rules.  %s",
                 warning->bytes);
    else
        walk_say(walk, CELL_WARNING,
                 "Fire, gas, height: mind your local rules, ask licensed people; no figure is "
                 "proof.");
}

struct walk *walk_new(const char *path, struct diagnostics *messages) {
    static const enum preview view[STEP_COUNT] = {PREVIEW_SIDE,  PREVIEW_SIDE,    PREVIEW_GORE,
                                                  PREVIEW_PANEL, PREVIEW_COLOURS, PREVIEW_SIDE,
                                                  PREVIEW_PANEL};
    struct walk *walk = calloc(1, sizeof *walk);
    if (walk == NULL)
        return NULL;
    walk->session = path == NULL ? session_new() : session_open(path, messages);
    if (walk->session == NULL) {
        walk_free(walk);
        return NULL;
    }
    for (size_t i = 0; i < STEP_COUNT; i++)
        walk->view[i] = (int)view[i];
    say_cautions(walk);
    walk_offer_recovery(walk);
    return walk;
}

void walk_free(struct walk *walk) {
    if (walk == NULL)
        return;
    walk_bench_ends(walk);
    session_free(walk->session);
    for (size_t i = 0; i < walk->files; i++)
        free(walk->file[i]);
    free(walk->wanted);
    free(walk->recovery);
    free(walk->cuts.path);
    walk_outlook_free(&walk->outlook);
    text_free(&walk->page);
    text_free(&walk->fault);
    text_free(&walk->question);
    text_free(&walk->notice);
    text_free(&walk->sheets.why);
    free(walk);
}
