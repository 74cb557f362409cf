/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Days of the Gregorian calendar as whole numbers, and dates read from text. */
#ifndef SCWI_CALENDAR_H
#define SCWI_CALENDAR_H

#include <stdbool.h>

enum { SCWI_DATE_SIZE = 11 };

typedef enum scwi_date_fault {
  SCWI_DATE_OK,
  SCWI_DATE_NONE,       /* not a date at all */
  SCWI_DATE_TWO,        /* 03/04/2026: day or month first? */
  SCWI_DATE_SHORT_YEAR, /* 26-03-14 */
  SCWI_DATE_NO_MONTH,   /* month 13 */
  SCWI_DATE_NO_DAY,     /* 30 February */
  SCWI_DATE_BAD_TIME    /* what follows the date is no time */
} scwi_date_fault;

/* 2026-03-14 (ISO 8601), 2026/03/14, 14 March 2026, 14-Mar-2026; behind it may
 * stand a time, 10:30 or T10:30:15.5Z, which is checked only. *day counts from
 * 1970-01-01. Years 1583 to 9999. */
scwi_date_fault scwi_date_read(const char *text, long *day);

/* The ISO text of a day of these years. */
void scwi_date_text(long day, char out[SCWI_DATE_SIZE]);

#endif
