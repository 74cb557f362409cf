/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "products.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"

static int32_t product_label(const scw_reading *reading) {
  return reading->product != SCW_NO_LABEL ? reading->product : reading->set;
}

static scw_status find_product(scw_context *context, int32_t label,
                               scwi_products *all, size_t *capacity,
                               scwi_product **out) {
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
                              scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  size_t capacity = 0;
  for (size_t i = 0; i < scw_table_size(table); i++) {
    scwi_product *product;
    if (readings[i].side == SCW_SIDE_NONE) {
      all->aside++;
      continue;
    }
    scw_status status = find_product(context, product_label(&readings[i]), all,
                                     &capacity, &product);
    if (status) return status;
    if (readings[i].side == SCW_SIDE_BEFORE)
      product->n_before++;
    else
      product->n_after++;
  }
  return SCW_OK;
}

static scw_status fill_sides(scw_context *context, const scw_table *table,
                             scwi_products *all) {
  const scw_reading *readings = scw_table_readings(table);
  scw_status status = SCW_OK;
  for (size_t p = 0; p < all->n && !status; p++) {
    scwi_product *product = &all->product[p];
    status = SCWI_ALLOCATE(context, product->n_before, &product->before);
    if (!status)
      status = SCWI_ALLOCATE(context, product->n_after, &product->after);
    product->n_before = product->n_after = 0;
  }
  for (size_t i = 0; i < scw_table_size(table) && !status; i++) {
    scwi_product *product;
    size_t capacity = all->n;
    if (readings[i].side == SCW_SIDE_NONE) continue;
    status = find_product(context, product_label(&readings[i]), all, &capacity,
                          &product);
    if (status) break;
    if (readings[i].side == SCW_SIDE_BEFORE)
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

static scw_status no_sides(scw_context *context, const scw_table *table) {
  return scwi_fail_at(
      context, SCW_BAD_INPUT, scw_table_input(table, 0)->name, 0, 0,
      "no before and after readings found; head two columns 'before' and "
      "'after', or add a column 'state' that says before or after on each "
      "row, or give two files: change BEFORE AFTER");
}

scw_status scwi_products_of(scw_context *context, const scw_table *table,
                            scwi_products *out) {
  *out = (scwi_products){0};
  scw_status status = count_sides(context, table, out);
  if (!status && out->n == 0) status = no_sides(context, table);
  if (!status) status = fill_sides(context, table, out);
  for (size_t p = 0; p < out->n && !status; p++) {
    sort_by_order(table, out->product[p].before, out->product[p].n_before);
    sort_by_order(table, out->product[p].after, out->product[p].n_after);
  }
  if (status) scwi_products_free(out);
  return status;
}

void scwi_products_free(scwi_products *products) {
  for (size_t p = 0; p < products->n; p++) {
    free(products->product[p].before);
    free(products->product[p].after);
  }
  free(products->product);
  *products = (scwi_products){0};
}

const char *scwi_product_name(const scw_table *table,
                              const scwi_product *product) {
  return product->label == SCW_NO_LABEL ? ""
                                        : scw_table_label(table,
                                                          product->label);
}
