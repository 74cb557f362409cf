/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of header words. A new synonym is one line here and one word in
 * docs/manual/tables.md. */
#ifndef SCWI_DICTIONARY_H
#define SCWI_DICTIONARY_H

#include "words.h"

typedef struct scwi_entry {
  const char *key;
  scwi_meaning meaning;
  int detail;           /* role or side */
  const char *quantity;
} scwi_entry;

/* The entry of a key, or null. */
const scwi_entry *scwi_entry_of(const char *key);

#endif
