/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reading set as text. */
#ifndef SCWI_TEXT_SET_H
#define SCWI_TEXT_SET_H

#include "text_parts.h"

/* The whole set: answer, figures, strip, what stands out, order, shape. */
void scwi_sheet_set(scwi_sheet *sheet, const scw_set_report *set);

/* What stands out, in words, and the figures without it; `whose` is named
 * before it where there is more than one set, else null. */
void scwi_sheet_stand_out(scwi_sheet *sheet, const scw_set_report *set,
                          const char *whose);

/* The order of the readings: creep, neighbours, the biggest jump. */
void scwi_sheet_order(scwi_sheet *sheet, const scw_set_report *set);

#endif
