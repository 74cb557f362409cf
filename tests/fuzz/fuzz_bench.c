/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a bench file: refused in words and at a place, or taken, and
 * then it can be written and read again, its inputs can be put in again, and
 * its quantities are models to work with. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "model.h"
#include "text.h"

typedef struct bytes_source {
  const char *bytes;
  size_t size, at;
} bytes_source;

static int read_bytes(void *user, char *buffer, size_t size, size_t *got) {
  bytes_source *source = user;
  size_t n = source->size - source->at;
  if (n > size) n = size;
  if (n) memcpy(buffer, source->bytes + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static int append(void *user, const char *data, size_t size) {
  scwi_text_append(user, data, size);
  return 0;
}

static void demand(int holds) {
  if (!holds) abort();
}

static scw_status read_bench(scw_context *context, const char *bytes,
                             size_t size, scw_bench *out) {
  bytes_source from = {bytes, size, 0};
  return scw_bench_read(context, (scw_source){read_bytes, &from, "input"},
                        out);
}

static scwi_text written(scw_context *context, const scw_bench *bench) {
  scwi_text text = {0};
  demand(scw_bench_write(context, bench, (scw_sink){append, &text}) == SCW_OK);
  return text;
}

/* The bench as it is written now is `wanted`. */
static void check_written(scw_context *context, const scw_bench *bench,
                          const scwi_text *wanted) {
  scwi_text text = written(context, bench);
  demand(text.length == wanted->length &&
         memcmp(text.data, wanted->data, text.length) == 0);
  scwi_text_free(&text);
}

static void check_inputs(scw_context *context, scw_bench *bench,
                         const scwi_text *text) {
  for (size_t i = 0; i < bench->n_inputs; i++) {
    scw_bench_input input = bench->input[i];
    demand(scw_bench_put_input(context, bench, &input) == SCW_OK);
  }
  check_written(context, bench, text);
}

static void take_readings(scw_context *context, scw_bench *bench) {
  static const double values[] = {160, 150, 170};
  for (size_t i = 0; i < bench->n_inputs; i++)
    if (*bench->input[i].file)
      demand(scw_bench_take_readings(context, bench, i, values, 3,
                                     (scw_step){10, SCW_STEP_INFERRED}) ==
             SCW_OK);
}

static void check_models(scw_context *context, const scw_bench *bench) {
  const scw_bench_quantity *found;
  for (size_t i = 0; i < bench->n_quantities; i++) {
    scwi_bench_compiled model;
    const char *name = bench->quantity[i].name;
    demand(scw_bench_find_quantity(context, bench, name, &found) == SCW_OK &&
           found == &bench->quantity[i]);
    demand(scwi_bench_model(context, bench, i, &model) == SCW_OK);
    for (size_t k = 0; k < model.n; k++)
      demand(strcmp(bench->input[model.index[k]].given.name,
                    model.expression.input[k]) == 0 &&
             model.known[k].estimate == model.given[k].value);
    scwi_bench_compiled_free(&model);
  }
}

static void check(scw_context *context, scw_bench *bench) {
  scw_bench again;
  scwi_text text = written(context, bench);
  demand(read_bench(context, text.data, text.length, &again) == SCW_OK);
  check_written(context, &again, &text);
  check_inputs(context, &again, &text);
  take_readings(context, &again);
  check_written(context, &again, &text);
  check_models(context, &again);
  scwi_text_free(&text);
  scw_bench_free(&again);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  scw_context *context;
  scw_bench bench;
  if (scw_context_new(&context) != SCW_OK) return 0;
  scw_status status = read_bench(context, (const char *)data, size, &bench);
  if (status == SCW_OK)
    check(context, &bench);
  else
    demand(status == SCW_BAD_INPUT && scw_context_line(context) > 0 &&
           !bench.input && !bench.quantity && !bench.scatter);
  scw_bench_free(&bench);
  scw_context_free(context);
  return 0;
}
