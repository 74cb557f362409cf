# SPDX-License-Identifier: GPL-3.0-or-later
"""Random expressions of inputs x0, x1 ... that have a value, are not too steep
and do not cancel, so that derivatives can be held to tight tolerances."""

import math
import random

FUNCTIONS = ("exp", "log", "log10", "sqrt", "sin", "cos", "tan", "asin", "acos",
             "atan", "abs")


class Unusable(Exception):
    pass


def number(rng):
    return rng.choice(("2", "3", "0.5", "1.7", "12.5", "2e-1", "pi", "10"))


def signed(text):
    return "(" + text + ")"


def grow(rng, x, depth):
    """(text, value) of a random expression; Unusable when it is ill-suited."""
    kind = rng.random()
    if depth == 0 or kind < 0.12:
        if rng.random() < 0.8:
            i = rng.randrange(len(x))
            return f"x{i}", x[i]
        text = number(rng)
        return text, math.pi if text == "pi" else float(text)
    if kind < 0.40:
        return function_of(rng, x, depth)
    if kind < 0.55:
        return power_of(rng, x, depth)
    (a, va), (b, vb) = grow(rng, x, depth - 1), grow(rng, x, depth - 1)
    sign = rng.choice("+-*/")
    if sign in "+-":
        vb = vb if sign == "+" else -vb
        value = va + vb
        if abs(value) < 0.2 * max(abs(va), abs(vb)):
            raise Unusable
        return signed(f"{a} {sign} {b}"), usable(value)
    return signed(f"{a} {sign} {b}"), usable(va * vb if sign == "*" else va / vb)


def usable(value):
    if not 0.02 <= abs(value) <= 200:
        raise Unusable
    return value


def function_of(rng, x, depth):
    name = rng.choice(FUNCTIONS + ("-",))
    inner, v = grow(rng, x, depth - 1)
    if name == "-":
        return f"(-{inner})", -v
    if name in ("asin", "acos") and abs(v) > 0.9:
        raise Unusable
    if name in ("log", "log10") and abs(v - 1) < 0.2:
        raise Unusable
    if name in ("sin", "cos", "tan") and abs(v) > 8:
        raise Unusable
    try:
        value = abs(v) if name == "abs" else getattr(math, name)(v)
    except (ValueError, OverflowError):
        raise Unusable from None
    return f"{name}({inner})", usable(value)


def power_of(rng, x, depth):
    base, v = grow(rng, x, depth - 1)
    if rng.random() < 0.6:
        text = rng.choice(("2", "3", "-1", "0.5", "-2.5", "4", "1.3"))
        exponent = float(text)
    else:
        text, exponent = grow(rng, x, depth - 1)
    if v < 0 and exponent != round(exponent) or v < 0 and "x" in text:
        raise Unusable
    if abs(exponent) > 6:
        raise Unusable
    return signed(f"{base} ^ {text}"), usable(v ** exponent)


def expressions(seed, wanted, most_inputs=4, depth=4):
    """So many (text, x) of expressions in which every input occurs."""
    rng = random.Random(seed)
    while wanted:
        n = rng.randint(1, most_inputs)
        x = [round(rng.uniform(0.3, 4) * rng.choice((1, 1, 1, -1)), 3)
             for _ in range(n)]
        try:
            text, _ = grow(rng, x, depth)
        except Unusable:
            continue
        if len(text) < 8 or any(f"x{i}" not in text for i in range(n)):
            continue
        yield text, x
        wanted -= 1
