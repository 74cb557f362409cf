/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live taking: everything that can be taken, the state and its reports, and
 * going on with what was kept. */
#include <string.h>

#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, false}, {SCW_JSON, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways, KEPT_ROOM = 4096 };

/* What was kept, as a file would hold it. */
typedef struct kept {
  char text[KEPT_ROOM];
  size_t size;
} kept;

static int keep(void *user, const char *data, size_t size) {
  kept *file = user;
  if (size > KEPT_ROOM - file->size) return 1;
  memcpy(file->text + file->size, data, size);
  file->size += size;
  return 0;
}

static scw_status show(scw_context *context, job_output *out,
                       const scw_take *take, scw_take_event event) {
  scw_take_state state;
  scw_status status = scw_take_state_of(context, take, &state);
  job_expect(out, status == SCW_OK || (!state.sentence && !state.notes),
             "a failed scw_take_state_of leaves its state empty");
  if (status != SCW_OK) return status;
  job_say(out, scw_advice_code(state.advice));
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_take(context, event, &state, NULL, ways[i],
                             job_sink(out));
  scw_take_state_free(&state);
  scw_take_state_free(&state); /* twice is allowed */
  return status;
}

static scw_status take_some(scw_context *context, job_output *out,
                            scw_take *take, const char *const *reading,
                            size_t n) {
  scw_status status = show(context, out, take, SCW_TAKEN_RESUMED);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    status = scw_take_reading(context, take, NULL, reading[i], NULL);
    if (status == SCW_OK)
      status = show(context, out, take, SCW_TAKEN_READING);
  }
  return status;
}

/* The rest of what can be taken. */
static scw_status take_more(scw_context *context, job_output *out,
                            scw_take *take) {
  scw_status status = scw_take_undo(context, take, 2, "slipped, \"off\"");
  if (status == SCW_OK)
    status = scw_take_again(context, take, NULL, "84.6", "wiped");
  if (status == SCW_OK) status = scw_take_mark(context, take, 1, "dull");
  if (status == SCW_OK) status = scw_take_note(context, take, "lamp on");
  if (status == SCW_OK)
    status = scw_take_followed(context, take, NULL, "83.9", "meter.txt", 4);
  if (status == SCW_OK)
    job_expect(out, scw_take_followed_line(take, "meter.txt") == 4,
               "the line that was followed is known");
  if (status == SCW_OK) status = show(context, out, take, SCW_TAKEN_END);
  if (status == SCW_OK)
    status = scw_report_take_message(context, "help", "as typed", ways[0],
                                     job_sink(out));
  return status;
}

static scw_status go_on(scw_context *context, job_output *out,
                        const scw_take_options *options, const kept *file) {
  scw_take *take = NULL;
  kept again = {.size = 0};
  job_text source = {file->text, file->size, 0};
  size_t whole = 0;
  scw_status status = scw_take_open(context, options, NULL, NULL,
                                    (scw_sink){keep, &again}, &take);
  if (status == SCW_OK)
    status = scw_take_resume(context, take, job_source(&source, "kept.csv"),
                             &whole);
  if (status == SCW_OK) {
    job_expect(out, whole == file->size && again.size == 0,
               "all lines are whole, and nothing is written");
    status = show(context, out, take, SCW_TAKEN_RESUMED);
  }
  scw_take_close(take);
  return status;
}

scw_status job_take_change(scw_context *context, job_output *out) {
  static const char *const readings[] = {"84.1", "83,6", "84.0*", "84.4",
                                         "83.1"};
  const scw_take_options options = {.rule = SCW_TAKE_ANYTIME, .margin = 0.5};
  kept file = {.size = 0};
  scw_table *baseline = NULL;
  scw_take *take = NULL;
  scw_status status = job_read(context, out, job_pairs, NULL, &baseline);
  if (status == SCW_OK) {
    status = scw_take_open(context, &options, NULL, baseline,
                           (scw_sink){keep, &file}, &take);
    job_expect(out, status == SCW_OK || !take,
               "a failed scw_take_open gives nothing");
  }
  scw_table_free(baseline);
  if (status == SCW_OK) status = take_some(context, out, take, readings, 5);
  if (status == SCW_OK) status = take_more(context, out, take);
  scw_take_close(take);
  scw_take_close(NULL);
  return status;
}

scw_status job_take_spots(scw_context *context, job_output *out) {
  static const char text[] =
      "order,spot,x,y,reading\n1,A,10,20,\n2,B,30,20,\n3,C,50,20,\n4,A,10,20,\n";
  static const char *const readings[] = {"82.4", "81.9", "83.0"};
  scw_take_options options = {.rule = SCW_TAKE_TOP_UP, .readings = 2,
                              .half_width = 0.4, .unit = "GU",
                              .quantity = "gloss", .meter = "M1"};
  job_text source = {text, sizeof text - 1, 0};
  scw_spot_list spots = {0};
  kept file = {.size = 0};
  scw_take *take = NULL;
  scw_status status =
      scw_spot_list_read(context, job_source(&source, "spots.csv"), &spots);
  job_expect(out, status == SCW_OK || !spots.place,
             "a failed scw_spot_list_read leaves its list empty");
  options.spots = &spots;
  if (status == SCW_OK)
    status = scw_take_open(context, &options, NULL, NULL,
                           (scw_sink){keep, &file}, &take);
  if (status == SCW_OK) status = take_some(context, out, take, readings, 3);
  if (status == SCW_OK) status = take_more(context, out, take);
  if (status == SCW_OK) status = go_on(context, out, &options, &file);
  scw_take_close(take);
  scw_spot_list_free(&spots);
  return status;
}
