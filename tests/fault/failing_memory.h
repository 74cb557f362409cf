/* SPDX-License-Identifier: GPL-3.0-or-later */
/* malloc, calloc, realloc and free of the whole program, GSL and cJSON
 * included: the n-th request can be made to fail, and what was not given back
 * is counted. */
#ifndef FAILING_MEMORY_H
#define FAILING_MEMORY_H

#include <stdbool.h>

/* From here on requests are counted, and the `failing`-th fails (0: none). */
void failing_memory_start(long failing);

typedef struct failing_memory_account {
  long requests; /* since the start */
  long live;     /* taken and not given back since the start */
  bool failed;   /* a request was made to fail */
} failing_memory_account;

/* Stops counting and failing. */
failing_memory_account failing_memory_stop(void);

#endif
