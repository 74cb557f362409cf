# SPDX-License-Identifier: GPL-3.0-or-later
"""The invented boat shed: readings on painted hull panels, and how each is
laid out in a spreadsheet. make_sheets.py draws the sheets, make_expected.py
works the answers out of the same numbers.

Gloss in GU with a meter that shows 0.1, block pulls in g with a gauge that
shows 10 g. No reading here was ever taken."""

# Hull panel H7, ten spots, before and after dressing K1.
H7_BEFORE = [86.4, 87.1, 85.9, 88.0, 86.7, 87.5, 86.2, 85.4, 87.8, 86.9]
H7_AFTER = [88.1, 88.4, 87.9, 89.2, 88.8, 88.5, 88.3, 87.0, 89.6, 88.2]

# Hull panel H9, other spots each time, unequal numbers.
H9_BEFORE = [71.3, 74.8, 69.9, 73.2, 70.6, 75.1, 72.4, 68.7]
H9_AFTER = [73.0, 76.2, 70.1, 72.9, 74.4, 71.6]

# Two dressings, a panel each, five spots with two repeats.
LONG = {
    ("K1", "H3"): {
        "before": [[80.1, 80.3], [78.4, 78.5], [81.7, 81.2], [79.9, 79.5],
                   [77.8, 78.2]],
        "after": [[82.6, 82.9], [81.9, 81.4], [83.8, 84.1], [82.2, 82.4],
                  [80.3, 80.9]]},
    ("K2", "H4"): {
        "before": [[79.0, 79.4], [82.3, 82.1], [80.6, 80.9], [78.1, 78.6],
                   [81.5, 81.0]],
        "after": [[79.8, 79.3], [81.7, 82.2], [81.9, 81.5], [77.6, 78.1],
                  [82.1, 82.4]]},
}

# Block pulls on panel P2: four tracks, five pulls each, in g.
PULLS = {
    "before": [[310, 290, 280, 280, 270], [330, 320, 300, 310, 290],
               [290, 280, 280, 260, 270], [340, 310, 310, 300, 300]],
    "after": [[250, 230, 220, 230, 210], [260, 250, 240, 230, 240],
              [230, 220, 210, 220, 200], [280, 260, 250, 240, 250]],
}

# Three dressings side by side, unequal numbers of readings.
SIDE = {"K1": [84.2, 85.9, 83.7, 86.1, 84.8],
        "K2": [88.3, 87.1, 89.0, 88.8],
        "K3": [81.5, 83.3, 82.7, 80.9, 84.0, 82.2]}

# Nearly no scatter: the display decides.
FLAT_BEFORE = [91.2, 91.3, 91.2, 91.2, 91.3, 91.2]
FLAT_AFTER = [91.3, 91.4, 91.3, 91.4, 91.4, 91.3]

# Pulls beyond a thousand, as the gauge of the heavy block shows them.
HEAVY_BEFORE = [1240, 1310, 1270, 1350, 1290, 1330]
HEAVY_AFTER = [980, 1040, 1010, 1060, 990, 1020]


def pairs(before, after):
    return [[i + 1, b, a] for i, (b, a) in enumerate(zip(before, after))]


class Merged(str):
    """A text cell merged with the empty cells below or to the right of it."""

    def __new__(cls, text, down=1, right=1):
        cell = super().__new__(cls, text)
        cell.down, cell.right = down, right
        return cell


class Formula(str):
    """A formula in OpenFormula notation."""


def wide_sheet():
    return [["Spot", "Before (GU)", "After (GU)"],
            *pairs(H7_BEFORE, H7_AFTER)]


def summary_sheet():
    sheet = wide_sheet()
    last = len(sheet)
    rows = [["Mean", "AVERAGE"], ["Std. dev.", "STDEV"], ["Max", "MAX"],
            ["Min", "MIN"], ["n", "COUNT"]]
    return [["Gloss of hull panel H7, dressing K1"], [], *sheet, [],
            *[[name, *[Formula(f"of:={call}([.{c}4:.{c}{last + 2}])")
                       for c in "BC"]] for name, call in rows]]


