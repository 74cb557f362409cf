/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where bytes go to and come from: the caller's own functions, so that the
 * library opens nothing it was not given and prints nothing. */
#ifndef SCATTERWISE_SINK_H
#define SCATTERWISE_SINK_H

#include <stddef.h>

#include "scatterwise/context.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Takes `size` bytes; returns 0, or another value when they could not be
 * taken (the call that writes then returns SCW_NOT_WRITTEN). */
typedef struct scw_sink {
  int (*write)(void *user, const char *data, size_t size);
  void *user;
} scw_sink;

/* Fills `buffer` with up to `size` bytes and sets *got; *got = 0 is the end.
 * Returns 0, or an errno value when reading failed. `name` is used in
 * messages and reports (a base name, or "standard input"). */
typedef struct scw_source {
  int (*read)(void *user, char *buffer, size_t size, size_t *got);
  void *user;
  const char *name;
} scw_source;

#ifdef __cplusplus
}
#endif
#endif
