/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter bank: entries put in and found, and the words where none fits. */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "scatterwise/bench.h"

static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) == SCW_OK ? 0 : -1;
}

static int free_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static const scw_bench_scatter hull60 = {.panel_type = "hull white",
                                         .quantity = "gloss",
                                         .unit = "GU",
                                         .geometry = "60",
                                         .sd = 0.6,
                                         .df = 80,
                                         .sets = 20,
                                         .date = "2026-03-14"};

static void put(scw_bench *bench, scw_bench_scatter entry) {
  if (scw_bench_put_scatter(context, bench, &entry) != SCW_OK)
    fail_msg("%s", scw_context_message(context));
}

/* hull white at 60, at 20, and at 60 by meter M2; transom pulls. */
static scw_bench some_bench(void) {
  scw_bench bench = {0};
  scw_bench_scatter entry = hull60;
  put(&bench, entry);
  entry.geometry = "20";
  put(&bench, entry);
  entry.geometry = "60";
  entry.meter = "M2";
  put(&bench, entry);
  put(&bench, (scw_bench_scatter){.panel_type = "transom",
                                  .quantity = "pull",
                                  .unit = "g",
                                  .sd = 12,
                                  .df = 40,
                                  .sets = 10,
                                  .date = "2026-03-15"});
  assert_int_equal(bench.n_scatter, 4);
  return bench;
}

static void put_in_place_of(void **state) {
  scw_bench bench = some_bench();
  scw_bench_scatter entry = hull60;
  (void)state;
  entry.panel_type = "Hull White"; /* the same words */
  entry.sd = 0.7;
  put(&bench, entry);
  assert_int_equal(bench.n_scatter, 4);
  assert_true(bench.scatter[0].sd == 0.7);
  assert_string_equal(bench.scatter[0].panel_type, "Hull White");
  assert_true(bench.scatter[1].sd == 0.6); /* the others are kept */
  put(&bench, bench.scatter[2]); /* its own texts */
  assert_string_equal(bench.scatter[2].meter, "M2");
  scw_bench_free(&bench);
}

static void not_put(void **state) {
  static const struct {
    const char *key;
    scw_bench_scatter entry;
  } wrong[] = {
      {"panel_type", {.panel_type = "", .quantity = "gloss", .unit = "GU"}},
      {"quantity", {.panel_type = "p", .unit = "GU"}},
      {"unit", {.panel_type = "p", .quantity = "gloss"}},
      {"date", {.panel_type = "p", .quantity = "gloss", .unit = "GU"}},
      {"geometry", {.panel_type = "p", .quantity = "gloss", .unit = "GU",
                    .geometry = "60 "}}};
  scw_bench bench = {0};
  (void)state;
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    assert_int_equal(scw_bench_put_scatter(context, &bench, &wrong[i].entry),
                     SCW_BAD_ARGUMENT);
    assert_non_null(strstr(scw_context_message(context), wrong[i].key));
  }
  const double bad[] = {0, -1, NAN, INFINITY};
  for (size_t i = 0; i < 4; i++) {
    scw_bench_scatter entry = hull60;
    entry.sd = bad[i];
    assert_int_equal(scw_bench_put_scatter(context, &bench, &entry),
                     SCW_BAD_ARGUMENT);
    entry = hull60;
    entry.df = bad[i];
    assert_int_equal(scw_bench_put_scatter(context, &bench, &entry),
                     SCW_BAD_ARGUMENT);
  }
  scw_bench_scatter entry = hull60;
  entry.sets = 0;
  assert_int_equal(scw_bench_put_scatter(context, &bench, &entry),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(bench.n_scatter, 0);
  scw_bench_free(&bench);
}

typedef struct search {
  scw_scatter_wanted wanted;
  int place;         /* in some_bench; -1: none */
  const char *words; /* then */
} search;

