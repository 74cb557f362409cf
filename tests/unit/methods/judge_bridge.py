# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges lines with error in both and limits of agreement: judge_bridge.py
PROGRAM (the filter bridge_figures).

The line comes from a singular value decomposition (total least squares) and
from scipy.odr; its slope interval from a root search on the correlation test
itself; limits from scipy.stats.nct. Exits 1 and prints every disagreement.
"""
import math
import random
import sys
import warnings

import numpy as np
from scipy import optimize, stats

import judging
from judging import ask, close, text

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from scipy import odr

np.seterr(all="ignore")

def by_svd(x, y, ratio):
    """Slope of the first principal axis of (x, y / root ratio)."""
    a = np.column_stack([x - x.mean(), (y - y.mean()) / math.sqrt(ratio)])
    v = np.linalg.svd(a, full_matrices=False)[2][0]
    return v[1] / v[0] * math.sqrt(ratio)


def correlation(x, y, ratio, slope):
    u, v = y - slope * x, ratio * x + slope * y
    u, v = u - u.mean(), v - v.mean()
    return u @ v / math.sqrt((u @ u) * (v @ v))


def slope_ends(x, y, ratio, slope, level):
    """Where the correlation reaches its critical value; None: nowhere."""
    n = len(x)
    t = stats.t.ppf((1 + level) / 2, n - 2)
    critical = t / math.sqrt(n - 2 + t * t)
    root = math.sqrt(ratio)
    at = math.atan(slope / root)

    def off(angle):
        return abs(correlation(x, y, ratio, root * math.tan(angle))) - critical

    def end(sign):
        grid = [at + sign * k * 0.01 for k in range(1, 79)]
        for low, high in zip([at] + grid, grid):
            if abs(high) >= math.pi / 2:
                return None
            if off(high) > 0:
                return root * math.tan(optimize.brentq(
                    off, min(low, high), max(low, high), xtol=1e-14,
                    rtol=1e-14))
        return None

    return end(-1), end(1)


def judge_lines(rng):
    cases = []
    for _ in range(100):
        n = rng.randint(3, 25)
        ratio = rng.choice([1.0, 0.25, 4.0, 17.0])
        scale = 10.0 ** rng.choice([-12, -3, 0, 0, 3, 12])
        true = [rng.uniform(20, 95) for _ in range(n)]
        slope = rng.choice([1.1, 0.9, 0.3, -0.8])
        error = rng.choice([0.05, 0.5, 3.0, 15.0])
        x = [scale * (t + rng.gauss(0, error)) for t in true]
        y = [scale * (3 + slope * t + rng.gauss(0, error * math.sqrt(ratio)))
             for t in true]
        cases.append((np.array(x), np.array(y), ratio,
                      rng.choice([0.9, 0.95, 0.99])))
    questions = [text("line", ratio, 0, level, len(x), *x, len(y), *y)
                 for x, y, ratio, level in cases]
    for question, got, (x, y, ratio, level) in zip(questions, ask(questions),
                                                   cases):
        slope = by_svd(x, y, ratio)
        close("slope", question, got[0], slope, 1e-9)
        close("intercept", question, got[1], y.mean() - slope * x.mean(), 1e-9,
              1e-9 * abs(y).max())
        left = y - y.mean() - slope * (x - x.mean())
        close("scatter", question, got[2],
              math.sqrt((left ** 2).sum() / (len(x) - 2)), 1e-9)
        low, high = slope_ends(x, y, ratio, slope, level)
        if low is None or high is None:
            close("unbounded", question, math.isnan(got[4]), True, 0)
        else:
            # the ends lie where the correlation is flat in the slope
            close("low", question, got[4], low, 1e-8, 1e-8 * abs(slope))
            close("high", question, got[5], high, 1e-8, 1e-8 * abs(slope))
    return len(cases)


def judge_odr(rng):
    """scipy.odr, an iterative program of its own: to its own convergence."""
    cases = []
    for _ in range(40):
        n, ratio = rng.randint(4, 20), rng.choice([1.0, 0.5, 6.0])
        true = [rng.uniform(20, 95) for _ in range(n)]
        x = np.array([t + rng.gauss(0, 0.8) for t in true])
        y = np.array([2 + 1.05 * t + rng.gauss(0, 0.8 * math.sqrt(ratio))
                      for t in true])
        cases.append((x, y, ratio))
    questions = [text("line", r, 0, 0.95, len(x), *x, len(y), *y)
                 for x, y, r in cases]
    for question, got, (x, y, ratio) in zip(questions, ask(questions), cases):
        data = odr.RealData(x, y, sx=1.0, sy=math.sqrt(ratio))
        run = odr.ODR(data, odr.unilinear, beta0=[1.0, 0.0], sstol=1e-15,
                      partol=1e-15, maxit=500).run()
        close("odr slope", question, got[0], run.beta[0], 1e-6)
        close("odr intercept", question, got[1], run.beta[1], 1e-6, 1e-4)
    return len(cases)


def judge_limits(rng):
    cases = []
    for _ in range(60):
        n, sd = rng.randint(2, 60), rng.uniform(0.1, 3)
        repeats = rng.random() < 0.5
        old = ((rng.uniform(0.1, 2), rng.randint(1, 30), rng.choice([0.5, 1 / 3]))
               if repeats else (0.0, 0, 1.0))
        new = ((rng.uniform(0.1, 2), rng.randint(1, 30), rng.choice([0.5, 0.2]))
               if repeats else (0.0, 0, 1.0))
        cases.append((n, rng.uniform(-2, 2), sd, *old, *new,
                      rng.choice([0.9, 0.95, 0.99]), rng.choice([0.9, 0.95])))
    questions = [text("limits", *case) for case in cases]
    for question, got, case in zip(questions, ask(questions), cases):
        n, bias, sd, so, fo, ko, sn, fn, kn, content, level = case
        parts = [sd ** 2, (1 - ko) * so ** 2, (1 - kn) * sn ** 2]
        dfs = [n - 1, fo, fn]
        total = sum(parts)
        df = total ** 2 / sum(p * p / f for p, f in zip(parts, dfs) if p > 0)
        z = stats.norm.ppf((1 + content) / 2)
        one = math.sqrt(total)
        many = total / (sd ** 2 / n)
        low, high = (stats.nct.ppf(p, df, z * math.sqrt(many)) / math.sqrt(many)
                     for p in ((1 - level) / 2, (1 + level) / 2))
        wanted = [one, df, bias - z * one, bias + z * one, bias - high * one,
                  bias - low * one, bias + low * one, bias + high * one]
        for what, g, w, t in zip(["sd", "df", "low", "high"] + ["ends"] * 4, got,
                                 wanted, [1e-13] * 4 + [1e-9] * 4):
            if what == "ends" and z * math.sqrt(many) > 40:
                t = 0.022 * (high - low)  # what the program promises there
            # differences of bias and limits may nearly vanish
            close(what, question, g, w, 0 if t > 1e-9 else t, t * one)
    return len(cases)


def judge_items(rng):
    cases = [(rng.uniform(-0.5, 0.5), rng.uniform(0.2, 1), 0.95,
              rng.choice([0.9, 0.95]), rng.uniform(1.5, 5)) for _ in range(25)]
    questions = [text("items", *case) for case in cases]
    for question, got, (bias, sd, content, level, margin) in zip(
            questions, ask(questions), cases):
        z = stats.norm.ppf((1 + content) / 2)

        def reach(n):
            return abs(bias) + sd / math.sqrt(n) * stats.nct.ppf(
                (1 + level) / 2, n - 1, z * math.sqrt(n))

        wanted = math.nan
        if abs(bias) + z * sd < margin:
            wanted = next((n for n in range(3, 400) if reach(n) < margin), None)
        if wanted is None:  # beyond 400 the program approximates
            continue
        if math.isnan(wanted):
            close("never", question, math.isnan(got[0]), True, 0)
        else:
            close("items", question, got[0], wanted, 0)
    question = [text("assured", 0.7, 9.0, 0.8)]
    close("assured", question[0], ask(question)[0][0],
          0.7 * math.sqrt(9 / stats.chi2.ppf(0.2, 9)), 1e-12)
    return len(cases)


def main():
    rng = random.Random(20260314)
    counts = [judge(rng) for judge in (judge_lines, judge_odr, judge_limits,
                                       judge_items)]
    print(f"{counts} cases of lines, odr, limits, items; {judging.bad} disagree")
    return 1 if judging.bad else 0


if __name__ == "__main__":
    sys.exit(main())
