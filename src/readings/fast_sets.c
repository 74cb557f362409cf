/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fast_sets.h"

#include <stdlib.h>
#include <string.h>

#include "labels.h"
#include "memory.h"
#include "words.h"

enum { LONGEST_LABEL = 200 };

/* Does the reader take this label as it stands, and its line for a reading?
 * Not a blank at an end, a comment, a summary line. */
static bool is_plain(const char *label, size_t length) {
  if (length == 0 || length > LONGEST_LABEL || label[0] == '#') return false;
  if (label[0] == ' ' || label[length - 1] == ' ') return false;
  for (size_t i = 0; i < length; i++)
    if (label[i] < ' ' || label[i] > '~') return false;
  return !scwi_is_summary(label, length);
}

static scw_status widen(scw_context *context, scwi_fast_sets *sets) {
  size_t slots = sets->slots ? sets->slots * 2 : 1024;
  uint32_t *wider;
  scw_status status = SCWI_ALLOCATE(context, slots, &wider);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < sets->n; i++) {
    size_t at = (size_t)sets->set[i].hash & (slots - 1);
    while (wider[at]) at = (at + 1) & (slots - 1);
    wider[at] = (uint32_t)i + 1;
  }
  free(sets->slot);
  sets->slot = wider;
  sets->slots = slots;
  return SCW_OK;
}

/* A new set whose slot is `at`. */
static scw_status add_set(scw_context *context, scwi_fast_sets *sets,
                          scwi_fast_set set, size_t at, size_t *out) {
  *out = SCWI_NO_FAST_SET;
  if (!is_plain(set.text, set.length) || sets->n >= UINT32_MAX - 1)
    return SCW_OK;
  scw_status status =
      SCWI_RESERVE(context, sets->n + 1, &sets->set, &sets->capacity);
  if (status == SCW_OK)
    status = scwi_arena_copy(context, &sets->texts, set.text, set.length,
                             &set.text);
  if (status != SCW_OK) return status;
  *out = sets->n++;
  sets->set[*out] = set;
  sets->slot[at] = (uint32_t)sets->n;
  return SCW_OK;
}

scw_status scwi_fast_sets_find(scw_context *context, scwi_fast_sets *sets,
                               const char *label, size_t length, size_t line,
                               size_t *out) {
  if (length > LONGEST_LABEL) return *out = SCWI_NO_FAST_SET, SCW_OK;
  if ((sets->n + 1) * 2 > sets->slots) {
    scw_status status = widen(context, sets);
    if (status != SCW_OK) return status;
  }
  uint64_t hash = scwi_label_hash(label, length);
  size_t at = (size_t)hash & (sets->slots - 1);
  for (; sets->slot[at]; at = (at + 1) & (sets->slots - 1)) {
    const scwi_fast_set *known = &sets->set[sets->slot[at] - 1];
    bool same = known->hash == hash && known->length == length &&
                memcmp(known->text, label, length) == 0;
    if (same) return *out = sets->slot[at] - 1, SCW_OK;
  }
  scwi_fast_set set = {label, (uint32_t)length, line, hash, {0}};
  return add_set(context, sets, set, at, out);
}

/* Other digits than before, or the first reading of all. */
static bool add_slowly(scwi_fast_sets *sets, size_t set, int64_t mantissa,
                       int digits) {
  scwi_decimal reading = {.mantissa = mantissa, .digits = (int16_t)digits,
                          .exact = true};
  int powers = scwi_tick_scale_rise(&sets->scale, &reading);
  if (powers < 0) return false;
  scwi_tick_scale_raise(&sets->scale, powers);
  for (; powers > 0; powers--)
    for (size_t i = 0; i < sets->n; i++)
      scwi_tick_sums_times_ten(&sets->set[i].sums);
  scwi_tick_sums_add(&sets->set[set].sums,
                     scwi_tick_scale_take(&sets->scale, &reading));
  return true;
}

bool scwi_fast_sets_add(scwi_fast_sets *sets, size_t set, int64_t mantissa,
                        int digits) {
  scwi_tick_scale *scale = &sets->scale;
  uint64_t size = mantissa < 0 ? -(uint64_t)mantissa : (uint64_t)mantissa;
  if (digits != scale->digits || !scale->settled || size > scale->largest)
    return add_slowly(sets, set, mantissa, digits);
  scale->n++;
  scwi_tick_sums_add(&sets->set[set].sums, mantissa);
  return true;
}

void scwi_fast_sets_free(scwi_fast_sets *sets) {
  free(sets->set);
  free(sets->slot);
  scwi_arena_free(&sets->texts);
  *sets = (scwi_fast_sets){0};
}
