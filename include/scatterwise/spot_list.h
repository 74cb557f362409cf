/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spots to go to, read from a list. */
#ifndef SCATTERWISE_SPOT_LIST_H
#define SCATTERWISE_SPOT_LIST_H

#include "scatterwise/table.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One reading to take; a spot that stands in the list twice is read twice. */
typedef struct scw_spot_place {
  const char *spot, *panel, *product; /* panel and product "" where not said */
  scw_side side;                      /* of a list for both states */
  double x, y;                        /* NaN: not said */
} scw_spot_place;

typedef struct scw_spot_list {
  scw_spot_place *place;
  size_t n;
  const char *length_unit; /* of x and y, "" when not said */
  void *memory;            /* owns the texts */
} scw_spot_list;

/* Reads a CSV with a column spot and, where there are any, x, y, panel, product
 * (treatment) and state, such as the template of scatterwise/layout.h, in the
 * order of its rows; other columns are passed over. SCW_BAD_INPUT names line
 * and column. Free with scw_spot_list_free. */
SCW_API scw_status scw_spot_list_read(scw_context *context, scw_source source,
                                      scw_spot_list *out);
SCW_API void scw_spot_list_free(scw_spot_list *list);

#ifdef __cplusplus
}
#endif
#endif
