/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "strip.h"

#include <math.h>
#include <string.h>

#include "number_text.h"
#include "wording.h"

/* Marks; the page turns them into o x # - 1..8 where only ASCII will do. */
#define ONE_READING   "\xE2\x80\xA2" /* a dot */
#define MEAN_MARK     "\xE2\x97\x86" /* a diamond */
#define INTERVAL_MARK "\xE2\x94\x80" /* a line */

enum { MOST_CELLS = 60, FEWEST_CELLS = 20, DOTS_UP_TO = 60 };

typedef struct scale {
  double low, high;
  size_t cells;
} scale;

static void stretch(scale *to, double value) {
  if (value < to->low) to->low = value;
  if (value > to->high) to->high = value;
}

/* The scale holds all readings, and the interval as far as it does not make
 * the readings small: an interval of two readings is far wider than they. */
static scale scale_of(const scwi_strip *strips, size_t n) {
  scale all = {INFINITY, -INFINITY, 0};
  for (size_t s = 0; s < n; s++)
    for (size_t i = 0; i < strips[s].n; i++)
      stretch(&all, strips[s].values[i]);
  double room = all.high / 2 - all.low / 2; /* never overflows */
  scale readings = all;
  for (size_t s = 0; s < n; s++) {
    if (strips[s].interval.state != SCW_PRESENT) continue;
    double low = strips[s].interval.low, high = strips[s].interval.high;
    if (room > 0 && low < readings.low - room) low = readings.low - room;
    if (room > 0 && high > readings.high + room) high = readings.high + room;
    stretch(&all, low);
    stretch(&all, high);
  }
  return all;
}

/* The cell of a value; one before the first is SIZE_MAX, one beyond the last
 * is `cells`. */
static size_t cell_of(double value, const scale *on) {
  double share = (value / 2 - on->low / 2) / (on->high / 2 - on->low / 2);
  if (share < 0) return SIZE_MAX;
  if (share > 1) return on->cells;
  return (size_t)(share * (double)(on->cells - 1) + 0.5);
}

/* One cell with so many readings: a dot, then digits, then '+'. */
static void put_count(scwi_text *line, size_t count) {
  char digit[2] = {(char)('0' + (count < 10 ? count : 0)), 0};
  scwi_text_add(line, count == 0   ? " "
                      : count == 1 ? ONE_READING
                      : count < 10 ? digit
                                   : "+");
}

/* One cell of many readings as a bar of 8 heights. */
static void put_bar(scwi_text *line, size_t count, size_t most) {
  char bar[4] = {(char)0xE2, (char)0x96, (char)0x80, 0};
  size_t height = (count * 8 + most - 1) / most;
  bar[2] = (char)(0x80 + height);
  scwi_text_add(line, count ? bar : " ");
}

static bool flagged_in(const scwi_strip *strip, const scale *on, size_t cell) {
  for (size_t f = 0; f < strip->n_flags; f++)
    if (cell_of(strip->flags[f].reading, on) == cell) return true;
  return false;
}

static void draw_readings(scwi_text *line, const scwi_strip *strip,
                          const scale *on) {
  size_t counts[MOST_CELLS] = {0}, most = 1;
  for (size_t i = 0; i < strip->n; i++) {
    size_t cell = cell_of(strip->values[i], on);
    if (cell < on->cells && ++counts[cell] > most) most = counts[cell];
  }
  for (size_t c = 0; c < on->cells; c++) {
    if (counts[c] && flagged_in(strip, on, c))
      scwi_text_add(line, "x");
    else if (strip->n > DOTS_UP_TO)
      put_bar(line, counts[c], most);
    else
      put_count(line, counts[c]);
  }
}

/* "(----#----)"; '<' and '>' where the interval runs beyond the strip. */
static void draw_interval(scwi_text *line, const scwi_strip *strip,
                          const scale *on) {
  bool bounded = strip->interval.state == SCW_PRESENT;
  size_t mean = cell_of(strip->mean.value, on);
  size_t low = bounded ? cell_of(strip->interval.low, on) : mean;
  size_t high = bounded ? cell_of(strip->interval.high, on) : mean;
  size_t first = low == SIZE_MAX ? 0 : low;
  size_t last = high >= on->cells ? on->cells - 1 : high;
  for (size_t c = 0; c <= last; c++)
    scwi_text_add(line, c < first                    ? " "
                        : c == mean                  ? MEAN_MARK
                        : c == first && low != first ? "<"
                        : c == last && high != last  ? ">"
                        : c == first                 ? "("
                        : c == last                  ? ")"
                                                     : INTERVAL_MARK);
}

