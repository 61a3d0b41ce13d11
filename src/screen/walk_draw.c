/* walk_draw.c - the picture of the walk-through, on a canvas of any size. */
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "screen/figures.h"
#include "screen/layout.h"
#include "screen/plainly.h"
#include "screen/starters.h"
#include "screen/walk.h"
#include "screen/words.h"

enum { LABEL_COLUMNS = 21, ANSWER_COLUMNS = 11 };

struct picture {
    const struct walk *walk;
    struct canvas *canvas;
    struct layout layout;
    struct canvas_place cursor; /* of the field, -1, -1 when nothing is typed */
    struct text message;        /* owned */
    enum cell_kind message_kind;
};

static const struct area_box *area_of(const struct picture *picture, enum area area) {
    return &picture->layout.area[area];
}

/* A row of an area in the kind of the cursor, from its first column to its last. */
static void bar(const struct picture *picture, const struct area_box *box, long row) {
    for (long column = 0; column < box->columns; column++)
        canvas_put(picture->canvas, box->column + column, row, CELL_CURSOR, " ");
}

/* ---- the steps, and the name of the file ------------------------------------------ */

static void draw_file_name(const struct picture *picture, long after) {
    const struct session *session = picture->walk->session;
    const struct area_box *box = area_of(picture, AREA_STEPS);
    char name[64];
    const char *path = session->path != NULL ? session->path : "not named yet";
    const char *slash = strrchr(path, '/');
    long room = box->columns - after - 2;
    shorten(slash != NULL ? slash + 1 : path, room < 40 ? (size_t)(room < 0 ? 0 : room) : 40, name);
    canvas_put(picture->canvas, box->columns - (long)strlen(name), box->row, CELL_LABEL, name);
}

static long draw_step_name(const struct picture *picture, long column, const char *name,
                           bool here) {
    char text[32];
    snprintf(text, sizeof text, here ? "[%s]" : " %s ", name);
    return canvas_put(picture->canvas, column, area_of(picture, AREA_STEPS)->row,
                      here ? CELL_CURSOR : CELL_LABEL, text);
}

static void draw_steps(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    long column = area_of(picture, AREA_STEPS)->column, row = area_of(picture, AREA_STEPS)->row;
    for (int step = 0; step < STEP_COUNT; step++) {
        if (step > 0)
            column = canvas_put(picture->canvas, column, row, CELL_LABEL, ">");
        column = draw_step_name(picture, column, step_entry((enum step)step)->name,
                                !walk->at_bench && walk->step == (enum step)step);
    }
    column = canvas_put(picture->canvas, column, row, CELL_LABEL, "|");
    column = draw_step_name(picture, column, "Bench", walk->at_bench);
    draw_file_name(picture, column);
}

static void draw_question(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    const struct area_box *box = area_of(picture, AREA_QUESTION);
    const char *question = step_entry(walk->step)->question;
    if (walk->over == OVER_LIST)
        question = walk->list == LIST_STARTERS ? "What is it to be good for?"
                                               : "Which design is to be opened?";
    else if (walk->over == OVER_TYPING && walk->typing == TYPING_FIND)
        question = "Which choice are you looking for?";
    canvas_put(picture->canvas, box->column + 1, box->row, CELL_TITLE, question);
}

/* ---- choices ---------------------------------------------------------------------- */

/* A line of an area that may be longer than it: the first line shown so that `at` is in view. */
static size_t first_shown(size_t count, size_t at, size_t rows) {
    if (count <= rows || at < rows / 2)
        return 0;
    size_t first = at - rows / 2;
    return first + rows > count ? count - rows : first;
}

/* "more" where lines are hidden above or below. */
static void draw_more(const struct picture *picture, const struct area_box *box, size_t first,
                      size_t count) {
    char text[64];
    size_t below = count - first - (size_t)box->rows;
    if (count <= (size_t)box->rows)
        return;
    if (first > 0 && below > 0)
        snprintf(text, sizeof text, "%zu more above, %zu below", first, below);
    else
        snprintf(text, sizeof text, "%zu more %s", first + below, first > 0 ? "above" : "below");
    canvas_put(picture->canvas, box->column + 1, box->row + box->rows, CELL_HELP, text);
}

