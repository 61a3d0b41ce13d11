/* tmux.h - the program in a real terminal: keys sent, the screen read until it shows what is
 * waited for.  Nothing sleeps for a fixed time. */
#ifndef TESTS_TERMINAL_TMUX_H
#define TESTS_TERMINAL_TMUX_H

#define _XOPEN_SOURCE 700 /* realpath */

#include "support.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <time.h>
#include <unistd.h>

enum { PATIENCE_ms = 20000, LOOK_EVERY_ms = 15 };

#define TMUX "env -u TMUX tmux -S %s -f /dev/null "

/* Each terminal has a server of its own: one that is ending cannot get in the way of the next. */
static unsigned terminals;

__attribute__((unused)) static const char *socket_path(void) {
    static char path[128];
    snprintf(path, sizeof path, "%s/socket%u", scratch_folder(), terminals);
    return path;
}

__attribute__((unused)) static void pause_a_little(void) {
    struct timespec moment = {0, LOOK_EVERY_ms * 1000000L};
    nanosleep(&moment, NULL);
}

/* Run a shell command; its output, to be freed. */
__attribute__((unused)) static char *output_of(const char *command) {
    static char bytes[1 << 18];
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t length = fread(bytes, 1, sizeof bytes - 1, pipe);
    bytes[length] = '\0';
    pclose(pipe);
    return bytes;
}

__attribute__((unused)) static void do_shell(const char *format, ...) FORMATTED(1, 2);

__attribute__((unused)) static void do_shell(const char *format, ...) {
    char command[4096];
    va_list list;
    va_start(list, format);
    vsnprintf(command, sizeof command, format, list);
    va_end(list);
    if (system(command) != 0)
        fail_msg("this failed: %s", command);
}

/* ---- a terminal ------------------------------------------------------------------ */

__attribute__((unused)) static bool there_is(const char *name) {
    char path[512];
    struct stat file;
    snprintf(path, sizeof path, "%s/%s", scratch_folder(), name);
    return stat(path, &file) == 0;
}

__attribute__((unused)) static pid_t program_pid(void) {
    char path[512];
    long pid = 0;
    snprintf(path, sizeof path, "%s/pid", scratch_folder());
    for (int waited = 0; waited < PATIENCE_ms && pid == 0; waited += LOOK_EVERY_ms) {
        FILE *file = fopen(path, "r");
        if (file != NULL) {
            if (fscanf(file, "%ld", &pid) != 1)
                pid = 0;
            fclose(file);
        } else {
            pause_a_little();
        }
    }
    assert_true(pid > 1);
    return (pid_t)pid;
}

/* Wait until a process is gone. */
__attribute__((unused)) static void wait_for_end(pid_t pid) {
    for (int waited = 0; waited < PATIENCE_ms; waited += LOOK_EVERY_ms) {
        if (kill(pid, 0) != 0)
            return;
        pause_a_little();
    }
    fail_msg("process %ld does not end", (long)pid);
}

/* What still runs in it has ended, and written what it had to, before the next test begins. */
__attribute__((unused)) static void terminal_end(void) {
    pid_t pid = there_is("pid") ? program_pid() : 0;
    do_shell(TMUX "kill-server 2>/dev/null || true", socket_path());
    if (pid > 0)
        wait_for_end(pid);
}

