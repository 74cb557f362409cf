/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the context, and the one way to report a failure. */
#ifndef SCWI_CONTEXT_H
#define SCWI_CONTEXT_H

#include "scatterwise/context.h"

enum { SCWI_MESSAGE_SIZE = 1024 };

struct scw_context {
  char message[SCWI_MESSAGE_SIZE];
  size_t line, column;
  unsigned threads;
};

/* A context ready for use (GSL is taken care of by scw_context_new). */
scw_status scwi_context_make(scw_context **out);

/* Records the message and returns `status`. Numbers with decimals must come
 * as text made by scwi_number_text or scwi_rounded_text: printf's own follow
 * the host's locale. */
scw_status scwi_fail(scw_context *context, scw_status status,
                     const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* The same for a place in a file: "NAME, line L, column C: ...". A column of
 * 0 names the line only, a line of 0 the file only. */
scw_status scwi_fail_at(scw_context *context, scw_status status,
                        const char *name, size_t line, size_t column,
                        const char *format, ...)
    __attribute__((format(printf, 6, 7)));

#endif
