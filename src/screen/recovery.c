/* recovery.c - unsaved work kept when the program has to end, and found again. */
#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "screen/session.h"
#include "screen/session_file.h"

static const char unnamed[] = "unnamed-", ending[] = ".recovery";
enum { KEPT_MOST = 99 };

/* ---- names ------------------------------------------------------------- */

/* The folder for kept work that has no better place, with its slash; NULL when the builder has
 * no home. */
static char *state_folder(void) {
    const char *state = getenv("XDG_STATE_HOME"), *home = getenv("HOME");
    if (state != NULL && state[0] == '/') /* others are to be ignored, says its specification */
        return joined(state, "/gorewright/", "");
    if (home != NULL && home[0] == '/')
        return joined(home, "/.local/state/gorewright/", "");
    return NULL;
}

/* Make the folder and those above it. */
static int make_folder(char *path) {
    for (char *slash = strchr(path + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        int wrong = mkdir(path, 0700) != 0 && errno != EEXIST;
        *slash = '/';
        if (wrong)
            return -1;
    }
    return 0;
}

static const char *last_part(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

/* The ending of kept work: the first has no number, so that its name stays short. */
static void number_ending(int number, char into[32]) {
    snprintf(into, 32, number > 1 ? "%s%d" : "%s", ending, number);
}

/* ".NAME.recovery", ".NAME.recovery2", ... beside the design. */
static char *name_beside(const char *resolved, int number) {
    const char *name = last_part(resolved);
    char *folder = joined(resolved, "", ""), *whole = NULL, *hidden, end[32];
    if (folder == NULL)
        return NULL;
    folder[name - resolved] = '\0';
    hidden = joined(folder, ".", name);
    number_ending(number, end);
    if (hidden != NULL)
        whole = joined(hidden, end, "");
    free(folder);
    free(hidden);
    return whole;
}

/* In the state folder: the name of the design, and a number made from its whole path. */
static char *name_in_state(const char *resolved, int number) {
    char *folder = state_folder(), *name = NULL;
    char end[32], mark[64];
    unsigned long long hash = stamp_of_bytes(resolved, strlen(resolved)).hash;
    number_ending(number, end);
    snprintf(mark, sizeof mark, "-%016llx%s", hash, end);
    if (folder != NULL)
        name = joined(folder, last_part(resolved), mark);
    free(folder);
    return name;
}

/* A plain file, not a link that somebody laid there. */
static bool is_plain(const char *path) {
    struct stat about;
    return lstat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static bool is_free(const char *path) {
    struct stat about;
    return lstat(path, &about) != 0 && errno == ENOENT;
}

typedef char *naming(const char *resolved, int number);

/* The first name that is free: work that nobody has answered for yet is never written over.
 * Returns: NULL when there is none, or something else was laid in its place. */
static char *first_free(naming *name_for, const char *resolved) {
    for (int number = 1; number <= KEPT_MOST; number++) {
        char *name = name_for(resolved, number);
        if (name == NULL || is_free(name))
            return name;
        bool kept = is_plain(name);
        free(name);
        if (!kept)
            return NULL;
    }
    return NULL;
}

/* The first that is there, or NULL. */
static char *first_kept(naming *name_for, const char *resolved) {
    for (int number = 1; number <= KEPT_MOST; number++) {
        char *name = name_for(resolved, number);
        if (name == NULL || is_plain(name))
            return name;
        free(name);
    }
    return NULL;
}

/* A name that nobody else uses, for work without a name. */
static char *name_unnamed(void) {
    enum { TRIES = 1000 };
    char *folder = state_folder(), *name = NULL;
    for (int i = 0; folder != NULL && i < TRIES; i++) {
        char number[64];
        snprintf(number, sizeof number, "%ld-%d%s", (long)getpid(), i, ending);
        name = joined(folder, unnamed, number);
        if (name == NULL || is_free(name))
            break;
        free(name);
        name = NULL;
    }
    free(folder);
    return name;
}

/* ---- writing ----------------------------------------------------------- */

static void recovery_text(const struct session *session, struct text *text) {
    const struct stamp *stamp = &session->file->stamp;
    text_add(text, "# Unsaved work of gorewright.\n");
    if (session->file->resolved != NULL && stamp->exists)
        text_add(text, "# made on %zu %016llx\n", stamp->length, (unsigned long long)stamp->hash);
    design_write(&session->design, WRITE_COMMENTED, text);
}

/* Returns: 0 with the name remembered, or -1 with why.  Takes `name` over; NULL is no place. */
static int write_as(struct session *session, char *name, const struct text *text,
                    struct text *complaint) {
    int wrong = -1;
    if (name != NULL && (is_free(name) || is_plain(name)))
        wrong = file_write(name, 0600, text, complaint);
    if (wrong != 0) {
        free(name);
        return -1;
    }
    if (session->file->recovery != name)
        free(session->file->recovery);
    session->file->recovery = name;
    return 0;
}

static int write_in_state(struct session *session, const struct text *text,
                          struct text *complaint) {
    bool nameless = session->file->resolved == NULL || session->reads_only;
    char *name = nameless ? name_unnamed() : first_free(name_in_state, session->file->resolved);
    if (name != NULL && make_folder(name) != 0) {
        file_complain(complaint, "cannot make a folder for", name, errno);
        free(name);
        return -1;
    }
    return write_as(session, name, text, complaint);
}

int session_write_recovery(struct session *session, struct diagnostics *messages) {
    const struct session_file *file = session->file;
    struct text text = {0}, complaint = {0};
    int wrong = -1;
    if (!session->changed)
        return 0;
    recovery_text(session, &text);
    if (file->recovery != NULL) /* once more in the same place */
        wrong = write_as(session, joined(file->recovery, "", ""), &text, &complaint);
    if (wrong != 0 && file->resolved != NULL && !session->reads_only)
        wrong = write_as(session, first_free(name_beside, file->resolved), &text, &complaint);
    if (wrong != 0)
        wrong = write_in_state(session, &text, &complaint);
    if (wrong != 0)
        diagnose(messages, SEVERITY_ERROR, "recovery", "",
                 "your unsaved work could not be kept: %s",
                 complaint.bytes != NULL ? complaint.bytes : "there is no folder to keep it in");
    text_free(&text);
    text_free(&complaint);
    return wrong;
}

/* ---- finding ----------------------------------------------------------- */

/* `name`, which is taken over, or NULL when there is no such file. */
static char *if_there(char *name) {
    if (name != NULL && is_plain(name))
        return name;
    free(name);
    return NULL;
}

static bool is_unnamed(const char *name) {
    size_t length = strlen(name), end = strlen(ending);
    return strncmp(name, unnamed, strlen(unnamed)) == 0 && length > end &&
           strcmp(name + length - end, ending) == 0;
}

/* The first by name: the same one whatever order the folder is in. */
static char *find_unnamed(void) {
    char *path = state_folder(), *found = NULL, *whole = NULL;
    DIR *folder = path == NULL ? NULL : opendir(path);
    if (folder != NULL) {
        for (struct dirent *entry; (entry = readdir(folder)) != NULL;)
            if (is_unnamed(entry->d_name) && (found == NULL || strcmp(entry->d_name, found) < 0)) {
                free(found);
                found = joined(entry->d_name, "", "");
            }
        closedir(folder);
    }
    if (found != NULL)
        whole = joined(path, found, "");
    free(found);
    free(path);
    return if_there(whole);
}

char *session_find_recovery(const char *path) {
    if (path == NULL)
        return find_unnamed();
    char *resolved = file_resolved(path), *found;
    if (resolved == NULL)
        return NULL;
    found = first_kept(name_beside, resolved);
    if (found == NULL)
        found = first_kept(name_in_state, resolved);
    free(resolved);
    return found;
}

void session_drop_recovery(struct session *session, const char *recovery) {
    char *own = session == NULL ? NULL : session->file->recovery;
    if (recovery == NULL)
        recovery = own;
    if (recovery == NULL)
        return;
    unlink(recovery);
    if (own != NULL && strcmp(own, recovery) == 0) {
        free(own);
        session->file->recovery = NULL;
    }
}
