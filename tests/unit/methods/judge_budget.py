# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges expressions and budgets: judge_budget.py budget_figures.

Slopes by a complex step, curvatures and third slopes by averages over circles in
the complex plane; values of unbracketed text by Python's own grammar; budgets,
matrices and conformance by NumPy and SciPy.
SCATTERWISE_TEST_MULTIPLIER=n takes n times as many cases."""

import ast
import cmath
import math
import os
import random
import subprocess
import sys

import numpy as np
from scipy import stats

from random_expressions import Unusable, expressions

PROGRAM = sys.argv[1]
TIMES = int(os.environ.get("SCATTERWISE_TEST_MULTIPLIER", "1"))
bad = 0
worst = {}


def ask(questions):
    answer = subprocess.run([PROGRAM], input="\n".join(questions) + "\n",
                            text=True, stdout=subprocess.PIPE, check=True)
    lines = answer.stdout.splitlines()
    if len(lines) != len(questions):
        sys.exit(f"{len(questions)} questions, {len(lines)} answers")
    return [[float(word) for word in line.split()] for line in lines]


def close(kind, case, got, wanted, size, tolerance):
    global bad
    if math.isnan(got) and math.isnan(wanted):
        return
    apart = abs(got - wanted) / size if size else abs(got - wanted)
    worst[kind] = max(worst.get(kind, 0), apart)
    if not apart <= tolerance:
        bad += 1
        if bad <= 20:
            print(f"{kind}: got {got!r}, wanted {wanted!r}: {case}")


def words(numbers):
    return " ".join(repr(float(v)) for v in numbers)


# --- Expressions in complex numbers ---------------------------------------

def power(a, b):
    b_value = b.real if isinstance(b, complex) else b
    if (not isinstance(b, complex) or b.imag == 0) and b_value == round(b_value):
        out, base = 1, a if b_value >= 0 else 1 / a
        for _ in range(int(abs(b_value))):
            out = out * base
        return out
    return cmath.exp(b * cmath.log(a))


FUNCTIONS = {name: getattr(cmath, name) for name in (
    "exp", "log", "sqrt", "sin", "cos", "tan", "asin", "acos", "atan")}
FUNCTIONS.update(power=power, pi=math.pi,
                 log10=lambda v: cmath.log(v) / math.log(10),
                 abs=lambda v: v if complex(v).real >= 0 else -v)


class Powers(ast.NodeTransformer):
    def visit_BinOp(self, node):
        self.generic_visit(node)
        if not isinstance(node.op, ast.Pow):
            return node
        return ast.copy_location(ast.Call(ast.Name("power", ast.Load()),
                                          [node.left, node.right], []), node)


def function_of(text):
    tree = Powers().visit(ast.parse(text.replace("^", "**"), mode="eval"))
    code = compile(ast.fix_missing_locations(tree), "expression", "eval")
    return lambda *x: eval(code, FUNCTIONS,
                           {f"x{i}": v for i, v in enumerate(x)})


CIRCLE = [cmath.exp(2j * math.pi * k / 16) for k in range(16)]


def coefficient(f, x, directions, orders, radius):
    """Derivative of f(x + sum z_k d_k) by the z_k at 0 (Cauchy)."""
    if len(directions) == 1:
        total = sum(f(*(a + radius * z * d for a, d in zip(x, directions[0])))
                    * z ** -orders[0] for z in CIRCLE) / 16
    else:
        total = sum(f(*(a + radius * (z * d + y * e) for a, d, e
                        in zip(x, *directions))) * z ** -orders[0]
                    * y ** -orders[1] for z in CIRCLE for y in CIRCLE) / 256
    scale = math.prod(math.factorial(o) for o in orders)
    return complex(total).real * scale / radius ** sum(orders)


def unit(n, i):
    return [1.0 * (k == i) for k in range(n)]


def judge_slopes(rng):
    cases = []
    for text, x in expressions(4711, 3000 * TIMES, most_inputs=4, depth=4):
        q, w = ([round(rng.uniform(-1, 1), 3) for _ in x] for _ in "qw")
        cases.append((text, x, q, w))
    got_all = ask([f"slopes {len(x)} {words(x + q + w)} {text}"
                   for text, x, q, w in cases])
    curved = 0
    for case, got in zip(cases, got_all):
        text, x, q, w = case
        n, f = len(x), function_of(text)
        value = complex(f(*x)).real
        gradient = [complex(f(*(v + 1e-30j * (k == i) for k, v
                                in enumerate(x)))).imag / 1e-30
                    for i in range(n)]
        size = max(map(abs, gradient)) + 1e-3 * abs(value)
        close("value", case, got[0], value, abs(value), 1e-12)
        for i in range(n):
            close("slope", case, got[1 + i], gradient[i], size, 1e-12)
        if rng.random() < 0.15:
            curved += judge_curvature(case, f, got, size)
    if curved < 100 * TIMES:
        sys.exit(f"only {curved} curvatures could be judged")
    return len(cases)


def judge_curvature(case, f, got, size):
    """Circles of two radii must agree, or the expression is not analytic far
    enough round the point for a tight judge."""
    text, x, q, w = case
    n = len(x)

    def all_of(radius):
        return [coefficient(f, x, [unit(n, i), unit(n, j)], (1, 1), radius)
                if i != j else coefficient(f, x, [unit(n, i)], (2,), radius)
                for i in range(n) for j in range(n)] + \
            [coefficient(f, x, [w, q], (1, 2), radius)]
    try:
        wide, narrow = all_of(0.03), all_of(0.02)
    except (ValueError, ZeroDivisionError, OverflowError):
        return 0
    size += max(map(abs, wide))
    if any(abs(a - b) > 1e-7 * size for a, b in zip(wide, narrow)):
        return 0
    for k in range(n * n):
        close("curvature", case, got[1 + n + k], wide[k], size, 1e-7)
    close("third", case, got[-1], wide[-1], size, 1e-7)
    return 1


class PlainPowers(ast.NodeTransformer):
    """a ** b -> plain_power(a, b, whether b holds an input)."""

    def visit_BinOp(self, node):
        self.generic_visit(node)
        if not isinstance(node.op, ast.Pow):
            return node
        varies = any(isinstance(part, ast.Name) and part.id.startswith("x")
                     for part in ast.walk(node.right))
        return ast.copy_location(
            ast.Call(ast.Name("plain_power", ast.Load()),
                     [node.left, node.right, ast.Constant(varies)], []), node)


def plain_power(a, b, varies):
    if a == 0 or a < 0 and varies:
        raise Unusable  # no slope, or refused by rule
    return a ** b


def random_flat(rng):
    text = ""
    for k in range(rng.randint(2, 7)):
        if k:
            text += rng.choice(("+", " - ", "*", " / ", "^", " ^ "))
        text += rng.choice(("", "", "", "-", "+", "--", "- "))
        text += rng.choice(("x0", "x1", "x2", "2", "(x1 - 1)", "sqrt(x2)"))
    return text


def judge_grammar(rng):
    """Operators and signs without brackets: Python binds them the same way."""
    cases = []
    while len(cases) < 2000 * TIMES:
        x = [rng.choice((0.5, 1.5, 2.0, 3.0)) for _ in range(3)]
        text = random_flat(rng)
        tree = PlainPowers().visit(ast.parse(text.replace("^", "**"),
                                             mode="eval"))
        code = compile(ast.fix_missing_locations(tree), "expression", "eval")
        try:
            value = eval(code, {"sqrt": math.sqrt, "plain_power": plain_power},
                         {f"x{i}": v for i, v in enumerate(x)})
        except (Unusable, ZeroDivisionError, OverflowError):
            continue
        if isinstance(value, complex) or not 1e-9 < abs(value) < 1e9:
            continue
        cases.append((text, x, value))
    for case, got in zip(cases, ask([f"slopes 3 {words(x + [0] * 6)} {text}"
                                     for text, x, _ in cases])):
        close("grammar", case, got[0], case[2], abs(case[2]), 1e-12)
    return len(cases)


# --- Budgets ----------------------------------------------------------------

def correlation(rng, n):
    """Blocks of correlated inputs, others alone; the blocks."""
    r, blocks, at = np.eye(n), [], 0
    while at < n:
        size = min(n - at, rng.choice((1, 1, 2, 3)))
        root = np.array([[rng.gauss(0, 1) for _ in range(size)]
                         for _ in range(size)])
        v = root @ root.T
        d = np.sqrt(np.diag(v))
        r[at:at + size, at:at + size] = v / d[:, None] / d
        blocks.append(range(at, at + size))
        at += size
    np.fill_diagonal(r, 1)
    return (r + r.T) / 2, blocks


def judge_budgets(rng):
    questions, cases = [], []
    for text, x in expressions(99, 400 * TIMES, most_inputs=6, depth=4):
        n = len(x)
        u = [abs(v) * rng.choice((0.001, 0.01, 0.05)) for v in x]
        df = [rng.choice((0, 4, 9.5, 30)) for _ in x]
        r, blocks = correlation(rng, n)
        level = rng.choice((0.68, 0.95, 0.99))
        cases.append((text, x, u, df, r, blocks, level))
        questions.append(f"budget {n} {level} {words(x + u + df)} "
                         f"{words(r.ravel())} {text}")
    for case, got in zip(cases, ask(questions)):
        judge_budget(case, got)
    return len(cases)


def judge_budget(case, got):
    text, x, u, df, r, blocks, level = case
    n, f = len(x), function_of(text)
    c = np.array([complex(f(*(v + 1e-30j * (k == i) for k, v
                              in enumerate(x)))).imag / 1e-30
                  for i in range(n)])
    s = c * u
    variance = s @ r @ s
    close("budget y", case, got[0], complex(f(*x)).real, abs(got[0]), 1e-12)
    if variance <= 1e-8 * np.sum(np.abs(s)) ** 2:
        return  # what cancels is for the unit tests
    root = math.sqrt(variance)
    total = 0
    for block in blocks:
        part = s[block] @ r[np.ix_(block, block)] @ s[block]
        # inputs that do not matter at the estimates belong to no group
        dfs = [df[i] or math.inf for i in block
               if abs(s[i]) > 1e-12 * np.max(np.abs(s))]
        total += part ** 2 / min(dfs) if dfs else 0
    nu = variance ** 2 / total if total else math.inf
    # SciPy's t quantile is off by 1e-9 at fractional df; its tails are exact
    tail = stats.t.sf(got[3], nu) if total else stats.norm.sf(got[3])
    close("u", case, got[1], root, root, 1e-11)
    close("df", case, got[2], nu if total else math.nan, nu, 1e-10)
    close("k", case, tail, 0.5 - level / 2, tail, 1e-11)
    close("U", case, got[4], got[3] * root, got[4], 1e-11)
    size = np.max(np.abs(s))
    for i in range(n):
        line = got[8 + 4 * i:12 + 4 * i]
        rest = [j for j in range(n) if j != i]
        left = s[rest] @ r[np.ix_(rest, rest)] @ s[rest]
        close("sensitivity", case, line[0], c[i], np.max(np.abs(c)), 1e-11)
        close("contribution", case, line[1], abs(s[i]), size, 1e-11)
        close("share", case, line[2], s[i] * (r[i] @ s) / variance,
              size ** 2 / variance, 1e-11)
        close("if perfect", case, line[3] ** 2, max(left, 0), size ** 2, 1e-11)


def judge_second_order(rng):
    """Polynomials of normal inputs: the variance the law should give to second
    order, by Gauss-Hermite quadrature at two sizes of u."""
    models = ["x0 * x1 + x1 ^ 2", "x0 ^ 3 + x0 * x1 * x1", "exp(x0 / 3) * x1",
              "sin(x0) + x1 ^ 2 * x0", "x1 / x0 + x0", "log(x0 * x1) * x1"]
    nodes, weights = np.polynomial.hermite_e.hermegauss(24)
    weights = weights / weights.sum()
    z1, z2 = np.meshgrid(nodes, nodes)
    weight = np.outer(weights, weights).T
    questions, cases = [], []
    for model in models * 5 * TIMES:
        x = [round(rng.uniform(1, 3), 2) for _ in range(2)]
        rho = round(rng.uniform(-0.9, 0.9), 2)
        u = [round(rng.uniform(0.02, 0.04), 4) for _ in range(2)]
        cases.append((model, x, u, rho))
        questions.append(f"budget 2 0.95 {words(x + u + [0, 0])} "
                         f"1 {rho} {rho} 1 {model}")
    environment = dict(exp=np.exp, sin=np.sin, log=np.log)

    def moments(case, shrink):
        model, x, u, rho = case
        a = x[0] + u[0] * shrink * z1
        b = x[1] + u[1] * shrink * (rho * z1 + math.sqrt(1 - rho ** 2) * z2)
        y = eval(model.replace("^", "**"), environment, {"x0": a, "x1": b})
        y0 = eval(model.replace("^", "**"), environment,
                  {"x0": x[0], "x1": x[1]})
        d = y - y0
        mean = (weight * d).sum()
        return mean, (weight * (d - mean) ** 2).sum()

    for case, got in zip(cases, ask(questions)):
        # variance = V1 h^2 + V2 h^4 + V3 h^6: three sizes give V2
        h = np.array([1.0, 0.7, 0.5])
        v = np.array([moments(case, s)[1] for s in h])
        v1, v2, _ = np.linalg.solve(np.stack([h ** 2, h ** 4, h ** 6], 1), v)
        m = np.array([moments(case, s)[0] for s in h])
        shift = np.linalg.solve(np.stack([h ** 2, h ** 4, h ** 6], 1), m)[0]
        close("second order", case, got[6] ** 2 - got[1] ** 2, v2, v1, 1e-6)
        close("first order", case, got[1] ** 2, v1, v1, 1e-7)
        close("part", case, got[5], abs(v2) / v1, 1, 1e-6)
        close("shift", case, got[7], shift, abs(shift) + math.sqrt(v1), 1e-6)
    return len(cases)


def judge_matrices(rng):
    cases = []
    for _ in range(300 * TIMES):
        n = rng.randint(2, 12)
        r = np.eye(n)
        width = rng.choice((0.2, 0.5, 1))
        for i in range(n):
            for j in range(i):
                r[i, j] = r[j, i] = round(rng.uniform(-width, width), 3)
        cases.append(r)
    refused = 0
    for r, got in zip(cases, ask([f"matrix {len(r)} {words(r.ravel())}"
                                  for r in cases])):
        least = np.linalg.eigvalsh(r)[0]
        close("taken", r, got[0], float(least >= -1e-10), 0, 0)
        if least < -1e-10:
            refused += 1
            close("eigenvalue", r, got[1], least, abs(least), 0.006)
    if not 50 <= refused <= 250 * TIMES:
        sys.exit("matrices are not a fair mix")
    return len(cases)


def judge_conformance(rng):
    cases = []
    for _ in range(400 * TIMES):
        y, u = rng.uniform(-3, 3), 10 ** rng.uniform(-2, 0.5)
        df = rng.choice((0, 0, 3, 12.5))
        low, high = sorted((rng.uniform(-4, 4), rng.uniform(-4, 4)))
        side = rng.random()
        low, high = (math.nan if side < 0.3 else low,
                     math.nan if side > 0.7 else high)
        cases.append((y, u, df, low, high, rng.choice((0.8, 0.95, 0.99))))
    for case, got in zip(cases, ask(["conform " + words(c) for c in cases])):
        y, u, df, low, high, wanted = case
        low = -math.inf if math.isnan(low) else low
        high = math.inf if math.isnan(high) else high
        law = stats.t(df) if df else stats.norm

        def chance(at):
            a, b = (low - at) / u, (high - at) / u
            return law.sf(a) - law.sf(b) if a > 0 else law.cdf(b) - law.cdf(a)

        close("probability", case, got[0], chance(y), 1, 1e-13)
        if math.isnan(got[3]):
            close("unreachable", case, float(chance((low + high) / 2) < wanted),
                  1, 0, 0)
            continue
        for line in got[1:3]:
            if not math.isnan(line):
                close("acceptance", case, chance(line), wanted, 1, 1e-12)
    return len(cases)


def main():
    rng = random.Random(20261125)
    counts = {judge.__name__: judge(rng) for judge in (
        judge_slopes, judge_grammar, judge_budgets, judge_second_order,
        judge_matrices, judge_conformance)}
    print({kind: f"{apart:.1e}" for kind, apart in worst.items()})
    print(counts, "disagreements:", bad)
    sys.exit(1 if bad else 0)


main()
