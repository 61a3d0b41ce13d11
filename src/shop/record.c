/* record.c - the bench record: opened, read, and added to. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shop/record.h"

static const char ending[] = ".bench", header[] = "gorewright bench record ";
enum { RECORD_FORMAT = 1, WARNINGS_MOST = 10, SHOWN_MOST = 60 };

/* ---- reading ------------------------------------------------------------------- */

static int refuse(const struct record *record, struct diagnostics *messages, const char *code,
                  const char *text) {
    diagnose_at(messages, SEVERITY_ERROR, code, record->journal.path, 1, "", "%s", text);
    return -1;
}

/* Already looked at where it is the first line; anywhere else it says nothing new. */
static bool is_header(const char *line, size_t length) {
    return length > strlen(header) && memcmp(line, header, strlen(header)) == 0;
}

/* A header that was begun and not finished is that of a record without ticks; any other
 * text is somebody's file, and left alone. */
static int check_header(const struct record *record, const struct text *content,
                        struct diagnostics *messages) {
    char first[40];
    int whole = snprintf(first, sizeof first, "%s%d\n", header, RECORD_FORMAT);
    size_t length = content->length < (size_t)whole ? content->length : (size_t)whole;
    if (length == 0 || memcmp(content->bytes, first, length) == 0)
        return 0;
    if (content->length > strlen(header) && memcmp(content->bytes, header, strlen(header)) == 0)
        return refuse(record, messages, "bench-format",
                      "is of a newer format than this program knows; use a newer one");
    return refuse(record, messages, "not-a-record",
                  "is not a bench record; move it away, the record goes there");
}

/* Part of a line for a message: printable, and short. */
static char *shown(const char *line, size_t length, char into[SHOWN_MOST + 1]) {
    size_t count = length < SHOWN_MOST ? length : SHOWN_MOST;
    for (size_t i = 0; i < count; i++)
        into[i] = line[i] >= ' ' && line[i] <= '~' ? line[i] : '?';
    into[count] = '\0';
    return into;
}

static void warn_of_line(const struct record *record, size_t number, const char *line,
                         size_t length, struct diagnostics *messages) {
    char part[SHOWN_MOST + 1];
    diagnose_at(messages, SEVERITY_WARNING, "unknown-line", record->journal.path, (int)number, "",
                "\"%s\" is not understood; it is kept, and counts for nothing",
                shown(line, length, part));
}

/* Returns: the bytes of all whole lines. */
static size_t read_lines(struct record *record, const struct text *content,
                         struct diagnostics *messages) {
    size_t start = 0, unknown = 0;
    for (size_t number = 1; start < content->length; number++) {
        const char *line = content->bytes + start;
        const char *end = memchr(line, '\n', content->length - start);
        if (end == NULL)
            break;
        size_t length = (size_t)(end - line);
        if (!is_header(line, length) && !ledger_read(&record->ledger, line, length) &&
            ++unknown <= WARNINGS_MOST)
            warn_of_line(record, number, line, length, messages);
        start += length + 1;
    }
    if (unknown > WARNINGS_MOST)
        diagnose_at(messages, SEVERITY_WARNING, "unknown-line", record->journal.path, 0, "",
                    "%zu more lines are not understood; they are kept, and count for nothing",
                    unknown - WARNINGS_MOST);
    return start;
}

static void warn_of_rest(const struct record *record, const struct text *content, size_t whole,
                         struct diagnostics *messages) {
    char part[SHOWN_MOST + 1];
    if (record->journal.reads_only != NULL || whole == 0)
        return; /* it may be about to be finished; or it is only a header begun */
    diagnose_at(messages, SEVERITY_WARNING, "torn-line", record->journal.path, 0, "",
                "the last line was not finished and is taken off: \"%s\"; see if that piece is "
                "ticked as it should be",
                shown(content->bytes + whole, content->length - whole, part));
}

static void warn_of_state(const struct record *record, struct diagnostics *messages) {
    const struct ledger *ledger = &record->ledger;
    char part[SHOWN_MOST + 1];
    if (ledger->design[0] != '\0' && strcmp(ledger->design, record->design) != 0)
        diagnose_at(messages, SEVERITY_WARNING, "other-design", record->journal.path, 0, "name",
                    "these ticks were made for a design named \"%s\"; if they are not for this "
                    "one, move that file away",
                    shown(ledger->design, strlen(ledger->design), part));
    if (record->journal.reads_only != NULL)
        diagnose_at(messages, SEVERITY_WARNING, "reads-only", record->journal.path, 0, "",
                    "ticks are shown but none can be made: %s", record->journal.reads_only);
}

