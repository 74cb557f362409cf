/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The products of a comparison and the figure of each. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "compare_inside.h"
#include "control.h"
#include "figure.h"
#include "friction.h"
#include "memory.h"

enum { MOST_PRODUCTS = 100 };

/* Does any product say what it was before? */
static bool any_before(const scw_table *table) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < scw_table_size(table); i++)
    if (readings[i].side == SCW_SIDE_BEFORE) return true;
  return false;
}

static scw_status prepare(scw_context *context, scwi_compare_run *run) {
  const scw_change_options block = {.has_block = run->options.has_block,
                                    .block = run->options.block,
                                    .block_unit = run->options.block_unit};
  scw_status status = scwi_table_facts_of(context, run->table, &run->settings,
                                          &run->facts);
  run->divisor = 1;
  if (!status && block.has_block)
    status = scwi_block_divisor(context, &block, run->facts.unit,
                                &run->divisor);
  run->step = scwi_step_over(run->facts.step, run->divisor);
  run->unit = block.has_block ? "" : run->facts.unit;
  run->friction = block.has_block || scwi_is_friction(run->facts.quantity);
  return status;
}

static bool is_complete(const scwi_product *product, bool changes) {
  return product->n_after && (product->n_before || !changes);
}

static const char *side_lacking(const scwi_product *product) {
  return product->n_before ? "after" : "before";
}

/* How many can be compared; the one left out last tells why there are few. */
static scw_status check_count(scw_context *context,
                              const scwi_compare_run *run,
                              const scwi_product *left_out) {
  if (run->n > MOST_PRODUCTS)
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "%zu products; up to %d can be compared at once, so "
                        "leave some out",
                        run->n, MOST_PRODUCTS);
  if (run->n >= 2) return SCW_OK;
  if (left_out)
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "%s product to compare: %s has no %s readings",
                        run->n ? "only one" : "no",
                        scwi_product_name(run->table, left_out),
                        side_lacking(left_out));
  return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                      "%s product to compare; give two or more, told apart by "
                      "a column product or a column for each; panels are "
                      "compared with --product panel",
                      run->n ? "only one" : "no");
}

/* A product with one side only is named, not dropped in silence. */
static scw_status choose(scw_context *context, scwi_compare_run *run,
                         bool changes) {
  const scwi_product *left_out = NULL;
  scw_status status = SCWI_ALLOCATE(context, run->products.n, &run->place);
  for (size_t i = 0; i < run->products.n && !status; i++) {
    const scwi_product *product = &run->products.product[i];
    if (is_complete(product, changes)) {
      run->place[run->n++] = i;
      continue;
    }
    left_out = product;
    status = scwi_note(context, &run->notes, "one_side_only",
                       "%s has no %s readings and takes no part.",
                       scwi_product_name(run->table, product),
                       side_lacking(product));
  }
  return status ? status : check_count(context, run, left_out);
}

static scw_status subtract_untreated(scw_context *context,
                                     scwi_compare_run *run) {
  scwi_contender bare = {0};
  const scwi_product *product = &run->products.control;
  if (!run->options.untreated) return SCW_OK;
  if (!product->n_before || !product->n_after)
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "the untreated panel %s must be read before and "
                        "after, like the products",
                        run->options.untreated);
  scw_status status = scwi_contender_of(context, run, product, true, &bare);
  run->untreated = bare.own;
  for (size_t i = 0; i < run->n && !status; i++) {
    scw_estimate treated = run->contender[i].own;
    status = scwi_control(context, &treated, &bare.own, run->settings.level,
                          &run->contender[i].own);
  }
  scwi_values_free(&bare.values);
  return status;
}

static scw_status find_control(scw_context *context,
                               const scwi_compare_run *run,
                               scw_compare_result *out) {
  const char *name = run->options.control;
  out->control = out->n_products;
  for (size_t i = 0; name && i < out->n_products; i++)
    if (!strcmp(out->product[i].label, name)) out->control = i;
  if (!name || out->control < out->n_products) return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_ARGUMENT, run->facts.name, 0, 0,
                      "no product that can be compared is called '%s', which "
                      "was named as the control",
                      name);
}

static scw_status hand_over(scw_context *context, const scwi_compare_run *run,
                            scw_compare_result *out) {
  scw_status status = SCWI_ALLOCATE(context, run->n, &out->product);
  for (size_t i = 0; i < run->n && !status; i++) {
    const scwi_contender *one = &run->contender[i];
    const char *name = scwi_product_name(
        run->table, &run->products.product[run->place[i]]);
    scw_compare_product *to = &out->product[out->n_products++];
    to->figure = one->own;
    to->sd = one->entry.sd_df > 0 ? scwi_figure(one->entry.sd)
                                  : scwi_missing(SCW_ONE_READING);
    to->n[0] = one->n_before;
    to->n[1] = one->n_after;
    to->paired = one->plan.paired;
    status = scwi_copy_text(context, name, strlen(name), &to->label);
    if (!status) status = SCWI_ALLOCATE(context, run->n, &to->tied);
  }
  return status ? status : find_control(context, run, out);
}

static scw_status sort_products(scw_context *context, scwi_compare_run *run,
                                bool changes) {
  const char *untreated = run->options.untreated;
  if (untreated && !changes)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an untreated panel was named, but the readings know no "
                     "before; its change cannot be taken off");
  scw_status status = scwi_products_of(context, run->table, untreated,
                                       !changes, &run->products);
  if (status != SCW_BAD_ARGUMENT) return status;
  return scwi_fail_at(context, SCW_BAD_ARGUMENT, run->facts.name, 0, 0,
                      "no product and no panel is called '%s', which was named "
                      "as the untreated panel",
                      untreated);
}

scw_status scwi_compare_products(scw_context *context, scwi_compare_run *run,
                                 scw_compare_result *out) {
  bool changes = any_before(run->table);
  scw_status status = prepare(context, run);
  if (!status) status = sort_products(context, run, changes);
  if (!status && run->products.aside)
    status = scwi_note(context, &run->notes, "neither_side",
                       "%zu readings are neither before nor after and take no "
                       "part.",
                       run->products.aside);
  if (!status) status = choose(context, run, changes);
  if (!status) status = SCWI_ALLOCATE(context, run->n, &run->contender);
  for (size_t i = 0; i < run->n && !status; i++) {
    const scwi_product *product = &run->products.product[run->place[i]];
    status = scwi_contender_of(context, run, product, changes,
                               &run->contender[i]);
  }
  if (!status) status = subtract_untreated(context, run);
  out->compared = changes ? SCW_COMPARED_CHANGES : SCW_COMPARED_MEANS;
  return status ? status : hand_over(context, run, out);
}

void scwi_compare_run_free(scwi_compare_run *run) {
  for (size_t i = 0; run->contender && i < run->n; i++)
    scwi_values_free(&run->contender[i].values);
  free(run->contender);
  free(run->place);
  scwi_products_free(&run->products);
  scwi_table_facts_free(&run->facts);
  scwi_notes_free(run->notes.note, run->notes.n);
}
