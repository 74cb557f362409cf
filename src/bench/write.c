/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bench as a bench file, one member a line so that people can read and
 * compare it. */
#include <math.h>
#include <string.h>

#include "input.h"
#include "json_text.h"
#include "number_text.h"
#include "scatter.h"
#include "write.h"

/* An object is written member after member; each begins a line and knows
 * whether a comma goes before it. */
typedef struct page {
  scwi_text text;
  bool first; /* in the object that is open */
} page;

static void start(page *to, const char *key) {
  scwi_text_format(&to->text, "%s      \"%s\": ", to->first ? "\n" : ",\n",
                   key);
  to->first = false;
}

static void put_text(page *to, const char *key, const char *text) {
  if (!*text) return;
  start(to, key);
  scwi_json_quote(&to->text, text);
}

static void add_number(page *to, double value) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(&to->text, scwi_number_text(value, number));
}

static void put_number(page *to, const char *key, double value) {
  start(to, key);
  add_number(to, value);
}

static void put_whole(page *to, const char *key, size_t value) {
  start(to, key);
  scwi_text_format(&to->text, "%zu", value);
}

static void put_scatter(page *to, const void *item) {
  const scw_bench_scatter *entry = item;
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++) {
    const scwi_scatter_text *text = &scwi_scatter_texts[i];
    if (text->identity)
      put_text(to, text->key, scwi_scatter_text_in(entry, text));
  }
  put_number(to, "sd", entry->sd);
  put_number(to, "df", entry->df);
  put_whole(to, "sets", entry->sets);
  put_text(to, "date", entry->date);
}

/* With the zeros that tell the display step: 160.0. */
static void add_reading(page *to, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(&to->text, scwi_number_text(value, number));
  if (decimals == 0 || strpbrk(number, "eE")) return;
  const char *point = strchr(number, '.');
  int own = point ? (int)strlen(point + 1) : 0;
  if (!point) scwi_text_add(&to->text, ".");
  if (own < decimals) scwi_text_repeat(&to->text, '0', (size_t)(decimals - own));
}

static void put_readings(page *to, const scw_bench_input *input) {
  const scw_step *step = &input->given.step;
  bool told = !*input->file && !input->n_readings;
  if (*input->file) {
    put_text(to, "file", input->file);
    put_text(to, "column", input->column);
  } else if (input->n_readings) {
    start(to, "readings");
    for (size_t i = 0; i < input->n_readings; i++) {
      scwi_text_add(&to->text, i ? ", " : "[");
      add_reading(to, input->readings[i], input->decimals);
    }
    scwi_text_add(&to->text, "]");
  } else {
    put_whole(to, "n", input->given.n);
    put_number(to, "value", input->given.value);
    put_number(to, "sd", input->given.sd);
  }
  if (step->origin == SCW_STEP_GIVEN || (told && step->size > 0))
    put_number(to, "step", step->size);
}

static void put_input(page *to, const void *item) {
  const scw_bench_input *input = item;
  scw_budget_given given = input->given;
  put_text(to, "name", given.name);
  put_text(to, "about", input->about);
  put_text(to, "unit", input->unit);
  put_text(to, "kind", scw_budget_kind_code(given.kind));
  if (given.kind == SCW_KIND_READINGS) put_readings(to, input);
  for (size_t i = 0;
       given.kind != SCW_KIND_READINGS && i < SCWI_INPUT_NUMBERS; i++) {
    double value = *scwi_input_number_of(&given, &scwi_input_numbers[i]);
    if (i == 0 || value != 0) put_number(to, scwi_input_numbers[i].key, value);
  }
  if (given.relative) {
    start(to, "relative");
    scwi_text_add(&to->text, "true");
  }
  if (input->shared == SCW_SHARED_NOT_SAID) return;
  start(to, "shared");
  scwi_text_add(&to->text, input->shared == SCW_SHARED ? "true" : "false");
}

static void put_limits(page *to, const scw_bench_quantity *quantity) {
  start(to, "limits");
  scwi_text_add(&to->text, "{");
  if (isfinite(quantity->low)) {
    scwi_text_add(&to->text, "\"low\": ");
    add_number(to, quantity->low);
    scwi_text_add(&to->text, ", ");
  }
  if (isfinite(quantity->high)) {
    scwi_text_add(&to->text, "\"high\": ");
    add_number(to, quantity->high);
    scwi_text_add(&to->text, ", ");
  }
  scwi_text_add(&to->text, "\"probability\": ");
  add_number(to, quantity->conformance.value);
  scwi_text_add(&to->text, "}");
}

static void put_quantity(page *to, const void *item) {
  const scw_bench_quantity *quantity = item;
  put_text(to, "name", quantity->name);
  put_text(to, "about", quantity->about);
  put_text(to, "measures", scw_measures_code(quantity->measures));
  put_text(to, "unit", quantity->unit);
  put_text(to, "geometry", quantity->geometry);
  put_text(to, "meter", quantity->meter);
  put_text(to, "model", quantity->model);
  if (quantity->margin.state == SCW_PRESENT)
    put_number(to, "margin", quantity->margin.value);
  if (quantity->conformance.state == SCW_PRESENT) put_limits(to, quantity);
}

static void put_caps(page *to, double low, double high) {
  if (isfinite(low)) put_number(to, "low", low);
  if (isfinite(high)) put_number(to, "high", high);
}