static void draw_field(struct picture *picture, long column, long row, long columns) {
    const struct field *field = &picture->walk->field;
    size_t at = field_letters(field, field->cursor), skip = 0;
    if (columns < 2)
        return;
    if (at >= (size_t)columns - 1)
        skip = at - (size_t)columns + 2;
    for (long i = 0; i < columns; i++)
        canvas_put(picture->canvas, column + i, row, CELL_CURSOR, field->fresh ? " " : "_");
    char text[FIELD_MOST];
    plain_letters(field->bytes, text, sizeof text);
    if (skip < strlen(text)) {
        char part[FIELD_MOST];
        snprintf(part, sizeof part, "%.*s", (int)columns, text + skip);
        canvas_put(picture->canvas, column, row, CELL_CURSOR, part);
    }
    picture->cursor.column = (double)(column + (long)(at - skip));
    picture->cursor.row = (double)row;
}

static enum parameter_type type_of(const struct step_choice *choice) {
    size_t count;
    return parameters(&count)[parameter_find(choice->key)].type;
}

static void draw_choice(struct picture *picture, const struct step_choice *choice, long row,
                        bool here) {
    const struct walk *walk = picture->walk;
    const struct area_box *box = area_of(picture, AREA_CHOICES);
    bool typed = here && walk->over == OVER_TYPING && walk->typing == TYPING_VALUE;
    enum cell_kind kind = here ? CELL_CURSOR : CELL_VALUE;
    long value_column = box->column + LABEL_COLUMNS + 1, room = box->columns - LABEL_COLUMNS - 2;
    char value[64];
    if (here)
        bar(picture, box, row);
    canvas_put(picture->canvas, box->column, row, here ? CELL_CURSOR : CELL_LABEL,
               here ? ">" : " ");
    canvas_put(picture->canvas, box->column + 1, row, here ? CELL_CURSOR : CELL_LABEL,
               choice->label);
    show_value(&walk->session->design, choice->key, (size_t)room - 3, value);
    if (typed) {
        bool list = !choice_is_stepped(choice->key) && type_of(choice) != PARAMETER_TEXT;
        long all = (long)picture->canvas->columns - value_column; /* over the drawing */
        draw_field(picture, value_column, row, list ? all : room + 1);
    } else if (here && choice_is_stepped(choice->key)) {
        canvas_put(picture->canvas, value_column - 1, row, kind, "<");
        long after = canvas_put(picture->canvas, value_column + 1, row, kind, value);
        canvas_put(picture->canvas, after + 1, row, kind, ">");
    } else {
        canvas_put(picture->canvas, value_column + 1, row, kind, value);
    }
}

static void draw_choices(struct picture *picture) {
    const struct walk *walk = picture->walk;
    const struct area_box *box = area_of(picture, AREA_CHOICES);
    size_t choice[CHOICES_MOST], all, rows = (size_t)box->rows;
    size_t count = choices_of(walk->step, &walk->session->design, choice);
    const struct step_choice *table = step_choices(&all);
    size_t at = walk->cursor[walk->step] < count ? walk->cursor[walk->step] : count - 1;
    size_t first = first_shown(count, at, rows);
    for (size_t i = first; i < count && i < first + rows; i++)
        draw_choice(picture, &table[choice[i]], box->row + (long)(i - first), i == at);
    draw_more(picture, box, first, count);
}

/* ---- lists that lie over the choices -------------------------------------------------- */

static void draw_line(const struct picture *picture, long row, bool here, const char *words) {
    const struct area_box *box = area_of(picture, AREA_CHOICES);
    char line[80];
    if (here)
        bar(picture, box, row);
    shorten(words, (size_t)box->columns - 2, line);
    canvas_put(picture->canvas, box->column, row, here ? CELL_CURSOR : CELL_VALUE,
               here ? ">" : " ");
    canvas_put(picture->canvas, box->column + 1, row, here ? CELL_CURSOR : CELL_VALUE, line);
}

