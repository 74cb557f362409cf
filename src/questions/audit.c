/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 5: which published scores rest on changes that sit inside the
 * noise? */
#include <math.h>
#include <pthread.h>
#include <stdlib.h>

#include "audit_inside.h"
#include "figure.h"
#include "memory.h"
#include "multiplicity.h"
#include "settings.h"

static scw_status check(scw_context *context, const scw_audit_options *options,
                        scw_source source) {
  if (!source.read && !options->readings)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "nothing to audit: neither an archive nor readings were "
                     "given");
  if (options->old_method &&
      (!isfinite(options->factor) || !isfinite(options->offset) ||
       options->factor == 0))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the conversion of an old method needs two numbers, "
                     "offset and factor, and a factor other than 0");
  return SCW_OK;
}

/* p of every claim of the family, NaN of the others, from `first` on. */
static void fill_p(const scw_audit *audit, size_t first, size_t end,
                   double *p) {
  for (size_t i = first; i < end; i++) {
    const scwi_facts *facts = scwi_facts_of(audit, i);
    scwi_record record;
    scwi_judged judged;
    scwi_audit_record_of(audit, i, &record);
    scwi_audit_judge(audit, &record, facts, &judged);
    bool counts = judged.by_p &&
                  !scwi_is_grave(scwi_audit_faults(&record, facts));
    p[i] = counts ? scwi_judged_p(&judged) : NAN;
  }
}

/* The same in several threads, each with a stretch of its own. */
typedef struct stretch {
  const scw_audit *audit;
  size_t first, end;
  double *p;
} stretch;

static void *work_at(void *user) {
  const stretch *s = user;
  fill_p(s->audit, s->first, s->end, s->p);
  return NULL;
}

static void fill_all(const scw_context *context, const scw_audit *audit,
                     double *p) {
  enum { MOST = 64, WORTH_IT = 2000 };
  pthread_t thread[MOST];
  stretch part[MOST];
  size_t threads = audit->n < WORTH_IT ? 1 : context->threads, started = 0;
  if (threads > MOST) threads = MOST;
  for (size_t i = 0; i < threads; i++)
    part[i] = (stretch){audit, audit->n * i / threads,
                        audit->n * (i + 1) / threads, p};
  while (started + 1 < threads &&
         pthread_create(&thread[started], NULL, work_at, &part[started + 1]) ==
             0)
    started++;
  for (size_t i = 0; i < threads; i++) /* those without a thread as well */
    if (i == 0 || i > started) work_at(&part[i]);
  for (size_t i = 0; i < started; i++) pthread_join(thread[i], NULL);
}

/* The family are the claims with a p. */
static size_t gather(const double *p, size_t n, double *family) {
  size_t k = 0;
  for (size_t i = 0; i < n; i++)
    if (!isnan(p[i])) family[k++] = p[i];
  return k;
}

static scw_status adjust(scw_context *context, scw_audit *audit) {
  double *p = NULL, *holm = NULL, *q = NULL;
  scw_status status = SCWI_ALLOCATE(context, audit->n, &p);
  if (!status) status = SCWI_ALLOCATE(context, audit->n, &holm);
  if (!status) status = SCWI_ALLOCATE(context, audit->n, &q);
  if (!status) fill_all(context, audit, p);
  for (size_t i = 0; i < audit->n && !status; i++) {
    audit->kept[i].q = p[i]; /* until it is adjusted */
    audit->summary.alone += p[i] < 1 - audit->settings.level;
  }
  size_t k = status ? 0 : gather(p, audit->n, p), at = 0;
  if (!status) status = scwi_adjust_p(context, p, k, holm, q);
  for (size_t i = 0; i < audit->n && !status; i++) {
    if (isnan(audit->kept[i].q)) continue;
    audit->kept[i].q = q[at];
    audit->kept[i].holm = holm[at++];
  }
  audit->summary.judged = k;
  free(p);
  free(holm);
  free(q);
  return status;
}

/* Nothing stated cannot be wrong. */
static bool states_nothing(const scwi_record *r) {
  return !r->mean[0].has && !r->mean[1].has && !r->scatter[0].has &&
         !r->scatter[1].has && !r->change.has && !r->points.has && !r->n[0] &&
         !r->n[1];
}

