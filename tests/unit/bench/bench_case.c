/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench_case.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "text.h"

scw_context *context;

int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) == SCW_OK ? 0 : -1;
}

int free_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static int read_text(void *user, char *buffer, size_t size, size_t *got) {
  const char **rest = user;
  *got = strnlen(*rest, size);
  memcpy(buffer, *rest, *got);
  *rest += *got;
  return 0;
}

scw_status read_bench(const char *text, scw_bench *out) {
  return scw_bench_read(context, (scw_source){read_text, &text, "bench.json"},
                        out);
}

scw_bench bench_of(const char *text) {
  scw_bench bench;
  if (read_bench(text, &bench) != SCW_OK)
    fail_msg("%s\n%s", scw_context_message(context), text);
  return bench;
}

static int append(void *user, const char *data, size_t size) {
  scwi_text_append(user, data, size);
  return 0;
}

char *written(const scw_bench *bench) {
  scwi_text text = {0};
  assert_int_equal(scw_bench_write(context, bench, (scw_sink){append, &text}),
                   SCW_OK);
  return text.data;
}

void check_message(const char *words) {
  const char *message = scw_context_message(context);
  if (!strstr(message, words))
    fail_msg("'%s' does not say '%s'", message, words);
}

void check_refused(const char *text, size_t line, size_t column,
                   const char *words) {
  scw_bench bench = {.n_scatter = 7};
  if (read_bench(text, &bench) != SCW_BAD_INPUT) fail_msg("'%s' was taken", text);
  check_message(words);
  if (scw_context_line(context) != line ||
      (column && scw_context_column(context) != column))
    fail_msg("'%s': %s, not line %zu, column %zu", text,
             scw_context_message(context), line, column);
  assert_int_equal(bench.n_scatter, 0);
  assert_int_equal(bench.n_inputs, 0);
  assert_int_equal(bench.n_quantities, 0);
  assert_null(bench.name);
}

void check_refused_at(const char *marked, const char *words) {
  size_t line = 1, column = 1;
  const char *mark = strchr(marked, '@');
  assert_non_null(mark);
  for (const char *c = marked; c < mark; c++) {
    if ((*c & 0xC0) != 0x80) column++;
    if (*c == '\n') line++, column = 1;
  }
  scwi_text text = {0};
  scwi_text_append(&text, marked, (size_t)(mark - marked));
  scwi_text_add(&text, mark + 1);
  check_refused(text.data, line, column, words);
  scwi_text_free(&text);
}

char *text_of_file(const char *name) {
  scwi_text text = {0};
  char path[512], block[4096];
  check_snprintf(path, sizeof path, "%s/%s", BENCH_CASES, name);
  FILE *file = fopen(path, "rb");
  assert_non_null(file);
  for (size_t got = 1; got;) {
    got = fread(block, 1, sizeof block, file);
    scwi_text_append(&text, block, got);
  }
  fclose(file);
  assert_false(text.failed);
  return text.data;
}
