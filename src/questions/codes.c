/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON codes of designs and verdicts, from the lists in the public header. */
#include "scatterwise/change.h"

#include "codes.h"

SCWI_CODE_FUNCTION(scw_design_code, scw_design, SCW_DESIGN_LIST,
                   SCWI_KEY, SCW_DESIGN_END, "unknown")

SCWI_CODE_FUNCTION(scw_verdict_code, scw_verdict, SCW_VERDICT_LIST,
                   SCWI_KEY, SCW_VERDICT_END, "unknown")
