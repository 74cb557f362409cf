/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "account.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"

enum { MOST_TEXT = 120 }; /* of a row that is only quoted in the account */

scw_status scwi_account_open(scw_context *context, const char *name,
                             scwi_account *out) {
  *out = (scwi_account){
      .input = {.encoding = "", .shape = "", .unit = "", .quantity = "",
                .geometry = ""}};
  return scwi_arena_copy(context, &out->texts, name, strlen(name),
                         &out->input.name);
}

scw_status scwi_account_keep(scw_context *context, scwi_account *account,
                             scwi_span text, const char **out) {
  return scwi_arena_copy(context, &account->texts, text.text, text.length,
                         out);
}

static size_t cut(scwi_span text, size_t most) {
  if (text.length <= most) return text.length;
  while (most && ((unsigned char)text.text[most] & 0xC0U) == 0x80U) most--;
  return most;
}

scw_status scwi_account_leave(scw_context *context, scwi_account *account,
                              size_t line, size_t column, const char *reason,
                              scwi_span text) {
  size_t n = account->input.n_not_used;
  scw_not_used *entry;
  scw_status status =
      SCWI_RESERVE(context, n + 1, &account->not_used, &account->capacity);
  if (status != SCW_OK) return status;
  text.length = cut(text, MOST_TEXT);
  entry = account->not_used + n;
  *entry = (scw_not_used){line, column, reason, ""};
  if (text.length)
    status = scwi_account_keep(context, account, text, &entry->text);
  if (status == SCW_OK) account->input.n_not_used++;
  return status;
}

scw_status scwi_account_leave_row(scw_context *context, scwi_account *account,
                                  const scwi_row *row, const char *reason) {
  char text[MOST_TEXT + 2];
  size_t n = 0, first = row->n;
  for (size_t i = 0; i < row->n && n < MOST_TEXT; i++) {
    scwi_span s = scwi_trim(row->cells[i].text, row->cells[i].length);
    if (s.length == 0) continue;
    if (first == row->n) first = i;
    if (n && n + 3 < MOST_TEXT) memcpy(text + n, " | ", 3), n += 3;
    s.length = cut(s, MOST_TEXT - n);
    memcpy(text + n, s.text, s.length);
    n += s.length;
  }
  size_t column = first < row->n ? row->cells[first].column : 1;
  return scwi_account_leave(context, account, row->line, column, reason,
                            (scwi_span){text, n});
}

void scwi_account_close(scwi_account *account) {
  account->input.not_used = account->not_used;
}

void scwi_account_free(scwi_account *account) {
  scwi_arena_free(&account->texts);
  free(account->not_used);
  *account = (scwi_account){0};
}
