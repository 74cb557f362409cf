# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges permutation, ranks, equivalence, control, baselines and unequal
plans: judge_design.py PROGRAM (the filter design_figures).

Permutation p comes from listing every assignment in whole numbers, and for
larger sets from polynomial multiplication in Python's own big integers. Exits 1
and prints every disagreement.
"""
import itertools
import math
import random
import sys
from collections import Counter
from fractions import Fraction

import numpy as np
from scipy import integrate, stats

import judging
from judging import ask, close, text

np.seterr(all="ignore")  # far tails of nct underflow to 0, as they should

# --- permutation -------------------------------------------------------------

def shares(distances, observed):
    """distances: Counter of |D*|; p, smallest p."""
    whole, largest = sum(distances.values()), max(distances)
    far = sum(n for d, n in distances.items() if d >= observed)
    return (float(Fraction(far, whole)),
            float(Fraction(distances[largest], whole)))


def list_sides(before, after):
    pool, k = before + after, len(before)
    n, total = len(pool), sum(before + after)
    found = Counter(abs(n * sum(pick) - k * total)
                    for pick in itertools.combinations(pool, k))
    return shares(found, abs(n * sum(before) - k * total))


def multiply_sides(before, after):
    """Counts of subsets by size and sum in big integers."""
    pool, k = before + after, len(before)
    n, total = len(pool), sum(pool)
    table = [Counter() for _ in range(k + 1)]
    table[0][0] = 1
    for v in pool:
        for size in range(k, 0, -1):
            for s, count in table[size - 1].items():
                table[size][s + v] += count
    found = Counter()
    for s, count in table[k].items():
        found[abs(n * s - k * total)] += count
    return shares(found, abs(n * sum(before) - k * total))


def flip_signs(d):
    found = Counter({0: 1})
    for v in d:
        nxt = Counter()
        for s, count in found.items():
            nxt[s + v] += count
            nxt[s - v] += count
        found = nxt
    folded = Counter()
    for s, count in found.items():
        folded[abs(s)] += count
    return shares(folded, abs(sum(d)))


def side_cases(rng):
    def draw(n, spread, shift=0):
        return [shift + round(rng.gauss(0, spread)) for _ in range(n)]

    for _ in range(120):  # small enough to list
        m, n = rng.randint(1, 7), rng.randint(1, 7)
        spread = rng.choice([0.4, 3, 30, 1e4])
        offset = rng.choice([0, 874, -10 ** 12])
        yield (draw(m, spread, offset), draw(n, spread, offset + int(spread)),
               list_sides)
    for m, n, spread in ((30, 30, 8), (10, 10, 20), (12, 12, 20), (40, 45, 6),
                         (5, 60, 15), (70, 75, 4), (15, 15, 40)):
        yield draw(m, spread), draw(n, spread, 3), multiply_sides
    # no table is small enough: listed by the program, up to 5e6 splits
    yield draw(9, 1e13), draw(8, 1e13, 10 ** 13), list_sides
    yield draw(7, 1e17), draw(6, 1e17), list_sides


def judge_shuffles(rng):
    cases = list(side_cases(rng))
    questions = [text("shuffle", 0.1, len(b), *b, 0.1, len(a), *a)
                 for b, a, _ in cases]
    for question, got, (b, a, way) in zip(questions, ask(questions), cases):
        p, smallest = way(b, a)
        close("p", question, got[0], p, 2e-15)
        close("smallest p", question, got[1], smallest, 2e-15)
        rarest = (2 if len(a) == len(b) else 1) / math.comb(len(a) + len(b),
                                                            len(a))
        close("smallest p of the design", question, got[2], rarest, 1e-14)
    return len(cases)


def judge_flips(rng):
    cases = []
    for i in range(100):
        spread = rng.choice([0.6, 4, 60])
        cases.append([round(rng.gauss(spread / 2, spread))
                      for _ in range(rng.randint(1, 20))])
    cases.append([round(rng.gauss(2, 9)) for _ in range(90)])
    cases.append([rng.randint(-10 ** 15, 3 * 10 ** 15) for _ in range(16)])
    questions = [text("flip", 0.01, len(d), *d) for d in cases]
    for question, got, d in zip(questions, ask(questions), cases):
        p, smallest = flip_signs(d)
        close("p", question, got[0], p, 2e-15)
        close("smallest p", question, got[1], smallest, 2e-15)
        close("smallest p of the design", question, got[2],
              2.0 ** (1 - len(d)), 1e-15)
    return len(cases)


def judge_unequal_repeats(rng):
    """Means of 2 and of 3 repeats: ticks of a half and of a third."""
    cases = []
    for _ in range(40):
        cases.append(([rng.randint(0, 30) for _ in range(rng.randint(2, 6))],
                      [rng.randint(0, 45) for _ in range(rng.randint(2, 6))]))
    questions = [text("shuffle", 0.1 / 2, len(b), *b, 0.1 / 3, len(a), *a)
                 for b, a in cases]
    for question, got, (b, a) in zip(questions, ask(questions), cases):
        p, smallest = list_sides([3 * v for v in b], [2 * v for v in a])
        close("p", question, got[0], p, 2e-15)
        close("smallest p", question, got[1], smallest, 2e-15)
    return len(cases)


# --- equivalence, control, baselines ----------------------------------------

def t_limit(tail, df):
    """Upper t quantile; stats.t.isf is good to 1e-9 only, so it is polished."""
    t = stats.t.isf(tail, df)
    for _ in range(2):
        t += (stats.t.sf(t, df) - tail) / stats.t.pdf(t, df)
    return t


def draw_side(rng, shift=0.0):
    return [shift + rng.gauss(0, rng.choice([0.5, 1, 2]))
            for _ in range(rng.randint(2, 15))]


def welch_parts(before, after):
    vb, va = (np.var(x, ddof=1) / len(x) for x in (before, after))
    u2 = vb + va
    df = u2 ** 2 / (vb ** 2 / (len(before) - 1) + va ** 2 / (len(after) - 1))
    return np.mean(after) - np.mean(before), math.sqrt(u2), df


def judge_tost(rng):
    cases = [(rng.choice([0.9, 0.95]), rng.uniform(0.2, 3), draw_side(rng),
              draw_side(rng, 0.3)) for _ in range(80)]
    questions = [text("tost", level, margin, len(b), *b, len(a), *a)
                 for level, margin, b, a in cases]
    for question, got, (level, margin, b, a) in zip(questions, ask(questions),
                                                    cases):
        d, u, df = welch_parts(b, a)
        p = max(stats.t.sf((d + margin) / u, df),
                stats.t.cdf((d - margin) / u, df))
        close("p", question, got[0], p, 1e-11)
        close("level", question, got[1], (1 - level) / 2, 1e-14)
        half = t_limit((1 - level) / 2, df) * u
        inside = -margin < d - half and d + half < margin
        close("p and interval", question, got[0] < got[1], bool(inside), 0)
    return len(cases)


def judge_control(rng):
    cases = [(0.95, *(draw_side(rng, i / 3) for i in range(4)))
             for _ in range(80)]
    questions = [text("control", level, *sum(([len(s), *s] for s in sides), []))
                 for level, *sides in cases]
    for question, got, (level, *sides) in zip(questions, ask(questions), cases):
        # four independent means at once
        v = [np.var(s, ddof=1) / len(s) for s in sides]
        df = sum(v) ** 2 / sum(x ** 2 / (len(s) - 1) for x, s in zip(v, sides))
        m = [np.mean(s) for s in sides]
        d, u = (m[1] - m[0]) - (m[3] - m[2]), math.sqrt(sum(v))
        half = t_limit((1 - level) / 2, df) * u
        for what, mine, wanted in zip(
                ("estimate", "u", "df", "p", "low", "high"), got,
                (d, u, df, 2 * stats.t.sf(abs(d) / u, df), d - half, d + half)):
            close(what, question, mine, wanted, 1e-10, 1e-13)
    return len(cases)


def judge_numbers(rng):
    cases = [(rng.choice([0.9, 0.95]), rng.uniform(-4, 4), rng.choice([0, 0.1, 1]),
              rng.choice([0, 0.1]), draw_side(rng)) for _ in range(120)]
    questions = [text("number", level, bare, bare_step, step, len(a), *a)
                 for level, bare, bare_step, step, a in cases]
    conditional = 0
    for question, got, case in zip(questions, ask(questions), cases):
        level, bare, bare_step, step, a = case
        d, n, s = np.mean(a) - bare, len(a), np.std(a, ddof=1)
        u = math.sqrt(s * s / n + max(0, step ** 2 / 12 - s * s / 3))
        df = u ** 4 / ((s * s / n) ** 2 / (n - 1))
        half = t_limit((1 - level) / 2, df) * u
        close("low", question, got[1], d - half, 1e-11, 1e-13)
        close("high", question, got[2], d + half, 1e-11, 1e-13)
        room = abs(d) - bare_step / 2
        if math.isnan(got[0]):
            close("verdict", question, got[3], 0, 0)  # cannot tell
            close("no break-even", question, bool(room <= half), True, 0)
            continue
        conditional += 1
        close("verdict", question, got[3], 5, 0)
        wider = math.hypot(u, got[0])
        close("break-even", question,
              t_limit((1 - level) / 2, df * (wider / u) ** 4) * wider, room,
              1e-11)
    if not 20 < conditional < 110:
        sys.exit("baseline cases are lopsided")
    return len(cases)


# --- unequal plans ------------------------------------------------------------

def power_of(sd_b, sd_a, level, n_b, n_a, effect):
    vb, va = sd_b ** 2 / n_b, sd_a ** 2 / n_a
    u2 = vb + va
    df = u2 ** 2 / (vb ** 2 / (n_b - 1) + va ** 2 / (n_a - 1))
    t, ncp = t_limit((1 - level) / 2, df), effect / math.sqrt(u2)
    return stats.nct.sf(t, df, ncp) + stats.nct.cdf(-t, df, ncp)


def judge_splits(rng):
    cases = [(rng.uniform(0.3, 1), rng.uniform(0.5, 3), 0.95,
              rng.uniform(0.8, 2.5), 0.8, rng.choice([0, 0, 0.5, 2, 3]))
             for _ in range(40)]
    questions = [text("split", 0, b, a, 0, level, 1, effect, power, ratio)
                 for b, a, level, effect, power, ratio in cases]
    for question, got, case in zip(questions, ask(questions), cases):
        sd_b, sd_a, level, effect, power, ratio = case
        n_b, n_a = map(int, got)

        def reaches(b, a):
            return power_of(sd_b, sd_a, level, b, a, effect) >= power

        if not reaches(n_b, n_a):
            close("split", question, n_b, math.nan, 0)
        if ratio:
            fewer = n_b - 1
            close("ratio", question, n_a, max(3, math.ceil(ratio * n_b)), 0)
            if fewer >= 3 and reaches(fewer, max(3, math.ceil(ratio * fewer))):
                close("split", question, n_b, fewer, 0)
            continue
        if any(reaches(b, n_b + n_a - 1 - b)
               for b in range(3, n_b + n_a - 3)):
            close("fewer would do", question, n_b + n_a, math.nan, 0)
        best = max(power_of(sd_b, sd_a, level, b, n_b + n_a - b, effect)
                   for b in range(3, n_b + n_a - 2))
        if n_b != n_a:
            close("best of its total", question,
                  power_of(sd_b, sd_a, level, n_b, n_a, effect), best, 0, 1e-9)
    return len(cases)


# --- designs ------------------------------------------------------------------

ONE_MEAN, PAIRED, TWO_SIDES, CONTROL_HALF = range(4)
HALF_WIDTH, DETECT = 0, 1
TIMES = {ONE_MEAN: (1, 1, 1, 1), PAIRED: (1, 2, 2, 2), TWO_SIDES: (2, 2, 2, 2),
         CONTROL_HALF: (1, 2, 4, 4)}


class Design:
    """One question, and what a design gives by SciPy."""

    def __init__(self, form, kind, target, power, level, fits, cost, variance,
                 told):
        self.form, self.kind, self.target, self.power = form, kind, target, power
        self.level, self.fits = level, fits
        self.cost, self.variance, self.told = cost, variance, told
        self.top = told.index(1)

    def question(self):
        return text("designs", self.form, self.kind, self.target, self.power,
                    self.level, 0, self.fits, *self.cost, *self.variance,
                    *self.told)

    def unit_variance(self, lower):
        """lower: arrays of counts of the levels below the top."""
        total, items = self.variance[self.top], 1.0
        for i, count in enumerate(lower):
            items = items * count
            total = total + self.variance[self.top + 1 + i] / items
        return total

    def unit_cost(self, lower):
        items = 1.0
        total = self.cost[self.top] * TIMES[self.form][self.top]
        for i, count in enumerate(lower):
            at = self.top + 1 + i
            items = items * count
            total = total + self.cost[at] * items * TIMES[self.form][at]
        return total

    def spread(self, variance, n):
        two = self.form in (TWO_SIDES, CONTROL_HALF)
        return np.sqrt((2 if two else 1) * variance / n), (2 if two else 1) * (
            n - 1)

    def reaches(self, variance, n):
        u, df = self.spread(variance, n)
        t = stats.t.isf((1 - self.level) / 2, df)
        if self.kind == HALF_WIDTH:
            return t * u <= self.target
        ncp = self.target / u
        chance = 1 - stats.nct.cdf(t, df, ncp) + stats.nct.cdf(-t, df, ncp)
        return np.where(ncp > 30, True, chance >= self.power)

    def room(self):
        return self.fits // (2 if self.form == CONTROL_HALF else 1)

    def most_units(self, lower):
        most = np.full(np.shape(lower[-1]), 1e6)
        if self.fits and self.top == 2:
            most[:] = self.room()
        if self.fits and self.top == 1:
            most = np.floor(self.room() / lower[0])
        return most

    def lower_counts(self, dearest):
        """Every choice below the top that three units could pay for."""
        ranges = [range(1, 61) if self.told[i] else (1,)
                  for i in range(self.top + 1, 4)]
        found = [c for c in itertools.product(*ranges)
                 if 3 * self.unit_cost(c) <= dearest
                 and not (self.fits and self.top == 0
                          and c[0] * c[1] > self.room())]
        return [np.array(column, float) for column in zip(*found)]


def smallest_units(design, lower, most):
    """Units needed for each choice; NaN where `most` do not do it."""
    variance = design.unit_variance(lower)
    able = (most >= 3) & design.reaches(variance, np.maximum(most, 3))
    low, high = np.full(variance.shape, 2.0), np.where(able, most, 3)
    while np.any(high - low > 1):
        middle = np.floor((low + high) / 2)
        there = design.reaches(variance, np.maximum(middle, 3))
        high = np.where(there & (high - low > 1), middle, high)
        low = np.where(~there & (high - low > 1), middle, low)
    return np.where(able, np.maximum(high, 3), np.nan)


def judge_one_design(design, question, got):
    top = design.top
    rows = [tuple(got[i:i + 5]) for i in range(3, len(got), 5)]
    best = rows[0][4]
    lower = design.lower_counts(best * 1.1 * (1 + 1e-9))
    each = design.unit_cost(lower)
    n = smallest_units(design, lower, np.minimum(
        np.floor(best * 1.1 * (1 + 1e-9) / each), design.most_units(lower)))
    costs, readings = n * each, n * np.prod(lower, axis=0)
    able = np.flatnonzero(~np.isnan(n))
    counts = np.array([n[able]] + [c[able] for c in lower]).T
    alone = [i for i, one in zip(able, counts)  # nothing less does it too
             if np.sum(np.all(counts <= one, axis=1)) == 1]
    wanted = sorted((round(costs[i], 9), readings[i]) for i in alone)[:5]
    close("designs", question, len(rows), len(wanted), 0)
    for row, (cost, many) in zip(rows, wanted):
        close("cost", question, row[4], cost, 1e-9)
        close("readings", question, row[0] * row[1] * row[2] * row[3], many, 0)
    first = np.array(rows[0][top + 1:4])
    variance, units = design.unit_variance(first), rows[0][top]
    u, df = design.spread(variance, units)
    t = t_limit((1 - design.level) / 2, df)
    close("half-width", question, got[0], t * u, 1e-10)
    if design.kind == DETECT:
        close("chance", question, got[2],
              stats.nct.sf(t, df, design.target / u)
              + stats.nct.cdf(-t, df, design.target / u), 1e-8)
        ncp = got[1] / u
        close("change seen", question, stats.nct.sf(t, df, ncp)
              + stats.nct.cdf(-t, df, ncp), design.power, 1e-8)


def judge_designs(rng):
    cases = []
    for i in range(60):
        told = rng.choice([(0, 0, 1, 1), (0, 0, 1, 0), (1, 0, 1, 1),
                           (1, 1, 1, 1), (0, 1, 1, 1)])
        cost = [rng.choice([5, 20, 60]), rng.choice([0, 5, 30]),
                rng.choice([0, 1, 3]), rng.choice([0.5, 1])]
        variance = [rng.choice([0, 0.02, 0.1]), rng.choice([0.01, 0.1]),
                    rng.choice([0, 0.1, 0.5]), rng.choice([0.05, 0.3, 1])]
        top = told.index(1)
        cost[:top] = [0] * top
        for level in range(4):
            if not told[level]:
                variance[level] = 0
        if not any(variance):
            variance[top] = 0.1
        kind = rng.choice([HALF_WIDTH, DETECT])
        cases.append(Design(rng.randrange(4), kind, rng.uniform(0.5, 1.2), 0.8,
                            0.95, rng.choice([0, 0, 12, 30]), cost, variance,
                            told))
    impossible = 0
    for design, got in zip(cases, ask([d.question() for d in cases])):
        question = design.question()
        if len(got) > 1:
            judge_one_design(design, question, got)
            continue
        impossible += 1  # all spots, read over and over, are too few
        lower = [np.array([float(c)]) for c in
                 [1e6 if design.told[i] else 1
                  for i in range(design.top + 1, 4)]]
        close("no room", question, bool(design.fits and design.top == 2), True,
              0)
        close("impossible", question,
              bool(design.reaches(design.unit_variance(lower),
                                  max(2, design.room()))), False, 0)
    if not 0 < impossible < 30:
        sys.exit(f"{impossible} impossible designs are lopsided")
    return len(cases)


def judge_expected(rng):
    cases = [(rng.randrange(4), 1, rng.uniform(0.4, 1.5), 0.8, 0.95,
              rng.uniform(1.5, 20), rng.uniform(0.1, 1), rng.randint(3, 30))
             for _ in range(20)]
    for case, got in zip(cases, ask([text("expected", *c) for c in cases])):
        form, kind, target, power, level, df, variance, n = case
        design = Design(form, kind, target, power, level, 0, [0] * 4,
                        [0, 0, variance, 0], (0, 0, 1, 0))

        def chance(q):
            """At the q quantile of what the variance may be."""
            u, nu = design.spread(variance * df / stats.chi2.ppf(q, df), n)
            t = stats.t.isf((1 - level) / 2, nu)
            if target / u > 35:
                return 1.0
            return (stats.nct.sf(t, nu, target / u)
                    + stats.nct.cdf(-t, nu, target / u))

        wanted = integrate.quad(chance, 0, 1, epsabs=1e-7, limit=400)[0]
        close("averaged chance", text("expected", *case), got[0], wanted, 0,
              2e-6)
    return len(cases)


def main():
    rng = random.Random(20240612)
    counts = {judge.__name__: judge(rng) for judge in (
        judge_shuffles, judge_flips, judge_unequal_repeats, judge_tost,
        judge_control, judge_numbers, judge_splits, judge_designs,
        judge_expected)}
    print(counts, "disagreements:", judging.bad)
    sys.exit(1 if judging.bad else 0)


main()
