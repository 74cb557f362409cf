/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The advice as a sentence. */
#include "anytime.h"
#include "figure.h"
#include "take_inside.h"
#include "words.h"

static const char *verdict_words(const scw_take *take, scw_verdict verdict) {
  switch (verdict) {
    case SCW_CHANGED:
      return take->options.margin > 0 ? "it changed by more than the margin"
                                      : "it changed";
    case SCW_CHANGED_SIZE_UNCLEAR: return "it changed, the size is unclear";
    case SCW_CHANGED_BUT_SMALL: return "it changed by less than the margin";
    case SCW_NO_CHANGE_BEYOND_MARGIN: return "no change beyond the margin";
    default: return "cannot tell yet";
  }
}

/* What is counted: readings, spots, or spot pairs. */
static const char *thing(const scw_take_state *state) {
  return state->paired ? "spot pair" : state->by_spot ? "spot" : "reading";
}

static void say_half_width(scwi_text *text, const scw_take *take,
                           const scw_take_state *state) {
  scwi_text_add(text, "\xC2\xB1");
  scwi_say_given(text, take->options.half_width, state->unit);
}

static void say_interval(scwi_text *text, const scw_take_state *state,
                         scw_interval interval) {
  scwi_say_interval(text, interval, (interval.high - interval.low) / 4,
                    state->unit);
}

/* "The 95 % interval of the change is 0.3 to 1.1 GU". */
static void say_result(scwi_text *text, const scw_take *take,
                       const scw_take_state *state, scw_interval interval,
                       const char *how) {
  if (interval.state != SCW_PRESENT) {
    scwi_text_format(text, "No interval can be given: %s.",
                     scw_presence_text(interval.state));
    return;
  }
  scwi_text_add(text, "The ");
  scwi_say_percent(text, interval.level);
  scwi_text_format(text, " interval of the %s%s is ",
                   state->change ? "change" : "mean", how);
  say_interval(text, state, interval);
  if (state->change)
    scwi_text_format(text, ": %s", verdict_words(take, state->verdict));
  scwi_text_add(text, ".");
}

static void plan(scwi_text *text, const scw_take *take,
                 const scw_take_state *state) {
  size_t planned = take->options.readings;
  if (state->n < planned) {
    scwi_text_format(text, "Go on: %zu of the %zu planned ", state->n, planned);
    scwi_text_format(text, "%ss, %zu to go.", thing(state), planned - state->n);
    return;
  }
  scwi_text_format(text, "Stop: the %zu planned %ss are in", planned,
                   thing(state));
  if (state->n > planned)
    scwi_text_format(text, ", and %zu more", state->n - planned);
  scwi_text_add(text, ". ");
  say_result(text, take, state, state->interval, "");
}

static void top_up(scwi_text *text, const scw_take *take,
                   const scw_take_state *state) {
  size_t first = take->options.readings;
  scw_figure total = state->top_up_total;
  if (state->n < first) {
    scwi_text_format(text,
                     "Go on: %zu of the first %zu %ss, which will say how many "
                     "are needed.",
                     state->n, first, thing(state));
    return;
  }
  if (state->advice == SCW_ADVICE_STOP) {
    scwi_text_format(text, "Stop: %zu %ss, as the scatter of the first %zu "
                           "asked for. ",
                     state->n, thing(state), first);
    say_result(text, take, state, state->top_up, ", with that scatter,");
    return;
  }
  if (!scwi_present(total)) {
    scwi_text_add(text, "Stop: by the scatter of the first readings more than "
                        "a million would be needed for ");
    say_half_width(text, take, state);
    scwi_text_add(text, ".");
    return;
  }
  scwi_text_format(text, "Go on: by the scatter of the first %zu, %zu %ss give ",
                   first, (size_t)total.value, thing(state));
  say_half_width(text, take, state);
  scwi_text_format(text, "; %zu to go.", (size_t)total.value - state->n);
}

/* The fewest values for which there is an interval that holds at every look. */
static size_t first_bounded(const scw_take_state *state) {
  double level = state->settings.level;
  if (state->change && !state->paired) level = (1 + level) / 2;
  size_t n = 2;
  while (n < 1000 && !scwi_present(scwi_anytime_factor(n, level, state->g)))
    n++;
  return n;
}

static void anytime(scwi_text *text, const scw_take *take,
                    const scw_take_state *state) {
  scw_interval now = state->anytime;
  if (state->advice == SCW_ADVICE_STOP) {
    scwi_text_add(text, "Stop: what you asked for is reached. ");
    say_result(text, take, state, now, ", good at every look,");
    return;
  }
  scwi_text_add(text, "Go on: ");
  if (now.state != SCW_PRESENT) {
    size_t n = first_bounded(state);
    if (state->n >= n)
      scwi_text_format(text, "no interval holds at every look yet: %s.",
                       scw_presence_text(now.state));
    else
      scwi_text_format(text, "an interval that holds at every look begins at "
                             "%zu %ss.",
                       n, thing(state));
    return;
  }
  if (take->options.half_width > 0) {
    scwi_text_add(text, "\xC2\xB1");
    scwi_say_digits(text, (now.high - now.low) / 2, 2, state->unit);
    scwi_text_add(text, " at every look so far, ");
    say_half_width(text, take, state);
    scwi_text_add(text, " asked for.");
  } else {
    scwi_text_format(text, "%s.", verdict_words(take, state->verdict));
  }
}

/* The display alone is wider than what was asked for. */
static void never(scwi_text *text, const scw_take *take, double rounding,
                  const scw_take_state *state) {
  scwi_text_add(text, "Stop: no number of readings gives ");
  say_half_width(text, take, state);
  scwi_text_add(text, ", since the display moves in steps of ");
  scwi_say_given(text, state->step.size, state->unit);
  if (rounding >= take->options.half_width) {
    scwi_text_add(text, ", which alone leave \xC2\xB1");
    scwi_say_given(text, rounding, state->unit);
  }
  scwi_text_add(text, ".");
}

static void no_more(scwi_text *text, const scw_take *take,
                    const scw_take_state *state) {
  scwi_text_format(text, "Stop: every spot of the %s has been read, and what "
                         "you asked for is not reached. ",
                   take->n_places ? "list" : "baseline");
  say_result(text, take, state,
             state->rule == SCW_TAKE_ANYTIME ? state->anytime : state->interval,
             "");
}

scw_status scwi_take_sentence(scw_context *context, const scw_take *take,
                              double rounding, scw_take_state *state) {
  scwi_text text = {0};
  bool floor = state->advice == SCW_ADVICE_NEVER &&
               !(state->rule == SCW_TAKE_TOP_UP &&
                 state->top_up_total.state == SCW_TOO_MANY);
  if (floor)
    never(&text, take, rounding, state);
  else if (state->advice == SCW_ADVICE_NO_MORE)
    no_more(&text, take, state);
  else if (state->rule == SCW_TAKE_PLAN)
    plan(&text, take, state);
  else if (state->rule == SCW_TAKE_TOP_UP)
    top_up(&text, take, state);
  else if (state->rule == SCW_TAKE_ANYTIME)
    anytime(&text, take, state);
  return scwi_text_take(context, &text, &state->sentence);
}
