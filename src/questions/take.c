/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings as they are taken: beginning, and going on with what was kept. */
#include "scatterwise/take.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "anytime.h"
#include "codes.h"
#include "heading.h"
#include "memory.h"
#include "settings.h"
#include "table.h"
#include "take_inside.h"
#include "tile.h"

SCWI_CODE_FUNCTION(scw_advice_code, scw_advice, SCW_ADVICE_LIST,
                   SCWI_KEY, SCW_ADVICE_END, "unknown")

bool scwi_take_is_paired(const scw_take *take) {
  return take->form.spots && take->spots_before;
}

static bool is_positive(double value) {
  return value > 0 && isfinite(value);
}

/* Everything a rule needs, and nothing it has no use for. */
static scw_status check_rule(scw_context *context,
                             const scw_take_options *options, bool change) {
  const char *wrong = NULL;
  bool width = options->half_width != 0;
  if ((width && !is_positive(options->half_width)) ||
      (options->margin != 0 && !is_positive(options->margin)) ||
      !is_positive(options->g))
    wrong = "the half-width, the margin and g must be larger than 0";
  else if (options->margin != 0 && !change)
    wrong = "a margin is for a change: give the readings before as the baseline";
  else if (options->rule == SCW_TAKE_PLAN && options->readings == 0)
    wrong = "a fixed plan needs its number of readings";
  else if (options->rule == SCW_TAKE_TOP_UP &&
           (options->readings < 2 || !width))
    wrong = "a top-up needs a half-width, and at least 2 first readings that "
            "say how the readings scatter";
  else if (options->rule == SCW_TAKE_ANYTIME && !width && !change)
    wrong = "say how narrow the interval shall be, or give the readings before "
            "as the baseline, so that a change can be looked for";
  return wrong ? scwi_fail(context, SCW_BAD_ARGUMENT, "%s", wrong) : SCW_OK;
}

static scw_status keep_text(scw_context *context, scw_take *take,
                            const char *text, const char **out) {
  *out = NULL;
  if (!text) return SCW_OK;
  if (!*text || !scwi_kept_fits(text) || strchr("=+-@'#", *text))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "'%s' cannot stand in the file: give a word that begins "
                     "with a letter or a digit", text);
  return scwi_arena_copy(context, &take->texts, text, strlen(text), out);
}

/* The header of the readings must mean readings when it is read again. */
static scw_status check_heading(scw_context *context, scw_take *take) {
  const scwi_kept_form *form = &take->form;
  scwi_text text = {0};
  scwi_heading heading;
  scwi_text_add(&text, form->quantity);
  if (*form->unit) scwi_text_format(&text, " (%s)", form->unit);
  scw_status status = scwi_text_status(context, &text);
  if (!status)
    status = scwi_heading_read(context, &take->texts,
                               (scwi_span){text.data, text.length}, &heading);
  bool good = !status && scwi_kept_fits(form->unit) &&
              heading.kind == SCWI_HEAD_READING &&
              heading.rest.length == 0 && heading.side == SCW_SIDE_NONE &&
              heading.unit.length == strlen(form->unit);
  scwi_text_free(&text);
  if (status || good) return status;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "'%s'%s%s would not be understood as the header of readings; "
                   "use a word such as reading, gloss, haze, pull or thickness "
                   "and a unit such as GU",
                   form->quantity, *form->unit ? " in " : "", form->unit);
}

/* ---- the baseline ---- */

/* The one label of a role among the readings compared with; SCW_NO_LABEL where
 * they name none. */
static scw_status one_label(scw_context *context, const scw_take *take,
                            size_t offset, const char *what, int32_t *out) {
  *out = SCW_NO_LABEL;
  for (size_t i = 0; i < take->n_before; i++) {
    const char *at = (const char *)&scw_table_readings(take->table)
                         [take->before[i]] + offset;
    int32_t label = *(const int32_t *)(const void *)at;
    if (i && label != *out)
      return scwi_fail(context, SCW_BAD_INPUT,
                       "the baseline holds readings of more than one %s: give "
                       "those of the one you are going to read",
                       what);
    *out = label;
  }
  return SCW_OK;
}

