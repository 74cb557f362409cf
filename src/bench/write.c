/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bench as a bench file, one member a line so that people can read and
 * compare it. */
#include "json_text.h"
#include "number_text.h"
#include "scatter.h"
#include "write.h"

static void put_text(scwi_text *to, const char *key, const char *text) {
  scwi_text_format(to, "      \"%s\": ", key);
  scwi_json_quote(to, text);
  scwi_text_add(to, ",\n");
}

static void put_number(scwi_text *to, const char *key, double value) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_format(to, "      \"%s\": %s,\n", key,
                   scwi_number_text(value, number));
}

static void put_entry(scwi_text *to, const scw_bench_scatter *entry) {
  scwi_text_add(to, "    {\n");
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++) {
    const scwi_scatter_text *text = &scwi_scatter_texts[i];
    const char *found = scwi_scatter_text_in(entry, text);
    if (text->identity && *found) put_text(to, text->key, found);
  }
  put_number(to, "sd", entry->sd);
  put_number(to, "df", entry->df);
  scwi_text_format(to, "      \"sets\": %zu,\n      \"date\": ", entry->sets);
  scwi_json_quote(to, entry->date);
  scwi_text_add(to, "\n    }");
}

scw_status scw_bench_write(scw_context *context, const scw_bench *bench,
                           scw_sink sink) {
  scwi_text text = {0};
  scwi_text_format(&text, "{\n  \"version\": %d,\n  \"scatter\": [",
                   SCW_BENCH_VERSION);
  for (size_t i = 0; i < bench->n_scatter; i++) {
    scwi_text_add(&text, i ? ",\n" : "\n");
    put_entry(&text, &bench->scatter[i]);
  }
  scwi_text_add(&text, bench->n_scatter ? "\n  ]\n}\n" : "]\n}\n");
  scw_status status = scwi_text_status(context, &text);
  if (!status) status = scwi_write(context, sink, text.data, text.length);
  scwi_text_free(&text);
  return status;
}
