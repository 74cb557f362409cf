#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""make_judge.py range|max_t > FILE: upper tails of the studentised range and of
the largest of correlated absolute t values, by nested tanh-sinh and
Gauss-Legendre quadrature with 20 digits (mpmath). The definitions are integrated
as they stand, in the SD itself: nothing is shared with the library's way."""

import itertools
import sys

from mpmath import inf, mp, mpf, quad, exp, gamma, sqrt, pi, erfc, log

mp.dps = 20


def cdf(z):
    return erfc(-z / sqrt(mpf(2))) / 2


def density(z):
    return exp(-z * z / 2) / sqrt(2 * pi)


def over_sd(tail, x, df):
    """E tail(x S), S^2 = chi2(df)/df."""
    if df == inf:
        return tail(x)
    df = mpf(df)
    scale = 2 * (df / 2) ** (df / 2) / gamma(df / 2)

    def at(s):
        return scale * s ** (df - 1) * exp(-df * s * s / 2) * tail(x * s)

    width = 1 / sqrt(2 * df)
    ends = sorted({mpf(0), max(mpf(0), 1 - 12 * width), max(mpf(0), 1 - 4 * width),
                   mpf(1), 1 + 4 * width, 1 + 14 * width})
    return quad(at, ends)


def range_tail(k):
    def tail(w):
        def at(z):
            here, below = cdf(z), cdf(z - w)
            return density(z) * (here ** (k - 1) - (here - below) ** (k - 1))
        return k * quad(at, [-9, -3, 0, 3, 6, 12 + w / 2], maxdegree=5)
    return tail


def max_tail(lambdas):
    groups = [(mpf(value), len(list(same)))
              for value, same in itertools.groupby(sorted(lambdas))]

    def tail(w):
        steps = [l for l, _ in groups if l == 1]

        def at(c):
            inside = mpf(1)
            for l, n in groups:
                if l == 1:
                    continue
                rest = sqrt(1 - l * l)
                inside *= (1 - erfc((w - l * c) / rest / sqrt(mpf(2))) / 2
                           - erfc((w + l * c) / rest / sqrt(mpf(2))) / 2) ** n
            return density(c) * (1 - inside)
        top = mpf(10)
        high = min(w, top) if steps else top
        places = {mpf(0), high}
        for l, _ in groups:
            if 0 < l < 1:
                rest = sqrt(1 - l * l)
                for d in (-8, -2, 0, 2, 8):
                    place = (w + d * rest) / l
                    if 0 < place < high:
                        places.add(place)
        value = 2 * quad(at, sorted(places), maxdegree=5)
        return value + (erfc(w / sqrt(mpf(2))) if steps else 0)
    return tail


DFS = [1, 1.3, 1.9, 2.5, 5, 10, 30.7, 200, inf]


def ranges():
    print("groups,df,q,upper")
    for i, k in enumerate([2, 3, 5, 10, 30, 100]):
        for j, df in enumerate(DFS):
            for q in ([1.5, 6] if (i + j) % 2 else [3.5, 20]):
                p = over_sd(range_tail(k), mpf(q), df)
                print(f"{k},{df},{q},{mp.nstr(p, 15)}", flush=True)


SETS = ["0.5x3", "0.7071067811865476x5", "0.5x10", "0.2 0.5 0.9", "0 0.99",
        "1 0.3", "0.999x4", "0.7x100", "0.6"]


def spelled(text):
    out = []
    for word in text.split():
        value, _, count = word.partition("x")
        out += [float(value)] * int(count or 1)
    return out


def largest():
    print("lambda,df,x,upper")
    for i, text in enumerate(SETS):
        for j, df in enumerate(DFS):
            x = [1, 2.5, 5][(i + j) % 3]
            p = over_sd(max_tail(spelled(text)), mpf(x), df)
            print(f"{text},{df},{x},{mp.nstr(p, 15)}", flush=True)


if __name__ == "__main__":
    {"range": ranges, "max_t": largest}[sys.argv[1]]()
