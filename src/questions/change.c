/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2: did the product move the reading, or is that the panel's own
 * scatter? */
#include "scatterwise/change.h"

#include <stdlib.h>
#include <string.h>

#include "change_options.h"
#include "change_report.h"
#include "family.h"
#include "friction.h"
#include "memory.h"
#include "products.h"
#include "settings.h"
#include "text.h"
#include "tile.h"

/* What all products of one run share. */
typedef struct change_run {
  const scw_table *table;
  const scw_settings *settings;
  scwi_table_facts facts;
  double divisor;       /* the block; 1 without */
  bool friction;
  double margin;
  const char *control;         /* its label; null: none */
  bool halves;
  const scw_given_side *baseline; /* in place of before readings; or null */
  scw_tile tile;
  scwi_arm control_arm, control_worn_in;
} change_run;

static scw_status prepare(scw_context *context,
                          const scw_change_options *options,
                          change_run *run) {
  scw_status status = scwi_check_margin(context, options->margin);
  if (!status && options->has_baseline)
    status = scwi_check_given(context, "the baseline", &options->baseline);
  run->margin = options->margin;
  run->baseline = options->has_baseline ? &options->baseline : NULL;
  run->divisor = 1;
  run->friction = options->has_block;
  run->control = options->control;
  run->halves = options->paired_halves;
  if (!status && run->baseline && run->control)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "a baseline number and a control were given; a control "
                       "needs readings before and after, so use one of them");
  if (!status && run->halves && !run->control)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "paired halves need a control: name the untreated half "
                       "with --control");
  if (!status)
    status =
        scwi_table_facts_of(context, run->table, run->settings, &run->facts);
  if (!status)
    status = scwi_tile_of(context, run->table, &run->facts, options,
                          &run->tile);
  if (!status && options->has_block)
    status = scwi_block_divisor(context, options, run->facts.unit,
                                &run->divisor);
  return status;
}

/* The readings of a side without first pulls: where spots (or directions of a
 * spot) hold repeats, the first pull of each; else the side's very first. */
static scw_status without_first(scw_context *context, const scw_table *table,
                                const size_t *index, size_t n, size_t **out,
                                size_t *kept) {
  const scw_reading *readings = scw_table_readings(table);
  bool *first = NULL;
  size_t repeats = 0;
  *kept = 0;
  scw_status status = SCWI_ALLOCATE(context, n, out);
  if (!status) status = SCWI_ALLOCATE(context, n, &first);
  for (size_t i = 0; i < n && !status; i++) {
    const scw_reading *mine = &readings[index[i]];
    first[i] = true;
    for (size_t j = 0; j < i && first[i]; j++)
      first[i] = readings[index[j]].spot != mine->spot ||
                 readings[index[j]].panel != mine->panel ||
                 readings[index[j]].direction != mine->direction;
    repeats += !first[i];
  }
  for (size_t i = 0; i < n && !status; i++)
    if (repeats ? !first[i] : i > 0) (*out)[(*kept)++] = index[i];
  free(first);
  return status;
}

static scw_status worn_in_arm(scw_context *context, const change_run *run,
                              const scwi_product *product, scwi_arm *out) {
  size_t *before = NULL, *after = NULL, n_before = 0, n_after = 0;
  *out = (scwi_arm){0};
  scw_status status =
      without_first(context, run->table, product->before, product->n_before,
                    &before, &n_before);
  if (!status)
    status = without_first(context, run->table, product->after,
                           product->n_after, &after, &n_after);
  if (!status && n_after && (n_before || run->baseline))
    status = scwi_arm_of(context, run->table, &run->facts, before, n_before,
                         after, n_after, run->divisor, out);
  free(before);
  free(after);
  return status;
}

/* "gloss" of a header "Gloss"; a coefficient where pulls became one. */
static const char *quantity_words(const change_run *run, char *room,
                                  size_t size) {
  const char *quantity = run->facts.quantity;
  if (run->friction) return "the static coefficient of friction";
  if (!strcmp(run->facts.unit, "GU")) return "gloss"; /* ISO 2813 */
  if (!*quantity || !strcmp(quantity, "reading") ||
      !strcmp(quantity, "value") || strlen(quantity) >= size)
    return "the reading";
  strcpy(room, quantity);
  /* a word, but not an abbreviation, starts small inside a sentence */
  if (scwi_lower(room[1]) == room[1])
    room[0] = scwi_lower(room[0]);
  return room;
}

static scw_status arm_of(scw_context *context, const change_run *run,
                         const scwi_product *product, scwi_arm *out) {
  return scwi_arm_of(context, run->table, &run->facts, product->before,
                     product->n_before, product->after, product->n_after,
                     run->divisor, out);
}

/* Arm, and for friction the same without first pulls. */
static scw_status both_arms(scw_context *context, const change_run *run,
                            const scwi_product *product, scwi_arm *arm,
                            scwi_arm *worn_in) {
  scw_status status = arm_of(context, run, product, arm);
  if (!status && run->friction)
    status = worn_in_arm(context, run, product, worn_in);
  return status;
}

/* What the other views look at: the arm itself; treated and control as two
 * samples of differences where both are paired; else nothing. */
