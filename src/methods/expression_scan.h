/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of an expression as tokens, and failures that point into it. */
#ifndef SCWI_EXPRESSION_SCAN_H
#define SCWI_EXPRESSION_SCAN_H

#include "expression.h"

typedef enum scwi_token_kind {
  SCWI_TOKEN_END,
  SCWI_TOKEN_NUMBER,
  SCWI_TOKEN_NAME,
  SCWI_TOKEN_SIGN /* one of + - * / ^ ( ) , */
} scwi_token_kind;

typedef struct scwi_token {
  scwi_token_kind kind;
  char sign;        /* SCWI_TOKEN_SIGN: in ASCII, however it was written */
  const char *text; /* as written */
  size_t length;
  uint32_t place; /* character, from 1 */
  double number;
} scwi_token;

typedef struct scwi_scanner {
  scw_context *context;
  const char *text;
  size_t length, at;
  uint32_t place;   /* character at `at` */
  scwi_token token; /* the one looked at */
} scwi_scanner;

/* Goes on to the next token. SCW_BAD_INPUT for what cannot be one. */
scw_status scwi_scan(scwi_scanner *scanner);

bool scwi_token_is(const scwi_token *token, char sign);

/* "character 7 of `...`: " and the message; the context's column is `place`. */
scw_status scwi_expression_fail(scw_context *context, scw_status status,
                                const char *text, size_t length, uint32_t place,
                                const char *format, ...)
    __attribute__((format(printf, 6, 7)));

/* "... is expected here, not `what stands there`". */
scw_status scwi_expected(const scwi_scanner *scanner, const char *what);

/* Bytes of the longest name at the start of `text`; 0 when none starts. */
size_t scwi_name_length(const char *text, size_t length);

#endif
