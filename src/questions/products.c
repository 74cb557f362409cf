/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "products.h"

#include <stdlib.h>
#include <string.h>

#include "blanks.h"
#include "memory.h"
#include "sets.h"
#include "tile.h"

static int32_t product_label(const scw_reading *reading) {
  return reading->product != SCW_NO_LABEL ? reading->product : reading->set;
}

/* Which readings are the control: by product label, else by panel label. */
typedef struct control_rule {
  int32_t product, panel; /* SCW_NO_LABEL: not by this */
  bool baseline;          /* every reading is an after reading */
} control_rule;

static scw_side side_of(const scw_table *table, control_rule rule,
                        const scw_reading *reading) {
  if (rule.baseline && !scwi_is_tile(table, reading)) return SCW_SIDE_AFTER;
  return reading->side;
}

static bool is_control(control_rule rule, const scw_reading *reading) {
  return (rule.product != SCW_NO_LABEL &&
          product_label(reading) == rule.product) ||
         (rule.panel != SCW_NO_LABEL && reading->panel == rule.panel);
}

static bool is_called(const scw_table *table, int32_t label, const char *name) {
  return label != SCW_NO_LABEL && !strcmp(scw_table_label(table, label), name);
}

static scw_status find_control(scw_context *context, const scw_table *table,
                               const char *name, control_rule *out) {
  const scw_reading *readings = scw_table_readings(table);
  int32_t panel = SCW_NO_LABEL;
  *out = (control_rule){SCW_NO_LABEL, SCW_NO_LABEL, false};
  for (size_t i = 0; name && i < scw_table_size(table); i++) {
    int32_t label = product_label(&readings[i]);
    if (is_called(table, label, name)) {
      out->product = label;
      return SCW_OK;
    }
    if (is_called(table, readings[i].panel, name)) panel = readings[i].panel;
  }
  out->panel = panel;
  if (!name || panel != SCW_NO_LABEL) return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_ARGUMENT,
                      scw_table_input(table, 0)->name, 0, 0,
                      "no product and no panel is called '%s', which was "
                      "named as the control",
                      name);
}

/* Where the product of each label stands, plus 1; 0: not met. Labels are whole
 * numbers from SCW_NO_LABEL on. */
typedef struct product_places {
  size_t *of_label;
  size_t capacity; /* of the products */
} product_places;

static scw_status make_places(scw_context *context, const scw_table *table,
                              product_places *out) {
  int32_t last = SCW_NO_LABEL;
  for (size_t i = 0; i < scw_table_size(table); i++) {
    int32_t label = product_label(&scw_table_readings(table)[i]);
    if (label > last) last = label;
  }
  *out = (product_places){0};
  return SCWI_ALLOCATE(context, (size_t)(last - SCW_NO_LABEL) + 1,
                       &out->of_label);
}

/* The product of the reading, a new one where it was not met before. */
static scw_status find_product(scw_context *context, control_rule rule,
                               const scw_reading *reading,
                               product_places *places, scwi_products *all,
                               scwi_product **out) {
  int32_t label = product_label(reading);
  size_t *place = &places->of_label[label - SCW_NO_LABEL];
  if (is_control(rule, reading)) {
    *out = &all->control;
    return SCW_OK;
  }
  if (!*place) {
    scw_status status =
        SCWI_RESERVE(context, all->n + 1, &all->product, &places->capacity);
    if (status) return status;
    all->product[all->n++] = (scwi_product){.label = label};
    *place = all->n;
  }
  *out = &all->product[*place - 1];
  return SCW_OK;
}

/* How many readings each side of each product has. */
static scw_status count_sides(scw_context *context, const scw_table *table,
                              control_rule rule, product_places *places,
                              scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < scw_table_size(table); i++) {
    scwi_product *product;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_NONE) {
      all->aside += !scwi_is_tile(table, &readings[i]);
      continue;
    }
    scw_status status =
        find_product(context, rule, &readings[i], places, all, &product);
    if (status) return status;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_BEFORE)
      product->n_before++;
    else
      product->n_after++;
  }
  return SCW_OK;
}

static scw_status make_room(scw_context *context, scwi_product *product) {
  scw_status status =
      SCWI_ALLOCATE(context, product->n_before, &product->before);
  if (!status)
    status = SCWI_ALLOCATE(context, product->n_after, &product->after);
  product->n_before = product->n_after = 0;
  return status;
}

