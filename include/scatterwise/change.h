/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2: did the product move the reading, or is that the panel's own
 * scatter? */
#ifndef SCATTERWISE_CHANGE_H
#define SCATTERWISE_CHANGE_H

#include "scatterwise/bench.h"
#include "scatterwise/comparison.h"
#include "scatterwise/readings.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How the change was worked out. The text is the JSON code. */
#define SCW_DESIGN_LIST(X)                                                     \
  X(SCW_PAIRED, "paired")                                                      \
  X(SCW_UNPAIRED, "unpaired")                                                  \
  X(SCW_CONTROL_PAIRED, "control_paired")                                      \
  X(SCW_CONTROL, "control")                                                    \
  X(SCW_FROM_SUMMARY, "summary")                                               \
  X(SCW_AGAINST_BASELINE, "baseline")                                          \
  X(SCW_BREAK_EVEN, "break_even")

typedef enum scw_design {
#define SCW_DESIGN_ENUM(code, text) code,
  SCW_DESIGN_LIST(SCW_DESIGN_ENUM)
#undef SCW_DESIGN_ENUM
      SCW_DESIGN_END
} scw_design;

SCW_API const char *scw_design_code(scw_design design);

/* Readings of a standard tile taken around the series (rows whose state is
 * `tile`): is the meter right, and did it move meanwhile? */
typedef struct scw_tile {
  size_t n;                    /* tile readings; 0: none */
  double assigned;             /* the tile's own value */
  scw_figure mean, difference; /* mean - assigned */
  scw_figure drift;            /* last tile reading minus the first */
  scw_figure difference_steps, drift_steps; /* in display steps */
} scw_tile;

/* The same change on the scatter of a bench, beside the readings' own. Only on
 * request; nothing switches between the two. */
typedef struct scw_bank_view {
  /* SCW_PRESENT: judged. Else why not: SCW_NOT_COMPUTED nothing was asked,
   * SCW_PAIRS_CANCEL, SCW_PANELS_DIFFER, SCW_ONE_SPOT, SCW_BARE_NUMBER (nobody
   * says how many readings are behind either number). */
  scw_presence state;
  double sd, df;          /* the bank's, in the unit of the change */
  scw_estimate change;    /* with the bank's uncertainty */
  scw_interval family_interval;
  scw_verdict verdict;    /* the bank's */
  scw_verdict own_verdict; /* the readings' own; the report's verdict is the
                             one that both give, else SCW_CANNOT_TELL */
  bool alone;             /* the readings leave no verdict of their own: the
                             report's is the bank's */
  scw_figure break_even_baseline_u; /* with a number of unknown readings */
  scw_figure own_sd, own_df; /* pooled within the sides */
  scw_figure f, f_p;      /* (own_sd / sd)^2 and its two-sided p */
} scw_bank_view;

/* One uncertain input of the bench's model, and what it does to the change. */
typedef struct scw_instrument {
  const char *name, *about; /* borrowed from the bench */
  scw_shared shared;        /* as the bench says it */
  bool same;                /* taken as one and the same value on all sides */
  double standard_uncertainty; /* of the input, in its own unit */
  scw_figure df;            /* SCW_UNBOUNDED when infinite */
  double one_side;          /* standard uncertainty it gives the value after,
                               in the unit of the change */
  double contribution;      /* standard uncertainty it gives the change */
  bool cancels;             /* it acts on the values, but not on the change */
} scw_instrument;

/* What the instruments add to the scatter of the readings. The change of the
 * report, its verdict and all that follows from them carry both. */
typedef struct scw_instruments {
  /* SCW_PRESENT: added. Else why not: SCW_NOT_COMPUTED no bench was given, or
   * why the readings' own scatter leaves no interval to add to. */
  scw_presence state;
  scw_estimate scatter;        /* the change by the readings' scatter alone */
  scw_verdict scatter_verdict; /* from its interval (the family's, where there
                                  is one) */
  scw_figure standard_uncertainty, df; /* of the instruments together; without
                                  correlations the root of the sum of squares
                                  of the contributions */
  scw_instrument *input;       /* those that are uncertain */
  size_t n_inputs;
} scw_instruments;

