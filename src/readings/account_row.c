/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "account_row.h"

#include <string.h>

scw_status scwi_account_leave_row(scw_context *context, scwi_account *account,
                                  const scwi_row *row, const char *reason) {
  char text[SCWI_MOST_QUOTED + 2];
  size_t n = 0, first = row->n;
  for (size_t i = 0; i < row->n && n < SCWI_MOST_QUOTED; i++) {
    scwi_span s = scwi_trim(row->cells[i].text, row->cells[i].length);
    if (s.length == 0) continue;
    if (first == row->n) first = i;
    if (n && n + 3 < SCWI_MOST_QUOTED) memcpy(text + n, " | ", 3), n += 3;
    s.length = scwi_cut(s, SCWI_MOST_QUOTED - n);
    memcpy(text + n, s.text, s.length);
    n += s.length;
  }
  size_t column = first < row->n ? row->cells[first].column : 1;
  return scwi_account_leave(context, account, row->line, column, reason,
                            (scwi_span){text, n});
}
