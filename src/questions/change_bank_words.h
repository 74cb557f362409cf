/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter bank's part of a change's sentence. */
#ifndef SCWI_CHANGE_BANK_WORDS_H
#define SCWI_CHANGE_BANK_WORDS_H

#include "scatterwise/change.h"
#include "text.h"

/* The report as the verdict is told from it: the bank's figures in place of
 * the readings' own where these leave no verdict. Nothing is copied. */
scw_change_report scwi_as_told(const scw_change_report *report);

/* Whether own and bank verdicts differ, so that neither is told alone. */
bool scwi_bank_differs(const scw_change_report *report);

/* "by the readings' own scatter changed (95 % interval 0.2 to 2.3 GU), by the
 * scatter bank cannot tell (...)". */
void scwi_say_both_verdicts(scwi_text *text, const scw_change_report *report);

/* "; the scatter bank agrees (95 % interval ...)"; nothing without one. */
void scwi_say_bank_agrees(scwi_text *text, const scw_change_report *report);

#endif
