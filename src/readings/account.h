/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The account of one input while it is being read: what was used, what was
 * not, and why. */
#ifndef SCWI_ACCOUNT_H
#define SCWI_ACCOUNT_H

#include "arena.h"
#include "blanks.h"
#include "scatterwise/table.h"

enum { SCWI_MOST_QUOTED = 120 }; /* bytes of text an entry quotes */

typedef struct scwi_account {
  scw_input input;   /* its not_used is set by scwi_account_close */
  scwi_arena texts;  /* owns the strings of the input */
  scw_not_used *not_used;
  size_t capacity;
} scwi_account;

scw_status scwi_account_open(scw_context *context, const char *name,
                             scwi_account *out);

/* A copy of the text, owned by the account. */
scw_status scwi_account_keep(scw_context *context, scwi_account *account,
                             scwi_span text, const char **out);

/* One more cell or row that is not used; `reason` must be static. */
scw_status scwi_account_leave(scw_context *context, scwi_account *account,
                              size_t line, size_t column, const char *reason,
                              scwi_span text);

/* Lets the input point to what was collected. Call once more after moving. */
void scwi_account_close(scwi_account *account);
void scwi_account_free(scwi_account *account);

#endif
