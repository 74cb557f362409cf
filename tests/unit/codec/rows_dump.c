/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rows_dump.h"

#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "text.h"

static int memory_read(void *user, char *buffer, size_t size, size_t *got) {
  memory_source *source = user;
  size_t n = source->size - source->at;
  if (n > size) n = size;
  if (source->block && n > source->block) n = source->block;
  if (n) memcpy(buffer, source->bytes + source->at, n);
  source->at += n;
  *got = n;
  return n ? 0 : source->error;
}

scw_source memory_source_of(memory_source *source) {
  return (scw_source){memory_read, source, "panel.csv"};
}

static void dump_row(scwi_text *to, const scwi_row *row, bool offsets) {
  scwi_text_format(to, "%zu", row->line);
  if (offsets) scwi_text_format(to, "@%llu", row->offset);
  scwi_text_add(to, ":");
  for (size_t i = 0; i < row->n; i++) {
    const scwi_cell *cell = &row->cells[i];
    scwi_text_format(to, " %zu.%zu%s[", cell->line, cell->column,
                     cell->quoted ? "q" : "");
    scwi_text_append(to, cell->text, cell->length);
    scwi_text_add(to, "]");
  }
  scwi_text_add(to, "\n");
}

static void dump_facts(scwi_text *to, const scwi_rows *rows) {
  scwi_rows_facts facts = scwi_rows_facts_of(rows);
  scwi_text_format(to, "%s separator '%c'%s%s%s %llu bytes\n", facts.encoding,
                   facts.separator ? facts.separator : '0',
                   facts.separator_line ? ", told by a line" : "",
                   facts.decimal_commas ? ", decimal commas" : "",
                   facts.any_quote ? ", quotes" : "", facts.bytes);
}

char *rows_dump(const char *bytes, size_t size, dump_options options) {
  memory_source source = {bytes, size, 0, options.block, options.error};
  scwi_text text = {0};
  scw_context *context;
  scwi_rows *rows;
  scwi_row row;
  bool more = true;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  scw_status status =
      scwi_rows_open(context, memory_source_of(&source), options.separator,
                     options.decimal_mark, &rows);
  while (status == SCW_OK && more) {
    status = scwi_rows_next(context, rows, &row, &more);
    if (status == SCW_OK && more) dump_row(&text, &row, options.offsets);
  }
  if (status != SCW_OK) {
    scwi_text_format(&text, "%s: %s\n", scw_status_text(status),
                     scw_context_message(context));
    assert_true(!rows || !more);
  }
  if (status == SCW_OK && options.facts) dump_facts(&text, rows);
  scwi_rows_close(rows);
  scw_context_free(context);
  scwi_text_append(&text, "", 0);
  assert_false(text.failed);
  return text.data;
}

void check_rows_with(const char *text, dump_options options,
                     const char *wanted, const char *file, int line) {
  char *got = rows_dump(text, strlen(text), options);
  bool same = strcmp(got, wanted) == 0;
  if (!same)
    print_error("from:\n%s\ngot:\n%s\nwanted:\n%s\n", text, got, wanted);
  free(got);
  if (!same) _fail(file, line);
}
