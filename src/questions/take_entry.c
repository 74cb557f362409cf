/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is taken: checked, kept, and only then counted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "blanks.h"
#include "memory.h"
#include "table.h"
#include "take_inside.h"
#include "token.h"

enum { NEXT = 0 };

const scwi_taken *scwi_take_find(const scw_take *take, size_t order) {
  if (order > take->n_taken) return NULL;
  for (size_t i = order ? order : take->n_taken; i > 0; i--) {
    const scwi_taken *item = &take->taken[i - 1];
    if (!item->gone) return item;
    if (order) break;
  }
  return NULL;
}

static size_t number_of(const scw_take *take, const scwi_taken *item) {
  return (size_t)(item - take->taken) + 1;
}

/* ---- a row, checked ---- */

static scw_status label(scw_context *context, scw_take *take, const char *text,
                        int32_t *out) {
  *out = SCW_NO_LABEL;
  return text ? scwi_labels_intern(context, &take->table->labels, text,
                                   strlen(text), out)
              : SCW_OK;
}

static scw_status label_all(scw_context *context, scw_take *take,
                            const scwi_kept_row *row, scw_reading *reading) {
  const char *const *fixed = take->form.fixed;
  scw_status status = label(context, take, row->spot, &reading->spot);
  if (!status)
    status = label(context, take, fixed[SCWI_KEPT_PANEL], &reading->panel);
  if (!status)
    status = label(context, take, fixed[SCWI_KEPT_PRODUCT], &reading->product);
  if (!status)
    status = label(context, take, fixed[SCWI_KEPT_SESSION], &reading->session);
  if (!status)
    status =
        label(context, take, fixed[SCWI_KEPT_GEOMETRY], &reading->geometry);
  if (!status)
    status = label(context, take, fixed[SCWI_KEPT_OPERATOR], &reading->by);
  if (!status && row->replaces)
    status = label(context, take, "again", &reading->replaces);
  return status;
}

static scw_status make_item(scw_context *context, scw_take *take,
                            const scwi_kept_row *row, scwi_taken *out) {
  *out = (scwi_taken){.reading = scwi_reading_none(),
                      .replaces = row->replaces};
  out->reading.order = (double)row->order;
  out->reading.line = row->order;
  out->reading.column = 1;
  out->reading.side = take->baseline ? SCW_SIDE_AFTER : SCW_SIDE_NONE;
  out->reading.x = row->x;
  out->reading.y = row->y;
  if (take->form.spots && !row->spot)
    return scwi_fail(context, SCW_BAD_ARGUMENT, "the spot is missing");
  scw_status status = scwi_take_value(context, take, row->reading, out);
  if (!status && row->spot)
    status = scwi_arena_copy(context, &take->texts, row->spot,
                             strlen(row->spot), &out->spot);
  if (!status && row->note)
    status = scwi_arena_copy(context, &take->texts, row->note,
                             strlen(row->note), &out->note);
  return status ? status : label_all(context, take, row, &out->reading);
}

static scw_status no_such(scw_context *context, const scw_take *take,
                          size_t order) {
  if (take->n_taken == take->taken_back)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "there is no reading yet that counts");
  if (order && order <= take->n_taken)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "reading %zu has been taken back already", order);
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "there is no reading %zu; the last one is %zu", order,
                   take->n_taken);
}

/* What replaces a reading must be taken back before it. */
static scw_status check_gone(scw_context *context, const scw_take *take,
                             size_t order) {
  if (!scwi_take_find(take, order)) return no_such(context, take, order);
  for (size_t i = 0; i < take->n_taken; i++)
    if (!take->taken[i].gone && take->taken[i].replaces == order)
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "reading %zu was taken again in place of reading %zu: "
                       "take that one back first",
                       i + 1, order);
  return SCW_OK;
}

scw_status scwi_take_check(scw_context *context, scw_take *take,
                           const scwi_kept_row *row, scwi_take_step *out) {
  *out = (scwi_take_step){.has_reading = row->reading != NULL,
                          .gone = row->takes_back};
  out->marks = out->has_reading && row->takes_back;
  size_t expected = out->marks         ? row->takes_back
                    : out->has_reading ? take->n_taken + 1
                                       : 0;
  if (row->order != expected || (!out->has_reading && !row->takes_back))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "its order number is not the next one");
  if (row->replaces && !scwi_take_find(take, row->replaces))
    return no_such(context, take, row->replaces);
  scw_status status = SCW_OK;
  if (out->marks && !scwi_take_find(take, row->takes_back))
    status = no_such(context, take, row->takes_back);
  else if (row->takes_back && !out->marks)
    status = check_gone(context, take, row->takes_back);
  if (!status && out->has_reading)
    status = make_item(context, take, row, &out->item);
  if (!status)
    status = SCWI_RESERVE(context, take->n_taken + 1, &take->taken,
                          &take->taken_capacity);
  return status;
}

