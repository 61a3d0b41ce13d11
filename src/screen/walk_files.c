/* walk_files.c - saving, opening, starters, leaving; work that was cut short. */
#include <ctype.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "screen/session_file.h"
#include "screen/starters.h"
#include "screen/walk.h"

static void keep_wanted(struct walk *walk, const char *path) {
    char *copy = joined(path, "", "");
    free(walk->wanted);
    walk->wanted = copy;
}

/* ---- names as they are typed ------------------------------------------------------ */

/* "~" and what follows it stand for the home folder.  To be freed. */
static char *with_home(const char *typed) {
    const char *home = getenv("HOME");
    if (typed[0] != '~' || (typed[1] != '/' && typed[1] != '\0') || home == NULL || home[0] != '/')
        return joined(typed, "", "");
    return joined(home, typed[1] == '\0' ? "/" : typed + 1, ""); /* seen to be a folder */
}

static bool has_ending(const char *path) {
    const char *slash = strrchr(path, '/'), *name = slash == NULL ? path : slash + 1;
    return name[0] == '\0' || strchr(name + 1, '.') != NULL;
}

/* The file to save in: a name without an ending gets that of a design. */
static char *name_to_save(const struct walk *walk, const char *typed) {
    const char *own = walk->session->path;
    char *path = with_home(typed);
    if (path == NULL || has_ending(path) || (own != NULL && strcmp(path, own) == 0))
        return path;
    char *with_ending = joined(path, ".cfg", "");
    free(path);
    return with_ending;
}

static char *name_to_open(const char *typed) {
    char *path = with_home(typed);
    char *found = path == NULL ? NULL : design_file_named(path);
    free(path);
    return found;
}

static void short_of_memory(struct walk *walk) {
    walk_say(walk, CELL_ERROR, "There is not enough memory.");
}

/* ---- saving --------------------------------------------------------------------- */

static void add_stem(const struct design *design, struct text *into) {
    for (const char *c = design->name; *c != '\0'; c++) {
        char letter = (char)tolower((unsigned char)*c);
        if (isalnum((unsigned char)*c) && (unsigned char)*c < 0x80)
            text_add_bytes(into, &letter, 1);
        else if (into->length > 0 && into->bytes[into->length - 1] != '-')
            text_add(into, "-");
    }
    while (into->length > 0 && into->bytes[into->length - 1] == '-')
        into->bytes[--into->length] = '\0';
    if (into->length == 0)
        text_add(into, "balloon");
}

void walk_free_name(const struct design *design, struct text *into) {
    struct text stem = {0};
    add_stem(design, &stem);
    for (int i = 1; i < 1000 && !stem.failed; i++) {
        text_free(into);
        if (i == 1)
            text_add(into, "%s.cfg", stem.bytes);
        else
            text_add(into, "%s-%d.cfg", stem.bytes, i);
        if (into->bytes != NULL && access(into->bytes, F_OK) != 0)
            break;
    }
    text_free(&stem);
}

static void then(struct walk *walk) {
    walk_doing *next = walk->then;
    walk->then = NULL;
    if (next != NULL)
        next(walk);
}

static void type_name(struct walk *walk) {
    struct text name = {0};
    if (walk->session->path != NULL)
        text_add(&name, "%s", walk->session->path);
    else
        walk_free_name(&walk->session->design, &name);
    walk_type(walk, TYPING_SAVE_AS, name.bytes != NULL ? name.bytes : "");
    text_free(&name);
}

static void save_to(struct walk *walk, const char *path, bool over);

static void save_over(struct walk *walk) {
    if (walk->wanted != NULL)
        save_to(walk, walk->wanted, true);
}

static void say_saved(struct walk *walk, const char *path_before, const struct design *before) {
    struct text note = {0};
    walk_bench_saved(walk, path_before, before, &note);
    walk_say(walk, CELL_HELP, "Saved in %s.%s", walk->session->path,
             note.bytes != NULL ? note.bytes : "");
    text_free(&note);
}

