/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The context: first argument of everything that can fail. It carries the
 * message of the last failure, the number of threads and the limits. One
 * context serves one thread at a time; several may be used at once. */
#ifndef SCATTERWISE_CONTEXT_H
#define SCATTERWISE_CONTEXT_H

#include <stddef.h>

#include "scatterwise/status.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct scw_context scw_context;

/* Makes a context. The first one made takes GSL's aborting error handler out
 * of play for the whole process: the library's one process-wide effect.
 * Returns SCW_OUT_OF_MEMORY with *out null when there is no memory. */
SCW_API scw_status scw_context_new(scw_context **out);

/* Frees a context; null is accepted. */
SCW_API void scw_context_free(scw_context *context);

/* What went wrong in the last call that returned other than SCW_OK: what,
 * where, what to do. Borrowed until the next failing call; "" when nothing
 * has failed. */
SCW_API const char *scw_context_message(const scw_context *context);

/* Where it went wrong, counted from 1; 0 where no place in a file is known.
 * Columns count characters of the line, not bytes. */
SCW_API size_t scw_context_line(const scw_context *context);
SCW_API size_t scw_context_column(const scw_context *context);

/* Threads a call may use, 1 to 64 (default: 2). Results never depend on it. */
SCW_API scw_status scw_context_set_threads(scw_context *context,
                                           unsigned threads);

#ifdef __cplusplus
}
#endif
#endif
