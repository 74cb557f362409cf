/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Archives row by row: what each column means, readings as sums, what is
 * refused and where, and that neither the size of blocks nor the way a number
 * is read makes a difference. */
#include "claims.h"

#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "number_text.h"
#include "text.h"

/* A text that is read like a file, `block` bytes at a time (0: all at once). */
typedef struct place {
  const char *at;
  size_t block;
} place;

static int read_text(void *user, char *buffer, size_t size, size_t *got) {
  place *p = user;
  size_t n = strlen(p->at);
  if (p->block && n > p->block) n = p->block;
  *got = n < size ? n : size;
  memcpy(buffer, p->at, *got);
  p->at += *got;
  return 0;
}

static void add_span(scwi_text *to, const char *name, scwi_span span) {
  if (!span.length) return;
  scwi_text_format(to, " %s=", name);
  scwi_text_append(to, span.text, span.length);
}

static void add_number(scwi_text *to, const char *name,
                       const scwi_printed *number) {
  char text[SCWI_NUMBER_SIZE];
  if (number->has)
    scwi_text_format(to, " %s=%s/%d@%zu", name,
                     scwi_number_text(number->value, text), number->digits,
                     number->column);
}

static void add_sums(scwi_text *to, const char *name,
                     const scwi_claim_readings *r) {
  char sum[SCWI_NUMBER_SIZE], spread[SCWI_NUMBER_SIZE];
  if (r->n)
    scwi_text_format(to, " %s=%zu/%d:%s,%s", name, r->n, r->digits,
                     scwi_number_text(r->sum, sum),
                     scwi_number_text(r->spread, spread));
}

/* One line for each claim: texts, numbers as VALUE/DECIMALS@COLUMN, readings
 * as N/DECIMALS:SUM,SPREAD; what the row has not is left out. */
static scw_status describe(void *user, scw_context *context,
                           const scwi_claim_row *row) {
  static const char *const of[2] = {"<", ">"};
  scwi_text *to = user;
  char name[32];
  scwi_text_format(to, "%zu", row->line);
  add_span(to, "id", row->id);
  add_span(to, "product", row->product);
  add_span(to, "category", row->category);
  add_span(to, "date", row->date);
  add_span(to, "rule", row->rule);
  add_span(to, "method", row->method);
  add_span(to, "geometry", row->geometry);
  add_span(to, "unit", row->unit);
  for (int side = 0; side < 2; side++) {
#define NAMED(word) (check_snprintf(name, sizeof name, "%s" word, of[side]), name)
    add_span(to, NAMED("panel"), row->panel[side]);
    add_span(to, NAMED("meter"), row->meter[side]);
    add_span(to, NAMED("session"), row->session[side]);
    add_number(to, NAMED("mean"), &row->mean[side]);
    add_number(to, NAMED("sd"), &row->sd[side]);
    add_number(to, NAMED("se"), &row->se[side]);
    add_number(to, NAMED("n"), &row->n[side]);
    add_number(to, NAMED("step"), &row->step[side]);
    add_sums(to, NAMED("r"), &row->readings[side]);
#undef NAMED
  }
  add_number(to, "change", &row->change);
  add_number(to, "points", &row->points);
  scwi_text_add(to, "\n");
  return scwi_text_status(context, to);
}

typedef struct told {
  scwi_text *text;
  scwi_claim_columns columns;
} told;

static scw_status take_told(void *user, scw_context *context,
                            const scwi_claim_row *row) {
  return describe(((told *)user)->text, context, row);
}

static scw_status take_columns(void *user, scw_context *context,
                               const scwi_claim_columns *columns) {
  (void)context;
  told *t = user;
  assert_int_equal(t->text->length, 0); /* before the first row */
  t->columns = *columns;
  return SCW_OK;
}

static scw_context *a_context(void) {
  scw_context *context = NULL;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  return context;
}

/* Freed by the caller. */
static char *claims_of(const char *text, const scw_table_options *options,
                       size_t block, scwi_tick_scale *scale,
                       scwi_claim_columns *columns) {
  scw_context *context = a_context();
  scwi_text out = {0};
  told t = {.text = &out};
  scw_table *account;
  place p = {text, block};
  scwi_tick_scale own;
  const scwi_claims_ask ask = {take_columns, take_told, &t};
  scw_status status =
      scwi_claims_read(context, options, (scw_source){read_text, &p, "shed"},
                       &ask, scale ? scale : &own, &account);
  if (status != SCW_OK)
    fail_msg("%s: %s", text, scw_context_message(context));
  if (columns) *columns = t.columns;
  scw_table_free(account);
  scw_context_free(context);
  return out.data;
}

