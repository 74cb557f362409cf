# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges the anytime-valid interval, its E-value and Stein's top-up:
judge_anytime.py PROGRAM (the filter anytime_figures).

The E-value is worked out from what it means, not from its closed form: the
density of t under shifts delta ~ N(0, g), integrated numerically over the
noncentral t, over its density under no shift. The noncentral t density is
itself an integral, over the scale (right-Haar), so the two nested integrals
below use nothing but the normal likelihood. The interval's ends are roots of
E = 1/alpha found in that. Exits 1 and prints every disagreement.
"""
import math
import random
import sys

import numpy as np
from scipy import integrate, optimize, stats

import judging
from judging import ask


def close(what, question, got, wanted, relative):
    judging.close(what, question, got, wanted, relative, missing_too=True)



def log_likelihood_over_scale(n, mean, ss, prior_variance):
    """log of the integral over sigma of the normal likelihood of n readings
    (mean, sum of squares ss about it) with mean sigma * N(0, prior_variance),
    under dsigma/sigma. With s = log sigma; the shift is integrated exactly
    for each sigma: the mean of n readings is N(0, sigma^2 (1/n + variance))."""
    def log_f(s):
        var = math.exp(2 * s)
        of_mean = var * (1 / n + prior_variance)
        return (-n * s - ss / (2 * var)
                - 0.5 * math.log((1 / n + prior_variance) * n)
                - mean * mean / (2 * of_mean))
    total = ss + mean * mean / (1 / n + prior_variance)
    peak = 0.5 * math.log(total / n)
    top = log_f(peak)
    width = 12 / math.sqrt(2 * n) + 3
    value, _ = integrate.quad(lambda s: math.exp(log_f(s) - top), peak - width,
                              peak + 3 * width, points=[peak], limit=400,
                              epsabs=0, epsrel=1e-12)
    return top + math.log(value)


def log_e(n, mean, sd, g):
    ss = (n - 1) * sd * sd
    return (log_likelihood_over_scale(n, mean, ss, g)
            - log_likelihood_over_scale(n, mean, ss, 0.0))


def cases():
    pick = random.Random(20)
    for n in (2, 3, 4, 5, 6, 8, 10, 20, 50, 200):
        for g in (1.0, 0.1, 7.0):
            for level in (0.95, 0.99, 0.8):
                yield n, pick.uniform(-2, 2), pick.uniform(0.2, 3), level, g


def judge_e_values():
    rows, questions = [], []
    for n, mean, sd, level, g in cases():
        if level != 0.95:
            continue
        questions.append(f"e {n} {mean!r} {sd!r} 0 0 {g!r}")
        rows.append(log_e(n, mean, sd, g))
    for question, (e,), wanted in zip(questions, ask(questions), rows):
        close("E", question, e, math.exp(wanted), 1e-9)


def judge_by_noncentral_t():
    """A second way at small shifts: SciPy's own noncentral t density."""
    questions, wanted = [], []
    for n, mean, sd, g in ((5, 0.7, 1.1, 1.0), (10, 0.4, 0.9, 1.0),
                           (20, 0.3, 1.0, 0.5)):
        t = math.sqrt(n) * mean / sd
        mixed, _ = integrate.quad(
            lambda d: stats.nct.pdf(t, n - 1, d * math.sqrt(n))
            * stats.norm.pdf(d, scale=math.sqrt(g)), -8, 8, epsabs=0,
            epsrel=1e-10, limit=200)
        questions.append(f"e {n} {mean!r} {sd!r} 0 0 {g!r}")
        wanted.append(mixed / stats.t.pdf(t, n - 1))
    for question, (e,), w in zip(questions, ask(questions), wanted):
        close("E by nct", question, e, w, 1e-7)


def judge_intervals():
    rows, questions = [], []
    for n, mean, sd, level, g in cases():
        questions.append(f"interval {n} {mean!r} {sd!r} 0 {level!r} {g!r}")
        limit = -math.log1p(-level)

        def beyond(d):
            return log_e(n, d, sd, g) - limit
        if beyond(1e7 * sd) < 0:
            rows.append((math.nan, math.nan))
            continue
        half = optimize.brentq(beyond, 1e-6 * sd, 1e7 * sd, xtol=1e-13 * sd,
                               rtol=1e-13)
        rows.append((mean - half, mean + half))
    for question, got, wanted in zip(questions, ask(questions), rows):
        for g, w, m in zip(got, wanted, [float(question.split()[2])] * 2):
            close("interval", question, g - m, w - m, 1e-9)


def judge_rounding():
    """Widening, and the E-value that goes with it: 1/alpha at the ends."""
    for n, mean, sd, level, g in cases():
        question = f"interval {n} {mean!r} {sd!r} 0.25 {level!r} {g!r}"
        plain = f"interval {n} {mean!r} {sd!r} 0 {level!r} {g!r}"
        (low, high), (a, b) = ask([question, plain])
        close("widened", question, low, a - 0.25, 1e-12)
        close("widened", question, high, b + 0.25, 1e-12)
        if not math.isnan(low):
            (e,), (f,) = ask([f"e {n} {mean!r} {sd!r} {low!r} 0.25 {g!r}",
                              f"e {n} {mean!r} {sd!r} {high!r} 0.25 {g!r}"])
            close("E at low", question, e, 1 / (1 - level), 1e-9)
            close("E at high", question, f, 1 / (1 - level), 1e-9)


def t_quantile(p, df):
    """SciPy's quantile is good to 1e-9 only; its tail is better."""
    t = stats.t.ppf(p, df)
    for _ in range(3):
        t += (stats.t.sf(t, df) - (1 - p)) / stats.t.pdf(t, df)
    return t


def judge_top_up():
    pick = random.Random(21)
    for _ in range(60):
        m, level = pick.randint(2, 30), pick.choice([0.9, 0.95, 0.99])
        sd, half = pick.uniform(0.01, 5), pick.uniform(0.05, 3)
        t = t_quantile(0.5 + level / 2, m - 1)
        question = f"total {sd!r} {m} {level!r} {half!r}"
        ((total,),) = ask([question])
        wanted = max(m, math.ceil((t * sd / half) ** 2))
        close("total", question, total,
              wanted if wanted <= 1e6 else math.nan, 0)
        n, u = m + pick.randint(0, 40), pick.choice([0.0, 0.1 * sd])
        question = f"top_up {n} 3.5 {sd!r} {m} {u!r} {level!r}"
        ((low, high),) = ask([question])
        of_mean = sd / math.sqrt(n)
        both = math.hypot(of_mean, u)
        df = (m - 1) * (both / of_mean) ** 4
        t = t_quantile(0.5 + level / 2, df)
        close("top-up low", question, low - 3.5, -t * both, 1e-10)
        close("top-up high", question, high - 3.5, t * both, 1e-10)


np.seterr(all="ignore")
judge_e_values()
judge_by_noncentral_t()
judge_intervals()
judge_rounding()
judge_top_up()
sys.exit(judging.bad > 0)
