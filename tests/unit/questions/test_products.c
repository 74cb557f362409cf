/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings sorted into products and sides, and what is said once for all of
 * them. */
#include "from_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "change_words.h"
#include "products.h"

/* Rows of many products in turn: each product keeps its own readings. */
static void many_products(void **state) {
  enum { MANY = 3000, SIZE = MANY * 2 * 40 + 100 };
  scw_context *context = a_context();
  char *text = malloc(SIZE);
  scwi_products products;
  (void)state;
  assert_non_null(text);
  int at = snprintf(text, SIZE, "product,state,reading\n");
  for (int turn = 0; turn < 2; turn++)
    for (int i = 0; i < MANY; i++)
      at += snprintf(text + at, (size_t)(SIZE - at), "K%d,%s,%d\n", i,
                     turn ? "after" : "before", 10 * i + turn);
  scw_table *table = table_from(context, text, NULL);
  went_well(context, scwi_products_of(context, table, NULL, false, &products));
  assert_int_equal(products.n, MANY);
  for (size_t i = 0; i < MANY; i++) {
    const scwi_product *product = &products.product[i];
    char name[16];
    snprintf(name, sizeof name, "K%zu", i);
    assert_string_equal(scwi_product_name(table, product), name);
    assert_int_equal(product->n_before, 1);
    assert_int_equal(product->n_after, 1);
    assert_int_equal(product->before[0], i);
    assert_int_equal(product->after[0], MANY + i);
  }
  scwi_products_free(&products);
  scw_table_free(table);
  free(text);
  scw_context_free(context);
}

/* Without a product column the one product has no name; a control is taken
 * out by its label. */
static void no_product_and_a_control(void **state) {
  scw_context *context = a_context();
  scwi_products products;
  scw_table *table =
      table_from(context, "state,reading\nbefore,1\nafter,2\n", NULL);
  (void)state;
  went_well(context, scwi_products_of(context, table, NULL, false, &products));
  assert_int_equal(products.n, 1);
  assert_string_equal(scwi_product_name(table, &products.product[0]), "");
  scwi_products_free(&products);
  scw_table_free(table);
  table = table_from(context,
                     "product,state,reading\nK1,before,1\nK0,before,2\n"
                     "K0,after,3\nK1,after,4\n",
                     NULL);
  went_well(context, scwi_products_of(context, table, "K0", false, &products));
  assert_int_equal(products.n, 1);
  assert_int_equal(products.control.before[0], 1);
  assert_int_equal(products.control.after[0], 2);
  scwi_products_free(&products);
  scw_table_free(table);
  scw_context_free(context);
}

/* The order column rules where every reading has one; equal orders stay as in
 * the file. */
static void the_order_column(void **state) {
  scw_context *context = a_context();
  scwi_products products;
  scw_table *table =
      table_from(context,
                 "state,order,reading\nbefore,3,1\nbefore,1,2\nbefore,3,3\n"
                 "before,2,4\nafter,2,5\nafter,,6\nafter,1,7\n",
                 NULL);
  static const size_t before[] = {1, 3, 0, 2}, after[] = {4, 5, 6};
  (void)state;
  went_well(context, scwi_products_of(context, table, NULL, false, &products));
  assert_memory_equal(products.product[0].before, before, sizeof before);
  assert_memory_equal(products.product[0].after, after, sizeof after);
  scwi_products_free(&products);
  scw_table_free(table);
  scw_context_free(context);
}

/* The tile stands beside all products: one note for the run. */
static void one_tile_note(void **state) {
  static const char text[] =
      "product,state,spot,reading\n,tile,,94.9\nK1,before,1,80.0\n"
      "K1,before,2,81.0\nK1,after,1,82.1\nK1,after,2,83.2\nK2,before,1,80\n"
      "K2,before,2,80.5\nK2,after,1,80.6\nK2,after,2,80.7\n,tile,,95.2\n";
  scw_context *context = a_context();
  scw_table *table = table_from(context, text, NULL);
  scw_change_options options = {.has_tile = true, .tile = 95.0};
  scw_change_result result;
  (void)state;
  went_well(context, scw_change(context, table, NULL, &options, &result));
  assert_int_equal(result.n_changes, 2);
  const char *note = note_text(result.notes, result.n_notes, "tile");
  assert_non_null(note);
  assert_non_null(strstr(note, "moved by 0.3"));
  assert_non_null(strstr(note, "The changes are not corrected"));
  for (size_t i = 0; i < result.n_changes; i++) {
    const scw_change_report *change = &result.changes[i];
    assert_null(note_text(change->notes, change->n_notes, "tile"));
    assert_int_equal(change->tile.n, 2);
  }
  scw_change_result_free(&result);
  scw_table_free(table);
  scw_context_free(context);
}

static void bare_numbers_in_words(void **state) {
  (void)state;
  const char *one = scwi_verdict_words(SCW_CONDITIONAL, SCW_AGAINST_BASELINE);
  const char *two = scwi_verdict_words(SCW_CONDITIONAL, SCW_BREAK_EVEN);
  assert_non_null(strstr(one, "the bare number is"));
  assert_non_null(strstr(two, "both bare numbers are"));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(many_products),
      cmocka_unit_test(no_product_and_a_control),
      cmocka_unit_test(the_order_column),
      cmocka_unit_test(one_tile_note),
      cmocka_unit_test(bare_numbers_in_words),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
