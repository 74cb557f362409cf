/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live taking, by format. */
#ifndef SCWI_TAKE_REPORTS_H
#define SCWI_TAKE_REPORTS_H

#include "scatterwise/report.h"

scw_status scwi_text_taken(scw_context *context, scw_take_event event,
                          const scw_take_state *state,
                          const scw_take_state *before,
                          scw_report_options options, scw_sink sink);
scw_status scwi_text_take_message(scw_context *context, const char *text,
                                  scw_report_options options, scw_sink sink);
scw_status scwi_json_taken(scw_context *context, scw_take_event event,
                          const scw_take_state *state, scw_sink sink);
scw_status scwi_json_take_message(scw_context *context, const char *event,
                                  const char *text, scw_sink sink);
#endif