static const char *list_words(const struct walk *walk, size_t i) {
    size_t count;
    if (walk->list == LIST_STARTERS)
        return starters(&count)[i].name;
    return i < walk->files ? walk->file[i] : "another: type its name";
}

static void draw_list(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    const struct area_box *box = area_of(picture, AREA_CHOICES);
    size_t count = walk->files + 1, rows = (size_t)box->rows;
    if (walk->list == LIST_STARTERS)
        starters(&count);
    size_t first = first_shown(count, walk->at_list, rows);
    for (size_t i = first; i < count && i < first + rows; i++)
        draw_line(picture, box->row + (long)(i - first), i == walk->at_list, list_words(walk, i));
    draw_more(picture, box, first, count);
}

static void draw_found(struct picture *picture) {
    const struct walk *walk = picture->walk;
    struct area_box box = *area_of(picture, AREA_CHOICES);
    size_t all, rows = (size_t)box.rows - 1;
    const struct step_choice *table = step_choices(&all);
    size_t first = first_shown(walk->founds, walk->at_found, rows);
    canvas_put(picture->canvas, box.column + 1, box.row, CELL_LABEL, "A few letters:");
    draw_field(picture, box.column + 16, box.row, box.columns - 16);
    for (size_t i = first; i < walk->founds && i < first + rows; i++) {
        const struct step_choice *choice = &table[walk->found[i]];
        char line[128], name[64];
        snprintf(line, sizeof line, "%-7s %-18s %s", step_entry(choice->step)->name,
                 plain_name(choice->key, name),
                 choice_asked(choice, &walk->session->design) ? "" : "(no part)");
        draw_line(picture, box.row + 1 + (long)(i - first), i == walk->at_found, line);
    }
    if (walk->founds == 0)
        canvas_put(picture->canvas, box.column + 1, box.row + 1, CELL_HELP,
                   "No choice has these letters.");
    box.row++;
    box.rows--;
    draw_more(picture, &box, first, walk->founds);
}

/* ---- what is said about the choice ------------------------------------------------------ */

static void draw_costs(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    const struct area_box *box = area_of(picture, AREA_HELP);
    struct area_box line = *box;
    line.rows = 2;
    for (int style = 0; style < STYLE_COUNT; style++) {
        char words[96];
        cost_words(&walk->session->design, &walk->costs.cost[style], (enum style)style, words);
        canvas_put(picture->canvas, box->column + 1, line.row, CELL_VALUE, words);
        line.row++;
        line.row += put_words(picture->canvas, line, CELL_HELP, word_meaning("gores.style", style));
        line.rows = box->row + box->rows - line.row;
    }
}

/* What is said about the choice under the cursor, in this order. */
struct about {
    struct {
        enum cell_kind kind;
        const char *words; /* NULL: nothing */
    } part[4];
    struct text value, range;
};

/* The whole of a value that is shown cut short. */
static void add_whole_value(const struct picture *picture, const char *key, struct about *about) {
    char shown[64];
    const struct walk *walk = picture->walk;
    long room = area_of(picture, AREA_CHOICES)->columns - LABEL_COLUMNS - 5;
    if (!show_value(&walk->session->design, key, (size_t)room, shown))
        whole_value(&walk->session->design, key, &about->value);
}

/* What is said first, if anything: how typing begins, or the whole of a value cut short. */
static const char *first_words(const struct walk *walk, bool typed, const struct about *about) {
    const struct field *field = &walk->field;
    size_t count;
    const char *key = parameters(&count)[walk_parameter(walk)].key;
    if (!typed)
        return about->value.bytes;
    if (field->fresh)
        return "Type to replace it; Left or Bksp changes a part of it.";
    if (field->length == 1 && !choice_is_stepped(key) &&
        key_action(IN_STEPS, field->bytes[0]) != ACTION_NONE)
        return "This letter is typed here.  As a key it works on the other choices.";
    return NULL;
}

