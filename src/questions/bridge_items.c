/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings sorted into items and methods; products told from baselines. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_inside.h"
#include "figure.h"
#include "memory.h"
#include "set_keys.h"
#include "sum.h"
#include "text.h"

static const char *const baseline_words[] = {
    "bare",    "baseline", "untreated", "uncoated", "control",
    "tile",    "standard", "none",      "blank"};
static const char *const product_words[] = {"product", "treated", "coated"};
#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static bool is_word(const char *text, const char *const *words, size_t n) {
  size_t length = strlen(text);
  for (size_t i = 0; i < n; i++)
    if (strlen(words[i]) == length && scwi_same_letters(text, words[i], length))
      return true;
  return false;
}

static scw_status fail_at(scw_context *context, const scwi_bridge_frame *frame,
                          size_t reading, const char *what, const char *text,
                          const char *words) {
  const scw_table *table = frame->table;
  return scwi_fail_at(
      context, SCW_BAD_INPUT,
      scw_table_input(table, scw_table_input_of(table, reading))->name,
      scw_table_readings(table)[reading].line, 0, "%s '%.60s' %s", what, text,
      words);
}

static bool is_named(const scwi_bridge_frame *frame, int32_t label,
                     const char *name) {
  return label != SCW_NO_LABEL &&
         !strcmp(scw_table_label(frame->table, label), name);
}

/* One of the reading's labels was given as a baseline's. */
static bool is_given(const scwi_bridge_frame *frame,
                     const scw_reading *reading, bool *met) {
  bool given = false;
  for (size_t i = 0; i < frame->options->n_baseline; i++) {
    const char *name = frame->options->baseline[i];
    bool it = is_named(frame, reading->product, name) ||
              is_named(frame, reading->set, name) ||
              is_named(frame, reading->panel, name) ||
              is_named(frame, reading->spot, name);
    met[i] = met[i] || it;
    given = given || it;
  }
  return given;
}

static scw_status is_baseline(scw_context *context,
                              const scwi_bridge_frame *frame, size_t i,
                              bool *met, bool *out) {
  const scw_reading *reading = &scw_table_readings(frame->table)[i];
  *out = is_given(frame, reading, met);
  if (*out) return SCW_OK;
  if (reading->kind != SCW_NO_LABEL) {
    const char *kind = scw_table_label(frame->table, reading->kind);
    *out = is_word(kind, baseline_words, COUNT(baseline_words));
    if (!*out && !is_word(kind, product_words, COUNT(product_words)))
      return fail_at(context, frame, i, "the kind", kind,
                     "is neither product nor bare; write one of these, or name "
                     "the baselines with --baseline");
  } else if (reading->product != SCW_NO_LABEL) {
    const char *product = scw_table_label(frame->table, reading->product);
    *out = is_word(product, baseline_words, COUNT(baseline_words));
  }
  return SCW_OK;
}

static scw_status check_baselines(scw_context *context,
                                  const scwi_bridge_frame *frame,
                                  const bool *met) {
  for (size_t i = 0; i < frame->options->n_baseline; i++)
    if (!met[i])
      return scwi_fail_at(context, SCW_BAD_ARGUMENT, frame->facts->name, 0, 0,
                          "no item is called '%.60s', which was named as a "
                          "baseline",
                          frame->options->baseline[i]);
  return SCW_OK;
}

/* The spot stands where sets keep their session. */
static scwi_set_key key_of(const scw_reading *reading) {
  return (scwi_set_key){.set = reading->set,
                        .product = reading->product,
                        .panel = reading->panel,
                        .session = reading->spot,
                        .state = SCW_NO_LABEL,
                        .side = SCW_SIDE_NONE};
}

static bool is_labelled(const scwi_set_key *key) {
  return key->set != SCW_NO_LABEL || key->product != SCW_NO_LABEL ||
         key->panel != SCW_NO_LABEL || key->session != SCW_NO_LABEL;
}