static void save_to(struct walk *walk, const char *path, bool over) {
    static const struct answer answers[] = {{'a', "another name", type_name},
                                            {'w', "write over it", save_over}};
    struct diagnostics messages = {0};
    const char *own = walk->session->path;
    char *path_before = own != NULL ? joined(own, "", "") : NULL;
    const struct design before = *session_saved(walk->session);
    enum saving saving = session_save(walk->session, path, over, &messages);
    if (saving == SAVED) {
        say_saved(walk, path_before, &before);
        then(walk);
    } else if (saving == SAVE_ASK) {
        keep_wanted(walk, path != NULL ? path : walk->session->path);
        walk_ask(walk, answers, COUNT_OF(answers), "%s",
                 messages.count > 0 ? messages.item[0].text : "There is a file of that name.");
    } else {
        walk->then = NULL;
        walk_say_first(walk, &messages);
    }
    free(path_before);
    diagnostics_free(&messages);
}

void walk_save(struct walk *walk, walk_doing *next) {
    walk->then = next;
    if (walk->session->path == NULL || walk->session->reads_only)
        type_name(walk);
    else
        save_to(walk, NULL, false);
}

void walk_save_as(struct walk *walk, walk_doing *next) {
    walk->then = next;
    type_name(walk);
}

void walk_save_under(struct walk *walk, const char *path) {
    if (path[0] == '\0') {
        walk->then = NULL;
        walk_say(walk, CELL_WARNING, "Nothing was saved: no name was typed.");
        return;
    }
    char *wanted = name_to_save(walk, path);
    if (wanted != NULL)
        save_to(walk, wanted, false);
    else
        short_of_memory(walk);
    free(wanted);
}

/* ---- before something would be lost ------------------------------------------------ */

static void save_first(struct walk *walk) {
    walk_save(walk, walk->then);
}

/* Do `next`, once the builder has said what becomes of unsaved work. */
static void when_safe(struct walk *walk, walk_doing *next) {
    static const struct answer answers[] = {{'s', "save it first", save_first},
                                            {'l', "lose it", then}};
    if (!walk->session->changed) {
        next(walk);
        return;
    }
    walk->then = next;
    walk_ask(walk, answers, COUNT_OF(answers), "There are changes that are not saved.");
}

static void finish(struct walk *walk) {
    session_drop_recovery(walk->session, NULL);
    walk->finished = true;
}

void walk_quit(struct walk *walk) {
    when_safe(walk, finish);
}

/* ---- opening -------------------------------------------------------------------------- */

static int by_name(const void *a, const void *b) {
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static bool is_design(const char *name) {
    size_t length = strlen(name);
    return name[0] != '.' && length > 4 && strcmp(name + length - 4, ".cfg") == 0;
}

static void find_files(struct walk *walk) {
    for (size_t i = 0; i < walk->files; i++)
        free(walk->file[i]);
    walk->files = 0;
    DIR *folder = opendir(".");
    if (folder == NULL)
        return;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL && walk->files < FILES_MOST;) {
        if (!is_design(entry->d_name))
            continue;
        char *name = joined(entry->d_name, "", "");
        if (name == NULL)
            break;
        walk->file[walk->files++] = name;
    }
    closedir(folder);
    qsort(walk->file, walk->files, sizeof walk->file[0], by_name);
}

static void show_files(struct walk *walk) {
    find_files(walk);
    walk->list = LIST_FILES;
    walk->at_list = 0;
    walk->over = OVER_LIST;
}

void walk_open_list(struct walk *walk) {
    when_safe(walk, show_files);
}

void walk_open_file(struct walk *walk, size_t file) {
    if (file < walk->files)
        walk_open(walk, walk->file[file]);
    else
        walk_type(walk, TYPING_OPEN, "");
}

