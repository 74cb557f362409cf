# SPDX-License-Identifier: GPL-3.0-or-later
"""Exact two-sided permutation p by listing every split, in whole tenths."""
import itertools
import sys
import numpy as np

rows = [line.split(",") for line in open(sys.argv[1]).read().split()[1:]]
before = [round(10 * float(v)) for s, v in rows if s == "before"]
after = [round(10 * float(v)) for s, v in rows if s == "after"]
pooled = np.array(before + after)
n, k = len(pooled), len(after)
picks = np.fromiter(itertools.chain.from_iterable(
    itertools.combinations(range(n), k)), dtype=np.int8).reshape(-1, k)
sums = pooled[picks].sum(axis=1)
d = np.abs(sums * n - k * pooled.sum())
print((d >= abs(sum(after) * n - k * pooled.sum())).mean())
