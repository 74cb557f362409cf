/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "calendar.h"

#include <stdio.h>
#include <string.h>

enum { FIRST_YEAR = 1583, LAST_YEAR = 9999, MONTHS = 12 };

static bool is_leap(long year) {
  return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_in_month(long year, int month) {
  static const int days[MONTHS] = {31, 28, 31, 30, 31, 30,
                                   31, 31, 30, 31, 30, 31};
  return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

/* Days from the start of year 1 to the start of this one. */
static long days_before(long year) {
  long past = year - 1;
  return 365 * past + past / 4 - past / 100 + past / 400;
}

static long day_of(long year, int month, int day) {
  long days = days_before(year) - days_before(1970) + day - 1;
  for (int m = 1; m < month; m++) days += days_in_month(year, m);
  return days;
}

void scwi_date_text(long day, char out[SCWI_DATE_SIZE]) {
  long year = 1970 + day / 366 - 1;
  int month = 1;
  while (day_of(year + 1, 1, 1) <= day) year++;
  while (day_of(year, 1, 1) > day) year--;
  day -= day_of(year, 1, 1);
  while (day >= days_in_month(year, month)) day -= days_in_month(year, month++);
  char text[64];
  snprintf(text, sizeof text, "%04ld-%02d-%02ld", year, month, day + 1);
  memcpy(out, text, SCWI_DATE_SIZE - 1);
  out[SCWI_DATE_SIZE - 1] = '\0';
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static char lower(char c) {
  return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Digits at *at: their value, and how many (at most 4 are taken). */
static size_t digits(const char **at, int *value) {
  size_t n = 0;
  *value = 0;
  for (; n < 4 && is_digit(**at); n++) *value = *value * 10 + *(*at)++ - '0';
  return n;
}

/* An English month name, three letters or whole; 0: none. */
static int month_name(const char **at) {
  static const char *const names[MONTHS] = {
      "january", "february", "march",     "april",   "may",      "june",
      "july",    "august",   "september", "october", "november", "december"};
  size_t n = 0;
  while (lower((*at)[n]) >= 'a' && lower((*at)[n]) <= 'z') n++;
  for (int m = 0; m < MONTHS; m++) {
    size_t same = 0;
    while (same < n && names[m][same] && lower((*at)[same]) == names[m][same])
      same++;
    if (same != n || (n != 3 && names[m][n] != '\0')) continue;
    *at += n;
    return m + 1;
  }
  return 0;
}

static bool two_digits(const char **at, int most) {
  int value;
  const char *from = *at;
  return digits(at, &value) == 2 && *at == from + 2 && value <= most;
}

/* Z, +01:00, -0530; nothing. */
static bool zone(const char **at) {
  if (**at == 'Z' || **at == 'z') {
    ++*at;
    return true;
  }
  if (**at != '+' && **at != '-') return true;
  ++*at;
  if (!is_digit((*at)[0]) || !is_digit((*at)[1])) return false;
  *at += 2;
  if (**at == ':') ++*at;
  return **at == '\0' || two_digits(at, 59);
}

/* What follows a date: nothing, or a time of day. */
static bool time_of_day(const char *at) {
  bool marked = *at == 'T' || *at == 't';
  while (*at == ' ') at++;
  if (*at == '\0') return !marked;
  if (marked) at++;
  if (!two_digits(&at, 24) || *at++ != ':' || !two_digits(&at, 59))
    return false;
  if (*at == ':') {
    at++;
    if (!two_digits(&at, 60)) return false;
    if (*at == '.' || *at == ',')
      for (at++; is_digit(*at);) at++;
  }
  while (*at == ' ') at++;
  return zone(&at) && *at == '\0';
}

static scwi_date_fault check(int year, int month, int day, const char *rest,
                             long *out) {
  if (year < FIRST_YEAR || year > LAST_YEAR) return SCWI_DATE_NONE;
  if (month < 1 || month > MONTHS) return SCWI_DATE_NO_MONTH;
  if (day < 1 || day > days_in_month(year, month)) return SCWI_DATE_NO_DAY;
  if (*rest && *rest != ' ' && *rest != 'T' && *rest != 't')
    return is_digit(*rest) ? SCWI_DATE_NONE : SCWI_DATE_BAD_TIME;
  if (!time_of_day(rest)) return SCWI_DATE_BAD_TIME;
  *out = day_of(year, month, day);
  return SCWI_DATE_OK;
}

static bool is_separator(char c) { return c == '-' || c == '/' || c == '.'; }

/* 14 March 2026: the day is read, the month's name comes. */
static scwi_date_fault with_name(int day, const char *at, long *out) {
  int year, month = month_name(&at);
  if (month == 0) return SCWI_DATE_NONE;
  while (*at == ' ' || is_separator(*at)) at++;
  size_t n = digits(&at, &year);
  if (n == 2) return SCWI_DATE_SHORT_YEAR;
  return n == 4 ? check(year, month, day, at, out) : SCWI_DATE_NONE;
}

/* Two short numbers and a third one: which is which is not known. */
static scwi_date_fault two_ways(const char *at) {
  int number;
  size_t n = digits(&at, &number);
  if (n == 0 || !is_separator(*at)) return SCWI_DATE_NONE;
  at++;
  n = digits(&at, &number);
  if (n == 4) return SCWI_DATE_TWO;
  return n == 2 ? SCWI_DATE_SHORT_YEAR : SCWI_DATE_NONE;
}

scwi_date_fault scwi_date_read(const char *text, long *day) {
  int first, month, last;
  const char *at = text;
  while (*at == ' ') at++;
  size_t n = digits(&at, &first);
  if (n == 0) return SCWI_DATE_NONE;
  if (n < 3) {
    const char *next = at;
    while (*next == ' ' || is_separator(*next)) next++;
    if (next > at && !is_digit(*next)) return with_name(first, next, day);
    return is_separator(*at) ? two_ways(at + 1) : SCWI_DATE_NONE;
  }
  char separator = *at;
  if (n != 4 || !is_separator(separator)) return SCWI_DATE_NONE;
  at++;
  n = digits(&at, &month);
  if (n < 1 || n > 2 || *at++ != separator) return SCWI_DATE_NONE;
  n = digits(&at, &last);
  if (n < 1 || n > 2) return SCWI_DATE_NONE;
  return check(first, month, last, at, day);
}
