/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "friction.h"

#include <math.h>
#include <string.h>

#include "number_text.h"
#include "words.h"

/* Newtons of one unit; a unit of mass stands for its weight at standard
 * gravity, 9.80665 m/s2 (CGPM 1901). Pound and ounce are exact by definition
 * (international yard and pound agreement, 1959). */
static const struct {
  const char *name;
  double newtons;
} units[] = {{"N", 1},
             {"mN", 0.001},
             {"cN", 0.01},
             {"kN", 1000},
             {"g", 0.00980665},
             {"gf", 0.00980665},
             {"kg", 9.80665},
             {"kgf", 9.80665},
             {"lb", 0.45359237 * 9.80665},
             {"lbf", 0.45359237 * 9.80665},
             {"oz", 0.028349523125 * 9.80665},
             {"ozf", 0.028349523125 * 9.80665}};

static double newtons_of(const char *unit) {
  for (size_t i = 0; i < sizeof units / sizeof *units; i++)
    if (!strcmp(units[i].name, unit)) return units[i].newtons;
  return 0;
}

scw_status scwi_block_divisor(scw_context *context,
                              const scw_change_options *options,
                              const char *pull_unit, double *divisor) {
  char text[SCWI_NUMBER_SIZE];
  const char *block_unit = options->block_unit ? options->block_unit : "";
  if (!(options->block > 0) || !isfinite(options->block))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a block of %s: a coefficient needs the block's mass or "
                     "weight, a positive number",
                     scwi_number_text(options->block, text));
  *divisor = options->block;
  if (!*block_unit || !strcmp(block_unit, pull_unit)) return SCW_OK;
  if (!*pull_unit)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the block is in %s but the unit of the pulls is not "
                     "said; name it with --unit",
                     block_unit);
  double block = newtons_of(block_unit), pull = newtons_of(pull_unit);
  if (block == 0 || pull == 0)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a block in '%s' and pulls in '%s' cannot be combined; "
                     "use g, kg, N, mN, lb or oz",
                     block_unit, pull_unit);
  *divisor = options->block * (block / pull);
  return SCW_OK;
}

scw_status scwi_friction_notes(scw_context *context,
                               const scw_change_options *options,
                               const char *pull_unit, scwi_notes *notes) {
  scwi_text text = {0};
  const char *unit = options->block_unit ? options->block_unit : pull_unit;
  scwi_text_add(&text, "Each static coefficient is a pull divided by the "
                       "block of ");
  scwi_say_given(&text, options->block, unit);
  scwi_text_add(&text, ". The block itself is taken as exact.");
  scw_status status = scwi_note_take(context, notes, "coefficient", &text);
  if (status) return status;
  return scwi_friction_caution(context, notes);
}

bool scwi_is_friction(const char *quantity) {
  static const char *const words[] = {"pull", "friction", "coefficient"};
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (!strcmp(words[i], quantity)) return true;
  return false;
}

scw_status scwi_friction_caution(scw_context *context, scwi_notes *notes) {
  return scwi_note(
      context, notes, "friction_caution",
      "A block-pull coefficient ranks slickness under this block, load, dwell "
      "and speed. It is not a slip-resistance rating and is not to be used for "
      "floors, steps, decks, footwear, pedals, wheel rims, brakes, tyre "
      "treads, seats or controls; keep slick products off them. Stand clear "
      "of loaded lines and gauges.");
}