static void check_claims(const char *text, const scw_table_options *options,
                         const char *wanted) {
  static const size_t blocks[] = {0, 1, 7};
  for (size_t i = 0; i < 3; i++) {
    char *got = claims_of(text, options, blocks[i], NULL, NULL);
    assert_string_equal(got, wanted);
    free(got);
  }
}

static const scw_table_options patterns = {.before_label = "b*",
                                           .after_label = "a*"};

static void every_column(void **state) {
  (void)state;
  check_claims(
      "id,product,category,date,rule,method,geometry,unit,panel,meter,session,"
      "before mean,before sd,after mean,after sd,n,step,change,points\n"
      "A1,K1,wax,2026-05-01,g,m,60,GU,P,M,S,80.10,0.8,82.3,0.90,10,0.1,2.2,1\n",
      NULL,
      "2 id=A1 product=K1 category=wax date=2026-05-01 rule=g method=m "
      "geometry=60 unit=GU "
      "<panel=P <meter=M <session=S <mean=80.1/2@38 <sd=0.8/1@44 <n=10/0@58 "
      "<step=0.1/1@61 "
      ">panel=P >meter=M >session=S >mean=82.3/1@48 >sd=0.9/2@53 >n=10/0@58 "
      ">step=0.1/1@61 change=2.2/1@65 points=1/0@69\n");
}

/* A column of one side stands for that side, the one of none for the other. */
static void sides_of_columns(void **state) {
  (void)state;
  check_claims(
      "before panel,panel after,meter,n_before,n,before se,se (after),"
      "step before,session after,before,after\nP,Q,M,9,10,0.1,0.2,1,S,80,81\n",
      NULL,
      "2 <panel=P <meter=M <mean=80/0@24 <se=0.1/1@12 <n=9/0@7 <step=1/0@20 "
      ">panel=Q >meter=M >session=S >mean=81/0@27 >se=0.2/1@16 >n=10/0@9\n");
}

/* A mean of no side is that after; the before side is then not stated. */
static void after_alone(void **state) {
  (void)state;
  check_claims("claim,mean,sd,n\nA,81.5,0.4,10\n", NULL,
               "2 id=A <sd=0.4/1@8 <n=10/0@12 >mean=81.5/1@3 >sd=0.4/1@8 "
               ">n=10/0@12\n");
}

static void synonyms(void **state) {
  (void)state;
  static const char *const same[] = {
      "id;change;points;date;category;meter;method",
      "claim;difference;score;day;class;gauge;test method",
      "Claim ID;Diff.;Score;Day;CLASS;Instrument;Test Method",
      "id;effect;points;date;class;instrument;method"};
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    char text[256];
    check_snprintf(text, sizeof text, "%s\nA;1,5;2;2026-05-01;wax;M;m\n",
                   same[i]);
    check_claims(text, NULL,
                 "2 id=A category=wax date=2026-05-01 method=m <meter=M "
                 ">meter=M change=1.5/1@3 points=2/0@7\n");
  }
}

/* Sums of ticks, their spread n * sum of squares - (sum)^2 times n:
 * 801, 802, 804: n x - sum = -4, -1, 5. */
static void readings(void **state) {
  (void)state;
  const char *wanted = "2 id=A <r=3/1:2407,42 >r=2/1:1643,2\n";
  check_claims("id,b1,b2,b3,a1,a2\nA,80.1,80.2,80.4,82.1,82.2\n", &patterns,
               wanted);
  check_claims("id,before 1,before 2,before 3,after 1,after 2\n"
               "A,80.1,80.2,80.4,82.1,82.2\n",
               NULL, wanted);
  check_claims("id,a2,b3,b1,a1,b2\nA,82.2,80.4,80.1,82.1,80.2\n", &patterns,
               wanted);
  /* gaps and missing marks are no readings; decimals differ within a side */
  check_claims("id,b1,b2,b3,b4,a1,a2,a3\nA,80.10,NA,80.2,80.4,,82.1,82.20\n",
               &patterns, "2 id=A <r=3/2:24070,4200 >r=2/2:16430,200\n");
  /* signs, wholes, a side without any */
  check_claims("id,b1,b2,a1,a2\nA,-3,5,,\n", &patterns,
               "2 id=A <r=2/0:2,128\n");
}