/* What the readings before say holds for those after, unless said otherwise. */
static scw_status follow(scw_context *context, scw_take *take, size_t offset,
                         const char *what, const char **given) {
  int32_t label;
  scw_status status = one_label(context, take, offset, what, &label);
  if (status || label == SCW_NO_LABEL) return status;
  const char *text = scw_table_label(take->table, label);
  if (*given && strcmp(*given, text))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the baseline was read on the %s %s, and %s was given; a "
                     "change is of one %s",
                     what, text, *given, what);
  return *given ? SCW_OK : keep_text(context, take, text, given);
}

static bool counts(const scw_table *table, const scw_reading *reading) {
  return reading->side != SCW_SIDE_AFTER && !scwi_is_tile(table, reading) &&
         reading->replaces == SCW_NO_LABEL;
}

static scw_status list_before(scw_context *context, scw_take *take) {
  scw_status status =
      SCWI_ALLOCATE(context, take->baseline, &take->before);
  size_t spots = 0;
  for (size_t i = 0; i < take->baseline && !status; i++) {
    const scw_reading *reading = scw_table_readings(take->table) + i;
    if (!counts(take->table, reading)) continue;
    spots += reading->spot != SCW_NO_LABEL;
    take->before[take->n_before++] = i;
  }
  if (!status && take->n_before == 0)
    status = scwi_fail(context, SCW_BAD_INPUT,
                       "the baseline holds no readings taken before");
  take->spots_before = spots && !take->options.unpaired;
  return status;
}

static scw_status one_spot_is_none(scw_context *context, const scw_take *take) {
  const scw_reading *readings = scw_table_readings(take->table);
  for (size_t i = 1; i < take->n_before; i++)
    if (readings[take->before[i]].spot != readings[take->before[0]].spot)
      return SCW_OK;
  return scwi_fail(context, SCW_BAD_INPUT,
                   "the baseline holds one spot only, which says nothing about "
                   "the panel: read at least one more before");
}

static scw_status take_baseline(scw_context *context, scw_take *take,
                                scw_table *baseline) {
  scw_table own = *take->table;
  scw_status status = SCW_OK;
  *take->table = *baseline;
  *baseline = own;
  take->baseline = scw_table_size(take->table);
  const scw_input *input = scw_table_input(take->table, 0);
  const char *unit = take->options.unit, *quantity = take->options.quantity;
  if (unit && input->unit && *input->unit && strcmp(unit, input->unit))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the baseline is in %s, and %s was given as the unit",
                     input->unit, unit);
  if (!unit) take->options.unit = input->unit;
  if (!quantity && input->quantity && *input->quantity)
    take->options.quantity = input->quantity;
  status = list_before(context, take);
#define FOLLOW(role, what)                                                     \
  if (!status)                                                                 \
    status = follow(context, take, offsetof(scw_reading, role), what,          \
                    &take->form.fixed[FOLLOW_##role])
  enum {
    FOLLOW_panel = SCWI_KEPT_PANEL,
    FOLLOW_product = SCWI_KEPT_PRODUCT,
    FOLLOW_geometry = SCWI_KEPT_GEOMETRY
  };
  FOLLOW(panel, "panel");
  FOLLOW(product, "product");
  FOLLOW(geometry, "geometry");
#undef FOLLOW
  if (!status && take->spots_before) status = one_spot_is_none(context, take);
  return status;
}

/* ---- the list of spots ---- */

/* Is the place on the panel, product and side that is being read? */
static bool wanted(const scw_take *take, const scw_spot_place *place) {
  const char *panel = take->form.fixed[SCWI_KEPT_PANEL];
  const char *product = take->form.fixed[SCWI_KEPT_PRODUCT];
  scw_side other = take->baseline ? SCW_SIDE_BEFORE : SCW_SIDE_AFTER;
  return place->side != other &&
         (!panel || !*place->panel || !strcmp(panel, place->panel)) &&
         (!product || !*place->product || !strcmp(product, place->product));
}

static scw_status take_places(scw_context *context, scw_take *take,
                              const scw_spot_list *list) {
  const scw_spot_place *first = NULL;
  scw_status status = SCWI_ALLOCATE(context, list->n, &take->place);
  if (!status) status = SCWI_ALLOCATE(context, list->n, &take->place_label);
  for (size_t i = 0; i < list->n && !status; i++) {
    const scw_spot_place *place = &list->place[i];
    if (!wanted(take, place)) continue;
    if (!first) first = place;
    if (strcmp(place->panel, first->panel) ||
        strcmp(place->product, first->product))
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "the list of spots is for several %s: say which one "
                       "you are going to read",
                       strcmp(place->panel, first->panel) ? "panels"
                                                          : "products");
    scw_spot_place *own = &take->place[take->n_places];
    *own = (scw_spot_place){.x = place->x, .y = place->y};
    status = keep_text(context, take, place->spot, &own->spot);
    if (!status)
      status = scwi_labels_intern(context, &take->table->labels, place->spot,
                                  strlen(place->spot),
                                  &take->place_label[take->n_places]);
    take->form.places =
        take->form.places || !isnan(place->x) || !isnan(place->y);
    if (!status) take->n_places++;
  }
  if (!status && take->n_places == 0)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "the list of spots has none for this panel, product and "
                       "state");
  take->form.spots = take->settled = true;
  if (status || !*list->length_unit) return status;
  return scwi_arena_copy(context, &take->texts, list->length_unit,
                         strlen(list->length_unit), &take->form.length_unit);
}

