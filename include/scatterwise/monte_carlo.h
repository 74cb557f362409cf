/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of distributions by trials (JCGM 101), and what they say of the
 * law of propagation. Definitions: docs/methods/monte-carlo.md. */
#ifndef SCATTERWISE_MONTE_CARLO_H
#define SCATTERWISE_MONTE_CARLO_H

#include "scatterwise/figures.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How the trials are made. Zero-initialised: adaptive, two digits, seed 0,
 * at most SCW_TRIALS_MOST trials. */
typedef struct scw_trials_options {
  size_t trials; /* exactly so many; 0: until the digits stand */
  int digits;    /* significant digits of the standard uncertainty that the
                    trials must settle, 1 to 3; 0 is 2 */
  unsigned long long seed;
} scw_trials_options;

enum {
  SCW_TRIALS_LEAST = 1000,       /* the fewest that may be asked for */
  SCW_TRIALS_MOST = 100000000,   /* the most that may be asked for */
  SCW_TRIALS_ADAPTIVE = 10000000 /* where an adaptive run gives up */
};

/* Does the law of propagation stand beside the trials (JCGM 101, 8)? */
#define SCW_AGREEMENT_LIST(X)                                                  \
  X(SCW_AGREES, "agrees")                                                      \
  X(SCW_DIFFERS, "differs")                                                    \
  X(SCW_AGREEMENT_UNDECIDED, "undecided") /* too few trials to say */          \
  X(SCW_AGREEMENT_NOT_APPLICABLE, "not_applicable")

typedef enum scw_agreement {
#define SCW_AGREEMENT_ENUM(code, key) code,
  SCW_AGREEMENT_LIST(SCW_AGREEMENT_ENUM)
#undef SCW_AGREEMENT_ENUM
      SCW_AGREEMENT_END
} scw_agreement;

SCW_API const char *scw_agreement_code(scw_agreement agreement);

typedef struct scw_monte_carlo {
  size_t trials;
  unsigned long long seed;
  int digits;
  bool adaptive;
  bool settled;        /* adaptive: the digits stand; else the trials ended
                          before they did */
  size_t failed;       /* trials at which the model has no value. With any,
                          there are no figures: SCW_NO_VALUE */
  scw_figure mean, sd; /* SCW_NO_MEAN, SCW_NO_SD where the distribution has
                          none; the intervals stand all the same */
  scw_figure median;
  scw_interval symmetric; /* as much probability below as above */
  scw_interval shortest;
  /* Standard errors of the figures, from the scatter of their values in blocks
   * of trials. */
  scw_figure mean_error, sd_error, low_error, high_error;
  double tolerance;    /* half a unit of the last digit asked for, JCGM 101
                          7.9.2; 0 where there is no standard uncertainty */
  scw_figure d_low, d_high; /* distance of the ends of the law of propagation
                          from those of the symmetric interval, JCGM 101 8.1 */
  scw_agreement agreement; /* both within the tolerance of the law's own
                          uncertainty; undecided within two standard errors of
                          it */
  bool as_normal;      /* correlated inputs of several kinds were drawn as
                          normal with their standard uncertainties */
} scw_monte_carlo;

#ifdef __cplusplus
}
#endif
#endif
