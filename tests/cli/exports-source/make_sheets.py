#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes the sheets of shed.py as flat OpenDocument spreadsheets (.fods) into
this folder. Spots and the like stay whole numbers; figures with a number
format get it, the others the general format of the exporting locale."""

import pathlib
from xml.sax.saxutils import escape, quoteattr

import shed

HEAD = """<?xml version="1.0" encoding="UTF-8"?>
<office:document
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 office:version="1.3"
 office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:automatic-styles>
<number:number-style style:name="N1"><number:number number:decimal-places="1"
 number:min-decimal-places="1" number:min-integer-digits="1"
 number:grouping="{grouping}"/></number:number-style>
<style:style style:name="figure" style:family="table-cell"
 style:data-style-name="N1"/>
</office:automatic-styles>
<office:body><office:spreadsheet>
<table:table table:name="readings">
"""
TAIL = "</table:table>\n</office:spreadsheet></office:body>\n</office:document>\n"


def cell_text(cell, styled):
    style = ' table:style-name="figure"' if styled else ""
    if cell == "":
        return "<table:table-cell/>"
    if isinstance(cell, shed.Formula):
        return (f"<table:table-cell{style} "
                f"table:formula={quoteattr(str(cell))}/>")
    if isinstance(cell, (int, float)):
        return (f'<table:table-cell{style} office:value-type="float" '
                f'office:value="{cell!r}"/>')
    span = ""
    if isinstance(cell, shed.Merged):
        span = (f' table:number-rows-spanned="{cell.down}"'
                f' table:number-columns-spanned="{cell.right}"')
    return (f'<table:table-cell{span} office:value-type="string">'
            f"<text:p>{escape(cell)}</text:p></table:table-cell>")


def row_text(row, number_format):
    cells = []
    covered = 0
    for cell in row:
        if covered and cell == "":
            covered -= 1
            cells.append("<table:covered-table-cell/>")
            continue
        if isinstance(cell, shed.Merged):
            covered = cell.right - 1
        figure = isinstance(cell, (float, shed.Formula)) or (
            number_format == "#,##0.0" and isinstance(cell, int) and cell > 99)
        cells.append(cell_text(cell, figure and number_format is not None))
    return f"<table:table-row>{''.join(cells)}</table:table-row>\n"


def main():
    folder = pathlib.Path(__file__).parent
    for name, (sheet, number_format) in shed.SHEETS.items():
        grouping = "true" if number_format and "," in number_format else "false"
        text = HEAD.format(grouping=grouping) + "".join(
            row_text(row, number_format) for row in sheet()) + TAIL
        (folder / f"{name}.fods").write_text(text, "utf-8")


if __name__ == "__main__":
    main()