/* ---- beginning ---- */

/* The readings taken are an input of their own behind the baseline. */
static scw_status add_own_input(scw_context *context, scw_take *take) {
  scw_table *own = NULL;
  scw_status status = scwi_table_new(context, "readings taken", &own);
  if (!status) status = scw_table_append(context, take->table, own);
  scw_table_free(own);
  if (status) return status;
  scw_input *input =
      &take->table->input[take->table->inputs - 1].account.input;
  input->unit = take->form.unit;
  input->quantity = take->form.quantity;
  return SCW_OK;
}

static scw_status fill(scw_context *context, scw_take *take,
                       scw_table *baseline) {
  scw_take_options *o = &take->options;
  const char *const given[SCWI_KEPT_FIXED] = {o->panel,    o->product,
                                              o->session,  o->geometry,
                                              o->by,       o->meter};
  const scw_spot_list *list = o->spots;
  scw_status status = SCW_OK;
  for (int i = 0; i < SCWI_KEPT_FIXED && !status; i++)
    status = keep_text(context, take, given[i], &take->form.fixed[i]);
  if (!status) status = scwi_table_new(context, "baseline", &take->table);
  if (!status && baseline) status = take_baseline(context, take, baseline);
  if (!status)
    status = keep_text(context, take, o->quantity ? o->quantity : "reading",
                       &take->form.quantity);
  take->form.unit = "";
  if (!status && o->unit && *o->unit)
    status = scwi_arena_copy(context, &take->texts, o->unit, strlen(o->unit),
                             &take->form.unit);
  if (!status) status = check_heading(context, take);
  if (!status && list) status = take_places(context, take, list);
  if (!status && take->spots_before) take->form.spots = take->settled = true;
  if (!status) status = add_own_input(context, take);
  return status;
}

scw_status scw_take_open(scw_context *context, const scw_take_options *options,
                         const scw_settings *settings, scw_table *baseline,
                         scw_sink keep, scw_take **out) {
  scw_take *take = NULL;
  *out = NULL;
  scw_status status = SCWI_ALLOCATE(context, 1, &take);
  if (status) return status;
  take->options = *options;
  take->keep = keep;
  if (take->options.g == 0) take->options.g = SCWI_ANYTIME_G;
  status = scwi_settings_take(context, settings, &take->settings);
  if (!status)
    status = check_rule(context, &take->options, baseline != NULL);
  if (!status) status = fill(context, take, baseline);
  if (status)
    scw_take_close(take);
  else
    *out = take;
  return status;
}

void scw_take_close(scw_take *take) {
  if (!take) return;
  scw_table_free(take->table);
  scwi_arena_free(&take->texts);
  free(take->before);
  free(take->place);
  free(take->place_label);
  free(take->taken);
  free(take);
}
