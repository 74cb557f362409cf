/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels interned: equal texts are one number, so that sets are told apart by
 * comparing whole numbers. */
#ifndef SCWI_LABELS_H
#define SCWI_LABELS_H

#include <stdint.h>

#include "arena.h"

typedef struct scwi_labels {
  scwi_arena texts;
  struct scwi_label *label;
  size_t n, capacity;
  int32_t *slot;     /* open addressing; -1 is free; a power of two */
  size_t slots;
} scwi_labels;

/* Makes room for n labels in all, so that new ones cost less. */
scw_status scwi_labels_reserve(scw_context *context, scwi_labels *labels,
                               size_t n);
scw_status scwi_labels_intern(scw_context *context, scwi_labels *labels,
                              const char *text, size_t length, int32_t *out);

/* The same with the text's hash, for callers that keep it. */
uint64_t scwi_label_hash(const char *text, size_t length);
scw_status scwi_labels_intern_hashed(scw_context *context, scwi_labels *labels,
                                     const char *text, size_t length,
                                     uint64_t hash, int32_t *out);

/* The text of a label, closed by a zero; "" for SCW_NO_LABEL. */
const char *scwi_labels_text(const scwi_labels *labels, int32_t label);
size_t scwi_labels_length(const scwi_labels *labels, int32_t label);
void scwi_labels_free(scwi_labels *labels);

#endif