void scwi_take_do(scw_take *take, const scwi_take_step *step) {
  if (step->marks) {
    take->taken[step->gone - 1] = step->item;
  } else if (step->has_reading) {
    take->taken[take->n_taken++] = step->item;
  } else {
    take->taken[step->gone - 1].gone = true;
    take->taken_back++;
    take->undone = step->gone;
  }
}

scw_status scwi_take_refill(scw_context *context, scw_take *take) {
  scw_status status = SCW_OK;
  take->table->n = take->baseline;
  for (size_t i = 0; i < take->n_taken && !status; i++)
    if (!take->taken[i].gone)
      status = scwi_table_add(context, take->table, &take->taken[i].reading);
  return status;
}

/* ---- kept, then done ---- */

static scw_status hand_over(scw_context *context, scw_take *take,
                            const scwi_text *text, const char *what) {
  scw_status status = scwi_text_status(context, text);
  if (status) return status;
  if (take->keep.write(take->keep.user, text->data, text->length) == 0)
    return SCW_OK;
  return scwi_fail(context, SCW_NOT_WRITTEN, "%s was NOT kept", what);
}

/* "reading 7 (87.4 at spot 3)". */
static void name_row(const scwi_kept_row *row, const scwi_take_step *step,
                     scwi_text *out) {
  if (!step->has_reading) {
    scwi_text_format(out, "taking back reading %zu", row->takes_back);
    return;
  }
  scwi_text_format(out, "%s %zu (%s", step->marks ? "the mark of reading"
                                                  : "reading",
                   row->order, step->item.text);
  if (row->spot) scwi_text_format(out, " at spot %s", row->spot);
  scwi_text_add(out, ")");
}

static scw_status accept(scw_context *context, scw_take *take,
                         scwi_kept_row *row) {
  scwi_take_step step;
  scwi_text lines = {0}, name = {0};
  scw_status status = scwi_take_check(context, take, row, &step);
  if (status) return status;
  if (step.has_reading) row->reading = step.item.text;
  if (!take->headed) status = scwi_kept_head(context, &take->form, &lines);
  if (!status) status = scwi_kept_line(context, &take->form, row, &lines);
  name_row(row, &step, &name);
  if (!status) status = scwi_text_status(context, &name);
  /* Room for one more, so that nothing fails once the row is safe. */
  if (!status)
    status = SCWI_RESERVE(context, take->table->n + take->n_taken + 1,
                          &take->table->reading, &take->table->capacity);
  if (!status) status = hand_over(context, take, &lines, name.data);
  if (!status) {
    take->headed = take->settled = true;
    scwi_take_do(take, &step);
    status = scwi_take_refill(context, take);
  }
  scwi_text_free(&lines);
  scwi_text_free(&name);
  return status;
}

/* ---- the calls ---- */

static scw_status check_text(scw_context *context, const char *text,
                             const char *what) {
  if (text && !scwi_kept_fits(text))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the %s holds a character that cannot be kept; type it "
                     "in plain letters",
                     what);
  return SCW_OK;
}

static scw_status check_reason(scw_context *context, const char *reason,
                               const char *what) {
  if (!reason || !reason[strspn(reason, " ")])
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%s needs a reason, which is kept with it", what);
  return check_text(context, reason, "reason");
}

static scw_status check_spot(scw_context *context, const scw_take *take,
                             const char *spot) {
  if (take->settled && !take->form.spots)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the first reading named no spot, and so none of this "
                     "file does: type the reading alone");
  if (!*spot || strchr("=+-@'#\"", *spot) || !scwi_kept_fits(spot))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a spot is named by a word or number, such as 3 or B2");
  if (scwi_trim(spot, strlen(spot)).length < strlen(spot))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a blank stands before or behind the name of the spot, "
                     "perhaps one that does not show; type the name alone");
  return SCW_OK;
}

/* The next spot to go to, where none is named. */
static scw_status find_spot(scw_context *context, const scw_take *take,
                            const char **spot) {
  size_t left;
  if (!take->settled || !take->form.spots) return SCW_OK;
  scw_status status = scwi_take_next(context, take, spot, &left);
  if (!status && !*spot)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "which spot? Type the spot and the reading, such as "
                       "3 87.4");
  return status;
}

static void find_place(const scw_take *take, scwi_kept_row *row) {
  row->x = row->y = NAN;
  for (size_t i = 0; row->spot && i < take->n_places; i++)
    if (!strcmp(take->place[i].spot, row->spot)) {
      row->x = take->place[i].x;
      row->y = take->place[i].y;
      return;
    }
}

