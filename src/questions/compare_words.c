/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer of a comparison in words. */
#include "compare_inside.h"
#include "figure.h"
#include "words.h"

/* "K1, K2 and K3". */
typedef struct name_list {
  scwi_text text;
  size_t n, left;
} name_list;

static void add_name(name_list *list, const char *name) {
  if (list->n++) scwi_text_add(&list->text, list->left == 1 ? " and " : ", ");
  list->left--;
  scwi_text_add(&list->text, name);
}

typedef bool (*is_wanted)(const scw_product_comparison *comparison);

static bool is_above(const scw_product_comparison *c) {
  return c->interval.state == SCW_PRESENT && c->interval.low > 0;
}
static bool is_below(const scw_product_comparison *c) {
  return c->interval.state == SCW_PRESENT && c->interval.high < 0;
}
static bool is_alike(const scw_product_comparison *c) {
  return c->verdict == SCW_NO_CHANGE_BEYOND_MARGIN;
}
static bool is_open(const scw_product_comparison *c) {
  return c->verdict == SCW_CANNOT_TELL;
}
static bool is_unjudged(const scw_product_comparison *c) {
  return c->verdict == SCW_NO_VERDICT;
}

static size_t count(const scw_compare_result *out, is_wanted wanted) {
  size_t n = 0;
  for (size_t i = 0; i < out->n_comparisons; i++)
    n += wanted(&out->comparison[i]);
  return n;
}

/* "K1 and K3 are above it; " of those wanted. */
static void say_those(scwi_text *text, const scw_compare_result *out,
                      is_wanted wanted, const char *one, const char *many,
                      bool *any) {
  name_list list = {.left = count(out, wanted)};
  if (!list.left) return;
  for (size_t i = 0; i < out->n_comparisons; i++)
    if (wanted(&out->comparison[i]))
      add_name(&list, out->product[out->comparison[i].product].label);
  scwi_text_format(text, "%s%s %s", *any ? "; " : "",
                   list.text.data ? list.text.data : "",
                   list.n == 1 ? one : many);
  if (list.text.failed) text->failed = true;
  scwi_text_free(&list.text);
  *any = true;
}

static void say_against(scwi_text *text, const scw_compare_result *out) {
  bool any = false;
  scwi_text_format(text, "Against %s: ", out->product[out->control].label);
  say_those(text, out, is_above, "is higher", "are higher", &any);
  say_those(text, out, is_below, "is lower", "are lower", &any);
  say_those(text, out, is_alike, "does not differ by more than the margin",
            "do not differ by more than the margin", &any);
  say_those(text, out, is_open, "cannot be told apart from it",
            "cannot be told apart from it", &any);
  say_those(text, out, is_unjudged, "cannot be judged", "cannot be judged",
            &any);
  scwi_text_add(text, ".");
}

static void say_tied(scwi_text *text, const scw_compare_result *out,
                     size_t product) {
  const scw_compare_product *one = &out->product[product];
  name_list list = {.left = one->n_tied};
  if (!one->n_tied) {
    scwi_text_add(text, ", and is shown to differ from every other");
    return;
  }
  for (size_t i = 0; i < one->n_tied; i++)
    add_name(&list, out->product[one->tied[i]].label);
  scwi_text_format(text, ", and is tied with %s",
                   list.text.data ? list.text.data : "");
  if (list.text.failed) text->failed = true;
  scwi_text_free(&list.text);
}

static void say_pairs(scwi_text *text, const scw_compare_result *out) {
  size_t differ = count(out, is_above) + count(out, is_below);
  scwi_text_format(text, "Of %zu %s of products ", out->n_comparisons,
                   out->n_comparisons == 1 ? "pair" : "pairs");
  if (differ)
    scwi_text_format(text, "%zu %s shown to differ. ", differ,
                     differ == 1 ? "is" : "are");
  else
    scwi_text_add(text, "none is shown to differ. ");
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

scw_status scwi_compare_sentence(scw_context *context,
                                 const scwi_compare_run *run,
                                 scw_compare_result *out) {
  scwi_text text = {0};
  (void)run;
  if (out->control < out->n_products) {
    say_against(&text, out);
  } else {
    say_pairs(&text, out);
    say_best(&text, out);
  }
  return scwi_text_take(context, &text, &out->sentence);
}
