#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test_budget.py PROGRAM REFERENCE: budgets of bench files against printed
figures, against an evaluation in Python (slopes by complex steps, SciPy's t and
normal), against NumPy's own trials, and against two results worked out by
putting the model down twice."""

import cmath
import csv
import json
import math
import pathlib
import subprocess
import sys
import tempfile
import unittest

import numpy
from scipy import stats

PROGRAM, REFERENCE = sys.argv[1], pathlib.Path(sys.argv[2])
HERE = pathlib.Path(__file__).parent
GUIDE = HERE / "cases" / "budget-guide"
SIDES = HERE / "cases" / "budget-sides"
TIGHT = 1e-12   # slopes by complex steps are exact to rounding
SUMS = 1e-11    # of squares with signs
T_QUANTILE = 1e-9  # SciPy's: 3e-10 off at 0.9995 with 15.55 degrees of freedom,
                   # where mpmath has our 4.03989176265670231
FUNCTIONS = {"exp": cmath.exp, "log": cmath.log, "sqrt": cmath.sqrt,
             "sin": cmath.sin, "cos": cmath.cos, "pi": math.pi}
NUMPY = {"exp": numpy.exp, "log": numpy.log, "sqrt": numpy.sqrt,
         "sin": numpy.sin, "cos": numpy.cos, "pi": math.pi}


def run(*words, **more):
    return subprocess.run([PROGRAM, "budget", *map(str, words)],
                          capture_output=True, text=True, timeout=120, **more)


def answer(*words, **more):
    done = run(*words, "--json", **more)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def quantities(*words, **more):
    found = answer(*words, **more)["results"]["quantities"]
    return {q["name"]: q for q in found}


def of_bench(bench, *words):
    return quantities("-", *words, input=json.dumps(bench))


# ---------------------------------------------------------------- the judge

def known(given):
    """Estimate, standard uncertainty and df of an input."""
    kind, value = given["kind"], given.get("value", 0.0)
    scale = abs(value) if given.get("relative") else 1.0
    df = math.inf
    if kind == "readings":
        if "readings" in given:
            x = numpy.array(given["readings"], float)
            n, value, sd = len(x), x.mean(), x.std(ddof=1)
        else:
            n, sd = given["n"], given["sd"]
        step = given.get("step", 0)
        rest = max(0.0, step ** 2 / 12 - sd ** 2 / 3)
        u = math.sqrt(sd ** 2 / n + rest)
        return value, u, u ** 4 / ((sd ** 2 / n) ** 2 / (n - 1))
    if kind in ("normal", "t"):
        u, df = given["uncertainty"] * scale, given.get("df", math.inf)
    elif kind == "rectangular":
        u = given["half_width"] * scale / math.sqrt(3)
    elif kind == "triangular":
        u = given["half_width"] * scale / math.sqrt(6)
    elif kind == "arcsine":
        u = given["half_width"] * scale / math.sqrt(2)
    elif kind == "certificate":
        df = given.get("df", math.inf)
        k = given.get("k") or stats.t.ppf((1 + given["level"]) / 2, df)
        u = given["expanded"] * scale / k
    if "unreliability" in given:
        df = 1 / (2 * given["unreliability"] ** 2)
    return value, u, df


def model_of(bench, name):
    """The model with the quantities above it put in."""
    text = {}
    for q in bench["quantities"]:
        value = q["model"].replace("^", "**")
        text[q["name"]] = value
    return text[name], {k: v for k, v in text.items() if k != name}


def value_of(bench, name, values, functions):
    names = {**functions, **values}
    for q in bench["quantities"]:
        names[q["name"]] = eval(  # pylint: disable=eval-used
            q["model"].replace("^", "**"), {"__builtins__": {}}, names)
        if q["name"] == name:
            return names[name]


def slopes_of(bench, name, values):
    tiny = 1e-30
    return {i: value_of(bench, name,
                        {**values, i: complex(values[i], tiny)},
                        FUNCTIONS).imag / tiny
            if i in used(bench, name) else 0.0 for i in values}


def used(bench, name):
    """The inputs a quantity rests on: those whose change changes it."""
    found, text = set(), {}
    for q in bench["quantities"]:
        words = set("".join(c if c.isalnum() or c == "_" else " "
                            for c in q["model"]).split())
        text[q["name"]] = words | set().union(
            *(text[w] for w in words if w in text))
        if q["name"] == name:
            found = text[name]
    return [i["name"] for i in bench["inputs"] if i["name"] in found]


def correlation_of(bench, a, b):
    if a == b:
        return 1.0
    for pair in bench.get("correlations", []):
        if set(pair["between"]) == {a, b}:
            return pair["coefficient"]
    return 0.0


def variance(bench, slopes, u):
    return math.fsum(slopes[a] * u[a] * slopes[b] * u[b] *
                     correlation_of(bench, a, b) for a in u for b in u)


def two_variances(bench, name, values, u, weight):
    """Variances of a comparison on one bench and on two: the model stands
    there twice, once with a tenth more on the readings that act on it the way
    the strongest do."""
    shared = {i["name"]: i.get("shared", False) for i in bench["inputs"]}
    first = slopes_of(bench, name, values)
    acts = {i["name"]: first[i["name"]] * values[i["name"]]
            for i in bench["inputs"] if i["kind"] == "readings"}
    strongest = max(acts.values(), key=abs)
    moved = [i for i, act in acts.items() if act * strongest > 0]
    higher = {i: v * (1.1 if i in moved else 1) for i, v in values.items()}
    second = slopes_of(bench, name, higher)
    y = [value_of(bench, name, v, FUNCTIONS).real if isinstance(
        value_of(bench, name, v, FUNCTIONS), complex)
        else value_of(bench, name, v, FUNCTIONS) for v in (values, higher)]
    w = weight(*y)
    one = two = 0.0
    for i in u:
        a, b = w[0] * first[i], w[1] * second[i]
        two += (a ** 2 + b ** 2) * u[i] ** 2
        one += ((a + b) ** 2 if shared[i] else a ** 2 + b ** 2) * u[i] ** 2
    return math.sqrt(one), math.sqrt(two), ", ".join(moved)


FRICTION = {
    "version": 1,
    "inputs": [
        {"name": "pull", "unit": "g", "kind": "readings",
         "readings": [160, 150, 170, 160, 150], "step": 10},
        {"name": "zero", "unit": "g", "kind": "rectangular", "value": 0,
         "half_width": 5, "shared": True},
        {"name": "span", "kind": "rectangular", "value": 1,
         "half_width": 0.01, "shared": True},
        {"name": "block", "unit": "g", "kind": "certificate", "value": 500,
         "expanded": 1.0, "k": 2, "shared": True}],
    "quantities": [
        {"name": "friction", "measures": "friction", "unit": "1",
         "model": "(pull - zero) * span / block",
         "limits": {"low": 0.1, "high": 0.33, "probability": 0.9}}]}

MIXED = {
    "version": 1,
    "inputs": [
        {"name": "after", "kind": "readings", "n": 9, "value": 84.2,
         "sd": 0.02, "step": 0.1},
        {"name": "before", "kind": "readings",
         "readings": [81.3, 82.4, 80.9, 83.1, 81.8, 82.0]},
        {"name": "gain", "kind": "triangular", "value": 1.01,
         "half_width": 0.02, "relative": True, "unreliability": 0.25,
         "shared": True},
        {"name": "offset", "kind": "arcsine", "value": 0.3,
         "half_width": 0.2, "shared": True},
        {"name": "tile", "kind": "certificate", "value": 95.2,
         "expanded": 0.6, "level": 0.95, "df": 12, "shared": False},
        {"name": "loss", "kind": "normal", "value": 0.4, "uncertainty": 0.1}],
    "quantities": [
        {"name": "corrected", "unit": "GU",
         "model": "(after - offset) * gain * tile / 95 * exp(-loss / 50)"},
        {"name": "rise", "unit": "GU",
         "model": "corrected - sqrt((before - offset)^2) * gain"},
        {"name": "kept", "unit": "%", "model": "100 * before / corrected"}]}

PAIR = {
    "version": 1,
    "inputs": [
        {"name": "a", "kind": "normal", "value": 2, "uncertainty": 0.1},
        {"name": "b", "kind": "normal", "value": 5, "uncertainty": 0.3},
        {"name": "c", "kind": "rectangular", "value": 1, "half_width": 0.1}],
    "correlations": [{"between": ["a", "b"], "coefficient": 0.6}],
    "quantities": [{"name": "y", "unit": "1", "model": "a * b + c"},
                   {"name": "z", "unit": "1", "model": "a / b"}]}


class AgainstPython(unittest.TestCase):
    def same(self, what, found, wanted, tolerance=TIGHT):
        self.assertTrue(math.isclose(found, wanted, rel_tol=tolerance,
                                     abs_tol=1e-15),
                        f"{what}: {found!r}, the judge has {wanted!r}")

    def check_lines(self, bench, q, slopes, u, df, total):
        sums = T_QUANTILE if "tile" in u else SUMS
        self.assertEqual({line["name"] for line in q["inputs"]}, set(u))
        for line in q["inputs"]:
            i = line["name"]
            loose = T_QUANTILE if i == "tile" else TIGHT  # U by level and df
            self.same(f"u({i})", line["standard_uncertainty"], u[i], loose)
            self.same(f"slope({i})", line["sensitivity"], slopes[i])
            self.same(f"adds({i})", line["contribution"],
                      abs(slopes[i]) * u[i], loose)
            row = math.fsum(slopes[i] * u[i] * slopes[j] * u[j] *
                            correlation_of(bench, i, j) for j in u)
            self.same(f"share({i})", line["share"], row / total, sums)
            self.same(f"if_perfect({i})", line["if_perfect"], math.sqrt(
                variance(bench, slopes, {j: u[j] if j != i else 0.0
                                         for j in u})), sums)
            if math.isfinite(df[i]):
                self.same(f"df({i})", line["df"], df[i], SUMS)
            else:
                self.assertIsNone(line["df"])
                self.assertEqual(line["missing"]["df"], "unbounded")

    def check(self, bench, level=0.95):
        found = of_bench(bench, "--no-trials", "--level", str(level))
        all_known = {i["name"]: known(i) for i in bench["inputs"]}
        values = {i: k[0] for i, k in all_known.items()}
        for q in bench["quantities"]:
            name = q["name"]
            inputs = used(bench, name)
            u = {i: all_known[i][1] for i in inputs}
            df = {i: all_known[i][2] for i in inputs}
            slopes = slopes_of(bench, name, values)
            total = variance(bench, slopes, u)
            got = found[name]
            value = value_of(bench, name, values, FUNCTIONS)
            self.same(name, got["estimate"], value.real)
            self.same(name, got["standard_uncertainty"], math.sqrt(total),
                      T_QUANTILE if "tile" in u else TIGHT)
            self.check_lines(bench, got, slopes, u, df, total)
            bottom = math.fsum((slopes[i] * u[i]) ** 4 / df[i] for i in u)
            if bottom == 0:
                self.assertIsNone(got["df"])
                k = stats.norm.ppf((1 + level) / 2)
            else:
                self.same(f"df of {name}", got["df"], total ** 2 / bottom,
                          T_QUANTILE if "tile" in u else SUMS)
                k = stats.t.ppf((1 + level) / 2, total ** 2 / bottom)
            self.same(f"k of {name}", got["k"], k, T_QUANTILE)
            self.same(f"U of {name}", got["expanded"], k * math.sqrt(total),
                      T_QUANTILE)
            self.same(f"high of {name}", got["high"],
                      value.real + k * math.sqrt(total), T_QUANTILE)
            yield name, got, values, u

    def test_friction(self):
        for name, got, values, u in self.check(FRICTION):
            for key, weight in (("difference", lambda a, b: (-1, 1)),
                                ("ratio", lambda a, b: (-1 / a, 1 / b))):
                one, two, moved = two_variances(FRICTION, name, values, u, weight)
                pair = got["two_results"][key]
                self.same(key, pair["one_meter"], one, SUMS)
                self.same(key, pair["two_meters"], two, SUMS)
                self.assertEqual(got["two_results"]["moved"], moved)
            self.assertEqual(got["two_results"]["difference"]["cancel"],
                             "zero")
            self.assertEqual(got["two_results"]["ratio"]["cancel"],
                             "span, block")
            self.assertEqual(got["most_help"], "pull")

    def test_conformance(self):
        got = of_bench(FRICTION, "--no-trials")["friction"]
        t = stats.t(got["df"], got["estimate"], got["standard_uncertainty"])
        limits = got["conformance"]
        self.same("probability", limits["probability"],
                  t.cdf(0.33) - t.cdf(0.1), 1e-9)
        at = stats.t(got["df"], limits["accept_high"],
                     got["standard_uncertainty"])
        self.same("at the line", at.cdf(0.33) - at.cdf(0.1), 0.9, 1e-9)

    def test_twice_as_many_readings(self):
        more = json.loads(json.dumps(FRICTION))
        x = numpy.array(more["inputs"][0].pop("readings"), float)
        more["inputs"][0].update(n=10, value=x.mean(), sd=x.std(ddof=1))
        self.same("more readings",
                  of_bench(FRICTION, "--no-trials")["friction"]
                  ["more_readings"],
                  of_bench(more, "--no-trials")["friction"]
                  ["standard_uncertainty"])

    def test_mixed_kinds_and_levels(self):
        for level in (0.68, 0.95, 0.999):
            self.assertEqual(len(list(self.check(MIXED, level))), 3)
        for name, got, values, u in self.check(MIXED):
            for key, weight in (("difference", lambda a, b: (-1, 1)),
                                ("ratio", lambda a, b: (-1 / a, 1 / b))):
                one, two, moved = two_variances(MIXED, name, values, u, weight)
                pair = got["two_results"][key]
                self.same(f"{key} of {name}", pair["one_meter"], one,
                          T_QUANTILE)
                self.same(f"{key} of {name}", pair["two_meters"], two,
                          T_QUANTILE)
                self.assertEqual(got["two_results"]["moved"], moved)

    def test_correlated(self):
        self.assertEqual(len(list(self.check(PAIR))), 2)


class AgainstNumpy(unittest.TestCase):
    """Interval ends within five standard errors of both sides' trials."""

    def draws(self, bench, n):
        g = numpy.random.default_rng(20260314)
        names = [i["name"] for i in bench["inputs"]]
        out = {}
        for given in bench["inputs"]:
            value, u, df = known(given)
            kind = given["kind"]
            if kind == "readings":
                out[given["name"]] = value + u * g.standard_t(df, n)
            elif kind == "rectangular":
                out[given["name"]] = value + given["half_width"] * g.uniform(
                    -1, 1, n)
            else:
                out[given["name"]] = g.normal(value, u, n)
        for pair in bench.get("correlations", []):
            a, b = pair["between"]
            (va, ua, _), (vb, ub, _) = (known(bench["inputs"][names.index(i)])
                                        for i in (a, b))
            r, z = pair["coefficient"], (out[a] - va) / ua
            out[b] = vb + ub * (r * z + math.sqrt(1 - r * r) *
                                g.standard_normal(n))
        return out

    def check(self, bench, *words):
        n = 1_000_000
        found = of_bench(bench, *words)
        drawn = self.draws(bench, n)
        for q in bench["quantities"]:
            y = value_of(bench, q["name"], drawn, NUMPY)
            trials = found[q["name"]]["monte_carlo"]
            ends = numpy.quantile(y, [0.025, 0.5, 0.975])
            scale = (ends[2] - ends[0]) / 4
            for p, end, got in ((0.025, ends[0], trials["symmetric"]["low"]),
                                (0.5, ends[1], trials["median"]),
                                (0.975, ends[2], trials["symmetric"]["high"])):
                near = numpy.quantile(y, [p - 0.002, p + 0.002])
                slope = (near[1] - near[0]) / 0.004
                error = slope * math.sqrt(p * (1 - p) *
                                          (1 / n + 1 / trials["trials"]))
                self.assertLess(abs(got - end), 5 * error,
                                f"{q['name']} at {p}: {got}, NumPy {end}")
            short = trials["shortest"]
            inside = numpy.mean((y >= short["low"]) & (y <= short["high"]))
            self.assertAlmostEqual(inside, 0.95, delta=0.002)
            self.assertLessEqual(short["high"] - short["low"],
                                 (ends[2] - ends[0]) + 0.02 * scale)

    def test_friction(self):
        self.check(FRICTION)

    def test_correlated(self):
        self.check(PAIR, "--trials", "1000000", "--seed", "7")

    def test_trials_and_seeds(self):
        q = of_bench(PAIR, "--trials", "2000", "--seed", "5")["y"]
        self.assertEqual(q["monte_carlo"]["trials"], 2000)
        self.assertEqual(q["monte_carlo"]["seed"], "5")
        self.assertFalse(q["monte_carlo"]["adaptive"])
        other = of_bench(PAIR, "--trials", "2000", "--seed", "6")["y"]
        self.assertNotEqual(q["monte_carlo"]["mean"],
                            other["monte_carlo"]["mean"])
        one = of_bench(PAIR, "--digits", "1")["y"]["monte_carlo"]
        two = of_bench(PAIR)["y"]["monte_carlo"]
        self.assertEqual((one["digits"], two["digits"]), (1, 2))
        self.assertLess(one["trials"], two["trials"])
        self.assertIsNone(of_bench(PAIR, "--no-trials")["y"]["monte_carlo"])

    def test_any_number_of_threads(self):
        said = {run("-", "--json", "--threads", n, input=json.dumps(FRICTION)
                    ).stdout for n in (1, 2, 7)}
        self.assertEqual(len(said), 1)


