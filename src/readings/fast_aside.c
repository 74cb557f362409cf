/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines put aside by the quick way, taken through the reader in the order of
 * the file and as if every line before them had been. */
#include <stdlib.h>
#include <string.h>

#include "fast_inside.h"
#include "memory.h"

static int by_line(const void *left, const void *right) {
  const scwi_block_note *a = left, *b = right;
  return a->line < b->line ? -1 : a->line > b->line;
}

/* All blocks' notes in the order of the file; freed by the caller. */
static scw_status order_notes(scw_context *context, scwi_fast *fast,
                              scwi_block_note **out, size_t *n) {
  *n = 0;
  for (unsigned i = 0; i < fast->threads; i++) *n += fast->workers[i].n_notes;
  scw_status status = SCWI_ALLOCATE(context, *n, out);
  size_t at = 0;
  for (unsigned i = 0; i < fast->threads && status == SCW_OK; i++) {
    const scwi_worker *w = &fast->workers[i];
    if (w->n_notes) memcpy(*out + at, w->note, w->n_notes * sizeof **out);
    at += w->n_notes;
  }
  if (status == SCW_OK) qsort(*out, *n, sizeof **out, by_line);
  return status;
}

/* A reading below a remark is the start of another table. */
static scw_status check_remark(scwi_reader *reader, size_t last_plain) {
  if (!reader->remark.line || last_plain <= reader->remark.line)
    return SCW_OK;
  return scwi_reader_blocks(
      reader, reader->remark.line,
      (scwi_span){reader->remark_text, strlen(reader->remark_text)});
}

/* The reader's label becomes that of the plain line, for a blank one below. */
static scw_status set_label(scwi_reader *reader, const scwi_fast *fast,
                            const scwi_worker *w, size_t set) {
  const scwi_fast_name *known = &w->sets.name[set];
  return scwi_labels_intern(reader->context, reader->labels, known->text,
                            known->length,
                            scwi_reading_label(&reader->row, fast->role));
}

/* The last plain line met while going through what was put aside. */
typedef struct plain_line {
  size_t line; /* 0: none */
  const scwi_worker *worker;
  size_t set;
} plain_line;

/* One line through the reader, as if all lines before it had been. */
static scw_status replay(scwi_reader *reader, const scwi_fast *fast,
                         const scwi_worker *w, const scwi_aside_line *aside,
                         const plain_line *before, size_t replayed) {
  scwi_row row;
  scw_status status = check_remark(reader, before->line);
  if (status == SCW_OK && before->line > replayed)
    status = set_label(reader, fast, before->worker, before->set);
  if (status == SCW_OK)
    status = scwi_rows_split(reader->context, fast->rows,
                             w->aside_text.data + aside->at, aside->size,
                             aside->line, &row);
  return status == SCW_OK ? scwi_reader_row(reader, &row) : status;
}

static scw_status replay_all(scwi_reader *reader, const scwi_fast *fast,
                             const scwi_block_note *note, size_t n) {
  plain_line plain = {0, NULL, 0};
  size_t replayed = 0;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    const scwi_worker *w = note[i].worker;
    for (size_t k = 0; k < note[i].asides && status == SCW_OK; k++) {
      const scwi_aside_line *aside = &w->aside[note[i].first_aside + k];
      if (aside->plain) plain = (plain_line){aside->plain, w, aside->set};
      status = replay(reader, fast, w, aside, &plain, replayed);
      replayed = aside->line;
    }
    if (note[i].last_plain)
      plain = (plain_line){note[i].last_plain, w, note[i].last_set};
  }
  if (status == SCW_OK) status = check_remark(reader, plain.line);
  if (status == SCW_OK && plain.line > replayed)
    status = set_label(reader, fast, plain.worker, plain.set);
  return status;
}

scw_status scwi_fast_settle(scwi_reader *reader, scwi_fast *fast) {
  scw_input *input = &reader->account->input;
  scwi_block_note *notes = NULL;
  size_t n;
  scw_status status = fast->status;
  for (unsigned i = 0; i < fast->threads; i++) {
    input->rows += fast->workers[i].rows;
    input->used += fast->workers[i].rows;
    fast->workers[i].rows = 0;
    if (status == SCW_OK && fast->workers[i].status != SCW_OK)
      status = scwi_fail(reader->context, fast->workers[i].status, "%s",
                         fast->workers[i].context.message);
  }
  if (status == SCW_OK)
    status = order_notes(reader->context, fast, &notes, &n);
  if (status == SCW_OK) status = replay_all(reader, fast, notes, n);
  free(notes);
  for (unsigned i = 0; i < fast->threads; i++) {
    fast->workers[i].n_aside = fast->workers[i].n_notes = 0;
    scwi_text_clear(&fast->workers[i].aside_text);
  }
  return status;
}