static const search searches[] = {
    {{"hull white", "gloss", "GU", "60", NULL}, 0, NULL},
    {{"HULL WHITE", "Gloss", "gu", "60", ""}, 0, NULL},
    {{"hull white", "reading", "GU", "20", NULL}, 1, NULL},
    {{"hull white", NULL, "GU", "60", "m2"}, 2, NULL},
    {{"transom", "pull", "g", NULL, NULL}, 3, NULL},
    {{NULL, "gloss", "GU", "60", NULL}, -1,
     "several panel types (hull white, transom); choose one"},
    {{"keel", "gloss", "GU", "60", NULL}, -1,
     "no scatter of panel type keel; it has hull white, transom"},
    {{"hull white", "gloss", "GU", "85", NULL}, -1,
     "They are gloss in GU at 85 degrees, no meter named; the bench has (gloss "
     "in GU at 60 degrees, no meter named; gloss in GU at 20 degrees, no meter "
     "named; gloss in GU at 60 degrees, meter M2); scatter is not carried"},
    {{"hull white", "gloss", "GU", "60", "M3"}, -1, "meter M3"},
    {{"hull white", "gloss", "GU", NULL, NULL}, -1,
     "no geometry named, no meter named; the bench has"},
    {{"hull white", "gloss", "GU", NULL, NULL}, -1, "--geometry"},
    {{"hull white", "gloss", NULL, "60", NULL}, -1, "--unit"},
    {{"hull white", "haze", "GU", "60", NULL}, -1, "They are haze in GU"},
    {{"transom", "pull", "kg", NULL, NULL}, -1, "They are pull in kg"},
    {{"transom", "pull", "g", "60", NULL}, -1, "at 60 degrees"},
};

static void found(void **state) {
  scw_bench bench = some_bench();
  (void)state;
  for (size_t i = 0; i < sizeof searches / sizeof *searches; i++) {
    const search *s = &searches[i];
    const scw_bench_scatter *entry = &hull60;
    scw_status status =
        scw_bench_find_scatter(context, &bench, &s->wanted, &entry);
    const char *message = scw_context_message(context);
    if (s->place >= 0) {
      if (status != SCW_OK) fail_msg("case %zu: %s", i, message);
      assert_ptr_equal(entry, &bench.scatter[s->place]);
      continue;
    }
    assert_int_equal(status, SCW_BAD_INPUT);
    assert_null(entry);
    if (!strstr(message, s->words))
      fail_msg("case %zu: '%s' does not say '%s'", i, message, s->words);
  }
  scw_bench_free(&bench);
}

static void little_said(void **state) {
  scw_bench bench = {0};
  const scw_bench_scatter *entry;
  scw_scatter_wanted wanted = {.unit = "GU", .geometry = "60"};
  (void)state;
  assert_int_equal(scw_bench_find_scatter(context, &bench, &wanted, &entry),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "holds no scatter"));
  put(&bench, hull60); /* one panel type need not be named */
  assert_int_equal(scw_bench_find_scatter(context, &bench, &wanted, &entry),
                   SCW_OK);
  scw_bench_scatter haze = hull60;
  haze.quantity = "haze";
  put(&bench, haze);
  assert_int_equal(scw_bench_find_scatter(context, &bench, &wanted, &entry),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "name the quantity"));
  scw_bench with_meter = {0};
  scw_bench_scatter m2 = hull60;
  m2.meter = "M2";
  put(&with_meter, m2);
  assert_int_equal(
      scw_bench_find_scatter(context, &with_meter, &wanted, &entry),
      SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "--meter"));
  scw_bench unnamed = {0};
  scw_bench_scatter readings = hull60;
  readings.quantity = "reading"; /* pooled from a list without a header */
  put(&unnamed, readings);
  wanted.quantity = "gloss";
  assert_int_equal(scw_bench_find_scatter(context, &unnamed, &wanted, &entry),
                   SCW_OK);
  scw_bench_free(&unnamed);
  scw_bench_free(&bench);
  scw_bench_free(&with_meter);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(put_in_place_of), cmocka_unit_test(not_put),
      cmocka_unit_test(found), cmocka_unit_test(little_said)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
