# SPDX-License-Identifier: GPL-3.0-or-later
"""Readings per side and pairs for each (effect, sd): a vectorised bisection
on SciPy's noncentral t."""
import sys
import numpy as np
from scipy import stats

x = np.loadtxt(sys.argv[1], delimiter=",", skiprows=1)
ratio = x[:, 0] / x[:, 1]


def power(n, two):
    df = 2 * n - 2 if two else n - 1
    ncp = ratio * np.sqrt(n / 2 if two else n)
    t = stats.t.ppf(0.975, df)
    return stats.nct.sf(t, df, ncp) + stats.nct.cdf(-t, df, ncp)


def need(two):
    low, high = np.full(len(x), 2.0), np.full(len(x), 2.0)
    while (short := power(high, two) < 0.9).any():
        high = np.where(short, 2 * high, high)
    while (high - low > 1).any():
        middle = np.floor((low + high) / 2)
        enough = power(middle, two) >= 0.9
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return np.maximum(high, 3)


for row in zip(*x.T, need(True), need(False)):
    print("%g,%g,%d,%d" % row)
