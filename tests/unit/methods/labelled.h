/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings with labels from reference-data, for the tests of components. */
#ifndef LABELLED_H
#define LABELLED_H

#include "one_set.h"
#include "tree.h"

enum { LABELLED_COLUMNS = 3 };
typedef struct labelled {
  one_set set;
  uint32_t *label[LABELLED_COLUMNS]; /* equal texts, equal numbers from 0 */
} labelled;

/* The column `reading` of reference-data/`name` with up to three columns of
 * labels (null ends them), of the rows whose column `where` reads `is` (null:
 * all). */
labelled labelled_from_file(const char *name,
                            const char *const columns[LABELLED_COLUMNS],
                            const char *where, const char *is);
void labelled_free(labelled *data);

#endif
