/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Results made up by hand, a sink in memory, and looks at what was written.
 * The figures need not fit together: reports only lay them out. */
#ifndef MADE_UP_H
#define MADE_UP_H

#include "check.h"

#include "reports.h"
#include "scatterwise/scatterwise.h"
#include "text.h"

#define FIGURE(x)        ((scw_figure){(x), SCW_PRESENT})
#define NO_FIGURE(why)   ((scw_figure){0, (why)})
#define INTERVAL(l, h)   ((scw_interval){(l), (h), 0.95, SCW_PRESENT})
#define NO_INTERVAL(why) ((scw_interval){0, 0, 0.95, (why)})

/* Ten gloss readings, one of which stands out, with every figure. */
scw_set_report made_up_set(void);
/* One reading: all that needs scatter is missing. */
scw_set_report made_up_single(void);
scw_settings made_up_settings(void);
scwi_inputs made_up_inputs(void);
scw_change_report made_up_change(void);
scw_plan_result made_up_plan(void);

/* What was written; refuses the write number `refuse` (1-based; 0: none). */
typedef struct written {
  scwi_text text;
  size_t writes, refuse;
} written;
scw_sink sink_of(written *to);

scw_context *made_up_context(void);

/* The reports as a string to be freed. */
char *text_of_sets(scw_set_report *sets, size_t n, scw_report_options options);
char *text_of_changes(scw_change_report *changes, size_t n,
                      scw_report_options options);

/* How many columns the widest line takes. */
size_t widest_line(const char *text);

/* The line that starts with `start` after its indent; fails without one. */
const char *line_of(const char *text, const char *start);

#define assert_has(text, part)   assert_contains((text), (part), true)
#define assert_lacks(text, part) assert_contains((text), (part), false)
void assert_contains(const char *text, const char *part, bool wanted);

#endif
