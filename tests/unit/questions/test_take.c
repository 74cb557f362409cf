/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live taking: what is accepted and kept, in which order, what it counts as, and
 * what the rules advise. */
#include <math.h>
#include <string.h>

#include "from_text.h"

enum { ROOM = 8192 };

/* What was kept, and whether the next thing is refused. */
typedef struct file {
  char text[ROOM];
  size_t size, writes;
  bool full;
} file;

static int keep(void *user, const char *data, size_t size) {
  file *f = user;
  if (f->full) return 1;
  assert_true(size < ROOM - f->size);
  memcpy(f->text + f->size, data, size);
  f->size += size;
  f->text[f->size] = 0;
  f->writes++;
  return 0;
}

typedef struct bench {
  scw_context *context;
  scw_take *take;
  file file;
  scw_take_state state;
} bench;

static void begin(bench *b, const scw_take_options *options,
                  const char *baseline) {
  static const scw_take_options none;
  memset(b, 0, sizeof *b);
  b->context = a_context();
  scw_table *table = baseline ? table_from(b->context, baseline, NULL) : NULL;
  went_well(b->context,
            scw_take_open(b->context, options ? options : &none, NULL, table,
                          (scw_sink){keep, &b->file}, &b->take));
  scw_table_free(table);
}

static void end(bench *b) {
  scw_take_state_free(&b->state);
  scw_take_close(b->take);
  scw_context_free(b->context);
}

static const scw_take_state *look(bench *b) {
  scw_take_state_free(&b->state);
  went_well(b->context, scw_take_state_of(b->context, b->take, &b->state));
  return &b->state;
}

static void take(bench *b, const char *spot, const char *reading) {
  went_well(b->context,
            scw_take_reading(b->context, b->take, spot, reading, NULL));
}

static void take_all(bench *b, const char *const *readings, size_t n) {
  for (size_t i = 0; i < n; i++) take(b, NULL, readings[i]);
}

/* Refused, in words that hold `why`; nothing is kept or counted. */
static void refused(bench *b, scw_status status, const char *why) {
  assert_int_equal(status, SCW_BAD_ARGUMENT);
  message_names(b->context, why, NULL);
}

static void kept_as_typed(void **state) {
  bench b;
  (void)state;
  begin(&b, &(scw_take_options){.unit = "GU", .quantity = "gloss"}, NULL);
  take(&b, NULL, "87.40");
  take(&b, NULL, "(87.9)");
  take(&b, NULL, "88,0*");
  take(&b, NULL, "\xE2\x88\x92" "1,234"); /* after a comma no longer unclear */
  went_well(b.context, scw_take_undo(b.context, b.take, 0, "a \"slip\", =1"));
  went_well(b.context, scw_take_note(b.context, b.take, "lamp, \"on\""));
  assert_string_equal(b.file.text,
                      "order,gloss (GU),replaces,takes back,note\n"
                      "1,87.40,,,\n2,(87.9),,,\n3,88.0*,,,\n4,-1.234,,,\n"
                      ",,,4,\"a \"\"slip\"\", =1\"\n# note: lamp, \"on\"\n");
  assert_int_equal(b.file.writes, 6); /* each thing in one piece */
  const scw_take_state *s = look(&b);
  assert_int_equal(s->readings, 3);
  assert_int_equal(s->taken_back, 1);
  assert_int_equal(s->last, 3);
  assert_string_equal(s->last_reading, "88.0*");
  check_relative(s->mean.value, (87.4 + 88.0 + 87.9) / 3, 1e-15);
  check_absolute(s->step.size, 0.1, 1e-15);
  end(&b);
}

static void what_is_no_reading(void **state) {
  static const struct {
    const char *text, *why;
  } bad[] = {{"shiny", "is not a reading"}, {"", "is not a reading"},
             {"NA", "is not a reading"},    {"inf", "is not a reading"},
             {">100", "beyond the scale"},  {"1,234", "thousands"},
             {"1.234.567", "thousands"},    {"1e999", "too large"}};
  bench b;
  (void)state;
  begin(&b, NULL, NULL);
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
    refused(&b, scw_take_reading(b.context, b.take, NULL, bad[i].text, NULL),
            bad[i].why);
  refused(&b, scw_take_undo(b.context, b.take, 0, "why"), "no reading yet");
  refused(&b, scw_take_again(b.context, b.take, NULL, "1.5", "why"),
          "no reading yet");
  take(&b, NULL, "1.5");
  refused(&b, scw_take_undo(b.context, b.take, 0, " "), "needs a reason");
  refused(&b, scw_take_undo(b.context, b.take, 7, "why"), "no reading 7");
  refused(&b, scw_take_mark(b.context, b.take, 0, NULL), "needs a reason");
  refused(&b, scw_take_again(b.context, b.take, "2", "1.5", "why"),
          "has not been read yet");
  refused(&b, scw_take_reading(b.context, b.take, "A", "1.5", NULL),
          "named no spot");
  refused(&b, scw_take_note(b.context, b.take, "two\nlines"), "cannot be kept");
  went_well(b.context, scw_take_undo(b.context, b.take, 1, "why"));
  refused(&b, scw_take_undo(b.context, b.take, 1, "why"), "no reading yet");
  take(&b, NULL, "1.6");
  refused(&b, scw_take_undo(b.context, b.take, 1, "why"), "taken back already");
  assert_int_equal(b.file.writes, 3);
  assert_int_equal(look(&b)->readings, 1);
  end(&b);
}

