/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: symmetric QR, by GSL. */
#include "eigen.h"

#include <gsl/gsl_eigen.h>
#include <gsl/gsl_errno.h>

#include "context.h"

scw_status scwi_symmetric_eigen(scw_context *context, double *a, size_t n,
                                double *values, double *vectors) {
  gsl_matrix_view matrix = gsl_matrix_view_array(a, n, n);
  gsl_matrix_view columns = gsl_matrix_view_array(vectors, n, n);
  gsl_vector_view found = gsl_vector_view_array(values, n);
  gsl_eigen_symmv_workspace *room = gsl_eigen_symmv_alloc(n);
  if (!room)
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out in a search for eigenvalues");
  int result =
      gsl_eigen_symmv(&matrix.matrix, &found.vector, &columns.matrix, room);
  gsl_eigen_symmv_free(room);
  if (result == GSL_SUCCESS)
    result = gsl_eigen_symmv_sort(&found.vector, &columns.matrix,
                                  GSL_EIGEN_SORT_VAL_ASC);
  if (result == GSL_SUCCESS) return SCW_OK;
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a search for eigenvalues did not settle");
}
