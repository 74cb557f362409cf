/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of text: 80 columns, words wrapped, one mechanism for ASCII. Every
 * text enters through scwi_page_dress, so that widths are always counted on
 * what is printed. */
#ifndef SCWI_PAGE_H
#define SCWI_PAGE_H

#include "scatterwise/report.h"
#include "text.h"

enum {
  SCWI_PAGE_WIDTH = 80,
  SCWI_PAGE_INDENT = 2,
  SCWI_LABEL_WIDTH = 16 /* of a label with text hanging beside it */
};

typedef struct scwi_page {
  scwi_text text;
  scwi_text scratch; /* for building one paragraph at a time */
  scw_report_options options;
} scwi_page;

void scwi_page_free(scwi_page *page);

/* Appends `text` made fit for a page: control characters become blanks,
 * broken UTF-8 a question mark and, when `ascii`, every character its nearest
 * ASCII text. */
void scwi_page_dress(scwi_text *out, const char *text, bool ascii);

/* Columns of a text as printed. */
size_t scwi_page_columns(const scwi_text *text);

/* One empty line, unless the page is empty or ends in one. */
void scwi_page_gap(scwi_page *page);

/* The answer: wrapped from the first column, bold where colour is on. Null
 * and empty texts print nothing, here and below. */
void scwi_page_answer(scwi_page *page, const char *text);

/* Wrapped text, its first line starting with `lead` at the indent and the
 * next ones `hang` columns further in. */
void scwi_page_hanging(scwi_page *page, const char *lead, size_t hang,
                       const char *text);

/* A label and its text beside it: "  in order        between ...". */
void scwi_page_labelled(scwi_page *page, const char *label, const char *text);

/* The same from page->scratch, which is emptied. */
void scwi_page_labelled_scratch(scwi_page *page, const char *label);

/* "- " and the text. */
void scwi_page_note(scwi_page *page, const char *text);

/* Dressed text from column `column` on, where the line already stands, its
 * further lines starting at the same column. */
void scwi_page_wrap(scwi_page *page, const char *dressed, size_t column);

/* A line already laid out and dressed. */
void scwi_page_line(scwi_page *page, const scwi_text *line);

#endif
