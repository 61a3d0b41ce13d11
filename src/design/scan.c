/* scan.c - a first look at a design file: is it well formed, and what does it state?
 *
 * The grammar is libconfig's, a little narrower: no group stands in a list.  What this adds is
 * a message that says what to do, both lines of a name stated twice, and a bound on nesting
 * before any recursion of libconfig's starts.
 */
#include "design/scan.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "design/token.h"

struct scanner {
    struct token_reader reader;
    struct scan *scan;
    int depth;
    int statement; /* the one being read, -1 before the first */
    int last;      /* the one before, once it is complete */
    struct token last_value;
    bool ended_by_comma; /* the last setting */
};

static bool value(struct scanner *scanner);
static bool settings(struct scanner *scanner, int parent);

/* ---- messages ------------------------------------------------------------ */

static void path_of(const struct scan *scan, int index, char into[48]) {
    into[0] = '\0';
    if (index < 0)
        return;
    const struct statement *s = &scan->statement[index];
    char group[48] = "";
    path_of(scan, s->parent, group);
    int length = s->length > 47 ? 47 : (int)s->length;
    snprintf(into, 48, "%.30s%s%.*s", group, group[0] == '\0' ? "" : ".", length, s->name);
}

static void say(struct scanner *scanner, int statement, int line, const char *code,
                const char *format, va_list arguments) FORMATTED(5, 0);

static void say(struct scanner *scanner, int statement, int line, const char *code,
                const char *format, va_list arguments) {
    char key[48], text[320];
    vsnprintf(text, sizeof text, format, arguments);
    path_of(scanner->scan, statement, key);
    diagnose_at(scanner->reader.messages, SEVERITY_ERROR, code, scanner->reader.file, line, key,
                "%s", text);
}

static bool fail(struct scanner *scanner, int line, const char *code, const char *format, ...)
    FORMATTED(4, 5);
static bool fail_last(struct scanner *scanner, int line, const char *code, const char *format, ...)
    FORMATTED(4, 5);

/* About the statement that is being read. */
static bool fail(struct scanner *scanner, int line, const char *code, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    say(scanner, scanner->statement, line, code, format, arguments);
    va_end(arguments);
    return false;
}

/* About the statement before, whose value turns out to go on. */
static bool fail_last(struct scanner *scanner, int line, const char *code, const char *format,
                      ...) {
    va_list arguments;
    va_start(arguments, format);
    say(scanner, scanner->last, line, code, format, arguments);
    va_end(arguments);
    return false;
}

static bool never_closed(struct scanner *scanner, char bracket, int opened) {
    return fail(scanner, opened, "syntax",
                "the %c on this line is never closed; write %c where it ends", bracket,
                bracket == '{'   ? '}'
                : bracket == '(' ? ')'
                                 : ']');
}

/* ---- lists --------------------------------------------------------------- */

static bool open_bracket(struct scanner *scanner) {
    if (++scanner->depth > NESTING_MOST)
        return fail(scanner, scanner->reader.now.line, "nesting",
                    "brackets stand more than %d deep here; a design needs three at most, "
                    "((radius, height), ...) in a group",
                    NESTING_MOST);
    return token_step(&scanner->reader);
}

static bool close_bracket(struct scanner *scanner) {
    scanner->depth--;
    return token_step(&scanner->reader);
}

/* An array [ ] holds single values of one kind; libconfig refuses anything else. */
static bool fits_array(struct scanner *scanner, const struct token *first) {
    const struct token *now = &scanner->reader.now;
    if (token_is(now, '(') || token_is(now, '['))
        return fail(scanner, now->line, "syntax",
                    "a list inside [ ] is not read; write round brackets, (( ), ( ))");
    if (now->kind != TOKEN_SIGN && first->kind != TOKEN_END && now->kind != first->kind)
        return fail(scanner, now->line, "syntax",
                    "[ ] cannot hold values of different kinds, such as 1 and 2.5; write round "
                    "brackets ( ) instead");
    return true;
}

/* One entry of a list, and the comma behind it. */
static bool entry(struct scanner *scanner, char bracket, char closing, int opened) {
    struct token_reader *reader = &scanner->reader;
    char found[48];
    if (token_is(&reader->now, '{'))
        return fail(scanner, reader->now.line, "syntax",
                    "a list cannot hold a group { }; write numbers, words or lists in it");
    if (!value(scanner))
        return false;
    if (token_is(&reader->now, closing))
        return true;
    if (reader->now.kind == TOKEN_END)
        return never_closed(scanner, bracket, opened);
    if (!token_is(&reader->now, ','))
        return fail(scanner, reader->now.line, "syntax",
                    "a comma or a %c is wanted before %s; this list begins on line %d", closing,
                    token_words(&reader->now, found), opened);
    int comma = reader->now.line;
    if (!token_step(reader))
        return false;
    if (token_is(&reader->now, closing))
        return fail(scanner, comma, "syntax",
                    "the comma before the closing %c is one too many; take it out", closing);
    return true;
}

