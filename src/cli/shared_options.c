/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The options that commands share: how files are read, and those that hold
 * everywhere. */
#include "store.h"

#define COLUMN(name, role, help)                                               \
  CLI_OPTION(name, "C", NULL, cli_store_text, table.column[role], help)

static const cli_option file_options[] = {
    COLUMN("reading", SCW_ROLE_READING, "column that holds the readings"),
    CLI_OPTION("set", "C[,C]", NULL, cli_store_text, table.column[SCW_ROLE_SET],
               "column or columns whose labels part the readings into sets"),
    COLUMN("product", SCW_ROLE_PRODUCT, "column that names the product"),
    COLUMN("panel", SCW_ROLE_PANEL, "column that names the panel"),
    COLUMN("spot", SCW_ROLE_SPOT, "column that names the spot"),
    COLUMN("track", SCW_ROLE_SPOT, "the same as --spot, for pulls"),
    COLUMN("repeat", SCW_ROLE_REPEAT, "column that counts repeats at a spot"),
    COLUMN("order", SCW_ROLE_ORDER, "column that gives the order of reading"),
    COLUMN("session", SCW_ROLE_SESSION, "column that names the session"),
    COLUMN("direction", SCW_ROLE_DIRECTION,
           "column that names the direction of a pull"),
    COLUMN("replaces", SCW_ROLE_REPLACES,
           "column that marks a reading taken again in place of an earlier "
           "one; both are kept"),
    COLUMN("takes-back", SCW_ROLE_TAKES_BACK,
           "column that holds the order number of an earlier reading which no "
           "longer counts"),
    COLUMN("operator", SCW_ROLE_OPERATOR,
           "column that names who took the reading, or the laboratory"),
    COLUMN("x", SCW_ROLE_X, "column of the spots' place along the panel"),
    COLUMN("y", SCW_ROLE_Y, "column of the spots' place across the panel"),
    COLUMN("row", SCW_ROLE_ROW,
           "column of the spots' row on a grid, a letter or a number"),
    COLUMN("column", SCW_ROLE_COLUMN, "the same for their column"),
    COLUMN("state", SCW_ROLE_STATE, "column that says before or after"),
    CLI_OPTION("before", "V", "before", cli_store_text, table.before_label,
               "what the state column, or the header of a column, calls the "
               "readings taken before; 'b*' stands for all that begin with b"),
    CLI_OPTION("after", "V", "after", cli_store_text, table.after_label,
               "the same for the readings taken after"),
    CLI_OPTION("step", "Q", "inferred from the readings", cli_store_step, step,
               "smallest step of the display; 0 says the values are "
               "continuous"),
    CLI_OPTION("unit", "U", "from the header", cli_store_text, table.unit,
               "unit of the readings"),
    CLI_OPTION("geometry", "A", "from the file", cli_store_text, table.geometry,
               "angle of the gloss meter, such as 60; readings of two "
               "geometries are never put together"),
    CLI_OPTION("expect", "N", NULL, cli_store_count, settings.expect,
               "readings each set should have; a count that differs is named"),
    CLI_OPTION("separator", "S", "found", cli_store_separator, table.separator,
               "what parts the columns: comma, semicolon, tab or space"),
    CLI_OPTION("decimal-mark", "M", "found", cli_store_decimal_mark,
               table.decimal_mark, "what marks the decimals: point or comma"),
};

static const cli_option scatter_options[] = {
    CLI_OPTION("scatter", "FILE", NULL, cli_store_text, scatter,
               "a bench file with the pooled scatter of many small sets"),
    CLI_OPTION("panel-type", "NAME", "the only one", cli_store_text,
               panel_type,
               "with --scatter: the panel type whose scatter is meant"),
    CLI_OPTION("meter", "NAME", NULL, cli_store_text, meter,
               "with --scatter: the meter, where the bench file names meters"),
};

static const cli_option everywhere_options[] = {
    CLI_OPTION("level", "L", "0.95", cli_store_share, settings.level,
               "level of every interval, such as 0.95 or 95%"),
    CLI_OPTION("json", NULL, NULL, cli_store_yes, json,
               "write JSON, every figure in full"),
    CLI_OPTION("csv", NULL, NULL, cli_store_yes, csv,
               "write CSV, every figure in full"),
    CLI_OPTION("plain", NULL, NULL, cli_store_yes, plain,
               "write text in ASCII and without colour"),
    CLI_OPTION("threads", "N", "2", cli_store_threads, threads,
               "threads to use, 1 to 64; results never depend on it"),
    CLI_OPTION("help", NULL, NULL, cli_store_yes, help, "show this help"),
    CLI_OPTION("version", NULL, NULL, cli_store_yes, version,
               "show the version"),
};

const cli_group cli_file_options = {
    "Reading the files",
    "What a file holds is found from its headers and its numbers, and the "
    "report says what was found. These options say it where that fails. A "
    "column C is named by its header, without its unit.",
    file_options, CLI_COUNT(file_options)};

const cli_group cli_scatter_options = {
    "Scatter known from before",
    "Only on request. The panel type, quantity, unit, geometry and meter must "
    "be those of the readings.",
    scatter_options, CLI_COUNT(scatter_options)};

const cli_group cli_everywhere_options = {
    "Everywhere", NULL, everywhere_options, CLI_COUNT(everywhere_options)};
