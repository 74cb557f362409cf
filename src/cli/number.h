/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers on the command line: a decimal point whatever the locale, the whole
 * word or nothing, and a reason when it is nothing. */
#ifndef CLI_NUMBER_H
#define CLI_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* A number with the unit that followed it: 0.5, "0.5 GU", 500g. */
typedef struct cli_quantity {
  double value;
  const char *unit; /* within the text read; null: none */
  bool given;
} cli_quantity;

/* Each returns null, or words that say what is wrong with `text`. */
const char *cli_read_quantity(const char *text, cli_quantity *out);
const char *cli_read_number(const char *text, double *out);
/* A share between 0 and 1: 0.95 or 95%. */
const char *cli_read_share(const char *text, double *out);
/* A whole number of 1 or more. */
const char *cli_read_count(const char *text, size_t *out);

#endif
