/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines with error in both and limits of agreement for the judges, see
 * figures_filter.h. */
#include "agreement.h"
#include "errors_in_both.h"
#include "figures_filter.h"

static double end(scw_interval interval, double value) {
  return interval.state == SCW_PRESENT ? value : NAN;
}

/* line RATIO WEIGHTED LEVEL n x... n y... */
static void line(scw_context *context, char *rest) {
  static readings x, y;
  scwi_deming found;
  scw_interval slope;
  scwi_jackknife jackknife;
  scwi_pairs pairs = {.ratio = take_number(&rest)};
  pairs.weighted = take_count(&rest) > 0;
  double level = take_number(&rest);
  take_readings(&rest, &x);
  take_readings(&rest, &y);
  pairs.n = x.sample.n;
  pairs.x = x.x;
  pairs.y = y.x;
  must(context, scwi_deming_of(context, &pairs, &found));
  must(context, scwi_deming_slope_interval(context, &pairs, &found, level,
                                           &slope));
  must(context, scwi_deming_jackknife(context, &pairs, &found, &jackknife));
  bool held = found.state == SCW_PRESENT, shaken = jackknife.state == SCW_PRESENT;
  double values[] = {held ? found.slope : NAN,
                     held ? found.intercept : NAN,
                     held ? found.scatter : NAN,
                     held ? found.slope_u : NAN,
                     end(slope, slope.low),
                     end(slope, slope.high),
                     shaken ? jackknife.slope : NAN,
                     shaken ? jackknife.slope_u : NAN,
                     shaken ? jackknife.intercept : NAN,
                     shaken ? jackknife.intercept_u : NAN,
                     held ? found.mean_x : NAN,
                     held ? scwi_deming_scatter_at(&found, &pairs, x.x[0]) : NAN};
  say(values, sizeof values / sizeof *values);
}

static scwi_repeats take_repeats(char **rest) {
  scwi_repeats repeats = {.sd = take_number(rest)};
  repeats.df = take_number(rest);
  repeats.one_over = take_number(rest);
  return repeats;
}

/* limits n BIAS SD  SD DF ONE_OVER  SD DF ONE_OVER  CONTENT LEVEL */
static void limits(scw_context *context, char *rest) {
  scwi_agreement_given given = {.n = take_count(&rest)};
  scwi_agreement found;
  given.bias = take_number(&rest);
  given.sd = take_number(&rest);
  given.of_old = take_repeats(&rest);
  given.of_new = take_repeats(&rest);
  given.content = take_number(&rest);
  given.level = take_number(&rest);
  must(context, scwi_agreement_of(context, &given, &found));
  double values[] = {shown(found.sd),         shown(found.df),
                     shown(found.low),        shown(found.high),
                     found.low_interval.low,  found.low_interval.high,
                     found.high_interval.low, found.high_interval.high};
  say(values, 8);
}

/* items BIAS SD CONTENT LEVEL MARGIN */
static void items(scw_context *context, char *rest) {
  double bias = take_number(&rest), sd = take_number(&rest);
  double content = take_number(&rest), level = take_number(&rest);
  scw_figure n;
  must(context, scwi_agreement_items(context, bias, sd, content, level,
                                     take_number(&rest), &n));
  double value = shown(n);
  say(&value, 1);
}

/* trend LEVEL n mean... n difference... */
static void trend(scw_context *context, char *rest) {
  static readings m, d;
  scw_estimate found;
  double level = take_number(&rest);
  take_readings(&rest, &m);
  take_readings(&rest, &d);
  must(context, scwi_difference_trend(context, m.x, d.x, m.sample.n, level,
                                      &found, NULL));
  say_estimate(&found);
}

/* assured SD DF ASSURANCE */
static void assured(scw_context *context, char *rest) {
  double sd = take_number(&rest), df = take_number(&rest), out;
  must(context, scwi_sd_assured(context, sd, df, take_number(&rest), &out));
  say(&out, 1);
}

int main(void) {
  static const verb verbs[] = {{"line", line},
                               {"limits", limits},
                               {"items", items},
                               {"trend", trend},
                               {"assured", assured}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