typedef struct scw_change_report {
  char *product;          /* "" when the file names none */
  char *unit;
  scw_design design;
  scw_estimate change;    /* after minus before */
  scw_figure margin;
  scw_verdict verdict;
  char *sentence;         /* fit to publish */
  char *df_origin;        /* "9 spot pairs minus 1", "Welch-Satterthwaite ..." */
  scw_figure detectable;  /* change seen with settings.power on this design */
  scw_settle settle;
  scw_set_report before, after; /* summaries of the two sides as used */
  char **unmatched;       /* "spot 7 has no after reading (line 12)" */
  size_t n_unmatched;
  /* The change without the flagged readings; has_without_flagged only when
   * readings were flagged. */
  bool has_without_flagged;
  scw_estimate without_flagged;
  scw_verdict verdict_without_flagged;
  /* Friction: the change with each side's first pull set aside. */
  bool has_without_first;
  scw_estimate without_first;
  scw_verdict verdict_without_first;
  scw_note *notes;
  size_t n_notes;
  /* Readings that replace earlier ones (a `replaces` column): the verdict
   * above keeps the first readings; this is the one with their replacements. */
  size_t repicked;
  bool has_repicked;
  scw_estimate with_repicked;
  scw_verdict verdict_with_repicked;
  scw_tile tile;
  /* Against a control: its label, what it did itself, and what the treated
   * did; `change` is treated less control. Null and not computed without. */
  char *control;
  scw_estimate control_change, treated_change;
  scw_set_report control_before, control_after;
  /* Bare numbers: the standard uncertainty of the one, or the SD of single
   * readings behind both, up to which the change stands. */
  scw_figure break_even_baseline_u, break_even_sd;
  /* Several products: the interval and p adjusted for the family. Verdict and
   * sentence are then read from the family interval; alone_verdict is what the
   * product's own interval would say. */
  scw_interval family_interval; /* Bonferroni */
  scw_figure family_p;          /* Holm */
  scw_verdict alone_verdict;
  /* Paired: the SD of the spot-wise differences and their number, which a plan
   * can start from; else not computed and 0. */
  scw_figure difference_sd;
  size_t pairs;
  /* Other views of the same change; the verdict does not use them. */
  scw_permutation permutation;
  scw_hodges_lehmann hodges_lehmann;
  scw_sd_ratio sd_ratio;
  scw_tost tost;
  scw_bank_view bank;
  scw_instruments instruments;
  /* With options.retention: after over before in percent; else not computed. */
  scw_ratio retention;
} scw_change_report;

/* One side given as numbers instead of readings. */
typedef struct scw_given_side {
  double mean;
  bool has_sd;
  double sd;     /* of single readings, with has_sd; needs n >= 2 */
  size_t n;      /* readings behind the mean; 0: not said */
  double step;   /* in which the number was shown; 0: not said */
} scw_given_side;

typedef struct scw_change_options {
  double margin;          /* > 0; 0: none given */
  /* Friction: the block's mass. Pulls over it become the static coefficient.
   * block <= 0 with has_block is an error. */
  bool has_block;
  double block;
  const char *block_unit; /* null: the unit of the pulls */
  /* The untreated panel or half, by its label in the product column, else in
   * the panel column; null: none. It needs readings before and after. */
  const char *control;
  bool paired_halves;     /* treated and control are halves of one layout,
                             true pairs spot by spot */
  /* A remembered baseline in place of before readings, in the unit of the
   * result (a coefficient where there is a block). */
  bool has_baseline;
  scw_given_side baseline;
  bool retention;         /* the percent of before that is left, beside the
                             change; not with a control */
  bool has_tile;          /* the tile's assigned value is known */
  double tile;
  /* A bench whose scatter the change is judged on as well; null: none. Texts
   * of `scatter` left null are those of the readings. The bench must outlive
   * the result. */
  const scw_bench *bench;
  scw_scatter_wanted scatter;
  /* A bench whose model turns readings into a quantity, and whose inputs'
   * uncertainty is added to the change; null: none. Its readings are those of
   * the table. The bench must outlive the result. Not with a block, a
   * baseline or a scatter bank; numbers in place of readings need their SDs. */
  const scw_bench *instruments;
  const char *quantity;   /* of that bench; null: the one that fits the table */
  const char *margin_unit; /* with `instruments`: the unit the margin was given
                              in; null: not said. Without a margin the
                              quantity's own is used */
} scw_change_options;

typedef struct scw_change_result {
  scw_settings settings;
  scw_change_options options;
  scw_change_report *changes;
  size_t n_changes;       /* also the size of the family */
  bool friction;          /* readings are static coefficients */
  scw_note *notes;
  size_t n_notes;
  const scw_bench_scatter *scatter; /* of the bench, used; null: none */
  /* With options.instruments: the quantity and its input of readings, borrowed
   * from the bench; null: none. Every reading became the value
   * offset + factor * reading. */
  const scw_bench_quantity *quantity;
  const scw_bench_input *reading;
  double offset, factor;
  bool margin_of_bench;   /* options.margin is the quantity's own */
} scw_change_result;

/* Works out after minus before for every product of the table. Paired by spot
 * where both sides carry spots of one panel, else Welch. Errors:
 * SCW_BAD_ARGUMENT for settings, SCW_BAD_INPUT where a side is missing or
 * geometries are mixed. Free with scw_change_result_free. */
SCW_API scw_status scw_change(scw_context *context, const scw_table *table,
                              const scw_settings *settings,
                              const scw_change_options *options,
                              scw_change_result *out);
/* A change known only by numbers. `product` may be null. */
typedef struct scw_given_change {
  const char *product;
  scw_given_side before, after;
} scw_given_change;

/* The same from numbers: Welch where both sides have an SD, else a
 * conditional verdict. A side without a step takes a step given in the
 * settings. options->block, control and baseline are refused.
 * `unit` and `quantity` may be null. */
SCW_API scw_status scw_change_from_numbers(
    scw_context *context, const scw_given_change *changes, size_t n,
    const char *unit, const char *quantity, const scw_settings *settings,
    const scw_change_options *options, scw_change_result *out);

SCW_API void scw_change_result_free(scw_change_result *result);

#ifdef __cplusplus
}
#endif
#endif
