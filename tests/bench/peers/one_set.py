# SPDX-License-Identifier: GPL-3.0-or-later
"""Mean, SD, interval and Grubbs' limit of one set."""
import sys
import numpy as np
from scipy import stats

x = np.loadtxt(sys.argv[1])
n = len(x)
m, s = x.mean(), x.std(ddof=1)
h = stats.t.ppf(0.975, n - 1) * s / np.sqrt(n)
t = stats.t.ppf(1 - 0.05 / (2 * n), n - 2)
print(m, s, m - h, m + h, abs(x - m).max() / s,
      (n - 1) / np.sqrt(n) * np.sqrt(t * t / (n - 2 + t * t)))