/* Begin a terminal of a size that runs `line` in the scratch folder.  $GW is the program. */
__attribute__((unused)) static void terminal_begin(int columns, int rows, const char *line) {
    char path[4096];
    const char *program = getenv("GOREWRIGHT");
    assert_non_null(realpath(program != NULL ? program : "build/gorewright", path));
    FILE *script = fopen(scratch_file("run.sh", ""), "w");
    assert_non_null(script);
    /* The look for leaks at the end hangs when the closed terminal wakes a process that it has
     * just stopped; other tests look for them. */
    fprintf(script,
            "ASAN_OPTIONS=detect_leaks=0; export ASAN_OPTIONS\n"
            "unset TMUX TMUX_PANE LINES COLUMNS NO_COLOR ESCDELAY\n"
            "XDG_STATE_HOME=%s/state\nexport XDG_STATE_HOME\ncd %s\nGW='%s'\nexport GW\n%s\n",
            scratch_folder(), scratch_folder(), path, line);
    fclose(script);
    terminal_end();
    terminals++;
    do_shell(TMUX "new-session -d -x %d -y %d 'sh %s/run.sh' ';' set-option -g status off "
                  ">/dev/null",
             socket_path(), columns, rows, scratch_folder());
    do_shell(TMUX "resize-window -x %d -y %d", socket_path(), columns, rows);
}

/* The usual way: the program with `arguments`, its process number in the file `pid`; when it
 * has ended its status stands on the screen. */
__attribute__((unused)) static void program_begins(int columns, int rows, const char *terminal,
                                                   const char *arguments) {
    char line[2048];
    snprintf(line, sizeof line,
             "rm -f pid; TERM=%s; export TERM; trap : INT\n"
             "sh -c 'echo $$ >pid.part; mv pid.part pid; exec \"$GW\" %s'\n"
             "echo \"ended with $?\"\nexec sleep 1000",
             terminal, arguments);
    terminal_begin(columns, rows, line);
}

__attribute__((unused)) static char *screen_now(const char *options) {
    char command[1024];
    snprintf(command, sizeof command, TMUX "capture-pane -p %s 2>/dev/null", socket_path(),
             options);
    return output_of(command);
}

/* Wait until the screen shows `words`, or, with shown false, until it does not. */
__attribute__((unused)) static void wait_until(const char *words, bool shown) {
    char *screen = NULL;
    for (int waited = 0; waited < PATIENCE_ms; waited += LOOK_EVERY_ms) {
        screen = screen_now("");
        if ((strstr(screen, words) != NULL) == shown)
            return;
        pause_a_little();
    }
    fail_msg("waited in vain until '%s' is %s:\n%s", words, shown ? "there" : "gone", screen);
}

__attribute__((unused)) static void wait_for(const char *words) {
    wait_until(words, true);
}

__attribute__((unused)) static void wait_without(const char *words) {
    wait_until(words, false);
}

/* Send keys by tmux's names: "Enter", "Escape", "Right", letters. */
__attribute__((unused)) static void send(const char *keys) {
    do_shell(TMUX "send-keys %s", socket_path(), keys);
}

/* Send text as it is. */
__attribute__((unused)) static void type(const char *text) {
    do_shell(TMUX "send-keys -l '%s'", socket_path(), text);
}

__attribute__((unused)) static void resize(int columns, int rows) {
    do_shell(TMUX "resize-window -x %d -y %d", socket_path(), columns, rows);
}

/* ---- the program in it ------------------------------------------------------------ */

__attribute__((unused)) static void send_signal(int number) {
    assert_int_equal(kill(program_pid(), number), 0);
}

__attribute__((unused)) static int clear_folder(void **state) {
    char command[512];
    (void)state;
    snprintf(command, sizeof command, "rm -rf %s/* %s/.[a-z]*; mkdir -p %s/state", scratch_folder(),
             scratch_folder(), scratch_folder());
    return system(command) == 0 ? 0 : -1;
}

__attribute__((unused)) static int leave_terminal(void **state) {
    (void)state;
    terminal_end();
    return 0;
}

/* Whether a tool is installed; in CI it has to be. */
__attribute__((unused)) static bool has_tool(const char *name) {
    char command[128];
    snprintf(command, sizeof command, "command -v %s >/dev/null", name);
    bool found = system(command) == 0;
    if (!found && getenv("CI") != NULL)
        fail_msg("%s is missing", name);
    return found;
}

#define IN_TERMINAL(test) cmocka_unit_test_setup_teardown(test, clear_folder, leave_terminal)

#endif
