/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Block pulls as static coefficients (ASTM D1894, ISO 8295): pull over the
 * block's weight, both in one unit of force. */
#ifndef SCWI_FRICTION_H
#define SCWI_FRICTION_H

#include "notes.h"
#include "scatterwise/change.h"

/* What a pull is divided by: the block in the unit of the pulls. Pulls in a
 * unit of mass (g, kg ...) mean the weight of that mass, so that the same unit
 * on both sides divides out; a pull in newtons over a block in grams goes by
 * standard gravity, 9.80665 m/s2. SCW_BAD_ARGUMENT for a block that is not
 * positive or units that cannot be combined. */
scw_status scwi_block_divisor(scw_context *context,
                              const scw_change_options *options,
                              const char *pull_unit, double *divisor);

/* The cautions that go with every coefficient. */
scw_status scwi_friction_notes(scw_context *context,
                               const scw_change_options *options,
                               const char *pull_unit, scwi_notes *notes);

/* Is this quantity about friction, block or none? */
bool scwi_is_friction(const char *quantity);

/* What a block-pull reading is not to be used for. */
scw_status scwi_friction_caution(scw_context *context, scwi_notes *notes);
#endif