static struct about about_choice(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    struct about about = {0};
    size_t count;
    const struct parameter *p = &parameters(&count)[walk_parameter(walk)];
    const int *value =
        (const int *)(const void *)((const char *)&walk->session->design + p->offset);
    bool typed = walk->over == OVER_TYPING && walk->typing == TYPING_VALUE;
    if (!typed)
        add_whole_value(picture, p->key, &about);
    allowed_words(&walk->session->design, p, &about.range);
    about.part[0].kind = CELL_VALUE;
    about.part[0].words = first_words(walk, typed, &about);
    about.part[1].kind = CELL_VALUE;
    about.part[1].words = p->type == PARAMETER_CHOICE ? word_meaning(p->key, *value) : NULL;
    about.part[2].kind = CELL_HELP;
    about.part[2].words = choice_help(&step_choices(&count)[walk_choice(walk)]);
    about.part[3].kind = CELL_LABEL;
    about.part[3].words = about.range.bytes;
    return about;
}

static void about_free(struct about *about) {
    text_free(&about->value);
    text_free(&about->range);
}

static void draw_choice_help(const struct picture *picture) {
    struct area_box box = *area_of(picture, AREA_HELP);
    struct about about = about_choice(picture);
    for (size_t i = 0; i < COUNT_OF(about.part); i++) {
        long used = put_words(picture->canvas, box, about.part[i].kind, about.part[i].words);
        box.row += used;
        box.rows -= used;
    }
    about_free(&about);
}

static bool shows_costs(const struct walk *walk) {
    size_t count;
    const char *key = parameters(&count)[walk_parameter(walk)].key;
    return walk->costs.known && walk->over == OVER_NOTHING && strcmp(key, "gores.style") == 0;
}

static const char *about_list(const struct walk *walk) {
    size_t count;
    if (walk->list == LIST_STARTERS)
        return starters(&count)[walk->at_list].words;
    return walk->at_list < walk->files ? walk->file[walk->at_list] : "A file in another folder.";
}

static const char *about_found(const struct walk *walk) {
    size_t count;
    return walk->founds > 0 ? choice_help(&step_choices(&count)[walk->found[walk->at_found]])
                            : NULL;
}

static void draw_about(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    struct area_box box = *area_of(picture, AREA_HELP);
    if (walk->over == OVER_LIST)
        put_words(picture->canvas, box, CELL_HELP, about_list(walk));
    else if (walk->over == OVER_TYPING && walk->typing == TYPING_FIND)
        put_words(picture->canvas, box, CELL_HELP, about_found(walk));
    else if (walk->over == OVER_TYPING && walk->fault.length > 0)
        put_words(picture->canvas, box, CELL_ERROR, walk->fault.bytes);
    else if (shows_costs(walk))
        draw_costs(picture);
    else
        draw_choice_help(picture);
}

/* Rows that draw_about would like to have. */
static long rows_about(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    long columns = area_of(picture, AREA_HELP)->columns, rows = 0;
    if (walk->over == OVER_LIST || (walk->over == OVER_TYPING && walk->typing == TYPING_FIND))
        return 0;
    if (walk->over == OVER_TYPING && walk->fault.length > 0)
        return words_rows(columns, walk->fault.bytes);
    if (shows_costs(walk))
        return 0;
    struct about about = about_choice(picture);
    for (size_t i = 0; i < COUNT_OF(about.part); i++)
        rows += words_rows(columns, about.part[i].words);
    about_free(&about);
    return rows;
}

/* A long message, or much to say about a choice, takes its rows from the choices: they can be
 * gone through. */
static void make_room(struct picture *picture) {
    enum { CHOICE_ROWS_LEAST = 3 };
    struct area_box *area = picture->layout.area;
    long spare = area[AREA_CHOICES].rows - CHOICE_ROWS_LEAST;
    long message = words_rows(area[AREA_MESSAGE].columns, picture->message.bytes);
    long more = message - area[AREA_MESSAGE].rows;
    more = more < 0 ? 0 : more > spare ? spare : more;
    area[AREA_MESSAGE].row -= more;
    area[AREA_MESSAGE].rows += more;
    area[AREA_PREVIEW].rows -= more;
    area[AREA_HELP].row -= more;
    area[AREA_CHOICES].rows -= more;
    spare -= more;
    more = rows_about(picture) - area[AREA_HELP].rows;
    more = more < 0 ? 0 : more > spare ? spare : more;
    area[AREA_HELP].row -= more;
    area[AREA_HELP].rows += more;
    area[AREA_CHOICES].rows -= more;
}

