/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "marks.h"

#include <math.h>
#include <string.h>

enum { POINT, COMMA };

static int index_of(char mark) { return mark == ',' ? COMMA : POINT; }
static char other(char mark) { return mark == '.' ? ',' : '.'; }
static const char *name_of(char mark) {
  return mark == ',' ? "decimal comma" : "decimal point";
}

static void witness(scwi_witness *first, const scwi_place *place) {
  if (first->line) return;
  first->line = place->line;
  first->column = place->column;
  scwi_shown(place->text.text, place->text.length, first->text);
}

/* 100 to 999999 without any mark. */
static bool is_big_whole(const scwi_token *number) {
  scwi_span s = number->body;
  if (s.length && (s.text[0] == '-' || s.text[0] == '+')) s.text++, s.length--;
  return s.length >= 3 && s.text[0] != '0' && !number->form.decimal &&
         !number->form.group;
}

void scwi_marks_look(scwi_marks *marks, const scwi_token *number,
                     const scwi_place *place) {
  scwi_form form = number->form;
  if (form.group) witness(&marks->groups[index_of(form.group)], place);
  if (form.decimal && form.open)
    witness(&marks->open[index_of(form.decimal)], place);
  else if (form.decimal)
    witness(&marks->sure[index_of(form.decimal)], place);
  else if (is_big_whole(number))
    witness(&marks->big_whole, place);
}

static scw_status two_marks(scw_context *context, const char *file,
                            const scwi_witness *a, const scwi_witness *b) {
  if (a->line > b->line || (a->line == b->line && a->column > b->column)) {
    const scwi_witness *swap = a;
    a = b;
    b = swap;
  }
  return scwi_fail_at(
      context, SCW_BAD_INPUT, file, b->line, b->column,
      "'%s' does not go with '%s' in line %zu: point and comma change places. "
      "Use one decimal mark in the whole file",
      b->text, a->text, a->line);
}

/* 1.234: spelled out without and with its fraction. */
static scw_status either(scw_context *context, const char *file,
                         const scwi_witness *w) {
  char whole[SCWI_SHOWN_SIZE], point[SCWI_SHOWN_SIZE];
  size_t n = 0, i = 0;
  for (; w->text[i]; i++) {
    point[i] = w->text[i] == ',' ? '.' : w->text[i];
    if (w->text[i] != '.' && w->text[i] != ',') whole[n++] = w->text[i];
  }
  whole[n] = point[i] = 0;
  return scwi_fail_at(
      context, SCW_BAD_INPUT, file, w->line, w->column,
      "'%s' can be read as %s or as %s. Say which mark is the decimal mark: "
      "--decimal-mark point or --decimal-mark comma",
      w->text, whole, point);
}

/* The mark nothing but evidence can tell, 0 when there is none. */
static char proven(const scwi_marks *marks) {
  if (marks->sure[POINT].line || marks->groups[COMMA].line) return '.';
  if (marks->sure[COMMA].line || marks->groups[POINT].line) return ',';
  return 0;
}

static scw_status check(scw_context *context, const scwi_marks *marks,
                        const char *file) {
  char decimal = marks->decimal, against = other(decimal);
  const scwi_witness *sure = &marks->sure[index_of(against)];
  const scwi_witness *grouped = &marks->groups[index_of(decimal)];
  const scwi_witness *open = &marks->open[index_of(against)];
  const scwi_witness *wrong = sure->line ? sure : grouped;
  if (wrong->line && marks->given)
    return scwi_fail_at(context, SCW_BAD_INPUT, file, wrong->line,
                        wrong->column,
                        "'%s' is no number with a %s, the mark that was "
                        "given. Correct the cell or give the other mark",
                        wrong->text, name_of(decimal));
  if (wrong->line) {
    const scwi_witness *mine = &marks->sure[index_of(decimal)];
    if (!mine->line) mine = &marks->groups[index_of(against)];
    if (!mine->line) mine = &marks->open[index_of(decimal)];
    return two_marks(context, file, mine, wrong);
  }
  bool groups_known = marks->groups[index_of(against)].line || marks->given;
  if (open->line && !groups_known) return either(context, file, open);
  return SCW_OK;
}

