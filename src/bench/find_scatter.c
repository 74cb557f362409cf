/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one entry of the bank that fits the readings, or why none does. */
#include <string.h>

#include "scatter.h"
#include "text.h"

static bool is_said(const char *text) { return text && *text; }

/* Header words that name no quantity. */
static bool names_quantity(const char *quantity) {
  return is_said(quantity) && !scwi_same_words(quantity, "reading") &&
         !scwi_same_words(quantity, "value");
}

static bool right_type(const scw_bench_scatter *entry,
                       const scw_scatter_wanted *wanted) {
  return !is_said(wanted->panel_type) ||
         scwi_same_words(entry->panel_type, wanted->panel_type);
}

static bool fits(const scw_bench_scatter *entry,
                 const scw_scatter_wanted *wanted) {
  return right_type(entry, wanted) &&
         (!names_quantity(wanted->quantity) ||
          !names_quantity(entry->quantity) ||
          scwi_same_words(entry->quantity, wanted->quantity)) &&
         scwi_same_words(entry->unit, wanted->unit) &&
         scwi_same_words(entry->geometry, wanted->geometry) &&
         scwi_same_words(entry->meter, wanted->meter);
}

/* "gloss in GU at 60 degrees by meter M2", nothing left unsaid. */
static void say_kind(scwi_text *to, const char *quantity, const char *unit,
                     const char *geometry, const char *meter) {
  scwi_text_add(to, is_said(quantity) ? quantity : "readings");
  if (is_said(unit))
    scwi_text_format(to, " in %s", unit);
  else
    scwi_text_add(to, " without a unit");
  if (is_said(geometry))
    scwi_text_format(to, " at %s degrees", geometry);
  else
    scwi_text_add(to, ", no geometry named");
  if (is_said(meter))
    scwi_text_format(to, ", meter %s", meter);
  else
    scwi_text_add(to, ", no meter named");
}

/* The different panel types, each once. */
static size_t say_types(scwi_text *to, const scw_bench *bench) {
  size_t told = 0;
  for (size_t i = 0; i < bench->n_scatter; i++) {
    size_t j = 0;
    while (!scwi_same_words(bench->scatter[j].panel_type,
                            bench->scatter[i].panel_type))
      j++;
    if (j < i) continue;
    scwi_text_format(to, "%s%s", told++ ? ", " : "",
                     bench->scatter[i].panel_type);
  }
  return told;
}

static void say_entries(scwi_text *to, const scw_bench *bench,
                        const scw_scatter_wanted *wanted) {
  bool first = true;
  for (size_t i = 0; i < bench->n_scatter; i++) {
    const scw_bench_scatter *e = &bench->scatter[i];
    if (!right_type(e, wanted)) continue;
    scwi_text_add(to, first ? "" : "; ");
    if (e->line) scwi_text_format(to, "line %zu: ", e->line);
    say_kind(to, e->quantity, e->unit, e->geometry, e->meter);
    first = false;
  }
}

/* What would bring the two together, for what is most often left unsaid. */
static const char *advice(const scw_bench *bench,
                          const scw_scatter_wanted *wanted) {
  if (!is_said(wanted->unit))
    return "; name the unit in the header or with --unit";
  for (size_t i = 0; i < bench->n_scatter; i++) {
    const scw_bench_scatter *e = &bench->scatter[i];
    scw_scatter_wanted with = *wanted;
    if (!is_said(with.geometry)) with.geometry = e->geometry;
    if (fits(e, &with)) return "; name the angle with --geometry";
    if (!is_said(with.meter)) with.meter = e->meter;
    if (fits(e, &with)) return "; name the meter with --meter";
  }
  return "; scatter is not carried from one to the other";
}

static scw_status tell(scw_context *context, const scw_bench *bench,
                       scwi_text *text) {
  scw_status status = scwi_text_status(context, text);
  if (!status)
    status = scwi_fail_at(context, SCW_BAD_INPUT,
                          bench->name ? bench->name : "the bench", 0, 0, "%s",
                          text->data);
  scwi_text_free(text);
  return status;
}

static scw_status no_such_type(scw_context *context, const scw_bench *bench,
                               const scw_scatter_wanted *wanted) {
  scwi_text text = {0};
  if (bench->n_scatter == 0) {
    scwi_text_add(&text, "holds no scatter; pool some sets into it first");
    return tell(context, bench, &text);
  }
  scwi_text_format(&text, "no scatter of panel type %s; it has ",
                   wanted->panel_type);
  say_types(&text, bench);
  return tell(context, bench, &text);
}

static scw_status several_types(scw_context *context,
                                const scw_bench *bench) {
  scwi_text text = {0};
  scwi_text_add(&text, "several panel types (");
  say_types(&text, bench);
  scwi_text_add(&text, "); choose one with --panel-type");
  return tell(context, bench, &text);
}

static scw_status none_fits(scw_context *context, const scw_bench *bench,
                            const scw_scatter_wanted *wanted) {
  scwi_text text = {0};
  scwi_text_add(&text, "no scatter fits these readings. They are ");
  say_kind(&text, names_quantity(wanted->quantity) ? wanted->quantity : NULL,
           wanted->unit, wanted->geometry, wanted->meter);
  scwi_text_add(&text, "; the bench has (");
  say_entries(&text, bench, wanted);
  scwi_text_format(&text, ")%s", advice(bench, wanted));
  return tell(context, bench, &text);
}

static scw_status several_fit(scw_context *context, const scw_bench *bench,
                              const scw_scatter_wanted *wanted) {
  scwi_text text = {0};
  scwi_text_add(&text, "more than one scatter could be meant (");
  say_entries(&text, bench, wanted);
  scwi_text_add(&text, "); name the quantity in the header of the readings");
  return tell(context, bench, &text);
}

static size_t count_types(const scw_bench *bench) {
  scwi_text unused = {0};
  size_t types = say_types(&unused, bench);
  scwi_text_free(&unused);
  return types;
}

scw_status scw_bench_find_scatter(scw_context *context, const scw_bench *bench,
                                  const scw_scatter_wanted *wanted,
                                  const scw_bench_scatter **out) {
  size_t of_type = 0, fitting = 0;
  *out = NULL;
  for (size_t i = 0; i < bench->n_scatter; i++) {
    of_type += right_type(&bench->scatter[i], wanted);
    if (!fits(&bench->scatter[i], wanted)) continue;
    fitting++;
    *out = &bench->scatter[i];
  }
  if (of_type == 0) return no_such_type(context, bench, wanted);
  if (!is_said(wanted->panel_type) && count_types(bench) > 1) {
    *out = NULL;
    return several_types(context, bench);
  }
  if (fitting == 1) return SCW_OK;
  *out = NULL;
  return fitting ? several_fit(context, bench, wanted)
                 : none_fits(context, bench, wanted);
}
