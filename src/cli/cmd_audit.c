/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise audit: which published scores rest on changes inside the noise? */
#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "store.h"
#include "store_bridge.h"

static const cli_option own_options[] = {
    CLI_OPTION("bench", "FILE", NULL, cli_store_text, bench,
               "a bench file with the rules by which points were made"),
    CLI_OPTION("rule", "NAME", "by the rule column", cli_store_text, audit.rule,
               "with --bench: the rule of claims that name none"),
    CLI_OPTION("readings", "FILE", NULL, cli_store_name, audit.readings,
               "raw readings behind claims: its products are their ids; as "
               "often as needed, and without an archive too"),
    CLI_OPTION("old-method", "NAME", NULL, cli_store_text, audit.old_method,
               "with --conversion: what the method column calls the method "
               "whose values are to be converted"),
    CLI_OPTION("conversion", "A,B", NULL, cli_store_conversion,
               audit.conversion,
               "new = A + B x old, as bridge works it out: intercept and slope"),
    CLI_OPTION("against", "FILE", NULL, cli_store_text, audit.against,
               "an earlier audit, written with --json: tells what changed "
               "since, and why"),
    CLI_OPTION("all", NULL, NULL, cli_store_yes, audit.all,
               "show every entry of long lists"),
    CLI_OPTION("brief", NULL, NULL, cli_store_yes, brief,
               "for very large archives: the counts, without lists and "
               "without what would settle a claim"),
};

static const cli_option archive_options[] = {
    CLI_OPTION("before", "V", "numbered columns", cli_store_text,
               table.before_label,
               "headers of the columns with readings before, such as 'b*'"),
    CLI_OPTION("after", "V", "numbered columns", cli_store_text,
               table.after_label, "the same for the readings after"),
    CLI_OPTION("step", "Q", "the step column; of readings: inferred",
               cli_store_step, step,
               "smallest step of the display, for claims that name none"),
    CLI_OPTION("unit", "U", "from the headers", cli_store_text, table.unit,
               "unit of the means and readings"),
    CLI_OPTION("geometry", "A", "from the headers", cli_store_text,
               table.geometry, "angle of the gloss meter, such as 60"),
    CLI_OPTION("separator", "S", "found", cli_store_separator, table.separator,
               "what parts the columns: comma, semicolon, tab or space"),
    CLI_OPTION("decimal-mark", "M", "found", cli_store_decimal_mark,
               table.decimal_mark, "what marks the decimals: point or comma"),
};

static const cli_group archive_group = {
    "Reading the archive",
    "Columns are known by their headers; the manual lists the words.",
    archive_options, CLI_COUNT(archive_options)};

