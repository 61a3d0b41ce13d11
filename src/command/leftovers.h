/* leftovers.h - the names of temporary files, and those a killed run left behind. */
#ifndef COMMAND_LEFTOVERS_H
#define COMMAND_LEFTOVERS_H

enum { TEMPORARY_NAME_MOST = 64 };

/* The name of temporary file `number` of this run, without its folder. */
void temporary_name(int number, char into[TEMPORARY_NAME_MOST]);

/* Remove from the open folder the temporary files of runs that are no more: plain files of
 * ours alone.  What cannot be removed stays; the descriptor stays open. */
void sweep_leftovers(int folder);

#endif
