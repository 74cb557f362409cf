/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Restricted likelihood of places whose correlation is (1 - nugget)
 * exp(-distance/range), about a constant or a plane; the variance is profiled
 * out.
 *
 * For one range the correlation matrix is brought to tridiagonal form once;
 * then every nugget costs a pass over the places instead of their cube. */
#ifndef SCWI_FIELD_H
#define SCWI_FIELD_H

#include "place.h"

enum {
  SCWI_FIELD_MEANS = 3,  /* columns of the mean at most */
  SCWI_FIELD_COLUMNS = SCWI_FIELD_MEANS + 2 /* readings, and the panel */
};

typedef struct scwi_field {
  const scwi_places *places;
  size_t means;              /* columns of the mean: 1 to 3 */
  size_t columns;            /* means + 2 */
  double middle[SCWI_FIELD_MEANS]; /* taken off the columns */
  double panel; /* mean exp(-distance/range) of two points of the panel */
  double *matrix;            /* one block, freed through this */
  double *diagonal, *beside; /* the tridiagonal matrix */
  double *rotated; /* columns of the mean, readings, and for each place the
                      mean exp(-distance/range) to a point of the panel */
} scwi_field;

/* Room for the field. Free with scwi_field_free, also after a failure. */
scw_status scwi_field_new(scw_context *context, const scwi_places *places,
                          bool with_plane, scwi_field *out);
void scwi_field_free(scwi_field *field);

/* Takes a range (in the unit of the places). `panel` asks for the last column
 * and for field->panel, needed for the mean over the panel only. */
scw_status scwi_field_at(scw_context *context, scwi_field *field, double range,
                         bool panel);

/* Inner products of the columns under the inverse correlation matrix. */
typedef struct scwi_gram {
  double of[SCWI_FIELD_COLUMNS][SCWI_FIELD_COLUMNS];
  double log_determinant; /* of the correlation matrix; NaN when that is not
                             positive definite in doubles */
} scwi_gram;
scwi_gram scwi_field_gram(const scwi_field *field, double nugget);

/* Generalised least squares from a Gram matrix. */
typedef struct scwi_field_fit {
  double mean[SCWI_FIELD_MEANS];
  double covariance[SCWI_FIELD_MEANS][SCWI_FIELD_MEANS]; /* of the mean, for a
                                                            variance of 1 */
  double variance;       /* restricted estimate */
  double log_likelihood; /* restricted, up to a constant of the places */
} scwi_field_fit;
/* False when the Gram matrix is not positive definite. */
bool scwi_field_fit_of(const scwi_field *field, const scwi_gram *gram,
                       scwi_field_fit *out);

/* The nugget of the highest likelihood at the field's range. */
scw_status scwi_field_best_nugget(scw_context *context, const scwi_field *field,
                                  double *nugget, double *log_likelihood);

#endif
