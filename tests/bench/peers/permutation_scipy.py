# SPDX-License-Identifier: GPL-3.0-or-later
"""The same by scipy.stats.permutation_test on the doubles."""
import sys
import numpy as np
from scipy import stats

rows = [line.split(",") for line in open(sys.argv[1]).read().split()[1:]]
before = [float(v) for s, v in rows if s == "before"]
after = [float(v) for s, v in rows if s == "after"]
print(stats.permutation_test(
    (after, before), lambda a, b, axis: np.mean(a, axis) - np.mean(b, axis),
    vectorized=True, n_resamples=np.inf, batch=20000).pvalue)