scw_status scw_take_reading(scw_context *context, scw_take *take,
                            const char *spot, const char *reading,
                            const char *note) {
  scwi_kept_row row = {.order = take->n_taken + 1, .spot = spot,
                       .reading = reading, .note = note};
  scw_status status = check_text(context, note, "note");
  if (!status && spot) status = check_spot(context, take, spot);
  if (!status && !spot) status = find_spot(context, take, &row.spot);
  if (status) return status;
  bool spots = take->form.spots;
  if (!take->settled) take->form.spots = spot != NULL;
  find_place(take, &row);
  status = accept(context, take, &row);
  if (status && !take->settled) take->form.spots = spots;
  return status;
}

/* "line 12 of meter.txt" */
static const char line_word[] = "line ", of_word[] = " of ";

scw_status scw_take_followed(scw_context *context, scw_take *take,
                             const char *spot, const char *reading,
                             const char *name, size_t line) {
  scwi_text note = {0};
  scwi_text_format(&note, "%s%zu%s%s", line_word, line, of_word, name);
  scw_status status = scwi_text_status(context, &note);
  if (!status)
    status = scw_take_reading(context, take, spot, reading, note.data);
  scwi_text_free(&note);
  return status;
}

size_t scw_take_followed_line(const scw_take *take, const char *name) {
  size_t last = 0;
  for (size_t i = 0; i < take->n_taken; i++) {
    const char *note = take->taken[i].note;
    char *end;
    if (!note || strncmp(note, line_word, sizeof line_word - 1)) continue;
    size_t line = (size_t)strtoul(note + sizeof line_word - 1, &end, 10);
    if (!strncmp(end, of_word, sizeof of_word - 1) &&
        !strcmp(end + sizeof of_word - 1, name) && line > last)
      last = line;
  }
  return last;
}

/* The first reading of the spot; without spots the one with that number. */
static const scwi_taken *find_earlier(const scw_take *take, const char *which) {
  for (size_t i = 0; take->form.spots && i < take->n_taken; i++) {
    const scwi_taken *item = &take->taken[i];
    if (!item->gone && !item->replaces && !strcmp(item->spot, which))
      return item;
  }
  char *end;
  size_t order = (size_t)strtoul(which, &end, 10);
  bool number = !take->form.spots && *which >= '1' && *which <= '9' && !*end;
  return number ? scwi_take_find(take, order) : NULL;
}

scw_status scw_take_again(scw_context *context, scw_take *take,
                          const char *which, const char *reading,
                          const char *reason) {
  scw_status status = check_reason(context, reason, "reading again");
  const scwi_taken *earlier =
      which ? find_earlier(take, which) : scwi_take_find(take, NEXT);
  if (status) return status;
  if (!earlier)
    return which ? scwi_fail(context, SCW_BAD_ARGUMENT,
                             "%s %s has not been read yet: type its reading "
                             "without again",
                             take->form.spots ? "spot" : "reading", which)
                 : no_such(context, take, 0);
  size_t number = number_of(take, earlier);
  while (take->taken[number - 1].replaces)
    number = take->taken[number - 1].replaces;
  scwi_kept_row row = {.order = take->n_taken + 1, .replaces = number,
                       .spot = earlier->spot, .reading = reading,
                       .note = reason, .x = earlier->reading.x,
                       .y = earlier->reading.y};
  return accept(context, take, &row);
}

scw_status scw_take_undo(scw_context *context, scw_take *take, size_t order,
                         const char *reason) {
  scw_status status = check_reason(context, reason, "taking a reading back");
  const scwi_taken *item = scwi_take_find(take, order);
  if (status) return status;
  if (!item) return no_such(context, take, order);
  scwi_kept_row row = {.takes_back = number_of(take, item), .note = reason,
                       .x = NAN, .y = NAN};
  return accept(context, take, &row);
}

scw_status scw_take_mark(scw_context *context, scw_take *take, size_t order,
                         const char *reason) {
  scw_status status = check_reason(context, reason, "marking a reading");
  const scwi_taken *item = scwi_take_find(take, order);
  char text[SCWI_TOKEN_ROOM + 2];
  if (status) return status;
  if (!item) return no_such(context, take, order);
  if (item->reading.mark != SCW_MARK_NONE ||
      strlen(item->text) > SCWI_TOKEN_ROOM)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "reading %zu is marked already", number_of(take, item));
  strcpy(text, item->text);
  strcat(text, "*");
  size_t number = number_of(take, item);
  scwi_kept_row row = {.order = number, .takes_back = number,
                       .replaces = item->replaces, .spot = item->spot,
                       .reading = text, .note = reason, .x = item->reading.x,
                       .y = item->reading.y};
  return accept(context, take, &row);
}

scw_status scw_take_note(scw_context *context, scw_take *take,
                         const char *text) {
  scwi_text line = {0};
  scw_status status = check_text(context, text, "note");
  if (status) return status;
  scwi_kept_note(text, &line);
  status = hand_over(context, take, &line, "the note");
  scwi_text_free(&line);
  return status;
}
