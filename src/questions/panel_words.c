/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_words.h"

#include <string.h>

#include "figure.h"
#include "words.h"

const char *scwi_panel_plural(const char *level) {
  static const struct {
    const char *one, *many;
  } words[] = {{"panel", "panels"},       {"set", "sets"},
               {"session", "sessions"},   {"spot", "spots"},
               {"repeat", "repeats"},     {"reading", "readings"},
               {"operator", "operators"}, {"interaction", "operators by spots"}};
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (!strcmp(words[i].one, level)) return words[i].many;
  return level;
}

static bool told(const scw_panel_component *component) {
  return component->figures.state == SCW_PRESENT &&
         scwi_present(component->figures.share);
}

static size_t count_told(const scw_panel_part *part) {
  size_t n = 0;
  for (size_t i = 0; i < part->n_components; i++)
    n += told(&part->component[i]);
  return n;
}

/* The component with the largest share. */
static size_t largest(const scw_panel_part *part) {
  size_t best = part->n_components;
  for (size_t i = 0; i < part->n_components; i++)
    if (told(&part->component[i]) &&
        (best == part->n_components ||
         part->component[i].figures.share.value >
             part->component[best].figures.share.value))
      best = i;
  return best;
}

/* How much of the standard uncertainty of the mean is left with twice as many
 * of a component; 1 where it is not told. */
static double left(const scw_panel_part *part, size_t i) {
  scw_figure u = part->mean.standard_uncertainty;
  scw_figure twice = part->component[i].twice;
  return scwi_present(u) && scwi_present(twice) && u.value > 0
             ? twice.value / u.value
             : 1;
}

/* Doubling everything leaves 0.71 of it; doubling a level that leaves less
 * than this is nearly as good, one that leaves more than that hardly helps. */
#define WORTH_IT 0.75
#define HARDLY 0.95

size_t scwi_panel_leading(const scw_panel_part *part) {
  size_t best = part->n_components;
  for (size_t i = 0; i < part->n_components; i++)
    if (left(part, i) <= WORTH_IT) best = i; /* the lowest that is enough */
  if (best < part->n_components) return best;
  for (size_t i = 0; i < part->n_components; i++)
    if (left(part, i) < HARDLY &&
        (best == part->n_components || left(part, i) < left(part, best)))
      best = i;
  return best;
}

/* "more spots, not more repeats, make the mean surer". */
static void say_advice(scwi_text *text, const scw_panel_part *part) {
  size_t lead = scwi_panel_leading(part), lower = part->n_components;
  if (lead == part->n_components) return;
  bool crossed = part->design == SCW_PANEL_CROSSED;
  for (size_t i = crossed ? 0 : lead + 1; i < part->n_components; i++)
    if (i != lead && left(part, i) < 1 && lower == part->n_components)
      lower = i;
  const char *word = scwi_panel_plural(part->component[lead].level);
  if (lower == part->n_components)
    scwi_text_format(text, lead ? ": more %s are enough to make the mean surer"
                                : ": more %s make the mean surer",
                     word);
  else if (left(part, lower) > HARDLY)
    scwi_text_format(text, ": more %s, not more %s, make the mean surer", word,
                     scwi_panel_plural(part->component[lower].level));
  else
    scwi_text_format(text,
                     ": more %s make the mean surest, more %s help a little",
                     word, scwi_panel_plural(part->component[lower].level));
}

static void say_share(scwi_text *text, const scw_panel_component *component) {
  double share = component->figures.share.value;
  scwi_text_add(text, scwi_panel_plural(component->level));
  if (share > 0 && share < 0.005)
    scwi_text_add(text, " less than 1 %");
  else if (share > 0.995 && share < 1)
    scwi_text_add(text, " more than 99 %");
  else
    scwi_text_format(text, " %d %%", (int)(100 * share + 0.5));
}

/* "Spots carry 97 % of the variance of a reading, repeats 3 %". */
static void say_shares(scwi_text *text, const scw_panel_part *part) {
  size_t lead = largest(part), start = text->length;
  const scw_panel_component *most = &part->component[lead];
  double share = most->figures.share.value;
  const char *word = scwi_panel_plural(most->level);
  scwi_text_add(text, word);
  scwi_text_add(text, " carry ");
  if (share > 0.995 && share < 1)
    scwi_text_add(text, "more than 99 %");
  else
    scwi_text_format(text, "%d %%", (int)(100 * share + 0.5));
  scwi_text_add(text, " of the variance of a reading");
  if (!text->failed) text->data[start] = (char)(word[0] - 'a' + 'A');
  for (size_t i = 0; i < part->n_components; i++) {
    if (i == lead || !told(&part->component[i])) continue;
    scwi_text_add(text, ", ");
    say_share(text, &part->component[i]);
  }
}

