/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer of a comparison in words. */
#include "compare_inside.h"
#include "figure.h"
#include "words.h"

/* "K1, K2 and K3"; of a long list "K1, K2 ... and 91 more". */
typedef struct name_list {
  scwi_text text;
  size_t n, left;
} name_list;

enum { MOST_SAID = 12 };

static void add_name(name_list *list, const char *name) {
  bool last = list->n + 1 == MOST_SAID && list->left > 1;
  if (list->n++ >= MOST_SAID) return;
  if (list->n > 1)
    scwi_text_add(&list->text, last || list->left == 1 ? " and " : ", ");
  if (last)
    scwi_text_format(&list->text, "%zu more", list->left);
  else
    scwi_text_add(&list->text, name);
  list->left--;
}

static void say_names(scwi_text *text, name_list *list) {
  scwi_text_add(text, list->text.data ? list->text.data : "");
  if (list->text.failed) text->failed = true;
  scwi_text_free(&list->text);
}

/* Those that one verdict, in one direction, is said of. */
typedef struct finding {
  scw_verdict verdict;
  int sign;               /* 0: either */
  const char *one, *many; /* what is said of one, and of several */
  const char *by;         /* followed by the margin, where there is one */
} finding;

static const finding findings[] = {
    {SCW_CHANGED, 1, " is higher", " are higher", " by more than your "},
    {SCW_CHANGED, -1, " is lower", " are lower", " by more than your "},
    {SCW_CHANGED_SIZE_UNCLEAR, 1, " is higher", " are higher",
     ", by less or more than your "},
    {SCW_CHANGED_SIZE_UNCLEAR, -1, " is lower", " are lower",
     ", by less or more than your "},
    {SCW_CHANGED_BUT_SMALL, 1, " is higher", " are higher",
     ", but by less than your "},
    {SCW_CHANGED_BUT_SMALL, -1, " is lower", " are lower",
     ", but by less than your "},
    {SCW_NO_CHANGE_BEYOND_MARGIN, 0, " does not differ", " do not differ",
     " by more than your "},
    {SCW_CANNOT_TELL, 0, " cannot be told apart from it",
     " cannot be told apart from it", NULL},
    {SCW_NO_VERDICT, 0, " cannot be judged", " cannot be judged", NULL}};
enum { N_FINDINGS = sizeof findings / sizeof *findings };

static bool is_it(const finding *f, const scw_product_comparison *c) {
  int sign = c->alone.estimate.value > 0 ? 1 : -1;
  return c->verdict == f->verdict && (!f->sign || f->sign == sign);
}

static size_t count(const scw_compare_result *out, const finding *f) {
  size_t n = 0;
  for (size_t i = 0; i < out->n_comparisons; i++)
    n += is_it(f, &out->comparison[i]);
  return n;
}

static size_t count_verdict(const scw_compare_result *out, scw_verdict v) {
  return count(out, &(finding){.verdict = v});
}

static void say_margin(scwi_text *text, const scw_compare_result *out,
                       const char *by) {
  if (!by || !(out->options.margin > 0)) return;
  scwi_text_add(text, by);
  scwi_say_given(text, out->options.margin, out->unit);
}

static void say_against(scwi_text *text, const scw_compare_result *out) {
  bool any = false;
  scwi_text_format(text, "%s against %s: ",
                   out->compared == SCW_COMPARED_CHANGES ? "Change" : "Mean",
                   out->product[out->control].label);
  for (size_t f = 0; f < N_FINDINGS; f++) {
    name_list list = {.left = count(out, &findings[f])};
    if (!list.left) continue;
    if (any) scwi_text_add(text, "; ");
    for (size_t i = 0; i < out->n_comparisons; i++)
      if (is_it(&findings[f], &out->comparison[i]))
        add_name(&list, out->product[out->comparison[i].product].label);
    size_t n = list.n;
    say_names(text, &list);
    scwi_text_add(text, n == 1 ? findings[f].one : findings[f].many);
    say_margin(text, out, findings[f].by);
    any = true;
  }
  scwi_text_add(text, ".");
}

static const char *is_or_are(size_t n) { return n == 1 ? "is" : "are"; }

