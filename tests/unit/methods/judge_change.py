# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges changes and plans by SciPy: judge_change.py PROGRAM

PROGRAM is the filter change_figures. Moments are worked out in exact
fractions, so that an offset of 1e9 costs the judge no digits; t and noncentral
t come from SciPy. Exits 1 and prints every disagreement.
"""
import math
import random
import sys
from fractions import Fraction

import numpy as np
from scipy import stats

import judging
from judging import ask, close

np.seterr(all="ignore")  # far tails of nct underflow to 0, as they should

def text(*parts):
    return " ".join(repr(float(p)) if not isinstance(p, str) else p
                    for p in parts)


# --- intervals and p of a change ------------------------------------------

def mean_and_sd(x):
    exact = [Fraction(v) for v in x]
    mean = sum(exact) / len(exact)
    squares = sum((v - mean) ** 2 for v in exact) / (len(exact) - 1)
    # a square root with room to spare for squares near 1e-24
    scale = 10 ** 80
    return mean, math.isqrt(squares.numerator * scale ** 2
                            // squares.denominator) / scale


def step_term(sd, step, values):
    """u^2 from rounding of one displayed value (values=1) or two."""
    return values * max(0.0, step ** 2 / 12 - sd ** 2 / 3)


def judge_estimate(question, got, estimate, u, df, level, rounding):
    t = abs(estimate) / u
    close("estimate", question, got[0], estimate, 1e-15, rounding)
    close("u", question, got[1], u, 1e-13)
    close("df", question, got[2], df, 1e-12)
    loss = rounding / abs(estimate) * (1 + t * t) if estimate else 0
    close("p", question, got[3], 2 * stats.t.sf(t, df),
          1e-11 + 10 * df * loss)
    half = t_limit((1 - level) / 2, df) * u
    close("low", question, got[4], estimate - half, 1e-12,
          1e-12 * half + rounding)
    close("high", question, got[5], estimate + half, 1e-12,
          1e-12 * half + rounding)


def readings(rng, n, offset, scale):
    digits = rng.choice([1, 2, 3])
    return [offset + scale * round(rng.gauss(0, 1), digits) for _ in range(n)]


def change_cases(rng):
    for i in range(240):
        scale = 10.0 ** rng.randint(-12, 12)
        offset = rng.choice([0, 0, 100 * scale, 1e9 * scale])
        step = rng.choice([0, 0, 0.3, 3]) * scale
        level = rng.choice([0.9, 0.95, 0.99])
        sides = [readings(rng, rng.randint(2, 20), offset,
                          scale * rng.choice([1, 1, 3]))
                 for _ in range(2)]
        yield scale, offset, step, level, sides, i % 3 == 0


def judge_changes(rng):
    cases, questions = list(change_cases(rng)), []
    for scale, offset, step, level, (before, after), pair in cases:
        if pair:
            differences = [a - b for a, b in zip(after, before)]
            questions.append(text("paired", level, step, len(differences),
                                  *differences))
        else:
            questions.append(text("welch", level, step, len(before), *before,
                                  len(after), *after))
    judged = 0
    for question, got, case in zip(questions, ask(questions), cases):
        scale, offset, step, level, (before, after), pair = case
        if pair:
            differences = [a - b for a, b in zip(after, before)]
            mean, sd = mean_and_sd(differences)
            m = len(differences)
            if sd == 0:
                continue
            u = math.sqrt(sd ** 2 / m + step_term(sd, step, 2))
            df = u ** 4 / ((sd ** 2 / m) ** 2 / (m - 1))
            rounding = 0
        else:
            (mean_b, sd_b), (mean_a, sd_a) = map(mean_and_sd, (before, after))
            if sd_a == 0 and sd_b == 0:
                continue
            mean = mean_a - mean_b
            parts = [sd_b ** 2 / len(before), sd_a ** 2 / len(after)]
            u = math.sqrt(sum(parts) + step_term(sd_b, step, 1)
                          + step_term(sd_a, step, 1))
            df = u ** 4 / sum(part ** 2 / (n - 1) for part, n in zip(
                parts, (len(before), len(after))))
            # the two means are doubles
            rounding = 2.3e-16 * (abs(mean_a) + abs(mean_b))
        judge_estimate(question, got, float(mean), u, df, level,
                       float(rounding))
        judged += 1
    return judged


# --- power, and chances by a plain double integral -------------------------

NODES, WEIGHTS = np.polynomial.legendre.leggauss(120)


def t_limit(tail, df):
    """Upper t quantile; stats.t.isf is good to 1e-9 only, so it is polished."""
    t = stats.t.isf(tail, df)
    for _ in range(2):
        t += (stats.t.sf(t, df) - tail) / stats.t.pdf(t, df)
    return t


def u_and_df(c, n_before, n_after):
    pair, sd_b, sd_a, step, _ = c
    if pair:
        scatter = [(sd_b ** 2 / n_before, n_before - 1)]
        extra = step_term(sd_b, step, 2)
    else:
        scatter = [(sd_b ** 2 / n_before, n_before - 1),
                   (sd_a ** 2 / n_after, n_after - 1)]
        extra = step_term(sd_b, step, 1) + step_term(sd_a, step, 1)
    u2 = sum(v for v, _ in scatter) + extra
    return math.sqrt(u2), u2 ** 2 / sum(v ** 2 / d for v, d in scatter)


def power_of(c, n_before, n_after, effect):
    u, df = u_and_df(c, n_before, n_after)
    t, ncp = t_limit((1 - c[4]) / 2, df), abs(effect) / u
    return stats.nct.sf(t, df, ncp) + stats.nct.cdf(-t, df, ncp)


def comparison(rng):
    step = rng.choice([0, 0, 0, 0.5, 1.5])
    return (rng.randint(0, 1), rng.uniform(0.3, 2), rng.uniform(0.3, 2), step,
            rng.choice([0.9, 0.95, 0.99]))


def judge_power(rng):
    cases = [(comparison(rng), rng.randint(3, 40), rng.randint(3, 40),
              rng.uniform(0.1, 3), rng.uniform(0.3, 0.95)) for _ in range(200)]
    questions = [text("power", *c, *rest) for c, *rest in cases]
    for question, got, case in zip(questions, ask(questions), cases):
        c, n_before, n_after, effect, wanted = case
        close("power", question, got[0], power_of(c, n_before, n_after, effect),
              0, 1e-11)
        close("power at the detectable change", question,
              power_of(c, n_before, n_after, got[1]), wanted, 0, 1e-10)
    return len(cases)


def outcome_chances(c, n, effect, margin):
    """Chance of the interval inside +-margin, and of any verdict but
    cannot_tell, from P(low, high) on a grid of u found (outer) and the normal
    estimate (inner, closed form over the verdict's own pieces)."""
    u, df = u_and_df(c, n, n)
    t = t_limit((1 - c[4]) / 2, df)
    norm = stats.norm(effect, u)

    def piece(low, high):
        return np.where(low < high, norm.cdf(high) - norm.cdf(low), 0.0)

    def inside(half):
        return piece(half - margin, margin - half)

    def tells(half):
        # union of estimate > half, estimate < -half, |estimate| < margin-half
        reach = margin - half
        return np.where(reach >= half, 1.0, norm.sf(half) + norm.cdf(-half)
                        + piece(-reach, reach))

    spread, scale = stats.chi(df), math.sqrt(df)
    first, last = spread.ppf(1e-15), spread.isf(1e-15)
    corners = [margin / t / u * scale / k for k in (1, 2)]
    edges = sorted([first, last, scale]
                   + [x for x in corners if first < x < last])
    found = []
    for chance in (inside, tells):
        total = 0.0
        for low, high in zip(edges, edges[1:]):
            x = (low + high) / 2 + (high - low) / 2 * NODES
            total += (high - low) / 2 * np.sum(
                WEIGHTS * spread.pdf(x) * chance(t * u * x / scale))
        found.append(total)
    return found


def judge_chances(rng):
    cases = [(comparison(rng), rng.randint(3, 40), rng.uniform(0, 2),
              rng.uniform(0.2, 3)) for _ in range(120)]
    questions = [text("chances", *c, *rest) for c, *rest in cases]
    for question, got, (c, n, effect, margin) in zip(questions, ask(questions),
                                                     cases):
        for what, mine, wanted in zip(("inside", "tell"), got,
                                      outcome_chances(c, n, effect, margin)):
            close(what, question, mine, wanted, 0, 1e-9)
    return len(cases)


# --- plans ------------------------------------------------------------------

def reaches(c, goal, target, power, n):
    if goal == 0:
        pair, sd_b, _, step, level = c
        u2 = sd_b ** 2 / n + step_term(sd_b, step, 2 if pair else 1)
        df = u2 ** 2 / ((sd_b ** 2 / n) ** 2 / (n - 1))
        return t_limit((1 - level) / 2, df) * math.sqrt(u2) <= target
    if goal == 1:
        return power_of(c, n, n, target) >= power
    return outcome_chances(c, n, 0, target)[0] >= power


def expected_power(c, goal, target, n, m):
    """Averaged over sigma^2 = (m-1) s^2 / chi2(m-1), Gauss-Legendre in the
    probability of chi2."""
    nodes, weights = np.polynomial.legendre.leggauss(60)
    total = 0.0
    for x, w in zip(nodes, weights):
        f = math.sqrt((m - 1) / stats.chi2.ppf((x + 1) / 2, m - 1))
        wider = (c[0], c[1] * f, c[2] * f, c[3], c[4])
        total += w / 2 * (power_of(wider, n, n, target) if goal == 1 else
                          outcome_chances(wider, n, 0, target)[0])
    return total


def judge_plans(rng):
    cases = []
    for _ in range(60):
        c = comparison(rng)
        c = c[:3] + (0,) + c[4:]
        cases.append((c, rng.randint(0, 2), rng.uniform(0.6, 2),
                      rng.uniform(0.6, 0.95), rng.uniform(0.6, 0.95),
                      rng.randint(4, 30)))
    questions = [text("plan", *c, *rest) for c, *rest in cases]
    for i, (question, got, case) in enumerate(zip(questions, ask(questions),
                                                  cases)):
        c, goal, target, power, gamma, m = case
        upper = math.sqrt((m - 1) / stats.chi2.ppf(1 - gamma, m - 1))
        wider = (c[0], c[1] * upper, c[2] * upper, c[3], c[4])
        for what, design, n in (("n", c, got[0]), ("assured", wider, got[1])):
            if not (reaches(design, goal, target, power, int(n))
                    and n >= 3 and
                    (n == 3 or not reaches(design, goal, target, power,
                                           int(n) - 1))):
                close(what, question, n, float("nan"), 0)
        if goal == 0:
            root = t_limit((1 - c[4]) / 2, m - 1) * c[1] / target
            close("top-up", question, got[3], max(m, math.ceil(root ** 2)), 0)
        elif goal == 1 or i % 4 == 0:
            n = int(got[2])
            slack = 2e-6  # of the judge's own quadrature
            if not (expected_power(c, goal, target, n, m) >= power - slack and
                    (n == 3 or expected_power(c, goal, target, n - 1, m)
                     < power + slack)):
                close("expected", question, n, float("nan"), 0)
    return len(cases)


def judge_settle(rng):
    cases = []
    while len(cases) < 24:
        c = comparison(rng)[:3] + (0, 0.95)
        n = rng.randint(4, 10)
        change, margin = rng.uniform(-1.2, 1.2), rng.choice([0, 0.5, 1.1])
        cases.append((c, change, margin, n, n + rng.randint(0, 2), 0.8))
    questions = [text("settle", *c, *rest) for c, *rest in cases]
    answered = 0
    for question, got, case in zip(questions, ask(questions), cases):
        c, change, margin, n_before, n_after, power = case
        fewest = n_before if c[0] else min(n_before, n_after)

        def tells(n):
            return (outcome_chances(c, n, change, margin)[1] if margin
                    else power_of(c, n, n, change)) >= power

        if math.isnan(got[0]):
            if any(tells(n) for n in (fewest + 1, 20, 60, 120, 200)):
                close("settle", question, got[0], 0, 0)
            continue
        answered += 1
        close("more", question, got[1], got[0] - fewest, 0)
        n = int(got[0])
        if not tells(n) or any(tells(k) for k in range(fewest + 1, n)):
            close("settle", question, n, float("nan"), 0)
    if answered < 10:
        sys.exit("too few settle cases had a number")
    return len(cases)


def main():
    rng = random.Random(20240611)
    counts = {judge.__name__: judge(rng) for judge in (
        judge_changes, judge_power, judge_chances, judge_plans, judge_settle)}
    print(counts, "disagreements:", judging.bad)
    sys.exit(1 if judging.bad else 0)


main()
