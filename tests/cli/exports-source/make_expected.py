#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Works out what the program must say of every exported file, with SciPy, out
of the numbers of shed.py (never out of the exported files), and writes
FILE.expect.json beside each of them.

Definitions: paired changes are one-sample t on the differences of spot means,
others Welch on the readings (JCGM 100 G.4); the display of step q adds
max(0, q^2/6 - 2 sd^2/3) to the variance of a paired mean difference and
max(0, q^2/12 - sd^2/3) to that of a mean, with infinite degrees of freedom.
The step is found as the conventions say, in whole numbers."""

import json
import pathlib
from fractions import Fraction

import numpy as np
from scipy import special, stats

import shed

OUT = pathlib.Path(__file__).parent.parent / "exports"
LEVEL = 0.95


def display_step(readings):
    """The largest step that so many readings would not share by chance."""
    exact = [Fraction(repr(float(x))) for x in readings]
    n, step = len(exact), Fraction(1, 1)
    while any(x % step for x in exact):
        step /= 10
    while (len(set(exact)) > 1 and 0.1**n <= 0.001
           and not any(x % (10 * step) for x in exact)):
        step *= 10
    for factor in (5, 2):
        if ((1 / factor)**n <= 0.001
                and not any(x % (factor * step) for x in exact)):
            return float(factor * step)
    return float(step)


def with_step(scatter, df, term):
    """Variance and degrees of freedom of scatter and step together."""
    term = max(0.0, term)
    if term == 0:
        return scatter, df
    total = scatter + term
    return total, total**2 / (scatter**2 / df)


def mean_variance(x, step):
    sd = np.std(x, ddof=1)
    return with_step(sd**2 / len(x), len(x) - 1, step**2 / 12 - sd**2 / 3)


def t_quantile(p, df):
    """By the inverse incomplete beta function: SciPy's own t.ppf is off by 2e-9
    at df = 45 (30 digits of mpmath side with this one)."""
    x = special.betaincinv(df / 2, 0.5, 2 * (1 - p))
    return float(np.sqrt(df * (1 - x) / x))


def estimate(value, variance, df):
    u = float(np.sqrt(variance))
    reach = t_quantile(0.5 + LEVEL / 2, df) * u
    return {"estimate": value, "standard_uncertainty": u, "df": float(df),
            "level": LEVEL, "low": value - reach, "high": value + reach,
            "p": float(2 * stats.t.sf(abs(value) / u, df))}


def change(before, after, paired, step, family=1):
    before, after = (np.array([np.mean(spot) for spot in side])
                     for side in (before, after))
    if paired:
        d = after - before
        sd = np.std(d, ddof=1)
        figures = estimate(float(d.mean()), *with_step(
            sd**2 / len(d), len(d) - 1, step**2 / 6 - 2 * sd**2 / 3))
    else:
        (v1, df1), (v2, df2) = (mean_variance(x, step) for x in (before, after))
        v = v1 + v2
        figures = estimate(float(after.mean() - before.mean()), v,
                           v**2 / (v1**2 / df1 + v2**2 / df2))
    reach = (t_quantile(1 - (1 - LEVEL) / 2 / family, figures["df"])
             * figures["standard_uncertainty"])
    excludes = abs(figures["estimate"]) > reach
    expected = {"design": "paired" if paired else "unpaired",
                "verdict": "changed" if excludes else "cannot_tell",
                "before.n": len(before), "after.n": len(after),
                "before.mean": float(before.mean()),
                "after.mean": float(after.mean()),
                "before.step": step}
    expected.update({f"change.{key}": value for key, value in figures.items()})
    return expected


def one_set(x, step):
    variance, df = mean_variance(x, step)
    sides = estimate(float(np.mean(x)), variance, df)
    return {"n": len(x), "mean": sides["estimate"],
            "sd": float(np.std(x, ddof=1)),
            "standard_uncertainty": sides["standard_uncertainty"],
            "df": sides["df"], "interval.low": sides["low"],
            "interval.high": sides["high"], "median": float(np.median(x)),
            "step": step}


def write(name, command, parts, read):
    expect = {f"inputs[0].{key}": value for key, value in read.items()}
    for prefix, figures in parts:
        expect.update({f"{prefix}.{key}": value
                       for key, value in figures.items()})
    case = {"command": command, "exit": 0, "tolerance": 1e-9,
            "judge": "SciPy, exports-source/make_expected.py",
            "expect": expect}
    (OUT / f"{name}.expect.json").write_text(
        json.dumps(case, indent=1, ensure_ascii=False) + "\n", "utf-8")


def text_read(separator, mark, used, rows, shape, encoding="UTF-8", **more):
    return {"encoding": encoding, "separator": separator, "decimal_mark": mark,
            "shape": shape, "rows": rows, "used": used, **more}


def spots(readings):
    return [[x] for x in readings]


def flat_list(nested):
    return [x for part in nested for x in
            (flat_list(part) if isinstance(part, list) else [part])]


def wide_files():
    step = display_step(shed.H7_BEFORE + shed.H7_AFTER)
    parts = [("results.changes[0]",
              change(spots(shed.H7_BEFORE), spots(shed.H7_AFTER), True, step))]
    for name, separator, mark, encoding, shape, rows, more in [
            ("wide-en.csv", ",", ".", "UTF-8", "wide pair", 10, {}),
            ("wide-de.csv", ";", ",", "UTF-8", "wide pair", 10, {}),
            ("wide-de-quoted.csv", ",", ",", "UTF-8", "wide pair", 10, {}),
            ("sep-line.csv", ";", ",", "UTF-8", "wide pair", 10,
             {"separator_given": True}),
            ("summary-lines-en.csv", ",", ".", "UTF-8", "wide pair", 10,
             {"unit": "GU", "not_used[0].reason": "title line",
              "not_used[1].reason": "summary line", "not_used[1].line": 15,
              "not_used[5].line": 19}),
            ("summary-lines-de.csv", ";", ",", "UTF-8", "wide pair", 10,
             {"not_used[2].text": "Std. dev. | 0,838583461691332 | "
                                  "0,714920352984239"}),
            ("state-unicode-text.txt", "\t", ",", "UTF-16LE", "long", 20,
             {"unit": "GU", "quantity": "gloss", "geometry": "60"})]:
        write(name, "change", parts,
              text_read(separator, mark, 20, rows, shape, encoding, **more))
    # Three further spots, each with a reading on one side only.
    before, after = shed.H7_BEFORE + [87.3, 86.0], shed.H7_AFTER + [88.6]
    figures = change(spots(shed.H7_BEFORE), spots(shed.H7_AFTER), True,
                     display_step(before + after))
    for side, readings in (("before", before), ("after", after)):
        figures.update({f"{side}.n": len(readings),
                        f"{side}.mean": float(np.mean(readings))})
    write("starred-windows.csv", "change", [("results.changes[0]", figures)],
          text_read(",", ".", 23, 13, "wide pair", "Latin-1", geometry="60",
                    **{"not_used[1].reason": "censored",
                       "not_used[1].line": 12, "not_used[1].text": ">100",
                       "not_used[2].reason": "missing",
                       "not_used[4].reason": "remark"}))


def long_files():
    step = display_step(flat_list([list(s.values())
                                   for s in shed.LONG.values()]))
    parts = []
    for i, ((product, _), states) in enumerate(shed.LONG.items()):
        figures = change(states["before"], states["after"], True, step,
                         family=len(shed.LONG))
        parts.append((f"results.changes[{i}]",
                      {"product": product, "unit": "GU", **figures}))
    write("long-quoted.csv", "change", parts,
          text_read(",", ".", 40, 40, "long"))
    write("merged-cells-de.csv", "change", parts,
          text_read(";", ",", 40, 40, "long"))


def friction_files():
    step = display_step(flat_list(list(shed.PULLS.values())))
    parts = [("results.changes[0]",
              change(shed.PULLS["before"], shed.PULLS["after"], True, step))]
    write("pulls.csv", "change", parts,
          text_read(",", None, 40, 8, "wide repeats", unit="g", quantity="pull"))
    write("two-line-header.tsv", "change", parts,
          text_read("\t", None, 40, 4, "wide repeats"))
    heavy = [("results.changes[0]",
              change(spots(shed.HEAVY_BEFORE), spots(shed.HEAVY_AFTER), True,
                     display_step(shed.HEAVY_BEFORE + shed.HEAVY_AFTER)))]
    write("thousands-en.csv", "change", heavy,
          text_read(",", ".", 12, 6, "wide pair", unit="g"))
    write("thousands-de.csv", "change", heavy,
          text_read(";", ",", 12, 6, "wide pair", unit="g"))


def other_files():
    step = display_step(shed.H9_BEFORE + shed.H9_AFTER)
    write("unpaired-de.csv", "change",
          [("results.changes[0]", change(spots(shed.H9_BEFORE),
                                         spots(shed.H9_AFTER), False, step))],
          text_read(";", ",", 14, 8, "wide pair", quantity="gloss"))
    step = display_step(shed.FLAT_BEFORE + shed.FLAT_AFTER)
    write("flat.csv", "change",
          [("results.changes[0]", change(spots(shed.FLAT_BEFORE),
                                         spots(shed.FLAT_AFTER), True, step))],
          text_read(",", ".", 12, 6, "wide pair",
                    **{"not_used[0].reason": "column not read",
                       "not_used[0].text": "difference"}))
    step = display_step(flat_list(list(shed.SIDE.values())))
    write("side-by-side.csv", "readings",
          [(f"results.sets[{i}]", {"label": name, **one_set(x, step)})
           for i, (name, x) in enumerate(shed.SIDE.items())],
          text_read(",", ".", 15, 6, "side by side"))


if __name__ == "__main__":
    wide_files()
    long_files()
    friction_files()
    other_files()