static void sum_up(scw_audit *audit) {
  scw_audit_summary *s = &audit->summary;
  s->claims = audit->n;
  for (size_t i = 0; i < audit->n; i++) {
    scwi_record record;
    scwi_audit_record_of(audit, i, &record);
    if (!states_nothing(&record))
      s->with_faults +=
          scwi_audit_faults(&record, scwi_facts_of(audit, i)) != 0;
    switch (scw_audit_verdict(audit, i)) {
      case SCW_CLAIM_BEYOND: s->beyond++; break;
      case SCW_CLAIM_ONLY_IF: s->only_if++; break;
      case SCW_CLAIM_WITHIN: s->within++; break;
      case SCW_CLAIM_DISAGREES: s->figures_disagree++; break;
      default: s->not_judged++;
    }
  }
  s->expected_by_chance =
      scwi_figure((double)s->judged * (1 - audit->settings.level));
}

scw_claim_verdict scw_audit_verdict(const scw_audit *audit, size_t index) {
  double q = audit->kept[index].q;
  if (!isnan(q))
    return q <= 1 - audit->settings.level ? SCW_CLAIM_BEYOND : SCW_CLAIM_WITHIN;
  const scwi_facts *facts = scwi_facts_of(audit, index);
  scwi_record record;
  scwi_judged judged;
  scwi_audit_record_of(audit, index, &record);
  scwi_audit_judge(audit, &record, facts, &judged);
  return scwi_claim_verdict_of(audit, &judged,
                               scwi_audit_faults(&record, facts),
                               audit->kept[index].q);
}

static scw_status run(scw_context *context, const scw_table_options *table,
                      scw_source source, scw_audit *audit) {
  scw_status status = SCW_OK;
  if (source.read) status = scwi_audit_store(context, table, source, audit);
  if (!status && audit->options.readings)
    status = scwi_audit_take_raw(context, audit);
  if (!status) status = scwi_audit_facts(context, audit);
  if (!status) status = adjust(context, audit);
  if (!status) sum_up(audit);
  if (!status && !audit->options.brief) {
    status = scwi_audit_ranks(context, audit);
    if (!status) status = scwi_audit_baselines(context, audit);
    if (!status) status = scwi_audit_work(context, audit);
  }
  if (!status) status = scwi_audit_sentence(context, audit);
  return status ? status : scwi_audit_make_notes(context, audit);
}

scw_status scw_audit_read(scw_context *context, const scw_table_options *table,
                          const scw_settings *settings,
                          const scw_audit_options *options, scw_source source,
                          scw_audit **out) {
  static const scw_audit_options none;
  if (!options) options = &none;
  *out = NULL;
  scw_status status = check(context, options, source);
  if (!status) status = SCWI_ALLOCATE(context, 1, out);
  if (status) return status;
  (*out)->options = *options;
  status = scwi_settings_take(context, settings, &(*out)->settings);
  if (!status) status = run(context, table, source, *out);
  if (status) {
    scw_audit_free(*out);
    *out = NULL;
  }
  return status;
}

void scw_audit_free(scw_audit *audit) {
  if (!audit) return;
  scw_table_free(audit->account);
  scwi_text_free(&audit->records);
  free(audit->kept);
  scwi_labels_free(&audit->contexts);
  scwi_audit_facts_free(audit);
  scwi_notes_free(audit->notes.note, audit->notes.n);
  free(audit->sentence);
  free(audit->rank);
  free(audit->baseline);
  free(audit->work);
  scwi_audit_differences_free(audit);
  free(audit);
}

scw_audit_summary scw_audit_summary_of(const scw_audit *audit) {
  return audit->summary;
}

const scw_settings *scw_audit_settings(const scw_audit *audit) {
  return &audit->settings;
}

const scw_audit_options *scw_audit_options_of(const scw_audit *audit) {
  return &audit->options;
}

const scw_input *scw_audit_input(const scw_audit *audit) {
  return audit->account ? scw_table_input(audit->account, 0) : NULL;
}

size_t scw_audit_notes(const scw_audit *audit, const scw_note **out) {
  *out = audit->notes.note;
  return audit->notes.n;
}

const char *scw_audit_sentence(const scw_audit *audit) {
  return audit->sentence;
}

size_t scw_audit_ranks(const scw_audit *audit, const scw_audit_rank **out) {
  *out = audit->rank;
  return audit->n_ranks;
}

size_t scw_audit_baselines(const scw_audit *audit,
                           const scw_audit_baseline **out) {
  *out = audit->baseline;
  return audit->n_baselines;
}

size_t scw_audit_work_list(const scw_audit *audit,
                           const scw_audit_work **out) {
  *out = audit->work;
  return audit->n_work;
}

size_t scw_audit_differences(const scw_audit *audit,
                             const scw_audit_difference **out) {
  *out = audit->difference;
  return audit->n_differences;
}
