/* test_rooms.c - who may include what, and who may print: the doors between the rooms. */
#include "support.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* From left to right: a room knows those before it. */
static const char *const rooms[] = {"base", "design", "geometry", "flight",
                                    "shop", "paper",  "screen",   "command"};
enum { DESIGN = 1, SHOP = 4, PAPER = 5, SCREEN = 6, COMMAND = 7 };

/* Each room has a door of its own name; these are second ones. */
static const struct {
    const char *header;
    int room;
} second_doors[] = {{"layout", SHOP}, {"cutting", SHOP}, {"drawing", PAPER}};

static int room_index(const char *name, size_t length) {
    for (size_t i = 0; i < COUNT_OF(rooms); i++)
        if (strlen(rooms[i]) == length && strncmp(rooms[i], name, length) == 0)
            return (int)i;
    return -1;
}

/* The room whose public header this is, or -1. */
static int door_index(const char *name) {
    size_t length = strcspn(name, ".");
    for (size_t i = 0; i < COUNT_OF(second_doors); i++)
        if (strlen(second_doors[i].header) == length &&
            strncmp(second_doors[i].header, name, length) == 0)
            return second_doors[i].room;
    return room_index(name, length);
}

/* Words with which a room would print, leave, or depend on the place it runs in. */
static const char *const forbidden[] = {
    "printf", "fprintf", "vprintf", "vfprintf", "puts", "fputs", "putchar", "fputc", "putc",
    "perror", "exit", "_exit", "abort", "setlocale", "localeconv", "getenv", "system", "time",
    "localtime", "rand", "srand", "signal", "fork",
    /* these go by the locale */
    "tolower", "toupper", "isalpha", "isdigit", "isalnum", "isspace", "isprint", "ispunct",
    "isupper", "islower", "iscntrl", "isgraph", "isxdigit", "strcasecmp", "strncasecmp", "strcoll"};

static bool is_word_part(char c) {
    return c == '_' || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

static bool calls(const char *line, const char *function) {
    size_t length = strlen(function);
    for (const char *at = line; (at = strstr(at, function)) != NULL; at += length)
        if ((at == line || !is_word_part(at[-1])) && at[length] == '(')
            return true;
    return false;
}

/* What is wrong with a line of a file in room `room`, or NULL. */
static const char *fault(int room, const char *line) {
    if (strncmp(line, "#include", 8) == 0) {
        const char *name = line + strcspn(line, "\"<");
        if (strncmp(name, "\"gorewright/", 12) == 0) {
            int other = door_index(name + 12);
            if (other < 0)
                return "includes a header of no known room";
            if (other > room)
                return "includes the header of a room to its right";
        } else if (*name == '"') {
            int other = room_index(name + 1, strcspn(name + 1, "/\""));
            if (other >= 0 && other != room)
                return "includes a private header of another room";
        } else if (strstr(name, "curses") != NULL && room != SCREEN)
            return "curses outside screen";
        else if (strstr(name, "libconfig") != NULL && room != DESIGN)
            return "libconfig outside design";
        return NULL;
    }
    if (room < SCREEN)
        for (size_t i = 0; i < COUNT_OF(forbidden); i++)
            if (calls(line, forbidden[i]))
                return forbidden[i];
    if (room < SCREEN && (strstr(line, "stdout") != NULL || strstr(line, "stderr") != NULL))
        return "standard output or error";
    return NULL;
}

static void the_rules_catch_what_they_should(void **state) {
    (void)state;
    assert_non_null(fault(2, "#include \"gorewright/paper.h\""));
    assert_non_null(fault(4, "#include \"gorewright/drawing.h\""));
    assert_non_null(fault(7, "#include \"gorewright/attic.h\""));
    assert_non_null(fault(2, "#include \"design/scan.h\""));
    assert_non_null(fault(6, "#include \"paper/sheets.h\""));
    assert_non_null(fault(5, "#include <curses.h>"));
    assert_non_null(fault(2, "#include <libconfig.h>"));
    assert_non_null(fault(5, "    printf(\"x\");"));
    assert_non_null(fault(0, "    exit(1);"));
    assert_non_null(fault(5, "    fwrite(bytes, 1, count, stdout);"));
    assert_non_null(fault(5, "    if (isdigit(*at))"));
    assert_null(fault(5, "    snprintf(into, 3, \"x\");"));
    assert_null(fault(5, "#include \"gorewright/geometry.h\""));
    assert_null(fault(6, "#include \"gorewright/drawing.h\""));
    assert_null(fault(2, "#include \"geometry/outline.h\""));
    assert_null(fault(1, "#include <libconfig.h>"));
}

struct found {
    size_t files, faults, with_libconfig;
};

static void look_at_file(int room, const char *path, struct found *found) {
    char line[1024];
    bool libconfig = false;
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    for (int number = 1; fgets(line, sizeof line, file) != NULL; number++) {
        const char *wrong = fault(room, line);
        if (wrong != NULL) {
            print_error("%s:%d: %s: %s", path, number, wrong, line);
            found->faults++;
        }
        if (strncmp(line, "#include <libconfig", 19) == 0)
            libconfig = true;
    }
    fclose(file);
    found->files++;
    found->with_libconfig += libconfig;
}

static void look_at_room(int room, struct found *found) {
    char path[512];
    snprintf(path, sizeof path, "src/%s", rooms[room]);
    DIR *folder = opendir(path);
    if (folder == NULL)
        return;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "src/%s/%s", rooms[room], entry->d_name);
        look_at_file(room, path, found);
    }
    closedir(folder);
}

