/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "labelled.h"

static uint32_t number_of(const check_table *table, const size_t *rows,
                          size_t i, const char *column, const uint32_t *known) {
  const char *text = check_table_text(table, rows[i], column);
  uint32_t next = 0;
  for (size_t j = 0; j < i; j++) {
    if (!strcmp(check_table_text(table, rows[j], column), text))
      return known[j];
    if (known[j] >= next) next = known[j] + 1;
  }
  return next;
}

labelled labelled_from_file(const char *name,
                            const char *const columns[LABELLED_COLUMNS],
                            const char *where, const char *is) {
  char path[256];
  check_snprintf(path, sizeof path, REFERENCE_DATA "/%s", name);
  check_table table = check_table_read(path);
  size_t *rows = malloc(table.rows * sizeof *rows), n = 0;
  const char **texts = malloc(table.rows * sizeof *texts);
  labelled out = {.label = {NULL}};
  assert_true(rows && texts);
  for (size_t i = 0; i < table.rows; i++)
    if (!where || !strcmp(check_table_text(&table, i, where), is)) {
      rows[n] = i;
      texts[n++] = check_table_text(&table, i, "reading");
    }
  out.set = one_set_from_texts(texts, n);
  for (size_t c = 0; c < LABELLED_COLUMNS && columns[c]; c++) {
    out.label[c] = malloc(n * sizeof *out.label[c]);
    assert_non_null(out.label[c]);
    for (size_t i = 0; i < n; i++)
      out.label[c][i] = number_of(&table, rows, i, columns[c], out.label[c]);
  }
  free(rows);
  free(texts);
  check_table_free(&table);
  return out;
}

void labelled_free(labelled *data) {
  one_set_free(&data->set);
  for (size_t c = 0; c < LABELLED_COLUMNS; c++)
    free(data->label[c]);
}
