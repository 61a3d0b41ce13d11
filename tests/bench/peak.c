/* peak.c - run a program and tell its peak memory and time.
 *
 * usage: peak PROGRAM [ARGUMENT...]
 * Prints: peak resident memory [kB], processor time, user and system [ms].
 * Its own pages count as the least that can be told, some 1.5 MB. */
#define _DEFAULT_SOURCE /* wait4 */

#include <fcntl.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

static double milliseconds(struct timeval time) {
    return (double)time.tv_sec * 1e3 + (double)time.tv_usec * 1e-3;
}

int main(int argc, char **argv) {
    struct rusage usage;
    int status;
    if (argc < 2)
        return 2;
    pid_t child = fork();
    if (child == 0) {
        int nowhere = open("/dev/null", O_WRONLY);
        if (nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0)
            _exit(127);
        execv(argv[1], argv + 1);
        _exit(127);
    }
    if (child < 0 || wait4(child, &status, 0, &usage) != child)
        return 1;
    printf("%ld %.1f\n", usage.ru_maxrss,
           milliseconds(usage.ru_utime) + milliseconds(usage.ru_stime));
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}