static void readings_and_means(void **state) {
  (void)state;
  scwi_claim_columns columns;
  const char *text = "id,b1,b2,before mean,after mean,n,rule\n"
                     "A,80.1,80.3,80.2,82,2,g\n";
  check_claims(text, &patterns,
               "2 id=A rule=g <mean=80.2/1@13 <n=2/0@21 <r=2/1:1604,8 "
               ">mean=82/0@18 >n=2/0@21\n");
  free(claims_of(text, &patterns, 0, NULL, &columns));
  assert_true(columns.mean[0] && columns.mean[1] && columns.rule);
  assert_true(columns.readings[0] && !columns.readings[1]);
  assert_true(!columns.change && !columns.points);
}

/* A pattern does not catch what says itself what it is; a name in full does. */
static void patterns_leave_figures(void **state) {
  (void)state;
  static const scw_table_options in_full = {.before_label = "before",
                                            .after_label = "after"};
  check_claims("id,b1,before panel,before,a1,average,after sd\n"
               "A,80,P,80.0,82,82.0,0.5\n",
               &patterns,
               "2 id=A <panel=P <mean=80/1@8 <r=1/0:80,0 >mean=82/1@16 "
               ">sd=0.5/1@21 >r=1/0:82,0\n");
  check_claims("id,before,after\nA,80,82\n", &in_full,
               "2 id=A <r=1/0:80,0 >r=1/0:82,0\n");
}

/* Readings that have no tick in common are summed as numbers: ticks of 1. */
static void without_tick(void **state) {
  (void)state;
  scwi_tick_scale scale;
  char *got = claims_of("id,b1,b2,a1\nA,1e300,1e-300,2\n", &patterns, 0,
                        &scale, NULL);
  assert_non_null(strstr(got, "<r=2/0:1"));
  assert_int_equal(scale.n, 0);
  free(got);
}

/* All readings of the file tell its step. */
static void scale_of_all(void **state) {
  (void)state;
  scwi_tick_scale scale;
  free(claims_of("id,b1,b2,a1\nA,80.5,81.0,82.0\nB,80.0,,81.5\n", &patterns, 0,
                 &scale, NULL));
  assert_int_equal(scale.n, 5);
  assert_int_equal(scale.digits, 1);
  assert_int_equal(scale.different, 3);
  assert_int_equal(scale.divisor, 5);
  assert_int_equal(scale.largest, 820);
  free(claims_of("id,b1,a1\nA,80.5,82\nB,80.55,80\n", &patterns, 0, &scale,
                 NULL));
  assert_int_equal(scale.n, 4);
  assert_int_equal(scale.digits, 2);
}

/* The quick way of plain numbers and the other one say the same, and the
 * moments that follow are those of the readings themselves. */
static void many_rows(void **state) {
  (void)state;
  enum { ROWS = 5000, EACH = 6 };
  scwi_text plain = {0}, other = {0};
  unsigned long long at = 12345;
  scwi_text_add(&plain, "id,b1,b2,b3,a1,a2,a3\n");
  scwi_text_add(&other, "id,b1,b2,b3,a1,a2,a3\n");
  for (int row = 0; row < ROWS; row++) {
    scwi_text_format(&plain, "c%d", row);
    scwi_text_format(&other, "\"c%d\"", row);
    for (int i = 0; i < EACH; i++) {
      at = at * 6364136223846793005ULL + 1442695040888963407ULL;
      int tick = 750 + (int)(at >> 33) % 200;
      scwi_text_format(&plain, ",%d.%d", tick / 10, tick % 10);
      scwi_text_format(&other, ", \"+%d.%d\" ", tick / 10, tick % 10);
    }
    scwi_text_add(&plain, "\n");
    scwi_text_add(&other, "\r\n");
  }
  char *one = claims_of(plain.data, &patterns, 0, NULL, NULL);
  char *two = claims_of(other.data, &patterns, 4099, NULL, NULL);
  assert_string_equal(one, two);
  free(one);
  free(two);
  scwi_text_free(&plain);
  scwi_text_free(&other);
}

typedef struct refusal {
  const char *text;
  size_t line, column;
  const char *words;
} refusal;

