/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reading as typed: a number, its decimal mark and its star. */
#include <string.h>

#include "decimal.h"
#include "take_inside.h"
#include "token.h"

static scw_status unreadable(scw_context *context, const char *text,
                             const char *why) {
  char shown[SCWI_SHOWN_SIZE];
  return scwi_fail(context, SCW_BAD_ARGUMENT, "'%s' %s",
                   scwi_shown(text, strlen(text), shown), why);
}

/* Point or comma: whichever can only be the decimal mark, else the one typed so
 * far. */
static scw_status mark_of(scw_context *context, const scw_take *take,
                          const char *text, const scwi_token *token,
                          char *mark) {
  const scwi_form *form = &token->form;
  *mark = form->decimal;
  if (form->group)
    return unreadable(context, text,
                      "separates thousands; type the number without");
  if (form->decimal == 0 || !form->open || form->decimal == '.') return SCW_OK;
  if (take->decimal == ',') return SCW_OK;
  return unreadable(context, text,
                    "could be a whole number of thousands or three decimals; "
                    "type it with a decimal point, or without the comma");
}

/* The text as it is kept: a decimal point, and its mark. */
static scw_status canonical(scw_context *context, scw_take *take,
                            const scwi_token *token, char decimal,
                            const char **out) {
  static const char *const frame[][2] = {
      [SCW_MARK_NONE] = {"", ""}, [SCW_MARK_STAR] = {"", "*"},
      [SCW_MARK_BRACKET] = {"(", ")"}};
  scwi_text text = {0};
  scwi_text_add(&text, frame[token->mark][0]);
  for (size_t i = 0; i < token->body.length; i++) {
    char c = token->body.text[i];
    scwi_text_append(&text, c == decimal && c == ',' ? "." : &c, 1);
  }
  scwi_text_add(&text, frame[token->mark][1]);
  scw_status status = scwi_text_status(context, &text);
  if (!status)
    status = scwi_arena_copy(context, &take->texts, text.data, text.length,
                             out);
  scwi_text_free(&text);
  return status;
}

scw_status scwi_take_value(scw_context *context, scw_take *take,
                           const char *text, scwi_taken *item) {
  scwi_token token;
  scwi_decimal number;
  char mark = 0;
  scwi_token_read(text, strlen(text), &token);
  if (token.kind == SCWI_CENSORED)
    return unreadable(context, text,
                      "lies beyond the scale and is no number: read on a "
                      "meter or scale that shows it");
  if (token.kind != SCWI_NUMBER)
    return unreadable(context, text, "is not a reading; type it as 87.4");
  scw_status status = mark_of(context, take, text, &token, &mark);
  if (status) return status;
  if (scwi_decimal_read(token.body.text, token.body.length, mark ? mark : '.',
                        &number) != SCWI_DECIMAL_OK)
    return unreadable(context, text, "is too large a number");
  item->reading.value = number.value;
  item->reading.mantissa = number.mantissa;
  item->reading.digits = number.digits;
  item->reading.exact = number.exact;
  item->reading.mark = token.mark;
  if (mark) take->decimal = mark;
  return canonical(context, take, &token, mark, &item->text);
}
