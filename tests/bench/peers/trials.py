# SPDX-License-Identifier: GPL-3.0-or-later
"""The two models of monte_carlo_speed.c in NumPy: mean, SD, median, symmetric
and shortest interval."""
import statistics
import time

import numpy as np


def ratio(r, n):
    pull = 160 + 4 / 5**.5 * r.standard_t(4, n)
    pull += r.uniform(-1, 1, n) * (100 / 12 - 16 / 3)**.5 * 3**.5
    return pull / r.uniform(499, 501, n)


def six(r, n):
    a, b = r.normal(2, 0.1, n), r.normal(0.5, 0.05, n)
    c, d = r.uniform(4.5, 5.5, n), r.normal(3, 0.1, n)
    e, f = r.uniform(0.8, 1.2, n), r.normal(4, 0.2, n)
    return a * np.exp(-b) * np.log(c) / d**1.5 + e**2 / f


def figures(y):
    y.sort()
    n = len(y)
    q = int(0.95 * n + 0.5)
    width = y[q:] - y[:n - q]
    r = width.argmin()
    return y.mean(), y.std(ddof=1), y[n // 2], y[r], y[r + q]


for name, model, n, rounds in (("ratio", ratio, 10**6, 7),
                               ("ratio", ratio, 10**7, 3),
                               ("six", six, 10**6, 7),
                               ("six", six, 10**7, 3)):
    times, processor = [], []
    for _ in range(rounds):
        r = np.random.default_rng(1)
        start, before = time.perf_counter(), time.process_time()
        made = figures(model(r, n))
        times.append(time.perf_counter() - start)
        processor.append(time.process_time() - before)
    print(f"{name:6} {n:9} trials: {statistics.median(times):.3f} s, "
          f"least {min(times):.3f} s, processor "
          f"{statistics.median(processor):.3f} s ", *(
        f"{x:.6g}" for x in made))