static void say_one_level(scwi_text *text, const scwi_panel_frame *frame,
                          const scw_panel_part *part) {
  const scw_panel_component *only = &part->component[largest(part)];
  double sd = only->figures.sd.value;
  scwi_text_format(text, "The %zu %s scatter by ", only->figures.groups,
                   scwi_panel_plural(only->level));
  scwi_say_digits(text, sd, 2, frame->facts->unit);
  scwi_text_add(text, " (SD");
  if (only->figures.interval.state == SCW_PRESENT) {
    scwi_text_add(text, ", ");
    scwi_say_percent(text, only->figures.interval.level);
    scwi_text_add(text, " interval ");
    scwi_say_interval(text, only->figures.interval, sd, frame->facts->unit);
  }
  scwi_text_add(text, ")");
}

/* What neighbours that resemble each other make of it: nothing for this panel,
 * whose patches were sampled; much for panels like it (docs/methods/place.md). */
static void say_neighbours(scwi_text *text, const scwi_panel_frame *frame,
                           const scw_panel_part *part) {
  const scw_estimate *mean = &part->neighbours_mean;
  if (!part->neighbours) return;
  scwi_text_add(text, ". Neighbouring spots resemble each other: for panels "
                      "like this one that interval is too narrow");
  if (mean->interval.state != SCW_PRESENT ||
      !scwi_present(mean->standard_uncertainty))
    return;
  scwi_text_add(text, "; with them it is ");
  scwi_say_interval(text, mean->interval, mean->standard_uncertainty.value,
                    frame->facts->unit);
}

static void say_where(scwi_text *text, const scwi_panel_units *units,
                      const scw_panel_part *part) {
  if (part->panels > 1)
    scwi_text_format(text, ", over %zu %s", part->panels,
                     scwi_panel_plural(part->component[0].level));
  else if (part->spots == 1 && part->design == SCW_PANEL_NESTED)
    scwi_text_add(text, ", at this one spot");
  else if (part->design == SCW_PANEL_NESTED || units->spots)
    scwi_text_add(text, ", on this panel, this application");
}

/* " The mean is 84.62 GU (95 % interval 84.31 to 84.93 GU), on this panel". */
static void say_mean(scwi_text *text, const scwi_panel_frame *frame,
                     const scwi_panel_units *units,
                     const scw_panel_part *part) {
  const scw_estimate *mean = &part->mean;
  scw_figure u = mean->standard_uncertainty;
  if (!scwi_present(mean->estimate)) return;
  scwi_text_add(text, " The mean is ");
  scwi_say_value(text, mean->estimate.value, scwi_present(u) ? u.value : 0,
                 frame->facts->unit);
  if (mean->interval.state == SCW_PRESENT && scwi_present(u)) {
    scwi_text_add(text, " (");
    scwi_say_percent(text, mean->interval.level);
    scwi_text_add(text, " interval ");
    scwi_say_interval(text, mean->interval, u.value, frame->facts->unit);
    scwi_text_add(text, ")");
  } else {
    scwi_text_format(text, "; no interval: %s.",
                     scw_presence_text(mean->interval.state));
    return;
  }
  say_where(text, units, part);
  say_neighbours(text, frame, part);
  scwi_text_add(text, ".");
}

static void say_precision(scwi_text *text, const scwi_panel_frame *frame,
                          const scw_precision *found) {
  if (!scwi_present(found->r_limit) || !scwi_present(found->R_limit)) return;
  scwi_text_add(text, " Two single readings seldom (");
  scwi_say_percent(text, 1 - found->level);
  scwi_text_add(text, ") differ by more than ");
  scwi_say_digits(text, found->r_limit.value, 2, frame->facts->unit);
  scwi_text_add(text, " by one operator, or ");
  scwi_say_digits(text, found->R_limit.value, 2, frame->facts->unit);
  scwi_text_add(text, " by two.");
}

scw_status scwi_panel_sentence(scw_context *context,
                               const scwi_panel_frame *frame,
                               const scwi_panel_units *units,
                               scw_panel_part *part) {
  scwi_text text = {0};
  size_t n = count_told(part);
  if (part->readings == 1)
    scwi_text_add(&text, "One reading has no scatter.");
  else if (n == 0)
    scwi_text_format(&text, "All %zu readings are the same.", part->readings);
  else if (n == 1)
    say_one_level(&text, frame, part);
  else
    say_shares(&text, part);
  if (n > 1) say_advice(&text, part);
  if (n > 0) scwi_text_add(&text, ".");
  if (part->design == SCW_PANEL_PRECISION)
    say_precision(&text, frame, part->precision);
  say_mean(&text, frame, units, part);
  return scwi_text_take(context, &text, &part->sentence);
}

scw_status scwi_panel_words(scw_context *context, const scwi_panel_frame *frame,
                            const scwi_panel_units *units,
                            scw_panel_part *part) {
  scwi_notes notes = {0};
  scw_status status = scwi_panel_sentence(context, frame, units, part);
  if (!status) status = scwi_panel_notes(context, frame, units, part, &notes);
  part->notes = notes.note;
  part->n_notes = notes.n;
  return status;
}
