/* session.h - one design being worked on: its history, its envelope, its file.
 *
 * Nothing here draws or reads keys.  Parameters as text (parameter_show, parameter_set,
 * parameter_step) are in gorewright/design.h.
 */
#ifndef SCREEN_SESSION_H
#define SCREEN_SESSION_H

#include "gorewright/flight.h"

struct history;      /* src/screen/history.h */
struct session_file; /* where the design is kept: src/screen/session_file.h */

/* What the builder works on.  To be read by all, changed only through the functions below.
 * `envelope` is that of `design`; or, when `stale`, that of the last design that could be
 * built, and `messages` holds the errors.  It is NULL while nothing could be built yet: a file
 * whose values contradict each other is opened all the same, to be mended here.  Drawings,
 * figures and writers take `sized`; what is decided, shown, saved and undone is `design`. */
struct session {
    struct design design;
    struct envelope *envelope; /* owned, may be NULL */
    struct design sized;       /* with that envelope: the design with the size that was found */
    struct masses masses;      /* of that envelope and its rig */
    bool stale;
    struct diagnostics messages; /* about `design`, each naming its parameter */
    struct diagnostics refused;  /* about the design that session_change refused last */
    struct history *history;     /* owned: every change, for undo and redo */
    struct session_file *file;   /* owned */
    char *path;                  /* owned; NULL: not named yet */
    bool changed;                /* differs from what the file holds */
    bool reads_only;             /* another instance works on this file: not to be saved here */
    struct text warning;         /* what stands in the way of saving, "" when nothing does */
};

/* Begin with the starter design.  Returns: NULL when out of memory. */
struct session *session_new(void);

/* The same with another design, which counts as unchanged.  Given: one that can be built. */
struct session *session_begin(const struct design *design);

/* Begin with a file, which is locked against other instances as long as the session lasts.
 * Returns: NULL when it cannot be read as a design or memory is short; why is in `messages`,
 * in place of what was there.  Errors that can be mended on the screens (a value out of range,
 * values that contradict each other) do not keep it from being opened: they stand in the session's
 * own messages. */
struct session *session_open(const char *path, struct diagnostics *messages);

/* The same in the place of another session: the lock of a file that is open already is handed
 * over to the new one.  The old session is to be ended; when NULL is returned it is as it was. */
struct session *session_open_instead(struct session *old, const char *path,
                                     struct diagnostics *messages);

/* The design as its file holds it. */
const struct design *session_saved(const struct session *session);

/* Ends the session and unlocks its file.  Nothing is saved. */
void session_free(struct session *session);

/* ---- changes ----------------------------------------------------------- */

/* Put a changed design in place of the present one: checked, built, remembered for undo.
 * Returns: 0, also when nothing differs (then nothing is remembered).  -1 when it has errors:
 * with `keep_broken` it is the present design all the same, `stale`, its errors in `messages`;
 * otherwise the present one stays, and the errors are in `refused`.
 * -1 with nothing changed, and the reason in `refused`, when memory is short. */
int session_change(struct session *session, const struct design *design, bool keep_broken);

/* One step back or forth.  Returns: false when there is none. */
bool session_undo(struct session *session);
bool session_redo(struct session *session);
size_t session_undo_count(const struct session *session);
size_t session_redo_count(const struct session *session);

/* Mass of the whole envelope before the last change; 0 when nothing has changed yet [kg]. */
double session_mass_before_kg(const struct session *session);

/* Figures before the last change (an undo is one too), for "what moved"; NULL, and 0, when
 * nothing has changed yet. */
const struct built *session_before(const struct session *session);
size_t session_templates_before(const struct session *session);

/* ---- its file ---------------------------------------------------------- */

enum saving { SAVED = 0, SAVE_FAILED = -1, SAVE_ASK = 1 };

/* Save under `path` (NULL: its own), the whole of it or nothing.  A file that is not, as it
 * was read or written, this session's own is kept once as PATH.before (or PATH.before2 ...):
 * so are the notes of a file written by hand.  From then on `path` is its own name.
 * Returns: SAVED; SAVE_ASK when a file is there that another has changed or made, to be
 * overwritten only when asked again with `over`; SAVE_FAILED.  One message says why. */
enum saving session_save(struct session *session, const char *path, bool over,
                         struct diagnostics *messages);

/* ---- work that was cut short ------------------------------------------- */

/* Keep unsaved work beside the design (".NAME.recovery", or ".NAME.recovery2" ... where work is
 * kept that was neither taken up nor forgotten), or, without a name or where that
 * cannot be written, in $XDG_STATE_HOME/gorewright or ~/.local/state/gorewright.  To be called
 * from the main loop, never from a signal handler.
 * Returns: 0, also when there is nothing to keep; -1 with why. */
int session_write_recovery(struct session *session, struct diagnostics *messages);

/* The first work kept for the design `path` (NULL: for one without a name).
 * Returns: the name of its recovery file, to be freed, or NULL when there is none. */
char *session_find_recovery(const char *path);

/* Begin with kept work, unsaved, under the name of its design (NULL: none).  The recovery file
 * stays until the session is saved or session_drop_recovery is called.
 * Returns: NULL when it cannot be read; why is in `messages`, in place of what was there. */
struct session *session_open_recovery(const char *path, const char *recovery,
                                      struct diagnostics *messages);

/* Forget kept work: the file `recovery`, or (NULL) what this session wrote or began with.
 * Given: session, NULL when there is none yet. */
void session_drop_recovery(struct session *session, const char *recovery);

#endif
