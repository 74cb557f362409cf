/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings as they are taken: one at a time, each kept before it counts, with
 * what the readings say so far and whether to stop. */
#ifndef SCATTERWISE_TAKE_H
#define SCATTERWISE_TAKE_H

#include "scatterwise/change.h"
#include "scatterwise/readings.h"
#include "scatterwise/spot_list.h"

#ifdef __cplusplus
extern "C" {
#endif

/* When to stop. Looking after every reading makes the t interval of a mean too
 * narrow for a rule of the kind "stop when it looks good"; each rule here
 * stays honest, the first two because they look at most once. */
typedef enum scw_take_rule {
  SCW_TAKE_OPEN,    /* none: the tester decides, and is told what that costs */
  SCW_TAKE_PLAN,    /* after a number fixed beforehand */
  SCW_TAKE_TOP_UP,  /* Stein 1945: the scatter of the first few says how many
                       a half-width needs */
  SCW_TAKE_ANYTIME  /* by the interval that holds at every look together */
} scw_take_rule;

/* What to do now. The text is the JSON code. */
#define SCW_ADVICE_LIST(X)                                                     \
  X(SCW_ADVICE_NONE, "no_rule")    /* no rule was given */                     \
  X(SCW_ADVICE_GO_ON, "go_on")                                                 \
  X(SCW_ADVICE_STOP, "stop")       /* what was asked for is reached */         \
  X(SCW_ADVICE_NEVER, "never")     /* no number of readings reaches it */      \
  X(SCW_ADVICE_NO_MORE, "no_more") /* the spots have run out before that */

typedef enum scw_advice {
#define SCW_ADVICE_ENUM(code, text) code,
  SCW_ADVICE_LIST(SCW_ADVICE_ENUM)
#undef SCW_ADVICE_ENUM
      SCW_ADVICE_END
} scw_advice;

SCW_API const char *scw_advice_code(scw_advice advice);

typedef struct scw_take_options {
  scw_take_rule rule;
  size_t readings;     /* PLAN: how many; TOP_UP: the first few, at least 2.
                          Spots where there are spots */
  double half_width;   /* TOP_UP, ANYTIME: +- this; 0: not asked for */
  double margin;       /* ANYTIME against a baseline: stop once the change lies
                          beyond or within it; 0: once it excludes zero */
  double g;            /* of the anytime interval: variance of the standardised
                          shift it looks for; 0: 1 */
  const char *quantity; /* "gloss", "pull" ...; null: the baseline's, else
                           "reading". A header word of docs/manual/tables.md */
  const char *unit;     /* null: the baseline's, else none */
  /* Written into every row; null: the baseline's panel, product and geometry,
   * else no such column. */
  const char *panel, *product, *session, *geometry, *by, *meter;
  const scw_spot_list *spots; /* copied; null: none. Of a list for both states
                          those after are taken with a baseline, else those
                          before; of several panels or products those of
                          `panel` and `product` */
  bool unpaired;        /* do not pair with the baseline by spot */
} scw_take_options;

typedef struct scw_take scw_take;

/* Begins. `baseline` holds the readings before, all of one panel; it is emptied
 * but still freed by the caller (null: one set, no change). `keep` takes the
 * text of whole rows and must return 0 only when they are safe; no row counts
 * before that. `settings` may be null. SCW_BAD_ARGUMENT for a rule that does
 * not fit, SCW_BAD_INPUT for a baseline that does not. */
SCW_API scw_status scw_take_open(scw_context *context,
                                 const scw_take_options *options,
                                 const scw_settings *settings,
                                 scw_table *baseline, scw_sink keep,
                                 scw_take **out);
SCW_API void scw_take_close(scw_take *take);

/* Goes on with what an earlier run kept: call before anything else is taken.
 * *whole is the number of bytes in whole lines; what lies behind them was cut
 * off before it was kept, and is left to the caller to set aside. Nothing is
 * written. SCW_BAD_INPUT for a text that is not of this kind, or was taken
 * with other options. */
SCW_API scw_status scw_take_resume(scw_context *context, scw_take *take,
                                   scw_source source, size_t *whole);

/* The calls that take something. Each is kept first and counted then: after a
 * failure the state is what it was. SCW_BAD_ARGUMENT: it cannot be used, and
 * the message says why. SCW_NOT_WRITTEN: `keep` refused, and the message names
 * what was not kept.
 *
 * A reading as typed: decimal point or comma, a star or brackets as a mark.
 * `spot` null: the next one of the list or of the baseline, or no spots at all;
 * the first reading decides whether there are spots. `note` may be null. */
SCW_API scw_status scw_take_reading(scw_context *context, scw_take *take,
                                    const char *spot, const char *reading,
                                    const char *note);
/* A reading out of a file that is followed: line `line` of `name`, which is
 * kept as its note. */
SCW_API scw_status scw_take_followed(scw_context *context, scw_take *take,
                                     const char *spot, const char *reading,
                                     const char *name, size_t line);
/* The last line of `name` that was kept, by an earlier run or by this; 0. */
SCW_API size_t scw_take_followed_line(const scw_take *take, const char *name);
/* Read again in place of an earlier one, both being kept and the first one
 * counting. `which`: the spot; without spots the order number; null: the one
 * taken last. */
SCW_API scw_status scw_take_again(scw_context *context, scw_take *take,
                                  const char *which, const char *reading,
                                  const char *reason);
/* Takes a reading back, by its order number (0: the last): it stays in the
 * file, with the reason, and no longer counts. */
SCW_API scw_status scw_take_undo(scw_context *context, scw_take *take,
                                 size_t order, const char *reason);
/* Marks a reading with a star; it still counts. */
SCW_API scw_status scw_take_mark(scw_context *context, scw_take *take,
                                 size_t order, const char *reason);
SCW_API scw_status scw_take_note(scw_context *context, scw_take *take,
                                 const char *text);

/* Everything that can be said now. Values are spot means where there are spots,
 * else readings; with a baseline paired by spot, after minus before by spot. */
typedef struct scw_take_state {
  scw_settings settings;
  char *unit;              /* "" when not said */
  size_t last;             /* order number of the reading taken last; 0: none */
  char *last_spot;         /* "" without spots */
  char *last_reading;      /* as kept; "" before the first */
  scw_figure last_change;  /* paired: by how much its spot changed */
  size_t readings;         /* that count */
  size_t taken_back, read_again;
  size_t undone;           /* order number taken back last; 0: none */
  size_t n;                /* values behind the figures */
  bool by_spot, change, paired;
  scw_figure mean;         /* of the values; of the change */
  scw_figure sd;           /* of the values; unpaired: of the new readings */
  scw_interval interval;   /* t, as if this were the only look */
  scw_interval anytime;    /* holds at every look together */
  double g;
  scw_figure e_value;      /* against no change; only with a baseline by spot */
  scw_step step;
  scw_figure top_up_total; /* TOP_UP, once the first few are in */
  scw_interval top_up;     /* with their scatter and degrees of freedom */
  scw_take_rule rule;
  scw_verdict verdict;     /* of the interval that the rule goes by */
  scw_advice advice;
  bool stop;
  char *sentence;          /* the advice in words */
  char *next_spot;         /* where to read next; "" when not known */
  size_t spots_left;       /* of the list, or of the baseline */
  scw_note *notes;         /* stand-outs, creep, spots without a partner ... */
  size_t n_notes;
} scw_take_state;

/* Cost: one pass over the readings. Free with scw_take_state_free. */
SCW_API scw_status scw_take_state_of(scw_context *context, const scw_take *take,
                                     scw_take_state *out);
SCW_API void scw_take_state_free(scw_take_state *state);

#ifdef __cplusplus
}
#endif
#endif