/* ---- drawing, and paper -------------------------------------------------------------------- */

/* The style under the cursor, or the first that is built. */
static enum style style_shown(const struct design *design) {
    return (enum style)(design->gores.mix.count > 0 ? design->gores.mix.value[0]
                                                    : design->gores.style);
}

static void draw_drawing(const struct picture *picture, struct area_box box) {
    const struct walk *walk = picture->walk;
    const struct session *session = walk->session;
    struct preview_job job = {.design = &session->sized,
                              .envelope = session->envelope,
                              .style = style_shown(&session->sized),
                              .row = walk->row,
                              .gore = walk->gore,
                              .lit_edge = LIT_NOTHING};
    enum preview view = (enum preview)walk->view[walk->step];
    char title[80];
    if (session->envelope == NULL) {
        canvas_put(picture->canvas, box.column, box.row, CELL_WARNING,
                   "Nothing to draw: it cannot be built yet.");
        return;
    }
    snprintf(title, sizeof title, "%s%s", preview_name(view),
             session->stale ? " (as last built)" : "");
    canvas_put(picture->canvas, box.column, box.row, CELL_LABEL, title);
    struct canvas_box room = {(double)box.column, (double)box.row + 1, (double)box.columns,
                              (double)box.rows - 1};
    preview_draw(view, &job, picture->canvas, room);
}

/* A long name goes on in the next row.  Returns: the row after it. */
static long draw_path(const struct picture *picture, const struct area_box *box, long row,
                      const struct text *path) {
    const char *name = path->bytes != NULL ? path->bytes : "?";
    bool there = !picture->walk->written && access(name, F_OK) == 0;
    struct area_box words = {box->column + 1, row, box->columns, box->row + box->rows - row};
    char plain[512];
    plain_letters(name, plain, sizeof plain - 12);
    if (there)
        strcat(plain, " (replaced)");
    return row + put_words(picture->canvas, words, CELL_VALUE, plain);
}

/* What Enter writes on the last step, or has written.  Returns: rows used. */
static long draw_plan(const struct picture *picture, const struct area_box *box) {
    const struct walk *walk = picture->walk;
    const struct sheet_count *sheets = &walk->sheets;
    struct paper_names names;
    struct text line = {0};
    long row = box->row;
    if (!sheets->known || sheets->wrong)
        return put_words(picture->canvas, *box, CELL_ERROR,
                         sheets->why.bytes != NULL ? sheets->why.bytes
                                                   : "This design cannot be built yet.");
    text_add(&line, "%s ", walk->written ? "Written," : "Enter writes");
    say_paper_needed(&sheets->of, &sheets->report, &line);
    text_add(&line, ":");
    struct area_box flush = {box->column - 1, row, box->columns + 1, box->rows};
    row += put_words(picture->canvas, flush, walk->written ? CELL_VALUE : CELL_TITLE, line.bytes);
    text_free(&line);
    walk_paper_names(walk, &names);
    row = draw_path(picture, box, row, &names.templates);
    canvas_put(picture->canvas, box->column, row++, CELL_LABEL, "and the sheets to mark by hand:");
    row = draw_path(picture, box, row, &names.sheets);
    if (walk->session->path == NULL || walk->session->changed) {
        canvas_put(picture->canvas, box->column, row++, CELL_LABEL, "and saves the design:");
        row = draw_path(picture, box, row, &names.design);
    }
    paper_names_free(&names);
    if (walk->outdated)
        canvas_put(picture->canvas, box->column, row++, CELL_WARNING,
                   "The paper is of an earlier state.");
    if (walk->written)
        canvas_put(picture->canvas, box->column, row++, CELL_HELP, "Enter goes on to the bench.");
    return row - box->row;
}

