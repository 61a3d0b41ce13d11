/* templates.c - the templates as one PostScript file. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "paper/index_pages.h"
#include "paper/page_parts.h"
#include "paper/piece_choice.h"
#include "paper/proof_page.h"
#include "paper/template_pages.h"
#include "paper/template_plan.h"

/* ---- what was asked for ------------------------------------------------ */

struct choice {
    const struct template_plan *plan;
    size_t piece; /* the only one, or (size_t)-1 */
    size_t sheet; /* the only one, or 0 */
};

static bool is_asked(const struct choice *choice, size_t number) {
    const struct planned_sheet *sheet = &choice->plan->sheet[number - 1];
    if (choice->sheet > 0 && number != choice->sheet)
        return false;
    return choice->piece == (size_t)-1 || sheet_shows(choice->plan, sheet, choice->piece);
}

static int no_such_sheet(const struct choice *choice, struct diagnostics *messages) {
    const struct template_plan *plan = choice->plan;
    if (choice->piece == (size_t)-1) {
        diagnose(messages, SEVERITY_ERROR, "no-such-sheet", "",
                 "there is no sheet %zu; these templates have sheets 1 to %zu: name one of these",
                 choice->sheet, plan->sheets);
        return -1;
    }
    const struct laying *laying = &plan->laying[choice->piece];
    diagnose(messages, SEVERITY_ERROR, "no-such-sheet", "",
             "sheet %zu does not show %s; that piece is on sheets %zu to %zu: name one of these",
             choice->sheet, plan->envelope->piece[choice->piece].name, laying->first_sheet,
             laying->last_sheet);
    return -1;
}

static int choose(const struct template_plan *plan, const struct template_job *job,
                  struct choice *choice, struct diagnostics *messages) {
    *choice = (struct choice){.plan = plan, .piece = (size_t)-1, .sheet = job->sheet};
    if (job->piece != NULL) {
        const struct piece *only = piece_named(plan->envelope, job->piece);
        if (only == NULL)
            return refuse_piece(plan->envelope, job->piece, messages);
        choice->piece = (size_t)(only - plan->envelope->piece);
    }
    if (job->sheet > plan->sheets || (job->sheet > 0 && !is_asked(choice, job->sheet)))
        return no_such_sheet(choice, messages);
    return 0;
}

/* ---- the file ---------------------------------------------------------- */

/* Whether any page to be written shows a template; the index shows it small. */
static bool is_needed(const struct choice *choice, size_t piece) {
    for (size_t number = 1; number <= choice->plan->sheets; number++) {
        const struct planned_sheet *sheet = &choice->plan->sheet[number - 1];
        if (!is_asked(choice, number))
            continue;
        if (sheet_shows(choice->plan, sheet, piece) ||
            (sheet->kind == SHEET_INDEX && piece >= sheet->first &&
             piece < sheet->first + sheet->count))
            return true;
    }
    return false;
}

/* What the page is called in the file: sheet number and what is on it, without blanks. */
static void page_label(const struct template_plan *plan, size_t number, char into[64]) {
    static const char *const kinds[] = {"scale", "notes", "index", "", "pieces"};
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    char name[16];
    if (sheet->kind == SHEET_TILE)
        snprintf(into, 64, "%zu-%s-%s", number, plan->envelope->piece[sheet->piece].name,
                 tile_name(&plan->laying[sheet->piece].tiling, sheet->row, sheet->column, name));
    else
        snprintf(into, 64, "%zu-%s", number, kinds[sheet->kind]);
}