static scw_status view_of(scw_context *context, const change_run *run,
                          scwi_change_case *one, scwi_arm *view) {
  const scwi_arm *arm = one->compared.arm, *control = one->compared.control;
  if (!control) {
    one->view = run->baseline ? NULL : arm;
    return SCW_OK;
  }
  if (!arm->paired || !control->paired) {
    if (!run->halves) return SCW_OK;
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "paired halves need the same spots read before and "
                        "after on both halves; name the spots");
  }
  scw_status status = scwi_control_view(context, run->table, one->compared,
                                        view);
  if (!status && run->halves && view->n_pairs == 0)
    status = scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                          "no spot is named on both halves, so they cannot be "
                          "paired");
  if (!status) one->view = view;
  return status;
}

static scw_status report_product(scw_context *context, const change_run *run,
                                 const scwi_product *product, size_t family,
                                 scw_change_report *out) {
  char quantity[64];
  scwi_arm arm = {0}, worn_in = {0}, view = {0};
  scwi_compared now = {.arm = &arm,
                       .control = run->control ? &run->control_arm : NULL,
                       .halves = run->halves,
                       .given_before = run->baseline};
  scwi_compared later = now;
  later.arm = &worn_in;
  if (run->control) later.control = &run->control_worn_in;
  scwi_change_case one = {
      .table = run->table,
      .compared = now,
      .control = run->control,
      .subject = {scwi_product_name(run->table, product),
                  quantity_words(run, quantity, sizeof quantity)},
      .unit = run->friction ? "" : run->facts.unit,
      .step = scwi_step_over(run->facts.step, run->divisor),
      .margin = run->margin,
      .worn_in = run->friction ? &later : NULL,
      .tile = &run->tile,
      .family = family,
      .settings = run->settings};
  scw_status status = both_arms(context, run, product, &arm, &worn_in);
  if (!status) status = view_of(context, run, &one, &view);
  if (!status) status = scwi_change_report(context, &one, out);
  scwi_arm_free(&view);
  scwi_arm_free(&worn_in);
  scwi_arm_free(&arm);
  return status;
}

static bool two_sided(const change_run *run, const scwi_product *product) {
  return product->n_after && (product->n_before || run->baseline);
}

/* A product with one side only is named, not dropped in silence; a run with
 * no complete product is an error. */
static scw_status name_incomplete(scw_context *context, const change_run *run,
                                  const scwi_products *products,
                                  scwi_notes *notes, size_t *complete) {
  scw_status status = SCW_OK;
  *complete = 0;
  for (size_t i = 0; i < products->n && !status; i++) {
    const scwi_product *product = &products->product[i];
    const char *name = scwi_product_name(run->table, product);
    *complete += two_sided(run, product);
    if (two_sided(run, product)) continue;
    status = scwi_note(context, notes, "one_side_only",
                       "%s%shas no %s readings and takes no part.", name,
                       *name ? " " : "The file ",
                       product->n_before ? "after" : "before");
  }
  if (!status && *complete == 0)
    status = scwi_fail_at(
        context, SCW_BAD_INPUT, run->facts.name, 0, 0,
        "only %s readings found; a change needs readings before and after",
        products->product[0].n_before ? "before" : "after");
  return status;
}

/* The control, once for all products. */
static scw_status take_control(scw_context *context,
                               const scwi_products *products,
                               change_run *run) {
  const scwi_product *control = &products->control;
  if (!run->control) return SCW_OK;
  if (!two_sided(run, control))
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "the control %s has no %s readings; it must be read "
                        "before and after like the products",
                        run->control, control->n_before ? "after" : "before");
  return both_arms(context, run, control, &run->control_arm,
                   &run->control_worn_in);
}

static scw_status run_notes(scw_context *context, const change_run *run,
                            const scw_change_options *options,
                            const scwi_products *products,
                            scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (products->aside)
    status = scwi_note(context, notes, "neither_side",
                       "%zu readings are neither before nor after and take no "
                       "part in the change.",
                       products->aside);
  if (!status && run->friction)
    status = scwi_friction_notes(context, options, run->facts.unit, notes);
  return status;
}

static scw_status report_products(scw_context *context, const change_run *run,
                                  const scwi_products *products,
                                  size_t complete, scw_change_result *out) {
  scw_status status = SCWI_ALLOCATE(context, complete, &out->changes);
  for (size_t i = 0; i < products->n && !status; i++) {
    if (!two_sided(run, &products->product[i])) continue;
    status = report_product(context, run, &products->product[i], complete,
                            &out->changes[out->n_changes]);
    if (!status) out->n_changes++;
  }
  return status;
}

scw_status scw_change(scw_context *context, const scw_table *table,
                      const scw_settings *settings,
                      const scw_change_options *options,
                      scw_change_result *out) {
  static const scw_change_options none = {0};
  change_run run = {.table = table, .settings = &out->settings};
  scwi_products products = {0};
  scwi_notes notes = {0};
  size_t complete = 0;
  *out = (scw_change_result){.options = options ? *options : none};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = prepare(context, &out->options, &run);
  if (!status) status = scwi_products_of(context, table, run.control, run.baseline != NULL,
                              &products);
  out->friction = run.friction;
  if (!status)
    status = name_incomplete(context, &run, &products, &notes, &complete);
  if (!status) status = take_control(context, &products, &run);
  if (!status)
    status = report_products(context, &run, &products, complete, out);
  if (!status)
    status = run_notes(context, &run, &out->options, &products, &notes);
  if (!status) status = scwi_family_adjust(context, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_products_free(&products);
  scwi_arm_free(&run.control_arm);
  scwi_arm_free(&run.control_worn_in);
  scwi_table_facts_free(&run.facts);
  if (status) scw_change_result_free(out);
  return status;
}

void scw_change_result_free(scw_change_result *result) {
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_change_report_free(&result->changes[i]);
  free(result->changes);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_change_result){0};
}