void walk_open(struct walk *walk, const char *typed) {
    struct diagnostics messages = {0};
    char *path = name_to_open(typed);
    struct session *session = NULL;
    if (path != NULL && path[0] != '\0')
        session = session_open_instead(walk->session, path, &messages);
    if (session != NULL) {
        session_drop_recovery(walk->session, NULL);
        walk_replace_session(walk, session);
        if (session->warning.length > 0)
            walk_say(walk, CELL_WARNING, "%s", session->warning.bytes);
        else
            walk_say(walk, CELL_HELP, "%s is open.", path);
        walk_offer_recovery(walk);
    } else if (typed[0] == '\0') {
        walk_say(walk, CELL_HELP, "Nothing was opened.");
    } else if (path == NULL) {
        short_of_memory(walk);
    } else {
        walk_say_first(walk, &messages);
    }
    free(path);
    diagnostics_free(&messages);
}

/* ---- starters ---------------------------------------------------------------------------- */

static void show_starters(struct walk *walk) {
    walk->list = LIST_STARTERS;
    walk->at_list = 0;
    walk->over = OVER_LIST;
}

void walk_starter_list(struct walk *walk) {
    when_safe(walk, show_starters);
}

void walk_begin_starter(struct walk *walk, size_t starter) {
    size_t count;
    const struct starter *chosen = &starters(&count)[starter];
    struct design design;
    starter_make(chosen, &design);
    struct session *session = session_begin(&design);
    if (session == NULL) {
        short_of_memory(walk);
        return;
    }
    session_drop_recovery(walk->session, NULL);
    walk_replace_session(walk, session);
    walk_say(walk, CELL_HELP, "%s: %s", chosen->name, chosen->words);
}

/* ---- work that was cut short ------------------------------------------------------------------
 */

static void take_up(struct walk *walk) {
    struct diagnostics messages = {0};
    char *path = NULL;
    if (walk->session->path != NULL && (path = joined(walk->session->path, "", "")) == NULL)
        return;
    /* The file is locked by one session at a time. */
    session_free(walk->session);
    walk->session = NULL;
    struct session *session = session_open_recovery(path, walk->recovery, &messages);
    bool taken = session != NULL;
    if (!taken)
        session = path != NULL ? session_open(path, &messages) : session_new();
    if (session == NULL)
        session = session_new();
    if (session == NULL) {
        walk->finished = true;
    } else {
        walk_replace_session(walk, session);
        if (taken)
            walk_say(walk, CELL_HELP, "Here it is again, not saved yet.");
        else
            walk_say_first(walk, &messages);
    }
    free(path);
    diagnostics_free(&messages);
}

/* There may be more: each is answered for by itself. */
static void forget_it(struct walk *walk) {
    session_drop_recovery(walk->session, walk->recovery);
    walk_say(walk, CELL_HELP, "It is forgotten.");
    walk_offer_recovery(walk);
}

void walk_offer_recovery(struct walk *walk) {
    static const struct answer answers[] = {{'t', "take it up again", take_up},
                                            {'f', "forget it", forget_it}};
    free(walk->recovery);
    walk->recovery = session_find_recovery(walk->session->path);
    if (walk->recovery != NULL && !walk->session->reads_only)
        walk_ask(walk, answers, COUNT_OF(answers), "Work on this design was cut short, and kept.");
}

void walk_keep_work(struct walk *walk, struct text *farewell) {
    struct diagnostics messages = {0};
    if (walk->session == NULL)
        return;
    walk_settle(walk); /* steps that were only collected so far count as well */
    const char *path = walk->session->path;
    if (!walk->session->changed)
        return;
    if (session_write_recovery(walk->session, &messages) != 0) {
        diagnostics_write(&messages, farewell);
    } else {
        text_add(farewell,
                 "gorewright: your unsaved work is kept; it is offered when you begin again");
        if (path != NULL) {
            text_add(farewell, " with ");
            text_add_shown(farewell, path);
        }
        text_add(farewell, ".\n");
    }
    diagnostics_free(&messages);
}
