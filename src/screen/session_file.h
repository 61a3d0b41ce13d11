/* session_file.h - the file of a session: its lock, what it held, and what it is to hold. */
#ifndef SCREEN_SESSION_FILE_H
#define SCREEN_SESSION_FILE_H

#include <stdint.h>

#include "gorewright/geometry.h"

enum { FILE_BYTES_MOST = 2000000 };

/* What a file held, so that a change by others is noticed.  Its time does not count: a file
 * whose content came back to the same is the same. */
struct stamp {
    bool exists;
    size_t length;
    uint64_t hash;
};

/* A lock held on "NAME.lock" beside a file; `fd` is -1 when none is held. */
struct lock {
    int fd;
    char *path; /* owned */
};
enum locking {
    LOCK_HELD,
    LOCK_BUSY,
    LOCK_UNREADABLE, /* somebody else's, and whether it is held cannot be found out */
    LOCK_IMPOSSIBLE
};

struct session_file {
    char *resolved; /* owned: its name with links resolved; NULL without a name */
    struct lock lock;
    struct stamp stamp;    /* as it was read or written last */
    struct design saved;   /* what it holds ... */
    bool is_saved;         /* ... unless it was begun from kept work */
    char *recovery;        /* owned: the recovery file of this session, or NULL */
    struct built before;   /* the figures before the last change */
    double mass_before_kg; /* of the whole envelope then */
    size_t templates_before;
    bool has_before;
};

struct stamp stamp_of(const char *path);
struct stamp stamp_of_bytes(const char *bytes, size_t length);
bool stamp_same(const struct stamp *one, const struct stamp *other);

/* Lock a file against other instances, which need not exist yet.  Given: its resolved name.
 * LOCK_IMPOSSIBLE: this folder or its file system cannot hold a lock; work on without.
 * The lock of a process that is no more does not hold, whoever's it was. */
enum locking lock_take(struct lock *lock, const char *resolved);
void lock_drop(struct lock *lock);

/* Say in a sentence or two why a lock could not be taken, by whose doing, and what to do.
 * Given: LOCK_BUSY or LOCK_UNREADABLE. */
void lock_say(enum locking locking, const char *resolved, struct text *into);

/* Read a design, also one whose values can be mended on the screens: then `messages` has
 * errors and the return is 0 all the same.  Otherwise as design_read. */
int read_mendable(const char *path, struct design *design, struct design_source *source,
                  struct diagnostics *messages);

/* A copy of a string, or of several put together; NULL when memory is short. */
char *joined(const char *one, const char *two, const char *three);

#endif
