/* leftovers.c - the names of temporary files, and those a killed run left behind. */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/leftovers.h"

static const char beginning[] = ".gorewright-", ending[] = ".tmp";

void temporary_name(int number, char into[TEMPORARY_NAME_MOST]) {
    snprintf(into, TEMPORARY_NAME_MOST, "%s%ld-%d%s", beginning, (long)getpid(), number, ending);
}

/* The number of the run that gave a file its name, or 0 when none did. */
static pid_t run_of(const char *name) {
    static const char digits[] = "0123456789";
    size_t length = strlen(beginning);
    if (strncmp(name, beginning, length) != 0)
        return 0;
    const char *run = name + length, *number = run + strspn(run, digits);
    if (number == run || number - run > 10 || *number != '-')
        return 0;
    number++;
    length = strspn(number, digits);
    if (length == 0 || strcmp(number + length, ending) != 0)
        return 0;
    long id = strtol(run, NULL, 10);
    return id > 0 && id <= INT_MAX ? (pid_t)id : 0;
}

static bool is_over(pid_t run) {
    return kill(run, 0) != 0 && errno == ESRCH;
}

static bool is_ours(int folder, const char *name) {
    struct stat file;
    return fstatat(folder, name, &file, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG(file.st_mode) &&
           file.st_uid == geteuid() && file.st_nlink == 1;
}

void sweep_leftovers(int folder) {
    int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *list = again < 0 ? NULL : fdopendir(again);
    if (list == NULL) {
        if (again >= 0)
            close(again);
        return;
    }
    for (struct dirent *entry; (entry = readdir(list)) != NULL;) {
        pid_t run = run_of(entry->d_name);
        if (run > 0 && is_over(run) && is_ours(folder, entry->d_name))
            unlinkat(folder, entry->d_name, 0);
    }
    closedir(list);
}
