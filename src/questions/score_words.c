/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer of a score in words. */
#include <string.h>

#include "figure.h"
#include "score_inside.h"
#include "words.h"

static bool together(const scw_score_result *out, size_t a, size_t b) {
  return out->product[b].of &&
         (!out->score->within_category ||
          !strcmp(out->product[a].category, out->product[b].category));
}

/* "K3 leads with 34.2 points; K1 could hold the first place as well." */
static void say_leader(scwi_text *text, const scw_score_result *out,
                       size_t leader) {
  const scw_scored_product *best = &out->product[leader];
  size_t rivals = 0, said = 0;
  for (size_t i = 0; i < out->n_products; i++)
    rivals += i != leader && together(out, leader, i) &&
              out->product[i].place_low == 1;
  if (out->score->within_category)
    scwi_text_format(text, "Among %s: ", best->category);
  if (best->of == 1) {
    scwi_text_format(text, "%s stands alone.", best->label);
    return;
  }
  scwi_text_format(text, "%s %s", best->label,
                   rivals ? "has the most points, but " : "leads: no other");
  if (!rivals) {
    scwi_text_add(text, " product could hold the first place.");
    return;
  }
  for (size_t i = 0; i < out->n_products; i++) {
    if (i == leader || !together(out, leader, i) ||
        out->product[i].place_low != 1)
      continue;
    scwi_text_format(text, "%s%s",
                     said == 0            ? ""
                     : said + 1 == rivals ? " and "
                                          : ", ",
                     out->product[i].label);
    said++;
  }
  scwi_text_add(text, " could hold the first place as well.");
}

scw_status scwi_score_sentence(scw_context *context, scw_score_result *out) {
  scwi_text text = {0};
  bool any = false;
  for (size_t i = 0; i < out->n_products; i++) {
    bool first = out->product[i].of > 0;
    for (size_t j = 0; j < i && first; j++)
      first = !together(out, i, j);
    if (!first) continue;
    if (any) scwi_text_add(&text, " ");
    say_leader(&text, out, i);
    any = true;
  }
  if (!any)
    scwi_text_add(&text, "No product can be ranked: a part of each score has "
                         "no interval.");
  return scwi_text_take(context, &text, &out->sentence);
}