static void no_room_reaches_past_its_doors(void **state) {
    (void)state;
    struct found found = {0};
    for (size_t i = 0; i < COUNT_OF(rooms); i++)
        look_at_room((int)i, &found);
    assert_int_equal(found.faults, 0);
    assert_true(found.files > 20); /* the tests run in the top folder */
    assert_int_equal(found.with_libconfig, 1);
}

static void every_folder_is_a_known_room(void **state) {
    (void)state;
    size_t known = 0;
    DIR *folder = opendir("src");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (strchr(entry->d_name, '.') != NULL)
            continue;
        if (room_index(entry->d_name, strlen(entry->d_name)) < 0)
            fail_msg("src/%s is not in the list of rooms", entry->d_name);
        known++;
    }
    closedir(folder);
    assert_true(known >= 5);
}

static void every_public_header_is_the_door_of_a_room(void **state) {
    (void)state;
    struct found found = {0};
    DIR *folder = opendir("include/gorewright");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.')
            continue;
        int room = door_index(entry->d_name);
        if (room < 0)
            fail_msg("include/gorewright/%s is the door of no room", entry->d_name);
        char path[300];
        snprintf(path, sizeof path, "include/gorewright/%s", entry->d_name);
        look_at_file(room, path, &found);
    }
    closedir(folder);
    assert_int_equal(found.faults, 0);
    assert_true(found.files >= 5);
}

/* The table of a room in DEVELOPERS.md, from its heading to the next one; to be freed. */
static char *table_of(const char *page, const char *room) {
    char heading[64];
    snprintf(heading, sizeof heading, "\n`src/%s/`\n\n| file |", room);
    const char *from = strstr(page, heading);
    if (from == NULL)
        fail_msg("DEVELOPERS.md has no table of the files in src/%s", room);
    const char *end = strstr(from + strlen(heading), "\n\n");
    assert_non_null(end);
    return strndup(from, (size_t)(end - from));
}

static void look_for_lines(const char *page, const char *room) {
    char path[64];
    snprintf(path, sizeof path, "src/%s", room);
    DIR *folder = opendir(path);
    if (folder == NULL)
        return;
    char *table = table_of(page, room);
    size_t files = 0, lines = 0;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        size_t length = strlen(entry->d_name);
        if (length < 3 || strcmp(entry->d_name + length - 2, ".c") != 0)
            continue;
        char line[300];
        snprintf(line, sizeof line, "\n| `%s` | ", entry->d_name);
        if (strstr(table, line) == NULL)
            fail_msg("DEVELOPERS.md has no line for src/%s/%s", room, entry->d_name);
        files++;
    }
    for (const char *at = table; (at = strstr(at, "\n| `")) != NULL; at++)
        lines++;
    assert_int_equal(lines, files); /* none for a file that is gone */
    free(table);
    closedir(folder);
}

static void every_source_file_has_its_line_for_contributors(void **state) {
    (void)state;
    struct outcome page = run("cat DEVELOPERS.md");
    assert_int_equal(page.status, 0);
    for (size_t i = 0; i < COUNT_OF(rooms); i++)
        look_for_lines(page.out, rooms[i]);
    outcome_free(&page);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_rules_catch_what_they_should),
        cmocka_unit_test(no_room_reaches_past_its_doors),
        cmocka_unit_test(every_folder_is_a_known_room),
        cmocka_unit_test(every_source_file_has_its_line_for_contributors),
        cmocka_unit_test(every_public_header_is_the_door_of_a_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) == 0 ? 0 : 1;
}
