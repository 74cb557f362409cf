/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 5: which published scores rest on changes that sit inside the
 * noise? An audit judges figures, never a product or a person.
 *
 * An archive is read once. Of every claim at most 100 bytes are kept, besides
 * texts; scw_audit_claim works out everything about one claim from them, so
 * that reports write one claim at a time. */
#ifndef SCATTERWISE_AUDIT_H
#define SCATTERWISE_AUDIT_H

#include "scatterwise/bench.h"
#include "scatterwise/change.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What is found of a claim. The text is the JSON code. */
#define SCW_CLAIM_LIST(X)                                                      \
  X(SCW_CLAIM_BEYOND, "beyond")         /* beyond the scatter on file */       \
  X(SCW_CLAIM_ONLY_IF, "only_if")       /* stands only if something nobody     \
                                           wrote down was small enough */      \
  X(SCW_CLAIM_WITHIN, "within")         /* not shown, not refuted */           \
  X(SCW_CLAIM_NOT_JUDGED, "not_judged") /* and why */                          \
  X(SCW_CLAIM_DISAGREES, "figures_disagree")

typedef enum scw_claim_verdict {
#define SCW_CLAIM_ENUM(code, text) code,
  SCW_CLAIM_LIST(SCW_CLAIM_ENUM)
#undef SCW_CLAIM_ENUM
      SCW_CLAIM_VERDICT_END
} scw_claim_verdict;

/* Never null. */
SCW_API const char *scw_claim_verdict_code(scw_claim_verdict verdict);

/* What is wrong with the figures of a claim: code, JSON code, words. Those up
 * to SCW_FAULT_LAST_GRAVE leave no change to judge; the last four stand beside an
 * impossible figure and say what would fit. */
#define SCW_FAULT_LIST(X)                                                      \
  X(SCW_FAULT_MEAN_BEFORE, "mean_before_impossible",                           \
    "no readings on this step have the mean before")                           \
  X(SCW_FAULT_MEAN_AFTER, "mean_after_impossible",                             \
    "no readings on this step have the mean after")                            \
  X(SCW_FAULT_SCATTER_BEFORE, "scatter_before_impossible",                     \
    "no readings on this step have this mean and scatter before")              \
  X(SCW_FAULT_SCATTER_AFTER, "scatter_after_impossible",                       \
    "no readings on this step have this mean and scatter after")               \
  X(SCW_FAULT_MEAN_BEFORE_DIFFERS, "mean_before_differs",                      \
    "the mean before is not that of the readings")                             \
  X(SCW_FAULT_MEAN_AFTER_DIFFERS, "mean_after_differs",                        \
    "the mean after is not that of the readings")                              \
  X(SCW_FAULT_SCATTER_BEFORE_DIFFERS, "scatter_before_differs",                \
    "the scatter before is not that of the readings")                          \
  X(SCW_FAULT_SCATTER_AFTER_DIFFERS, "scatter_after_differs",                  \
    "the scatter after is not that of the readings")                           \
  X(SCW_FAULT_N_BEFORE_DIFFERS, "n_before_differs",                            \
    "n before is not the number of readings")                                  \
  X(SCW_FAULT_N_AFTER_DIFFERS, "n_after_differs",                              \
    "n after is not the number of readings")                                   \
  X(SCW_FAULT_CHANGE, "change_does_not_follow",                                \
    "the change does not follow from the means")                               \
  X(SCW_FAULT_CHANGE_SIGN, "change_sign_reversed",                             \
    "the change has the wrong sign for its means")                             \
  X(SCW_FAULT_CHANGE_CUT, "change_cut_off",                                    \
    "the change was cut off instead of rounded")                               \
  X(SCW_FAULT_POINTS, "points_do_not_follow",                                  \
    "the points do not follow by the rule")                                    \
  X(SCW_FAULT_POINTS_SIGN, "points_sign_reversed",                             \
    "the points have the wrong sign for the rule")                             \
  X(SCW_FAULT_POINTS_CUT, "points_cut_off",                                    \
    "the points were cut off instead of rounded")                              \
  X(SCW_FAULT_POPULATION_SD, "population_sd",                                  \
    "the scatter fits as an SD with the divisor n, not n - 1")                 \
  X(SCW_FAULT_STANDARD_ERROR, "standard_error",                                \
    "the SD fits as the standard error of the mean")                           \
  X(SCW_FAULT_CUT_OFF, "cut_off",                                              \
    "cut off instead of rounded it would fit")                                 \
  X(SCW_FAULT_OTHER_N, "other_n",                                              \
    "with one reading more or less it would fit")

