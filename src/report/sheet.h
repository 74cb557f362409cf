/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of text: 80 columns, words wrapped, one mechanism for ASCII. Every
 * text enters through scwi_sheet_dress, so that widths are always counted on
 * what is printed. */
#ifndef SCWI_SHEET_H
#define SCWI_SHEET_H

#include "scatterwise/report.h"
#include "text.h"

enum {
  SCWI_SHEET_WIDTH = 80,
  SCWI_SHEET_INDENT = 2,
  SCWI_LABEL_WIDTH = 16 /* of a label with text hanging beside it */
};

typedef struct scwi_sheet {
  scwi_text text;
  scwi_text scratch; /* for building one paragraph at a time */
  scw_report_options options;
} scwi_sheet;

void scwi_sheet_free(scwi_sheet *sheet);

/* Appends `text` made fit for a page: control characters become blanks,
 * broken UTF-8 a question mark and, when `ascii`, every character its nearest
 * ASCII text. */
void scwi_sheet_dress(scwi_text *out, const char *text, bool ascii);

/* Ties words together: "p" SCWI_TIE "0.03" is never broken over two lines. */
#define SCWI_TIE "\xC2\xA0"

/* Columns of a text as printed. */
size_t scwi_sheet_columns(const scwi_text *text);

/* One empty line, unless the page is empty or ends in one. */
void scwi_sheet_gap(scwi_sheet *sheet);

/* The answer: wrapped from the first column, bold where colour is on. Null
 * and empty texts print nothing, here and below. */
void scwi_sheet_answer(scwi_sheet *sheet, const char *text);

/* Wrapped text, its first line starting with `lead` at the indent and the
 * next ones `hang` columns further in. */
void scwi_sheet_hanging(scwi_sheet *sheet, const char *lead, size_t hang,
                        const char *text);

/* A label and its text beside it: "  in order        between ...". */
void scwi_sheet_labelled(scwi_sheet *sheet, const char *label,
                         const char *text);

/* The same from sheet->scratch, which is emptied. */
void scwi_sheet_labelled_scratch(scwi_sheet *sheet, const char *label);

/* Empties sheet->scratch, once its text has been printed; a failure stays the
 * page's. */
void scwi_sheet_clear_scratch(scwi_sheet *sheet);

/* "- " and the text. */
void scwi_sheet_note(scwi_sheet *sheet, const char *text);

/* Dressed text from column `column` on, where the line already stands, its
 * further lines starting at the same column. */
void scwi_sheet_wrap(scwi_sheet *sheet, const char *dressed, size_t column);

/* The start of a line, already laid out and dressed; scwi_sheet_wrap goes on
 * from there. */
void scwi_sheet_start_line(scwi_sheet *sheet, const scwi_text *line);

/* A line already laid out and dressed. */
void scwi_sheet_line(scwi_sheet *sheet, const scwi_text *line);

#endif
