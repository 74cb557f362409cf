/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rounding for the judge, see figures_filter.h: VALUE STEP TIES, the text of
 * value and step being the decimals meant. */
#include "figures_filter.h"
#include "rule_points.h"

static void rounded(scw_context *context, char *rest) {
  double value = take_number(&rest), step = take_number(&rest);
  double out = scwi_round_to(value, step, (scw_ties)take_count(&rest));
  (void)context;
  say(&out, 1);
}

int main(void) {
  static const verb verbs[] = {{"round", rounded}};
  return answer_lines(verbs, 1);
}