typedef enum scw_fault {
#define SCW_FAULT_ENUM(code, key, text) code,
  SCW_FAULT_LIST(SCW_FAULT_ENUM)
#undef SCW_FAULT_ENUM
      SCW_FAULT_END
} scw_fault;

enum { SCW_FAULT_LAST_GRAVE = SCW_FAULT_CHANGE_SIGN };

SCW_API const char *scw_fault_code(scw_fault fault); /* never null */
SCW_API const char *scw_fault_text(scw_fault fault); /* never null */

/* How a claim is judged, or why not: code, JSON code, words. */
#define SCW_CLAIM_DESIGN_LIST(X)                                               \
  X(SCW_BY_PAIRS, "paired", "differences spot by spot")                        \
  X(SCW_BY_READINGS, "unpaired", "the scatter of both sides")                  \
  X(SCW_BY_SUMMARY, "summary", "the scatter stated for both sides")            \
  X(SCW_BY_BANK, "bank", "the scatter of your bench")                          \
  X(SCW_BY_BREAK_EVEN, "break_even", "no scatter is stated")                   \
  X(SCW_BY_BASELINE, "baseline", "nobody says how good the baseline is")       \
  X(SCW_BY_POINTS, "points", "only points are stated")                         \
  X(SCW_NOT_N, "no_n", "nobody says how many readings are behind it")          \
  X(SCW_NOT_ONE, "one_reading", "one reading on a side has no scatter")        \
  X(SCW_NOT_RULE, "no_rule", "only points are stated, and no rule says what "  \
                             "they are made of")                               \
  X(SCW_NOT_INVERTED, "rule_not_inverted",                                     \
    "the rule gives these points for many different changes")                  \
  X(SCW_NOT_FIGURES, "no_figures", "no change and no means are stated")        \
  X(SCW_NOT_PANELS, "panels_differ",                                           \
    "before and after are of different panels")                                \
  X(SCW_NOT_METERS, "meters_differ",                                           \
    "before and after were read with different instruments")                   \
  X(SCW_NOT_SCATTER, "no_scatter",                                             \
    "nothing scatters, and the display step is not known")

typedef enum scw_claim_design {
#define SCW_CLAIM_DESIGN_ENUM(code, key, text) code,
  SCW_CLAIM_DESIGN_LIST(SCW_CLAIM_DESIGN_ENUM)
#undef SCW_CLAIM_DESIGN_ENUM
      SCW_CLAIM_DESIGN_END
} scw_claim_design;

SCW_API const char *scw_claim_design_code(scw_claim_design design);
SCW_API const char *scw_claim_design_text(scw_claim_design design);

/* A number as printed: its value and decimals; has = false: not printed. */
typedef struct scw_stated {
  bool has;
  double value;
  int digits;
} scw_stated;

/* Sides: [0] before, [1] after. */
typedef struct scw_claim_stated {
  scw_stated mean[2], scatter[2]; /* the SD, or the standard error */
  bool standard_error;            /* the scatter is that of the mean */
  size_t n[2];                    /* 0: not said */
  scw_figure step[2];             /* SCW_STEP_UNKNOWN */
  scw_stated change, points;
} scw_claim_stated;

typedef struct scw_claim_recomputed {
  scw_figure mean[2], sd[2];      /* of the readings, where there are any */
  size_t n[2];                    /* of the readings; 0: none */
  scw_figure change;              /* of the readings' means, else of the means */
  scw_figure points, published;   /* by the rule: unrounded, and in the
                                     publisher's order of rounding */
} scw_claim_recomputed;

/* Texts are borrowed from the audit or owned by the claim; never null. */
typedef struct scw_claim {
  const char *id;       /* of the file, else the product, else "row N" */
  const char *product, *category, *date, *rule, *method, *geometry, *unit;
  const char *panel[2], *meter[2], *session[2];
  size_t line;
  scw_claim_stated stated;
  scw_claim_recomputed recomputed;
  scw_fault *faults;
  size_t n_faults;
  scw_claim_design design;
  scw_estimate change;  /* its own interval and p */
  scw_figure q_value, p_holm;
  scw_figure break_even_sd;         /* SD of single readings up to which the
                                       change stands */
  scw_figure break_even_baseline_u; /* standard uncertainty of the baseline */
  scw_interval bank_sd; /* what the bench says of the SD; not computed without */
  scw_claim_verdict verdict;
  scw_settle settle;
  char *sentence;
  char *memory;         /* of the texts; for scw_claim_free */
} scw_claim;

