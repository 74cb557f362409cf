/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Operators and pooled sets as text. */
#include <math.h>

#include "figure.h"
#include "number_words.h"
#include "text_panel.h"
#include "wording.h"

enum { MOST_OPERATORS = 8 };

/* "Ada +0.12, Ben -0.05 GU against the mean of all". */
static void differences(scwi_sheet *sheet, const scw_panel_part *part,
                        const char *unit) {
  scwi_text *text = &sheet->scratch;
  double sum = 0, most = 0;
  for (size_t i = 0; i < part->n_by; i++)
    sum += part->by[i].mean.value / (double)part->n_by;
  for (size_t i = 0; i < part->n_by; i++)
    most = fmax(most, fabs(part->by[i].mean.value - sum));
  int decimals = scwi_decimals_of(scwi_figure(most), scwi_figure(most));
  for (size_t i = 0; i < part->n_by && i < MOST_OPERATORS; i++) {
    double off = part->by[i].mean.value - sum;
    scwi_text_format(text, "%s%s ", i ? ", " : "", part->by[i].label);
    if (off > 0) scwi_text_add(text, "+");
    scwi_put_fixed(text, off, decimals);
  }
  if (part->n_by > MOST_OPERATORS)
    scwi_text_format(text, " and %zu more", part->n_by - MOST_OPERATORS);
  scwi_text_format(text, "%s%s against the mean of all", *unit ? " " : "",
                   unit);
  scwi_sheet_labelled_scratch(sheet, "operators");
}

/* "two readings by one operator seldom differ by more than 0.33 GU, ...". */
static void limits(scwi_sheet *sheet, scw_figure r_sd, scw_figure R_sd,
                   scw_figure r, scw_figure R, const char *unit) {
  scwi_text *text = &sheet->scratch;
  if (scwi_present(r_sd) && scwi_present(r)) {
    scwi_text_add(text, "by one operator SD ");
    scwi_word_short(text, r_sd.value, unit);
    scwi_text_add(text, ", two readings within ");
    scwi_word_short(text, r.value, unit);
    scwi_sheet_labelled_scratch(sheet, "repeatability");
  }
  if (scwi_present(R_sd) && scwi_present(R)) {
    scwi_text_add(text, "by any operator SD ");
    scwi_word_short(text, R_sd.value, unit);
    scwi_text_add(text, ", two readings within ");
    scwi_word_short(text, R.value, unit);
    scwi_sheet_labelled_scratch(sheet, "reproducibility");
  }
}

static void odd_one(scwi_sheet *sheet, const scw_panel_part *part,
                    const scw_odd_one *test, const char *name,
                    const char *what, const char *label) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(test->p) || test->lab >= part->n_by) return;
  scwi_text_format(text, "%s %s (%s, ", part->by[test->lab].label, what, name);
  scwi_word_p(text, test->p);
  scwi_text_add(text, test->p.value < 0.01   ? "): more than chance explains"
                      : test->p.value < 0.05 ? "): doubtful"
                                             : "): chance explains that");
  scwi_sheet_labelled_scratch(sheet, label);
}

/* Those beyond Mandel's limits, by name. */
static void beyond(scwi_sheet *sheet, const scw_panel_part *part) {
  const scw_precision *found = part->precision;
  scwi_text *text = &sheet->scratch;
  for (size_t i = 0; i < part->n_by; i++) {
    const scw_lab *lab = &found->lab[i];
    bool h = scwi_present(lab->h) && scwi_present(found->h_limit) &&
             fabs(lab->h.value) > found->h_limit.value;
    bool k = scwi_present(lab->k) && scwi_present(lab->k_limit) &&
             lab->k.value > lab->k_limit.value;
    if (!h && !k) continue;
    scwi_word_join(text, "; ");
    scwi_text_format(text, "%s", part->by[i].label);
    if (h) {
      scwi_text_add(text, " by the mean (h ");
      scwi_put_digits(text, lab->h.value, 2);
      scwi_text_add(text, ")");
    }
    if (k) {
      scwi_text_add(text, h ? " and by the scatter (k " : " by the scatter (k ");
      scwi_put_digits(text, lab->k.value, 2);
      scwi_text_add(text, ")");
    }
  }
  if (text->length) scwi_text_add(text, " beyond what 1 in 20 would reach");
  scwi_sheet_labelled_scratch(sheet, "stand out");
}

void scwi_sheet_operators(scwi_sheet *sheet, const scw_panel_part *part,
                          const char *unit) {
  const scw_precision *found = part->precision;
  if (part->n_by < 2) return;
  differences(sheet, part, unit);
  if (part->design == SCW_PANEL_CROSSED) {
    const scw_crossed *crossed = part->crossed;
    bool told = crossed->with.interaction.state == SCW_PRESENT;
    const scw_crossed_model *model = told ? &crossed->with : &crossed->without;
    limits(sheet, model->repeatability_sd, model->reproducibility_sd,
           model->repeatability_limit, model->reproducibility_limit, unit);
  }
  if (part->design != SCW_PANEL_PRECISION) return;
  limits(sheet, found->s_r, found->s_R, found->r_limit, found->R_limit, unit);
  odd_one(sheet, part, &found->cochran, "Cochran", "scatters most", "");
  odd_one(sheet, part, &found->grubbs, "Grubbs", "lies farthest off", "");
  beyond(sheet, part);
}

static void homogeneity(scwi_text *text, const char *name,
                        const scw_homogeneity *test) {
  if (!scwi_present(test->p)) return;
  scwi_text_format(text, "%s%s ", text->length ? ", " : "", name);
  scwi_word_p(text, test->p);
}

void scwi_sheet_pool(scwi_sheet *sheet, const scw_panel_result *result) {
  const scw_pool *pool = &result->pool;
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(pool->sd) || !scwi_present(pool->df)) return;
  scwi_text_add(text, "SD ");
  scwi_word_short(text, pool->sd.value, result->unit);
  scwi_text_add(text, " on ");
  scwi_word_df(text, pool->df.value);
  scwi_text_format(text, " degrees of freedom, within %zu sets", pool->sets);
  scwi_sheet_labelled_scratch(sheet, "pooled");
  homogeneity(text, "Bartlett", &pool->bartlett);
  homogeneity(text, "Levene", &pool->levene);
  homogeneity(text, "Brown-Forsythe", &pool->brown_forsythe);
  scwi_sheet_labelled_scratch(sheet, "all alike?");
}
