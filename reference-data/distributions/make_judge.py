#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Judge values for the numerics, by mpmath (with gmpy2) at 40 digits.

    python3 make_judge.py [NAME ...]     writes NAME.csv beside this script

Nothing here shares a formula with the library where it can be helped: tails are
integrals of the density, by Gauss-Legendre on pieces as wide as the density's
own decay; noncentral t is the mean of a normal tail over the chi density, by the
trapezoidal rule halved until 20 digits stand; the tolerance factor takes its
chi-square tail from mpmath; Kendall counts are Python's whole numbers. Inputs are doubles, written so that they read back exactly.
"""
import math
import os
import sys

import mpmath as mp

mp.mp.dps = 40
M = mp.mpf
HERE = os.path.dirname(os.path.abspath(__file__))
NEGLIGIBLE = M(10) ** -34


def rule(n, cache={}):
    """Nodes and weights of Gauss-Legendre."""
    if n not in cache:
        nodes = []
        for i in range(n):
            x = mp.cos(mp.pi * (i + M(3) / 4) / (n + M(1) / 2))
            while True:
                before, now = M(1), x
                for k in range(2, n + 1):
                    before, now = now, ((2 * k - 1) * x * now - (k - 1) * before) / k
                slope = n * (x * now - before) / (x * x - 1)
                step = now / slope
                x -= step
                if abs(step) < M(10) ** (3 - mp.mp.dps):
                    break
            nodes.append((x, 2 / ((1 - x * x) * slope * slope)))
        cache[n] = nodes
    return cache[n]


def outward(log_density, slope, curve, start, sign):
    """Integral of exp(log_density) from start outwards, falling that way."""
    at, total = M(start), M(0)
    while True:
        width = min(M(2), 4 / max(abs(slope(at)), mp.sqrt(abs(curve(at)))))
        centre, half = at + sign * width / 2, width / 2
        part = half * mp.fsum(w * mp.exp(log_density(centre + half * x))
                              for x, w in rule(44))
        total += part
        at += sign * width
        if part < total * NEGLIGIBLE:
            return total


class Beta:
    """Beta(a, b) over the logarithm of its odds."""

    def __init__(self, a, b):
        self.a, self.b = M(a), M(b)
        self.norm = mp.loggamma(self.a) + mp.loggamma(self.b) - mp.loggamma(self.a + self.b)
        self.mode = mp.log(self.a / self.b)

    def log_density(self, y):
        return self.a * y - (self.a + self.b) * mp.log1p(mp.exp(y)) - self.norm

    def slope(self, y):
        return self.a - (self.a + self.b) / (1 + mp.exp(-y))

    def curve(self, y):
        return (self.a + self.b) * mp.exp(-abs(y)) / (1 + mp.exp(-abs(y))) ** 2

    def tail(self, y, sign):
        """Mass below (sign -1) or above y."""
        outer = -1 if self.slope(y) > 0 else 1
        mass = outward(self.log_density, self.slope, self.curve, y, outer)
        return mass if outer == sign else 1 - mass


class Gamma(Beta):
    """Gamma(a) over the logarithm of its variable."""

    def __init__(self, a):
        self.a = M(a)
        self.norm = mp.loggamma(self.a)
        self.mode = mp.log(self.a)

    def log_density(self, y):
        return self.a * y - mp.exp(y) - self.norm

    def slope(self, y):
        return self.a - mp.exp(y)

    def curve(self, y):
        return mp.exp(y)


def point(family, mass, sign):
    """Where the tail of that sign is `mass`: Newton on its logarithm."""
    y = family.mode
    while True:
        tail = family.tail(y, sign)
        hazard = mp.exp(family.log_density(y)) / tail
        step = mp.log(tail / mass) / hazard * sign
        y += step
        if abs(step) < M(10) ** -15:  # the next step would be its square
            return y


def quantile(family, p):
    """Lower-tail quantile."""
    return point(family, M(p), -1) if p <= 0.5 else point(family, 1 - M(p), 1)


def t_family(df):
    return Beta(M(1) / 2, M(df) / 2)


def t_upper(t, df):
    t, df = M(t), M(df)
    return t_family(df).tail(mp.log(t * t / df), 1) / 2


def t_quantile(p, df):
    family, beyond = t_family(df), min(M(p), 1 - M(p))
    mass = 2 * abs(M(p) - M(1) / 2)
    y = point(family, mass, -1) if mass < 0.5 else point(family, 2 * beyond, 1)
    return mp.sqrt(M(df) * mp.exp(y)) * (1 if p > 0.5 else -1)


def noncentral(t, df, ncp, upper):
    """P(T > t) or P(T <= t), whichever signs."""
    if t < 0:
        return noncentral(-t, df, -ncp, not upper)
    t, df, ncp = M(t), M(df), M(ncp)
    side = 1 if upper else -1
    norm = mp.log(2) + df / 2 * mp.log(df / 2) - mp.loggamma(df / 2)

    def value(u):
        return (mp.exp(norm + df * u - df * mp.exp(2 * u) / 2) *
                mp.erfc(side * (t * mp.exp(u) - ncp) / mp.sqrt(2)) / 2)

    def size(u):
        return float(mp.log(value(M(u))))

    best, width = max((-40 + i * 0.25 for i in range(170)), key=size), 0.25
    for _ in range(40):
        best = max((best + k * width / 2 for k in range(-2, 3)), key=size)
        width /= 1.7
    ends = []
    for sign in (-1, 1):
        reach = 0.01
        while size(best + sign * reach) > size(best) - 75:
            reach *= 1.15
        ends.append(M(best + sign * reach))
    pieces = 64
    step = (ends[1] - ends[0]) / pieces
    total = mp.fsum(value(ends[0] + step * i) for i in range(pieces + 1))
    last = total * step
    while True:
        total += mp.fsum(value(ends[0] + step * (i + M(1) / 2)) for i in range(pieces))
        pieces, step = pieces * 2, step / 2
        if abs(total * step - last) < abs(last) * M(10) ** -20:
            return total * step
        last = total * step


def text(value):
    return repr(float(value)) if not isinstance(value, (int, str)) else str(value)


def digits(value):
    return mp.nstr(value, 25, min_fixed=-4, max_fixed=6)


def write(name, header, rows):
    with open(os.path.join(HERE, name + ".csv"), "w", encoding="utf-8") as file:
        file.write("# made by make_judge.py; 25 digits\n" + header + "\n")
        for row in rows:
            file.write(",".join(row) + "\n")


def in_range(value):
    return value > M("1e-295")


DF = [0.5, 0.7, 1, 1.5, 2, 3.3, 5, 9.5, 13.9, 14, 30.25, 100, 1234.5, 1e4, 1e6, 1e8]


def normal():
    for z in [0, 1e-9, 0.1, 0.5, 1, 1.96, 2.385, 4, 6.5, 10, 20, 30, 36.7]:
        yield text(z), digits(mp.erfc(M(z) / mp.sqrt(2)) / 2)


def t():
    for df in DF:
        for x in [1e-8, 0.01, 0.3, 0.7, 1, 1.7, 2.5, 4, 8, 15, 37, 1e3, 1e10, 1e160]:
            upper = t_upper(x, df)
            if in_range(upper):
                yield text(df), text(x), digits(upper)


def chi_square():
    for df in DF:
        spread = [df + c * math.sqrt(2 * df) for c in (-6, -3, -1, -0.1, 0.01, 0.5, 1, 3, 8, 20)]
        for x in sorted(spread + [df * 1e-6, df * 1e-3, df * 5, df * 50]):
            if x <= 0:
                continue
            family, y = Gamma(M(df) / 2), mp.log(M(x) / 2)
            lower, upper = family.tail(y, -1), family.tail(y, 1)
            if in_range(lower) and in_range(upper):
                yield text(df), text(x), digits(lower), digits(upper)


PAIRS = [(0.5, 0.5), (0.5, 7.5), (1, 1), (1, 4), (1, 1e6), (2, 3), (2.5, 0.7), (3, 18.25),
         (9.7, 9.3), (40, 2.5), (50, 60), (1234.5, 10), (1e4, 1e4), (1e6, 3), (1e6, 1e6)]


def f():
    for df1, df2 in PAIRS:
        spread = math.sqrt(2 / df1 + 2 / df2)
        for c in (-20, -8, -3, -1, -0.1, 0.05, 0.7, 2, 5, 12):
            x = math.exp(c * spread)
            family, y = Beta(M(df1) / 2, M(df2) / 2), mp.log(M(x) * M(df1) / M(df2))
            lower, upper = family.tail(y, -1), family.tail(y, 1)
            if in_range(lower) and in_range(upper):
                yield text(df1), text(df2), text(x), digits(lower), digits(upper)


def beta():
    for df1, df2 in PAIRS:
        a, b = df1 / 2, df2 / 2
        spread = math.sqrt(1 / a + 1 / b)
        for c in (-10, -3, -1, 0.05, 1, 3, 6):
            odds = a / b * math.exp(c * spread)
            x = odds / (1 + odds)
            if 1 - x < 1e-12:
                continue
            family, y = Beta(a, b), mp.log(M(x) / (1 - M(x)))
            lower, upper = family.tail(y, -1), family.tail(y, 1)
            if in_range(lower) and in_range(upper):
                yield text(a), text(b), text(x), digits(lower), digits(upper)


P = [1e-300, 1e-100, 1e-30, 1e-12, 1e-5, 0.001, 0.025, 0.25, 0.45, 0.4999999, 0.50001,
     0.6, 0.9, 0.975, 0.999999, 1 - 1e-12, 1 - 2.0 ** -53]


def fits(value):
    return M("1e-306") < abs(value) < M("1e306")


def quantiles():
    for p in P:
        z = mp.findroot(lambda x: mp.log(mp.erfc(x / mp.sqrt(2)) / 2 / min(M(p), 1 - M(p))),
                        mp.sqrt(-2 * mp.log(min(M(p), 1 - M(p)))) * M("0.9"))
        yield "normal", text(p), "", "", digits(z if p > 0.5 else -z)
    for df in (0.5, 1, 1.7, 4, 9.3, 14, 60, 1e3, 1e6):
        for p in P:
            value = t_quantile(p, df)
            if fits(value):
                yield "t", text(p), text(df), "", digits(value)
    for df in (0.5, 1, 2.5, 9, 64.5, 1e3, 1e6):
        for p in P:
            value = 2 * mp.exp(quantile(Gamma(M(df) / 2), p))
            if fits(value):
                yield "chi_square", text(p), text(df), "", digits(value)
    for df1, df2 in ((0.5, 3), (1, 9), (4, 1.5), (7, 7.5), (60, 8), (1, 1e5), (1e4, 300)):
        for p in P:
            value = mp.exp(quantile(Beta(M(df1) / 2, M(df2) / 2), p)) * M(df2) / M(df1)
            if fits(value):
                yield "f", text(p), text(df1), text(df2), digits(value)
    for a, b in ((0.25, 0.25), (0.5, 4), (3, 0.75), (12.5, 7), (400, 5e3)):
        for p in P:
            y = quantile(Beta(a, b), p)
            if fits(mp.exp(y)):
                yield "beta", text(p), text(a), text(b), digits(1 / (1 + mp.exp(-y)))


def noncentral_t():
    for df in (1, 1.5, 2, 3, 4.7, 9, 30.5, 200, 1e4, 1e6):
        for ncp in (0.01, 0.5, 2, 5, 12, 40):
            spread = math.sqrt(1 + ncp * ncp / 2 / df)
            points = [ncp + c * spread for c in (-9, -5, -2.5, -1, 0, 1, 2.5, 6, 10)]
            for x in sorted(points + [-0.3, 0.01, 0.2]):
                lower, upper = noncentral(x, df, ncp, False), noncentral(x, df, ncp, True)
                if min(lower, upper) > M("1e-40"):
                    yield text(df), text(ncp), text(x), digits(lower), digits(upper)


def power():
    for df in (1, 2, 3.5, 9, 28, 198, 1e5):
        for alpha in (0.05, 1e-3, 1e-8):
            t_limit = t_quantile(1 - M(alpha) / 2, df)
            for ncp in (0.1, 1, 2.8, 4.5, 8, 30, 99, 101, 700):
                if df > 1e3 and ncp > 30:
                    continue
                both = noncentral(t_limit, df, ncp, True) + noncentral(-t_limit, df, ncp, False)
                yield text(df), text(ncp), text(alpha), digits(both)


def tolerance_at(n, content, level):
    """Exact two-sided factor: secant in log k on the confidence at k."""
    root, df = mp.sqrt(n), M(n) - 1
    step = min(M("0.25"), M("0.03") * root)
    nodes = []
    for i in range(int(mp.ceil(M("9.5") / step)) + 1):
        v = step * i
        guess = nodes[-1][0] if nodes else mp.sqrt(2) * mp.erfinv(content)
        r = mp.findroot(lambda r: (mp.erf((v / root + r) / mp.sqrt(2)) -
                                   mp.erf((v / root - r) / mp.sqrt(2))) / 2 - content, guess)
        nodes.append((r, mp.exp(-v * v / 2) * step / mp.sqrt(2 * mp.pi) * (2 if i else 1)))

    def lack(log_k):
        return mp.fsum(w * mp.gammainc(df / 2, df * r * r / 2 * mp.exp(-2 * log_k),
                                       mp.inf, regularized=True)
                       for r, w in nodes) - level

    chi2 = 2 * mp.exp(quantile(Gamma(df / 2), 1 - level))
    start = mp.log(mp.sqrt(2) * mp.erfinv(content) * mp.sqrt(df * (1 + 1 / M(n)) / chi2))
    return mp.exp(mp.findroot(lack, (start, start + M("0.001")), solver="secant", tol=1e-24))


def tolerance():
    mp.mp.dps = 30
    for n in (2, 3, 5, 10, 20, 43, 100, 1000, 100000):
        for content, level in ((0.95, 0.95), (0.5, 0.5), (0.9999, 0.9999), (0.5, 0.99), (0.99, 0.6)):
            yield str(n), text(content), text(level), digits(tolerance_at(n, M(content), M(level)))
    mp.mp.dps = 40


def limits():
    for n in (3, 4, 5, 8, 14, 15, 54, 1000, 100000):
        for i in sorted({1, 2, 3, 10, n - 2}):
            if i > n - 2:
                continue
            for alpha in (0.05, 0.01, 1e-6):
                left = n - i + 1
                point = -t_quantile(M(alpha) / (2 * left), left - 2)
                value = (left - 1) * point / mp.sqrt((left - 2 + point ** 2) * left)
                yield str(n), str(i), text(alpha), digits(value)


def kendall():
    counts = [1]
    for n in range(2, 51):
        longer = [0] * (len(counts) + n - 1)
        for d, c in enumerate(counts):
            for k in range(n):
                longer[d + k] += c
        counts, pairs = longer, n * (n - 1) // 2
        for s in sorted({pairs, pairs - 2, pairs - 2 * (pairs // 6), pairs % 2 + 2, 1, 2, 3}):
            if 0 < s <= pairs:
                tail = sum(counts[:(pairs - s) // 2 + 1])
                yield str(n), str(s), digits(min(M(1), M(2 * tail) / math.factorial(n)))


TABLES = {
    "normal": ("z,upper", normal),
    "t": ("df,t,upper", t),
    "chi_square": ("df,x,lower,upper", chi_square),
    "f": ("df1,df2,x,lower,upper", f),
    "beta": ("a,b,x,lower,upper", beta),
    "quantiles": ("distribution,p,first,second,quantile", quantiles),
    "noncentral_t": ("df,ncp,t,lower,upper", noncentral_t),
    "power": ("df,ncp,alpha,power", power),
    "tolerance": ("n,content,level,k", tolerance),
    "limits": ("n,i,alpha,limit", limits),
    "kendall": ("n,s,p", kendall),
}

if __name__ == "__main__":
    for table in sys.argv[1:] or TABLES:
        write(table, TABLES[table][0], TABLES[table][1]())
