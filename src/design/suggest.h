/* suggest.h - guess which parameter or group a mistyped name was meant to be. */
#ifndef DESIGN_SUGGEST_H
#define DESIGN_SUGGEST_H

enum { GROUP_NAME_MOST = 32 };

/* The parameter key nearest to `key` ("group.name"), also when only its group is wrong or
 * missing; NULL when none is near. */
const char *nearest_key(const char *key);

/* The nearest name of a group of parameters, copied into `group`, or NULL when none is near. */
const char *nearest_group(const char *name, char group[GROUP_NAME_MOST]);

#endif