static void put_rounding(page *to, const scw_rounding *rounding) {
  const struct {
    const char *key;
    double step;
  } stages[] = {{"mean", rounding->mean},
                {"difference", rounding->difference},
                {"points", rounding->points}};
  if (!(rounding->mean + rounding->difference + rounding->points > 0)) return;
  start(to, "rounding");
  scwi_text_add(&to->text, "{");
  for (size_t i = 0; i < 3; i++) {
    if (!(stages[i].step > 0)) continue;
    scwi_text_format(&to->text, "\"%s\": ", stages[i].key);
    add_number(to, stages[i].step);
    scwi_text_add(&to->text, ", ");
  }
  scwi_text_format(&to->text, "\"ties\": \"%s\"}",
                   scw_ties_code(rounding->ties));
}

static void put_rungs(page *to, const scw_rule *rule) {
  start(to, "rungs");
  for (size_t i = 0; i < rule->n_rungs; i++) {
    scwi_text_add(&to->text, i ? ", {\"passes\": " : "[{\"passes\": ");
    add_number(to, rule->rung[i].passes);
    scwi_text_add(&to->text, ", \"points\": ");
    add_number(to, rule->rung[i].points);
    scwi_text_add(&to->text, "}");
  }
  scwi_text_add(&to->text, "]");
}

static void put_rule(page *to, const void *item) {
  const scw_rule *rule = item;
  put_text(to, "name", rule->name);
  put_text(to, "about", rule->about);
  put_text(to, "kind", scw_rule_kind_code(rule->kind));
  put_text(to, "reading", rule->reading);
  put_text(to, "unit", rule->unit);
  put_text(to, "baseline", rule->baseline);
  if (rule->kind == SCW_RULE_LADDER) {
    put_rungs(to, rule);
  } else if (rule->per == 1) {
    put_number(to, "multiplier", rule->points);
  } else {
    put_number(to, "points", rule->points);
    put_number(to, "per", rule->per);
  }
  if (rule->offset != 0) put_number(to, "offset", rule->offset);
  put_caps(to, rule->low, rule->high);
  put_rounding(to, &rule->rounding);
}

static void put_list(page *to, const char *key, const void *items, size_t n,
                     size_t size, void (*put)(page *, const void *)) {
  scwi_text_format(&to->text, ",\n  \"%s\": [", key);
  for (size_t i = 0; i < n; i++) {
    scwi_text_add(&to->text, i ? ",\n    {" : "\n    {");
    to->first = true;
    put(to, (const char *)items + i * size);
    scwi_text_add(&to->text, "\n    }");
  }
  scwi_text_add(&to->text, n ? "\n  ]" : "]");
}

/* Pairs are told by the names of their inputs, which an item does not know. */
static void put_correlations(page *to, const scw_bench *bench) {
  scwi_text_add(&to->text, ",\n  \"correlations\": [");
  for (size_t i = 0; i < bench->n_correlations; i++) {
    const scw_bench_correlation *pair = &bench->correlation[i];
    scwi_text_add(&to->text, i ? ",\n    {\"between\": [" : "\n    {\"between\": [");
    scwi_json_quote(&to->text, bench->input[pair->a].given.name);
    scwi_text_add(&to->text, ", ");
    scwi_json_quote(&to->text, bench->input[pair->b].given.name);
    scwi_text_add(&to->text, "], \"coefficient\": ");
    add_number(to, pair->coefficient);
    scwi_text_add(&to->text, "}");
  }
  scwi_text_add(&to->text, "\n  ]");
}

/* Parts are told by the names of their rules, which an item does not know. */
static void put_scores(page *to, const scw_bench *bench) {
  scwi_text_add(&to->text, ",\n  \"scores\": [");
  for (size_t i = 0; i < bench->n_scores; i++) {
    const scw_score_rule *score = &bench->score[i];
    scwi_text_add(&to->text, i ? ",\n    {" : "\n    {");
    to->first = true;
    put_text(to, "name", score->name);
    put_text(to, "about", score->about);
    put_text(to, "relative_to", score->within_category ? "category" : "");
    start(to, "parts");
    for (size_t k = 0; k < score->n_parts; k++) {
      scwi_text_add(&to->text, k ? ", {\"rule\": " : "[{\"rule\": ");
      scwi_json_quote(&to->text, bench->rule[score->part[k].rule].name);
      scwi_text_add(&to->text, ", \"weight\": ");
      add_number(to, score->part[k].weight);
      scwi_text_add(&to->text, "}");
    }
    scwi_text_add(&to->text, "]");
    put_caps(to, score->low, score->high);
    put_rounding(to, &score->rounding);
    scwi_text_add(&to->text, "\n    }");
  }
  scwi_text_add(&to->text, "\n  ]");
}

scw_status scw_bench_write(scw_context *context, const scw_bench *bench,
                           scw_sink sink) {
  page to = {.first = true};
  scwi_text_format(&to.text, "{\n  \"version\": %d", SCW_BENCH_VERSION);
  if (bench->about) {
    scwi_text_add(&to.text, ",\n  \"about\": ");
    scwi_json_quote(&to.text, bench->about);
  }
  if (bench->n_inputs)
    put_list(&to, "inputs", bench->input, bench->n_inputs,
             sizeof *bench->input, put_input);
  if (bench->n_correlations) put_correlations(&to, bench);
  if (bench->n_quantities)
    put_list(&to, "quantities", bench->quantity, bench->n_quantities,
             sizeof *bench->quantity, put_quantity);
  put_list(&to, "scatter", bench->scatter, bench->n_scatter,
           sizeof *bench->scatter, put_scatter);
  if (bench->n_rules)
    put_list(&to, "rules", bench->rule, bench->n_rules, sizeof *bench->rule,
             put_rule);
  if (bench->n_scores) put_scores(&to, bench);
  scwi_text_add(&to.text, "\n}\n");
  scw_status status = scwi_text_status(context, &to.text);
  if (!status)
    status = scwi_write(context, sink, to.text.data, to.text.length);
  scwi_text_free(&to.text);
  return status;
}
