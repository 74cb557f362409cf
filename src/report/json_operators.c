/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Operators crossed with spots, and precision, as JSON. */
#include "figure.h"
#include "json_panel.h"

static scwi_json *model_of(const scw_crossed_model *model) {
  scwi_json *to = scwi_json_object(), *all = scwi_json_array();
  scwi_json_add(all, NULL, scwi_json_component("operator", &model->operators));
  scwi_json_add(all, NULL, scwi_json_component("spot", &model->spots));
  if (model->with_interaction)
    scwi_json_add(all, NULL,
                  scwi_json_component("interaction", &model->interaction));
  scwi_json_add(all, NULL, scwi_json_component("repeat", &model->repeats));
  scwi_json_add(to, "components", all);
  scwi_json_figure(to, "repeatability_sd", model->repeatability_sd);
  scwi_json_ends(to, "repeatability_low", "repeatability_high",
                 model->repeatability);
  scwi_json_figure(to, "reproducibility_sd", model->reproducibility_sd);
  scwi_json_ends(to, "reproducibility_low", "reproducibility_high",
                 model->reproducibility);
  scwi_json_figure(to, "repeatability_limit", model->repeatability_limit);
  scwi_json_figure(to, "reproducibility_limit", model->reproducibility_limit);
  return to;
}

scwi_json *scwi_json_crossed(const scw_crossed *crossed) {
  scwi_json *to = scwi_json_object();
  scwi_json_whole(to, "operators", crossed->operators);
  scwi_json_whole(to, "spots", crossed->spots);
  scwi_json_number(to, "limit_factor", crossed->limit_factor);
  scwi_json_add(to, "with_interaction", model_of(&crossed->with));
  scwi_json_add(to, "without_interaction", model_of(&crossed->without));
  return to;
}

static void add_odd_one(scwi_json *to, const char *key, const scw_odd_one *test,
                        const scw_panel_part *part) {
  scwi_json *object = scwi_json_object();
  bool named = scwi_present(test->statistic) && test->lab < part->n_by;
  scwi_json_text(object, "operator", named ? part->by[test->lab].label : NULL);
  scwi_json_figure(object, "statistic", test->statistic);
  scwi_json_figure(object, "p", test->p);
  scwi_json_figure(object, "limit", test->limit);
  scwi_json_figure(object, "limit_strict", test->limit_strict);
  scwi_json_add(to, key, object);
}

static scwi_json *lab_of(const scw_lab *lab, const char *label) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "operator", label);
  scwi_json_whole(to, "n", lab->n);
  scwi_json_figure(to, "mean", lab->mean);
  scwi_json_figure(to, "sd", lab->sd);
  scwi_json_figure(to, "h", lab->h);
  scwi_json_figure(to, "k", lab->k);
  scwi_json_figure(to, "k_limit", lab->k_limit);
  scwi_json_figure(to, "k_limit_strict", lab->k_limit_strict);
  return to;
}

scwi_json *scwi_json_precision(const scw_panel_part *part) {
  const scw_precision *found = part->precision;
  scwi_json *to = scwi_json_object(), *labs = scwi_json_array();
  scwi_json_figure(to, "mean", found->mean);
  scwi_json_figure(to, "per_operator", found->per_lab);
  scwi_json_figure(to, "f", found->f);
  scwi_json_figure(to, "p", found->p);
  scwi_json_figure(to, "between_variance", found->between_variance);
  scwi_json_figure(to, "repeatability_sd", found->s_r);
  scwi_json_ends(to, "repeatability_low", "repeatability_high",
                 found->s_r_interval);
  scwi_json_figure(to, "between_sd", found->s_l);
  scwi_json_figure(to, "reproducibility_sd", found->s_R);
  scwi_json_ends(to, "reproducibility_low", "reproducibility_high",
                 found->s_R_interval);
  scwi_json_number(to, "limit_factor", found->limit_factor);
  scwi_json_figure(to, "repeatability_limit", found->r_limit);
  scwi_json_figure(to, "reproducibility_limit", found->R_limit);
  add_odd_one(to, "cochran", &found->cochran, part);
  add_odd_one(to, "grubbs", &found->grubbs, part);
  scwi_json_figure(to, "h_limit", found->h_limit);
  scwi_json_figure(to, "h_limit_strict", found->h_limit_strict);
  for (size_t i = 0; i < found->labs && i < part->n_by; i++)
    scwi_json_add(labs, NULL, lab_of(&found->lab[i], part->by[i].label));
  scwi_json_add(to, "operators", labs);
  return to;
}
