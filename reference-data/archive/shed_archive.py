# SPDX-License-Identifier: GPL-3.0-or-later
"""An invented boat shed's archive of published gloss scores, with its truth.

Readings are drawn, shown in steps of 0.1 GU, and summed up as a publisher does:
means, SDs, change and points printed to so many decimals. Slips are planted on
demand, and only where no readings whatever could give the figures: that is
decided here by counting, with whole numbers, and owes nothing to the library."""

import math
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from statistics import mean, stdev, pstdev

STEP = Decimal("0.1")
HEADER = ("id,product,category,date,panel,meter,method,rule,before mean (GU),"
          "after mean (GU),before n,after n,before sd,after sd,step,change,"
          "points")
POINTS_PER_UNIT = 2


def shown(value, digits, rule=ROUND_HALF_UP):
    # as a spreadsheet shows its double
    return Decimal(repr(value)).quantize(Decimal(1).scaleb(-digits), rule)


def points_of(change, rule=ROUND_HALF_UP):
    """Two points a unit, capped at 0 and 20, in steps of 0.5."""
    points = max(Decimal(0), min(Decimal(20), POINTS_PER_UNIT * change))
    return (points * 2).quantize(Decimal(1), rule) / 2


def read_panel(rng, level, sd, n):
    return [float((Decimal(repr(rng.gauss(level, sd))) / STEP).quantize(
        Decimal(1), ROUND_HALF_EVEN) * STEP) for _ in range(n)]


class Claim:
    """One row, and what is true of it."""

    def __init__(self, rng, number, truth, sd, n, place, digits=2):
        panel, level, date, method = place
        self.number, self.truth, self.slip = number, truth, ""
        self.n = [n, n]
        self.before = read_panel(rng, level, sd, n)
        self.after = read_panel(rng, level + truth, sd * rng.uniform(0.8, 1.2),
                                n)
        self.panel, self.date, self.method = panel, date, method
        self.product = f"K{number}"
        self.category = rng.choice(["paste", "spray"])
        rule = rng.choice([ROUND_HALF_UP, ROUND_HALF_EVEN])
        self.means = [shown(mean(x), digits, rule)
                      for x in (self.before, self.after)]
        self.sds = [shown(stdev(x), 2, rule) for x in (self.before, self.after)]
        # half of the publishers subtract before they round
        raw = mean(self.after) - mean(self.before)
        self.change = (shown(raw, digits, rule) if rng.random() < 0.5
                       else self.means[1] - self.means[0])
        self.points = points_of(self.change)
        self.has_sd = self.has_n = self.has_means = True

    def row(self):
        def cell(value, there=True):
            return str(value) if there and value is not None else ""
        return ",".join([
            f"A{self.number:02d}", self.product, self.category, self.date,
            self.panel, "M1", self.method, "gloss gain",
            cell(self.means[0], self.has_means),
            cell(self.means[1], self.has_means),
            cell(self.n[0], self.has_n), cell(self.n[1], self.has_n),
            cell(self.sds[0], self.has_sd and self.has_means),
            cell(self.sds[1], self.has_sd and self.has_means), str(STEP),
            cell(self.change, self.has_means), cell(self.points)])


def sums_for(printed, n):
    """Whole sums, in steps, whose mean prints so by either rule."""
    half = Decimal(1).scaleb(printed.as_tuple().exponent) / 2
    low = (printed - half) * n / STEP
    high = (printed + half) * n / STEP
    return range(math.ceil(low), math.floor(high) + 1)


def squares_exist(n, r, q):
    """Are there n whole numbers of sum r and sum of squares q? By search."""
    if n == 1:
        return r * r == q
    if n == 2:  # (j1 - j2)^2 = 2 q - r^2
        d = 2 * q - r * r
        return d >= 0 and math.isqrt(d) ** 2 == d
    bound = math.isqrt(q)
    return any(squares_exist(n - 1, r - j, q - j * j)
               for j in range(-bound, bound + 1))


def sd_possible(printed_mean, printed_sd, n, divisor):
    half = Decimal(1).scaleb(printed_sd.as_tuple().exponent) / 2
    low = (max(Decimal(0), printed_sd - half) / STEP) ** 2 * divisor
    high = ((printed_sd + half) / STEP) ** 2 * divisor
    for total in sums_for(printed_mean, n):
        r = total % n
        for q in range(math.ceil(low + Decimal(r * r) / n),
                       math.floor(high + Decimal(r * r) / n) + 1):
            if squares_exist(n, r, q):
                return True
    return False


def plant(claim, kind):
    """Plants the slip; False where this claim cannot carry it for certain."""
    cent = Decimal("0.01")
    if kind == "change_does_not_follow":
        claim.change += Decimal("0.30")
        claim.points = points_of(claim.change)
    elif kind == "change_sign_reversed":
        if abs(claim.change) < Decimal("0.5"):
            return False
        claim.change = -claim.change
        claim.points = points_of(-claim.change)
    elif kind == "points_do_not_follow":
        if not 2 <= claim.points <= 18:
            return False
        claim.points += Decimal("1.5")
    elif kind == "mean_after_impossible":
        for up in range(1, 6):
            mean_ = claim.means[1] + up * cent
            if not sums_for(mean_, claim.n[1]):
                claim.means[1] = mean_
                claim.change = mean_ - claim.means[0]
                claim.points = points_of(claim.change)
                break
        else:
            return False
    elif kind == "scatter_before_impossible":
        sd = shown(pstdev(claim.before), 2)
        if claim.n[0] > 5 or sd_possible(claim.means[0], sd, claim.n[0],
                                         claim.n[0] - 1):
            return False
        claim.sds[0] = sd
    elif kind == "scatter_after_impossible":
        for up in range(1, 9):
            sd = claim.sds[1] + up * cent
            n = claim.n[1]
            if n <= 5 and not any(sd_possible(claim.means[1], sd, n, d)
                                  for d in (n - 1, n)):
                claim.sds[1] = sd
                break
        else:
            return False
    claim.slip = kind
    return True


SLIPS = ["change_does_not_follow", "change_sign_reversed",
         "points_do_not_follow", "mean_after_impossible",
         "scatter_before_impossible", "scatter_after_impossible"]
