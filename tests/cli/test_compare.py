#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_compare.py PROGRAM: the demo's four dressings, every method, against
SciPy (t, studentised range, F, normal) and quadrature over them."""

import csv
import functools
import itertools
import json
import math
import pathlib
import subprocess
import sys
import unittest
from statistics import fmean, stdev

import numpy
from scipy import integrate, optimize, stats

PROGRAM = sys.argv[1]
HERE = pathlib.Path(__file__).parent
FILE = HERE.parents[1] / "src" / "cli" / "demo" / "dressings.csv"
LEVEL = 0.95
RANGE = 1e-6    # SciPy's studentised range promises no more
LARGEST = 1e-7  # of the quadrature below
TIGHT = 1e-9


def changes():
    found = {}
    with FILE.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            found.setdefault(row["product"], []).append(
                round(float(row["gloss after (GU)"])
                      - float(row["gloss before (GU)"]), 1))
    return found


DATA = changes()
NAMES = list(DATA)
N = 8
SPOTS = numpy.array([DATA[name] for name in NAMES])


def run(*words):
    done = subprocess.run([PROGRAM, "compare", FILE, *words, "--json"],
                          check=True, timeout=60, capture_output=True, text=True)
    return json.loads(done.stdout)["results"]


def variance_of_mean(name):
    return stdev(DATA[name]) ** 2 / N


def welch(a, b):
    va, vb = variance_of_mean(a), variance_of_mean(b)
    df = (va + vb) ** 2 / (va ** 2 / (N - 1) + vb ** 2 / (N - 1))
    return fmean(DATA[a]) - fmean(DATA[b]), math.sqrt(va + vb), df


def pooled():
    """The SD of all, and its df."""
    return (math.sqrt(fmean(stdev(x) ** 2 for x in DATA.values())),
            len(NAMES) * (N - 1))


def largest_beyond(x, lam, df):
    """P(max |T_i| > x) of T_i = (lam_i Z0 + sqrt(1 - lam_i^2) Z_i)/S."""
    z, w = numpy.polynomial.hermite_e.hermegauss(120)
    nodes, weights = numpy.polynomial.legendre.leggauss(200)
    root, density = math.sqrt(df), stats.chi(df)
    low, high = (density.ppf(q) / root for q in (1e-14, 1 - 1e-14))
    s = low + (high - low) * (nodes + 1) / 2
    inside = numpy.ones((len(s), len(z)))
    for l in lam:
        r = math.sqrt(1 - l * l)
        inside *= (stats.norm.cdf((x * s[:, None] - l * z) / r)
                   - stats.norm.cdf((-x * s[:, None] - l * z) / r))
    beyond = 1 - inside @ w / math.sqrt(2 * math.pi)
    return float((high - low) / 2
                 * (weights @ (density.pdf(s * root) * root * beyond)))


@functools.lru_cache
def range_limit(k, df):
    return stats.studentized_range.isf(1 - LEVEL, k, df) / math.sqrt(2)


class Compare(unittest.TestCase):
    def close(self, found, wanted, tolerance, what):
        self.assertTrue(math.isclose(found, wanted, rel_tol=tolerance,
                                     abs_tol=tolerance * 1e-2),
                        f"{what} is {found}, the judge says {wanted}")

    def check(self, one, judged, tolerance):
        """judged: estimate, u, df, adjusted p, critical value."""
        estimate, u, df, p, critical = judged
        name = f"{one['product']} - {one['against']}"
        self.close(one["estimate"], estimate, TIGHT, name)
        self.close(one["standard_uncertainty"], u, TIGHT, name + " u")
        self.close(one["df"], df, TIGHT, name + " df")
        self.close(one["p"], 2 * stats.t.sf(abs(estimate) / u, df), TIGHT,
                   name + " p")
        self.close(one["p_adjusted"], p, tolerance, name + " adjusted p")
        self.close(one["low"], estimate - critical * u, tolerance,
                   name + " low")
        self.close(one["high"], estimate + critical * u, tolerance,
                   name + " high")
        verdict = "changed" if one["low"] > 0 or one["high"] < 0 else (
            "cannot_tell")
        self.assertEqual(one["verdict"], verdict)

    def all_of(self, results, pairs):
        found = [(one["product"], one["against"])
                 for one in results["comparisons"]]
        self.assertEqual(found, list(pairs))
        self.assertEqual(results["family"]["size"], len(found))
        return zip(results["comparisons"], found)

    def by_range(self, results, of):
        k = len(NAMES)
        for one, pair in self.all_of(results,
                                     itertools.combinations(NAMES, 2)):
            estimate, u, df = of(*pair)
            p = stats.studentized_range.sf(abs(estimate) / u * math.sqrt(2), k,
                                           df)
            self.check(one, (estimate, u, df, p, range_limit(k, df)), RANGE)

    def by_largest(self, results, of, lam):
        against = [(name, "bare") for name in NAMES if name != "bare"]
        for one, pair in self.all_of(results, against):
            estimate, u, df = of(*pair)
            p = largest_beyond(abs(estimate) / u, lam, df)
            x = optimize.brentq(lambda c: largest_beyond(c, lam, df)
                                - (1 - LEVEL), 1, 6, xtol=1e-11)
            self.check(one, (estimate, u, df, p, x), LARGEST)

    def test_games_howell(self):
        results = run()
        self.assertEqual(results["family"]["method"], "games_howell")
        self.by_range(results, welch)

    def test_tukey(self):
        results = run("--equal-sd")
        sd, df = pooled()
        self.assertEqual(results["family"]["method"], "tukey_kramer")
        self.by_range(results, lambda a, b: (welch(a, b)[0],
                                             sd * math.sqrt(2 / N), df))

    def test_largest_t(self):
        results = run("--control", "bare")
        lam = [math.sqrt(variance_of_mean("bare")
                         / (variance_of_mean("bare") + variance_of_mean(name)))
               for name in NAMES if name != "bare"]
        self.assertEqual(results["family"]["method"], "max_t")
        self.assertEqual(results["control"], "bare")
        self.by_largest(results, welch, lam)

    def test_dunnett(self):
        results = run("--control", "bare", "--equal-sd")
        sd, df = pooled()
        self.assertEqual(results["family"]["method"], "dunnett")
        self.by_largest(results, lambda a, b: (welch(a, b)[0],
                                               sd * math.sqrt(2 / N), df),
                        [math.sqrt(0.5)] * (len(NAMES) - 1))

    def test_shared_spots(self):
        results = run("--shared-spots")
        self.assertEqual(results["family"]["method"], "holm")
        pairs = list(itertools.combinations(NAMES, 2))
        k, judged = len(pairs), {}
        for a, b in pairs:
            by_spot = SPOTS[NAMES.index(a)] - SPOTS[NAMES.index(b)]
            t = stats.ttest_1samp(by_spot, 0)
            judged[a, b] = by_spot.mean(), stats.sem(by_spot), t.pvalue
        holm, least = {}, 0
        for i, pair in enumerate(sorted(pairs, key=lambda x: judged[x][2])):
            least = holm[pair] = max(least, min(1, (k - i) * judged[pair][2]))
        critical = stats.t.isf((1 - LEVEL) / 2 / k, N - 1)
        for one, pair in self.all_of(results, pairs):
            estimate, u, _ = judged[pair]
            self.check(one, (estimate, u, N - 1, holm[pair], critical), TIGHT)
        missing = results["background"]["one_way"]["missing"]
        self.assertEqual(missing["f"], "not_computed")

    def test_shared_spots_equal(self):
        left = (SPOTS - SPOTS.mean(axis=0) - SPOTS.mean(axis=1)[:, None]
                + SPOTS.mean())
        df = (len(NAMES) - 1) * (N - 1)
        u = math.sqrt((left ** 2).sum() / df * 2 / N)
        results = run("--shared-spots", "--equal-sd")
        self.by_range(results, lambda a, b: (welch(a, b)[0], u, df))
        self.best(results, [u / math.sqrt(2)] * len(NAMES))

    def test_untreated_is_taken_off(self):
        results = run("--untreated", "bare")
        bare = fmean(DATA["bare"])
        self.assertNotIn("bare", [one["product"] for one in
                                  results["products"]])
        self.close(results["untreated"]["estimate"], bare, TIGHT, "untreated")
        for one in results["products"]:
            estimate, u, df = welch(one["product"], "bare")
            self.close(one["estimate"], estimate, TIGHT, "own figure")
            self.close(one["standard_uncertainty"], u, TIGHT, "own u")
            self.close(one["high"], estimate
                       + stats.t.isf((1 - LEVEL) / 2, df) * u, TIGHT, "high")
        one = results["comparisons"][0]  # it cancels between products
        self.close(one["standard_uncertainty"], welch("K1", "K2")[1], TIGHT,
                   "u of a difference")

    def test_background(self):
        found = run()["background"]
        one_way = stats.f_oneway(*DATA.values())
        self.close(found["one_way"]["f"], one_way.statistic, TIGHT, "F")
        self.close(found["one_way"]["p"], one_way.pvalue, TIGHT, "p of F")
        k = len(NAMES)
        w = [1 / variance_of_mean(name) for name in NAMES]
        mean = sum(a * fmean(DATA[name]) for a, name in zip(w, NAMES)) / sum(w)
        between = sum(a * (fmean(DATA[name]) - mean) ** 2
                      for a, name in zip(w, NAMES)) / (k - 1)
        off = sum((1 - a / sum(w)) ** 2 / (N - 1) for a in w)
        f = between / (1 + 2 * (k - 2) / (k * k - 1) * off)  # Welch 1951
        df = (k * k - 1) / (3 * off)
        self.close(found["welch"]["f"], f, TIGHT, "Welch's F")
        self.close(found["welch"]["df_within"], df, TIGHT, "Welch's df")
        self.close(found["welch"]["p"], stats.f.sf(f, k - 1, df), TIGHT,
                   "p of Welch's F")

    def best(self, results, u):
        """Were all alike: exactly one beyond x, for every x; and the largest."""
        def one_beyond(x):
            below = [stats.norm.cdf(x / s) for s in u]
            return sum((1 - b) * math.prod(below[:i] + below[i + 1:])
                       for i, b in enumerate(below))

        def largest(x):
            return x * sum(stats.norm.pdf(x / s) / s
                           * math.prod(stats.norm.cdf(x / t)
                                       for j, t in enumerate(u) if j != i)
                           for i, s in enumerate(u))
        k, far = len(u), 10 * max(u)
        lead, _ = integrate.quad(one_beyond, -far, far, limit=200)
        top, _ = integrate.quad(largest, -far, far, limit=200)
        self.assertEqual(results["best"]["of"], k)
        self.close(results["best"]["by_luck_over_second"], lead, LARGEST,
                   "lead by luck")
        self.close(results["best"]["by_luck_over_rest"], k / (k - 1) * top,
                   LARGEST, "lead over the rest by luck")

    def test_best_of(self):
        results = run("--control", "bare")
        dressings = [name for name in NAMES if name != "bare"]
        means = sorted((fmean(DATA[name]) for name in dressings), reverse=True)
        self.close(results["best"]["over_second"], means[0] - means[1], TIGHT,
                   "lead")
        self.close(results["best"]["over_rest"], means[0] - fmean(means[1:]),
                   TIGHT, "lead over the rest")
        self.best(results, [math.sqrt(variance_of_mean(name))
                            for name in dressings])

    def test_ties(self):
        results = run()
        open_pairs = {frozenset((one["product"], one["against"]))
                      for one in results["comparisons"]
                      if one["low"] <= 0 <= one["high"]}
        said = {frozenset((one["product"], other)) for one in results["tied"]
                for other in one["with"]}
        self.assertEqual(said, open_pairs)
        self.assertTrue(open_pairs)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
