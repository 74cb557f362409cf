/* SPDX-License-Identifier: GPL-3.0-or-later */
/* In short must say what the whole analysis says: the same sets, the same
 * digits, the same account, the same failures, whatever the number of threads
 * and the blocks in which a source gives its bytes. */
#include "from_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "intervals.h"
#include "moments.h"
#include "sets.h"
#include "table_facts.h"
#include "text.h"
#include "values.h"

typedef struct text_source {
  const char *text;
  size_t size, at, block;
} text_source;

static int read_text(void *user, char *buffer, size_t size, size_t *got) {
  text_source *source = user;
  size_t n = source->size - source->at;
  if (n > size) n = size;
  if (source->block && n > source->block) n = source->block;
  if (n) memcpy(buffer, source->text + source->at, n);
  source->at += n;
  *got = n;
  return 0;
}

static scw_source source_of(text_source *source) {
  return (scw_source){read_text, source, "shed.csv"};
}

/* A text, how it is read, and with what. */
typedef struct brief_case {
  const char *text;
  size_t size, block;
  unsigned threads;
  const scw_table_options *options;
  const scw_settings *settings;
} brief_case;

static scw_status brief_of(scw_context *context, brief_case c,
                           scw_brief_result *out) {
  text_source source = {c.text, c.size, 0, c.block};
  went_well(context, scw_context_set_threads(context, c.threads));
  return scw_readings_brief(context, c.options, c.settings,
                            source_of(&source), out);
}

/* The same by the table: every reading kept, two passes over each set. */
static scw_brief_set set_of(scw_context *context, const scw_table *table,
                            const scwi_table_facts *facts,
                            const scwi_set *set, double level) {
  scw_brief_set out = {.label = set->label};
  scwi_values values;
  scwi_uncertainty u;
  went_well(context, scwi_values_of(context, table, &facts->decimals,
                                    set->reading, set->n, 1, &values));
  scwi_sample sample = scwi_values_sample(&values, facts->step);
  scwi_moments m = scwi_moments_of(&sample);
  out.n = m.n;
  out.mean = scwi_figure(m.mean);
  out.sd = m.n < 2 ? scwi_missing(SCW_ONE_READING) : scwi_figure(m.sd);
  scw_presence state = scwi_uncertainty_of_mean(m, facts->step, &u);
  out.interval = scwi_no_interval(state, level);
  if (state == SCW_PRESENT)
    went_well(context,
              scwi_t_interval(context, m.mean, u, level, &out.interval));
  scwi_values_free(&values);
  return out;
}

typedef struct kept_result {
  scw_table *table;
  scwi_table_facts facts;
  scwi_sets sets;
  scw_brief_set *set;
} kept_result;

static scw_status keep_all(scw_context *context, brief_case c,
                           kept_result *out) {
  text_source source = {c.text, c.size, 0, 0};
  scw_settings settings;
  *out = (kept_result){0};
  if (c.settings) settings = *c.settings;
  else scw_settings_init(&settings);
  scw_status status =
      scw_table_read(context, c.options, source_of(&source), &out->table);
  if (status == SCW_OK)
    status = scwi_table_facts_of(context, out->table, &settings, &out->facts);
  if (status != SCW_OK) return status;
  went_well(context, scwi_sets_of(context, out->table, &out->sets));
  out->set = calloc(out->sets.n, sizeof *out->set);
  assert_non_null(out->set);
  for (size_t i = 0; i < out->sets.n; i++)
    out->set[i] = set_of(context, out->table, &out->facts, &out->sets.set[i],
                         settings.level);
  return SCW_OK;
}

static void keep_none(kept_result *kept) {
  free(kept->set);
  scwi_sets_free(&kept->sets);
  scwi_table_facts_free(&kept->facts);
  scw_table_free(kept->table);
}

/* Where squares of deviations exceed 2^53 the two ways round differently. */
static const double ROUNDINGS = 4.5e-16;

static void same_figure(scw_figure got, scw_figure wanted, double tolerance) {
  assert_int_equal(got.state, wanted.state);
  if (got.state == SCW_PRESENT)
    check_relative(got.value, wanted.value, tolerance);
}

