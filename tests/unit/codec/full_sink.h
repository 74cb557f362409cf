/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sink that keeps what it takes and refuses once it holds `most` bytes. */
#ifndef FULL_SINK_H
#define FULL_SINK_H

#include <stdbool.h>

#include "scatterwise/sink.h"
#include "text.h"

typedef struct full_sink {
  scwi_text text;
  size_t most; /* SIZE_MAX: no limit */
} full_sink;

static inline int full_sink_write(void *user, const char *data, size_t size) {
  full_sink *sink = user;
  size_t room = sink->most - sink->text.length;
  scwi_text_append(&sink->text, data, size < room ? size : room);
  return size <= room && !sink->text.failed ? 0 : 1;
}

static inline scw_sink full_sink_of(full_sink *sink) {
  return (scw_sink){full_sink_write, sink};
}

#endif