scw_status scwi_marks_settle(scw_context *context, scwi_marks *marks,
                             const char *file) {
  if (!marks->given) marks->decimal = proven(marks);
  if (marks->decimal) return check(context, marks, file);
  /* Nothing is sure. Readings such as 1.234 and 1.236 are what they look
   * like; with 987 beside them, or with commas, two answers are possible. */
  if (marks->open[COMMA].line)
    return either(context, file, &marks->open[COMMA]);
  if (marks->open[POINT].line && marks->big_whole.line)
    return either(context, file, &marks->open[POINT]);
  if (marks->open[POINT].line) marks->decimal = '.';
  return SCW_OK;
}

bool scwi_marks_know_decimals(const scwi_marks *marks) {
  return marks->given ||
         (marks->decimal && marks->sure[index_of(marks->decimal)].line);
}

bool scwi_marks_know_wholes(const scwi_marks *marks) {
  return scwi_marks_know_decimals(marks) || marks->big_whole.line;
}

/* Is the cell at peace with what was settled, without new evidence? */
static bool settled(const scwi_marks *marks, scwi_form form) {
  if (form.group || (form.decimal && form.decimal != marks->decimal))
    return false;
  return scwi_marks_know_decimals(marks);
}

scw_status scwi_marks_read(scw_context *context, scwi_marks *marks,
                           const scwi_token *number, const scwi_place *place,
                           scwi_decimal *out) {
  char room[SCWI_TOKEN_ROOM];
  scwi_span body = number->body;
  if (!settled(marks, number->form)) {
    scwi_marks_look(marks, number, place);
    scw_status status = scwi_marks_settle(context, marks, place->file);
    if (status != SCW_OK) return status;
  }
  char decimal = marks->decimal ? marks->decimal : '.';
  if (number->form.group ||
      (number->form.decimal && number->form.decimal != decimal)) {
    size_t n = 0;
    for (size_t i = 0; i < body.length && n < sizeof room; i++)
      if (body.text[i] != other(decimal)) room[n++] = body.text[i];
    body = (scwi_span){room, n};
  }
  scwi_decimal_result got =
      scwi_decimal_read(body.text, body.length, decimal, out);
  if (got == SCWI_DECIMAL_OK) return SCW_OK;
  char shown[SCWI_SHOWN_SIZE];
  scwi_shown(place->text.text, place->text.length, shown);
  return scwi_fail_at(
      context, SCW_BAD_INPUT, place->file, place->line, place->column,
      got == SCWI_DECIMAL_TOO_LARGE
          ? "'%s' is larger than any number that can be worked with (about "
            "1.8e308). Correct the reading"
          : "'%s' is not a number. Correct the cell",
      shown);
}

scw_status scwi_marks_cell(scw_context *context, scwi_marks *marks,
                           const scwi_place *place, const char *what,
                           bool *is_number, scwi_decimal *out) {
  scwi_token token;
  char shown[SCWI_SHOWN_SIZE];
  scwi_token_read(place->text.text, place->text.length, &token);
  *is_number = token.kind == SCWI_NUMBER;
  *out = (scwi_decimal){.value = NAN};
  if (token.kind == SCWI_EMPTY || token.kind == SCWI_MISSING) return SCW_OK;
  if (!*is_number)
    return scwi_fail_at(
        context, SCW_BAD_INPUT, place->file, place->line, place->column,
        "'%s' is not a number; the %s needs one. Correct the cell or leave it "
        "empty",
        scwi_shown(place->text.text, place->text.length, shown), what);
  return scwi_marks_read(context, marks, &token, place, out);
}
