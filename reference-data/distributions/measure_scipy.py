# SPDX-License-Identifier: GPL-3.0-or-later
"""How far SciPy is from the judge values beside this script: largest relative
error of each function, and how many answers are wrong by more than 1e-6 or no
number. The same for R: measure_r.R; for GSL: measure_gsl.c."""
import csv
import os
import warnings

import numpy as np
import scipy
from scipy import stats

warnings.filterwarnings("ignore")
np.seterr(all="ignore")
HERE = os.path.dirname(os.path.abspath(__file__))


def rows(name):
    with open(os.path.join(HERE, name + ".csv"), encoding="utf-8") as file:
        return list(csv.DictReader(x for x in file if not x.startswith("#")))


def report(name, cases, absolute=False):
    """cases: (label, got, wanted)"""
    worst, label, lost = 0.0, "", 0
    for what, got, wanted in cases:
        error = abs(got - wanted) / (1 if absolute else abs(wanted))
        error = float(error) if np.isfinite(got) else float("inf")
        lost += error > 1e-6
        if error > worst:
            worst, label = error, what
    print(f"{name:24} {len(cases):4} cases, worst {worst:.1e} at {label}; "
          f"{lost} wrong by more than 1e-6")


def tails(table, family, parameters, variable):
    for side, function in (("lower", family.cdf), ("upper", family.sf)):
        cases = []
        for row in rows(table):
            if side in row:
                arguments = [float(row[k]) for k in parameters]
                got = function(float(row[variable]), *arguments)
                cases.append((f"{row[variable]}; {arguments}", got, float(row[side])))
        if cases:
            report(f"{table} {side}", cases)


print("SciPy", scipy.__version__)
tails("normal", stats.norm, (), "z")
tails("t", stats.t, ("df",), "t")
tails("chi_square", stats.chi2, ("df",), "x")
tails("f", stats.f, ("df1", "df2"), "x")
tails("beta", stats.beta, ("a", "b"), "x")
FAMILIES = {"normal": stats.norm, "t": stats.t, "chi_square": stats.chi2,
            "f": stats.f, "beta": stats.beta}
for name, family in FAMILIES.items():
    report(name + " quantile", [
        (f"p {row['p']}; {row['first']} {row['second']}",
         family.ppf(float(row["p"]), *[float(row[k]) for k in ("first", "second") if row[k]]),
         float(row["quantile"]))
        for row in rows("quantiles") if row["distribution"] == name])
for side, function in (("lower", stats.nct.cdf), ("upper", stats.nct.sf)):
    cases = [(f"t {row['t']}, df {row['df']}, ncp {row['ncp']}",
              function(float(row["t"]), float(row["df"]), float(row["ncp"])),
              float(row[side])) for row in rows("noncentral_t")]
    report(f"noncentral t {side}", cases)
    report(f"noncentral t {side}, abs.", cases, absolute=True)