static void write_page(const struct template_plan *plan, size_t number, size_t ordinal,
                       struct text *into) {
    const struct planned_sheet *sheet = &plan->sheet[number - 1];
    char label[64];
    page_label(plan, number, label);
    page_open(plan, &sheet->frame, label, ordinal, into);
    switch (sheet->kind) {
    case SHEET_PROOF:
        proof_page_write(plan, into);
        break;
    case SHEET_NOTES:
        notes_page_write(plan, number, number - 2, into);
        break;
    case SHEET_INDEX:
        index_page_write(plan, number, into);
        break;
    case SHEET_TILE:
        tile_page_write(plan, number, into);
        break;
    case SHEET_SHARED:
        shared_page_write(plan, number, into);
        break;
    }
    page_close(into);
}

static struct ps_document describe(const struct choice *choice) {
    struct ps_document document = {.title = choice->plan->design->name};
    for (size_t number = 1; number <= choice->plan->sheets; number++) {
        const struct frame *frame = &choice->plan->sheet[number - 1].frame;
        if (!is_asked(choice, number))
            continue;
        document.pages++;
        document.width_m = fmax(document.width_m, frame->page_width_m);
        document.height_m = fmax(document.height_m, frame->page_height_m);
    }
    return document;
}

/* Length of roll that the pages asked for take. */
static double roll_length_m(const struct choice *choice) {
    double sum_m = 0;
    for (size_t number = 1; number <= choice->plan->sheets; number++)
        if (choice->plan->paper.height_m <= 0 && is_asked(choice, number))
            sum_m += choice->plan->sheet[number - 1].frame.page_height_m;
    return sum_m;
}

static size_t write_file(const struct choice *choice, const struct progress *progress,
                         struct text *into) {
    const struct template_plan *plan = choice->plan;
    struct ps_document document = describe(choice);
    ps_begin(into, &document);
    if (plan->paper.height_m > 0)
        ps_page_size(into, plan->paper.width_m, plan->paper.height_m);
    for (size_t i = 0; i < plan->envelope->templates; i++)
        if (is_needed(choice, i))
            template_define(plan, i, into);
    ps_setup_end(into);
    size_t ordinal = 0;
    for (size_t number = 1; number <= plan->sheets; number++) {
        if (!is_asked(choice, number))
            continue;
        write_page(plan, number, ++ordinal, into);
        if (progress != NULL)
            progress->tell(progress->context, ordinal, document.pages);
    }
    ps_end(into);
    return document.pages;
}

int write_templates(const struct design *design, const struct envelope *envelope,
                    const struct template_job *job, struct text *into,
                    struct template_report *report, struct diagnostics *messages) {
    struct template_plan plan;
    struct choice choice;
    if (template_plan_make(design, envelope, &plan, messages) != 0)
        return -1;
    int status = choose(&plan, job, &choice, messages);
    if (status == 0) {
        *report = (struct template_report){.paper = plan.paper, .length_m = roll_length_m(&choice)};
        report->sheets = write_file(&choice, job->progress, into);
        if (into->failed) {
            diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory for the templates");
            status = -1;
        }
    }
    template_plan_free(&plan);
    return status;
}

int count_templates(const struct design *design, const struct envelope *envelope,
                    struct template_report *report, struct diagnostics *messages) {
    struct template_plan plan;
    if (template_plan_make(design, envelope, &plan, messages) != 0)
        return -1;
    const struct choice all = {.plan = &plan, .piece = (size_t)-1};
    *report = (struct template_report){
        .sheets = plan.sheets, .paper = plan.paper, .length_m = roll_length_m(&all)};
    template_plan_free(&plan);
    return 0;
}

void say_paper_needed(const struct design *design, const struct template_report *report,
                      struct text *into) {
    const char *plural = report->sheets == 1 ? "" : "s";
    bool inches = design->paper.units == UNITS_INCH;
    if (report->length_m <= 0)
        text_add(into, "%zu sheet%s of %s", report->sheets, plural, report->paper.name);
    else
        text_add(into, "%zu page%s on %.1f %s of %s", report->sheets, plural,
                 inches ? report->length_m / (12 * METRES_PER_INCH) : report->length_m,
                 inches ? "ft" : "m", report->paper.name);
}
