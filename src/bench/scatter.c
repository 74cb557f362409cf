/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scatter.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"
#include "texts.h"

#define TEXT(name, required, identity)                                         \
  {#name, offsetof(scw_bench_scatter, name), required, identity}

const scwi_scatter_text scwi_scatter_texts[SCWI_SCATTER_TEXTS] = {
    TEXT(panel_type, true, true), TEXT(quantity, true, true),
    TEXT(unit, true, true),       TEXT(geometry, false, true),
    TEXT(meter, false, true),     TEXT(date, true, false)};

const char **scwi_scatter_text_of(scw_bench_scatter *entry,
                                  const scwi_scatter_text *text) {
  return (const char **)((char *)entry + text->offset);
}

const char *scwi_scatter_text_in(const scw_bench_scatter *entry,
                                 const scwi_scatter_text *text) {
  const char *found =
      *(const char *const *)((const char *)entry + text->offset);
  return found ? found : "";
}

static unsigned number_of(const char *digits, size_t n) {
  unsigned number = 0;
  for (size_t i = 0; i < n; i++) number = 10 * number + (unsigned)(digits[i] - '0');
  return number;
}

/* YYYY-MM-DD (ISO 8601) that the calendar has. */
static bool is_date(const char *text) {
  static const char form[] = "dddd-dd-dd";
  static const unsigned char days[] = {31, 29, 31, 30, 31, 30,
                                       31, 31, 30, 31, 30, 31};
  if (strlen(text) != sizeof form - 1) return false;
  for (size_t i = 0; form[i]; i++)
    if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != form[i])
      return false;
  unsigned year = number_of(text, 4), month = number_of(text + 5, 2);
  unsigned day = number_of(text + 8, 2);
  bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  if (month < 1 || month > 12 || day < 1 || day > days[month - 1])
    return false;
  return month != 2 || day < 29 || leap;
}

static const char *text_fault(const scw_bench_scatter *entry,
                              const char **words) {
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++) {
    const scwi_scatter_text *text = &scwi_scatter_texts[i];
    const char *found = scwi_scatter_text_in(entry, text);
    *words = SCWI_READABLE;
    if (!scwi_is_readable(found)) return text->key;
    *words = "must not be empty";
    if (!strcmp(text->key, "unit"))
      *words = "must not be empty; write \"1\" for a plain ratio";
    if (text->required && !*found) return text->key;
  }
  return NULL;
}

const char *scwi_scatter_fault(const scw_bench_scatter *entry,
                               const char **words) {
  enum { MOST_DF = 1000000000 };
  const char *key = text_fault(entry, words);
  if (key) return key;
  *words = "must be a day of the calendar written as 2026-03-14";
  if (!is_date(entry->date)) return "date";
  *words = "must be a finite number larger than 0";
  if (!(entry->sd > 0) || !isfinite(entry->sd)) return "sd";
  *words = "must be a number from 1 to 1000000000";
  if (!(entry->df >= 1) || entry->df > MOST_DF) return "df";
  *words = "must be a whole number of at least 1";
  return entry->sets < 1 ? "sets" : NULL;
}

bool scwi_same_words(const char *a, const char *b) {
  if (!a) a = "";
  if (!b) b = "";
  size_t length = strlen(a);
  return strlen(b) == length && scwi_same_letters(a, b, length);
}

bool scwi_same_scatter(const scw_bench_scatter *a,
                       const scw_bench_scatter *b) {
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++) {
    const scwi_scatter_text *text = &scwi_scatter_texts[i];
    if (text->identity && !scwi_same_words(scwi_scatter_text_in(a, text),
                                           scwi_scatter_text_in(b, text)))
      return false;
  }
  return true;
}

scw_status scwi_scatter_copy(scw_context *context,
                             const scw_bench_scatter *from,
                             scw_bench_scatter *out) {
  scw_status status = SCW_OK;
  *out = *from;
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++)
    *scwi_scatter_text_of(out, &scwi_scatter_texts[i]) = NULL;
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS && !status; i++) {
    const char *text = scwi_scatter_text_in(from, &scwi_scatter_texts[i]);
    char *copy = NULL;
    status = scwi_copy_text(context, text, strlen(text), &copy);
    *scwi_scatter_text_of(out, &scwi_scatter_texts[i]) = copy;
  }
  if (status) scwi_scatter_free(out);
  return status;
}

void scwi_scatter_free(scw_bench_scatter *entry) {
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS; i++)
    free((void *)*scwi_scatter_text_of(entry, &scwi_scatter_texts[i]));
  *entry = (scw_bench_scatter){0};
}

scw_status scwi_bench_append(scw_context *context, scw_bench *bench,
                             const scw_bench_scatter *entry) {
  size_t capacity = bench->n_scatter;
  scw_status status = SCWI_RESERVE(context, bench->n_scatter + 1,
                                   &bench->scatter, &capacity);
  if (!status)
    status = scwi_scatter_copy(context, entry,
                               &bench->scatter[bench->n_scatter]);
  if (!status) bench->n_scatter++;
  return status;
}