typedef struct scw_audit_options {
  const scw_bench *bench;    /* with the rules; null: none. It must outlive the
                                audit, as must all that follows */
  const char *rule;          /* of the bench, for claims that name none; null:
                                the only one whose reading fits, or none */
  const scw_bench *scatter_bench; /* claims without scatter are judged on the
                                one of this bench; null: they are not */
  scw_scatter_wanted scatter;
  const scw_table *readings; /* raw readings: products are ids of claims; null */
  /* A change of test method: what was read by `old_method` becomes
   * offset + factor * value; null: methods are fenced off. */
  const char *old_method;
  double offset, factor;
  bool brief;                /* no settle, no ranks, no baselines */
} scw_audit_options;

typedef struct scw_audit_summary {
  size_t claims, beyond, only_if, within, not_judged, figures_disagree;
  size_t judged;             /* claims with a p: the size of the family */
  size_t alone;              /* of them, those whose own interval excludes 0 */
  size_t with_faults;
  scw_figure expected_by_chance; /* of the judged, were no change real */
} scw_audit_summary;

/* Places a product could hold among those of its category and method. */
typedef struct scw_audit_rank {
  size_t claim;              /* index */
  size_t group;              /* ranks are within a group */
  size_t low, high;          /* places, 1 the best */
  size_t of;                 /* claims in the group */
} scw_audit_rank;

/* The mean before on one panel and meter over the dates. */
typedef struct scw_audit_baseline {
  const char *panel, *meter, *method;
  size_t claims;
  const char *first, *last;  /* dates */
  scw_estimate per_year;     /* slope */
} scw_audit_baseline;

/* What re-measuring would settle most cheaply: readings on each side. */
typedef struct scw_audit_work {
  size_t claim;
  scw_settle settle;
} scw_audit_work;

/* Since an earlier audit. */
typedef struct scw_audit_difference {
  char *id;
  char *was, *is;            /* verdict codes; "" where the claim is new or
                                gone */
  char *why;                 /* in words */
} scw_audit_difference;

typedef struct scw_audit scw_audit;

/* Reads an archive; a source without a read function: the raw readings alone
 * are the archive. Errors: SCW_BAD_INPUT with line and column,
 * SCW_BAD_ARGUMENT for options. Free with scw_audit_free. */
SCW_API scw_status scw_audit_read(scw_context *context,
                                  const scw_table_options *table,
                                  const scw_settings *settings,
                                  const scw_audit_options *options,
                                  scw_source source, scw_audit **out);
SCW_API void scw_audit_free(scw_audit *audit);

SCW_API scw_audit_summary scw_audit_summary_of(const scw_audit *audit);
SCW_API const scw_settings *scw_audit_settings(const scw_audit *audit);
SCW_API const scw_audit_options *scw_audit_options_of(const scw_audit *audit);
/* The account of the archive; null for raw readings alone. */
SCW_API const scw_input *scw_audit_input(const scw_audit *audit);
SCW_API size_t scw_audit_notes(const scw_audit *audit, const scw_note **out);
/* The answer, fit to publish. */
SCW_API const char *scw_audit_sentence(const scw_audit *audit);

/* What was found of claim `index`, without working it out. */
SCW_API scw_claim_verdict scw_audit_verdict(const scw_audit *audit,
                                            size_t index);
/* Everything about claim `index`. Free with scw_claim_free. */
SCW_API scw_status scw_audit_claim(scw_context *context, const scw_audit *audit,
                                   size_t index, scw_claim *out);
SCW_API void scw_claim_free(scw_claim *claim);

/* Lists made when the archive was read; empty with options.brief. */
SCW_API size_t scw_audit_ranks(const scw_audit *audit,
                               const scw_audit_rank **out);
SCW_API size_t scw_audit_baselines(const scw_audit *audit,
                                   const scw_audit_baseline **out);
SCW_API size_t scw_audit_work_list(const scw_audit *audit,
                                   const scw_audit_work **out);

/* What changed since the audit whose JSON is read from `earlier`; afterwards
 * scw_audit_differences has it. SCW_BAD_INPUT for anything but such a file. */
SCW_API scw_status scw_audit_against(scw_context *context, scw_audit *audit,
                                     scw_source earlier);
SCW_API size_t scw_audit_differences(const scw_audit *audit,
                                     const scw_audit_difference **out);

#ifdef __cplusplus
}
#endif
#endif
