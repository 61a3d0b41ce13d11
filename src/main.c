/* main.c - gorewright: gores, panels and templates for model hot-air balloons. */
#include <locale.h>

#include "gorewright/command.h"

int main(int argc, char **argv) {
    /* Characters only: numbers keep their point in every locale. */
    setlocale(LC_CTYPE, "");
    return command_line(argc, argv);
}
