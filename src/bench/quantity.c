/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "quantity.h"

#include <string.h>

#include "codes.h"
#include "memory.h"
#include "text.h"
#include "texts.h"

static const size_t texts[] = {
    offsetof(scw_bench_quantity, name),     offsetof(scw_bench_quantity, about),
    offsetof(scw_bench_quantity, unit),     offsetof(scw_bench_quantity, geometry),
    offsetof(scw_bench_quantity, meter),    offsetof(scw_bench_quantity, model)};
enum { TEXTS = sizeof texts / sizeof *texts };

SCWI_CODE_FUNCTION(scw_measures_code, scw_measures, SCW_MEASURES_LIST,
                   SCWI_KEY_OF_3, SCW_MEASURES_END, "unknown")

SCWI_CODE_FUNCTION(scw_measures_text, scw_measures, SCW_MEASURES_LIST,
                   SCWI_TEXT_OF_3, SCW_MEASURES_END, "unknown")

scw_status scwi_quantity_append(scw_context *context, scw_bench *bench,
                                const scw_bench_quantity *quantity) {
  size_t capacity = bench->n_quantities;
  scw_status status = SCWI_RESERVE(context, bench->n_quantities + 1,
                                   &bench->quantity, &capacity);
  if (status) return status;
  scw_bench_quantity *copy = &bench->quantity[bench->n_quantities];
  *copy = *quantity;
  status = scwi_texts_own(context, copy, texts, TEXTS);
  if (!status) bench->n_quantities++;
  return status;
}

void scwi_quantity_free(scw_bench_quantity *quantity) {
  scwi_texts_free(quantity, texts, TEXTS);
}

static scw_status fail(scw_context *context, const scw_bench *bench,
                       scwi_text *words) {
  scw_status status = scwi_text_status(context, words);
  if (!status)
    status = scwi_fail_at(context, SCW_BAD_INPUT,
                          bench->name ? bench->name : "the bench", 0, 0, "%s",
                          words->data);
  scwi_text_free(words);
  return status;
}

scw_status scw_bench_find_quantity(scw_context *context,
                                   const scw_bench *bench, const char *name,
                                   const scw_bench_quantity **out) {
  bool named = name && *name;
  scwi_text words = {0};
  *out = NULL;
  for (size_t i = 0; named && i < bench->n_quantities && !*out; i++)
    if (!strcmp(bench->quantity[i].name, name)) *out = &bench->quantity[i];
  if (!named && bench->n_quantities == 1) *out = bench->quantity;
  if (*out) return SCW_OK;
  if (!bench->n_quantities)
    scwi_text_add(&words, "holds no quantities; describe what is worked out "
                          "under \"quantities\"");
  else if (named)
    scwi_text_format(&words, "no quantity is called %s; it has ", name);
  else
    scwi_text_add(&words, "holds several quantities, choose one of ");
  for (size_t i = 0; i < bench->n_quantities; i++)
    scwi_text_format(&words, "%s%s", i ? ", " : "", bench->quantity[i].name);
  return fail(context, bench, &words);
}