/* What to do with the print.  Returns: rows used, the blank ones before and after too. */
static long draw_advice(const struct picture *picture, struct area_box box) {
    static const char *const advice[] = {
        "1 Print page 1 alone, at 100 %, and measure its cross with a good rule.",
        "2 Type here what it measures across and up, and write again: all comes out true.",
        "3 Print the rest, cut along the trim lines, glue by the letters.",
    };
    long first = box.row++;
    for (size_t i = 0; i < COUNT_OF(advice); i++) {
        box.rows = area_of(picture, AREA_MESSAGE)->row - box.row;
        box.row += put_words(picture->canvas, box, CELL_HELP, advice[i]);
    }
    return box.row - first + 1;
}

/* Will it fly: an answer to each question.  Returns: rows used. */
static long draw_outlook(const struct picture *picture, struct area_box box) {
    const struct flight_outlook *outlook = &picture->walk->outlook;
    long first = box.row, last = box.row + box.rows;
    for (size_t i = 0; outlook->known && i < outlook->answers; i++) {
        const struct flight_answer *answer = &outlook->answer[i];
        struct area_box words = {box.column + ANSWER_COLUMNS - 1, box.row,
                                 box.columns - ANSWER_COLUMNS + 2, last - box.row};
        canvas_put(picture->canvas, box.column, box.row, CELL_LABEL, answer->label);
        box.row += put_words(picture->canvas, words, answer->bad ? CELL_WARNING : CELL_VALUE,
                             answer->words);
    }
    static const char *const notes[] = {"Estimates, no proof; tether it first.",
                                        "p: the whole page   w: which style"};
    box.row++;
    for (size_t i = 0; i < COUNT_OF(notes) && box.row < last; i++)
        canvas_put(picture->canvas, box.column, box.row++, i == 0 ? CELL_WARNING : CELL_HELP,
                   notes[i]);
    return box.row - first;
}

static void draw_preview(const struct picture *picture) {
    struct area_box box = *area_of(picture, AREA_PREVIEW);
    if (picture->walk->step == STEP_FLIGHT) {
        long used = draw_outlook(picture, box) + 1;
        box.row += used;
        box.rows -= used;
        if (box.rows <= PREVIEW_ROWS_LEAST)
            return;
    }
    if (picture->walk->step == STEP_PAPER) {
        long used = draw_plan(picture, &box);
        box.row += used;
        box.rows -= used;
        used = draw_advice(picture, box);
        box.row += used;
        box.rows -= used;
        if (box.rows <= PREVIEW_ROWS_LEAST)
            return;
    }
    draw_drawing(picture, box);
}

/* ---- below ------------------------------------------------------------------------------------
 */

static void draw_prompt(struct picture *picture, const struct area_box *box) {
    static const char *const prompts[] = {[TYPING_SAVE_AS] = "Save as: ",
                                          [TYPING_OPEN] = "Open: ",
                                          [TYPING_JUMP] = "Piece, gore, dimension: "};
    long column = canvas_put(picture->canvas, box->column, box->row, CELL_LABEL,
                             prompts[picture->walk->typing]);
    draw_field(picture, column, box->row, box->columns - column);
}

static void clear_area(const struct picture *picture, const struct area_box *box) {
    for (long row = 0; row < box->rows; row++)
        for (long column = 0; column < box->columns; column++)
            canvas_put(picture->canvas, box->column + column, box->row + row, CELL_BLANK, " ");
}

static bool has_prompt(const struct walk *walk) {
    return walk->over == OVER_TYPING &&
           (walk->typing == TYPING_SAVE_AS || walk->typing == TYPING_OPEN ||
            walk->typing == TYPING_JUMP);
}

static void draw_message(struct picture *picture) {
    const struct area_box *box = area_of(picture, AREA_MESSAGE);
    if (has_prompt(picture->walk)) {
        clear_area(picture, box);
        draw_prompt(picture, box);
    } else if (picture->message.length > 0) {
        clear_area(picture, box);
        put_words(picture->canvas, *box, picture->message_kind, picture->message.bytes);
    }
}

