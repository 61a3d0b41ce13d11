/* terminal.c - the only file that knows curses. */
#include "screen/terminal.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/select.h>
#include <termios.h>
#include <unistd.h>

#include "screen/keys.h"

#define NCURSES_NOMACROS 1
#include <curses.h>

enum { ESCAPE_WAIT_ms = 50, RESTORE_MOST = 256, COLUMNS_MOST = 512 };

/* A process has one terminal and one set of signal handlers; this is theirs. */
static struct {
    SCREEN *screen;
    bool colour;
    bool gone;          /* nothing more will come from it */
    sigset_t waiting;   /* the mask while asleep: only then are signals let in */
    sigset_t before;    /* the mask we found */
    struct termios was; /* for a crash, when curses cannot be asked */
    char restore[RESTORE_MOST];
    size_t restore_length;
} terminal;

static volatile sig_atomic_t end_signal, interrupted;

/* ---- looks ------------------------------------------------------------------ */

/* What each kind of cell looks like: in colours, and without. */
static const struct look {
    short foreground; /* -1: the terminal's own */
    chtype colour, mono;
} looks[CELL_KIND_COUNT] = {
    [CELL_BLANK] = {-1, A_NORMAL, A_NORMAL},
    [CELL_SOLID] = {-1, A_NORMAL, A_NORMAL},
    [CELL_DOTTED] = {COLOR_BLUE, A_NORMAL, A_NORMAL},
    [CELL_TEXT] = {-1, A_NORMAL, A_NORMAL},
    [CELL_TITLE] = {-1, A_BOLD, A_BOLD},
    [CELL_LABEL] = {-1, A_NORMAL, A_NORMAL},
    [CELL_VALUE] = {-1, A_BOLD, A_BOLD},
    [CELL_CHANGED] = {COLOR_YELLOW, A_BOLD, A_BOLD | A_UNDERLINE},
    [CELL_CURSOR] = {-1, A_REVERSE, A_REVERSE},
    [CELL_HELP] = {COLOR_CYAN, A_NORMAL, A_NORMAL},
    [CELL_KEY] = {COLOR_GREEN, A_BOLD, A_BOLD},
    [CELL_WARNING] = {COLOR_YELLOW, A_BOLD, A_BOLD},
    [CELL_ERROR] = {COLOR_RED, A_BOLD, A_REVERSE},
    [CELL_LIT] = {COLOR_YELLOW, A_BOLD, A_REVERSE},
    [CELL_DIMENSION] = {COLOR_GREEN, A_NORMAL, A_BOLD},
};

static void choose_colours(bool mono) {
    const char *no_colour = getenv("NO_COLOR");
    terminal.colour =
        !mono && (no_colour == NULL || no_colour[0] == '\0') && has_colors() && start_color() == OK;
    if (!terminal.colour)
        return;
    use_default_colors();
    for (int kind = 1; kind < CELL_KIND_COUNT; kind++)
        init_pair((short)kind, looks[kind].foreground, -1);
}

static chtype look_of(struct cell cell) {
    unsigned kind = cell.kind < CELL_KIND_COUNT ? cell.kind : CELL_TEXT;
    const struct look *look = &looks[kind];
    chtype glyph = (unsigned char)cell.glyph;
    if (!terminal.colour)
        return glyph | look->mono;
    return glyph | look->colour | (look->foreground >= 0 ? (chtype)COLOR_PAIR((int)kind) : 0);
}

/* ---- signals ---------------------------------------------------------------- */

static const int end_signals[] = {SIGTERM, SIGHUP, SIGQUIT};
static const int crash_signals[] = {SIGSEGV, SIGBUS, SIGABRT, SIGFPE, SIGILL};

static void note_end(int number) {
    end_signal = number;
}

static void note_interrupt(int number) {
    (void)number;
    interrupted = 1;
}

/* Only what may be called from a signal handler. */
static void restore_and_crash(int number) {
    if (write(STDOUT_FILENO, terminal.restore, terminal.restore_length) < 0 ||
        tcsetattr(STDIN_FILENO, TCSANOW, &terminal.was) != 0)
        terminal.gone = true;
    raise(number); /* the handler was for once */
}

static void handle(int number, void (*handler)(int), int flags) {
    struct sigaction action = {.sa_handler = handler, .sa_flags = flags};
    sigemptyset(&action.sa_mask);
    sigaction(number, &action, NULL);
}

