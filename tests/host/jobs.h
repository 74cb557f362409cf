/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs: between them they call every public function, on small invented data,
 * and leave what came out as bytes, so that two runs can be compared. The
 * test host, the allocation-failure program and the decimal-comma run share
 * them. Nothing here allocates: what is counted is the library's own. */
#ifndef JOBS_H
#define JOBS_H

#include <stdbool.h>

#include "scatterwise/scatterwise.h"

enum { JOB_ROOM = 1 << 18 };

/* What a job produced. */
typedef struct job_output {
  char text[JOB_ROOM];
  size_t length;
  const char *complaint; /* a promise of the API that was broken; null: none */
} job_output;

/* A job returns the status of the first call that failed, and then checks
 * that the call left its outputs empty. */
typedef struct job {
  const char *name;
  scw_status (*run)(scw_context *context, job_output *out);
} job;

/* Jobs that succeed, and jobs that must fail with a given status. */
extern const job jobs[];
extern const size_t n_jobs;

typedef struct failing_job {
  const char *name;
  scw_status wanted;
  scw_status (*run)(scw_context *context, job_output *out);
} failing_job;
extern const failing_job failing_jobs[];
extern const size_t n_failing_jobs;

/* A sink into the output, and a source over `text`. */
scw_sink job_sink(job_output *out);
typedef struct job_text {
  const char *text;
  size_t size, at;
} job_text;
scw_source job_source(job_text *text, const char *name);

/* Appends plain words. */
void job_say(job_output *out, const char *words);
/* Appends a number bit by bit: no locale can touch it. */
void job_bits(job_output *out, double value);

/* Notes the broken promise unless it holds. */
void job_expect(job_output *out, bool holds, const char *promise);

/* Reads `text` into a table; null with the status on failure. */
scw_status job_read(scw_context *context, job_output *out, const char *text,
                    const scw_table_options *options, scw_table **table);

/* Invented readings of the boat shed. */
extern const char job_pairs[];     /* spot, before, after */
extern const char job_long[];      /* product, state, spot, reading */
extern const char job_pulls[];     /* state, pull [g] */
extern const char job_repeats[];   /* spot, repeat, gloss: balanced */
extern const char job_commas[];    /* semicolons and decimal commas */

#endif
