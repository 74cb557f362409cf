# SPDX-License-Identifier: GPL-3.0-or-later
"""Judge of number text: Python's shortest round-trip text (repr), and its
exact decimal arithmetic for rounding, on seeded doubles of every size and on
readings as a bench sees them. number_judge.py OUT.csv"""

import decimal
import random
import struct
import sys

decimal.getcontext().prec = 1200
random.seed(20)


def doubles():
    for _ in range(1000):
        while True:
            bits = random.getrandbits(64)
            value = struct.unpack(">d", bits.to_bytes(8, "big"))[0]
            if value == value and abs(value) != float("inf") and value:
                yield value
                break
    for _ in range(1000):
        yield round(random.uniform(-200, 200), random.randrange(5)) or 1.0
    for _ in range(500):  # ties in binary: halves, quarters, eighths
        yield random.randrange(1, 4001) / random.choice([2, 4, 8, 16])


def rounded(value, significant):
    exact = decimal.Decimal(value)
    quantum = decimal.Decimal(1).scaleb(exact.adjusted() - significant + 1)
    return float(exact.quantize(quantum, rounding=decimal.ROUND_HALF_EVEN))


def fixed(value, decimals):
    quantum = decimal.Decimal(1).scaleb(-decimals)
    exact = decimal.Decimal(value)
    text = format(exact.quantize(quantum, rounding=decimal.ROUND_HALF_EVEN),
                  "f")
    return text[1:] if float(text) == 0 and text[0] == "-" else text


with open(sys.argv[1], "w", encoding="ascii") as out:
    out.write("bits,repr,decimals,fixed,significant,rounded\n")
    for number in doubles():
        places = random.randrange(0, 7) if abs(number) < 1e16 else 0
        if abs(number) >= 1e16:  # beyond plain notation: an exact whole
            number = float(random.randrange(1, 10**15))
        digits = random.randrange(1, 16)
        bits = struct.pack(">d", number).hex()
        out.write(f"{bits},{number!r},{places},{fixed(number, places)},"
                  f"{digits},{rounded(number, digits)!r}\n")