/* The item of every reading that counts; n_items: it does not. */
static scw_status sort_readings(scw_context *context, scwi_bridge_frame *frame,
                                scwi_set_index *keys, size_t *item_of) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < scw_table_size(frame->table) && !status; i++) {
    const scw_reading *reading = &scw_table_readings(frame->table)[i];
    scwi_set_key key = key_of(reading);
    item_of[i] = SIZE_MAX;
    frame->again += reading->replaces != SCW_NO_LABEL;
    if (reading->replaces != SCW_NO_LABEL) continue;
    if (reading->side == SCW_SIDE_NONE)
      return fail_at(context, frame, i, "the method",
                     reading->state == SCW_NO_LABEL
                         ? ""
                         : scw_table_label(frame->table, reading->state),
                     "is neither the old one nor the new one; write old or new, "
                     "or say which is which with --old and --new");
    frame->named = frame->named || is_labelled(&key);
    status = scwi_set_index_find(context, keys, &key, &item_of[i]);
  }
  frame->n_items = keys->n;
  return status;
}

/* Means and squares of every item on every side, two passes. */
static void sum_up(scwi_bridge_frame *frame, const size_t *item_of,
                   scwi_sum *sums) {
  const scw_reading *readings = scw_table_readings(frame->table);
  const int64_t *ticks = frame->facts->decimals.ticks;
  size_t size = scw_table_size(frame->table);
  double per_unit = pow(10, frame->facts->decimals.digits);
  frame->ticks = ticks != NULL;
  for (size_t i = 0; i < size; i++) {
    if (item_of[i] == SIZE_MAX) continue;
    int s = readings[i].side == SCW_SIDE_AFTER;
    scwi_bridge_side *side = &frame->side[s][item_of[i]];
    side->n++;
    scwi_sum_add(&sums[2 * item_of[i] + (size_t)s], readings[i].value);
    if (frame->ticks && __builtin_add_overflow(side->ticks, ticks[i],
                                               &side->ticks))
      frame->ticks = false;
  }
  for (size_t k = 0; k < frame->n_items; k++)
    for (size_t s = 0; s < 2; s++) {
      scwi_bridge_side *side = &frame->side[s][k];
      double sum = frame->ticks ? (double)side->ticks / per_unit
                                : scwi_sum_of(sums[2 * k + s]);
      if (side->n) side->mean = sum / (double)side->n;
    }
  for (size_t i = 0; i < size; i++) {
    if (item_of[i] == SIZE_MAX) continue;
    scwi_bridge_side *side =
        &frame->side[readings[i].side == SCW_SIDE_AFTER][item_of[i]];
    double off = side->n > 1 ? readings[i].value - side->mean : 0;
    side->squares += off * off;
  }
}

static scw_status check_sides(scw_context *context,
                              const scwi_bridge_frame *frame) {
  size_t n[2] = {0, 0};
  for (size_t k = 0; k < frame->n_items; k++)
    for (int s = 0; s < 2; s++) n[s] += frame->side[s][k].n;
  if (n[0] && n[1]) return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_INPUT, frame->facts->name, 0, 0,
                      "there are no readings by the %s method; a bridge needs "
                      "both",
                      n[0] ? "new" : "old");
}

static scw_status label_item(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scwi_set_key *key,
                             const scwi_set_parts *parts, char **out) {
  const int32_t labels[] = {key->set, key->product, key->panel, key->session};
  if (!frame->named) return scwi_copy_text(context, "all readings", 12, out);
  if (frame->n_items > 1 || !is_labelled(key))
    return scwi_set_label(context, frame->table, key, parts, out);
  size_t i = 0;
  while (labels[i] == SCW_NO_LABEL) i++;
  const char *text = scw_table_label(frame->table, labels[i]);
  return scwi_copy_text(context, text, strlen(text), out);
}

