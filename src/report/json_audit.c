/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An audit as JSON, a claim at a time. */
#include "fields.h"
#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static void add_stated(scwi_json *to, const char *key, scw_stated number) {
  scwi_json_figure(to, key, number.has ? scwi_figure(number.value)
                                       : scwi_missing(SCW_NOT_COMPUTED));
}

static scwi_json *stated_of(const scw_claim_stated *s) {
  scwi_json *to = scwi_json_object();
  add_stated(to, "before", s->mean[0]);
  add_stated(to, "after", s->mean[1]);
  add_stated(to, "scatter_before", s->scatter[0]);
  add_stated(to, "scatter_after", s->scatter[1]);
  scwi_json_text(to, "scatter_is", s->standard_error ? "standard_error" : "sd");
  scwi_json_count(to, "n_before", s->n[0]);
  scwi_json_count(to, "n_after", s->n[1]);
  scwi_json_figure(to, "step_before", s->step[0]);
  scwi_json_figure(to, "step_after", s->step[1]);
  add_stated(to, "change", s->change);
  add_stated(to, "points", s->points);
  return to;
}

static scwi_json *recomputed_of(const scw_claim_recomputed *r) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "before", r->mean[0]);
  scwi_json_figure(to, "after", r->mean[1]);
  scwi_json_figure(to, "sd_before", r->sd[0]);
  scwi_json_figure(to, "sd_after", r->sd[1]);
  scwi_json_count(to, "n_before", r->n[0]);
  scwi_json_count(to, "n_after", r->n[1]);
  scwi_json_figure(to, "change", r->change);
  scwi_json_figure(to, "points", r->points);
  scwi_json_figure(to, "points_as_published", r->published);
  return to;
}

static scwi_json *settle_of(const scw_settle *settle) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "total", settle->total);
  scwi_json_figure(to, "more", settle->more);
  scwi_json_text(to, "per", scwi_settle_per(settle));
  scwi_json_number(to, "chance", settle->chance);
  return to;
}

static scwi_json *faults_of(const scw_claim *claim) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < claim->n_faults; i++)
    scwi_json_text(all, NULL, scw_fault_code(claim->faults[i]));
  return all;
}

static void add_texts(scwi_json *to, const scw_claim *claim) {
  const struct {
    const char *key, *text;
  } texts[] = {{"product", claim->product},     {"category", claim->category},
               {"date", claim->date},           {"rule", claim->rule},
               {"method", claim->method},       {"geometry", claim->geometry},
               {"unit", claim->unit},           {"panel", claim->panel[0]},
               {"panel_after", claim->panel[1]}, {"meter", claim->meter[0]},
               {"meter_after", claim->meter[1]}};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    scwi_json_text(to, texts[i].key, *texts[i].text ? texts[i].text : NULL);
}

static scwi_json *claim_of(const scw_claim *claim) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "id", claim->id);
  scwi_json_count(to, "line", claim->line);
  add_texts(to, claim);
  scwi_json_add(to, "stated", stated_of(&claim->stated));
  scwi_json_add(to, "recomputed", recomputed_of(&claim->recomputed));
  scwi_json_add(to, "faults", faults_of(claim));
  scwi_json_text(to, "design", scw_claim_design_code(claim->design));
  scwi_json_figure(to, "estimate", claim->change.estimate);
  scwi_json_figure(to, "standard_uncertainty",
                   claim->change.standard_uncertainty);
  scwi_json_figure(to, "df", claim->change.df);
  scwi_json_ends(to, "low", "high", claim->change.interval);
  scwi_json_figure(to, "p", claim->change.p);
  scwi_json_figure(to, "q_value", claim->q_value);
  scwi_json_figure(to, "p_holm", claim->p_holm);
  scwi_json_figure(to, "break_even_sd", claim->break_even_sd);
  scwi_json_figure(to, "break_even_baseline_u", claim->break_even_baseline_u);
  scwi_json_ends(to, "bench_sd_low", "bench_sd_high", claim->bank_sd);
  scwi_json_text(to, "verdict", scw_claim_verdict_code(claim->verdict));
  scwi_json_text(to, "sentence", claim->sentence);
  scwi_json_add(to, "settle", settle_of(&claim->settle));
  return to;
}

static void write_claims(scwi_stream *stream, const scw_audit *audit) {
  size_t n = scw_audit_summary_of(audit).claims;
  scwi_stream_text(stream, "\"claims\":[");
  for (size_t i = 0; i < n && !stream->status; i++) {
    scw_claim claim;
    stream->status = scw_audit_claim(stream->context, audit, i, &claim);
    if (stream->status) return;
    scwi_json_item(stream, i, claim_of(&claim));
    scw_claim_free(&claim);
  }
  scwi_stream_text(stream, "]");
}

