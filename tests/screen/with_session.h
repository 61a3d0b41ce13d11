/* with_session.h - a session and the files around it, for tests. */
#ifndef TESTS_SCREEN_WITH_SESSION_H
#define TESTS_SCREEN_WITH_SESSION_H

#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "screen/session.h"
#include "screen/session_file.h"

#define UNUSED __attribute__((unused)) /* in some of the drivers */

UNUSED static const char plain[] =
    "# my notes\nformat = 1; name = \"Owl\"; size: { height = 2.5; };\n";

UNUSED static const char *path_of(const char *name) {
    static char paths[8][256];
    static size_t next;
    char *path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", scratch_folder(), name);
    return path;
}

UNUSED static bool there(const char *name) {
    return access(path_of(name), F_OK) == 0;
}

UNUSED static void assert_holds(const char *name, const char *content) {
    struct text text = {0};
    assert_int_equal(file_read(path_of(name), 100000, &text), 0);
    assert_string_equal(text.bytes == NULL ? "" : text.bytes, content);
    text_free(&text);
}

UNUSED static struct session *opened(const char *path) {
    struct diagnostics messages = {0};
    struct session *session = session_open(path, &messages);
    if (session == NULL)
        fail_msg("%s: %s", path, messages.item[0].text);
    assert_int_equal(messages.count, 0);
    return session;
}

UNUSED static int change(struct session *session, const char *key, const char *typed,
                         bool keep_broken) {
    struct design design = session->design;
    struct diagnostics messages = {0};
    if (parameter_set(&design, (size_t)parameter_find(key), typed, &messages) != 0)
        fail_msg("%s: %s", key, messages.item[0].text);
    return session_change(session, &design, keep_broken);
}

/* Save, and see what is said. */
UNUSED static void assert_saves(struct session *session, const char *path, bool over,
                                enum saving want, const char *says) {
    struct diagnostics messages = {0};
    enum saving got = session_save(session, path, over, &messages);
    if (got != want)
        fail_msg("saving gave %d, not %d: %s", got, want,
                 messages.count > 0 ? messages.item[0].text : "");
    assert_int_equal(messages.count, want == SAVED ? 0 : 1);
    if (want != SAVED && strstr(messages.item[0].text, says) == NULL)
        fail_msg("'%s' is not in: %s", says, messages.item[0].text);
    diagnostics_free(&messages);
}

/* The envelope at hand is that of the design at hand. */
UNUSED static void assert_envelope_is_of_design(const struct session *session) {
    struct diagnostics messages = {0};
    struct envelope *envelope = envelope_build(&session->design, &messages);
    assert_non_null(envelope);
    assert_false(session->stale);
    assert_close(session->envelope->built.volume_m3, envelope->built.volume_m3, 0, 0);
    assert_close(session->envelope->built.cut_area_m2, envelope->built.cut_area_m2, 0, 0);
    assert_int_equal(session->envelope->templates, envelope->templates);
    envelope_free(envelope);
    diagnostics_free(&messages);
}

#endif