static int read_record(struct record *record, const struct text *content,
                       struct diagnostics *messages) {
    if (check_header(record, content, messages) != 0)
        return -1;
    size_t whole = read_lines(record, content, messages);
    if (whole < content->length) {
        warn_of_rest(record, content, whole, messages);
        journal_keep(&record->journal, whole);
    }
    warn_of_state(record, messages);
    return 0;
}

/* `reads_only`: why it is not to be held, NULL when it is. */
static struct record *open_as(const char *design_path, const struct design *design,
                              const char *reads_only, struct diagnostics *messages) {
    struct text content = {0};
    struct record *record = calloc(1, sizeof *record);
    if (record == NULL) {
        diagnose(messages, SEVERITY_ERROR, "memory", "", "not enough memory");
        return NULL;
    }
    record->journal.reads_only = reads_only;
    snprintf(record->design, sizeof record->design, "%s", design->name);
    for (char *c = record->design; *c != '\0'; c++)
        if (*c == '\n' || *c == '\r')
            *c = ' ';
    if (journal_open(&record->journal, design_path, ending, RECORD_BYTES_MOST, &content,
                     messages) != 0 ||
        read_record(record, &content, messages) != 0) {
        record_close(record);
        record = NULL;
    }
    text_free(&content);
    return record;
}

struct record *record_open(const char *design_path, const struct design *design,
                           struct diagnostics *messages) {
    return open_as(design_path, design, NULL, messages);
}

struct record *record_look(const char *design_path, const struct design *design,
                           struct diagnostics *messages) {
    return open_as(design_path, design, "another instance works on this design", messages);
}

void record_close(struct record *record) {
    if (record == NULL)
        return;
    journal_close(&record->journal);
    ledger_free(&record->ledger);
    free(record);
}

const char *record_path(const struct record *record) {
    return record->journal.path;
}

const char *record_reads_only(const struct record *record) {
    return record->journal.reads_only;
}

/* ---- ticks ----------------------------------------------------------------------- */

static int refuse_tick(const struct record *record, struct diagnostics *messages) {
    diagnose_at(messages, SEVERITY_ERROR, "reads-only", record->journal.path, 0, "",
                "nothing can be ticked: %s", record->journal.reads_only);
    return -1;
}

/* The header, or the design's new name: with the first tick that is made for it. */
static void write_heading(const struct record *record, struct text *into) {
    bool begins = record->journal.size == 0;
    if (begins)
        text_add(into, "%s%d\n", header, RECORD_FORMAT);
    if (begins || strcmp(record->ledger.design, record->design) != 0)
        text_add(into, "design %s\n", record->design);
}

/* What is on the disk is read as it will be at the next start: one meaning, one reader. */
static void take_in(struct record *record, const struct text *lines) {
    struct diagnostics nothing = {0};
    struct text content = *lines;
    (void)read_lines(record, &content, &nothing);
    diagnostics_free(&nothing);
}

static bool bring(struct record *record, const struct piece *piece, size_t gore, int progress,
                  bool as_before, struct diagnostics *messages) {
    struct text lines = {0}, heading = {0}, all = {0};
    if (gore < 1 || gore > GORES_MOST || progress < 0 || progress > TICK_COUNT)
        return false;
    if (record->journal.reads_only != NULL)
        return refuse_tick(record, messages) == 0;
    ledger_write(&record->ledger, piece, gore, progress, as_before, &lines);
    bool done = lines.length == 0 && !lines.failed;
    if (!done && journal_create(&record->journal, messages) == 0) {
        write_heading(record, &heading);
        text_add(&all, "%s%s", heading.length > 0 ? heading.bytes : "",
                 lines.length > 0 ? lines.bytes : "");
        all.failed = all.failed || heading.failed || lines.failed;
        done = journal_add(&record->journal, &all, messages);
        if (done)
            take_in(record, &all);
    }
    text_free(&lines);
    text_free(&heading);
    text_free(&all);
    return done;
}

int record_progress(const struct record *record, const char *piece, size_t gore) {
    if (record == NULL || gore < 1 || gore > GORES_MOST)
        return 0;
    const struct tally *tally = ledger_find(&record->ledger, piece);
    return tally == NULL ? 0 : tally->progress[gore - 1];
}

bool record_has(const struct record *record, const char *piece, size_t gore, enum tick tick) {
    return record_progress(record, piece, gore) > (int)tick;
}

bool record_set(struct record *record, const struct piece *piece, size_t gore, enum tick tick,
                bool on, struct diagnostics *messages) {
    if (record_has(record, piece->name, gore, tick) == on)
        return true;
    return bring(record, piece, gore, (int)tick + (on ? 1 : 0), false, messages);
}

bool record_restore(struct record *record, const struct piece *piece, size_t gore, int progress,
                    struct diagnostics *messages) {
    return bring(record, piece, gore, progress, true, messages);
}
