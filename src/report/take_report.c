/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "take_reports.h"

scw_status scw_report_take(scw_context *context, scw_take_event event,
                           const scw_take_state *state,
                           const scw_take_state *before,
                           scw_report_options options, scw_sink sink) {
  return options.format == SCW_JSON
             ? scwi_json_taken(context, event, state, sink)
             : scwi_text_taken(context, event, state, before, options, sink);
}

scw_status scw_report_take_message(scw_context *context, const char *event,
                                   const char *text, scw_report_options options,
                                   scw_sink sink) {
  return options.format == SCW_JSON
             ? scwi_json_take_message(context, event, text, sink)
             : scwi_text_take_message(context, text, options, sink);
}
