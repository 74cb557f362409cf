/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Place on the panel: how the means of the spots depend on where they lie.
 * Definitions, sources and what the intervals deliver: docs/methods/place.md.
 * Lengths are in the unit of the positions, whatever that is. */
#ifndef SCATTERWISE_PLACE_H
#define SCATTERWISE_PLACE_H

#include "scatterwise/comparison.h"
#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A spot: its position and the mean of its repeats. A position that is not
 * known is NaN. */
typedef struct scw_place_spot {
  double x, y, mean;
} scw_place_spot;

/* What the positions span. */
typedef enum scw_span {
  SCW_SPAN_NONE,    /* no spot has a position */
  SCW_SPAN_POINT,   /* all at one place */
  SCW_SPAN_ALONG_X, /* on a line along x: all y are equal */
  SCW_SPAN_ALONG_Y, /* on a line along y: all x are equal */
  SCW_SPAN_SLANTED, /* on a slanted line: no plane can be told */
  SCW_SPAN_AREA
} scw_span;

/* z = a + b x + c y by least squares through the spots. */
typedef struct scw_gradient {
  scw_span span;     /* ALONG_X and ALONG_Y: a line; then the other slope is
                        missing as SCW_ON_ONE_LINE */
  scw_estimate x, y; /* slopes per unit of length; t on n - 3 df (line: n - 2) */
  scw_figure f;      /* both slopes against none */
  scw_figure df1, df2;
  scw_figure p;         /* of f */
  scw_figure rise;      /* highest less lowest fitted value at the spots */
  scw_figure sd_about;  /* SD of the spots about the plane */
} scw_gradient;

/* Which spots count as edge. */
typedef enum scw_edge_rule {
  SCW_EDGE_NONE, /* no area */
  SCW_EDGE_GRID, /* first and last row and column of a grid */
  SCW_EDGE_HULL  /* spots on the convex hull of all */
} scw_edge_rule;

/* The outer ring of spots less the ones inside it (Welch). */
typedef struct scw_edge {
  scw_edge_rule rule;
  size_t outer, inner;     /* spots */
  scw_figure outer_mean, inner_mean;
  scw_estimate difference; /* outer - inner; SCW_TOO_FEW below 3 and 3 */
} scw_edge;

/* Moran's I of the residuals from the plane, weights 1/distance. Expectation
 * and SD are those of residuals of independent normal readings, which the
 * fitted plane has pulled apart; missing together. */
typedef struct scw_moran {
  scw_figure i;          /* above `expected`: neighbours resemble each other */
  scw_figure expected;
  scw_figure sd;
  scw_figure p;          /* two-sided */
  scw_figure p_shuffled; /* the same as if the residuals themselves were
                            independent: moments under randomisation. Too
                            large on grids of few spots */
} scw_moran;

/* Semivariogram of the residuals from the plane: for pairs of spots so far
 * apart, half the mean squared difference. Bins without pairs are left out. */
enum { SCW_VARIOGRAM_BINS = 15 };
typedef struct scw_variogram_bin {
  size_t pairs;
  double distance;     /* mean distance of these pairs */
  double semivariance;
} scw_variogram_bin;
typedef struct scw_semivariogram {
  scw_presence state;
  double cutoff; /* pairs farther apart are not looked at: a third of the
                    diagonal of the rectangle that holds the spots */
  size_t n_bins;
  scw_variogram_bin bins[SCW_VARIOGRAM_BINS];
} scw_semivariogram;

/* Spots that resemble their neighbours: correlation (1 - nugget_share)
 * exp(-distance/range), fitted by restricted maximum likelihood. */
typedef struct scw_place_model {
  scw_presence state;      /* SCW_PRESENT when fitted; SCW_TOO_FEW,
                              SCW_TOO_MANY, SCW_NO_SCATTER,
                              SCW_ON_ONE_LINE (no plane) */
  bool with_plane;         /* about the plane, not about one mean */
  size_t spots;
  scw_figure sd;           /* of one spot: root of the whole variance */
  scw_figure range;        /* SCW_NO_DEPENDENCE: independent spots fit best;
                              SCW_FLAT: independent spots and any range fit
                              nearly as well (then all but gain is missing);
                              SCW_UNBOUNDED: longer than these spots can show
                              (then sd, effective_spots and the mean's
                              uncertainty are missing too, area_mean is not) */
  scw_figure nugget_share; /* 0 to 1, of the variance: what is not shared
                              even with a spot right beside */
  scw_figure range_low;    /* by the profile of the likelihood, at `level`; */
  scw_figure range_high;   /* each may be missing: the spots set no limit */
  scw_figure gain;         /* twice the log likelihood above independent spots */
  scw_estimate mean;       /* generalised least squares: of panels like this
                              one; with the plane: at the middle of the spots.
                              df effective_spots less 1 (plane: less 3); no
                              interval below 1 df, SCW_UNBOUNDED */
  scw_figure effective_spots; /* sd^2 / u^2(mean): so many independent spots
                                 would say as much */
  scw_estimate area_mean;  /* of this panel, over the rectangle its spots
                              fill */
} scw_place_model;

/* The panel in rows and columns, seen from above, y upwards. */
enum { SCW_MAP_ROWS = 20, SCW_MAP_COLUMNS = 34 };
typedef struct scw_place_map {
  bool grid;             /* a cell is a place of the grid; else a rectangle of
                            equal size, its value the mean of its spots */
  size_t rows, columns;  /* 0: nothing to draw */
  double mean[SCW_MAP_ROWS * SCW_MAP_COLUMNS]; /* row after row, lowest y
                            first; NaN where no spot lies */
  double x[SCW_MAP_COLUMNS], y[SCW_MAP_ROWS];  /* middles of the cells */
} scw_place_map;

/* All that place tells. */
typedef struct scw_place {
  size_t given;    /* spots */
  size_t unplaced; /* without a position, or with a mean that is no number */
  size_t merged;   /* shared their place with another: averaged, one spot */
  size_t used;     /* places */
  scw_span span;
  scw_gradient gradient;
  scw_edge edge;
  scw_moran moran;                 /* from 30 places on */
  scw_semivariogram semivariogram; /* from 30 places on */
  scw_estimate plain;              /* mean of the places, were they independent */
  scw_place_model model;           /* about one mean; from 30 places on */
  scw_place_model model_about_plane;
  scw_place_map map;
} scw_place;

#ifdef __cplusplus
}
#endif
#endif