static const refusal refusals[] = {
    {"", 0, 0, "it is empty"},
    {"id,change\n", 0, 0, "no rows below the header"},
    {"id,n\nA,10\n", 1, 0, "no column holds anything that is claimed"},
    {"id,before mean\nA,80\n", 1, 0, "no column holds anything"},
    {"id,change,difference\nA,1,1\n", 1, 11, "both say the same thing"},
    {"id,claim,change\nA,A,1\n", 1, 4, "both say the same thing"},
    {"id,b1,a1\nA,80,x\n", 2, 6, "the reading needs one"},
    {"id,b1,a1\nA,80,>99\n", 2, 6, "the reading needs one"},
    {"id,change\nA,up\n", 2, 3, "'up' is not a number"},
    {"id,change,points\nA,1,1\nB,1,none?\n", 3, 5, "the points needs one"},
    {"id,before,after,n\nA,80,81,2.5\n", 2, 9, "n must be a whole number"},
    {"id,before,after,n\nA,80,81,0\n", 2, 9, "n must be a whole number"},
    {"id,before,after,n\nA,80,81,-3\n", 2, 9, "n must be a whole number"},
    {"id,before,after,n\nA,80,81,1000001\n", 2, 9, "1 to 1000000"},
    {"id,before,after,n after\nA,80,81,0\n", 2, 9, "n must be"},
    {"id,before,after,sd\nA,80,81,-1\n", 2, 9, "an SD below zero"},
    {"id,before,after,se after\nA,80,81,-1\n", 2, 9,
     "a standard error below zero"},
    {"id,before,after,step before\nA,80,81,-1\n", 2, 9,
     "a display step below zero"},
    {"id,before,after,error\nA,80,81,1\n", 1, 17, "which scatter it is"},
    {"id,before,after,cv\nA,80,81,1\n", 1, 17, "a share of the mean"},
    {"id,before,after,variance\nA,80,81,1\n", 1, 17, "is a variance"},
    {"id,change\nA,1,2\n", 2, 5, "stands beyond the last heading"},
    {"id,change\nA,1e999\n", 2, 3, "larger than any number"},
    {"id;change\nA;1,5\nB;1.5\n", 3, 3, "point and comma change places"},
    {"id;change\nA;1.234\nB;987\n", 2, 3, "can be read as"}};

static scw_status count_only(void *user, scw_context *context,
                             const scwi_claim_row *row) {
  (void)user;
  (void)context;
  (void)row;
  return SCW_OK;
}

static void refused(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
    const refusal *r = &refusals[i];
    scw_context *context = a_context();
    scw_table *account;
    scwi_tick_scale scale;
    place p = {r->text, 0};
    const scwi_claims_ask ask = {.take = count_only};
    assert_int_equal(
        scwi_claims_read(context, &patterns, (scw_source){read_text, &p, "shed"},
                         &ask, &scale, &account),
        SCW_BAD_INPUT);
    if (!strstr(scw_context_message(context), r->words))
      fail_msg("\"%s\" lacks \"%s\"", scw_context_message(context), r->words);
    assert_int_equal(scw_context_line(context), r->line);
    assert_int_equal(scw_context_column(context), r->column);
    assert_null(account);
    scw_context_free(context);
  }
}

/* What the taker refuses stops the reading with its own words. */
static scw_status refuse_second(void *user, scw_context *context,
                                const scwi_claim_row *row) {
  ++*(int *)user;
  return row->line == 3 ? scwi_claim_fail(context, row, &row->change, "enough")
                        : SCW_OK;
}

static void taker_refuses(void **state) {
  (void)state;
  scw_context *context = a_context();
  scw_table *account;
  scwi_tick_scale scale;
  int calls = 0;
  place p = {"id,change\nA,1\nB,2\nC,3\n", 0};
  const scwi_claims_ask ask = {.take = refuse_second, .user = &calls};
  assert_int_equal(
      scwi_claims_read(context, NULL, (scw_source){read_text, &p, "shed"}, &ask,
                       &scale, &account),
      SCW_BAD_INPUT);
  assert_string_equal(scw_context_message(context),
                      "shed, line 3, column 3: enough");
  assert_int_equal(calls, 2);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_column),  cmocka_unit_test(sides_of_columns),
      cmocka_unit_test(after_alone),   cmocka_unit_test(synonyms),
      cmocka_unit_test(readings),      cmocka_unit_test(readings_and_means),
      cmocka_unit_test(patterns_leave_figures), cmocka_unit_test(without_tick),  cmocka_unit_test(scale_of_all),
      cmocka_unit_test(many_rows),     cmocka_unit_test(refused),
      cmocka_unit_test(taker_refuses)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
