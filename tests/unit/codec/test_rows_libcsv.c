/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row iterator against libcsv. What libcsv takes in its strict mode we
 * must take apart into the same cells. What it refuses there is either refused
 * by us too (text after a closing quote, an unclosed quote), or it is a quote
 * inside an unquoted cell, which we take as its tolerant mode does. Rows
 * without cells are left out on both sides: libcsv skips them. */
#include "check.h"

#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "rows_dump.h"
#include "text.h"

static void add_judged_cell(void *cell, size_t size, void *to) {
  scwi_text_add(to, "[");
  scwi_text_append(to, cell, size);
  scwi_text_add(to, "]");
}

static void end_judged_row(int last, void *to) {
  (void)last;
  scwi_text_add(to, "\n");
}

/* What libcsv makes of the text; false when it refuses. */
static bool judge(const scwi_text *text, unsigned char options,
                  scwi_text *to) {
  struct csv_parser parser;
  scwi_text_clear(to);
  scwi_text_append(to, "", 0);
  assert_int_equal(csv_init(&parser, options), 0);
  bool taken = csv_parse(&parser, text->data, text->length, add_judged_cell,
                         end_judged_row, to) == text->length &&
               csv_fini(&parser, add_judged_cell, end_judged_row, to) == 0;
  csv_free(&parser);
  return taken;
}

/* What we make of it. */
static bool ours(const scwi_text *text, size_t block, scwi_text *to) {
  memory_source source = {text->data, text->length, 0, block, 0};
  scw_context *context;
  scwi_rows *rows;
  scwi_row row;
  bool more = true;
  scwi_text_clear(to);
  scwi_text_append(to, "", 0);
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  scw_status status =
      scwi_rows_open(context, memory_source_of(&source), ',', 0, &rows);
  while (status == SCW_OK && more) {
    status = scwi_rows_next(context, rows, &row, &more);
    if (status != SCW_OK || !more || row.n == 0) continue;
    for (size_t i = 0; i < row.n; i++) {
      scwi_text_add(to, "[");
      scwi_text_append(to, row.cells[i].text, row.cells[i].length);
      scwi_text_add(to, "]");
    }
    scwi_text_add(to, "\n");
  }
  scwi_rows_close(rows);
  scw_context_free(context);
  return status == SCW_OK;
}

typedef enum agreement { SAME, SAME_AS_TOLERANT, BOTH_REFUSE } agreement;

static agreement compare(const scwi_text *text, size_t block) {
  enum { STRICT = CSV_STRICT | CSV_STRICT_FINI };
  scwi_text wanted = {0}, got = {0};
  bool we = ours(text, block, &got);
  agreement found = BOTH_REFUSE;
  if (judge(text, STRICT, &wanted)) {
    if (!we || strcmp(got.data, wanted.data) != 0)
      fail_msg("from:\n%s\ngot:\n%s\nwanted:\n%s", text->data,
               we ? got.data : "a refusal", wanted.data);
    found = SAME;
  } else if (we) {
    if (!judge(text, CSV_STRICT_FINI, &wanted) ||
        strcmp(got.data, wanted.data) != 0)
      fail_msg("from:\n%s\ngot:\n%s\nwanted a refusal or:\n%s", text->data,
               got.data, wanted.data);
    found = SAME_AS_TOLERANT;
  }
  scwi_text_free(&wanted);
  scwi_text_free(&got);
  return found;
}

static unsigned draw(unsigned long long *random, unsigned below) {
  *random ^= *random << 13;
  *random ^= *random >> 7;
  *random ^= *random << 17;
  return (unsigned)(*random >> 33) % below;
}

static void any_text_of_awkward_characters(void **state) {
  static const char awkward[] = "a1\"\"\",,, \t\n\r\xC3";
  unsigned long long random = 20260401;
  size_t seen[3] = {0};
  (void)state;
  for (unsigned i = 0; i < 20000 * check_multiplier(); i++) {
    scwi_text text = {0};
    unsigned length = draw(&random, 30);
    scwi_text_append(&text, "", 0);
    for (unsigned k = 0; k < length; k++) {
      char c = awkward[draw(&random, sizeof awkward - 1)];
      bool wide = c == '\xC3';
      scwi_text_append(&text, wide ? "\xC3\xA4" : &c, wide ? 2 : 1);
    }
    seen[compare(&text, draw(&random, 5))]++;
    scwi_text_free(&text);
  }
  /* the comparison has said something in each of its three ways */
  for (size_t i = 0; i < 3; i++) assert_true(seen[i] > 1000);
}

static void add_random_cell(unsigned long long *random, scwi_text *text) {
  static const char *const pieces[] = {"87.4", "K1", " ", "\"\"", ",", "\n",
                                       "\r\n", "\t", "x", "\xC3\xA4"};
  bool quoted = draw(random, 3) == 0;
  unsigned n = draw(random, 4);
  if (quoted) scwi_text_add(text, draw(random, 4) ? "\"" : " \"");
  for (unsigned i = 0; i < n; i++)
    scwi_text_add(text, quoted ? pieces[draw(random, 10)]
                               : pieces[draw(random, 3)]);
  if (quoted) scwi_text_add(text, draw(random, 4) ? "\"" : "\" ");
}

static void well_made_tables(void **state) {
  static const char *const ends[] = {"\n", "\r\n", "\r", "\n\n"};
  unsigned long long random = 7741;
  (void)state;
  for (unsigned i = 0; i < 3000 * check_multiplier(); i++) {
    scwi_text text = {0};
    unsigned rows = draw(&random, 6);
    scwi_text_append(&text, "", 0);
    for (unsigned r = 0; r < rows; r++) {
      unsigned cells = 1 + draw(&random, 5);
      for (unsigned c = 0; c < cells; c++) {
        if (c) scwi_text_add(&text, ",");
        add_random_cell(&random, &text);
      }
      if (r + 1 < rows || draw(&random, 2))
        scwi_text_add(&text, ends[draw(&random, 4)]);
    }
    assert_int_equal(compare(&text, draw(&random, 9)), SAME);
    scwi_text_free(&text);
  }
}

static void nasties_picked_by_hand(void **state) {
  static const char *const texts[] = {
      "", "\"", "\"\"", "\"\"\"", "\"\"\"\"", "a\"b", "\"a\"b", "\"a\" b",
      "\"a\" \"b\"", " \"a\" ", "\"a\n", ",", ",,", "\r", "\r\n\r\n", "a,\r\nb",
      "\"a\r\nb\",c", "\"a\"\r\n\"b\"", "a,b,\n", "\n\na\n\n", "\"a,\"\"\",\"",
      "\t\"a\"\t,\tb\t", "a \"b\" c", "\"\" \"", "\"a\"\"", "x\r\ry", "\"\n\"",
      "  ", " , ", "\" \"", "a\t\n", ",\"\"\n\"\",", "\"a\" ,b"};
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    for (size_t block = 0; block < 3; block++) {
      scwi_text text = {0};
      scwi_text_add(&text, texts[i]);
      compare(&text, block);
      scwi_text_free(&text);
    }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(any_text_of_awkward_characters),
      cmocka_unit_test(well_made_tables),
      cmocka_unit_test(nasties_picked_by_hand),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
