/* base.h - what every room shares: messages to the builder, and growing text.
 *
 * Nothing here prints: a room collects messages and text, the command line or
 * the screen shows them.
 */
#ifndef GOREWRIGHT_BASE_H
#define GOREWRIGHT_BASE_H

#include <stdbool.h>
#include <stddef.h>

#if defined(__GNUC__)
#define FORMATTED(format_at, first_at) __attribute__((format(printf, format_at, first_at)))
#else
#define FORMATTED(format_at, first_at)
#endif

#define COUNT_OF(array) (sizeof(array) / sizeof((array)[0]))

#define PI 3.14159265358979323846

#define METRES_PER_INCH 0.0254 /* exact by definition */
#define FOOT_m 0.3048          /* so are these two */
#define POUND_kg 0.45359237
#define GRAVITY_m_s2 9.80665 /* standard acceleration of free fall, ISO 2533 */

struct text;

/* ---- messages ---------------------------------------------------------- */

enum severity { SEVERITY_WARNING, SEVERITY_ERROR };

/* One message.  `code` is a short fixed word a test can look for; `key` is the
 * parameter it speaks of ("" when none).  `line` 0 means "not known yet". */
struct diagnostic {
    enum severity severity;
    const char *code; /* string constant */
    char key[48];
    char *file; /* owned, NULL when not known yet */
    int line;
    char *text; /* owned: what is wrong, what is allowed, what to do */
};

/* All messages of one run, in the order found.  Zero-initialise, then free. */
struct diagnostics {
    struct diagnostic *item;
    size_t count, capacity;
    size_t errors, warnings;
};

/* Add a message about `key`; its file and line are filled in later.
 * When memory is short the message is dropped but still counted. */
void diagnose(struct diagnostics *list, enum severity severity, const char *code, const char *key,
              const char *format, ...) FORMATTED(5, 6);

/* The same with its place in a file. */
void diagnose_at(struct diagnostics *list, enum severity severity, const char *code,
                 const char *file, int line, const char *key, const char *format, ...)
    FORMATTED(7, 8);

/* Write all messages, one line each: `file:line: error: key: text`.  What is not known is
 * left out; a message without a file is about "design". */
void diagnostics_write(const struct diagnostics *list, struct text *into);

void diagnostics_free(struct diagnostics *list);

/* ---- growing text ------------------------------------------------------ */

/* Text that grows as it is written.  Zero-initialise, then free.  After a
 * failed allocation `failed` stays set and further writes do nothing, so a
 * writer needs to look only once, at its end. */
struct text {
    char *bytes; /* always ends in NUL once anything was added; NULL before */
    size_t length, capacity;
    bool failed;
};

void text_add(struct text *text, const char *format, ...) FORMATTED(2, 3);
void text_add_bytes(struct text *text, const char *bytes, size_t count);
void text_free(struct text *text);

/* Shortest of %.15g, %.16g, %.17g that reads back as the same number, always
 * with a '.' or an exponent, so that a reader takes it for a real number.
 * Given: value, finite.  Returns: `into`. */
char *shortest_real(double value, char into[32]);

/* ---- letters ------------------------------------------------------------ */

/* The UTF-8 letter at `bytes`, NUL-ended.  Returns: its length in bytes with its *code, or 0 when
 * it is not valid. */
size_t letter_at(const char *bytes, unsigned long *code);

enum letter_kind {
    LETTER_PRINTS,
    LETTER_CONTROLS, /* a control character */
    LETTER_TURNS,    /* turns the direction of writing */
    LETTER_UNSEEN    /* ends a line, or is no character */
};
enum letter_kind letter_kind(unsigned long code);

/* Add words from outside, a file name or a line of a file, as a terminal may show them: one '?'
 * for each letter that does not print and each byte that is part of none. */
void text_add_shown(struct text *text, const char *words);

/* ---- files -------------------------------------------------------------- */

/* Write the file `path`, the whole of it or nothing: beside it under another name first, then
 * in its place.  A link is followed; an existing file keeps its mode, a new one gets `mode`
 * less the umask.  Refused: a folder, a device, a write-protected file.  What killed runs left
 * in that folder is removed first, as by file_sweep.
 * Returns: 0, or -1 with `complaint`: what failed, what is left, what to do.  A signal that
 * would end the program takes effect after the temporary file is gone. */
int file_write(const char *path, unsigned mode, const struct text *text, struct text *complaint);

/* Add "PATH: WHAT: the system's reason; what to do" to `complaint`.  Given: reason, an errno. */
void file_complain(struct text *complaint, const char *what, const char *path, int reason);

/* Write all of it to an open descriptor.  Returns: 0, or -1 with errno. */
int file_write_bytes(int fd, const char *bytes, size_t count);

/* Ask the disk to keep what was written to a descriptor; signals do not cut it short.
 * Returns: 0, or -1 with errno. */
int file_flush(int fd);

/* The same for the folder of `path`, so that the name of a new file survives a power cut.
 * Returns: 0, also where the file system cannot do this for a folder; -1 with errno. */
int file_flush_folder(const char *path);

/* Read the plain file `path` of at most `most` bytes.  Returns: 0, or an errno (EFBIG when it is
 * longer, EISDIR or EINVAL when it is no plain file). */
int file_read(const char *path, size_t most, struct text *into);

/* The name of a file with all links resolved, also when there is no such file yet but its
 * folder is there.  Returns: it, to be freed; NULL with errno. */
char *file_resolved(const char *path);

/* Whether files can be made in the folder of `path`. */
bool file_folder_takes_files(const char *path);

/* Remove from the folder of `path` the temporary files of runs that are no more: plain files of
 * ours alone, under no other name.  What cannot be removed stays. */
void file_sweep(const char *path);

/* ---- words ---------------------------------------------------------------- */

/* A to Z as a to z, anything else as it is, in every locale. */
char ascii_lower(char c);

/* Whether two words are the same but for the case of A to Z. */
bool same_in_any_case(const char *one, const char *other);

/* ---- guesses at mistyped words ------------------------------------------- */

/* Fewest letters added, dropped, changed or swapped with their neighbour that turn one word
 * into the other.  Words are compared up to their first 63 bytes. */
size_t edit_distance(const char *one, const char *other);

/* The largest edit distance at which a guess still makes sense: one letter in three. */
size_t guessing_reach(const char *word);

/* The choice nearest to `word`, or NULL when none is near.  Given: NULL-ended choices. */
const char *nearest_word(const char *word, const char *const *choices);

/* ---- one root finder for everything that is sought ------------------------ */

/* A function that rises through zero once between `least` and `most`.
 * It may return -HUGE_VAL where it has no value yet (too small to exist). */
typedef double rising_function(double x, void *context);

/* Find that zero by the secant rule, kept inside a shrinking bracket.
 * Given: the open interval least .. most, a first guess inside it, the width of
 * the first secant step, and the tolerance of x.
 * Returns: true with *root within the tolerance, or false when the zero would
 * lie at an end of the interval; *root is then the end it runs towards. */
bool rising_root(rising_function *f, void *context, double least, double most, double guess,
                 double step, double tolerance, double *root);

#endif