static void not_kept_is_not_counted(void **state) {
  bench b;
  (void)state;
  begin(&b, NULL, NULL);
  b.file.full = true;
  assert_int_equal(scw_take_reading(b.context, b.take, "A", "1.5", NULL),
                   SCW_NOT_WRITTEN);
  message_names(b.context, "reading 1 (1.5 at spot A) was NOT kept", NULL);
  b.file.full = false;
  take(&b, NULL, "2.5"); /* what failed has not decided about spots */
  b.file.full = true;
  assert_int_equal(scw_take_undo(b.context, b.take, 0, "x"), SCW_NOT_WRITTEN);
  assert_int_equal(scw_take_mark(b.context, b.take, 0, "x"), SCW_NOT_WRITTEN);
  assert_int_equal(scw_take_note(b.context, b.take, "x"), SCW_NOT_WRITTEN);
  const scw_take_state *s = look(&b);
  assert_int_equal(s->readings, 1);
  assert_string_equal(s->last_reading, "2.5");
  assert_false(s->by_spot);
  end(&b);
}

static const char before[] = "spot,panel,gloss 60 (GU)\nA,H1,80.0\nB,H1,81.0\n"
                             "C,H1,79.5\nD,H1,80.5\n";

/* The baseline's panel, unit, quantity and geometry go into the file. */
static void follows_the_baseline(void **state) {
  bench b;
  (void)state;
  begin(&b, NULL, before);
  assert_string_equal(look(&b)->next_spot, "A");
  assert_int_equal(b.state.spots_left, 4);
  take(&b, "C", "81.6");
  take(&b, NULL, "82.1"); /* A comes first in the baseline */
  take(&b, "X", "70.0");
  const scw_take_state *s = look(&b);
  assert_true(s->change && s->paired && s->by_spot);
  assert_int_equal(s->n, 2);
  check_relative(s->mean.value, 2.1, 1e-14); /* (2.1 + 2.1) / 2 */
  check_absolute(s->sd.value, 0, 0);
  assert_string_equal(s->next_spot, "B");
  assert_int_equal(s->spots_left, 2);
  assert_int_equal(s->last_change.state, SCW_NOT_COMPUTED);
  assert_non_null(
      strstr(note_text(s->notes, s->n_notes, "not_read_before"), "spot X"));
  assert_string_equal(b.file.text,
                      "order,panel,geometry,spot,gloss (GU),replaces,takes "
                      "back,note\n1,H1,60,C,81.6,,,\n2,H1,60,A,82.1,,,\n"
                      "3,H1,60,X,70.0,,,\n");
  end(&b);
}

/* The first reading counts, whatever comes in its place. */
static void read_again(void **state) {
  bench b;
  (void)state;
  begin(&b, NULL, before);
  take(&b, "A", "82.0");
  take(&b, "B", "83.1");
  went_well(b.context, scw_take_again(b.context, b.take, "A", "89.0", "dust"));
  went_well(b.context, scw_take_again(b.context, b.take, NULL, "90.0", "dust"));
  check_relative(look(&b)->mean.value, 2.05, 1e-14);
  assert_int_equal(b.state.read_again, 2);
  refused(&b, scw_take_undo(b.context, b.take, 1, "why"),
          "take that one back first");
  went_well(b.context, scw_take_undo(b.context, b.take, 4, "why"));
  went_well(b.context, scw_take_undo(b.context, b.take, 3, "why"));
  went_well(b.context, scw_take_undo(b.context, b.take, 1, "why"));
  take(&b, NULL, "82.2"); /* A again, and this time for good */
  check_relative(look(&b)->mean.value, 2.15, 1e-14);
  assert_non_null(strstr(b.file.text, "3,H1,60,A,89.0,1,,dust\n"));
  assert_non_null(strstr(b.file.text, "4,H1,60,A,90.0,1,,dust\n"));
  end(&b);
}

