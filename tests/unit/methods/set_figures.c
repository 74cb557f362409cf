/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filter for the judges in R and SciPy. One reading set a line in: the
 * display step, the candidates (0: by n) and the readings as decimals, all
 * separated by spaces. Out: a CSV header, then a row a set; a figure that does
 * not exist is NA. `flags` and `steps` list places and statistics. */
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "one_set.h"

enum { MOST_READINGS = 4096, LINE = 1 << 17 };

static void write_header(void) {
  one_set_named all[ONE_SET_FIGURES];
  one_set_list(&(scw_summary){0}, all);
  for (size_t i = 0; i < ONE_SET_FIGURES; i++)
    printf("%s,", all[i].name);
  printf("after_place,counted,beyond_3_5,flags,steps\n");
}

static void write_row(const scw_summary *s) {
  one_set_named all[ONE_SET_FIGURES];
  one_set_list(s, all);
  for (size_t i = 0; i < ONE_SET_FIGURES; i++) {
    if (all[i].figure.state == SCW_PRESENT)
      printf("%.17g,", all[i].figure.value);
    else
      printf("NA,");
  }
  printf("%zu,%d,%zu,", s->level_shift.after_place, s->level_shift.counted,
         s->stand_out.beyond_3_5);
  for (size_t i = 0; i < s->stand_out.n_flags; i++)
    printf("%s%zu", i ? " " : "", s->stand_out.flags[i].place);
  printf(",");
  for (size_t i = 0; i < s->stand_out.n_steps; i++)
    printf("%s%.17g", i ? " " : "", s->stand_out.steps[i].statistic);
  printf("\n");
}

static void answer(char *line) {
  const char *words[MOST_READINGS + 2];
  size_t n = 0;
  for (char *word; (word = strsep(&line, " \n"));)
    if (*word && n < MOST_READINGS + 2) words[n++] = word;
  if (n < 3) fail_msg("no readings in line");
  one_set set = one_set_from_texts(words + 2, n - 2);
  scwi_sample sample = one_set_sample(&set);
  scwi_summary_settings settings = one_set_defaults;
  sample.step = (scw_step){strtod(words[0], NULL), SCW_STEP_GIVEN};
  settings.candidates = (size_t)strtoul(words[1], NULL, 10);
  scw_summary summary = one_set_summary_with(sample, &settings);
  write_row(&summary);
  one_set_free(&set);
}

int main(void) {
  static char line[LINE];
  write_header();
  while (fgets(line, sizeof line, stdin))
    answer(line);
  return 0;
}