/* Signals are held back but while we are asleep, so that none slips in between a look at the
 * flags and the sleep. */
static void catch_signals(void) {
    sigset_t held;
    sigemptyset(&held);
    for (size_t i = 0; i < COUNT_OF(end_signals); i++) {
        handle(end_signals[i], note_end, 0);
        sigaddset(&held, end_signals[i]);
    }
    handle(SIGINT, note_interrupt, 0);
    sigaddset(&held, SIGINT);
    sigaddset(&held, SIGWINCH);
    sigaddset(&held, SIGTSTP);
    for (size_t i = 0; i < COUNT_OF(crash_signals); i++)
        handle(crash_signals[i], restore_and_crash, (int)SA_RESETHAND | SA_NODEFER);
    sigprocmask(SIG_BLOCK, &held, &terminal.before);
    terminal.waiting = terminal.before;
    for (int number = 1; number < 32; number++)
        if (sigismember(&held, number) == 1)
            sigdelset(&terminal.waiting, number);
}

/* Once the end was asked for, asking again is not to cut short what is still to be done. */
static void release_signals(void) {
    bool ending = end_signal != 0 || terminal.gone;
    for (size_t i = 0; i < COUNT_OF(end_signals); i++)
        handle(end_signals[i], ending ? SIG_IGN : SIG_DFL, 0);
    for (size_t i = 0; i < COUNT_OF(crash_signals); i++)
        handle(crash_signals[i], SIG_DFL, 0);
    handle(SIGINT, ending ? SIG_IGN : SIG_DFL, 0);
    sigprocmask(SIG_SETMASK, &terminal.before, NULL);
}

/* ---- open and close ----------------------------------------------------------- */

static int refuse(struct text *complaint, const char *why) {
    text_add(complaint,
             "%s.\nEvery command works without them: see 'gorewright --help', or begin with\n"
             "'gorewright starter -o my-balloon.cfg'.",
             why);
    return -1;
}

static void add_restore(const char *capability) {
    char name[16];
    snprintf(name, sizeof name, "%s", capability);
    const char *bytes = tigetstr(name);
    if (bytes == NULL || (intptr_t)bytes == -1)
        return;
    size_t length = strlen(bytes);
    if (terminal.restore_length + length > RESTORE_MOST)
        return;
    memcpy(terminal.restore + terminal.restore_length, bytes, length);
    terminal.restore_length += length;
}

static void prepare_restore(void) {
    terminal.restore_length = 0;
    add_restore("sgr0");
    add_restore("cnorm");
    add_restore("rmcup");
    add_restore("rmkx");
}

static bool can_address_cursor(void) {
    char name[] = "cup";
    const char *bytes = tigetstr(name);
    return bytes != NULL && (intptr_t)bytes != -1;
}

/* Sent for Home and End whatever the terminal calls itself: some say they are of a kind that sends
 * others, and an unknown one would pass for Esc and letters. */
static void know_home_and_end(void) {
    static const struct {
        const char *bytes;
        int key;
    } sent[] = {{"\033[1~", KEY_HOME}, {"\033[4~", KEY_END}, {"\033[7~", KEY_HOME},
                {"\033[8~", KEY_END},  {"\033[H", KEY_HOME}, {"\033[F", KEY_END},
                {"\033OH", KEY_HOME},  {"\033OF", KEY_END}};
    for (size_t i = 0; i < COUNT_OF(sent); i++)
        if (key_defined(sent[i].bytes) == 0)
            define_key(sent[i].bytes, sent[i].key);
}

static void set_up_keys(void) {
    cbreak();
    noecho();
    nonl();
    keypad(stdscr, TRUE);
    know_home_and_end();
    nodelay(stdscr, TRUE);
    meta(stdscr, TRUE);
    if (getenv("ESCDELAY") == NULL)
        set_escdelay(ESCAPE_WAIT_ms);
}

int terminal_open(bool mono, struct text *complaint) {
    const char *name = getenv("TERM");
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO))
        return refuse(complaint, "the screens need a terminal, and this is none");
    if (name == NULL || name[0] == '\0' || strcmp(name, "dumb") == 0)
        return refuse(complaint, "the screens cannot be shown on a terminal of the kind 'dumb'");
    /* Or the size would be pinned to them. */
    unsetenv("LINES");
    unsetenv("COLUMNS");
    tcgetattr(STDIN_FILENO, &terminal.was);
    catch_signals(); /* ours first: curses leaves handlers alone that it finds */
    terminal.screen = newterm(NULL, stdout, stdin);
    if (terminal.screen == NULL || !can_address_cursor()) {
        terminal_close();
        return refuse(complaint, "the screens do not know how to use this kind of terminal (TERM)");
    }
    prepare_restore();
    set_up_keys();
    choose_colours(mono);
    return 0;
}

