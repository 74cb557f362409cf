# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges pooled scatter by SciPy: judge_pooling.py PROGRAM (the filter
pooling_figures). SciPy's levene and bartlett are the judges; what half a
display step may hide is found here by trying, not by the program's bound.
Exits 1 and prints every disagreement.
"""
import itertools
import random
import sys

import numpy as np
from scipy import stats

import judging
from judging import ask, close


def demand(holds, what, question):
    if not holds:
        judging.bad += 1
        print(f"{what}\n   {question[:300]}")


def question_of(step, sets):
    words = ["pool", repr(step), str(len(sets))]
    for s in sets:
        words += [str(len(s))] + [repr(float(x)) for x in s]
    return " ".join(words)


def judge_tests(rng):
    cases = []
    for _ in range(150):
        k = rng.randint(2, 15)
        cases.append([[round(rng.gauss(0, 1), 3) + rng.choice([0, 40])
                       for _ in range(rng.randint(3, 9))] for _ in range(k)])
    questions = [question_of(0.0, c) for c in cases]
    for sets, question, got in zip(cases, questions, ask(questions)):
        b = stats.bartlett(*sets)
        close("Bartlett", question, got[4], b.statistic, 1e-9)
        close("Bartlett p", question, got[5], b.pvalue, 1e-9)
        for at, centre in ((6, "mean"), (8, "median")):
            test = stats.levene(*sets, center=centre)
            close("Levene " + centre, question, got[at], test.statistic, 1e-9)
            close("Levene p " + centre, question, got[at + 1], test.pvalue,
                  1e-9)
    return len(cases)


def smallest_and_largest_sd(shown, step):
    """Over all corners of the box of readings half a step about `shown`, and
    the nearest the readings come to each other."""
    half = step / 2
    corners = [np.std([x + s * half for x, s in zip(shown, signs)], ddof=1)
               for signs in itertools.product((-1, 1), repeat=len(shown))]
    low = min(np.std(np.clip(np.full(len(shown), c), np.array(shown) - half,
                             np.array(shown) + half), ddof=1)
              for c in np.linspace(min(shown), max(shown), 201))
    return low, max(corners)


def judge_weakest(rng):
    """The p of a set is never smaller than at any readings that would have
    been shown the same, and equals the plain p where the step is 0."""
    cases, judged = [], 0
    for _ in range(60):
        sets = [[round(rng.gauss(0, 1)) for _ in range(rng.randint(2, 6))]
                for _ in range(6)]
        sets.append([round(rng.gauss(0, 2.5)) for _ in range(4)])
        cases.append(sets)
    questions = [question_of(1.0, c) for c in cases]
    for sets, question, got in zip(cases, questions, ask(questions)):
        df = np.array([len(s) - 1 for s in sets])
        ss = np.array([np.var(s, ddof=1) * (len(s) - 1) for s in sets])
        if min(got[11::2]) < 0.05:
            continue  # a set was put aside: the others change
        judged += 1
        for i, s in enumerate(sets):
            low, high = smallest_and_largest_sd(s, 1.0)
            others = (ss.sum() - ss[i]) / (df.sum() - df[i])
            args = (df[i], df.sum() - df[i])
            plain = min(1, 2 * min(
                stats.f.cdf(high ** 2 / others, *args),
                stats.f.sf(low ** 2 / max(others, 1 / 12), *args)))
            demand(got[11 + 2 * i] >= plain * (1 - 1e-9),
                   "a p smaller than the step allows", question)
    demand(judged > 40, "too few cases judged", str(judged))
    return judged


def main():
    rng = random.Random(20250312)
    print(judge_tests(rng), judge_weakest(rng), "disagreements", judging.bad)
    sys.exit(1 if judging.bad else 0)


main()