/* A spot read twice counts once, by its mean. */
static void spot_means(void **state) {
  bench b;
  (void)state;
  begin(&b, NULL, NULL);
  take(&b, "A", "82.0");
  take(&b, "A", "83.0");
  take(&b, "B", "84.0");
  const scw_take_state *s = look(&b);
  assert_int_equal(s->readings, 3);
  assert_int_equal(s->n, 2);
  check_relative(s->mean.value, 83.25, 1e-15);
  refused(&b, scw_take_reading(b.context, b.take, NULL, "1.5", NULL),
          "which spot?");
  end(&b);
}

static void fixed_plan(void **state) {
  bench b;
  (void)state;
  begin(&b, &(scw_take_options){.rule = SCW_TAKE_PLAN, .readings = 2}, NULL);
  take(&b, NULL, "1.5");
  assert_int_equal(look(&b)->advice, SCW_ADVICE_GO_ON);
  assert_false(b.state.stop);
  take(&b, NULL, "1.7");
  assert_int_equal(look(&b)->advice, SCW_ADVICE_STOP);
  assert_true(b.state.stop);
  assert_non_null(strstr(b.state.sentence, "Stop: the 2 planned readings"));
  end(&b);
}

/* s of 1, 3, 5 is 2; t(p, 2) = (2 p - 1)/sqrt(2 p (1 - p)), 4.3027 at 0.975:
 * half-width 3 needs (4.3027 * 2 / 3)^2 = 8.2, so 9, and keeps s and 2 df. */
static void top_up(void **state) {
  static const char *const readings[] = {"1", "3", "5", "9", "3",
                                         "3", "3", "3", "3"};
  bench b;
  (void)state;
  begin(&b,
        &(scw_take_options){.rule = SCW_TAKE_TOP_UP, .readings = 3,
                            .half_width = 3},
        NULL);
  take_all(&b, readings, 2);
  assert_int_equal(look(&b)->top_up_total.state, SCW_TOO_FEW);
  take_all(&b, readings + 2, 2);
  check_absolute(look(&b)->top_up_total.value, 9, 0);
  assert_int_equal(b.state.advice, SCW_ADVICE_GO_ON);
  assert_non_null(strstr(b.state.sentence, "5 to go"));
  take_all(&b, readings + 4, 5);
  assert_int_equal(look(&b)->advice, SCW_ADVICE_STOP);
  double half = 0.95 / sqrt(2 * 0.975 * 0.025) * 2 / 3;
  check_relative(b.state.top_up.high, 33.0 / 9 + half, 1e-14);
  check_relative(b.state.top_up.low, 33.0 / 9 - half, 1e-13);
  end(&b);
}

/* Five differences of +2 with little scatter exclude no change. */
static void until_a_change(void **state) {
  static const char baseline[] = "spot,reading\n1,10.0\n2,11.0\n3,12.0\n"
                                 "4,13.0\n5,14.0\n6,15.0\n";
  static const char *const after[] = {"12.0", "13.1", "13.9", "15.0", "16.1"};
  bench b;
  (void)state;
  begin(&b, &(scw_take_options){.rule = SCW_TAKE_ANYTIME}, baseline);
  take_all(&b, after, 4);
  assert_int_equal(look(&b)->anytime.state, SCW_UNBOUNDED);
  assert_int_equal(b.state.advice, SCW_ADVICE_GO_ON);
  assert_non_null(strstr(b.state.sentence, "begins at 5 spot pairs"));
  take(&b, NULL, after[4]);
  assert_int_equal(look(&b)->verdict, SCW_CHANGED);
  assert_int_equal(b.state.advice, SCW_ADVICE_STOP);
  assert_true(b.state.e_value.value >= 20);
  check_relative(b.state.last_change.value, 2.1, 1e-15);
  end(&b);
}

/* All spots read, and the margin is not reached. */
/* The kept file would be read again as spot C, which is another. */
static void blanks_about_a_spot(void **state) {
  static const char *const spots[] = {"\xC2\xA0""C", "C\xC2\xA0", " C", "C ",
                                      "\xE2\x80\x89""C"};
  bench b;
  (void)state;
  begin(&b, &(scw_take_options){.readings = 0}, NULL);
  for (size_t i = 0; i < sizeof spots / sizeof *spots; i++)
    refused(&b, scw_take_reading(b.context, b.take, spots[i], "8", NULL),
            "a blank stands before or behind");
  take(&b, "C", "8");
  assert_int_equal(look(&b)->readings, 1);
  end(&b);
}

