/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: symmetric QR, by GSL. */
#include "eigen.h"

#include <stdlib.h>

#include <gsl/gsl_eigen.h>
#include <gsl/gsl_errno.h>

#include "context.h"
#include "memory.h"

scw_status scwi_symmetric_eigen(scw_context *context, double *a, size_t n,
                                double *values, double *vectors) {
  gsl_matrix_view matrix = gsl_matrix_view_array(a, n, n);
  gsl_matrix_view columns = gsl_matrix_view_array(vectors, n, n);
  gsl_vector_view found = gsl_vector_view_array(values, n);
  double *room;
  /* GSL's own allocation loses memory when it fails halfway. */
  scw_status status = SCWI_ALLOCATE(context, 4 * n, &room);
  if (status) return status;
  gsl_eigen_symmv_workspace workspace = {n, room, room + n, room + 2 * n,
                                         room + 3 * n};
  int result = gsl_eigen_symmv(&matrix.matrix, &found.vector, &columns.matrix,
                               &workspace);
  free(room);
  if (result == GSL_SUCCESS)
    result = gsl_eigen_symmv_sort(&found.vector, &columns.matrix,
                                  GSL_EIGEN_SORT_VAL_ASC);
  if (result == GSL_SUCCESS) return SCW_OK;
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a search for eigenvalues did not settle");
}
