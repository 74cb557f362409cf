/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two threads at once, as a program the thread sanitizer can watch. */
#include <stdio.h>

#include "two_threads.h"

int main(void) {
  scw_context *context = NULL;
  if (scw_context_new(&context) != SCW_OK) return 2;
  const char *differs = two_threads(context);
  if (differs) fprintf(stderr, "differs, or failed: %s\n", differs);
  scw_context_free(context);
  return differs != NULL;
}
