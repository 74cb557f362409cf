/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "taken_back.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "number_text.h"

/* Readings and the rows that take back, in one list: by order number, and in
 * the order of the file within one. */
typedef struct turn {
  double order;
  size_t reading; /* of the table */
  const scwi_taking *taking; /* null: a reading */
} turn;

static int by_order(const void *left, const void *right) {
  const turn *a = left, *b = right;
  if (a->order != b->order) return a->order < b->order ? -1 : 1;
  if (a->reading != b->reading) return a->reading < b->reading ? -1 : 1;
  /* A row takes back before its own reading counts. */
  if (!a->taking != !b->taking) return a->taking ? -1 : 1;
  return a->taking && a->taking->line > b->taking->line ? 1 : -1;
}

static scw_status make_turns(scw_context *context, const scw_table *table,
                             const scwi_takings *takings, turn **out,
                             size_t *n) {
  scw_status status = SCWI_ALLOCATE(context, table->n + takings->n, out);
  *n = 0;
  for (size_t i = 0; i < table->n && status == SCW_OK; i++)
    if (!isnan(table->reading[i].order))
      (*out)[(*n)++] = (turn){table->reading[i].order, i, NULL};
  for (size_t i = 0; i < takings->n && status == SCW_OK; i++) {
    const scwi_taking *taking = &takings->taking[i];
    (*out)[(*n)++] = (turn){taking->order, taking->readings, taking};
  }
  if (status == SCW_OK) qsort(*out, *n, sizeof **out, by_order);
  return status;
}

static scw_status nothing_there(scw_context *context, const scw_table *table,
                                const scwi_taking *taking) {
  char order[SCWI_NUMBER_SIZE];
  return scwi_fail_at(
      context, SCW_BAD_INPUT, table->input[0].account.input.name, taking->line,
      0,
      "this row takes back reading %s, and no reading above it has that order "
      "number. Correct the number, or take the row out",
      scwi_number_text(taking->order, order));
}

/* Marks the readings of the row nearest above turn i. */
static scw_status mark(scw_context *context, const scw_table *table,
                       const turn *turns, size_t i, bool *gone) {
  size_t line = 0;
  for (size_t j = i; j-- > 0 && turns[j].order == turns[i].order;) {
    size_t reading = turns[j].reading;
    if (turns[j].taking || gone[reading]) continue;
    if (line && table->reading[reading].line != line) break;
    line = table->reading[reading].line;
    gone[reading] = true;
  }
  return line ? SCW_OK : nothing_there(context, table, turns[i].taking);
}

static scw_status leave(scw_context *context, scw_table *table,
                        const scw_reading *reading, const char *reason) {
  scwi_account *account = &table->input[0].account;
  char text[SCWI_NUMBER_SIZE];
  scwi_number_text(reading->value, text);
  account->input.used--;
  return scwi_account_leave(context, account, reading->line, reading->column,
                            reason, scwi_trim(text, strlen(text)));
}

static scw_status sweep(scw_context *context, scw_table *table,
                        const bool *gone, bool first_only) {
  scw_status status = SCW_OK;
  size_t kept = 0;
  for (size_t i = 0; i < table->n && status == SCW_OK; i++) {
    const scw_reading *reading = &table->reading[i];
    if (gone[i])
      status = leave(context, table, reading, "taken back");
    else if (first_only && reading->replaces != SCW_NO_LABEL)
      status = leave(context, table, reading, "read again");
    else
      table->reading[kept++] = *reading;
  }
  if (status == SCW_OK) table->n = kept;
  return status;
}

scw_status scwi_table_take_back(scw_context *context, scw_table *table,
                                const scwi_takings *takings, bool first_only) {
  turn *turns = NULL;
  bool *gone = NULL;
  size_t n = 0;
  scw_status status = make_turns(context, table, takings, &turns, &n);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, table->n, &gone);
  for (size_t i = 0; i < n && status == SCW_OK; i++)
    if (turns[i].taking) status = mark(context, table, turns, i, gone);
  if (status == SCW_OK) status = sweep(context, table, gone, first_only);
  free(turns);
  free(gone);
  return status;
}
