/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "kept.h"

#include <math.h>
#include <string.h>

#include "number_text.h"
#include "utf8.h"
#include "write.h"

const char *const scwi_kept_heads[SCWI_KEPT_FIXED] = {
    "panel", "product", "session", "geometry", "operator", "meter"};

enum { MOST_CELLS = SCWI_KEPT_FIXED + 8 };

typedef struct cells {
  const char *cell[MOST_CELLS];
  size_t n;
} cells;

static void add(cells *row, const char *cell) { row->cell[row->n++] = cell; }

static int append(void *user, const char *data, size_t size) {
  scwi_text_append(user, data, size);
  return 0;
}

static scw_status write_row(scw_context *context, const cells *row,
                            scwi_text *out) {
  scw_status status = scwi_write_row(context, (scw_sink){append, out},
                                     row->cell, row->n);
  return status ? status : scwi_text_status(context, out);
}

/* "reading (GU)" */
static void head_of(const char *word, const char *unit, scwi_text *out) {
  scwi_text_add(out, word);
  if (unit && *unit) scwi_text_format(out, " (%s)", unit);
}

scw_status scwi_kept_head(scw_context *context, const scwi_kept_form *form,
                          scwi_text *out) {
  cells row = {{"order"}, 1};
  scwi_text reading = {0}, x = {0}, y = {0};
  head_of(form->quantity, form->unit, &reading);
  head_of("x", form->length_unit, &x);
  head_of("y", form->length_unit, &y);
  for (int i = 0; i < SCWI_KEPT_FIXED; i++)
    if (form->fixed[i]) add(&row, scwi_kept_heads[i]);
  if (form->spots) add(&row, "spot");
  if (form->places) add(&row, x.data), add(&row, y.data);
  add(&row, reading.data);
  add(&row, "replaces"), add(&row, "takes back"), add(&row, "note");
  scw_status status = scwi_text_status(context, &reading);
  if (status == SCW_OK) status = scwi_text_status(context, &x);
  if (status == SCW_OK) status = scwi_text_status(context, &y);
  if (status == SCW_OK) status = write_row(context, &row, out);
  scwi_text_free(&reading);
  scwi_text_free(&x);
  scwi_text_free(&y);
  return status;
}

typedef struct number_cells {
  char text[5][SCWI_NUMBER_SIZE];
} number_cells;

static const char *whole(size_t number, char *text) {
  return number ? scwi_whole_text(number, text) : NULL;
}

static const char *place(double value, char *text) {
  return isnan(value) ? NULL : scwi_number_text(value, text);
}

scw_status scwi_kept_line(scw_context *context, const scwi_kept_form *form,
                          const scwi_kept_row *kept, scwi_text *out) {
  number_cells numbers;
  cells row = {{whole(kept->order, numbers.text[0])}, 1};
  for (int i = 0; i < SCWI_KEPT_FIXED; i++)
    if (form->fixed[i]) add(&row, form->fixed[i]);
  if (form->spots) add(&row, kept->spot);
  if (form->places) {
    add(&row, place(kept->x, numbers.text[1]));
    add(&row, place(kept->y, numbers.text[2]));
  }
  add(&row, kept->reading);
  add(&row, whole(kept->replaces, numbers.text[3]));
  add(&row, whole(kept->takes_back, numbers.text[4]));
  add(&row, kept->note);
  return write_row(context, &row, out);
}

void scwi_kept_note(const char *note, scwi_text *out) {
  scwi_text_add(out, "# note: ");
  scwi_text_add(out, note);
  scwi_text_add(out, "\n");
}

bool scwi_kept_fits(const char *text) {
  size_t size = strlen(text);
  for (size_t i = 0; i < size;) {
    bool cut;
    size_t length = scwi_utf8_sequence(text + i, size - i, &cut);
    unsigned char c = (unsigned char)text[i];
    if (length == 0 || c < ' ' || c == 0x7f) return false;
    i += length;
  }
  return true;
}