static void no_more_spots(void **state) {
  static const char *const after[] = {"80.1", "81.9", "79.4", "82.5"};
  bench b;
  (void)state;
  begin(&b, &(scw_take_options){.rule = SCW_TAKE_ANYTIME, .margin = 0.5},
        before);
  take_all(&b, after, 4);
  assert_int_equal(look(&b)->advice, SCW_ADVICE_NO_MORE);
  assert_true(b.state.stop);
  assert_string_equal(b.state.next_spot, "");
  end(&b);
}

static void never(void **state) {
  bench b;
  scw_settings settings;
  (void)state;
  begin(&b, NULL, NULL);
  scw_take_close(b.take);
  scw_settings_init(&settings);
  settings.step = (scw_step){1, SCW_STEP_GIVEN};
  went_well(b.context,
            scw_take_open(b.context,
                          &(scw_take_options){.rule = SCW_TAKE_ANYTIME,
                                              .half_width = 0.5},
                          &settings, NULL, (scw_sink){keep, &b.file}, &b.take));
  take(&b, NULL, "1");
  assert_int_equal(look(&b)->advice, SCW_ADVICE_NEVER);
  end(&b);
}

/* A reading far from the others, and readings that creep. */
static void warnings(void **state) {
  static const char *const one_apart[] = {"87.4", "87.5", "87.3", "87.6",
                                          "87.4", "87.5", "80.1"};
  static const char *const creep[] = {"87.0", "87.2", "87.3", "87.6", "87.7"};
  bench b;
  (void)state;
  begin(&b, NULL, NULL);
  take_all(&b, one_apart, 7);
  look(&b);
  const char *text = note_text(b.state.notes, b.state.n_notes, "stands_out");
  assert_non_null(text);
  assert_non_null(strstr(text, "Reading 7, 80.1, stands out"));
  went_well(b.context, scw_take_undo(b.context, b.take, 0, "tilted"));
  look(&b);
  assert_null(note_text(b.state.notes, b.state.n_notes, "stands_out"));
  assert_null(note_text(b.state.notes, b.state.n_notes, "creep"));
  end(&b);
  begin(&b, &(scw_take_options){.quantity = "pull", .unit = "g"}, NULL);
  take_all(&b, creep, 5);
  look(&b);
  assert_non_null(note_text(b.state.notes, b.state.n_notes, "creep"));
  assert_non_null(
      note_text(b.state.notes, b.state.n_notes, "friction_caution"));
  end(&b);
}

/* The template of plan --spots: both states, two halves, a place twice. */
static void a_list_of_spots(void **state) {
  static const char text[] =
      "order,code,state,treatment,spot,repeat,x (mm),y (mm),reading (GU)\n"
      "1,QA,before,treated,1,1,10,20,\n2,QB,before,control,1,1,90,20,\n"
      "3,QA,after,treated,1,1,10,20,\n4,QA,after,treated,1,2,10,20,\n"
      "5,QC,after,treated,2,1,\"30,5\",20,\n6,QB,after,control,1,1,90,20,\n";
  scw_spot_list list;
  text_place place = {text};
  bench b;
  (void)state;
  scw_context *context = a_context();
  went_well(context,
            scw_spot_list_read(context, source_of_text(&place), &list));
  assert_int_equal(list.n, 6);
  assert_string_equal(list.length_unit, "mm");
  assert_string_equal(list.place[1].product, "control");
  assert_int_equal(list.place[0].side, SCW_SIDE_BEFORE);
  check_absolute(list.place[4].x, 30.5, 0);
  scw_take *take_none = NULL;
  assert_int_equal(scw_take_open(context, &(scw_take_options){.spots = &list},
                                 NULL, NULL, (scw_sink){keep, &b.file},
                                 &take_none),
                   SCW_BAD_ARGUMENT);
  message_names(context, "several products", NULL);
  begin(&b, &(scw_take_options){.spots = &list, .product = "treated"},
        "product,spot,reading\ntreated,1,80\ntreated,2,81\n");
  scw_spot_list_free(&list);
  scw_context_free(context);
  assert_int_equal(look(&b)->spots_left, 3);
  take(&b, NULL, "82.5");
  assert_string_equal(look(&b)->next_spot, "1"); /* read twice */
  take(&b, NULL, "82.7");
  take(&b, NULL, "83.0");
  assert_int_equal(look(&b)->spots_left, 0);
  assert_non_null(strstr(b.file.text, "order,product,spot,x (mm),y (mm),"));
  assert_non_null(strstr(b.file.text, "3,treated,2,30.5,20,83.0,,,\n"));
  end(&b);
}