static void say_pairs(scwi_text *text, const scw_compare_result *out) {
  size_t beyond = count_verdict(out, SCW_CHANGED);
  size_t small = count_verdict(out, SCW_CHANGED_BUT_SMALL);
  size_t alike = count_verdict(out, SCW_NO_CHANGE_BEYOND_MARGIN);
  size_t differ =
      beyond + small + count_verdict(out, SCW_CHANGED_SIZE_UNCLEAR);
  if (out->n_comparisons == 1)
    scwi_text_add(text, differ ? "The two are shown to differ"
                               : "The two are not shown to differ");
  else if (differ)
    scwi_text_format(text, "Of %zu pairs of products %zu %s shown to differ",
                     out->n_comparisons, differ, is_or_are(differ));
  else
    scwi_text_format(text, "Of %zu pairs of products none is shown to differ",
                     out->n_comparisons);
  if (differ && out->options.margin > 0) {
    scwi_text_format(text, ", %zu of them", beyond);
    say_margin(text, out, " by more than your ");
    if (small) scwi_text_format(text, ", %zu by less", small);
  }
  if (alike) {
    scwi_text_format(text, "; %zu %s shown not to", alike, is_or_are(alike));
    say_margin(text, out, " by more than your ");
  }
  scwi_text_add(text, ". ");
}

static void say_tied(scwi_text *text, const scw_compare_result *out,
                     size_t product) {
  const scw_compare_product *one = &out->product[product];
  name_list list = {.left = one->n_tied};
  if (!one->n_tied) {
    scwi_text_add(text, out->n_products == 2
                            ? ", and is shown to differ from the other"
                            : ", and is shown to differ from every other");
    return;
  }
  for (size_t i = 0; i < one->n_tied; i++)
    add_name(&list, out->product[one->tied[i]].label);
  scwi_text_add(text, ", and is tied with ");
  say_names(text, &list);
}

static void say_best(scwi_text *text, const scw_compare_result *out) {
  if (!scwi_present(out->best.over_second)) return;
  scwi_text_format(text, "%s has the %s %s",
                   out->product[out->best.product].label,
                   out->options.smaller_is_better ? "smallest" : "largest",
                   out->compared == SCW_COMPARED_CHANGES ? "change" : "mean");
  say_tied(text, out, out->best.product);
  scwi_text_add(text, ".");
}

static bool is_of_best(const scw_compare_result *out,
                       const scw_product_comparison *c) {
  return scwi_present(out->best.over_second) &&
         (c->product == out->best.product || c->against == out->best.product);
}

/* The open comparison that fewest readings would settle; one with the best
 * before any other. Null: none. */
static const scw_product_comparison *soonest(const scw_compare_result *out) {
  const scw_product_comparison *found = NULL;
  for (size_t i = 0; i < out->n_comparisons; i++) {
    const scw_product_comparison *c = &out->comparison[i];
    if (c->verdict != SCW_CANNOT_TELL || !scwi_present(c->settle.more))
      continue;
    bool first = !found || (is_of_best(out, c) && !is_of_best(out, found));
    bool rank = found && is_of_best(out, c) == is_of_best(out, found);
    if (first || (rank && c->settle.more.value < found->settle.more.value))
      found = c;
  }
  return found;
}

static void say_settle(scwi_text *text, const scw_compare_result *out) {
  const scw_product_comparison *c = soonest(out);
  if (c) {
    scwi_text_add(text, " About ");
    scwi_say_count(text, (size_t)c->settle.more.value,
                   c->settle.per_spot ? "more spot" : "more reading");
    scwi_text_format(text,
                     " on each would settle %s against %s, if the difference "
                     "really is this size.",
                     out->product[c->product].label,
                     out->product[c->against].label);
  } else if (count_verdict(out, SCW_CANNOT_TELL)) {
    scwi_text_format(text,
                     " No practical number of readings would settle what is "
                     "open: %simprove the design.",
                     out->options.margin > 0 ? "" : "set a margin or ");
  }
}

scw_status scwi_compare_sentence(scw_context *context,
                                 scw_compare_result *out) {
  scwi_text text = {0};
  if (out->control < out->n_products) {
    say_against(&text, out);
  } else {
    say_pairs(&text, out);
    say_best(&text, out);
  }
  say_settle(&text, out);
  return scwi_text_take(context, &text, &out->sentence);
}
