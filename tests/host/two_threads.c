/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "two_threads.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

typedef struct worker {
  pthread_t thread;
  const job_output *alone; /* what every job gave before, one by one */
  const char *differs;     /* the first job that gave something else */
} worker;

/* Every job, three times over, against what it gave alone. */
static const char *compare(scw_context *context, job_output *mine,
                           const job_output *alone) {
  for (int round = 0; round < 3; round++)
    for (size_t i = 0; i < n_jobs; i++) {
      mine->length = 0;
      jobs[i].run(context, mine);
      if (mine->length != alone[i].length ||
          memcmp(mine->text, alone[i].text, mine->length))
        return jobs[i].name;
    }
  return NULL;
}

static void *work(void *user) {
  worker *me = user;
  scw_context *context = NULL;
  job_output *mine = calloc(1, sizeof *mine);
  if (mine && scw_context_new(&context) == SCW_OK)
    me->differs = compare(context, mine, me->alone);
  else
    me->differs = "no context";
  scw_context_free(context);
  free(mine);
  return NULL;
}

static const char *compare_in_threads(const job_output *alone) {
  worker workers[2] = {{.alone = alone}, {.alone = alone}};
  const char *differs = NULL;
  int started = 0;
  while (started < 2 && !pthread_create(&workers[started].thread, NULL, work,
                                        &workers[started]))
    started++;
  if (started < 2) differs = "no thread";
  for (int i = 0; i < started; i++) {
    pthread_join(workers[i].thread, NULL);
    if (workers[i].differs) differs = workers[i].differs;
  }
  return differs;
}

const char *two_threads(scw_context *context) {
  job_output *alone = calloc(n_jobs, sizeof *alone);
  const char *differs = alone ? NULL : "no memory";
  for (size_t i = 0; i < n_jobs && !differs; i++)
    if (jobs[i].run(context, &alone[i]) != SCW_OK || alone[i].length == 0)
      differs = jobs[i].name;
  if (!differs) differs = compare_in_threads(alone);
  free(alone);
  return differs;
}