static scwi_json *summary_of(const scw_audit *audit) {
  scw_audit_summary s = scw_audit_summary_of(audit);
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "sentence", scw_audit_sentence(audit));
  scwi_json_whole(to, "claims", s.claims);
  scwi_json_whole(to, "beyond", s.beyond);
  scwi_json_whole(to, "only_if", s.only_if);
  scwi_json_whole(to, "within", s.within);
  scwi_json_whole(to, "not_judged", s.not_judged);
  scwi_json_whole(to, "figures_disagree", s.figures_disagree);
  scwi_json_whole(to, "with_faults", s.with_faults);
  scwi_json_whole(to, "judged", s.judged);
  scwi_json_whole(to, "alone_beyond", s.alone);
  scwi_json_figure(to, "expected_by_chance", s.expected_by_chance);
  return to;
}

/* The id of a claim, which is worked out for it. */
static void add_id(scwi_stream *stream, const scw_audit *audit, size_t index,
                   scwi_json *to) {
  scw_claim claim;
  if (stream->status) return;
  stream->status = scw_audit_claim(stream->context, audit, index, &claim);
  if (stream->status) return;
  scwi_json_text(to, "id", claim.id);
  scw_claim_free(&claim);
}

static void write_ranks(scwi_stream *stream, const scw_audit *audit) {
  const scw_audit_rank *rank;
  size_t n = scw_audit_ranks(audit, &rank);
  scwi_stream_text(stream, ",\n\"ranks\":[");
  for (size_t i = 0; i < n && !stream->status; i++) {
    scwi_json *to = scwi_json_object();
    add_id(stream, audit, rank[i].claim, to);
    scwi_json_whole(to, "group", rank[i].group);
    scwi_json_whole(to, "low", rank[i].low);
    scwi_json_whole(to, "high", rank[i].high);
    scwi_json_whole(to, "of", rank[i].of);
    scwi_json_item(stream, i, to);
  }
  scwi_stream_text(stream, "]");
}

static void write_baselines(scwi_stream *stream, const scw_audit *audit) {
  const scw_audit_baseline *of;
  size_t n = scw_audit_baselines(audit, &of);
  scwi_stream_text(stream, ",\n\"baselines\":[");
  for (size_t i = 0; i < n && !stream->status; i++) {
    scwi_json *to = scwi_json_object();
    scwi_json_text(to, "panel", *of[i].panel ? of[i].panel : NULL);
    scwi_json_text(to, "meter", *of[i].meter ? of[i].meter : NULL);
    scwi_json_text(to, "method", *of[i].method ? of[i].method : NULL);
    scwi_json_whole(to, "claims", of[i].claims);
    scwi_json_text(to, "first", of[i].first);
    scwi_json_text(to, "last", of[i].last);
    scwi_json_figure(to, "per_year", of[i].per_year.estimate);
    scwi_json_ends(to, "low", "high", of[i].per_year.interval);
    scwi_json_figure(to, "p", of[i].per_year.p);
    scwi_json_item(stream, i, to);
  }
  scwi_stream_text(stream, "]");
}

static void write_work(scwi_stream *stream, const scw_audit *audit) {
  const scw_audit_work *work;
  size_t n = scw_audit_work_list(audit, &work);
  scwi_stream_text(stream, ",\n\"remeasure\":[");
  for (size_t i = 0; i < n && !stream->status; i++) {
    scwi_json *to = scwi_json_object();
    add_id(stream, audit, work[i].claim, to);
    scwi_json_figure(to, "total", work[i].settle.total);
    scwi_json_figure(to, "more", work[i].settle.more);
    scwi_json_text(to, "per", scwi_settle_per(&work[i].settle));
    scwi_json_item(stream, i, to);
  }
  scwi_stream_text(stream, "]");
}

static void write_differences(scwi_stream *stream, const scw_audit *audit) {
  const scw_audit_difference *of;
  size_t n = scw_audit_differences(audit, &of);
  scwi_stream_text(stream, ",\n\"changed\":[");
  for (size_t i = 0; i < n && !stream->status; i++) {
    scwi_json *to = scwi_json_object();
    scwi_json_text(to, "id", of[i].id);
    scwi_json_text(to, "was", *of[i].was ? of[i].was : NULL);
    scwi_json_text(to, "is", *of[i].is ? of[i].is : NULL);
    scwi_json_text(to, "why", of[i].why);
    scwi_json_item(stream, i, to);
  }
  scwi_stream_text(stream, "]");
}

scw_status scwi_json_audit(scw_context *context, const scw_audit *audit,
                           const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  const scw_note *notes;
  size_t n = scw_audit_notes(audit, &notes);
  scwi_json_begin(&stream, "audit", inputs,
                  scwi_json_settings(scw_audit_settings(audit)));
  scwi_stream_text(&stream, "\"summary\":");
  scwi_stream_json(&stream, summary_of(audit));
  scwi_stream_text(&stream, ",\n");
  write_claims(&stream, audit);
  write_ranks(&stream, audit);
  write_baselines(&stream, audit);
  write_work(&stream, audit);
  write_differences(&stream, audit);
  scwi_json_end(&stream, notes, n);
  return stream.status;
}
