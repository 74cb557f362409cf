/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a table sorted into products and their two sides. */
#ifndef SCWI_PRODUCTS_H
#define SCWI_PRODUCTS_H

#include "context.h"
#include "scatterwise/table.h"

typedef struct scwi_product {
  int32_t label;          /* product, or set where there is no product */
  size_t *before, *after; /* indices into the table, in reading order */
  size_t n_before, n_after;
} scwi_product;

typedef struct scwi_products {
  scwi_product *product;
  size_t n;
  size_t aside; /* readings that are neither before nor after */
  scwi_product control; /* empty without one */
} scwi_products;

/* In order of first appearance. `control` (or null) is a label of the product
 * column, else of the panel column; its readings form the control.
 * With `baseline` every reading is an after reading, and one that says before
 * is refused. SCW_BAD_INPUT when the table has no two sides, SCW_BAD_ARGUMENT
 * when no product and no panel is called `control`. */
scw_status scwi_products_of(scw_context *context, const scw_table *table,
                            const char *control, bool baseline,
                            scwi_products *out);
void scwi_products_free(scwi_products *products);

/* "" for a product without a name. */
const char *scwi_product_name(const scw_table *table,
                              const scwi_product *product);
#endif
