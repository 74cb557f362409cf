/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "products.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "blanks.h"
#include "memory.h"
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

static bool is_called(const scw_table *table, int32_t label,
                      const char *name) {
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

static scw_status find_product(scw_context *context, control_rule rule,
                               const scw_reading *reading, scwi_products *all,
                               size_t *capacity, scwi_product **out) {
  int32_t label = product_label(reading);
  if (is_control(rule, reading)) {
    *out = &all->control;
    return SCW_OK;
  }
  for (size_t i = all->n; i-- > 0;)
    if (all->product[i].label == label) {
      *out = &all->product[i];
      return SCW_OK;
    }
  scw_status status =
      SCWI_RESERVE(context, all->n + 1, &all->product, capacity);
  if (status) return status;
  *out = &all->product[all->n++];
  **out = (scwi_product){.label = label};
  return SCW_OK;
}

/* How many readings each side of each product has. */
static scw_status count_sides(scw_context *context, const scw_table *table,
                              control_rule rule, scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  size_t capacity = 0;
  for (size_t i = 0; i < scw_table_size(table); i++) {
    scwi_product *product;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_NONE) {
      all->aside += !scwi_is_tile(table, &readings[i]);
      continue;
    }
    scw_status status =
        find_product(context, rule, &readings[i], all, &capacity, &product);
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
                             control_rule rule, scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  scw_status status = make_room(context, &all->control);
  for (size_t p = 0; p < all->n && !status; p++)
    status = make_room(context, &all->product[p]);
  for (size_t i = 0; i < scw_table_size(table) && !status; i++) {
    scwi_product *product;
    size_t capacity = all->n;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_NONE) continue;
    status =
        find_product(context, rule, &readings[i], all, &capacity, &product);
    if (status) break;
    if (side_of(table, rule, &readings[i]) == SCW_SIDE_BEFORE)
      product->before[product->n_before++] = i;
    else
      product->after[product->n_after++] = i;
  }
  return status;
}

static int by_order(double a, double b, size_t i, size_t j) {
  if (a != b) return a < b ? -1 : 1;
  return i < j ? -1 : 1;
}

/* Reading order: the order column where every reading has one, else the file's
 * (insertion sort: files are nearly always in order already). */
static void sort_by_order(const scw_table *table, size_t *index, size_t n) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < n; i++)
    if (isnan(readings[index[i]].order)) return;
  for (size_t i = 1; i < n; i++) {
    size_t moving = index[i], at = i;
    while (at > 0 && by_order(readings[moving].order,
                              readings[index[at - 1]].order, moving,
                              index[at - 1]) < 0) {
      index[at] = index[at - 1];
      at--;
    }
    index[at] = moving;
  }
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

static void sort_sides(const scw_table *table, scwi_product *product) {
  sort_by_order(table, product->before, product->n_before);
  sort_by_order(table, product->after, product->n_after);
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
  *out = (scwi_products){0};
  scw_status status = find_control(context, table, control, &rule);
  rule.baseline = baseline;
  if (!status && baseline) status = no_before(context, table);
  if (!status) status = count_sides(context, table, rule, out);
  if (!status && out->n == 0) status = no_sides(context, table);
  if (!status) status = fill_sides(context, table, rule, out);
  for (size_t p = 0; p < out->n && !status; p++)
    sort_sides(table, &out->product[p]);
  if (!status) sort_sides(table, &out->control);
  if (status) scwi_products_free(out);
  return status;
}

static void free_sides(scwi_product *product) {
  free(product->before);
  free(product->after);
}

void scwi_products_free(scwi_products *products) {
  for (size_t p = 0; p < products->n; p++) free_sides(&products->product[p]);
  free_sides(&products->control);
  free(products->product);
  *products = (scwi_products){0};
}

const char *scwi_product_name(const scw_table *table,
                              const scwi_product *product) {
  return product->label == SCW_NO_LABEL ? ""
                                        : scw_table_label(table,
                                                          product->label);
}