void terminal_close(void) {
    if (terminal.screen != NULL) {
        curs_set(1);
        endwin();
        delscreen(terminal.screen);
        terminal.screen = NULL;
    }
    release_signals();
}

/* ---- output ------------------------------------------------------------------- */

void terminal_size(size_t *columns, size_t *rows) {
    int height, width;
    getmaxyx(stdscr, height, width);
    *columns = width > 0 ? (size_t)width : 1;
    *rows = height > 0 ? (size_t)height : 1;
}

static void show_row(const struct canvas *canvas, size_t row) {
    chtype line[COLUMNS_MOST];
    size_t columns = canvas->columns < COLUMNS_MOST ? canvas->columns : COLUMNS_MOST;
    for (size_t column = 0; column < columns; column++)
        line[column] = look_of(canvas->cell[row * canvas->columns + column]);
    mvaddchnstr((int)row, 0, line, (int)columns);
}

void terminal_show(const struct canvas *canvas, long cursor_column, long cursor_row) {
    for (size_t row = 0; row < canvas->rows; row++)
        show_row(canvas, row);
    bool visible = cursor_column >= 0 && cursor_row >= 0;
    curs_set(visible ? 1 : 0);
    move(visible ? (int)cursor_row : 0, visible ? (int)cursor_column : 0);
    wnoutrefresh(stdscr);
    doupdate();
}

void terminal_repaint(void) {
    clearok(stdscr, TRUE);
}

/* ---- input -------------------------------------------------------------------- */

static int press_of(int key) {
    static const struct {
        int curses, press;
    } table[] = {
        {KEY_UP, PRESS_UP},         {KEY_DOWN, PRESS_DOWN},       {KEY_LEFT, PRESS_LEFT},
        {KEY_RIGHT, PRESS_RIGHT},   {KEY_HOME, PRESS_HOME},       {KEY_END, PRESS_END},
        {KEY_PPAGE, PRESS_PAGE_UP}, {KEY_NPAGE, PRESS_PAGE_DOWN}, {KEY_BTAB, PRESS_BACK_TAB},
        {KEY_ENTER, PRESS_ENTER},   {'\r', PRESS_ENTER},          {KEY_BACKSPACE, PRESS_BACKSPACE},
        {'\b', PRESS_BACKSPACE},    {0x7F, PRESS_BACKSPACE},      {KEY_DC, PRESS_DELETE},
        {KEY_F(1), PRESS_F1},       {KEY_RESIZE, PRESS_RESIZE},
    };
    for (size_t i = 0; i < COUNT_OF(table); i++)
        if (table[i].curses == key)
            return table[i].press;
    return key > 0 && key < 0x100 ? key : PRESS_OTHER;
}

int terminal_next(void) {
    if (end_signal != 0 || terminal.gone)
        return PRESS_END_NOW;
    int key = getch();
    return key == ERR ? 0 : press_of(key);
}

/* Readable, and yet no key: the other end is closed. */
static bool input_has_ended(void) {
    struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
    char byte;
    if (poll(&input, 1, 0) <= 0)
        return false;
    ssize_t count = read(STDIN_FILENO, &byte, 1);
    if (count > 0)
        ungetch((unsigned char)byte);
    return count == 0 || (count < 0 && errno != EINTR && errno != EAGAIN);
}

/* Asleep until there is something to read or a signal. */
static void sleep_until_input(void) {
    fd_set input;
    FD_ZERO(&input);
    FD_SET(STDIN_FILENO, &input);
    int ready = pselect(STDIN_FILENO + 1, &input, NULL, NULL, NULL, &terminal.waiting);
    if (ready < 0) {
        terminal.gone = errno != EINTR;
        return;
    }
    int key = getch();
    if (key != ERR)
        ungetch(key);
    else
        terminal.gone = input_has_ended();
}

int terminal_wait(void) {
    for (;;) {
        int press = terminal_next();
        if (press != 0)
            return press;
        if (interrupted != 0) {
            interrupted = 0;
            return PRESS_INTERRUPT;
        }
        sleep_until_input();
    }
}

int terminal_end_signal(void) {
    return end_signal;
}
