/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one cell says. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "token.h"

typedef struct cell_case {
  const char *cell;
  scwi_token_kind kind;
  const char *body;   /* of a number, in plain ASCII */
  char decimal, group;
  bool open;
  scw_mark mark;
} cell_case;

static void check_cell(const cell_case *c) {
  scwi_token token;
  scwi_token_read(c->cell, strlen(c->cell), &token);
  if (token.kind != c->kind)
    fail_msg("'%s' is of kind %d, not %d", c->cell, (int)token.kind,
             (int)c->kind);
  if (c->kind != SCWI_NUMBER) return;
  if (token.body.length != strlen(c->body) ||
      memcmp(token.body.text, c->body, token.body.length) != 0)
    fail_msg("'%s' has the body '%.*s'", c->cell, (int)token.body.length,
             token.body.text);
  if (token.form.decimal != c->decimal || token.form.group != c->group ||
      token.form.open != c->open || token.mark != c->mark)
    fail_msg("'%s': decimal '%c', group '%c', open %d, mark %d", c->cell,
             token.form.decimal, token.form.group, token.form.open,
             (int)token.mark);
}

static void numbers(void **state) {
  static const cell_case cases[] = {
      {"87", SCWI_NUMBER, "87", 0, 0, false, 0},
      {"87.4", SCWI_NUMBER, "87.4", '.', 0, false, 0},
      {"87,4", SCWI_NUMBER, "87,4", ',', 0, false, 0},
      {"-0.312", SCWI_NUMBER, "-0.312", '.', 0, false, 0},
      {"0,312", SCWI_NUMBER, "0,312", ',', 0, false, 0},
      {"+3", SCWI_NUMBER, "+3", 0, 0, false, 0},
      {".5", SCWI_NUMBER, ".5", '.', 0, false, 0},
      {"5.", SCWI_NUMBER, "5.", '.', 0, false, 0},
      {"1e5", SCWI_NUMBER, "1e5", 0, 0, false, 0},
      {"1.234e-5", SCWI_NUMBER, "1.234e-5", '.', 0, false, 0},
      {"1.234", SCWI_NUMBER, "1.234", '.', 0, true, 0},
      {"-1,234", SCWI_NUMBER, "-1,234", ',', 0, true, 0},
      {"1234.567", SCWI_NUMBER, "1234.567", '.', 0, false, 0},
      {"1.2345", SCWI_NUMBER, "1.2345", '.', 0, false, 0},
      {"1,234.5", SCWI_NUMBER, "1,234.5", '.', ',', false, 0},
      {"1.234,5", SCWI_NUMBER, "1.234,5", ',', '.', false, 0},
      {"1,234,567", SCWI_NUMBER, "1,234,567", 0, ',', false, 0},
      {"1.234.567,8", SCWI_NUMBER, "1.234.567,8", ',', '.', false, 0},
      {"\xE2\x88\x92" "87.4", SCWI_NUMBER, "-87.4", '.', 0, false, 0},
      {"\xE2\x80\x93" "2", SCWI_NUMBER, "-2", 0, 0, false, 0},
      {"1\xC2\xA0" "234,5", SCWI_NUMBER, "1234,5", ',', 0, false, 0},
      {"1\xE2\x80\xAF" "234\xE2\x80\xAF" "567", SCWI_NUMBER, "1234567", 0, 0,
       false, 0},
      {"1 234,567", SCWI_NUMBER, "1234,567", ',', 0, false, 0},
      {"12'345.6", SCWI_NUMBER, "12345.6", '.', 0, false, 0},
      {"\xC2\xA0" "87.4\xC2\xA0", SCWI_NUMBER, "87.4", '.', 0, false, 0},
      {"87.4*", SCWI_NUMBER, "87.4", '.', 0, false, SCW_MARK_STAR},
      {"87.4 **", SCWI_NUMBER, "87.4", '.', 0, false, SCW_MARK_STAR},
      {"*87.4", SCWI_NUMBER, "87.4", '.', 0, false, SCW_MARK_STAR},
      {"(87.4)", SCWI_NUMBER, "87.4", '.', 0, false, SCW_MARK_BRACKET},
      {"[ 87,4 ]", SCWI_NUMBER, "87,4", ',', 0, false, SCW_MARK_BRACKET},
      {"(87.4*)", SCWI_NUMBER, "87.4", '.', 0, false, SCW_MARK_STAR}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    check_cell(cases + i);
}

static void no_numbers(void **state) {
  static const cell_case cases[] = {
      {"", SCWI_EMPTY, NULL, 0, 0, false, 0},
      {" \xC2\xA0\t", SCWI_EMPTY, NULL, 0, 0, false, 0},
      {"NA", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"n/a", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"-", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"--", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"\xE2\x80\x94", SCWI_MISSING, NULL, 0, 0, false, 0},
      {".", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"nan", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"#N/A", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"#DIV/0!", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"#NAME?", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"#WERT!", SCWI_MISSING, NULL, 0, 0, false, 0},
      {"Err:510", SCWI_MISSING, NULL, 0, 0, false, 0},
      {">100", SCWI_CENSORED, NULL, 0, 0, false, 0},
      {"< 5,5", SCWI_CENSORED, NULL, 0, 0, false, 0},
      {"\xE2\x89\xA5" "100", SCWI_CENSORED, NULL, 0, 0, false, 0},
      {">=100*", SCWI_CENSORED, NULL, 0, 0, false, 0},
      {"inf", SCWI_INFINITE, NULL, 0, 0, false, 0},
      {"-Infinity", SCWI_INFINITE, NULL, 0, 0, false, 0},
      {"\xE2\x88\x9E", SCWI_INFINITE, NULL, 0, 0, false, 0}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    check_cell(cases + i);
}

static void texts(void **state) {
  static const char *const cells[] = {
      "abc",     "87.4 GU",   "12.03.2026", "2026-03-12", "10:31",
      "1.23.45", "1,23,456",  "1,2345,678", "12,345.6.7", "1 23",
      "1  234",  "1234 567",  "0x10",       "1e",         "e5",
      "1e5.5",   "--5",       "5-",         "87.4%",      "()",
      "(87.4",   "> ",        ">abc",       "**",         "1,,234",
      "#3",      "1.5 000",   "01,234.5"};
  (void)state;
  for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
    scwi_token token;
    scwi_token_read(cells[i], strlen(cells[i]), &token);
    if (token.kind != SCWI_TEXT)
      fail_msg("'%s' is of kind %d, not text", cells[i], (int)token.kind);
  }
}

/* A million brackets or digits cost no stack and end in text. */
static void monsters(void **state) {
  enum { SIZE = 1000000 };
  char *cell = malloc(SIZE);
  static const char fills[] = "(1*.,-# ";
  (void)state;
  assert_non_null(cell);
  for (size_t i = 0; i + 1 < sizeof fills; i++) {
    scwi_token token;
    memset(cell, fills[i], SIZE);
    scwi_token_read(cell, SIZE, &token);
    assert_int_equal(token.kind, fills[i] == ' '   ? SCWI_EMPTY
                                 : fills[i] == '1' ? SCWI_NUMBER
                                                   : SCWI_TEXT);
  }
  free(cell);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(numbers), cmocka_unit_test(no_numbers),
      cmocka_unit_test(texts), cmocka_unit_test(monsters)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