class Guide(unittest.TestCase):
    """Figures as JCGM 100 and 106 print them."""

    @classmethod
    def setUpClass(cls):
        with open(REFERENCE / "budgets" / "published.csv",
                  encoding="utf-8") as file:
            rows = csv.reader(line for line in file if line[0] != "#")
            cls.printed = {(r[0], r[1]): (r[2], r[3]) for r in rows}

    def prints(self, example, item, found):
        text, how = self.printed[example, item]
        unit = 10.0 ** -len(text.partition(".")[2])
        wanted = float(text)
        if how == "truncated":
            away = abs(found) - abs(wanted)
            self.assertTrue(-1e-9 * unit <= away < unit,
                            f"{example} {item}: {found}, printed {text}")
        else:
            self.assertLessEqual(abs(found - wanted), unit * (0.5 + 1e-9),
                                 f"{example} {item}: {found}, printed {text}")

    def test_product(self):
        q = quantities(GUIDE / "product.json", "--no-trials")["product"]
        self.prints("G.4.1", "uc_percent",
                    100 * q["standard_uncertainty"] / q["estimate"])
        self.prints("G.4.1", "df", q["df"])
        self.prints("G.4.1", "k", q["k"])
        self.prints("G.4.1", "U_percent", 100 * q["expanded"] / q["estimate"])

    def test_end_gauge(self):
        found = quantities(GUIDE / "end-gauge.json", "--level", "0.99")
        self.prints("H.1", "u_d", found["d"]["standard_uncertainty"])
        q = found["length"]
        adds = {i["name"]: i["contribution"] for i in q["inputs"]}
        self.prints("H.1", "l_mm", q["estimate"] / 1e6)
        self.prints("H.1", "c_dalpha", adds["dalpha"])
        self.prints("H.1", "c_dtheta", adds["dtheta"])
        self.assertEqual(adds["alphas"], 0)
        self.prints("H.1", "uc", q["standard_uncertainty"])
        self.prints("H.1", "df", q["df"])
        second = q["second_order"]
        self.assertTrue(second["matters"])
        self.prints("H.1", "uc_with_second_order",
                    second["standard_uncertainty"])
        self.assertIn("second_order", [n["code"] for n in q["notes"]])

    def test_impedance(self):
        found = quantities(GUIDE / "impedance.json", "--no-trials")
        inputs = {i["name"]: i for i in found["resistance"]["inputs"]}
        for name, item in (("v", "V"), ("i", "I"), ("phi", "phi")):
            self.prints("H.2", item, inputs[name]["estimate"])
            self.prints("H.2", "u_" + item,
                        inputs[name]["standard_uncertainty"])
            self.assertEqual(inputs[name]["group"], 1)
        for name, item in (("resistance", "R"), ("reactance", "X"),
                           ("impedance", "Z")):
            self.prints("H.2", item, found[name]["estimate"])
            self.prints("H.2", "u_" + item,
                        found[name]["standard_uncertainty"])

    def test_thermometer(self):
        q = quantities(GUIDE / "thermometer.json")["correction_30"]
        self.prints("H.3", "b_30", q["estimate"])
        self.prints("H.3", "u_b_30", q["standard_uncertainty"])

    def test_voltage(self):
        q = quantities(GUIDE / "voltage.json")["voltage"]
        self.prints("H.5", "grand_mean", q["estimate"])
        self.prints("H.5", "u_between_uV", 1e6 * q["standard_uncertainty"])
        self.assertEqual(q["df"], 9)

    def test_breakdown(self):
        q = quantities(GUIDE / "breakdown.json")["breakdown"]
        self.prints("JCGM 106", "probability",
                    q["conformance"]["probability"])
        self.prints("JCGM 106", "z_0.95", q["conformance"]["guard"] / 0.05)


