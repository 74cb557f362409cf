/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grammar, loosest binding first:
 *   sum      product { (+ | -) product }
 *   product  signed { (* | /) signed }
 *   signed   { + | - } power
 *   power    primary [ ^ signed ]          right to left: 2^3^2 is 2^(3^2)
 *   primary  number | name | function ( sum ) | ( sum )
 * A sign binds looser than a power: -x^2 is -(x^2). */
#include "expression.h"

#include <stdlib.h>
#include <string.h>

#include "expression_scan.h"
#include "expression_tape.h"
#include "memory.h"

typedef struct parser {
  scwi_scanner scanner;
  scwi_tape tape;
  const scwi_definition *definitions;
  size_t n_definitions;
  uint16_t *defined; /* step of each definition used; NOT_USED */
  unsigned depth;
} parser;

enum { NOT_USED = UINT16_MAX };

#define OPERATOR  "an operator (+ - * / ^)"
#define FUNCTIONS "exp log log10 sqrt sin cos tan asin acos atan abs"

static const double pi = 3.141592653589793116;

static const struct {
  const char *name;
  scwi_operation operation;
} functions[] = {
    {"exp", SCWI_EXP},   {"log", SCWI_LOG},   {"log10", SCWI_LOG10},
    {"sqrt", SCWI_SQRT}, {"sin", SCWI_SIN},   {"cos", SCWI_COS},
    {"tan", SCWI_TAN},   {"asin", SCWI_ASIN}, {"acos", SCWI_ACOS},
    {"atan", SCWI_ATAN}, {"abs", SCWI_ABS}};

static bool same(const char *text, size_t length, const char *name) {
  return strlen(name) == length && memcmp(text, name, length) == 0;
}

static bool is_function(const char *text, size_t length,
                        scwi_operation *operation) {
  for (size_t i = 0; i < sizeof functions / sizeof *functions; i++)
    if (same(text, length, functions[i].name)) {
      *operation = functions[i].operation;
      return true;
    }
  return false;
}

bool scwi_expression_is_name(const char *text, size_t length) {
  scwi_operation operation;
  return length > 0 && scwi_name_length(text, length) == length &&
         !is_function(text, length, &operation) && !same(text, length, "pi");
}

static scw_status fail_at(parser *p, const scwi_token *token,
                          const char *words) {
  return scwi_expression_fail(p->scanner.context, SCW_BAD_INPUT,
                              p->scanner.text, p->scanner.length, token->place,
                              "%s", words);
}

static scw_status deeper(parser *p) {
  if (++p->depth <= SCWI_EXPRESSION_DEPTH) return SCW_OK;
  return fail_at(p, &p->scanner.token,
                 "parentheses and powers stand inside each other too deeply; "
                 "split the expression into named parts");
}

static scw_status take_sum(parser *p, uint16_t *out);

/* "( sum )", the parenthesis being the token looked at. */
static scw_status take_parentheses(parser *p, uint16_t *out) {
  scw_status status = deeper(p);
  if (!status) status = scwi_scan(&p->scanner);
  if (!status) status = take_sum(p, out);
  if (!status && !scwi_token_is(&p->scanner.token, ')'))
    status = scwi_expected(&p->scanner, OPERATOR " or )");
  p->depth--;
  return status ? status : scwi_scan(&p->scanner);
}

static scw_status take_function(parser *p, scwi_operation operation,
                                uint16_t *out) {
  uint32_t place = p->scanner.token.place;
  uint16_t inner;
  scw_status status = scwi_scan(&p->scanner);
  if (!status && !scwi_token_is(&p->scanner.token, '('))
    return scwi_expected(&p->scanner, "the ( of the function, as in sqrt(x),");
  if (!status) status = take_parentheses(p, &inner);
  return status ? status
                : scwi_tape_operation(&p->tape, operation, inner, inner, place,
                                      out);
}

static scw_status put_definition(parser *p, size_t i, uint32_t place,
                                 uint16_t *out) {
  scw_status status = SCW_OK;
  if (p->defined[i] == NOT_USED)
    status = scwi_tape_expression(&p->tape, p->definitions[i].expression, place,
                                  &p->defined[i]);
  *out = p->defined[i];
  return status;
}

static scw_status no_function(parser *p, const scwi_token *name) {
  if (same(name->text, name->length, "ln"))
    return fail_at(p, name, "the natural logarithm is written log");
  return fail_at(p, name,
                 "this is no function. The functions are " FUNCTIONS
                 "; a product needs a *");
}

static scw_status take_name(parser *p, uint16_t *out) {
  const scwi_token name = p->scanner.token;
  scwi_operation operation;
  if (is_function(name.text, name.length, &operation))
    return take_function(p, operation, out);
  scw_status status = scwi_scan(&p->scanner);
  if (status) return status;
  if (scwi_token_is(&p->scanner.token, '(')) return no_function(p, &name);
  if (same(name.text, name.length, "pi"))
    return scwi_tape_number(&p->tape, pi, name.place, out);
  for (size_t i = 0; i < p->n_definitions; i++)
    if (same(name.text, name.length, p->definitions[i].name))
      return put_definition(p, i, name.place, out);
  return scwi_tape_input(&p->tape, name.text, name.length, name.place, out);
}

