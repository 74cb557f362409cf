/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether several means differ at all: the background of comparisons. */
#ifndef SCWI_ANALYSIS_OF_VARIANCE_H
#define SCWI_ANALYSIS_OF_VARIANCE_H

#include "moments.h"
#include "scatterwise/comparison.h"

/* One way, SDs taken as equal. SCW_TOO_FEW without two groups and a degree of
 * freedom within, SCW_NO_SCATTER where nothing scatters within. */
scw_f_test scwi_one_way(const scwi_moments *groups, size_t n);

/* SDs not taken as equal (Welch 1951, Biometrika 38, 330-336). SCW_TOO_FEW where
 * a group has one reading, SCW_NO_SCATTER where one does not scatter. */
scw_f_test scwi_welch_one_way(const scwi_moments *groups, size_t n);

#endif
