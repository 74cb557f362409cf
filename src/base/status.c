/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts of the codes, generated from the lists in the public headers. */
#include "scatterwise/status.h"

#include "scatterwise/figures.h"
#include "scatterwise/version.h"

#include "codes.h"

SCWI_CODE_FUNCTION(scw_status_text, scw_status, SCW_STATUS_LIST,
                   SCWI_KEY, SCW_STATUS_END, "unknown status")

SCWI_CODE_FUNCTION(scw_presence_code, scw_presence, SCW_PRESENCE_LIST,
                   SCWI_KEY_OF_3, SCW_PRESENCE_END, "unknown")

SCWI_CODE_FUNCTION(scw_presence_text, scw_presence, SCW_PRESENCE_LIST,
                   SCWI_TEXT_OF_3, SCW_PRESENCE_END, "unknown")

const char *scw_version(void) { return SCATTERWISE_VERSION; }