static long draw_key(const struct picture *picture, long column, const char *key,
                     const char *words) {
    const struct area_box *box = area_of(picture, AREA_KEYS);
    long needed = (long)(strlen(key) + 1 + strlen(words));
    if (column + needed > box->column + box->columns)
        return column;
    column = canvas_put(picture->canvas, column, box->row, CELL_KEY, key);
    return canvas_put(picture->canvas, column + 1, box->row, CELL_HELP, words) + 2;
}

static void draw_keys(const struct picture *picture) {
    const struct walk *walk = picture->walk;
    enum place place = walk_place(walk);
    size_t count;
    const struct key_entry *entry = key_entries(&count);
    long column = area_of(picture, AREA_KEYS)->column;
    if (walk->over == OVER_QUESTION) {
        for (size_t i = 0; i < walk->answers; i++) {
            char key[2] = {(char)walk->answer[i].key, '\0'};
            column = draw_key(picture, column, key, walk->answer[i].words);
        }
        draw_key(picture, column, "Esc", "neither, stay here");
        return;
    }
    for (size_t i = 0; i < count; i++)
        if (entry[i].place == place && entry[i].brief != NULL)
            column = draw_key(picture, column, entry[i].shown, entry[i].brief);
}

/* ---- the whole ----------------------------------------------------------------------------------
 */

static void draw_too_small(struct picture *picture) {
    char line[64];
    snprintf(line, sizeof line, "make the window larger (%dx%d)", LAYOUT_COLUMNS_LEAST,
             LAYOUT_ROWS_LEAST);
    canvas_put(picture->canvas, 0, 0, CELL_WARNING, line);
}

/* The bench has the whole screen but the steps, the keys, and a message when there is one. */
static void draw_bench(struct picture *picture) {
    const struct walk *walk = picture->walk;
    const struct area_box *keys = area_of(picture, AREA_KEYS);
    struct area_box *message = &picture->layout.area[AREA_MESSAGE];
    bool said = walk->over != OVER_NOTHING || walk->notice.length > 0;
    long needed = words_rows(message->columns, picture->message.bytes);
    message->rows = needed > message->rows ? needed : message->rows;
    message->row = keys->row - message->rows;
    struct canvas_box box = {0, 1, (double)keys->columns,
                             (double)(said ? message->row : keys->row) - 1};
    bench_draw_in(&walk->bench, picture->canvas, box);
}

static void draw_walk(struct picture *picture) {
    const struct walk *walk = picture->walk;
    draw_question(picture);
    draw_preview(picture);
    if (walk->over == OVER_LIST)
        draw_list(picture);
    else if (walk->over == OVER_TYPING && walk->typing == TYPING_FIND)
        draw_found(picture);
    else
        draw_choices(picture);
    draw_about(picture);
    draw_figures(walk, picture->canvas, *area_of(picture, AREA_FIGURES));
}

/* Whatever lies on top. */
static void draw_all(struct picture *picture) {
    const struct walk *walk = picture->walk;
    bool page = walk->over == OVER_PAGE, help = walk->over == OVER_HELP;
    draw_steps(picture);
    if (help) {
        draw_help(walk, picture->canvas);
    } else if (page) {
        draw_page(walk, picture->canvas);
    } else if (walk->at_bench) {
        draw_bench(picture);
    } else {
        make_room(picture);
        draw_walk(picture);
    }
    if (!help && !page)
        draw_message(picture);
    draw_keys(picture);
}

struct canvas_place walk_draw(const struct walk *walk, struct canvas *canvas) {
    struct picture picture = {
        .walk = walk,
        .canvas = canvas,
        .layout = layout_for((long)canvas->columns, (long)canvas->rows),
        .cursor = {-1, -1},
    };
    canvas_clear(canvas);
    if (picture.layout.too_small) {
        draw_too_small(&picture);
        return picture.cursor;
    }
    picture.message_kind = walk_message(walk, &picture.message);
    draw_all(&picture);
    text_free(&picture.message);
    return picture.cursor;
}