class Formats(unittest.TestCase):
    def test_csv_holds_what_json_holds(self):
        text = run("-", "--csv", "--trials", "2000", input=json.dumps(MIXED))
        rows = list(csv.DictReader(text.stdout.splitlines()))
        found = of_bench(MIXED, "--trials", "2000")
        inputs = [(q, i) for q in found.values() for i in q["inputs"]]
        self.assertEqual(len(rows), len(inputs))
        for row, (q, i) in zip(rows, inputs):
            wanted = {key: q[key] for key in (
                "estimate", "standard_uncertainty", "df", "k", "expanded",
                "low", "high")}
            trials = q["monte_carlo"]
            for name in ("low", "high"):
                wanted[f"trials_{name}"] = trials["symmetric"][name]
                wanted[f"shortest_{name}"] = trials["shortest"][name]
            wanted.update({f"input_{key}": i[key] for key in (
                "estimate", "standard_uncertainty", "df", "sensitivity",
                "contribution", "share", "if_perfect")})
            for key, value in wanted.items():
                cell = row[key].lstrip("'")
                self.assertEqual(float(cell) if cell else None, value, key)
            self.assertEqual((row["quantity"], row["input_name"], row["agrees"],
                              row["input_kind"]),
                             (q["name"], i["name"], trials["agrees"],
                              i["kind"]))

    def test_text_fits_the_page(self):
        files = sorted(path for folder in ("guide", "bench", "sides", "bad")
                       for path in (HERE / "cases" / f"budget-{folder}").glob(
                           "*.json") if path.name != "case.json")
        texts = [run(path, "--digits", "1", *plain).stdout
                 for path in files for plain in ((), ("--plain",))]
        texts += [run("-", "--no-trials", input=run("--example", name).stdout
                      ).stdout for name in ("friction", "gloss", "retention")]
        self.assertTrue(sum(map(bool, texts)) > 20)
        for line in "\n".join(texts).splitlines():
            self.assertLessEqual(len(line), 80, line)
        self.assertTrue(texts[1].isascii())


