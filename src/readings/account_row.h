/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole row that is not used, into the account. */
#ifndef SCWI_ACCOUNT_ROW_H
#define SCWI_ACCOUNT_ROW_H

#include "account.h"
#include "rows.h"

/* Its text is that of its filled cells, parted by bars. */
scw_status scwi_account_leave_row(scw_context *context, scwi_account *account,
                                  const scwi_row *row, const char *reason);

#endif
