# SPDX-License-Identifier: GPL-3.0-or-later
"""make_references.py > references.csv: two models by 1e8 trials each (numpy's
PCG64, not our streams). Quantiles are means of those of 100 parts of 1e6; the
standard errors come from the scatter between the parts."""

import numpy as np

PARTS, SIZE = 100, 1_000_000


def ratio(r):
    pull = 160 + 9 / np.sqrt(5) * r.standard_t(4, SIZE)
    return (pull - r.uniform(-5, 5, SIZE)) / r.uniform(499, 501, SIZE)


def six(r):
    a, b = r.normal(2, 0.1, SIZE), r.normal(0.5, 0.05, SIZE)
    c, d = r.uniform(4.5, 5.5, SIZE), r.normal(3, 0.1, SIZE)
    e, f = r.uniform(0.8, 1.2, SIZE), r.normal(4, 0.2, SIZE)
    return a * np.exp(-b) * np.log(c) / d**1.5 + e**2 / f


print("model,trials,mean,mean_error,sd,sd_error,low,low_error,high,high_error")
for name, model in (("ratio", ratio), ("six", six)):
    r = np.random.Generator(np.random.PCG64(20260314))
    parts = []
    for _ in range(PARTS):
        y = model(r)
        parts.append([y.mean(), y.std(ddof=1), *np.quantile(y, [.025, .975])])
    parts = np.array(parts)
    means, errors = parts.mean(0), parts.std(0, ddof=1) / np.sqrt(PARTS)
    print(name, PARTS * SIZE,
          *(f"{x:.9g},{e:.2g}" for x, e in zip(means, errors)), sep=",")
