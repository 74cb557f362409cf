/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs every job and writes what came out to standard output: run once plain
 * and once under a decimal comma, the bytes must be the same. */
#include <stdio.h>

#include "jobs.h"

static job_output out;

int main(void) {
  scw_context *context = NULL;
  if (scw_context_new(&context) != SCW_OK) return 2;
  for (size_t i = 0; i < n_jobs; i++) {
    out.length = 0;
    scw_status status = jobs[i].run(context, &out);
    printf("== %s: %s\n", jobs[i].name, scw_status_text(status));
    fwrite(out.text, 1, out.length, stdout);
    if (status != SCW_OK) return 1;
  }
  for (size_t i = 0; i < n_failing_jobs; i++) {
    out.length = 0;
    failing_jobs[i].run(context, &out);
    printf("== %s: %s\n", failing_jobs[i].name, scw_context_message(context));
  }
  scw_context_free(context);
  return fflush(stdout) != 0;
}
