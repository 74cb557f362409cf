/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the text of an option becomes its field: the `store` column of the
 * option tables. */
#ifndef CLI_STORE_H
#define CLI_STORE_H

#include "command.h"

const char *cli_store_yes(char *text, void *field);          /* bool */
const char *cli_store_text(char *text, void *field);         /* const char * */
const char *cli_store_name(char *text, void *field);         /* cli_names */
const char *cli_store_each(char *text, void *field);         /* bool */
const char *cli_store_count(char *text, void *field);        /* size_t, >= 1 */
const char *cli_store_trials(char *text, void *field);       /* size_t */
const char *cli_store_digits(char *text, void *field);       /* int, 1..3 */
const char *cli_store_threads(char *text, void *field);      /* size_t, 1..64 */
const char *cli_store_share(char *text, void *field);        /* double, 0..1 */
const char *cli_store_positive(char *text, void *field);     /* cli_quantity */
const char *cli_store_quantity(char *text, void *field);     /* cli_quantity */
const char *cli_store_step(char *text, void *field);         /* cli_quantity */
const char *cli_store_not_negative(char *text, void *field); /* cli_quantity */
const char *cli_store_summary(char *text, void *field);      /* cli_given */
const char *cli_store_ratio(char *text, void *field);        /* cli_ratio */
const char *cli_store_say(char *text, void *field);          /* const char * */
const char *cli_store_separator(char *text, void *field);    /* char */
const char *cli_store_decimal_mark(char *text, void *field); /* char */
const char *cli_store_leave_out(char *text, void *field); /* cli_leave_outs */
const char *cli_store_because(char *text, void *field);   /* cli_leave_outs */

#endif
