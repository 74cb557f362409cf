/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The quick way through long files of two columns, a label and a reading:
 * threads take turns at reading blocks of whole lines and sum them apart.
 *
 * A line is plain when it is `label,87.4`: a label of printable ASCII that is
 * no summary word, one separator, a number of at most 18 digits. All other
 * lines (comments, missing marks, blank labels, remarks, mistakes ...) are put
 * aside and go through the reader in their order, so that results, account and
 * errors are those of the slow way. */
#ifndef SCWI_FAST_SCAN_H
#define SCWI_FAST_SCAN_H

#include "reader.h"
#include "rows.h"

struct scwi_sums;
typedef struct scwi_fast scwi_fast;

/* Takes rows as far as this way goes, none where the table is not of that
 * kind. *fast is made when it is first needed. */
scw_status scwi_fast_lines(scwi_fast **fast, scwi_reader *reader,
                           scwi_rows *rows);

/* Hands all sets over. */
scw_status scwi_fast_finish(scw_context *context, scwi_fast *fast,
                            struct scwi_sums *sums);
void scwi_fast_free(scwi_fast *fast);

#endif
