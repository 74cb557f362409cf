# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges the figures of one reading set by SciPy and by plain counting:
judge_one_set.py PROGRAM

PROGRAM is the filter set_figures. Moments are worked out in exact fractions;
permutation p by going through all orders of up to eight readings. Exits 1 and
prints every disagreement.
"""
import csv
import itertools
import math
import random
import subprocess
import sys
from fractions import Fraction

import numpy as np
from scipy import stats

bad = compared = 0


def ask(questions):
    done = subprocess.run([sys.argv[1]], input="\n".join(questions) + "\n",
                          text=True, capture_output=True)
    if done.returncode:
        sys.exit(done.stdout[-500:] + done.stderr)
    return list(csv.DictReader(done.stdout.splitlines()))


def close(case, what, wanted, relative, absolute=0.0):
    global bad, compared
    compared += 1
    got = case["got"][what]
    if got != "NA" and abs(float(got) - wanted) <= max(
            relative * abs(wanted), absolute):
        return
    bad += 1
    print(f"{what}: got {got}, wanted {wanted!r}\n   {case['question'][:300]}")


# --- cases ------------------------------------------------------------------

def make(rng, i):
    n = rng.choice([2, 3, 4, 5, 5, 6, 6, 7, 8, 9, 10, 12, 14, 15, 20, 25, 60])
    spread = rng.choice([0.6, 2, 5, 30, 1000])
    ticks = [round(rng.gauss(0, spread) + (j * spread / 4 if i % 4 == 1 else 0))
             for j in range(n)]
    if i % 5 == 0:
        ticks[rng.randrange(n)] += round(9 * spread)
    offset = rng.choice([0, 874, 10**6, 10**9])
    ticks = [t + offset for t in ticks]
    digits = rng.choice([-12, -3, 0, 1, 1, 1, 2, 6, 12])
    candidates = rng.choice([0, 0, 2])
    question = " ".join([f"1e{-digits}", str(candidates)] +
                        [f"{t}e{-digits}" for t in ticks])
    return {"ticks": ticks, "n": n, "unit": Fraction(10) ** -digits,
            "candidates": candidates, "question": question}


def root(value):
    """Square root of a fraction to far more digits than a double has."""
    scale = 10 ** 60
    return Fraction(math.isqrt(value.numerator * scale * scale
                               // value.denominator), scale)


# --- judgement --------------------------------------------------------------

def judge_moments(case):
    t, n, unit = case["ticks"], case["n"], case["unit"]
    mean = Fraction(sum(t), n)
    squares = sum((v - mean) ** 2 for v in t)
    case["mean"], case["squares"] = mean, squares
    sd = root(squares / (n - 1))
    eps = 2.3e-16
    close(case, "mean", float(mean * unit), eps)  # the nearest double or next
    close(case, "sd", float(sd * unit), 4 * eps)
    quartiles = np.percentile(np.array([v - t[0] for v in t], float),
                              [25, 50, 75])
    for name, q in zip(["q1", "median", "q3"], quartiles):
        close(case, name, float((Fraction(q) + t[0]) * unit), eps)
    middle = Fraction(quartiles[1]) + t[0]
    away = sorted(abs(v - middle) for v in t)
    mad = (away[(n - 1) // 2] + away[n // 2]) / 2
    case["middle"], case["mad"] = middle, mad
    close(case, "mad", float(mad * unit), eps)
    # display step of one tick
    term = max(Fraction(0), Fraction(1, 12) - sd * sd / 3)
    u2 = sd * sd / n + term
    close(case, "standard_uncertainty", float(root(u2) * unit), 4 * eps)
    df = float((n - 1) * (u2 / (sd * sd / n)) ** 2)
    close(case, "df", df, 1e-14)
    judge_ends(case, "low", "high", mean * unit, root(u2) * unit, df)
    for name, p in (("sd_low", 0.975), ("sd_high", 0.025)):
        close(case, name, float(sd * unit)
              * math.sqrt((n - 1) / stats.chi2.ppf(p, n - 1)), 1e-12)
    case["sd"] = sd


def judge_ends(case, low, high, estimate, u, df):
    """The ends of a t interval, by the tail they leave: SciPy's t quantiles
    are off by up to 1e-9, its tails are not."""
    loss = 1e-12 + 1e-15 * abs(float(estimate / u))
    for name, sign in ((low, -1), (high, 1)):
        t = float(sign * (Fraction(float(case["got"][name])) - estimate) / u)
        tail = {"question": case["question"], "got": {name: stats.t.sf(t, df)}}
        close(tail, name, 0.025, loss)


def judge_robust(case):
    if case["mad"] == 0:
        return
    x = np.array([float(v - case["middle"]) for v in case["ticks"]])
    m, s = 0.0, 1.483 * float(case["mad"])
    for _ in range(2000):
        last = s
        drawn = np.clip(x, m - 1.5 * s, m + 1.5 * s)
        m, s = drawn.mean(), 1.134 * drawn.std(ddof=1)
        if abs(s - last) <= 1e-16 * s:
            break
    unit = float(case["unit"])
    close(case, "robust_sd", s * unit, 1e-13)
    close(case, "robust_mean", (m + float(case["middle"])) * unit, 1e-15,
          1e-13 * s * unit)


def judge_stand_out(case):
    """Rosner's procedure from his paper, in floats about the median."""
    n, got = case["n"], case["got"]
    if n < 3:
        return
    x = [float(v - case["middle"]) for v in case["ticks"]]
    asked = case["candidates"]
    wanted = asked or (1 if n < 15 else n // 5)
    wanted = min(wanted, (n - 1) // 2, 20)
    left, removed, last, statistics = list(range(n)), [], 0, []
    for i in range(1, wanted + 1):
        values = np.array([x[k] for k in left])
        if values.std() == 0:
            break
        far = np.abs(values - values.mean())
        r = far.max() / values.std(ddof=1)
        if i == 1:
            close(case, "grubbs_statistic", r, 1e-13)
        p = 1 - 0.05 / (2 * (n - i + 1))
        t = stats.t.ppf(p, n - i - 1)
        limit = (n - i) * t / math.sqrt((n - i - 1 + t * t) * (n - i + 1))
        statistics.append(r)
        removed.append(left.pop(int(far.argmax())))
        if r > limit:
            last = i
    if asked or n >= 15:
        mine = [float(v) for v in got["steps"].split()]
        if len(mine) != len(statistics) or not np.allclose(
                mine, statistics, rtol=1e-12):
            close(case, "steps", math.nan, 0)
    flagged = sorted(removed[:last], key=lambda k: x[k])
    flagged = [x[k] for k in flagged if abs(x[k]) > 2]
    if sorted(x[int(k) - 1] for k in got["flags"].split()) != flagged:
        close({**case, "got": {"flags": "NA"}}, "flags", math.nan, 0)
    if case["mad"] > 0:
        z = [0.6745 * float((v - case["middle"]) / case["mad"])
             for v in case["ticks"]]
        close(case, "beyond_3_5",
              sum(abs(a) > 3.5 and abs(b) > 2 for a, b in zip(z, x)), 0)


def judge_line(case):
    n, unit = case["n"], float(case["unit"])
    t = [v - case["ticks"][0] for v in case["ticks"]]
    if n < 3 or len(set(b - a for a, b in zip(t, t[1:]))) == 1:
        return
    line = stats.linregress(range(n), t)
    close(case, "slope", line.slope * unit, 1e-12, 1e-13 * line.stderr * unit)
    order = [2 * i + 1 - n for i in range(n)]
    slope = 2 * Fraction(sum(o * v for o, v in zip(order, t)),
                         sum(o * o for o in order))
    left = sum((v + case["ticks"][0] - case["mean"] - slope * o / 2) ** 2
               for o, v in zip(order, t)) / (n - 2)
    u = root(4 * left / sum(o * o for o in order))
    close(case, "sd_about_line", float(root(left)) * unit, 1e-13)
    judge_ends(case, "slope_low", "slope_high", slope * case["unit"],
               u * case["unit"], n - 2)
    if line.pvalue > 1e-6:
        close(case, "slope_p", line.pvalue, 1e-9)
    d = [v - case["mean"] for v in case["ticks"]]
    lag1 = sum(a * b for a, b in zip(d, d[1:])) / case["squares"]
    close(case, "lag1", float(lag1), 2e-15, 1e-16)


def midranks2(t):
    return [1 + sum((v <= w) + (v < w) for v in t) for w in t]


def judge_rank_von_neumann(case, orders):
    n = case["n"]
    if n < 3:
        return
    rank = midranks2(case["ticks"])

    def steps(r):
        return sum((a - b) ** 2 for a, b in zip(r, r[1:]))

    now = steps(rank)
    ratio = Fraction(now, sum((r - n - 1) ** 2 for r in rank))
    close(case, "rank_von_neumann", float(ratio), 1e-15)
    if orders:
        all_steps = [steps(o) for o in itertools.permutations(rank)]
        fewer = min(sum(s <= now for s in all_steps),
                    sum(s >= now for s in all_steps))
        close(case, "lag1_p", min(1, 2 * fewer / len(all_steps)), 1e-14)
    elif n > 9:  # Bartels 1982: ratio/4 is nearly beta(a, a)
        a = (5 * n * (n + 1) * (n - 1) ** 2
             / (2 * (n - 2) * (5 * n * n - 2 * n - 9)) - 0.5)
        beta = stats.beta(a, a)
        p = 2 * min(beta.cdf(float(ratio) / 4), beta.sf(float(ratio) / 4))
        close(case, "lag1_p", min(1, p), 1e-11)


def largest_split(t):
    n, total, prefix, best = len(t), sum(t), 0, Fraction(0)
    for k in range(1, n - 1):
        prefix += t[k - 1]
        if k >= 2:
            best = max(best, abs(Fraction(k * total - n * prefix,
                                          k * (n - k))))
    return best


def judge_level_shift(case, orders):
    n, t = case["n"], [v - case["ticks"][0] for v in case["ticks"]]
    if n < 4:
        return
    size = largest_split(t)
    got = dict(case["got"], shift=str(abs(float(case["got"]["shift"]))))
    close({**case, "got": got}, "shift", float(size * case["unit"]), 1e-15)
    if orders:
        total, splits = sum(t), range(2, n - 1)
        least = [math.ceil(size * k * (n - k)) for k in splits]
        reached = every = 0
        for o in itertools.permutations(t):
            every += 1
            sums = list(itertools.accumulate(o))
            reached += any(abs(k * total - n * sums[k - 1]) >= limit
                           for k, limit in zip(splits, least))
        close(case, "shift_p", reached / every, 1e-14)


def judge_kendall(case, orders):
    n, t = case["n"], case["ticks"]

    def s_of(o):
        return sum((o[j] > o[i]) - (o[j] < o[i])
                   for i in range(len(o)) for j in range(i + 1, len(o)))

    s = s_of(t)
    close(case, "kendall_s", s, 0)
    if len(set(t)) == n and n <= 50:
        p = stats.kendalltau(range(n), t, method="exact").pvalue
        close(case, "kendall_p", p, 1e-12)
    elif orders and n <= 7:
        every = [abs(s_of(o)) >= abs(s) for o in itertools.permutations(t)]
        close(case, "kendall_p", sum(every) / len(every), 1e-14)


def judge_shape(case):
    n, t = case["n"], case["ticks"]
    x = np.array([v - t[0] for v in t], float)
    if n >= 3:
        w = stats.shapiro(x)
        # SciPy computes in single precision in part
        close(case, "shapiro_w", w[0], 2e-6)
        close(case, "shapiro_p", w[1], 1e-3, 1e-4)
    if n >= 8:
        a = stats.anderson(x).statistic * (1 + 0.75 / n + 2.25 / n ** 2)
        close(case, "anderson_darling", a, 1e-11)
        if a >= 0.6:
            p = math.exp(1.2937 - 5.709 * min(a, 10) + 0.0186 * min(a, 10) ** 2)
        elif a >= 0.34:
            p = math.exp(0.9177 - 4.279 * a - 1.38 * a * a)
        elif a >= 0.2:
            p = 1 - math.exp(-8.318 + 42.796 * a - 59.938 * a * a)
        else:
            p = 1 - math.exp(-13.436 + 101.14 * a - 223.73 * a * a)
        close(case, "anderson_darling_p", p, 1e-9)


def main():
    rng = random.Random(20250817)
    cases = [make(rng, i) for i in range(300)]
    for case, got in zip(cases, ask([c["question"] for c in cases])):
        case["got"] = got
    eights = 0
    for case in cases:
        if len(set(case["ticks"])) < 2:
            continue
        eights += case["n"] == 8
        orders = case["n"] <= 7 or (case["n"] == 8 and eights <= 3)
        judge_moments(case)
        judge_robust(case)
        judge_stand_out(case)
        judge_line(case)
        judge_rank_von_neumann(case, orders)
        judge_level_shift(case, orders)
        judge_kendall(case, orders)
        judge_shape(case)
    print(f"{compared} figures of {len(cases)} sets compared, {bad} disagree")
    sys.exit(bad > 0 or compared < 5000)


main()