static void same_interval(scw_interval got, scw_interval wanted,
                          double tolerance) {
  double size = fmax(fabs(wanted.low), fabs(wanted.high));
  assert_int_equal(got.state, wanted.state);
  assert_true(got.level == wanted.level);
  if (got.state != SCW_PRESENT) return;
  check_absolute(got.low, wanted.low, tolerance * size);
  check_absolute(got.high, wanted.high, tolerance * size);
}

static void same_account(const scw_input *got, const scw_input *wanted) {
  assert_string_equal(got->sha256, wanted->sha256);
  assert_string_equal(got->shape, wanted->shape);
  assert_string_equal(got->name, wanted->name);
  assert_int_equal(got->bytes, wanted->bytes);
  assert_int_equal(got->rows, wanted->rows);
  assert_int_equal(got->used, wanted->used);
  assert_int_equal(got->separator, wanted->separator);
  assert_int_equal(got->decimal_mark, wanted->decimal_mark);
  assert_int_equal(got->labels_carried, wanted->labels_carried);
  assert_int_equal(got->labels_carried_line, wanted->labels_carried_line);
  assert_int_equal(got->n_not_used, wanted->n_not_used);
  for (size_t i = 0; i < got->n_not_used; i++) {
    assert_int_equal(got->not_used[i].line, wanted->not_used[i].line);
    assert_int_equal(got->not_used[i].column, wanted->not_used[i].column);
    assert_string_equal(got->not_used[i].reason, wanted->not_used[i].reason);
    assert_string_equal(got->not_used[i].text, wanted->not_used[i].text);
  }
}

static void same_result(const scw_brief_result *got,
                        const kept_result *wanted,
                        double tolerance) {
  assert_int_equal(got->n_sets, wanted->sets.n);
  for (size_t i = 0; i < got->n_sets; i++) {
    const scw_brief_set *a = &got->sets[i], *b = &wanted->set[i];
    assert_string_equal(a->label, b->label);
    assert_int_equal(a->n, b->n);
    same_figure(a->mean, b->mean, tolerance);
    same_figure(a->sd, b->sd, tolerance);
    same_interval(a->interval, b->interval, tolerance);
  }
  assert_int_equal(got->step.origin, wanted->facts.step.origin);
  assert_true(got->step.size == wanted->facts.step.size);
  same_account(&got->input, scw_table_input(wanted->table, 0));
}

static bool identical(const scw_brief_result *a, const scw_brief_result *b) {
  bool same = a->n_sets == b->n_sets;
  for (size_t i = 0; same && i < a->n_sets; i++) {
    const scw_brief_set *x = &a->sets[i], *y = &b->sets[i];
    same = x->n == y->n && strcmp(x->label, y->label) == 0 &&
           memcmp(&x->mean.value, &y->mean.value, sizeof(double)) == 0 &&
           memcmp(&x->sd.value, &y->sd.value, sizeof(double)) == 0 &&
           memcmp(&x->interval.low, &y->interval.low, sizeof(double)) == 0 &&
           memcmp(&x->interval.high, &y->interval.high, sizeof(double)) == 0;
  }
  return same;
}

/* Brief against the whole analysis, and every way of reading against the
 * first. */
static void compare(brief_case c, double tolerance) {
  static const struct { unsigned threads; size_t block; } ways[] = {
      {1, 0}, {2, 0}, {3, 70000}, {7, 0}, {2, 4999}};
  scw_context *context = a_context();
  kept_result kept;
  scw_status wanted = keep_all(context, c, &kept);
  char *message = strdup(scw_context_message(context));
  scw_brief_result first = {0};
  for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
    scw_brief_result brief;
    c.threads = ways[i].threads;
    c.block = ways[i].block;
    scw_status got = brief_of(context, c, &brief);
    if (got != wanted)
      fail_msg("got %s, wanted %s (%s)", got ? scw_context_message(context)
                                             : "success", message,
               scw_status_text(wanted));
    if (wanted) {
      assert_string_equal(scw_context_message(context), message);
      assert_null(brief.sets);
      continue;
    }
    same_result(&brief, &kept, tolerance);
    if (i == 0) {
      first = brief;
    } else {
      assert_true(identical(&brief, &first));
      scw_brief_result_free(&brief);
    }
  }
  scw_brief_result_free(&first);
  keep_none(&kept);
  scw_context_free(context);
  free(message);
}

static void compare_text(const char *text, double tolerance) {
  compare((brief_case){.text = text, .size = strlen(text)}, tolerance);
}

