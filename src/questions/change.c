/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2: did the product move the reading, or is that the panel's own
 * scatter? */
#include "scatterwise/change.h"

#include <stdlib.h>
#include <string.h>

#include "angle_advice.h"
#include "arm_forms.h"
#include "change_bank.h"
#include "change_options.h"
#include "change_report.h"
#include "family.h"
#include "friction.h"
#include "instruments.h"
#include "instruments_words.h"
#include "memory.h"
#include "products.h"
#include "retention.h"
#include "settings.h"
#include "text.h"
#include "tile.h"

/* What all products of one run share. */
typedef struct change_run {
  const scw_table *table;
  const scw_settings *settings;
  scwi_table_facts facts;
  double divisor;       /* the block, or 1 over the model's factor; else 1 */
  double offset;        /* of the model; else 0 */
  const char *unit;     /* of the result */
  bool friction;
  const scwi_instruments *instruments; /* null: none */
  double margin;
  bool retention;
  const char *control;         /* its label; null: none */
  bool halves;
  const scw_given_side *baseline; /* in place of before readings; or null */
  scw_tile tile;
  scwi_arm_forms control_arm;
  const scw_bench_scatter *scatter; /* null: none asked for */
  scwi_bank bank;
} change_run;

/* What each reading becomes: itself, a pull over a block, or what the model of
 * the bench makes of it. */
static scw_status prepare_values(scw_context *context,
                                 const scw_change_options *options,
                                 scwi_instruments *room, change_run *run) {
  scwi_read_facts readings = {run->facts.quantity, run->facts.unit,
                              run->facts.geometry};
  run->divisor = 1;
  run->unit = run->facts.unit;
  if (options->has_block) run->unit = "";
  if (options->has_block)
    return scwi_block_divisor(context, options, run->facts.unit,
                              &run->divisor);
  if (!options->instruments) return SCW_OK;
  scw_status status = scwi_instruments_of(context, options->instruments,
                                          options->quantity, readings, room);
  if (!status) status = scwi_bench_margin(context, options, room, &run->margin);
  if (status) return status;
  run->instruments = room;
  run->divisor = 1 / room->factor;
  run->offset = room->offset;
  run->unit = scwi_quantity_unit(room->quantity);
  run->friction = room->quantity->measures == SCW_MEASURES_FRICTION;
  return SCW_OK;
}

static scw_status prepare(scw_context *context,
                          const scw_change_options *options,
                          scwi_instruments *room, change_run *run) {
  scw_status status = scwi_check_margin(context, options->margin);
  if (!status) status = scwi_check_bench(context, options);
  if (!status) status = scwi_check_retention(context, options);
  if (!status && options->has_baseline)
    status = scwi_check_given(context, "the baseline", &options->baseline);
  run->margin = options->margin;
  run->baseline = options->has_baseline ? &options->baseline : NULL;
  run->friction = options->has_block;
  run->retention = options->retention;
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
  if (!status) status = prepare_values(context, options, room, run);
  scw_scatter_wanted readings = {.quantity = run->facts.quantity,
                                 .unit = run->facts.unit,
                                 .geometry = run->facts.geometry};
  if (!status)
    status = scwi_find_bank(context, options, &readings, run->divisor,
                            &run->scatter, &run->bank);
  return status;
}

