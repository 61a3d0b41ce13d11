/* actions.h - what each command does. */
#ifndef COMMAND_ACTIONS_H
#define COMMAND_ACTIONS_H

#include "gorewright/command.h"

int run_starter(const struct request *request);
int run_check(const struct request *request);
int run_figures(const struct request *request);
int run_flight(const struct request *request);
int run_compare(const struct request *request);
int run_stations(const struct request *request);
int run_outlines(const struct request *request);
int run_sheets(const struct request *request);
int run_templates(const struct request *request);
int run_layout(const struct request *request);
int run_cut_list(const struct request *request);
int run_materials(const struct request *request);

#endif
