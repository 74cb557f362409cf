/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "labels.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"

struct scwi_label {
  const char *text;
  size_t length;
  uint64_t hash;
};

/* Eight bytes at a time. No attacker gains more than slowness bounded by the
 * size of his own file. */
uint64_t scwi_label_hash(const char *text, size_t length) {
  uint64_t hash = length * 0x9E3779B97F4A7C15U, word;
  for (; length >= 8; text += 8, length -= 8) {
    memcpy(&word, text, 8);
    hash = (hash ^ word) * 0x9E3779B97F4A7C15U;
    hash ^= hash >> 29;
  }
  word = 0;
  memcpy(&word, text, length);
  hash = (hash ^ word) * 0xBF58476D1CE4E5B9U;
  return hash ^ hash >> 32;
}

static void enter(scwi_labels *labels, int32_t label) {
  size_t mask = labels->slots - 1;
  size_t at = (size_t)labels->label[label].hash & mask;
  while (labels->slot[at] >= 0) at = (at + 1) & mask;
  labels->slot[at] = label;
}

static scw_status widen(scw_context *context, scwi_labels *labels,
                        size_t expected) {
  size_t slots = labels->slots ? labels->slots * 2 : 64;
  while (slots < 2 * expected) slots *= 2;
  int32_t *wider;
  scw_status status = SCWI_ALLOCATE(context, slots, &wider);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < slots; i++) wider[i] = -1;
  free(labels->slot);
  labels->slot = wider;
  labels->slots = slots;
  for (size_t i = 0; i < labels->n; i++) enter(labels, (int32_t)i);
  return SCW_OK;
}

static scw_status add(scw_context *context, scwi_labels *labels,
                      struct scwi_label label, int32_t *out) {
  if (labels->n >= INT32_MAX / 2)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "more than a thousand million different labels");
  scw_status status = SCWI_RESERVE(context, labels->n + 1, &labels->label,
                                   &labels->capacity);
  if (status == SCW_OK && (labels->n + 1) * 2 > labels->slots)
    status = widen(context, labels, 0);
  if (status == SCW_OK)
    status = scwi_arena_copy(context, &labels->texts, label.text, label.length,
                             &label.text);
  if (status != SCW_OK) return status;
  labels->label[labels->n] = label;
  *out = (int32_t)labels->n++;
  enter(labels, *out);
  return SCW_OK;
}

scw_status scwi_labels_reserve(scw_context *context, scwi_labels *labels,
                               size_t n) {
  scw_status status =
      SCWI_RESERVE(context, n, &labels->label, &labels->capacity);
  if (status == SCW_OK && 2 * n > labels->slots)
    status = widen(context, labels, n);
  return status;
}

scw_status scwi_labels_intern(scw_context *context, scwi_labels *labels,
                              const char *text, size_t length, int32_t *out) {
  return scwi_labels_intern_hashed(context, labels, text, length,
                                   scwi_label_hash(text, length), out);
}

scw_status scwi_labels_intern_hashed(scw_context *context, scwi_labels *labels,
                                     const char *text, size_t length,
                                     uint64_t hash, int32_t *out) {
  size_t mask = labels->slots - 1, at = (size_t)hash & mask;
  for (; labels->slots && labels->slot[at] >= 0; at = (at + 1) & mask) {
    const struct scwi_label *known = labels->label + labels->slot[at];
    if (known->hash == hash && known->length == length &&
        !memcmp(known->text, text, length)) {
      *out = labels->slot[at];
      return SCW_OK;
    }
  }
  return add(context, labels, (struct scwi_label){text, length, hash}, out);
}

const char *scwi_labels_text(const scwi_labels *labels, int32_t label) {
  return label < 0 || (size_t)label >= labels->n ? "" : labels->label[label].text;
}

size_t scwi_labels_length(const scwi_labels *labels, int32_t label) {
  return label < 0 || (size_t)label >= labels->n ? 0
                                                 : labels->label[label].length;
}

void scwi_labels_free(scwi_labels *labels) {
  scwi_arena_free(&labels->texts);
  free(labels->label);
  free(labels->slot);
  *labels = (scwi_labels){0};
}
