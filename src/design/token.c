/* token.c - a design file cut into words, numbers and signs, as libconfig cuts it.
 *
 * libconfig takes an open comment for the end of the file, opens any path after @include, and
 * says no more than "syntax error"; so the text is looked through here first.
 */
#include "design/token.h"

#include <limits.h>
#include <stdio.h>
#include <string.h>

/* Plain ASCII, whatever the locale says. */
static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_hex(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

static bool is_name(char c) {
    return is_letter(c) || is_digit(c) || c == '-' || c == '_' || c == '*';
}

/* The character `ahead` of where the reading stands; NUL beyond the end. */
static char peek(const struct token_reader *reader, size_t ahead) {
    return (size_t)(reader->end - reader->at) > ahead ? reader->at[ahead] : '\0';
}

static bool fail(struct token_reader *reader, int line, const char *code, const char *text) {
    diagnose_at(reader->messages, SEVERITY_ERROR, code, reader->file, line, "", "%s", text);
    return false;
}

/* ---- blanks and comments ------------------------------------------------- */

static void skip_line(struct token_reader *reader) {
    while (reader->at < reader->end && *reader->at != '\n')
        reader->at++;
}

static bool skip_block(struct token_reader *reader) {
    int opened = reader->line;
    for (reader->at += 2; reader->at < reader->end; reader->at++) {
        if (*reader->at == '*' && peek(reader, 1) == '/') {
            reader->at += 2;
            return true;
        }
        if (*reader->at == '\n')
            reader->line++;
    }
    return fail(reader, opened, "comment",
                "the comment that begins here with /* is never closed; write */ where it ends");
}

static bool skip_blanks(struct token_reader *reader) {
    while (reader->at < reader->end) {
        char c = *reader->at;
        if (c == '#' || (c == '/' && peek(reader, 1) == '/')) {
            skip_line(reader);
        } else if (c == '/' && peek(reader, 1) == '*') {
            if (!skip_block(reader))
                return false;
        } else if (c == ' ' || c == '\t' || c == '\r' || c == '\f' || c == '\n') {
            reader->line += c == '\n';
            reader->at++;
        } else {
            break;
        }
    }
    return true;
}

/* ---- tokens -------------------------------------------------------------- */

static bool take(struct token_reader *reader, enum token_kind kind, size_t length) {
    reader->now = (struct token){kind, reader->at, length, reader->line};
    reader->at += length;
    return true;
}

static bool same_word(const char *start, size_t length, const char *word) {
    if (length != strlen(word))
        return false;
    for (size_t i = 0; i < length; i++)
        if ((start[i] | 0x20) != word[i])
            return false;
    return true;
}

static bool take_name(struct token_reader *reader) {
    size_t length = 1;
    while (is_name(peek(reader, length)))
        length++;
    bool truth = same_word(reader->at, length, "true") || same_word(reader->at, length, "false");
    return take(reader, truth ? TOKEN_TRUTH : TOKEN_NAME, length);
}

static bool take_text(struct token_reader *reader) {
    size_t length = 1;
    for (;; length++) {
        char c = peek(reader, length);
        if (c == '"')
            return take(reader, TOKEN_TEXT, length + 1);
        if (c == '\0' || c == '\n')
            return fail(reader, reader->line, "open-text",
                        "a text begins here and is not closed on the same line; write a second "
                        "double quote where it ends");
        if (c != '\\')
            continue;
        if ((peek(reader, length + 1) | 0x20) == 'x' && peek(reader, length + 2) == '0' &&
            peek(reader, length + 3) == '0')
            return fail(reader, reader->line, "open-text",
                        "\\x00 inside a text would cut it short; take it out");
        if (peek(reader, length + 1) == '"' || peek(reader, length + 1) == '\\')
            length++;
    }
}

static size_t digits_from(const struct token_reader *reader, size_t from) {
    size_t length = from;
    while (is_digit(peek(reader, length)))
        length++;
    return length - from;
}

/* Length of "e", a sign and digits, or 0. */
static size_t exponent_from(const struct token_reader *reader, size_t from) {
    if ((peek(reader, from) | 0x20) != 'e')
        return 0;
    size_t sign = peek(reader, from + 1) == '-' || peek(reader, from + 1) == '+';
    size_t digits = digits_from(reader, from + 1 + sign);
    return digits == 0 ? 0 : 1 + sign + digits;
}

static size_t hex_length(const struct token_reader *reader) {
    if (peek(reader, 0) != '0' || (peek(reader, 1) | 0x20) != 'x')
        return 0;
    size_t length = 2;
    while (is_hex(peek(reader, length)))
        length++;
    return length == 2 ? 0 : length;
}

static size_t long_suffix(const struct token_reader *reader, size_t at) {
    if (peek(reader, at) != 'L')
        return 0;
    return peek(reader, at + 1) == 'L' ? 2 : 1;
}

/* Returns false, and takes nothing, when there is no number. */
static bool take_number(struct token_reader *reader) {
    size_t hex = hex_length(reader);
    if (hex > 0)
        return take(reader, TOKEN_WHOLE, hex + long_suffix(reader, hex));
    size_t sign = peek(reader, 0) == '-' || peek(reader, 0) == '+';
    size_t whole = digits_from(reader, sign), length = sign + whole;
    if (peek(reader, length) == '.') {
        size_t part = digits_from(reader, length + 1);
        if (whole + part == 0)
            return false;
        length += 1 + part;
        return take(reader, TOKEN_REAL, length + exponent_from(reader, length));
    }
    if (whole == 0)
        return false;
    size_t exponent = exponent_from(reader, length);
    if (exponent > 0)
        return take(reader, TOKEN_REAL, length + exponent);
    return take(reader, TOKEN_WHOLE, length + long_suffix(reader, length));
}

static bool refuse_character(struct token_reader *reader) {
    char c = *reader->at;
    static const char include[] = "@include";
    if ((size_t)(reader->end - reader->at) >= strlen(include) &&
        memcmp(reader->at, include, strlen(include)) == 0)
        return fail(reader, reader->line, "include",
                    "@include is not used here, for a design is one file; copy the lines you want "
                    "into this one");
    if (c == '\'')
        return fail(reader, reader->line, "syntax",
                    "a text stands in double quotes, not in single ones; write \"like this\"");
    if ((unsigned char)c >= 0x80)
        return fail(reader, reader->line, "syntax",
                    "outside of texts and comments only plain letters, digits and signs are read; "
                    "if this is a curly quote or a special dash or blank, type the plain one");
    if (c < ' ' || c == 0x7F)
        return fail(reader, reader->line, "syntax",
                    "there is a control character on this line; delete the line and type it anew");
    char text[96];
    snprintf(text, sizeof text,
             "the sign %c has no meaning here; write lines such as  name = value;", c);
    return fail(reader, reader->line, "syntax", text);
}

bool token_step(struct token_reader *reader) {
    if (!skip_blanks(reader))
        return false;
    if (reader->at == reader->end)
        return take(reader, TOKEN_END, 0);
    char c = *reader->at;
    if (is_letter(c) || c == '*')
        return take_name(reader);
    if (c == '"')
        return take_text(reader);
    if (c != '\0' && strchr("=:;,{}()[]", c) != NULL)
        return take(reader, TOKEN_SIGN, 1);
    return take_number(reader) || refuse_character(reader);
}

bool token_is(const struct token *token, char sign) {
    return token->kind == TOKEN_SIGN && *token->start == sign;
}

bool token_fits_int(const struct token *token) {
    const char *at = token->start, *end = token->start + token->length;
    int base = token->length > 2 && (at[1] | 0x20) == 'x' ? 16 : 10;
    bool negative = *at == '-';
    long long value = 0;
    for (at += base == 16 ? 2 : (*at == '-' || *at == '+'); at < end && is_hex(*at); at++) {
        int digit = is_digit(*at) ? *at - '0' : (*at | 0x20) - 'a' + 10;
        value = value * base + digit;
        if (value > -(long long)INT_MIN)
            return false;
    }
    return value <= INT_MAX || negative;
}

char *token_words(const struct token *token, char into[48]) {
    enum { SHOWN = 24 };
    if (token->kind == TOKEN_END)
        snprintf(into, 48, "the end of the file");
    else if (token->kind == TOKEN_TEXT)
        snprintf(into, 48, "a text in quotes");
    else if (token->kind == TOKEN_SIGN)
        snprintf(into, 48, "\"%c\"", *token->start);
    else
        snprintf(into, 48, "%.*s%s", (int)(token->length > SHOWN ? SHOWN : token->length),
                 token->start, token->length > SHOWN ? "..." : "");
    return into;
}