static bool list(struct scanner *scanner) {
    struct token_reader *reader = &scanner->reader;
    char bracket = *reader->now.start, closing = bracket == '(' ? ')' : ']';
    int opened = reader->now.line;
    if (!open_bracket(scanner))
        return false;
    struct token first = {.kind = TOKEN_END};
    while (!token_is(&reader->now, closing)) {
        if (reader->now.kind == TOKEN_END)
            return never_closed(scanner, bracket, opened);
        if (bracket == '[' && !fits_array(scanner, &first))
            return false;
        first = reader->now;
        if (!entry(scanner, bracket, closing, opened))
            return false;
    }
    return close_bracket(scanner);
}

/* ---- values -------------------------------------------------------------- */

static bool is_no_number(const struct token *token) {
    static const char *const words[] = {"nan", "NaN", "NAN", "inf", "Inf", "INF", "infinity"};
    for (size_t i = 0; i < COUNT_OF(words); i++)
        if (token->length == strlen(words[i]) && memcmp(token->start, words[i], token->length) == 0)
            return true;
    return false;
}

static bool refuse_value(struct scanner *scanner) {
    const struct token *now = &scanner->reader.now;
    char found[48];
    token_words(now, found);
    if (now->kind == TOKEN_NAME && is_no_number(now))
        return fail(scanner, now->line, "syntax", "%s is no number to build from; write digits",
                    found);
    if (now->kind == TOKEN_NAME)
        return fail(scanner, now->line, "syntax", "a word stands in double quotes; write \"%s\"",
                    found);
    return fail(scanner, now->line, "syntax",
                "a value is missing before %s; write a number, a text in double quotes or a list",
                found);
}

static bool group(struct scanner *scanner) {
    int opened = scanner->reader.now.line, parent = scanner->statement;
    if (!open_bracket(scanner) || !settings(scanner, parent))
        return false;
    scanner->statement = parent;
    if (scanner->reader.now.kind == TOKEN_END)
        return never_closed(scanner, '{', opened);
    return close_bracket(scanner);
}

static bool value(struct scanner *scanner) {
    struct token_reader *reader = &scanner->reader;
    scanner->last_value = reader->now;
    switch (reader->now.kind) {
    case TOKEN_WHOLE:
        if (!token_fits_int(&reader->now))
            scanner->scan->statement[scanner->statement].too_large = true;
        return token_step(reader);
    case TOKEN_TRUTH:
    case TOKEN_REAL:
        return token_step(reader);
    case TOKEN_TEXT: /* texts in a row are one text */
        while (reader->now.kind == TOKEN_TEXT)
            if (!token_step(reader))
                return false;
        return true;
    default:
        break;
    }
    if (token_is(&reader->now, '(') || token_is(&reader->now, '['))
        return list(scanner);
    if (token_is(&reader->now, '{'))
        return group(scanner);
    return refuse_value(scanner);
}

/* ---- settings ------------------------------------------------------------ */

int scan_find(const struct scan *scan, int parent, const char *name, size_t length) {
    for (size_t i = 0; i < scan->count; i++) {
        const struct statement *s = &scan->statement[i];
        if (s->parent == parent && s->length == length && memcmp(s->name, name, length) == 0)
            return (int)i;
    }
    return -1;
}

static bool has_members(const struct scan *scan, int group) {
    for (size_t i = 0; i < scan->count; i++)
        if (scan->statement[i].parent == group)
            return true;
    return false;
}

static void refuse_repeated(struct scanner *scanner, int first, int line) {
    int line_before = scanner->scan->statement[first].line;
    const char *advice = has_members(scanner->scan, first)
                             ? "put all values of the group between one pair of braces"
                             : "keep one of them";
    if (line_before == line)
        fail(scanner, line, "repeated", "stated twice on this line; %s", advice);
    else
        fail(scanner, line, "repeated", "stated twice, on lines %d and %d; %s", line_before, line,
             advice);
}

static bool note_statement(struct scanner *scanner, const struct token *name, int parent) {
    struct scan *scan = scanner->scan;
    if (scan->count == STATEMENTS_MOST)
        return fail(scanner, name->line, "too-many",
                    "this file states more than %d things; a design has under a hundred, so look "
                    "whether it is one",
                    STATEMENTS_MOST);
    int first = scan_find(scan, parent, name->start, name->length);
    scan->statement[scan->count] =
        (struct statement){name->start, name->length, parent, name->line, false};
    scanner->statement = (int)scan->count++;
    if (first >= 0)
        refuse_repeated(scanner, first, name->line);
    return true;
}