static scw_status fill_sides(scw_context *context, const scw_table *table,
                             control_rule rule, product_places *places,
                             scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  scw_status status = make_room(context, &all->control);
  for (size_t p = 0; p < all->n && !status; p++)
    status = make_room(context, &all->product[p]);
  for (size_t i = 0; i < scw_table_size(table) && !status; i++) {
    scwi_product *product;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_NONE) continue;
    status = find_product(context, rule, &readings[i], places, all, &product);
    if (status) break;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_BEFORE)
      product->before[product->n_before++] = i;
    else
      product->after[product->n_after++] = i;
  }
  return status;
}

/* Two states that are no words for before and after, or -1. */
static void find_states(const scw_table *table, int32_t found[2]) {
  found[0] = found[1] = SCW_NO_LABEL;
  for (size_t i = 0; i < scw_table_size(table); i++) {
    int32_t state = scw_table_readings(table)[i].state;
    if (state == SCW_NO_LABEL || state == found[0]) continue;
    size_t at = found[0] == SCW_NO_LABEL ? 0 : 1;
    found[at] = state;
    if (at == 1) return;
  }
}

static scw_status no_sides(scw_context *context, const scw_table *table) {
  int32_t state[2];
  char one[SCWI_SHOWN_SIZE], other[SCWI_SHOWN_SIZE];
  find_states(table, state);
  const char *first = scw_table_label(table, state[0]);
  const char *second = scw_table_label(table, state[1]);
  scwi_shown(first, strlen(first), one);
  scwi_shown(second, strlen(second), other);
  if (state[1] != SCW_NO_LABEL)
    return scwi_fail_at(
        context, SCW_BAD_INPUT, scw_table_input(table, 0)->name, 0, 0,
        "no before and after readings found among states such as '%s' and "
        "'%s'; say which is which: --before '%s' --after '%s'",
        one, other, one, other);
  return scwi_fail_at(
      context, SCW_BAD_INPUT, scw_table_input(table, 0)->name, 0, 0,
      "no before and after readings found; head two columns 'before' and "
      "'after', or add a column 'state' that says before or after on each "
      "row, or give two files: change BEFORE AFTER");
}

/* Reading order: the order column where every reading has one, else the
 * file's. */
static scw_status sort_sides(scw_context *context, const scw_table *table,
                             scwi_product *product) {
  scw_status status = scwi_sort_by_order(context, table, product->before,
                                         product->n_before);
  return status ? status
                : scwi_sort_by_order(context, table, product->after,
                                     product->n_after);
}

/* A file with before readings needs no baseline. */
static scw_status no_before(scw_context *context, const scw_table *table) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < scw_table_size(table); i++)
    if (readings[i].side == SCW_SIDE_BEFORE)
      return scwi_fail_at(
          context, SCW_BAD_ARGUMENT,
          scw_table_input(table, scw_table_input_of(table, i))->name,
          readings[i].line, readings[i].column,
          "a before reading, and a baseline was given too; use one of them");
  return SCW_OK;
}

scw_status scwi_products_of(scw_context *context, const scw_table *table,
                            const char *control, bool baseline,
                            scwi_products *out) {
  control_rule rule;
  product_places places = {0};
  *out = (scwi_products){0};
  scw_status status = find_control(context, table, control, &rule);
  rule.baseline = baseline;
  if (!status && baseline) status = no_before(context, table);
  if (!status) status = make_places(context, table, &places);
  if (!status) status = count_sides(context, table, rule, &places, out);
  if (!status && out->n == 0) status = no_sides(context, table);
  if (!status) status = fill_sides(context, table, rule, &places, out);
  for (size_t p = 0; p < out->n && !status; p++)
    status = sort_sides(context, table, &out->product[p]);
  if (!status) status = sort_sides(context, table, &out->control);
  free(places.of_label);
  if (status) scwi_products_free(out);
  return status;
}

static void free_sides(scwi_product *product) {
  free(product->before);
  free(product->after);
}

void scwi_products_free(scwi_products *products) {
  for (size_t p = 0; p < products->n; p++)
    free_sides(&products->product[p]);
  free_sides(&products->control);
  free(products->product);
  *products = (scwi_products){0};
}

const char *scwi_product_name(const scw_table *table,
                              const scwi_product *product) {
  return product->label == SCW_NO_LABEL
             ? ""
             : scw_table_label(table, product->label);
}
