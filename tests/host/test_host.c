/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A host that keeps an eye on its guest: over the whole public interface of
 * the shared library, failing calls included, nothing ends the process,
 * speaks on descriptors 1 or 2, touches the locale or the GSL handler of the
 * host, and two threads with a context each get the bytes one gets alone.
 *
 * No test framework: it would itself call what is watched here. */
#include <dlfcn.h>
#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "jobs.h"
#include "manners.h"
#include "two_threads.h"

static int report_to; /* where complaints go once 1 and 2 are watched */
static int complaints;

#define COMPLAIN(...)                                                          \
  (complaints++, dprintf(report_to, __VA_ARGS__), dprintf(report_to, "\n"))

/* ---- what is watched ---------------------------------------------------- */

static int watched_file;

/* Descriptors 1 and 2 lead into an unnamed file from here on. */
static bool watch_descriptors(void) {
  report_to = dup(2);
  FILE *file = tmpfile();
  if (report_to < 0 || !file) return false;
  watched_file = fileno(file);
  return dup2(watched_file, 1) >= 0 && dup2(watched_file, 2) >= 0;
}

static const char *locale_now(void) {
  static char *(*real)(int, const char *);
  if (!real) *(void **)&real = dlsym(RTLD_NEXT, "setlocale");
  return real(LC_ALL, NULL);
}

/* Says what the guest did since the last look. */
static void look(const char *name) {
  static off_t seen;
  off_t now = lseek(watched_file, 0, SEEK_END);
  if (now != seen) COMPLAIN("%s: wrote to descriptor 1 or 2", name);
  seen = now;
  if (atomic_exchange(&caught, 0))
    COMPLAIN("%s: called %s", name, caught_name);
  if (strcmp(locale_now(), "C")) COMPLAIN("%s: changed the locale", name);
}

/* ---- the whole interface ------------------------------------------------ */

static job_output spare;

static void run_job(scw_context *context, const job *todo, job_output *out) {
  out->length = 0;
  out->complaint = NULL;
  scw_status status = todo->run(context, out);
  if (status != SCW_OK)
    COMPLAIN("%s: %s: %s", todo->name, scw_status_text(status),
             scw_context_message(context));
  if (out->complaint) COMPLAIN("%s: %s", todo->name, out->complaint);
  if (out->length == 0) COMPLAIN("%s: nothing came out", todo->name);
}

static void run_failing(scw_context *context, const failing_job *todo) {
  spare.length = 0;
  spare.complaint = NULL;
  scw_status status = todo->run(context, &spare);
  if (status != todo->wanted)
    COMPLAIN("%s: status \"%s\", wanted \"%s\"", todo->name,
             scw_status_text(status), scw_status_text(todo->wanted));
  if (!scw_context_message(context)[0]) COMPLAIN("%s: no message", todo->name);
  if (spare.complaint) COMPLAIN("%s: %s", todo->name, spare.complaint);
}

static void whole_interface(scw_context *context) {
  for (size_t i = 0; i < n_jobs; i++) {
    run_job(context, &jobs[i], &spare);
    look(jobs[i].name);
  }
  for (size_t i = 0; i < n_failing_jobs; i++) {
    run_failing(context, &failing_jobs[i]);
    look(failing_jobs[i].name);
  }
}

/* Freeing nothing is allowed, and asking about nothing. */
static void nothing_at_all(void) {
  scw_readings_result readings = {0};
  scw_brief_result brief = {0};
  scw_change_result change = {0};
  scw_plan_result plan = {0};
  scw_context_free(NULL);
  scw_table_free(NULL);
  scw_readings_result_free(&readings);
  scw_brief_result_free(&brief);
  scw_change_result_free(&change);
  scw_plan_result_free(&plan);
  if (scw_context_message(NULL)[0]) COMPLAIN("no context has a message");
  if (scw_context_line(NULL) || scw_context_column(NULL))
    COMPLAIN("no context has a place");
  look("nothing at all");
}

/* ---- the place of a failure --------------------------------------------- */

static void place_of_failure(scw_context *context) {
  scw_table *table = NULL;
  spare.complaint = NULL;
  job_read(context, &spare, "spot,reading\n1,82.4\n2,shiny\n", NULL, &table);
  if (scw_context_line(context) != 3 || scw_context_column(context) != 3)
    COMPLAIN("place of \"shiny\": line %zu, column %zu, wanted 3 and 3",
             scw_context_line(context), scw_context_column(context));
  if (!strstr(scw_context_message(context), "shiny"))
    COMPLAIN("message does not quote \"shiny\": %s",
             scw_context_message(context));
  scw_table_free(table);
}

/* ---- GSL's handler, the one process-wide effect ------------------------- */

static int handler_calls;

static void hosts_handler(const char *reason, const char *file, int line,
                          int error) {
  (void)reason;
  (void)file;
  (void)line;
  (void)error;
  handler_calls++;
}

/* Documented: making a context takes the aborting handler away; a handler the
 * host sets afterwards stays. */
static void gsl_handler(scw_context *context) {
  gsl_error_handler_t *after_context = gsl_set_error_handler(hosts_handler);
  if (after_context == NULL)
    COMPLAIN("GSL's aborting handler is still in play");
  whole_interface(context);
  if (gsl_set_error_handler(after_context) != hosts_handler)
    COMPLAIN("the host's GSL handler was replaced");
}

/* ---- the watch itself --------------------------------------------------- */

/* A watch that sees nothing proves nothing: misbehave, and be caught. */
static void watch_works(void) {
  if (write(1, "x", 1) != 1) COMPLAIN("descriptor 1 does not take bytes");
  printf("spoken");
  setlocale(LC_ALL, "");
  int calls = atomic_load(&caught);
  off_t size = lseek(watched_file, 0, SEEK_END);
  if (size != 1) COMPLAIN("a byte on descriptor 1 went unseen");
  if (calls != 2) COMPLAIN("%d of 2 calls were caught", calls);
  atomic_store(&caught, 0);
  if (ftruncate(watched_file, 0)) COMPLAIN("cannot empty the watched file");
  lseek(watched_file, 0, SEEK_SET);
}

int main(void) {
  scw_context *context = NULL;
  if (!watch_descriptors()) return 2;
  watch_works();
  if (scw_context_new(&context) != SCW_OK) return 2;
  whole_interface(context);
  nothing_at_all();
  place_of_failure(context);
  gsl_handler(context);
  const char *differs = two_threads(context);
  if (differs) COMPLAIN("two threads: %s", differs);
  look("two threads");
  scw_context_free(context);
  look("the end");
  dprintf(report_to, "%d complaints\n", complaints);
  return complaints != 0;
}
