/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Blanks of every kind a spreadsheet writes, and texts shown in messages. */
#ifndef SCWI_BLANKS_H
#define SCWI_BLANKS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct scwi_span {
  const char *text;
  size_t length;
} scwi_span;

/* Bytes of the blank at `text` (space, tab, line end, no-break space, narrow
 * no-break space, thin space, zero-width space or mark); 0 when it is none. */
size_t scwi_blank_at(const char *text, size_t length);

/* Without the blanks at both ends. */
scwi_span scwi_trim(const char *text, size_t length);

/* Without a comment behind a blank: "87.4 # first" is "87.4". */
scwi_span scwi_uncommented(const char *text, size_t length);

/* The length of the text cut to at most `most` bytes, between characters. */
size_t scwi_cut(scwi_span text, size_t most);

enum { SCWI_SHOWN_SIZE = 64 };

/* The text as a message shows it: blanks plain, controls as '?', cut after 40
 * characters. Returns `out`. */
const char *scwi_shown(const char *text, size_t length,
                       char out[SCWI_SHOWN_SIZE]);

#endif
