/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks at JSON that was written, read back by cJSON. Paths are such as
 * "results.sets.0.interval.low". */
#ifndef JSON_LOOK_H
#define JSON_LOOK_H

#include <cjson/cJSON.h>

#include "made_up.h"

const cJSON *at(const cJSON *from, const char *path);

void check_is(const cJSON *root, const char *path, double wanted);
void check_text(const cJSON *root, const char *path, const char *wanted);
void check_null(const cJSON *root, const char *path);
void check_true(const cJSON *root, const char *path, bool wanted);
/* null, and the code in the missing map of its own object. */
void check_missing(const cJSON *root, const char *object, const char *key,
                   const char *code);
/* Every key of the list, separated by blanks, is there. */
void check_keys(const cJSON *root, const char *path, const char *keys);

/* What was written, parsed; it ends in a line end. */
cJSON *parsed(scw_status status, written *to);

#endif
