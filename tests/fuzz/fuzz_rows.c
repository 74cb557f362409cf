/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes through the row iterator, in blocks of sizes the input chooses:
 * the rows must be those of the whole buffer, offsets and lines must rise, and
 * a failure must carry its message. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "rows.h"
#include "text.h"
#include "utf8.h"

typedef struct chopped {
  const uint8_t *bytes;
  size_t size, at;
  uint32_t random; /* 0: everything at once */
} chopped;

static int read_chopped(void *user, char *buffer, size_t size, size_t *got) {
  chopped *source = user;
  size_t n = source->size - source->at;
  if (source->random) {
    source->random = source->random * 1664525U + 1013904223U;
    size_t most = 1 + (source->random >> 24) % 40;
    if (n > most) n = most;
  }
  if (n > size) n = size;
  if (n) memcpy(buffer, source->bytes + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static void demand(int holds) {
  if (!holds) abort();
}

static void check_cells(const scwi_row *row, scwi_text *to) {
  size_t line = row->line;
  for (size_t i = 0; i < row->n; i++) {
    const scwi_cell *cell = &row->cells[i];
    demand(cell->line >= line && cell->column >= 1);
    line = cell->line;
    bool cut;
    for (size_t at = 0, n; at < cell->length; at += n) {
      n = scwi_utf8_sequence(cell->text + at, cell->length - at, &cut);
      demand(n > 0 && cell->text[at] != 0);
    }
    scwi_text_format(to, " %zu.%zu%s[", cell->line, cell->column,
                     cell->quoted ? "q" : "");
    scwi_text_append(to, cell->text, cell->length);
  }
}

static void read_all(const uint8_t *bytes, size_t size, uint32_t random,
                     char separator, char decimal_mark, scwi_text *to) {
  chopped bytes_left = {bytes, size, 0, random};
  scw_source source = {read_chopped, &bytes_left, "input"};
  scw_context *context;
  scwi_rows *rows;
  scwi_row row = {0};
  size_t line = 0;
  unsigned long long offset = 0;
  bool more = true;
  if (scwi_context_make(&context) != SCW_OK) return;
  scw_status status =
      scwi_rows_open(context, source, separator, decimal_mark, &rows);
  while (status == SCW_OK && more) {
    status = scwi_rows_next(context, rows, &row, &more);
    if (status != SCW_OK || !more) break;
    demand(row.line > line && (line == 0 || row.offset > offset));
    line = row.line;
    offset = row.offset;
    scwi_text_format(to, "%zu@%llu:", row.line, row.offset);
    check_cells(&row, to);
  }
  demand(status == SCW_OK || scw_context_message(context)[0] != 0);
  scwi_text_add(to, status == SCW_OK ? "end" : scw_context_message(context));
  if (status == SCW_OK) {
    scwi_rows_facts facts = scwi_rows_facts_of(rows);
    demand(facts.bytes == size && strlen(facts.sha256) == 64);
    scwi_text_format(to, "%s %d %d %d", facts.encoding, facts.separator,
                     facts.any_quote, facts.decimal_commas);
  }
  scwi_rows_close(rows);
  scw_context_free(context);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static const char separators[] = {0, 0, 0, ',', ';', '\t', ' ', '|'};
  static const char marks[] = {0, 0, '.', ','};
  if (size < 2) return 0;
  char separator = separators[data[0] & 7], mark = marks[data[0] >> 3 & 3];
  uint32_t random = data[1] + 1U;
  scwi_text whole = {0}, chopped_up = {0};
  read_all(data + 2, size - 2, 0, separator, mark, &whole);
  read_all(data + 2, size - 2, random, separator, mark, &chopped_up);
  demand(!whole.failed && whole.length == chopped_up.length &&
         memcmp(whole.data, chopped_up.data, whole.length) == 0);
  scwi_text_free(&whole);
  scwi_text_free(&chopped_up);
  return 0;
}