class Examples(unittest.TestCase):
    """What --example writes is a bench file that budget reads from a pipe."""

    def test_each(self):
        for name in ("friction", "gloss", "retention"):
            text = run("--example", name)
            self.assertEqual(text.returncode, 0, text.stderr)
            self.assertTrue(quantities("-", input=text.stdout))
        self.assertEqual(run("--example").stdout,
                         run("--example", "friction").stdout)
        wrong = run("--example", "slip")
        self.assertEqual((wrong.returncode, wrong.stdout), (2, ""))
        self.assertIn("friction, gloss, retention", wrong.stderr)


class Tables(unittest.TestCase):
    def test_a_path_is_seen_from_the_bench_file(self):
        with tempfile.TemporaryDirectory() as folder:
            found = answer(GUIDE / "voltage.json", cwd=folder)
        self.assertEqual([i["name"] for i in found["inputs"]],
                         ["voltage.json", "voltage.csv"])
        self.assertTrue(all(len(i["sha256"]) == 64 for i in found["inputs"]))

    def test_the_display_step_of_a_table_counts(self):
        bench = {"version": 1, "inputs": [
            {"name": "x", "kind": "readings", "file": "x.csv"}],
            "quantities": [{"name": "y", "unit": "g", "model": "x"}]}
        values = [9.0, 9.0, 9.1, 9.0, 9.0, 9.0, 9.0, 9.1, 9.0, 9.0, 9.0]
        for step in (None, 0, 0.2):
            with tempfile.TemporaryDirectory() as folder:
                bench["inputs"][0].pop("step", None)
                if step is not None:
                    bench["inputs"][0]["step"] = step
                path = pathlib.Path(folder)
                (path / "b.json").write_text(json.dumps(bench))
                (path / "x.csv").write_text("\n".join(map(str, values)))
                q = quantities(path / "b.json", "--no-trials")["y"]
            _, u, df = known({"kind": "readings", "readings": values,
                              "step": 0.1 if step is None else step})
            self.assertAlmostEqual(q["standard_uncertainty"], u, delta=1e-12)
            self.assertAlmostEqual(q["df"], df, delta=1e-9)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
