/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the interval of `change --bench` holds: instruments_coverage [SETS
 * [SEED]]. Coefficients of friction of 0.30 before and 0.30 + change after; the
 * gauge's zero, its span and the block are wrong by draws of what the bench
 * says of them, one draw for both sides where they are shared, else two. The
 * span is known from five weighings: its estimate and its standard uncertainty
 * (df 4) are drawn anew for every set. Pulls scatter by 8 g; pairs share 6 g of
 * that by track. Prints the shares of 95 % intervals that hold the true change,
 * with the instruments and by the scatter alone. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw.h"
#include "scatterwise/scatterwise.h"

enum { MOST = 20, ZERO = 1, SPAN = 2 };
static const double zero_half_width = 6, span_u = 0.03, block_u = 3;

static const char bench_text[] =
    "{\"version\": 1, \"inputs\": [{\"name\": \"pull\", \"kind\": "
    "\"readings\", \"readings\": [1, 2]}, {\"name\": \"zero\", \"kind\": "
    "\"rectangular\", \"value\": 0, \"half_width\": 6}, {\"name\": \"span\", "
    "\"kind\": \"t\", \"value\": 1, \"uncertainty\": 0.03, \"df\": 4}, "
    "{\"name\": \"block\", \"kind\": \"normal\", \"value\": 500, "
    "\"uncertainty\": 3}], \"quantities\": [{\"name\": \"friction\", \"unit\": "
    "\"1\", \"measures\": \"friction\", \"model\": \"(pull - zero) * span / "
    "block\"}], \"scatter\": []}";

typedef struct layout {
  bool paired, shared;
  size_t n;
  double change;
} layout;

/* What the gauge and the block really are on one side. */
typedef struct truth {
  double zero, span, block;
} truth;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "instruments_coverage: %s\n", scw_context_message(context));
  exit(1);
}

typedef struct place {
  const char *at;
} place;

static int read_text(void *user, char *to, size_t size, size_t *got) {
  place *from = user;
  size_t left = strlen(from->at);
  *got = left < size ? left : size;
  memcpy(to, from->at, *got);
  from->at += *got;
  return 0;
}

static scw_source source_of(place *from) {
  return (scw_source){.name = "shed.csv", .read = read_text, .user = from};
}

/* The instruments of a side are wrong by a draw. The span on record, 1, is off
 * from the real one by an error whose size is known from four df only. */
static truth draw_truth(draw *random) {
  return (truth){zero_half_width * (2 * draw_uniform(random) - 1),
                 1 + span_u * draw_normal(random),
                 500 + block_u * draw_normal(random)};
}

static double draw_sd(draw *random, int df) {
  double squares = 0;
  for (int i = 0; i < df; i++) {
    double z = draw_normal(random);
    squares += z * z;
  }
  return sqrt(squares / df);
}

static void write_table(draw *random, layout of, const truth real[2],
                        char *out) {
  double friction[2] = {0.3, 0.3 + of.change};
  out += sprintf(out, of.paired ? "spot,pull before (g),pull after (g)\n"
                                : "pull before (g),pull after (g)\n");
  for (size_t i = 0; i < of.n; i++) {
    double track = of.paired ? 6 * draw_normal(random) : 0, shown[2];
    double rest = of.paired ? sqrt(8. * 8 - 6 * 6) : 8;
    for (int side = 0; side < 2; side++)
      shown[side] = friction[side] * real[side].block / real[side].span +
                    real[side].zero + track + rest * draw_normal(random);
    if (of.paired) out += sprintf(out, "%zu,", i);
    out += sprintf(out, "%.1f,%.1f\n", shown[0], shown[1]);
  }
}

typedef struct held {
  long both, scatter;
  double width;
} held;

static bool holds(const scw_estimate *e, double change) {
  return e->interval.state == SCW_PRESENT && e->interval.low <= change &&
         change <= e->interval.high;
}

static void one_set(scw_context *context, draw *random, scw_bench *bench,
                    layout of, held *to) {
  char text[MOST * 40 + 100];
  truth real[2] = {draw_truth(random), draw_truth(random)};
  if (of.shared) real[1] = real[0];
  for (size_t i = ZERO; i < bench->n_inputs; i++)
    bench->input[i].shared = of.shared ? SCW_SHARED : SCW_NOT_SHARED;
  bench->input[SPAN].given.uncertainty = span_u * draw_sd(random, 4);
  write_table(random, of, real, text);
  place from = {text};
  scw_table *table;
  scw_change_result result;
  scw_settings settings;
  scw_settings_init(&settings);
  settings.step.origin = SCW_STEP_GIVEN;
  const scw_change_options options = {.instruments = bench};
  must(context, scw_table_read(context, NULL, source_of(&from), &table));
  must(context, scw_change(context, table, &settings, &options, &result));
  const scw_change_report *found = &result.changes[0];
  to->both += holds(&found->change, of.change);
  to->scatter += holds(&found->instruments.scatter, of.change);
  /* equal differences leave no interval; they count as not held */
  if (found->change.interval.state == SCW_PRESENT)
    to->width += found->change.interval.high - found->change.interval.low;
  scw_change_result_free(&result);
  scw_table_free(table);
}

int main(int argc, char **argv) {
  static const size_t sizes[] = {3, 5, 10};
  static const double changes[] = {0, -0.1};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 20000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20261125};
  place from = {bench_text};
  scw_context *context;
  scw_bench bench;
  if (scw_context_new(&context) != SCW_OK) return 1;
  must(context, scw_bench_read(context, source_of(&from), &bench));
  printf("design,shared,n,change,with_instruments,scatter_alone,width\n");
  for (int d = 0; d < 4; d++)
    for (size_t k = 0; k < 3; k++)
      for (size_t c = 0; c < 2; c++) {
        layout of = {d & 1, d & 2, sizes[k], changes[c]};
        held h = {0};
        for (long s = 0; s < sets; s++)
          one_set(context, &random, &bench, of, &h);
        double all = (double)sets;
        printf("%s,%s,%zu,%g,%.4f,%.4f,%.4f\n",
               of.paired ? "paired" : "unpaired", of.shared ? "yes" : "no",
               of.n, of.change, (double)h.both / all, (double)h.scatter / all,
               h.width / all);
        fflush(stdout);
      }
  scw_bench_free(&bench);
  scw_context_free(context);
  return 0;
}
