/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of live taking: what take.c opens and reads back, take_entry.c adds
 * to, take_state.c sums up and take_words.c puts into words. */
#ifndef SCWI_TAKE_INSIDE_H
#define SCWI_TAKE_INSIDE_H

#include "arena.h"
#include "context.h"
#include "kept.h"
#include "notes.h"
#include "scatterwise/take.h"

typedef struct scwi_taken {
  scw_reading reading; /* as the table holds it; its order is the number */
  const char *spot;    /* null: none */
  const char *text;    /* as kept */
  const char *note;    /* null: none */
  size_t replaces;     /* order number; 0: none */
  bool gone;           /* taken back */
} scwi_taken;

struct scw_take {
  scw_take_options options; /* its texts are those of `form` */
  scw_settings settings;
  scw_sink keep;
  scwi_arena texts;
  scwi_kept_form form;
  bool settled;        /* form.spots is decided */
  bool headed;         /* the header is kept */
  bool spots_before;   /* the baseline has spots to pair with */
  char decimal;        /* the mark typed so far; 0: none yet */
  scw_table *table;    /* the baseline, then what counts of what was taken */
  size_t baseline;     /* readings of the baseline in the table */
  size_t *before, n_before; /* those of them that are compared with */
  scw_spot_place *place;    /* where to go ... */
  int32_t *place_label;     /* ... and the spots as labels of the table */
  size_t n_places;
  scwi_taken *taken;   /* in order; number i + 1 stands at i */
  size_t n_taken, taken_capacity;
  size_t taken_back, undone; /* how many, and the last one */
};

/* One thing that happened, checked and ready to be done. */
typedef struct scwi_take_step {
  scwi_taken item;  /* with `reading` of the row */
  bool has_reading;
  size_t gone;      /* order number that no longer counts; 0: none */
  bool marks;       /* the item takes the place of that number */
} scwi_take_step;

/* What the row would do; nothing is done yet. SCW_BAD_ARGUMENT says why it
 * cannot be. Memory for scwi_take_do is set aside. */
scw_status scwi_take_check(scw_context *context, scw_take *take,
                           const scwi_kept_row *row, scwi_take_step *out);
void scwi_take_do(scw_take *take, const scwi_take_step *step);

/* Reads a reading as typed into item->reading, and into item->text as it is
 * kept: with a decimal point. SCW_BAD_ARGUMENT when it is none. */
scw_status scwi_take_value(scw_context *context, scw_take *take,
                           const char *text, scwi_taken *item);

/* Puts what counts into the table again. */
scw_status scwi_take_refill(scw_context *context, scw_take *take);

/* The spot to go to next (null: not known) and how many readings are left of
 * the list or the baseline. */
scw_status scwi_take_next(scw_context *context, const scw_take *take,
                          const char **spot, size_t *left);

/* The reading that counts with this number (0: the last); null: none. */
const scwi_taken *scwi_take_find(const scw_take *take, size_t order);

/* Is the change worked out spot by spot? */
bool scwi_take_is_paired(const scw_take *take);

/* The advice as a sentence, from everything else in the state. */
scw_status scwi_take_sentence(scw_context *context, const scw_take *take,
                              double rounding, scw_take_state *state);
#endif
