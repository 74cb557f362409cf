/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures_filter.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"

enum { LINE = 1 << 16 };

static void stop(const char *what) {
  fprintf(stderr, "figures filter: %s\n", what);
  exit(1);
}

void must(scw_context *context, scw_status status) {
  if (status != SCW_OK) stop(scw_context_message(context));
}

double take_number(char **rest) {
  char *end;
  double value = strtod(*rest, &end);
  if (end == *rest) stop("a number is missing");
  *rest = end;
  return value;
}

size_t take_count(char **rest) {
  return (size_t)take_number(rest);
}

void take_readings(char **rest, readings *out) {
  size_t n = take_count(rest);
  if (n > MOST_READINGS) stop("too many readings");
  for (size_t i = 0; i < n; i++)
    out->x[i] = take_number(rest);
  out->sample = (scwi_sample){.n = n, .x = out->x};
}

void take_ticks(char **rest, readings *out) {
  double size = take_number(rest);
  take_readings(rest, out);
  for (size_t i = 0; i < out->sample.n; i++) {
    out->ticks[i] = (int64_t)out->x[i];
    out->x[i] *= size;
  }
  out->sample.ticks = out->ticks;
  out->sample.tick_size = size;
}

scwi_comparison take_comparison(char **rest) {
  scwi_comparison c = {.paired = take_number(rest) > 0};
  c.sd_before = take_number(rest);
  c.sd_after = take_number(rest);
  c.step = take_number(rest);
  c.level = take_number(rest);
  return c;
}

scw_figure take_margin(char **rest) {
  double margin = take_number(rest);
  return margin > 0 ? scwi_figure(margin) : scwi_missing(SCW_NO_MARGIN);
}

double shown(scw_figure figure) {
  return scwi_present(figure) ? figure.value : NAN;
}

void say(const double *values, size_t n) {
  for (size_t i = 0; i < n; i++)
    printf("%s%.17g", i ? " " : "", values[i]);
  putchar('\n');
}

void say_estimate(const scw_estimate *e) {
  double values[] = {shown(e->estimate), shown(e->standard_uncertainty),
                     shown(e->df),       shown(e->p),
                     e->interval.low,    e->interval.high};
  say(values, 6);
}

static void answer(scw_context *context, const verb *verbs, size_t n,
                   char *line) {
  char *rest = line, *name = strsep(&rest, " \n");
  for (size_t i = 0; i < n; i++)
    if (!strcmp(name, verbs[i].name)) {
      verbs[i].answer(context, rest);
      return;
    }
  stop(name);
}

int answer_lines(const verb *verbs, size_t n) {
  static char line[LINE];
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) stop("no memory");
  while (fgets(line, sizeof line, stdin))
    answer(context, verbs, n, line);
  scw_context_free(context);
  return 0;
}