static bool is_number(const struct token *token) {
    return token->kind == TOKEN_WHOLE || token->kind == TOKEN_REAL;
}

/* What stands where a setting should begin is no name: say why. */
static bool refuse_start(struct scanner *scanner, int parent) {
    const struct token *now = &scanner->reader.now;
    char found[48], before[48];
    token_words(now, found);
    if (token_is(now, '}') && parent < 0)
        return fail(scanner, now->line, "syntax",
                    "there is a } here without a { before it; take it out, or look for a } too "
                    "many above");
    if (token_is(now, ';') || token_is(now, ','))
        return fail(scanner, now->line, "syntax", "the %s is one too many; take it out", found);
    if (now->kind == TOKEN_WHOLE && scanner->ended_by_comma &&
        scanner->last_value.kind == TOKEN_WHOLE)
        return fail_last(scanner, now->line, "syntax",
                         "a number has a decimal point, not a comma; write %.20s.%.20s",
                         token_words(&scanner->last_value, before), found);
    if (is_number(now) && is_number(&scanner->last_value))
        return fail_last(
            scanner, now->line, "syntax",
            "%.20s follows the number %.20s; a number has one decimal point and no blanks "
            "or other signs in it",
            found, token_words(&scanner->last_value, before));
    if (now->kind == TOKEN_TEXT || now->kind == TOKEN_TRUTH)
        return fail(scanner, now->line, "syntax",
                    "a name is wanted before %s; write  name = value;  with no quotes around the "
                    "name",
                    found);
    return fail(scanner, now->line, "syntax", "a name is wanted before %s; write  name = value;",
                found);
}

/* The name is not followed by = or : : say why. */
static bool refuse_name(struct scanner *scanner, const struct token *name) {
    const struct token *now = &scanner->reader.now;
    const struct token *before = &scanner->last_value;
    char shown[48], found[48];
    token_words(name, shown);
    token_words(now, found);
    if (*scanner->reader.at == '.' || (now->length > 0 && *now->start == '.'))
        return fail(scanner, name->line, "syntax",
                    "names are not joined by a point; write  %s: { ... };  with the rest in the "
                    "braces",
                    shown);
    if (token_is(now, '{'))
        return fail(scanner, name->line, "syntax", "a sign is missing; write  %s: { ... };", shown);
    if (is_number(before) && before->line == name->line &&
        before->start + before->length + 1 >= name->start)
        return fail_last(
            scanner, name->line, "syntax",
            "%s stands behind a number; a number stands alone, without its unit (lengths "
            "are in metres)",
            shown);
    return fail(scanner, name->line, "syntax",
                "after the name %s comes an = sign, not %s; write  %s = value;", shown, found,
                shown);
}

static bool refuse_point(struct scanner *scanner, const struct token *name) {
    char shown[48];
    token_words(name, shown);
    return fail(scanner, name->line, "syntax",
                "names are not joined by a point; write  %s: { ... };  with the rest in the "
                "braces",
                shown);
}

static bool setting(struct scanner *scanner, int parent) {
    struct token_reader *reader = &scanner->reader;
    struct token name = reader->now;
    if (reader->at < reader->end && *reader->at == '.')
        return refuse_point(scanner, &name);
    bool next = token_step(reader);
    if (next && !token_is(&reader->now, '=') && !token_is(&reader->now, ':'))
        return refuse_name(scanner, &name);
    if (!next || !note_statement(scanner, &name, parent) || !token_step(reader) || !value(scanner))
        return false;
    scanner->last = scanner->statement;
    scanner->statement = parent;
    scanner->ended_by_comma = token_is(&reader->now, ',');
    if (scanner->ended_by_comma || token_is(&reader->now, ';'))
        return token_step(reader);
    return true;
}

/* Up to the end of the file, or the } of the group. */
static bool settings(struct scanner *scanner, int parent) {
    const struct token *now = &scanner->reader.now;
    while (now->kind != TOKEN_END && !(token_is(now, '}') && parent >= 0)) {
        if (now->kind != TOKEN_NAME)
            return refuse_start(scanner, parent);
        if (!setting(scanner, parent))
            return false;
    }
    return true;
}

int scan_text(const char *text, size_t length, const char *file, struct scan *scan,
              struct diagnostics *messages) {
    struct scanner scanner = {.reader = {text, text + length, 1, file, messages, {0}},
                              .scan = scan,
                              .statement = -1,
                              .last = -1};
    size_t errors = messages->errors;
    scan->count = 0;
    if (token_step(&scanner.reader))
        settings(&scanner, -1);
    return messages->errors == errors ? 0 : -1;
}