static scw_status take_primary(parser *p, uint16_t *out) {
  const scwi_token token = p->scanner.token;
  if (token.kind == SCWI_TOKEN_NAME) return take_name(p, out);
  if (scwi_token_is(&token, '(')) return take_parentheses(p, out);
  if (token.kind != SCWI_TOKEN_NUMBER)
    return scwi_expected(&p->scanner, "a number, a name or (");
  scw_status status = scwi_scan(&p->scanner);
  return status ? status
                : scwi_tape_number(&p->tape, token.number, token.place, out);
}

static scw_status take_signed(parser *p, uint16_t *out);

static scw_status take_power(parser *p, uint16_t *out) {
  uint16_t base, exponent;
  scw_status status = take_primary(p, &base);
  uint32_t place = p->scanner.token.place;
  *out = base;
  if (status || !scwi_token_is(&p->scanner.token, '^')) return status;
  status = scwi_scan(&p->scanner);
  if (!status) status = deeper(p);
  if (!status) status = take_signed(p, &exponent);
  p->depth--;
  return status ? status
                : scwi_tape_operation(&p->tape, SCWI_POWER, base, exponent,
                                      place, out);
}

static scw_status take_signed(parser *p, uint16_t *out) {
  bool negative = false;
  uint32_t place = p->scanner.token.place;
  scw_status status = SCW_OK;
  while (!status && (scwi_token_is(&p->scanner.token, '-') ||
                     scwi_token_is(&p->scanner.token, '+'))) {
    negative ^= p->scanner.token.sign == '-';
    status = scwi_scan(&p->scanner);
  }
  if (!status) status = take_power(p, out);
  return status || !negative ? status
                             : scwi_tape_operation(&p->tape, SCWI_NEGATE, *out,
                                                   *out, place, out);
}

static scw_status take_product(parser *p, uint16_t *out) {
  scw_status status = take_signed(p, out);
  while (!status && (scwi_token_is(&p->scanner.token, '*') ||
                     scwi_token_is(&p->scanner.token, '/'))) {
    const scwi_token sign = p->scanner.token;
    uint16_t right;
    status = scwi_scan(&p->scanner);
    if (!status && sign.sign == '*' && scwi_token_is(&p->scanner.token, '*'))
      return fail_at(p, &p->scanner.token, "a power is written with ^");
    if (!status) status = take_signed(p, &right);
    if (!status)
      status = scwi_tape_operation(
          &p->tape, sign.sign == '*' ? SCWI_MULTIPLY : SCWI_DIVIDE, *out, right,
          sign.place, out);
  }
  return status;
}

static scw_status take_sum(parser *p, uint16_t *out) {
  scw_status status = take_product(p, out);
  while (!status && (scwi_token_is(&p->scanner.token, '+') ||
                     scwi_token_is(&p->scanner.token, '-'))) {
    const scwi_token sign = p->scanner.token;
    uint16_t right;
    status = scwi_scan(&p->scanner);
    if (!status) status = take_product(p, &right);
    if (!status)
      status = scwi_tape_operation(&p->tape,
                                   sign.sign == '+' ? SCWI_ADD : SCWI_SUBTRACT,
                                   *out, right, sign.place, out);
  }
  return status;
}

static scw_status check_end(parser *p) {
  const scwi_token *token = &p->scanner.token;
  if (token->kind == SCWI_TOKEN_END) return SCW_OK;
  if (scwi_token_is(token, ')'))
    return fail_at(p, token, "there is no ( for this )");
  if (scwi_token_is(token, ','))
    return fail_at(p, token,
                   "a comma has no place here: the decimal mark is a point, "
                   "and a function takes one value");
  return scwi_expected(&p->scanner, OPERATOR);
}

static scw_status take_whole(parser *p) {
  uint16_t last = 0;
  scw_status status =
      SCWI_ALLOCATE(p->scanner.context, p->n_definitions, &p->defined);
  for (size_t i = 0; i < p->n_definitions && !status; i++)
    p->defined[i] = NOT_USED;
  if (!status) status = scwi_scan(&p->scanner);
  if (!status) status = take_sum(p, &last);
  if (!status) status = check_end(p);
  if (!status) status = scwi_tape_close(&p->tape, last);
  free(p->defined);
  return status;
}

scw_status scwi_expression_parse(scw_context *context, const char *text,
                                 size_t length,
                                 const scwi_definition *definitions,
                                 size_t n_definitions, scwi_expression *out) {
  *out = (scwi_expression){0};
  if (length > SCWI_EXPRESSION_LENGTH)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "an expression of %zu bytes is too long: at most %d can "
                     "be taken; split it into named parts",
                     length, SCWI_EXPRESSION_LENGTH);
  parser p = {.scanner = {context, text, length, 0, 1, {0}},
              .tape = {context, text, length, out, 0, 0, {0}},
              .definitions = definitions,
              .n_definitions = n_definitions};
  scw_status status = take_whole(&p);
  if (!status) status = scwi_copy_text(context, text, length, &out->text);
  if (status) scwi_expression_free(out);
  return status;
}

void scwi_expression_free(scwi_expression *expression) {
  for (size_t i = 0; i < expression->n_inputs; i++)
    free(expression->input[i]);
  free(expression->input);
  free(expression->step);
  free(expression->text);
  *expression = (scwi_expression){0};
}

size_t scwi_expression_find(const scwi_expression *expression,
                            const char *name) {
  size_t i = 0;
  while (i < expression->n_inputs && strcmp(expression->input[i], name) != 0)
    i++;
  return i;
}