/* Whatever was kept comes back as the same state. */
static void resumed(void **state) {
  bench b, again;
  size_t whole;
  (void)state;
  begin(&b, NULL, before);
  take(&b, "A", "82.0");
  take(&b, "B", "83,1*");
  went_well(b.context, scw_take_again(b.context, b.take, "A", "82.4", "dust"));
  went_well(b.context, scw_take_mark(b.context, b.take, 1, "dull"));
  went_well(b.context, scw_take_undo(b.context, b.take, 2, "-slip"));
  went_well(b.context, scw_take_note(b.context, b.take, "lamp"));
  went_well(b.context, scw_take_followed(b.context, b.take, "C", "81.0",
                                         "meter, 1.txt", 12));
  begin(&again, NULL, before);
  strcpy(again.file.text, b.file.text);
  strcat(again.file.text, "6,H1,60,D");
  text_place place = {again.file.text};
  went_well(again.context, scw_take_resume(again.context, again.take,
                                           source_of_text(&place), &whole));
  assert_int_equal(whole, b.file.size);
  assert_int_equal(again.file.writes, 0);
  look(&b);
  look(&again);
  assert_true(b.state.mean.value == again.state.mean.value);
  assert_true(b.state.interval.high == again.state.interval.high);
  assert_int_equal(again.state.readings, 3);
  assert_int_equal(again.state.taken_back, 1);
  assert_int_equal(again.state.read_again, 1);
  assert_string_equal(again.state.next_spot, "B");
  assert_int_equal(scw_take_followed_line(again.take, "meter, 1.txt"), 12);
  assert_int_equal(scw_take_followed_line(again.take, "meter"), 0);
  assert_int_equal(scw_take_resume(again.context, again.take,
                                   source_of_text(&place), &whole),
                   SCW_BAD_ARGUMENT);
  end(&b);
  end(&again);
}

static void options_that_do_not_fit(void **state) {
  static const struct {
    scw_take_options options;
    const char *baseline, *why;
  } bad[] = {
      {{.rule = SCW_TAKE_PLAN}, NULL, "number of readings"},
      {{.rule = SCW_TAKE_TOP_UP, .readings = 1, .half_width = 1}, NULL,
       "at least 2"},
      {{.rule = SCW_TAKE_TOP_UP, .readings = 3}, NULL, "half-width"},
      {{.rule = SCW_TAKE_ANYTIME}, NULL, "how narrow"},
      {{.margin = 1}, NULL, "a margin is for a change"},
      {{.half_width = -1}, NULL, "larger than 0"},
      {{.g = NAN}, NULL, "larger than 0"},
      {{.quantity = "shine"}, NULL, "header of readings"},
      {{.unit = "G\nU"}, NULL, "header of readings"},
      {{.unit = " "}, NULL, "header of readings"},
      {{.meter = "=1"}, NULL, "cannot stand in the file"},
      {{.panel = "H2"}, before, "of one panel"},
      {{.unit = "mm"}, before, "baseline is in GU"},
      {{.geometry = "20"}, before, "of one geometry"},
      {{0}, "panel,reading\nH1,1\nH2,2\n", "more than one panel"},
      {{0}, "spot,reading\n1,1.5\n1,1.7\n", "one spot only"},
      {{0}, "state,reading\nafter,1.5\nafter,1.7\n", "no readings taken before"},
  };
  (void)state;
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
    scw_context *context = a_context();
    scw_table *table =
        bad[i].baseline ? table_from(context, bad[i].baseline, NULL) : NULL;
    scw_take *none = NULL;
    file f;
    if (scw_take_open(context, &bad[i].options, NULL, table,
                      (scw_sink){keep, &f}, &none) == SCW_OK)
      fail_msg("accepted, though %s", bad[i].why);
    assert_null(none);
    message_names(context, bad[i].why, NULL);
    scw_table_free(table);
    scw_context_free(context);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(kept_as_typed),
      cmocka_unit_test(what_is_no_reading),
      cmocka_unit_test(not_kept_is_not_counted),
      cmocka_unit_test(follows_the_baseline),
      cmocka_unit_test(read_again),
      cmocka_unit_test(spot_means),
      cmocka_unit_test(fixed_plan),
      cmocka_unit_test(top_up),
      cmocka_unit_test(until_a_change),
      cmocka_unit_test(blanks_about_a_spot),
      cmocka_unit_test(no_more_spots),
      cmocka_unit_test(never),
      cmocka_unit_test(warnings),
      cmocka_unit_test(a_list_of_spots),
      cmocka_unit_test(resumed),
      cmocka_unit_test(options_that_do_not_fit)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
