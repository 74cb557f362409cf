/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tile.h"

#include <math.h>
#include <string.h>

#include "figure.h"
#include "words.h"

bool scwi_is_tile(const scw_table *table, const scw_reading *reading) {
  if (reading->side != SCW_SIDE_NONE || reading->state == SCW_NO_LABEL)
    return false;
  const char *state = scw_table_label(table, reading->state);
  return strlen(state) == 4 && scwi_same_letters(state, "tile", 4);
}

static scw_figure in_steps(scw_figure value, double step) {
  if (!scwi_present(value)) return value;
  return step > 0 ? scwi_figure(value.value / step)
                  : scwi_missing(SCW_STEP_UNKNOWN);
}

/* Last less first, exact where the readings share a decimal. */
static double drift_between(const scw_table *table,
                            const scwi_table_facts *facts, size_t first,
                            size_t last) {
  const scw_reading *readings = scw_table_readings(table);
  const int64_t *ticks = facts->decimals.ticks;
  if (ticks)
    return (double)(ticks[last] - ticks[first]) /
           pow(10, facts->decimals.digits);
  return readings[last].value - readings[first].value;
}

scw_status scwi_tile_of(scw_context *context, const scw_table *table,
                        const scwi_table_facts *facts,
                        const scw_change_options *options, scw_tile *out) {
  const scw_reading *readings = scw_table_readings(table);
  long double sum = 0;
  size_t first = 0, last = 0;
  *out = (scw_tile){.assigned = options->tile};
  for (size_t i = 0; i < scw_table_size(table); i++) {
    if (!scwi_is_tile(table, &readings[i])) continue;
    if (out->n++ == 0) first = i;
    last = i;
    sum += (long double)readings[i].value;
  }
  if (out->n == 0 && options->has_tile)
    return scwi_fail_at(context, SCW_BAD_INPUT, facts->name, 0, 0,
                        "a tile value was given but no row says 'tile' in its "
                        "state column");
  if (out->n == 0) return SCW_OK;
  out->mean = scwi_figure((double)(sum / (long double)out->n));
  if (options->has_tile)
    out->difference = scwi_figure(out->mean.value - options->tile);
  out->drift = out->n > 1
                   ? scwi_figure(drift_between(table, facts, first, last))
                   : scwi_missing(SCW_ONE_READING);
  out->difference_steps = in_steps(out->difference, facts->step.size);
  out->drift_steps = in_steps(out->drift, facts->step.size);
  return SCW_OK;
}

static void say_steps(scwi_text *text, scw_figure steps) {
  if (!scwi_present(steps)) return;
  scwi_text_add(text, " (");
  scwi_say_digits(text, steps.value, 2, "display steps");
  scwi_text_add(text, ")");
}

scw_status scwi_tile_note(scw_context *context, const scw_tile *tile,
                          const char *unit, const scw_figure *change,
                          scwi_notes *notes) {
  scwi_text text = {0};
  if (tile->n == 0) return SCW_OK;
  scwi_text_add(&text, "The tile ");
  if (scwi_present(tile->difference)) {
    scwi_text_add(&text, "reads ");
    scwi_say_given(&text, tile->difference.value, unit);
    scwi_text_add(&text, " from its own value");
    say_steps(&text, tile->difference_steps);
    scwi_text_add(&text, scwi_present(tile->drift) ? " and " : "");
  }
  if (scwi_present(tile->drift)) {
    scwi_text_add(&text, "moved by ");
    scwi_say_given(&text, tile->drift.value, unit);
    say_steps(&text, tile->drift_steps);
    scwi_text_add(&text, " over the series");
  }
  if (scwi_present(tile->drift) && change && scwi_present(*change)) {
    scwi_text_add(&text, ", beside a change of ");
    scwi_say_digits(&text, change->value, 3, unit);
  }
  scwi_text_add(&text, change ? ". The change is not corrected for it."
                              : ". The changes are not corrected for it.");
  if (!scwi_present(tile->drift) && !scwi_present(tile->difference)) {
    scwi_text_clear(&text);
    scwi_text_add(&text, "One tile reading and no tile value (--tile) say "
                         "nothing about the meter.");
  }
  return scwi_note_take(context, notes, "tile", &text);
}
