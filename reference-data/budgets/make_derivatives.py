#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes derivatives.csv: random expressions with value, gradient, curvature
and one third derivative, by mpmath at 60 digits."""

import pathlib
import random
import sys

import mpmath as mp

HERE = pathlib.Path(__file__).resolve().parent
sys.dont_write_bytecode = True
sys.path.insert(0, str(HERE.parents[1] / "tests/unit/methods"))
from random_expressions import expressions  # noqa: E402

MOST = 4
mp.mp.dps = 60


def log10(v):
    return mp.log(v) / mp.log(10)


NAMES = dict(exp=mp.exp, log=mp.log, log10=log10, sqrt=mp.sqrt, sin=mp.sin,
             cos=mp.cos, tan=mp.tan, asin=mp.asin, acos=mp.acos, atan=mp.atan,
             abs=abs, pi=mp.pi)


def padded(values):
    return list(values) + [""] * (MOST - len(values))


def row(text, x, rng):
    n = len(x)
    q, w = ([round(rng.uniform(-1, 1), 3) for _ in x] for _ in "qw")
    code = compile(text.replace("^", "**"), "expression", "eval")
    at, along, across = ([mp.mpf(v) for v in values] for values in (x, q, w))

    def f(*a):
        return eval(code, NAMES, {f"x{i}": v for i, v in enumerate(a)})

    def slope(*inputs):
        return mp.diff(f, tuple(at), tuple(inputs.count(i) for i in range(n)))

    def line(s, t):
        return f(*(a + t * b + s * c for a, b, c in zip(at, along, across)))

    figures = [f(*at)] + padded([slope(i) for i in range(n)])
    for i in range(MOST):
        figures += [slope(i, j) if i < n else "" for j in range(i + 1)]
    figures.append(mp.diff(line, (0, 0), (1, 2)))
    return ([text, n] + padded(x) + padded(q) + padded(w) +
            [v if v == "" else mp.nstr(v, 20) for v in figures])


def main():
    rng = random.Random(7)
    header = ["text", "n"]
    header += [f"{c}{i}" for c in "xqw" for i in range(MOST)]
    header += ["value"] + [f"g{i}" for i in range(MOST)]
    header += [f"h{i}{j}" for i in range(MOST) for j in range(i + 1)] + ["third"]
    with open(HERE / "derivatives.csv", "w", encoding="utf-8") as out:
        print(",".join(header), file=out)
        rows = 0
        for text, x in expressions(20261125, 999, MOST):
            cells = row(text, x, rng)
            slopes = [abs(mp.mpf(g)) for g in cells[15:15 + len(x)]]
            if max(slopes) < 1e-3 * abs(mp.mpf(cells[14])):
                continue  # x0 / x0 and the like: nothing to compare with
            print(*cells, sep=",", file=out)
            rows += 1
            if rows == 200:
                break


main()