/* And the public result of the whole analysis, for a few sets. */
static void the_whole_analysis_says_the_same(void **state) {
  static const char text[] = "set,reading\na,87.4\na,87.6\nb,88\nb,88.2\n"
                             "a,87.1\nc,90\nb,88.1\n";
  scw_context *context = a_context();
  scw_table *table = table_from(context, text, NULL);
  scw_readings_result full;
  scw_brief_result brief;
  (void)state;
  went_well(context, scw_readings(context, table, NULL, NULL, 0, &full));
  brief_case c = {.text = text, .size = sizeof text - 1, .threads = 2};
  went_well(context, brief_of(context, c, &brief));
  assert_int_equal(brief.n_sets, full.n_sets);
  for (size_t i = 0; i < full.n_sets; i++) {
    const scw_summary *s = &full.sets[i].summary;
    assert_string_equal(brief.sets[i].label, full.sets[i].label);
    same_figure(brief.sets[i].mean, s->mean, 0);
    same_figure(brief.sets[i].sd, s->sd, 0);
    same_interval(brief.sets[i].interval, s->interval, 0);
  }
  scw_brief_result_free(&brief);
  scw_readings_result_free(&full);
  scw_table_free(table);
  scw_context_free(context);
}

static void shapes_of_every_kind(void **state) {
  (void)state;
  compare_text("87.4\n87.6\n88.1\n", ROUNDINGS);
  compare_text("# hull 3\n87.4 87.6 88.1\n87.9 - 87.5\n", ROUNDINGS);
  compare_text("gloss (GU)\n87,4\n87,6\n88,1\nMean 87,7\n", ROUNDINGS);
  compare_text("before,after\n87.4,90.1\n87.6,90.3\n88.1,\n", ROUNDINGS);
  compare_text("K1;K2;K3\n87,4;90,1;80\n87,6;90,3;81,5\n88,1;NA;>100\n",
               ROUNDINGS);
  compare_text("K1;K2;K3;K4\n;90,1;;\n87,6;>90;;\n88,1;91;81,5;\n", ROUNDINGS);
  compare_text("product,panel,state,reading\nK1,H1,before,87.4\n"
               "K1,H1,before,87.6\nK1,H1,after,90.1\nK2,H2,before,80\n"
               "K1,H2,after,91\nK1,H1,after,90.5\n", ROUNDINGS);
  compare_text("set,reading\na,87.4\n,87.6\nb,88\nb,88.2\na,87.1\n", ROUNDINGS);
  compare_text("\"set\",\"reading\"\r\n\"a\"\"x\",\"87.4\"\r\n\"b\",\"88\"\r\n",
               ROUNDINGS);
  compare_text("set,reading\na,87.4\nb,87.40\nb,87.4\n", ROUNDINGS);
  compare_text("set,reading\na,90\nb,80\nb,80\n", ROUNDINGS);
}

static void spots_are_the_unit(void **state) {
  (void)state;
  compare_text("spot,repeat,reading\n1,1,87.4\n1,2,87.6\n2,1,88\n2,2,88.2\n"
               "3,1,87.1\n", ROUNDINGS);
  compare_text("spot,before,after\n1,87.4,90.1\n2,87.6,90.3\n3,88.1,\n",
               ROUNDINGS);
  compare_text("track,direction,pull (g)\n1,out,310\n1,back,290\n2,out,300\n"
               "2,back,280\n3,out,320\n", ROUNDINGS);
  compare_text("spot,before 1,before 2,after 1,after 2\n1,87.4,87.6,90,90.1\n"
               "2,88,88.2,91.3,91\n", ROUNDINGS);
}

static void failures_are_the_same(void **state) {
  (void)state;
  compare_text("", ROUNDINGS);
  compare_text("set,reading\n", ROUNDINGS);
  compare_text("set,reading\na,-\n", ROUNDINGS);
  compare_text("set,reading\na,87.4\nb,eighty\n", ROUNDINGS);
  compare_text("geometry,reading\n60,87.4\n60,87.6\n20,50\n", ROUNDINGS);
  compare_text("set,reading\na,87.4\nb,1,5\n", ROUNDINGS);
  compare_text("PK\3\4 something\n", ROUNDINGS);
  compare_text("set,reading\na,1.234\nb,987\n", ROUNDINGS);
}

