#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Exports the sheets of this folder with LibreOffice Calc (7.4 when the files
# were made) as its "Text CSV" filter writes them, in two locales. The answers
# are make_expected.py's business.
#
# Filter tokens: separator, quote, character set (76 UTF-8, 1 Windows-1252,
# 65535 UTF-16), first line, formats, language, quote all, as shown.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=$here/../exports
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

python3 "$here/make_sheets.py"

profile() { # LOCALE: a user profile whose setting it is
  mkdir -p "$work/$1/user"
  cat > "$work/$1/user/registrymodifications.xcu" <<EOF
<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale"
 oor:op="fuse"><value>$1</value></prop></item>
</oor:items>
EOF
}

export_sheet() { # LOCALE SHEET SEPARATOR CHARSET QUOTE_ALL FILE
  soffice --headless "-env:UserInstallation=file://$work/$1" --convert-to \
    "csv:Text - txt - csv (StarCalc):$3,34,$4,1,,0,$5,true" \
    --outdir "$work/csv" "$here/$2.fods" > /dev/null 2>&1
  cp "$work/csv/$2.csv" "$out/$6"
}

mkdir -p "$out"
profile en-US
profile de-DE
comma=44 semicolon=59 tab=9
utf8=76 windows=1 utf16=65535

export_sheet en-US wide $comma $utf8 false wide-en.csv
export_sheet de-DE wide $semicolon $utf8 false wide-de.csv
export_sheet de-DE wide $comma $utf8 false wide-de-quoted.csv
export_sheet en-US summary $comma $utf8 false summary-lines-en.csv
export_sheet de-DE summary $semicolon $windows false summary-lines-de.csv
export_sheet en-US starred $comma $windows false starred-windows.csv
export_sheet en-US long $comma $utf8 true long-quoted.csv
export_sheet de-DE merged $semicolon $utf8 false merged-cells-de.csv
export_sheet en-US pulls $comma $utf8 false pulls.csv
export_sheet en-US two-line $tab $utf8 false two-line-header.tsv
export_sheet en-US side $comma $utf8 false side-by-side.csv
export_sheet de-DE unpaired $semicolon $utf8 false unpaired-de.csv
export_sheet de-DE state $tab $utf16 false state-unicode-text.txt
export_sheet en-US flat $comma $utf8 false flat.csv
export_sheet en-US heavy $comma $utf8 false thousands-en.csv
export_sheet de-DE heavy $semicolon $utf8 false thousands-de.csv

# Other spreadsheets write the separator into a first line of its own, with
# CRLF line ends and a byte order mark.
{ printf '\357\273\277sep=;\r\n'; sed 's/$/\r/' "$out/wide-de.csv"; } \
  > "$out/sep-line.csv"
