/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which character separates the cells of a text: guessed from its start.
 *
 * Lines that are blank, comments (`#` first) or cut by the end of the sample
 * do not count; neither does what stands inside quotes. In this order:
 *
 * 1. Tab, else semicolon: the first that half of the lines hold in the same
 *    number.
 * 2. Commas belong to numbers, and are no candidate, when every word of the
 *    sample that holds one is of the kind `87,4`: digits, one comma, digits, at
 *    most signs and marks around them. A header such as `before,after` makes
 *    them separators again, and so do lines numbered from 1, `1,87` `2,88`
 *    `3,86`. (Lines `87,88` alone are therefore read as decimals; say the
 *    separator where they are not.)
 * 3. Comma: when half of the lines hold it in the same number.
 * 4. Else the one of tab, semicolon and comma that most lines hold, two lines
 *    or half of them at least; ties in this order.
 * 5. Else the blank, where every word of every line is a number or a missing
 *    mark and some line has two: a list without header.
 * 6. Else none: one column.
 *
 * Commas that can be read in two ways are told instead of guessed: `87,4` in
 * a file whose other commas all end a word (`Gloss, hull 3` or `87,4, 88,1`),
 * and nothing but `1,234.5` or `1.234,5`. */
#ifndef SCWI_SEPARATOR_H
#define SCWI_SEPARATOR_H

#include <stdbool.h>
#include <stddef.h>

typedef struct scwi_separator {
  char separator;      /* 0: none */
  bool decimal_commas; /* none or the blank by rule 2: the commas seen are
                          decimal marks */
  const char *doubt;   /* the comma that can be read in two ways, or null */
} scwi_separator;

/* `whole`: the sample is all of the text. `decimal_mark`: ',' keeps the comma
 * from being found, '.' makes every comma a separator, 0 leaves it open. */
scwi_separator scwi_separator_guess(const char *sample, size_t size,
                                    bool whole, char decimal_mark);

/* A spreadsheet's error value, #DIV/0!, #NAME?, #N/A and their like in other
 * languages, at `text`: a cell that happens to begin with # and no comment. */
bool scwi_is_error_value(const char *text, const char *end);

#endif