/* A line of the strip after the room for its label; `cells` is emptied. */
static void print_line(scwi_sheet *sheet, const char *label, scwi_text *cells) {
  scwi_text line = {0};
  size_t column = SCWI_SHEET_INDENT + SCWI_LABEL_WIDTH;
  scwi_text_repeat(&line, ' ', SCWI_SHEET_INDENT);
  scwi_sheet_dress(&line, label ? label : "", sheet->options.ascii);
  if (scwi_sheet_columns(&line) >= column) { /* a long label stands alone */
    scwi_sheet_hanging(sheet, "", 0, label);
    scwi_text_clear(&line);
  }
  scwi_text_repeat(&line, ' ', column - scwi_sheet_columns(&line));
  if (cells->length) scwi_sheet_dress(&line, cells->data, sheet->options.ascii);
  if (cells->failed) sheet->text.failed = true;
  scwi_sheet_line(sheet, &line);
  scwi_text_free(&line);
  scwi_text_clear(cells);
}

/* What the marks mean, as far as they were used. */
static void add_legend(scwi_text *legend, const scwi_text *drawn, bool bars,
                       bool flags, bool clipped) {
  bool digits = drawn->length && strpbrk(drawn->data, "23456789+");
  if (flags) scwi_text_add(legend, "x stands out");
  if (clipped) {
    scwi_word_join(legend, ", ");
    scwi_text_add(legend, "< >: runs on");
  }
  if (!bars && !digits) return;
  scwi_word_join(legend, ", ");
  scwi_text_add(legend,
                bars ? "height counts readings" : "digits count readings");
}

/* The ends of the scale below its ends, the legend between them. */
static void print_ends(scwi_sheet *sheet, const scale *on, int decimals,
                       const char *unit, const scwi_text *legend) {
  scwi_text low = {0}, high = {0}, line = {0};
  scwi_word_quantity(&low, on->low, decimals, unit);
  scwi_word_quantity(&high, on->high, decimals, unit);
  scwi_text_add(&line, low.data ? low.data : "");
  size_t words = scwi_sheet_columns(legend), ends = scwi_sheet_columns(&high);
  size_t used = scwi_sheet_columns(&line);
  if (used + ends + words + 4 <= on->cells) {
    size_t room = on->cells - used - ends - words;
    scwi_text_repeat(&line, ' ', room / 2);
    scwi_text_add(&line, legend->length ? legend->data : "");
    scwi_text_repeat(&line, ' ', room - room / 2);
  } else {
    scwi_text_add(&line, used + ends + 4 <= on->cells ? "" : " to ");
    if (used + ends < on->cells)
      scwi_text_repeat(&line, ' ', on->cells - used - ends);
  }
  scwi_text_add(&line, high.data ? high.data : "");
  if (low.failed || high.failed) sheet->text.failed = true;
  print_line(sheet, "", &line);
  scwi_text_free(&low);
  scwi_text_free(&high);
  scwi_text_free(&line);
}

void scwi_sheet_strips(scwi_sheet *sheet, const scwi_strip *strips, size_t n,
                       int decimals, const char *unit) {
  scale on = scale_of(strips, n);
  if (!(on.high / 2 - on.low / 2 > 0)) return;
  on.cells = MOST_CELLS;
  scwi_text line = {0}, drawn = {0}, legend = {0};
  bool bars = false, flags = false, clipped = false;
  for (size_t s = 0; s < n; s++) {
    if (strips[s].n == 0) continue;
    bars = bars || strips[s].n > DOTS_UP_TO;
    flags = flags || strips[s].n_flags > 0;
    draw_readings(&line, &strips[s], &on);
    scwi_text_append(&drawn, line.data, line.length);
    print_line(sheet, strips[s].label, &line);
    if (strips[s].mean.state != SCW_PRESENT) continue;
    draw_interval(&line, &strips[s], &on);
    if (line.length && strpbrk(line.data, "<>")) clipped = true;
    print_line(sheet, "mean, interval", &line);
  }
  add_legend(&legend, &drawn, bars, flags, clipped);
  print_ends(sheet, &on, decimals, unit, &legend);
  if (drawn.failed || legend.failed) sheet->text.failed = true;
  scwi_text_free(&line);
  scwi_text_free(&drawn);
  scwi_text_free(&legend);
}