static const cli_group own_group = {"Audit", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group *const groups[] = {&own_group, &archive_group,
                                          &cli_scatter_options,
                                          &cli_everywhere_options, NULL};

static cli_exit check(const cli_run *run) {
  const cli_audit_request *audit = &run->request.audit;
  if (run->request.n_operands == 0 && audit->readings.n == 0) {
    return cli_usage(run->command, "give an archive, or --readings FILE");
  }
  if (audit->rule != NULL && run->request.bench == NULL) {
    return cli_usage(run->command,
                     "--rule names a rule of a bench file; give that too as "
                     "--bench FILE");
  }
  if ((audit->old_method != NULL) != audit->conversion.given) {
    return cli_usage(run->command,
                     "--old-method NAME and --conversion A,B go together");
  }
  if (run->request.brief && audit->against != NULL) {
    return cli_usage(run->command,
                     "--against goes through every claim, --brief does not; "
                     "use one of them");
  }
  return CLI_ANSWERED;
}

/* The raw readings have columns of their own; what was said of the archive's
 * columns is not theirs. */
static cli_exit read_raw(cli_run *run, scw_table **out) {
  const cli_names *names = &run->request.audit.readings;
  scw_table_options kept = run->request.table;
  cli_exit code = CLI_ANSWERED;
  if (names->n == 0) {
    return CLI_ANSWERED;
  }
  if (run->request.n_operands > 0) {
    run->request.table = (scw_table_options){.separator = kept.separator,
                                             .decimal_mark = kept.decimal_mark,
                                             .unit = kept.unit,
                                             .geometry = kept.geometry};
  }
  code = cli_read_tables(run, (char *const *)names->items, NULL, names->n, out);
  run->request.table = kept;
  return code;
}

static cli_exit compare(cli_run *run, scw_audit *audit) {
  cli_input input;
  if (run->request.audit.against == NULL) {
    return CLI_ANSWERED;
  }
  cli_exit code =
      cli_input_open(&input, run->host, run->request.audit.against);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status = scw_audit_against(run->context, audit, input.source);
  cli_input_close(&input);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit read_archive(cli_run *run, const scw_audit_options *options,
                             scw_audit **audit) {
  const cli_request *request = &run->request;
  cli_input input = {.descriptor = -1};
  scw_source source = {.read = NULL};
  bool file = request->n_operands > 0;
  cli_exit code =
      file ? cli_input_open(&input, run->host, request->operands[0])
           : CLI_ANSWERED;
  if (code != CLI_ANSWERED) {
    return code;
  }
  if (file) {
    source = input.source;
  }
  scw_status status = scw_audit_read(run->context, &request->table,
                                     &request->settings, options, source,
                                     audit);
  if (file) {
    cli_input_close(&input);
  }
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit answer(cli_run *run, const scw_table *raw) {
  const cli_request *request = &run->request;
  const scw_audit_options options = {
      .bench = request->bench != NULL ? &run->instruments : NULL,
      .rule = request->audit.rule,
      .scatter_bench = request->scatter != NULL ? &run->bench : NULL,
      .scatter = {.panel_type = request->panel_type, .meter = request->meter},
      .readings = raw,
      .old_method = request->audit.old_method,
      .offset = request->audit.conversion.offset,
      .factor = request->audit.conversion.factor,
      .brief = request->brief};
  scw_audit *audit = NULL;
  cli_exit code = read_archive(run, &options, &audit);
  if (code == CLI_ANSWERED) {
    code = compare(run, audit);
  }
  if (code == CLI_ANSWERED) {
    scw_audit_summary summary = scw_audit_summary_of(audit);
    bool any = summary.not_judged < summary.claims;
    scw_status status =
        scw_report_audit(run->context, audit, raw, request->audit.all,
                         cli_report_options(run), run->host->sink);
    code = status != SCW_OK ? cli_failed(run, status)
           : any            ? CLI_ANSWERED
                            : CLI_NO_FIGURE;
  }
  scw_audit_free(audit);
  return code;
}

static cli_exit run_audit(cli_run *run) {
  scw_table *raw = NULL;
  cli_exit code = check(run);
  if (code == CLI_ANSWERED && run->request.bench != NULL) {
    code = cli_bench_read(run, run->request.bench, &run->instruments);
  }
  if (code == CLI_ANSWERED) {
    code = cli_bench_open(run);
  }
  if (code == CLI_ANSWERED) {
    code = read_raw(run, &raw);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, raw);
  }
  scw_table_free(raw);
  return code;
}

const cli_command cli_audit = {
    .name = "audit",
    .operands = "[FILE]",
    .least = 0,
    .most = 1,
    .question = "which published scores rest on changes inside the noise?",
    .about =
        "FILE is an archive of published scores, one claim a row, with what "
        "there is of it: id, product, date, panel, meter, method, rule; before "
        "mean and after mean, n, sd (or se), step; change; points; or the "
        "readings themselves (before 1, before 2, ... or --before 'b*' --after "
        "'a*').\n\n"
        "For each claim the figures are worked out again, and slips of "
        "arithmetic and rounding are named, and means and SDs that no n "
        "readings on that step can have. Then the change is judged: beyond the "
        "scatter on file; within it (not shown, not refuted); or standing only "
        "if a scatter that nobody wrote down was small enough. All claims of "
        "the file are judged together.\n\n"
        "An audit judges the figures given, not the product and not the "
        "person.",
    .example = "audit archive.csv --bench scores.json",
    .groups = groups,
    .run = run_audit,
};
