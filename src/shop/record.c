/* record.c - the bench record: opened, read, and added to. */
#include <errno.h>
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

/* The format stated after the first words of a header, or -1; blanks may follow it. */
static long header_format(const char *line, size_t length) {
    size_t at = strlen(header);
    long format = 0;
    if (!is_header(line, length))
        return -1;
    for (; at < length && line[at] >= '0' && line[at] <= '9' && format < 1000000; at++)
        format = 10 * format + (line[at] - '0');
    while (at < length && (line[at] == ' ' || line[at] == '\t' || line[at] == '\r'))
        at++;
    return at == length ? format : -1;
}

/* Cut off while it was written. */
static bool is_header_begun(const char *line, size_t length) {
    char first[40];
    size_t whole = (size_t)snprintf(first, sizeof first, "%s%d\r", header, RECORD_FORMAT);
    return length <= whole && memcmp(line, first, length) == 0;
}

/* A header that was begun and not finished is that of a record without ticks; any other
 * text is somebody's file, and left alone. */
static int check_header(struct record *record, const struct text *content,
                        struct diagnostics *messages) {
    if (content->length == 0)
        return 0;
    const char *line = content->bytes, *end = memchr(line, '\n', content->length);
    size_t length = end == NULL ? content->length : (size_t)(end - line);
    if (end == NULL && is_header_begun(line, length))
        return 0;
    record->ends_in_cr = end != NULL && length > 0 && end[-1] == '\r';
    long format = header_format(line, length);
    if (format == RECORD_FORMAT && end != NULL)
        return 0;
    if (format > RECORD_FORMAT)
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

static void take_name(struct record *record, const struct design *design) {
    snprintf(record->design, sizeof record->design, "%s", design->name);
    for (char *c = record->design; *c != '\0'; c++)
        if (*c == '\n' || *c == '\r')
            *c = ' ';
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
    take_name(record, design);
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

static void add_with_line_ends(const struct record *record, const struct text *lines,
                               struct text *into) {
    for (size_t i = 0; i < lines->length; i++) {
        if (record->ends_in_cr && lines->bytes[i] == '\n')
            text_add_bytes(into, "\r", 1);
        text_add_bytes(into, lines->bytes + i, 1);
    }
    into->failed = into->failed || lines->failed;
}

/* The heading if one is due, and the lines.  Returns: whether they are on the disk. */
static bool add_lines(struct record *record, const struct text *lines,
                      struct diagnostics *messages) {
    struct text heading = {0}, all = {0};
    if (journal_create(&record->journal, messages) != 0)
        return false;
    write_heading(record, &heading);
    add_with_line_ends(record, &heading, &all);
    add_with_line_ends(record, lines, &all);
    bool done = journal_add(&record->journal, &all, messages);
    if (done)
        take_in(record, &all);
    text_free(&heading);
    text_free(&all);
    return done;
}

static bool may_tick(const struct record *record, size_t gore, int progress,
                     struct diagnostics *messages) {
    if (gore < 1 || gore > GORES_MOST || progress < 0 || progress > TICK_COUNT)
        return false;
    return record->journal.reads_only == NULL || refuse_tick(record, messages) == 0;
}

/* Takes `lines` over; none are fine. */
static bool keep_lines(struct record *record, struct text *lines, struct diagnostics *messages) {
    bool none = lines->length == 0 && !lines->failed;
    bool done = none || add_lines(record, lines, messages);
    text_free(lines);
    return done;
}

int record_progress(const struct record *record, const char *piece, size_t gore) {
    return record_state(record, piece, gore).progress;
}

struct piece_state record_state(const struct record *record, const char *piece, size_t gore) {
    if (record == NULL || gore < 1 || gore > GORES_MOST)
        return (struct piece_state){0};
    return ledger_state(&record->ledger, piece, gore);
}

bool record_has(const struct record *record, const char *piece, size_t gore, enum tick tick) {
    return record_progress(record, piece, gore) > (int)tick;
}

bool record_set(struct record *record, const struct piece *piece, size_t gore, enum tick tick,
                bool on, struct diagnostics *messages) {
    struct text lines = {0};
    int progress = (int)tick + (on ? 1 : 0);
    if (record_has(record, piece->name, gore, tick) == on)
        return true;
    if (!may_tick(record, gore, progress, messages))
        return false;
    ledger_write(&record->ledger, piece, gore, progress, &lines);
    return keep_lines(record, &lines, messages);
}

bool record_restore(struct record *record, const char *piece, size_t gore,
                    struct piece_state before, struct diagnostics *messages) {
    struct text lines = {0};
    if (before.cut_to > record->ledger.shapes || !may_tick(record, gore, before.progress, messages))
        return false;
    ledger_restore(&record->ledger, piece, gore, before, &lines);
    return keep_lines(record, &lines, messages);
}

/* ---- a design that is saved under another name --------------------------------------- */

bool record_rename(struct record *record, const struct design *design,
                   struct diagnostics *messages) {
    const struct text nothing = {0};
    bool own = strcmp(record->ledger.design, record->design) == 0;
    take_name(record, design);
    if (!own || record->journal.size == 0 || strcmp(record->ledger.design, record->design) == 0)
        return true;
    if (record->journal.reads_only != NULL)
        return refuse_tick(record, messages) == 0;
    return add_lines(record, &nothing, messages);
}

/* The name of the record beside a design, links followed; NULL when memory is short or its
 * folder is not there. */
static char *path_beside(const char *design_path) {
    char *resolved = file_resolved(design_path), *path;
    if (resolved == NULL)
        return NULL;
    size_t size = strlen(resolved) + sizeof ending;
    path = malloc(size);
    if (path != NULL)
        snprintf(path, size, "%s%s", resolved, ending);
    free(resolved);
    return path;
}

enum record_copying record_copy(const char *from, const char *to, struct diagnostics *messages) {
    char *here = path_beside(from), *there = path_beside(to);
    struct text content = {0}, other = {0}, complaint = {0};
    enum record_copying result = COPY_NOTHING;
    int reason = here == NULL ? ENOENT : file_read(here, RECORD_BYTES_MOST, &content);
    int taken = there == NULL ? ENOENT : file_read(there, RECORD_BYTES_MOST, &other);
    if (reason != 0 && reason != ENOENT) {
        diagnose(messages, SEVERITY_ERROR, "bench-file", "", "%s: cannot be read: %s", here,
                 strerror(reason));
        result = COPY_FAILED;
    } else if (there != NULL && taken != ENOENT) {
        result = COPY_OTHER_THERE;
    } else if (reason == 0 && there != NULL && content.length > 0) {
        bool written = file_write(there, 0666, &content, &complaint) == 0;
        result = written ? COPY_MADE : COPY_FAILED;
        if (!written)
            diagnose(messages, SEVERITY_ERROR, "bench-file", "", "%s", complaint.bytes);
    }
    text_free(&content);
    text_free(&other);
    text_free(&complaint);
    free(here);
    free(there);
    return result;
}