/* "gloss" of a header "Gloss"; a coefficient where pulls became one. */
static const char *quantity_words(const change_run *run, char *room,
                                  size_t size) {
  const char *quantity = run->facts.quantity;
  if (run->instruments) return scwi_quantity_words(run->instruments->quantity);
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

static scw_status forms_of(scw_context *context, const change_run *run,
                           const scwi_product *product, scwi_arm_forms *out) {
  scw_status status =
      scwi_arm_forms_of(context, run->table, &run->facts, product,
                        run->divisor, run->friction, out);
  if (run->offset != 0) scwi_arm_forms_shift(out, run->offset);
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

/* What is compared, in one form of the readings: an arm and the control's same
 * form. */
static scwi_compared compared_of(const change_run *run, const scwi_arm *arm,
                                 const scwi_arm *control) {
  return (scwi_compared){.arm = arm,
                         .control = run->control ? control : NULL,
                         .halves = run->halves,
                         .given_before = run->baseline,
                         .instruments = run->instruments};
}

static scw_status report_product(scw_context *context, const change_run *run,
                                 const scwi_product *product, size_t family,
                                 scw_change_report *out) {
  char quantity[64];
  scwi_arm_forms arm = {0};
  const scwi_arm_forms *control = &run->control_arm;
  scwi_arm view = {0};
  scw_status status = forms_of(context, run, product, &arm);
  scwi_compared worn_in =
      compared_of(run, &arm.worn_in, &control->worn_in);
  scwi_compared again =
      compared_of(run, arm.replaced ? &arm.again : &arm.first,
                  control->replaced ? &control->again : &control->first);
  scwi_change_case one = {
      .table = run->table,
      .compared = compared_of(run, &arm.first, &control->first),
      .control = run->control,
      .subject = {scwi_product_name(run->table, product),
                  quantity_words(run, quantity, sizeof quantity)},
      .unit = run->unit,
      .tile_unit = run->instruments ? run->facts.unit : run->unit,
      .step = scwi_step_over(run->facts.step, run->divisor),
      .margin = run->margin,
      .worn_in = run->friction ? &worn_in : NULL,
      .again = &again,
      .replaced = arm.replaced + control->replaced,
      .tile = &run->tile,
      .family = family,
      .retention = run->retention,
      .settings = run->settings,
      .bank = run->scatter ? &run->bank : NULL};
  if (!status) status = view_of(context, run, &one, &view);
  if (!status) status = scwi_change_report(context, &one, out);
  scwi_arm_free(&view);
  scwi_arm_forms_free(&arm);
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
  return forms_of(context, run, control, &run->control_arm);
}

static scw_status run_notes(scw_context *context, const change_run *run,
                            const scw_change_options *options,
                            const scwi_products *products, size_t complete,
                            scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (products->aside)
    status = scwi_note(context, notes, "neither_side",
                       "%zu readings are neither before nor after and take no "
                       "part in the change.",
                       products->aside);
  if (!status && complete > 1)
    status = scwi_tile_note(context, &run->tile,
                            run->instruments ? run->facts.unit : run->unit,
                            NULL, notes);
  bool caution = run->friction || scwi_is_friction(run->facts.quantity);
  if (!status && options->has_block)
    status = scwi_friction_notes(context, options, run->facts.unit, notes);
  else if (!status && caution)
    status = scwi_friction_caution(context, notes);
  if (!status && run->instruments)
    status = scwi_instruments_run_notes(context, run->instruments, notes);
  return status;
}

/* Of levels of gloss; a model of the bench may make something else of them. */
static scw_status advise(scw_context *context, const change_run *run,
                         const scw_change_result *of, scwi_notes *notes) {
  scwi_best_angle best = {0, false};
  bool gloss = !run->instruments || run->instruments->quantity->measures ==
                                        SCW_MEASURES_GLOSS;
  if (!gloss || run->friction) return SCW_OK;
  for (size_t i = 0; i < of->n_changes; i++) {
    scwi_see_gloss(&best, of->changes[i].before.summary.mean);
    scwi_see_gloss(&best, of->changes[i].after.summary.mean);
  }
  return scwi_angle_advice(context, best, run->facts.geometry, notes);
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
  scwi_instruments instruments = {.factor = 1};
  scwi_products products = {0};
  scwi_notes notes = {0};
  size_t complete = 0;
  *out = (scw_change_result){.options = options ? *options : none};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = prepare(context, &out->options, &instruments, &run);
  if (!status) status = scwi_products_of(context, table, run.control, run.baseline != NULL,
                              &products);
  out->friction = run.friction;
  out->scatter = run.scatter;
  scwi_tell_bench(run.instruments, run.margin, out);
  if (!status)
    status = name_incomplete(context, &run, &products, &notes, &complete);
  if (!status) status = take_control(context, &products, &run);
  if (!status)
    status = report_products(context, &run, &products, complete, out);
  if (!status)
    status = run_notes(context, &run, &out->options, &products, complete,
                       &notes);
  if (!status) status = advise(context, &run, out, &notes);
  if (!status) status = scwi_family_adjust(context, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_products_free(&products);
  scwi_arm_forms_free(&run.control_arm);
  scwi_table_facts_free(&run.facts);
  scwi_instruments_free(&instruments);
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
