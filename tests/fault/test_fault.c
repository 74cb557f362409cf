/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every job again and again, its n-th request for memory failing, for every n:
 * it must say that memory ran out, leave its outputs empty and give back what
 * it took, or do without and give the very same bytes. */
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "failing_memory.h"
#include "jobs.h"

static int complaints;
#define COMPLAIN(...)                                                          \
  (complaints++, fprintf(stderr, __VA_ARGS__), fputc('\n', stderr))

static job_output plain, hurt;

static void run_counted(const job *todo, scw_context *context, job_output *out,
                        long failing, scw_status *status,
                        failing_memory_account *account) {
  out->length = 0;
  out->complaint = NULL;
  failing_memory_start(failing);
  *status = todo->run(context, out);
  *account = failing_memory_stop();
}

/* Shows the first line in which the answers part. */
static void show_difference(void) {
  size_t at = 0, start = 0;
  while (at < hurt.length && at < plain.length &&
         hurt.text[at] == plain.text[at])
    if (plain.text[at++] == '\n') start = at;
  fprintf(stderr, "  unharmed: %.*s\n  harmed:   %.*s\n",
          (int)strcspn(plain.text + start, "\n"), plain.text + start,
          (int)strcspn(hurt.text + start, "\n"), hurt.text + start);
}

static void judge(const job *todo, const scw_context *context, long n,
                  scw_status status, failing_memory_account account) {
  if (account.live)
    COMPLAIN("%s: request %ld fails: %ld blocks not given back", todo->name, n,
             account.live);
  if (hurt.complaint)
    COMPLAIN("%s: request %ld fails: broken: %s", todo->name, n,
             hurt.complaint);
  if (status == SCW_OK) {
    if (hurt.length != plain.length ||
        memcmp(hurt.text, plain.text, plain.length)) {
      COMPLAIN("%s: request %ld fails: OK, but another answer", todo->name, n);
      show_difference();
    }
  } else if (status != SCW_OUT_OF_MEMORY) {
    COMPLAIN("%s: request %ld fails: status \"%s\", message \"%s\"",
             todo->name, n, scw_status_text(status),
             scw_context_message(context));
  } else if (!strstr(scw_context_message(context), "memory")) {
    COMPLAIN("%s: request %ld fails: message \"%s\"", todo->name, n,
             scw_context_message(context));
  }
}

/* Returns how many requests the job makes when none fails. */
static long every_request(const job *todo) {
  scw_context *context = NULL;
  scw_status status;
  failing_memory_account account;
  if (scw_context_new(&context) != SCW_OK) exit(2);
  run_counted(todo, context, &plain, 0, &status, &account);
  if (status != SCW_OK || account.live)
    COMPLAIN("%s: unharmed: \"%s\", %ld blocks not given back: %s",
             todo->name, scw_status_text(status), account.live,
             scw_context_message(context));
  scw_context_free(context);
  for (long n = 1; complaints < 20; n++) {
    if (scw_context_new(&context) != SCW_OK) exit(2);
    run_counted(todo, context, &hurt, n, &status, &account);
    if (account.failed) judge(todo, context, n, status, account);
    scw_context_free(context);
    if (!account.failed) break;
  }
  return account.requests;
}

static void context_itself(void) {
  scw_context *context = (scw_context *)&plain;
  failing_memory_start(1);
  scw_status status = scw_context_new(&context);
  failing_memory_account account = failing_memory_stop();
  if (!account.failed || status != SCW_OUT_OF_MEMORY || context)
    COMPLAIN("a context without memory: \"%s\"", scw_status_text(status));
}

/* A count that counts nothing proves nothing. */
static void counting_works(void) {
  failing_memory_start(2);
  void *volatile first = malloc(10);
  void *volatile second = calloc(3, 7);
  failing_memory_account account = failing_memory_stop();
  if (!first || second || account.requests != 2 || account.live != 1 ||
      !account.failed)
    COMPLAIN("the failing allocator does not count");
  free(first);
}

static void *nothing(void *argument) { return argument; }

/* The C library keeps the room of a thread that ended for the next one; it is
 * no block that a job keeps. */
static void keep_room_for_a_thread(void) {
  pthread_t thread;
  if (pthread_create(&thread, NULL, nothing, NULL)) exit(2);
  pthread_join(thread, NULL);
}

/* test_fault [PART PARTS]: every PARTS-th job from PART on; all without. */
int main(int argc, char **argv) {
  size_t part = argc > 2 ? (size_t)atoi(argv[1]) : 0;
  size_t parts = argc > 2 ? (size_t)atoi(argv[2]) : 1;
  keep_room_for_a_thread();
  counting_works();
  context_itself();
  for (size_t i = part; i < n_jobs; i += parts)
    printf("%-28s %6ld requests\n", jobs[i].name, every_request(&jobs[i]));
  printf("%d complaints\n", complaints);
  return complaints != 0;
}