static void readings_without_a_common_tick(void **state) {
  (void)state;
  /* 20 digits: the whole analysis falls back to doubles as well */
  compare_text("set,reading\na,87.412345678901234567\na,87.6\na,88.1\nb,3\n"
               "b,5\n", 1e-13);
  compare_text("set,reading\na,1e300\na,3e300\na,2.5e300\nb,0.1\nb,0.2\n",
               1e-13);
  compare_text("set,reading\nb,0.1\nb,0.25\nb,0.2\na,1e300\na,3e300\n", 1e-13);
  compare_text("set,reading\na,1e-300\na,3e-300\na,1.5e-300\n", 1e-13);
  compare_text("set,reading\na,1e-5\na,3000000000000000\na,2e15\n", 1e-13);
  compare_text("set,reading\na,12e3\na,13e3\na,1.25e4\nb,0.00\nb,0.5\n",
               ROUNDINGS);
}

static unsigned draw(unsigned long long *random, unsigned below) {
  *random ^= *random << 13;
  *random ^= *random >> 7;
  *random ^= *random << 17;
  return (unsigned)(*random >> 33) % below;
}

/* One odd line of the kinds a long export may hold. */
static void add_odd_line(scwi_text *text, unsigned long long *random) {
  static const char *const lines[] = {
      "s1,-\n",        "s2,NA\n",       "# note, with commas\n", "\n",
      ",87.5\n",       " s3 , 87.1 \n", "s4,87.4*\n",            "s5,(87.9)\n",
      "s6,>100\n",     "Mean,87.4\n",   "SD,0.4\n",              "s7,87.25\n",
      "s8,\n",         "s9,8.74e1\n",   "s1,+87.3\n",            "s2,87.\n",
      "s3,\xE2\x88\x92" "1.5\n", "gl\xC3\xA4nzend,88.0\n", "s5,\"87.2\"\n",
      "\"s 6\",87\n",  "s1,88,\n",      "s4,1\xC2\xA0" "087.5\n", "s7\t,88\n",
      "s8,0087.4\n",   "s9,-87.4\n",    "s2,87.123456789012345678901\n"};
  enum { MOST = sizeof lines / sizeof *lines };
  /* the last has more digits than a tick can hold; kept for its own test */
  scwi_text_add(text, lines[draw(random, MOST - 1)]);
}

/* A long table; one line in `odd` is odd (0: none). */
static void make_table(scwi_text *text, unsigned long long seed,
                       size_t size, unsigned odd, const char *line_end) {
  unsigned long long random = seed;
  unsigned sets = 200 + draw(&random, 2000), shuffled = draw(&random, 2);
  scwi_text_add(text, "set,reading\n");
  for (unsigned i = 0; text->length < size; i++) {
    if (odd && draw(&random, odd) == 0) {
      add_odd_line(text, &random);
      continue;
    }
    unsigned set = shuffled ? draw(&random, sets) : i / 50 % sets;
    scwi_text_format(text, "s%u,%u.%u%s", set, 80 + draw(&random, 20),
                     draw(&random, 10), line_end);
  }
  assert_false(text->failed);
}

static void long_tables(void **state) {
  static const unsigned odd[] = {0, 2, 20, 5000};
  (void)state;
  for (unsigned i = 0; i < 8 * check_multiplier(); i++) {
    scwi_text text = {0};
    make_table(&text, 20260405 + i, 200000 + i % 3 * 900000, odd[i % 4],
               i % 5 == 4 ? "\r\n" : "\n");
    compare((brief_case){.text = text.data, .size = text.length}, ROUNDINGS);
    scwi_text_free(&text);
  }
}

/* A mistake late in a long file: the same message as the slow way gives, even
 * when another mistake follows. */
static void mistakes_in_long_tables(void **state) {
  static const char *const mistakes[] = {
      "s1,eighty\n", "set,reading\n", "s1,87,4\n", "s1,\"87.4\n",
      "s1,\xE4\xFF\n", "s1,inf\n",    "s1,1.234.5\n",  "x\ny\ns1,87.4\n", ",,remark\ns1,87.4\n",
      ",,remark\n",  "s1,87.4,9\n",   "s1,87.4,extra\n"};
  (void)state;
  for (size_t i = 0; i < sizeof mistakes / sizeof *mistakes; i++) {
    scwi_text text = {0};
    make_table(&text, 7 + i, 600000, i % 2 ? 300 : 0, "\n");
    scwi_text_add(&text, mistakes[i]);
    make_table(&text, 8 + i, text.length + 90000, 0, "\n"); /* a header again */
    compare((brief_case){.text = text.data, .size = text.length}, ROUNDINGS);
    char *end = strstr(text.data + 500000, mistakes[i]) + strlen(mistakes[i]);
    *end = 0;
    compare_text(text.data, ROUNDINGS);
    scwi_text_free(&text);
  }
}

