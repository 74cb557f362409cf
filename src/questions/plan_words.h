/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan as the tester's question, in a sentence. */
#ifndef SCWI_PLAN_WORDS_H
#define SCWI_PLAN_WORDS_H

#include "scatterwise/plan.h"

scw_status scwi_plan_sentence(scw_context *context, scw_plan_result *result);

#endif