def starred_sheet():
    rows = pairs(H7_BEFORE, H7_AFTER)
    rows[2][1] = f"{H7_BEFORE[2]}*"
    rows[5][2] = f"({H7_AFTER[5]})"
    rows.append([11, 87.3, ">100"])
    rows.append([12, "n/a", 88.6])
    rows.append([13, 86.0, "-"])
    return [["Position", "Gloss before 60°", "Gloss after 60°", "Remark"],
            *rows, ["* wiped twice"]]


def long_rows():
    for (product, panel), states in LONG.items():
        for state, spots in states.items():
            for spot, repeats in enumerate(spots, 1):
                for repeat, reading in enumerate(repeats, 1):
                    yield [product, panel, state, spot, repeat, reading]


def long_sheet():
    return [["Product", "Panel", "State", "Spot", "Repeat", "Gloss (GU)"],
            *long_rows()]


def merged_sheet():
    """The same, with equal labels merged downward as people do by hand."""
    rows = [list(row) for row in long_rows()]
    for column in range(4):
        start = 0
        for i in range(1, len(rows) + 1):
            if i < len(rows) and rows[i][:column + 1] == rows[start][:column + 1]:
                continue
            rows[start][column] = Merged(str(rows[start][column]), i - start)
            for below in rows[start + 1:i]:
                below[column] = ("", *below[:column + 1])
            start = i
    for row in rows:
        row[:] = ["" if isinstance(cell, tuple) else cell for cell in row]
    return [["Dressing", "Hull", "When", "Spot", "Replicate", "Gloss [GU]"],
            *rows]


def pulls_sheet():
    header = ["Track", "State", *[f"Pull {i} [g]" for i in range(1, 6)]]
    return [header, *[[track, state, *pulls]
                      for state, tracks in PULLS.items()
                      for track, pulls in enumerate(tracks, 1)]]


def two_line_sheet():
    """Before and after merged over the five pulls below them."""
    top = ["", Merged("Before", right=5), *[""] * 4,
           Merged("After", right=5), *[""] * 4]
    names = ["Track", *range(1, 6), *range(1, 6)]
    return [top, names, *[[track, *before, *after] for track, (before, after)
                          in enumerate(zip(*PULLS.values()), 1)]]


def side_sheet():
    longest = max(map(len, SIDE.values()))
    return [list(SIDE), *[[column[i] if i < len(column) else ""
                           for column in SIDE.values()]
                          for i in range(longest)]]


def unpaired_sheet():
    longest = max(len(H9_BEFORE), len(H9_AFTER))
    return [["Gloss before", "Gloss after"],
            *[[H9_BEFORE[i] if i < len(H9_BEFORE) else "",
               H9_AFTER[i] if i < len(H9_AFTER) else ""]
              for i in range(longest)]]


def state_sheet():
    """Text export with changes in a column of their own, minus and all."""
    rows = pairs(H7_BEFORE, H7_AFTER)
    return [["Spot", "Condition", "Gloss – 60° (GU)", "Operator"],
            *[[row[0], state, row[1 + i], "Ö. Bø"]
              for i, state in enumerate(["baseline", "final"])
              for row in rows]]


def flat_sheet():
    return [["spot", "before", "after", "difference"],
            *[[*row, Formula(f"of:=[.C{i}]-[.B{i}]")]
              for i, row in enumerate(pairs(FLAT_BEFORE, FLAT_AFTER), 2)]]


def heavy_sheet():
    """Whole grams with separated thousands beside a column with decimals, so
    that the file itself tells which mark is which."""
    return [["track", "x (mm)", "pull before (g)", "pull after (g)"],
            *[[i, 12.5 * i, before, after] for i, (before, after)
              in enumerate(zip(HEAVY_BEFORE, HEAVY_AFTER), 1)]]


# Sheet: (rows, number format of its figures or None for the general one).
SHEETS = {
    "wide": (wide_sheet, "0.0"),
    "summary": (summary_sheet, None),
    "starred": (starred_sheet, None),
    "long": (long_sheet, None),
    "merged": (merged_sheet, None),
    "pulls": (pulls_sheet, None),
    "two-line": (two_line_sheet, None),
    "side": (side_sheet, None),
    "unpaired": (unpaired_sheet, "0.0"),
    "state": (state_sheet, "0.0"),
    "flat": (flat_sheet, None),
    "heavy": (heavy_sheet, "#,##0.0"),
}
