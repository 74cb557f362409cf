/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "account.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"

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

scw_status scwi_account_leave(scw_context *context, scwi_account *account,
                              size_t line, size_t column, const char *reason,
                              scwi_span text) {
  size_t n = account->input.n_not_used;
  scw_not_used *entry;
  scw_status status =
      SCWI_RESERVE(context, n + 1, &account->not_used, &account->capacity);
  if (status != SCW_OK) return status;
  text.length = scwi_cut(text, SCWI_MOST_QUOTED);
  entry = account->not_used + n;
  *entry = (scw_not_used){line, column, reason, ""};
  if (text.length)
    status = scwi_account_keep(context, account, text, &entry->text);
  if (status == SCW_OK) account->input.n_not_used++;
  return status;
}

void scwi_account_close(scwi_account *account) {
  account->input.not_used = account->not_used;
}

void scwi_account_free(scwi_account *account) {
  scwi_arena_free(&account->texts);
  free(account->not_used);
  *account = (scwi_account){0};
}
