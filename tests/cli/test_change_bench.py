#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_change_bench.py PROGRAM: change --bench against a judge that knows
nothing of it: the model is put down once for every side, slopes come from
complex steps through the means of all readings, every value that is not shared
is a variable of its own, and u and df are c'Vc and Welch-Satterthwaite written
out. The t quantile is bisected on the incomplete beta function."""

import cmath
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile
import unittest

PROGRAM = sys.argv[1]
STEP = 1e-30    # of the imaginary part: slopes exact to rounding
TIGHT = 1e-11   # sums of squares of differences of readings near each other
T = 1e-9        # a continued fraction and a bisection
FUNCTIONS = {"exp": cmath.exp, "log": cmath.log, "sqrt": cmath.sqrt,
             "cos": cmath.cos, "pi": math.pi}


# ------------------------------------------------------------- t by hand

def beta_tail(a, b, x):
    """Regularised incomplete beta by its continued fraction (Lentz)."""
    if x > (a + 1) / (a + b + 2):
        return 1 - beta_tail(b, a, 1 - x)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
                     + a * math.log(x) + b * math.log1p(-x)) / a
    f, c, d = 1.0, 1.0, 0.0
    for i in range(500):
        m = i // 2
        if i == 0:
            term = 1.0
        elif i % 2 == 0:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        else:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1 / (1 + term * d)
        c = 1 + term / c
        f *= c * d
        if abs(1 - c * d) < 1e-16:
            break
    return front * (f - 1)


def t_quantile(share, df):
    low, high = 0.0, 1e6
    for _ in range(200):
        middle = (low + high) / 2
        tail = beta_tail(df / 2, 0.5, df / (df + middle * middle))
        low, high = (middle, high) if tail > 1 - share else (low, middle)
    return (low + high) / 2


# -------------------------------------------------------------- the judge

def value(model, names):
    return eval(model.replace("^", "**"), {**FUNCTIONS, **names})


def known(given):
    """Estimate, u and df of the kinds used here."""
    kind = given["kind"]
    u = {"rectangular": lambda: given["half_width"] / math.sqrt(3),
         "triangular": lambda: given["half_width"] / math.sqrt(6),
         "normal": lambda: given["uncertainty"],
         "t": lambda: given["uncertainty"],
         "certificate": lambda: given["expanded"] / given["k"]}[kind]()
    df = given.get("df", math.inf)
    if "unreliability" in given:
        df = 1 / (2 * given["unreliability"] ** 2)
    return given["value"], u, df


def sd(x):
    mean = math.fsum(x) / len(x)
    return math.sqrt(math.fsum((v - mean) ** 2 for v in x) / (len(x) - 1))


def left(x, q):
    """What the display leaves in the mean of displayed values, squared."""
    return max(0.0, q * q / 12 - sd(x) ** 2 / 3)


def add(terms):
    """Root of the sum of squares, and Welch-Satterthwaite."""
    u2 = math.fsum(u * u for u, _ in terms)
    shares = math.fsum(u ** 4 / df for u, df in terms if u > 0)
    return math.sqrt(u2), u2 * u2 / shares if shares else math.inf


def mean_u(x, q):
    return add([(sd(x) / math.sqrt(len(x)), len(x) - 1),
                (math.sqrt(left(x, q)), math.inf)])


def scatter(sides, paired, q):
    """u and df of after minus before of [before, after]."""
    if not paired:
        return add([mean_u(x, q) for x in sides])
    d = [a - b for b, a in zip(*sides)]
    display = max(q * q / 6 - 2 * sd(d) ** 2 / 3, left(sides[0], q)
                  + left(sides[1], q), 0.0)
    return add([(sd(d) / math.sqrt(len(d)), len(d) - 1),
                (math.sqrt(display), math.inf)])


class Judge:
    """`sides` are readings: before, after (of the control: after, before)."""

    def __init__(self, bench, quantity, reading, sides, paired, step=0.0):
        self.model = next(q for q in bench["quantities"]
                          if q["name"] == quantity)["model"]
        self.others = {i["name"]: i for i in bench["inputs"]
                       if i["kind"] != "readings" and i["name"] in self.model}
        self.reading, self.sides = reading, sides
        self.signs = [-1, 1, -1, 1][:len(sides)]
        values = [[self.at(x, {}).real for x in side] for side in sides]
        factor = abs(self.at(1.0, {}).real - self.at(0.0, {}).real)
        q = step * factor
        arms = [scatter(values[k:k + 2], paired, q)
                for k in range(0, len(sides), 2)]
        self.scatter = add(arms)
        self.change = sum(s * math.fsum(v) / len(v)
                          for s, v in zip(self.signs, values))
        self.instruments(bench)

    def at(self, x, moved):
        names = {n: complex(g["value"]) for n, g in self.others.items()}
        for name, by in moved.items():
            names[name] += by
        return complex(value(self.model, {**names, self.reading: x}))

    def slope(self, side, name):
        """Of this side's mean by the input, signed as in the change."""
        total = math.fsum(self.at(x, {name: complex(0, STEP)}).imag / STEP
                          for x in self.sides[side])
        return self.signs[side] * total / len(self.sides[side])

    def instruments(self, bench):
        pairs = {frozenset(c["between"]): c["coefficient"]
                 for c in bench.get("correlations", [])}
        variables = []  # (input, side or None, slope)
        for name, given in self.others.items():
            slopes = [self.slope(s, name) for s in range(len(self.sides))]
            if given.get("shared"):
                net = math.fsum(slopes)
                size = max(map(abs, slopes))
                variables.append((name, None, net if abs(net) > 1e-12 * size
                                  else 0.0))
            else:
                variables += [(name, s, c) for s, c in enumerate(slopes)]

        def covariance(a, b):
            (n, s, c), (m, r, d) = a, b
            if s != r:
                return 0.0
            rho = 1 if n == m else pairs.get(frozenset((n, m)), 0.0)
            return c * d * rho * known(self.others[n])[1] * \
                known(self.others[m])[1]

        groups = {name: {name} for name in self.others}
        for pair in pairs:
            joined = set().union(*(groups.get(n, {n}) for n in pair))
            for name in joined & groups.keys():
                groups[name] = joined
        terms, self.part = [], {}
        for group in {frozenset(g) for g in groups.values()}:
            mine = [v for v in variables if v[0] in group]
            variance = math.fsum(covariance(a, b) for a in mine for b in mine)
            active = [known(self.others[v[0]])[2] for v in mine
                      if covariance(v, v) > 0]
            terms.append((math.sqrt(max(variance, 0)),
                          min(active, default=math.inf)))
        for name in self.others:
            self.part[name] = math.sqrt(math.fsum(
                covariance(v, v) for v in variables if v[0] == name))
        self.fixed = math.sqrt(math.fsum(u * u for u, _ in terms))
        self.u, self.df = add([self.scatter, *terms])

    def interval(self, level):
        half = t_quantile((1 + level) / 2 * 2 - 1, self.df) * self.u
        return self.change - half, self.change + half


