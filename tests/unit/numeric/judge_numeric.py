# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges the distributions, tests and random stream by SciPy and NumPy:
judge_numeric.py PROGRAM (which prints FUNCTION,VALUE,ARGUMENT... lines).

Prints the largest disagreement of each function; exits 1 where one exceeds what
SciPy itself can be trusted with.
"""
import subprocess
import sys
import warnings

import numpy as np
from scipy import stats

warnings.filterwarnings("ignore")
bad = 0
cases = {}
for row in subprocess.run([sys.argv[1]], check=True, text=True,
                          capture_output=True).stdout.splitlines():
    name, *numbers = row.split(",")
    cases.setdefault(name, []).append([float(x) for x in numbers])


def compare(name, got, wanted, relative, absolute=0.0):
    global bad
    got, wanted = np.asarray(got, float), np.asarray(wanted, float)
    limit = np.maximum(relative * np.abs(wanted), absolute)
    apart = np.abs(got - wanted)
    far = np.where(apart == 0, 0, apart / np.where(limit > 0, limit, 5e-324))
    far = np.where(np.isnan(far), np.inf, far)
    worst = int(np.argmax(far))
    print(f"{name:22} {len(got):4} cases, worst at {far[worst]:.2g} of the "
          f"tolerance {max(relative, absolute):.0e}")
    if len(got) < 60 or far[worst] > 1:
        bad += 1
        print(f"   got {got[worst]!r}, wanted {wanted[worst]!r}, case {worst}")


def judge(name, function, relative, absolute=0.0):
    rows = np.array(cases[name]).T
    compare(name, rows[0], function(*rows[1:]), relative, absolute)


def judge_quantile(name, quantile, tail, relative=1e-11):
    """By SciPy's quantile where that passes SciPy's own distribution function,
    elsewhere by SciPy's distribution function at our point."""
    got, p, a, b = np.array(cases[name]).T
    wanted = quantile(p, a, b)
    sound = np.abs(tail(wanted, a, b) / p - 1) < 1e-12
    if not sound.all():
        print(f"{name:22} SciPy misses its own aim in {(~sound).sum()} cases")
    compare(name, np.where(sound, got, tail(got, a, b)),
            np.where(sound, wanted, p), relative)


def lower_pair(family):
    return ((lambda p, df, _: family.ppf(p, df)),
            (lambda x, df, _: family.cdf(x, df)))


def upper_pair(family):
    return ((lambda p, df, _: family.isf(p, df)),
            (lambda x, df, _: family.sf(x, df)))


judge("normal_upper", lambda x, *_: stats.norm.sf(x), 1e-13)
judge("t_upper", lambda x, df, _: stats.t.sf(x, df), 1e-12)
judge("chi2_cdf", lambda x, df, _: stats.chi2.cdf(x, df), 1e-12)
judge("chi2_upper", lambda x, df, _: stats.chi2.sf(x, df), 1e-11)
judge("f_cdf", stats.f.cdf, 1e-10)
judge("f_upper", stats.f.sf, 1e-10)
judge("beta_cdf", stats.beta.cdf, 1e-12)
judge_quantile("normal_quantile", lambda p, *_: stats.norm.ppf(p),
               lambda x, *_: stats.norm.cdf(x), 1e-14)
judge_quantile("t_quantile", *lower_pair(stats.t))
judge_quantile("chi2_quantile", *lower_pair(stats.chi2))
judge_quantile("chi2_upper_quantile", *upper_pair(stats.chi2))
judge_quantile("f_quantile", stats.f.ppf, stats.f.cdf, 1e-10)
judge_quantile("f_upper_quantile", stats.f.isf, stats.f.sf, 1e-10)
judge_quantile("beta_quantile", stats.beta.ppf, stats.beta.cdf)
judge("noncentral_t_cdf", stats.nct.cdf, 0, 1e-12)

compare("kendall", [row[0] for row in cases["kendall"]],
        [stats.kendalltau(range(len(row) - 1), row[1:], method="exact").pvalue
         for row in cases["kendall"]], 1e-12)

shapiro = [stats.shapiro(row[2:]) for row in cases["shapiro"]]
compare("shapiro W", [row[0] for row in cases["shapiro"]],
        [s.statistic for s in shapiro], 0, 5e-5)  # single precision
compare("shapiro p", [row[1] for row in cases["shapiro"]],
        [s.pvalue for s in shapiro], 0, 1e-4)

for seed, *words in cases["random"]:
    wanted = np.random.RandomState(int(seed))._bit_generator.random_raw(len(words))
    if list(wanted) != [int(w) for w in words]:
        bad += 1
        print(f"random: another stream from seed {int(seed)}")
print(f"random                 {len(cases['random'])} seeds")
sys.exit(bad > 0)
