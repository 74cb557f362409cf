/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the audit: what is kept of an archive, and the steps from there to
 * an answer, a file each. */
#ifndef SCWI_AUDIT_INSIDE_H
#define SCWI_AUDIT_INSIDE_H

#include "audit_record.h"
#include "bank.h"
#include "claims.h"
#include "labels.h"
#include "notes.h"

/* What one claim is kept as, besides its record. */
typedef struct scwi_kept {
  double q, holm;    /* NaN: not of the family */
  uint64_t at;       /* of the record */
  uint32_t line, context;
} scwi_kept;
_Static_assert(sizeof(scwi_kept) == 32, "a claim is kept in 100 bytes");

/* Texts that many claims share. */
typedef enum scwi_context_text {
  SCWI_OF_PRODUCT, SCWI_OF_CATEGORY, SCWI_OF_DATE, SCWI_OF_RULE,
  SCWI_OF_METHOD, SCWI_OF_GEOMETRY, SCWI_OF_UNIT,
  SCWI_OF_PANEL, SCWI_OF_PANEL_AFTER, SCWI_OF_METER, SCWI_OF_METER_AFTER,
  SCWI_OF_SESSION, SCWI_OF_SESSION_AFTER, SCWI_OF_STEP, SCWI_OF_STEP_AFTER,
  SCWI_CONTEXT_TEXTS
} scwi_context_text;

/* A combination of them, taken apart, and what follows from it. */
typedef struct scwi_facts {
  const char *text[SCWI_CONTEXT_TEXTS];
  char *memory;
  double step[2];        /* 0: not known */
  const scw_rule *rule;  /* null: none */
  bool panels_differ, meters_differ, sessions_differ;
  bool convert;          /* read by the old method, and a conversion given */
  bool fenced;           /* read by another method than most */
  bool bank;             /* the bench's scatter is of this unit and geometry */
  bool has_day;
  long day;
} scwi_facts;

struct scw_audit {
  scw_settings settings;
  scw_audit_options options;
  scw_table *account;    /* null for raw readings alone */
  scwi_text records;
  scwi_kept *kept;
  size_t n, capacity;
  scwi_labels contexts;
  scwi_facts *facts;
  size_t n_facts;
  scw_step step;         /* of all readings in the file */
  const scw_bench_scatter *scatter; /* null: none */
  scwi_bank bank;
  scw_audit_summary summary;
  scwi_notes notes;
  char *sentence;
  scw_audit_rank *rank;
  size_t n_ranks;
  scw_audit_baseline *baseline;
  size_t n_baselines;
  scw_audit_work *work;
  size_t n_work;
  scw_audit_difference *difference;
  size_t n_differences;
};

/* audit_store.c: reads the archive into `kept`, `records` and `contexts`. */
scw_status scwi_audit_store(scw_context *context,
                            const scw_table_options *table, scw_source source,
                            scw_audit *audit);
/* audit_raw.c: takes the raw readings' products for claims, or into those of
 * the same id. */
scw_status scwi_audit_take_raw(scw_context *context, scw_audit *audit);
/* audit_facts.c: takes contexts apart, finds rules and the scatter. */
scw_status scwi_audit_facts(scw_context *context, scw_audit *audit);
void scwi_audit_facts_free(scw_audit *audit);

static inline const scwi_facts *scwi_facts_of(const scw_audit *audit,
                                              size_t index) {
  return &audit->facts[audit->kept[index].context];
}
void scwi_audit_record_of(const scw_audit *audit, size_t index,
                          scwi_record *out);

/* audit_faults.c: a bit for every fault of the figures. */
uint32_t scwi_audit_faults(const scwi_record *record, const scwi_facts *facts);
static inline bool scwi_is_grave(uint32_t faults) {
  return faults & ((2U << SCW_FAULT_LAST_GRAVE) - 1);
}

/* audit_judge.c: what a claim can be judged by. `u.u` is 0 without a standard
 * uncertainty. */
typedef struct scwi_judged {
  scw_claim_design design;
  scw_figure change;     /* as judged: converted where asked for */
  scwi_uncertainty u;
  /* For planning: SDs and counts of the sides (paired: of the differences). */
  double sd[2];
  size_t n[2];
  double step[2];
  bool by_p;             /* it has a p: it is one of the family */
  bool stands;           /* without a p: for some scatter, or baseline, the
                            change stands */
} scwi_judged;
void scwi_audit_judge(const scw_audit *audit, const scwi_record *record,
                      const scwi_facts *facts, scwi_judged *out);
/* Two-sided; never 0. */
double scwi_judged_p(const scwi_judged *judged);

/* audit_claim.c */
scw_claim_verdict scwi_claim_verdict_of(const scw_audit *audit,
                                        const scwi_judged *judged,
                                        uint32_t faults, double q);

/* audit_words.c */
scw_status scwi_claim_sentence(scw_context *context, const scw_audit *audit,
                               scw_claim *claim);
scw_status scwi_audit_sentence(scw_context *context, scw_audit *audit);
/* audit_notes.c */
scw_status scwi_audit_make_notes(scw_context *context, scw_audit *audit);

/* The lists, a file each. */
scw_status scwi_audit_ranks(scw_context *context, scw_audit *audit);
scw_status scwi_audit_baselines(scw_context *context, scw_audit *audit);
scw_status scwi_audit_work(scw_context *context, scw_audit *audit);

/* audit_against.c */
void scwi_audit_differences_free(scw_audit *audit);

#endif