/* Whole numbers only in the first 64 KiB, decimals later: the evidence for
 * the decimal mark comes while the quick way is already running. */
static void late_decimals(void **state) {
  static const char *const late[] = {"s1,87.4\n", "s1,1.234\n", "s1,\"1,5\"\n",
                                     "s1,87.4\ns1,1.234\n"};
  (void)state;
  for (size_t i = 0; i < 2 * sizeof late / sizeof *late; i++) {
    scwi_text text = {0};
    scwi_text_add(&text, "set,reading\n");
    for (unsigned k = 0; text.length < 300000; k++)
      scwi_text_format(&text, "s%u,%u\n", k % 9, i % 2 ? k % 90 : 90 + k % 90);
    scwi_text_add(&text, late[i / 2]);
    for (unsigned k = 0; k < 20000; k++)
      scwi_text_format(&text, "s%u,%u\n", k % 9, k % 400);
    compare((brief_case){.text = text.data, .size = text.length}, ROUNDINGS);
    scwi_text_free(&text);
  }
}

/* One reading with more digits than any tick holds, among many thousands. */
static void a_late_reading_without_tick(void **state) {
  (void)state;
  scwi_text text = {0};
  make_table(&text, 99, 500000, 0, "\n");
  scwi_text_add(&text, "s1,87.123456789012345678901\n");
  for (unsigned k = 0; k < 20000; k++)
    scwi_text_format(&text, "s%u,8%u.%u\n", k % 9, k % 10, k % 7);
  compare((brief_case){.text = text.data, .size = text.length}, 1e-13);
  scwi_text_free(&text);
}

static void decimals_of_all_lengths(void **state) {
  (void)state;
  scwi_text text = {0};
  scwi_text_add(&text, "panel;reading\n");
  for (unsigned k = 0; k < 60000; k++) {
    scwi_text_format(&text, "H%u;%s%u,", k % 31, k % 5 ? "" : "-", k % 1000);
    unsigned digits = 1 + k / 10000 * 2;
    for (unsigned d = 0; d < digits; d++)
      scwi_text_format(&text, "%u", (k * 7 + d * k) % 10);
    scwi_text_add(&text, "\n");
  }
  compare((brief_case){.text = text.data, .size = text.length}, ROUNDINGS);
  scwi_text_free(&text);
}

static void settings_and_options(void **state) {
  scwi_text text = {0};
  scw_settings settings;
  scw_table_options options = {.side = SCW_SIDE_BEFORE};
  (void)state;
  make_table(&text, 5, 400000, 40, "\n");
  scw_settings_init(&settings);
  settings.level = 0.8;
  settings.step = (scw_step){0.5, SCW_STEP_GIVEN};
  compare((brief_case){.text = text.data, .size = text.length,
                       .settings = &settings, .options = &options}, ROUNDINGS);
  scw_context *context = a_context();
  scw_brief_result brief;
  settings.level = 1.5;
  assert_int_equal(brief_of(context, (brief_case){.text = text.data, .size = 20,
                                                  .threads = 1,
                                                  .settings = &settings},
                            &brief), SCW_BAD_ARGUMENT);
  assert_null(brief.memory);
  scw_context_free(context);
  scwi_text_free(&text);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_whole_analysis_says_the_same),
      cmocka_unit_test(shapes_of_every_kind),
      cmocka_unit_test(spots_are_the_unit),
      cmocka_unit_test(failures_are_the_same),
      cmocka_unit_test(readings_without_a_common_tick),
      cmocka_unit_test(long_tables),
      cmocka_unit_test(mistakes_in_long_tables),
      cmocka_unit_test(late_decimals),
      cmocka_unit_test(a_late_reading_without_tick),
      cmocka_unit_test(decimals_of_all_lengths),
      cmocka_unit_test(settings_and_options),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
