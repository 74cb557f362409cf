/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts that a bench owns, by their places in a struct. */
#ifndef SCWI_BENCH_TEXTS_H
#define SCWI_BENCH_TEXTS_H

#include <stdbool.h>
#include <stddef.h>

#include "context.h"

/* Something a person can read: UTF-8, no control characters, no blanks
 * around. */
bool scwi_is_readable(const char *text);
#define SCWI_READABLE "must be readable text without blanks before or after it"

/* The texts at those offsets of `item` are borrowed and become copies of its
 * own; null becomes "". On failure all are null. */
scw_status scwi_texts_own(scw_context *context, void *item,
                          const size_t *offsets, size_t n);
void scwi_texts_free(void *item, const size_t *offsets, size_t n);

#endif
