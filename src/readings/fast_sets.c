/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fast_sets.h"

#include <stdlib.h>
#include <string.h>

#include "labels.h"
#include "memory.h"
#include "words.h"

enum { LONGEST_LABEL = 200, LINE_OF_CACHE = 64 };

/* Does the reader take this label as it stands, and its line for a reading?
 * Not a blank at an end, a comment, a summary line. */
static bool is_plain(const char *label, size_t length) {
  if (length == 0 || length > LONGEST_LABEL || label[0] == '#') return false;
  if (label[0] == ' ' || label[length - 1] == ' ') return false;
  for (size_t i = 0; i < length; i++)
    if (label[i] < ' ' || label[i] > '~') return false;
  return !scwi_is_summary(label, length);
}

static uint64_t slot_of(uint64_t hash, size_t set) {
  return (hash & ~(uint64_t)UINT32_MAX) | (set + 1);
}

static size_t set_of(uint64_t slot) { return (uint32_t)slot - 1; }

static bool may_be(uint64_t slot, uint64_t hash) {
  return ((slot ^ hash) & ~(uint64_t)UINT32_MAX) == 0;
}

static scw_status widen(scw_context *context, scwi_fast_sets *sets) {
  size_t slots = sets->slots ? sets->slots * 2 : 1024;
  uint64_t *wider;
  scw_status status = SCWI_ALLOCATE(context, slots, &wider);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < sets->n; i++) {
    size_t at = (size_t)sets->name[i].hash & (slots - 1);
    while (wider[at]) at = (at + 1) & (slots - 1);
    wider[at] = slot_of(sets->name[i].hash, i);
  }
  free(sets->slot);
  sets->slot = wider;
  sets->slots = slots;
  return SCW_OK;
}

/* Room for one more chunk of sets, each in a line of the cache of its own. */
static scw_status add_chunk(scw_context *context, scwi_fast_sets *sets) {
  char *room;
  size_t n = sets->chunks + 1;
  scw_status status =
      SCWI_RESERVE(context, n, &sets->chunk, &sets->chunk_capacity);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, n, &sets->room, &sets->room_capacity);
  if (status == SCW_OK)
    status = SCWI_ALLOCATE(
        context, SCWI_FAST_CHUNK * sizeof(scwi_fast_set) + LINE_OF_CACHE,
        &room);
  if (status != SCW_OK) return status;
  size_t past = (uintptr_t)room % LINE_OF_CACHE;
  sets->room[sets->chunks] = room;
  sets->chunk[sets->chunks++] =
      (void *)(room + (past ? LINE_OF_CACHE - past : 0));
  return SCW_OK;
}

/* A new set whose slot is `at`. */
static scw_status add_set(scw_context *context, scwi_fast_sets *sets,
                          scwi_fast_name name, size_t at, size_t *out) {
  *out = SCWI_NO_FAST_SET;
  if (!is_plain(name.text, name.length) || sets->n >= UINT32_MAX - 1)
    return SCW_OK;
  scw_status status =
      SCWI_RESERVE(context, sets->n + 1, &sets->name, &sets->capacity);
  if (status == SCW_OK && sets->n == sets->chunks * SCWI_FAST_CHUNK)
    status = add_chunk(context, sets);
  if (status == SCW_OK)
    status = scwi_arena_copy(context, &sets->texts, name.text, name.length,
                             &name.text);
  if (status != SCW_OK) return status;
  *out = sets->n++;
  sets->name[*out] = name;
  sets->slot[at] = slot_of(name.hash, *out);
  scwi_fast_set *set = scwi_fast_set_at(sets, *out);
  memcpy(set->start, name.text,
         name.length < sizeof set->start ? name.length : sizeof set->start);
  return SCW_OK;
}

/* Labels hold no zeros: up to 15 bytes the start tells all. */
static bool has_label(const scwi_fast_sets *sets, size_t set,
                      const char *label, size_t length) {
  const char *start = scwi_fast_set_at(sets, set)->start;
  if (length < 16) return start[length] == 0 && !memcmp(start, label, length);
  return sets->name[set].length == length &&
         !memcmp(sets->name[set].text, label, length);
}

void scwi_fast_sets_expect_slot(const scwi_fast_sets *sets, uint64_t hash) {
  if (sets->slots)
    __builtin_prefetch(&sets->slot[(size_t)hash & (sets->slots - 1)]);
}

void scwi_fast_sets_expect_set(const scwi_fast_sets *sets, uint64_t hash) {
  if (!sets->slots) return;
  uint64_t slot = sets->slot[(size_t)hash & (sets->slots - 1)];
  if (slot && may_be(slot, hash))
    __builtin_prefetch(scwi_fast_set_at(sets, set_of(slot)), 1);
}

scw_status scwi_fast_sets_find(scw_context *context, scwi_fast_sets *sets,
                               const char *label, size_t length, uint64_t hash,
                               size_t line, size_t *out) {
  if (length > LONGEST_LABEL) return *out = SCWI_NO_FAST_SET, SCW_OK;
  if ((sets->n + 1) * 2 > sets->slots) {
    scw_status status = widen(context, sets);
    if (status != SCW_OK) return status;
  }
  size_t at = (size_t)hash & (sets->slots - 1);
  for (; sets->slot[at]; at = (at + 1) & (sets->slots - 1)) {
    *out = set_of(sets->slot[at]);
    if (may_be(sets->slot[at], hash) && has_label(sets, *out, label, length))
      return SCW_OK;
  }
  return add_set(context, sets, (scwi_fast_name){label, length, line, hash},
                 at, out);
}

/* Other digits than before, or the first reading of all. */
bool scwi_fast_sets_add_slowly(scwi_fast_sets *sets, size_t set,
                               int64_t mantissa, int digits) {
  scwi_decimal reading = {.mantissa = mantissa, .digits = (int16_t)digits,
                          .exact = true};
  int powers = scwi_tick_scale_rise(&sets->scale, &reading);
  if (powers < 0) return false;
  scwi_tick_scale_raise(&sets->scale, powers);
  for (; powers > 0; powers--)
    for (size_t i = 0; i < sets->n; i++)
      scwi_tick_sums_times_ten(&scwi_fast_set_at(sets, i)->sums);
  scwi_tick_sums_add(&scwi_fast_set_at(sets, set)->sums,
                     scwi_tick_scale_take(&sets->scale, &reading));
  return true;
}

void scwi_fast_sets_free(scwi_fast_sets *sets) {
  for (size_t i = 0; i < sets->chunks; i++) free(sets->room[i]);
  free(sets->chunk);
  free(sets->room);
  free(sets->name);
  free(sets->slot);
  scwi_arena_free(&sets->texts);
  *sets = (scwi_fast_sets){0};
}
