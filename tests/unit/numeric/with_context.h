/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One context for all tests of a program, made and dropped around them. */
#ifndef WITH_CONTEXT_H
#define WITH_CONTEXT_H

#include "check.h"

#include "scatterwise/context.h"

static scw_context *context;

static inline int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) != SCW_OK;
}

static inline int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

#endif