# -------------------------------------------------------------- the program

def run(table, bench, *words):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "t.csv").write_text(table)
        (folder / "b.json").write_text(json.dumps(bench))
        return subprocess.run(
            [PROGRAM, "change", "t.csv", "--bench", "b.json", *words],
            cwd=folder, capture_output=True, text=True, timeout=60)


def answer(table, bench, *words):
    done = run(table, bench, *words, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def change(table, bench, *words):
    return answer(table, bench, *words)["results"]["changes"][0]


def paired(before, after, unit="g"):
    rows = [f"{i},{b!r},{a!r}" for i, (b, a) in enumerate(zip(before, after))]
    return "\n".join([f"spot,pull before ({unit}),pull after ({unit})", *rows])


def unpaired(before, after, unit="g"):
    rows = [f"before,{x!r}" for x in before] + [f"after,{x!r}" for x in after]
    return "\n".join([f"state,pull ({unit})", *rows])


def control(sides):
    names = [("K1", "before"), ("K1", "after"), ("bare", "after"),
             ("bare", "before")]
    rows = [f"{p},{s},{i},{x!r}" for (p, s), side in zip(names, sides)
            for i, x in enumerate(side)]
    return "\n".join(["product,state,spot,pull (g)", *rows])


def bench(model, inputs, correlations=(), **quantity):
    return {"version": 1, "scatter": [],
            "inputs": [{"name": "pull", "unit": "g", "kind": "readings",
                        "n": 5, "value": 1.0, "sd": 1.0, "step": 0}, *inputs],
            "correlations": list(correlations),
            "quantities": [{"name": "friction", "measures": "friction",
                            "unit": "1", "model": model, **quantity}]}


def zero(**more):
    return {"name": "zero", "unit": "g", "kind": "rectangular", "value": 1.5,
            "half_width": 4, **more}


def span(**more):
    return {"name": "span", "kind": "t", "value": 1.02, "uncertainty": 0.03,
            "df": 6, **more}


def block(**more):
    return {"name": "block", "unit": "g", "kind": "certificate", "value": 500,
            "expanded": 12, "k": 2, **more}


FULL = "(pull - zero) * span / block"
BEFORE = [161.2, 148.7, 171.3, 158.1, 166.9, 152.4]
AFTER = [121.9, 118.2, 126.8, 117.3, 131.4, 112.6]
LATER = [140.2, 131.5, 150.9, 137.8, 147.7, 130.1]
MODELS = {
    "full": FULL,
    "falls": "0.9 - span * (pull - zero) / block",
    "gain_in_exponent": "exp(span / 3) * pull / block ^ 1.1 + zero / 700",
    "offset_in_numerator_twice": "(pull - zero) * span / (block - 3 * zero)",
}
SHARING = [
    {"zero": {"shared": True}, "span": {"shared": True},
     "block": {"shared": True}},
    {"zero": {"shared": False}, "span": {"shared": True}, "block": {}},
    {"zero": {}, "span": {}, "block": {"shared": False}},
    {"zero": {"shared": True}, "span": {"shared": False},
     "block": {"shared": True, "unreliability": 0.25}},
]


class AgainstTheJudge(unittest.TestCase):
    def same(self, found, judge, level=0.95):
        low, high = judge.interval(level)
        for what, mine, wanted, tolerance in (
                ("change", found["change"]["estimate"], judge.change, TIGHT),
                ("scatter", found["bench"]["standard_uncertainty_scatter"],
                 judge.scatter[0], TIGHT),
                ("instruments",
                 found["bench"]["standard_uncertainty_instruments"],
                 judge.fixed, TIGHT),
                ("u", found["change"]["standard_uncertainty"], judge.u, TIGHT),
                ("df", found["change"]["df"], judge.df, TIGHT),
                ("low", found["change"]["low"], low, T),
                ("high", found["change"]["high"], high, T)):
            self.assertTrue(math.isclose(mine, wanted, rel_tol=tolerance,
                                         abs_tol=1e-15), (what, mine, wanted))
        for line in found["bench"]["inputs"]:
            self.assertTrue(math.isclose(
                line["contribution"], judge.part[line["name"]], rel_tol=TIGHT,
                abs_tol=1e-16), (line, judge.part))

    def everything(self, make, sides, is_paired, words=()):
        for name, model in MODELS.items():
            for shared in SHARING:
                with self.subTest(model=name, shared=shared):
                    of = bench(model, [zero(**shared["zero"]),
                                       span(**shared["span"]),
                                       block(**shared["block"])])
                    judge = Judge(of, "friction", "pull", sides, is_paired)
                    self.same(change(make, of, "--step", "0", *words), judge)

    def test_paired(self):
        self.everything(paired(BEFORE, AFTER), [BEFORE, AFTER], True)

    def test_unpaired(self):
        after = AFTER[:4]
        self.everything(unpaired(BEFORE, after), [BEFORE, after], False)

    def test_control(self):
        sides = [BEFORE, AFTER, LATER, BEFORE[::-1]]
        self.everything(control(sides), sides, True, ("--control", "bare"))

    def test_display_step(self):
        before, after = [150, 150, 160, 150], [140, 140, 140, 140]
        of = bench(FULL, [zero(shared=True), span(), block(shared=True)])
        for words, make, pairs in (((), paired, True), ((), unpaired, False)):
            judge = Judge(of, "friction", "pull", [before, after], pairs, 10)
            self.same(change(make(before, after), of, "--step", "10", *words),
                      judge)

    def test_level(self):
        of = bench(FULL, [zero(shared=True), span(), block()])
        judge = Judge(of, "friction", "pull", [BEFORE, AFTER], True)
        self.same(change(paired(BEFORE, AFTER), of, "--step", "0", "--level",
                         "0.99"), judge, 0.99)

    def test_correlated(self):
        """The least df counts wherever in the group it stands."""
        pairs = [{"between": ["span", "block"], "coefficient": 0.7}]
        for model in (FULL, "(pull - zero) / block * span"):
            for shared in ({"shared": True}, {"shared": False}):
                of = bench(model, [zero(shared=True), span(**shared),
                                   block(**shared)], pairs)
                judge = Judge(of, "friction", "pull", [BEFORE, AFTER], True)
                self.same(change(paired(BEFORE, AFTER), of, "--step", "0"),
                          judge)

    def test_random_numbers(self):
        draw = random.Random(20261125)
        for _ in range(12):
            n = draw.randint(2, 9)
            sides = [[round(draw.gauss(m, s), 4) for _ in range(n)]
                     for m, s in ((160, 8), (draw.uniform(100, 200), 5))]
            of = bench(MODELS["full"], [
                zero(shared=draw.random() < 0.5),
                span(shared=draw.random() < 0.5),
                block(shared=draw.random() < 0.5)])
            pairs = draw.random() < 0.5
            make = (paired if pairs else unpaired)(*sides)
            judge = Judge(of, "friction", "pull", sides, pairs)
            self.same(change(make, of, "--step", "0"), judge)

    def test_family(self):
        """Each product has its own; the family's interval carries both."""
        rows = ["product,state,spot,pull (g)"]
        for name, after in (("K1", AFTER), ("K2", LATER)):
            rows += [f"{name},{s},{i},{x}" for s, side in
                     (("before", BEFORE), ("after", after))
                     for i, x in enumerate(side)]
        of = bench(FULL, [zero(shared=True), span(), block()])
        found = answer("\n".join(rows), of, "--step", "0")["results"]
        for one, after in zip(found["changes"], (AFTER, LATER)):
            judge = Judge(of, "friction", "pull", [BEFORE, after], True)
            self.same(one, judge)
            low, high = judge.interval(0.975)
            self.assertTrue(math.isclose(one["family"]["interval"]["low"], low,
                                         rel_tol=T))
            self.assertTrue(math.isclose(one["family"]["interval"]["high"],
                                         high, rel_tol=T))


class ByHand(unittest.TestCase):
    """What can be said without working anything out."""

    plain = [{"name": "block", "unit": "g", "kind": "exact", "value": 500}]

    def test_block_is_the_bench_with_an_exact_block(self):
        """--block 500g and `pull / block` are one and the same report."""
        of = bench("pull / block", self.plain)
        table = paired([160, 150, 170, 160, 150], [140, 130, 140, 150, 120])
        mine = change(table, of)
        with tempfile.TemporaryDirectory() as folder:
            (pathlib.Path(folder) / "t.csv").write_text(table)
            other = json.loads(subprocess.run(
                [PROGRAM, "change", "t.csv", "--block", "500g", "--json"],
                cwd=folder, check=True, capture_output=True).stdout)
        other = other["results"]["changes"][0]
        self.assertIsNotNone(mine.pop("bench"))
        self.assertIsNone(other.pop("bench"))
        self.assertEqual(mine, other)

    def test_offset_cancels(self):
        """A shared offset, however uncertain, changes no interval."""
        table = paired(BEFORE, AFTER)
        without = change(table, bench("pull / block", self.plain))
        wide = change(table, bench("(pull - zero) / block", [
            zero(shared=True, half_width=4000), *self.plain]))
        for key in ("standard_uncertainty", "df", "low", "high", "p"):
            self.assertAlmostEqual(wide["change"][key], without["change"][key],
                                   delta=1e-14 * abs(without["change"][key]))
        line = wide["bench"]["inputs"][0]
        self.assertEqual((line["name"], line["cancels"], line["contribution"]),
                         ("zero", True, 0))
        self.assertEqual(wide["verdict"], without["verdict"])

    def test_gain_does_nothing_to_no_change(self):
        same = [b + (2 if i % 2 else -2) for i, b in enumerate(BEFORE)]
        found = change(paired(BEFORE, same), bench(
            "span * pull / block", [span(shared=True), *self.plain]))
        self.assertAlmostEqual(found["change"]["estimate"], 0, delta=1e-15)
        self.assertTrue(found["bench"]["inputs"][0]["cancels"])
        self.assertEqual(found["bench"]["standard_uncertainty_instruments"], 0)

    def test_gain_acts_on_the_change(self):
        """u of a shared gain is its relative u times the change."""
        found = change(paired(BEFORE, AFTER), bench(
            "span * pull / block", [span(shared=True), *self.plain]))
        self.assertTrue(math.isclose(
            found["bench"]["inputs"][0]["contribution"],
            abs(found["change"]["estimate"]) * 0.03 / 1.02, rel_tol=1e-13))

    def test_not_shared_offset_counts_twice(self):
        found = change(paired(BEFORE, AFTER), bench(
            "(pull - zero) / block", [zero(shared=False), *self.plain]))
        self.assertTrue(math.isclose(
            found["bench"]["inputs"][0]["contribution"],
            math.sqrt(2) * 4 / math.sqrt(3) / 500, rel_tol=1e-13))

    def test_falling_model_turns_the_change(self):
        up = change(paired(BEFORE, AFTER), bench("pull / block", self.plain))
        down = change(paired(BEFORE, AFTER),
                      bench("1 - pull / block", self.plain))
        for a, b in (("estimate", "estimate"), ("low", "high"),
                     ("high", "low")):
            self.assertTrue(math.isclose(up["change"][a], -down["change"][b],
                                         rel_tol=1e-13))
        for of in ("permutation", "sd_ratio"):
            self.assertEqual(up[of].keys(), down[of].keys())
        self.assertEqual(up["permutation"], down["permutation"])
        for side in ("before", "after"):
            for key in ("mean", "median", "robust_mean"):
                self.assertAlmostEqual(1 - up[side][key], down[side][key],
                                       delta=1e-12)
            self.assertAlmostEqual(up[side]["sd"], down[side]["sd"],
                                   delta=1e-15)

    def test_summaries_are_the_readings(self):
        of = bench(FULL, [zero(), span(shared=True), block(shared=True)])
        readings = change(unpaired(BEFORE, AFTER), of, "--step", "0")
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            (folder / "b.json").write_text(json.dumps(of))
            given = [",".join(repr(v) for v in (
                math.fsum(x) / len(x), sd(x), len(x))) for x in (BEFORE, AFTER)]
            done = subprocess.run(
                [PROGRAM, "change", "--bench", "b.json", "--before-summary",
                 given[0], "--after-summary", given[1], "--unit", "g",
                 "--json"], cwd=folder, capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        numbers = json.loads(done.stdout)["results"]["changes"][0]
        for key in ("estimate", "standard_uncertainty", "df", "low", "high"):
            self.assertTrue(math.isclose(readings["change"][key],
                                         numbers["change"][key],
                                         rel_tol=1e-12), key)

    def test_no_number_of_readings(self):
        """The instruments alone exceed the change: said, with the code."""
        near = [b - 3.0 for b in BEFORE]
        near[0] += 0.5
        found = change(paired(BEFORE, near), bench(
            FULL, [zero(shared=False), span(shared=True),
                   block(shared=True)]), "--step", "0")
        self.assertEqual(found["verdict"], "cannot_tell")
        self.assertEqual(found["settle"]["missing"]["more"], "instruments")
        self.assertIn("no number of readings would settle it",
                      found["sentence"])
        self.assertEqual(found["bench"]["scatter_verdict"], "changed")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