static scw_status make_items(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scwi_set_index *keys,
                             scw_bridge_result *out) {
  scwi_set_parts parts = scwi_set_parts_of(frame->table, keys->key, keys->n);
  scw_status status = SCWI_ALLOCATE(context, keys->n, &out->item);
  if (!status) out->n_items = keys->n;
  for (size_t k = 0; k < keys->n && !status; k++) {
    scw_bridge_item *item = &out->item[k];
    const scwi_bridge_side *of_old = &frame->side[0][k];
    const scwi_bridge_side *of_new = &frame->side[1][k];
    status = label_item(context, frame, &keys->key[k], &parts, &item->label);
    item->n_old = of_old->n;
    item->n_new = of_new->n;
    item->old_mean = of_old->n ? scwi_figure(of_old->mean)
                               : scwi_missing(SCW_NOT_COMPUTED);
    item->new_mean = of_new->n ? scwi_figure(of_new->mean)
                               : scwi_missing(SCW_NOT_COMPUTED);
    item->difference = of_old->n && of_new->n
                           ? scwi_figure(of_new->mean - of_old->mean)
                           : scwi_missing(SCW_NOT_COMPUTED);
  }
  return status;
}

/* Every reading of an item says the same of its kind. */
static scw_status sort_kinds(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const size_t *item_of, scw_bridge_result *out) {
  bool *met = NULL;
  scw_status status =
      SCWI_ALLOCATE(context, frame->options->n_baseline, &met);
  for (size_t i = 0; i < scw_table_size(frame->table) && !status; i++) {
    bool baseline = false;
    if (item_of[i] == SIZE_MAX) continue;
    scw_bridge_item *item = &out->item[item_of[i]];
    status = is_baseline(context, frame, i, met, &baseline);
    baseline = baseline || !frame->named;
    if (!status && item->line && item->baseline != baseline)
      status = fail_at(context, frame, i, "the item", item->label,
                       "is a product in one line and a baseline in another; "
                       "correct its kind");
    item->baseline = baseline;
    if (!item->line) item->line = scw_table_readings(frame->table)[i].line;
  }
  if (!status) status = check_baselines(context, frame, met);
  free(met);
  return status;
}

static scw_status say_unmatched(scw_context *context, scw_bridge_result *out) {
  scw_status status =
      SCWI_ALLOCATE(context, out->n_items, &out->unmatched);
  for (size_t k = 0; k < out->n_items && !status; k++) {
    const scw_bridge_item *item = &out->item[k];
    scwi_text text = {0};
    if (item->n_old && item->n_new) continue;
    scwi_text_format(&text, "%s was read by the %s method (line %zu) but not "
                            "by the %s one",
                     item->label, item->n_old ? "old" : "new", item->line,
                     item->n_old ? "new" : "old");
    status = scwi_text_take(context, &text, &out->unmatched[out->n_unmatched]);
    if (!status) out->n_unmatched++;
  }
  return status;
}

scw_status scwi_bridge_items(scw_context *context, scwi_bridge_frame *frame,
                             scw_bridge_result *out) {
  scwi_set_index keys = {0};
  size_t *item_of = NULL;
  scwi_sum *sums = NULL;
  scw_status status =
      SCWI_ALLOCATE(context, scw_table_size(frame->table), &item_of);
  if (!status) status = sort_readings(context, frame, &keys, item_of);
  for (int s = 0; s < 2 && !status; s++)
    status = SCWI_ALLOCATE(context, keys.n, &frame->side[s]);
  if (!status) status = SCWI_ALLOCATE(context, 2 * keys.n, &sums);
  if (!status) {
    sum_up(frame, item_of, sums);
    status = check_sides(context, frame);
  }
  if (!status) status = make_items(context, frame, &keys, out);
  if (!status) status = sort_kinds(context, frame, item_of, out);
  if (!status) status = say_unmatched(context, out);
  scwi_set_index_free(&keys);
  free(item_of);
  free(sums);
  return status;
}

void scwi_bridge_frame_free(scwi_bridge_frame *frame) {
  free(frame->side[0]);
  free(frame->side[1]);
  free(frame->item);
  free(frame->x);
  free(frame->y);
  free(frame->d);
  free(frame->d_ticks);
}
