# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges ratios of two means: judge_ratio.py PROGRAM (the filter
ratio_figures).

No formula of Fieller's is used: a ratio r is inside when the t test of
after - r before against 0 (scipy.stats, its SD worked out anew at every r) does
not reject. Ends come from a root search on that test; the kind of the set from
the test at the ends of the line and at its largest |t|. Exits 1 and prints
every disagreement.
"""
import math
import random
import sys

import numpy as np
from scipy import optimize, stats

import judging
from judging import ask, text


def close(what, question, got, wanted, relative):
    judging.close(what, question, got, wanted, relative, missing_too=True)



def t_quantile(tail, df):
    """stats.t.ppf is good to 1e-9 only; its own upper tail mends that."""
    t = stats.t.isf(tail, df)
    for _ in range(3):
        t += (stats.t.sf(t, df) - tail) / stats.t.pdf(t, df)
    return t


class Case:
    """One comparison: paired or two independent sides."""

    def __init__(self, paired, before, after, level):
        self.paired, self.level = paired, level
        self.before, self.after = np.array(before), np.array(after)
        self.ratio = self.after.mean() / self.before.mean()
        if paired:
            self.df = len(before) - 1
        else:
            va = self.after.var(ddof=1) / len(after)
            vb = self.ratio ** 2 * self.before.var(ddof=1) / len(before)
            self.df = (va + vb) ** 2 / (va ** 2 / (len(after) - 1) +
                                        vb ** 2 / (len(before) - 1))
        self.critical = t_quantile((1 - level) / 2, self.df)

    def u2(self, r):
        if self.paired:
            d = self.after - r * self.before
            return d.var(ddof=1) / len(d)
        return (self.after.var(ddof=1) / len(self.after) +
                r * r * self.before.var(ddof=1) / len(self.before))

    def excess(self, r):
        """Above 0: the test rejects r."""
        d = self.after.mean() - r * self.before.mean()
        return d * d / self.u2(r) - self.critical ** 2

    def at_infinity(self):
        b = self.before
        return b.mean() ** 2 / (b.var(ddof=1) / len(b)) - self.critical ** 2

    def along(self, angle):
        """The line of all ratios as an angle from the ratio found."""
        return self.excess(self.ratio + math.tan(angle))

    def answer(self):
        scale = abs(self.ratio) + math.sqrt(self.u2(self.ratio)) / abs(
            self.before.mean())
        f = lambda a: self.excess(self.ratio + scale * math.tan(a))
        edge = math.pi / 2
        grid = np.concatenate([np.linspace(-edge, edge, 1001)[1:-1],
                               edge - np.logspace(-1, -9, 60),
                               np.logspace(-1, -9, 60) - edge,
                               np.logspace(-9, -1, 60), -np.logspace(-9, -1, 60),
                               [0.0]])
        grid.sort()
        values = np.array([f(a) for a in grid])
        crossings = [optimize.brentq(f, grid[i], grid[i + 1], xtol=1e-300,
                                     rtol=1e-15)
                     for i in range(len(grid) - 1)
                     if (values[i] > 0) != (values[i + 1] > 0)]
        ends = sorted(self.ratio + scale * math.tan(a) for a in crossings)
        if len(ends) == 2:
            return (0 if self.at_infinity() > 0 else 1), ends[0], ends[1]
        assert not ends, ends
        return 2, math.nan, math.nan

    def delta(self):
        if self.ratio <= 0:
            return math.nan, math.nan
        if self.paired:
            la, lb = self.after / self.after.mean(), self.before / \
                self.before.mean()
            s2 = (la - lb).var(ddof=1) / len(la)
        else:
            s2 = self.u2(self.ratio) / self.after.mean() ** 2
        wide = math.exp(self.critical * math.sqrt(s2))
        return self.ratio / wide, self.ratio * wide


def cases():
    rng = random.Random(11)
    for i in range(240):
        paired = i % 2 == 0
        n = rng.randint(2, 15)
        m = n if paired else rng.randint(2, 15)
        mean = rng.choice([1, 1, 1, 0.2, 0.05, -1]) * 10 ** rng.uniform(-6, 6)
        spread = abs(mean) * 10 ** rng.uniform(-4, 0.4)
        ratio = rng.choice([1, 0.9, 0.5, 3, 0.01, -0.7])
        own = spread * 10 ** rng.uniform(-2, 0)
        level = rng.choice([0.95, 0.95, 0.9, 0.99, 0.6])
        before = [rng.gauss(mean, spread) for _ in range(n)]
        if paired:
            after = [ratio * b + rng.gauss(0, own) for b in before]
        else:
            after = [rng.gauss(ratio * mean, abs(ratio) * spread)
                     for _ in range(m)]
        yield Case(paired, before, after, level)


def question(case):
    head = ["pairs", case.level, 0, 0] if case.paired else \
        ["apart", case.level, 0, 0]
    return text(*head, len(case.before), *case.before, len(case.after),
                *case.after)


def main():
    judged = list(cases())
    questions = [question(c) for c in judged]
    kinds = [0, 0, 0]
    for case, q, got in zip(judged, questions, ask(questions)):
        kind, low, high = case.answer()
        kinds[kind] += 1
        close("kind", q, got[2], kind, 0)
        close("estimate", q, got[0], case.ratio, 1e-14)
        close("df", q, got[1], case.df, 1e-12)
        # the judge's own test loses digits where pairs agree closely
        scale = abs(case.ratio)
        for name, g, w in (("low", got[3], low), ("high", got[4], high)):
            if not (math.isnan(g) and math.isnan(w)):
                close(name, q, 1 + (g - w) / max(abs(w), scale), 1, 1e-10)
        low, high = case.delta()
        close("delta low", q, got[5], low, 1e-11)
        close("delta high", q, got[6], high, 1e-11)
    if min(kinds) < 5:
        sys.exit(f"too few of a kind: {kinds}")
    print(f"{len(judged)} ratios: {kinds[0]} intervals, {kinds[1]} outside, "
          f"{kinds[2]} everything; {judging.bad} disagreements")
    sys.exit(judging.bad > 0)


main()
