/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise change: did the product move the reading? */
#include <string.h>

#include "bench_file.h"
#include "commands.h"
#include "input.h"
#include "message.h"
#include "output.h"
#include "print.h"
#include "store.h"

static const cli_option own_options[] = {
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "smallest change that matters to you, in the unit of the "
               "readings; without it no answer says \"no change\""),
    CLI_OPTION("block", "MASS", NULL, cli_store_positive, block,
               "mass of the block, such as 500g or 4.9N: the readings are "
               "pulls and become static coefficients of friction"),
    CLI_OPTION("retention", NULL, NULL, cli_store_yes, retention,
               "tell also what percent of before is left (Fieller)"),
};

static const cli_option bench_options[] = {
    CLI_OPTION("bench", "FILE", NULL, cli_store_text, bench,
               "a bench file: its model turns each reading into a quantity, "
               "and the uncertainty of its inputs is added to the scatter"),
    CLI_OPTION("quantity", "NAME", "the one that fits", cli_store_text,
               bench_quantity, "with --bench: the quantity of the bench file"),
};

static const cli_option number_options[] = {
    CLI_OPTION("control", "V", NULL, cli_store_text, control,
               "the untreated panel or half, by its label in the product or "
               "panel column: its own change is taken off"),
    CLI_OPTION("paired-halves", NULL, NULL, cli_store_yes, paired_halves,
               "with --control: both are halves of one layout, true pairs spot "
               "by spot"),
    CLI_OPTION("tile", "VALUE", NULL, cli_store_quantity, tile,
               "assigned value of the standard tile that rows with the state "
               "'tile' were read on"),
    CLI_OPTION("baseline", "M", NULL, cli_store_quantity, baseline,
               "a remembered number in place of before readings"),
    CLI_OPTION("baseline-sd", "S", NULL, cli_store_not_negative, baseline_sd,
               "with --baseline: SD of the readings behind it"),
    CLI_OPTION("baseline-n", "N", NULL, cli_store_count, baseline_n,
               "with --baseline: how many readings are behind it"),
    CLI_OPTION("baseline-step", "Q", NULL, cli_store_not_negative,
               baseline_step, "with --baseline: the step it was shown in"),
    CLI_OPTION("before-summary", "M,SD,N", NULL, cli_store_summary,
               before_summary,
               "mean, SD and number in place of a FILE's readings; M alone or "
               "M,,N is a bare number"),
    CLI_OPTION("after-summary", "M,SD,N", NULL, cli_store_summary,
               after_summary, "the same for the readings after"),
    CLI_OPTION("summaries", "FILE", NULL, cli_store_text, summaries,
               "a table product,state,n,mean,sd (or se), the same side by side "
               "(before mean,after mean ...), or published means "
               "product,before,after,n; without a before side it is that of "
               "--before-summary"),
    CLI_OPTION("say", "WHAT", NULL, cli_store_say, say,
               "one line for scripts: verdict or sentence; with several "
               "products a line each, the product first"),
};

static const cli_group own_group = {"Change", NULL, own_options,
                                    CLI_COUNT(own_options)};
static const cli_group bench_group = {
    "The instruments",
    "What the bench file calls shared is one and the same value before and "
    "after: an offset then cancels, a gain acts on the change only.",
    bench_options, CLI_COUNT(bench_options)};
static const cli_group number_group = {
    "Control, tile, remembered numbers", NULL, number_options,
    CLI_COUNT(number_options)};
static const cli_group *const groups[] = {&own_group, &bench_group,
                                          &number_group, &cli_scatter_options,
                                          &cli_file_options,
                                          &cli_everywhere_options, NULL};

static bool has_interval(const scw_change_result *result) {
  for (size_t i = 0; i < result->n_changes; i++) {
    const scw_change_report *change = &result->changes[i];
    if (change->change.interval.state == SCW_PRESENT ||
        change->bank.change.interval.state == SCW_PRESENT ||
        change->verdict == SCW_CONDITIONAL) {
      return true;
    }
  }
  return false;
}

/* What is compared with the result must be in its unit. A coefficient of
 * friction has none, whatever the pulls were read in. */
static cli_exit check_unit(const cli_run *run, const scw_table *table,
                           const char *option, const cli_quantity *quantity) {
  if (run->request.block.given && quantity->unit != NULL) {
    return cli_usage(run->command,
                     "--%s is given in %s, but with --block it is a "
                     "coefficient of friction, which has no unit",
                     option, quantity->unit);
  }
  return cli_check_unit(run, table, option, quantity);
}

/* With a bench the margin is in the unit of its quantity, which the library
 * looks after. */
static cli_exit check_margin_unit(const cli_run *run, const scw_table *table) {
  return run->request.bench != NULL
             ? CLI_ANSWERED
             : check_unit(run, table, "margin", &run->request.margin);
}

static cli_exit check_units(const cli_run *run, const scw_table *table) {
  const cli_request *request = &run->request;
  cli_exit code = check_margin_unit(run, table);
  if (code == CLI_ANSWERED) {
    code = check_unit(run, table, "baseline", &request->baseline);
  }
  if (code == CLI_ANSWERED) {
    code = check_unit(run, table, "baseline-sd", &request->baseline_sd);
  }
  if (code == CLI_ANSWERED) {
    code = check_unit(run, table, "baseline-step", &request->baseline_step);
  }
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, table, "tile", &request->tile);
  }
  return code;
}

static cli_exit check_together(const cli_run *run) {
  const cli_request *request = &run->request;
  bool file = request->summaries != NULL;
  bool numbers = file || request->before_summary.given ||
                 request->after_summary.given;
  bool more = request->baseline_sd.given || request->baseline_n > 0 ||
              request->baseline_step.given;
  if (request->say != NULL && (request->json || request->csv)) {
    return cli_usage(run->command,
                     "--say writes one line; leave out --json and --csv");
  }
  if (request->bench_quantity != NULL && request->bench == NULL) {
    return cli_usage(run->command,
                     "--quantity names one of a bench file; give that too as "
                     "--bench FILE");
  }
  if (more && !request->baseline.given) {
    return cli_usage(run->command,
                     "--baseline-sd, --baseline-n and --baseline-step tell of "
                     "a --baseline; give that too");
  }
  if (file && request->after_summary.given) {
    return cli_usage(run->command,
                     "--summaries holds the after side; leave out "
                     "--after-summary");
  }
  if (numbers && !file && !(request->before_summary.given &&
                            request->after_summary.given)) {
    return cli_usage(run->command,
                     "numbers need both sides; give --before-summary and "
                     "--after-summary");
  }
  if (numbers && request->n_operands > 0) {
    return cli_usage(run->command,
                     "numbers for both sides and a file were given; use one of "
                     "them");
  }
  if (!numbers && request->n_operands == 0) {
    return cli_usage(run->command,
                     "change needs a file; - reads standard input, and "
                     "--before-summary with --after-summary does without");
  }
  return CLI_ANSWERED;
}

static scw_change_options options_of(const cli_run *run) {
  const cli_request *request = &run->request;
  return (scw_change_options){
      .bench = request->scatter != NULL ? &run->bench : NULL,
      .scatter = {.panel_type = request->panel_type,
                  .geometry = request->table.geometry,
                  .meter = request->meter},
      .instruments = request->bench != NULL ? &run->instruments : NULL,
      .quantity = request->bench_quantity,
      .margin_unit = request->bench != NULL ? request->margin.unit : NULL,
      .margin = request->margin.value,
      .has_block = request->block.given,
      .block = request->block.value,
      .block_unit = request->block.unit,
      .control = request->control,
      .paired_halves = request->paired_halves,
      .retention = request->retention,
      .has_baseline = request->baseline.given,
      .baseline = {.mean = request->baseline.value,
                   .has_sd = request->baseline_sd.given,
                   .sd = request->baseline_sd.value,
                   .n = request->baseline_n,
                   .step = request->baseline_step.value},
      .has_tile = request->tile.given,
      .tile = request->tile.value,
  };
}

static void say(const cli_run *run, const scw_change_result *result) {
  bool verdict = strcmp(run->request.say, "verdict") == 0;
  for (size_t i = 0; i < result->n_changes; i++) {
    const scw_change_report *change = &result->changes[i];
    if (verdict && result->n_changes > 1) {
      cli_print(run->host->sink, "%s\t", change->product);
    }
    cli_print(run->host->sink, "%s\n",
              verdict ? scw_verdict_code(change->verdict) : change->sentence);
  }
}

static scw_status work_out(const cli_run *run, const scw_table *table,
                           scw_change_result *result) {
  const cli_request *request = &run->request;
  const scw_change_options options = options_of(run);
  if (table != NULL) {
    return scw_change(run->context, table, &request->settings, &options,
                      result);
  }
  scw_given_change given = {.before = request->before_summary.side,
                            .after = request->after_summary.side};
  return scw_change_from_numbers(run->context, &given, 1, request->table.unit,
                                 NULL, &request->settings, &options, result);
}

/* Tells the result that `status` came with, and frees it. */
static cli_exit tell(cli_run *run, scw_status status, const scw_table *table,
                     scw_change_result *result) {
  cli_exit code = CLI_ANSWERED;
  if (status == SCW_OK) {
    code = has_interval(result) ? CLI_ANSWERED : CLI_NO_FIGURE;
    if (run->request.say != NULL) {
      say(run, result);
    } else {
      status = scw_report_change(run->context, result, table,
                                 cli_report_options(run), run->host->sink);
    }
  }
  scw_change_result_free(result);
  return status == SCW_OK ? code : cli_failed(run, status);
}

static cli_exit answer(cli_run *run, const scw_table *table) {
  scw_change_result result = {0};
  return tell(run, work_out(run, table, &result), table, &result);
}

static cli_exit answer_summaries(cli_run *run) {
  const cli_request *request = &run->request;
  const scw_given_side *before =
      request->before_summary.given ? &request->before_summary.side : NULL;
  scw_given_changes given = {0};
  scw_change_result result = {0};
  cli_input input;
  cli_exit code = cli_input_open(&input, run->host, request->summaries);
  if (code != CLI_ANSWERED) {
    return code;
  }
  const scw_change_options options = options_of(run);
  scw_status status = scw_given_changes_read(
      run->context, &request->table, input.source, before, &given);
  cli_input_close(&input);
  if (status == SCW_OK) {
    code = check_margin_unit(run, given.account);
  }
  if (status == SCW_OK && code == CLI_ANSWERED) {
    code = cli_check_unit(run, given.account, "step", &request->step);
  }
  if (status == SCW_OK && code == CLI_ANSWERED) {
    status = scw_change_from_given(run->context, &given, &request->settings,
                                   &options, &result);
  }
  if (code == CLI_ANSWERED) {
    code = tell(run, status, given.account, &result);
  }
  scw_given_changes_free(&given);
  return code;
}

static cli_exit run_change(cli_run *run) {
  static const scw_side sides[] = {SCW_SIDE_BEFORE, SCW_SIDE_AFTER};
  const cli_request *request = &run->request;
  scw_table *table = NULL;
  cli_exit code = check_together(run);
  if (code == CLI_ANSWERED) {
    code = cli_bench_open(run);
  }
  if (code == CLI_ANSWERED && request->bench != NULL) {
    code = cli_bench_read(run, request->bench, &run->instruments);
  }
  if (code == CLI_ANSWERED && request->summaries != NULL) {
    return answer_summaries(run);
  }
  if (code == CLI_ANSWERED && request->n_operands > 0) {
    code = cli_read_tables(run, request->operands,
                           request->n_operands == 2 ? sides : NULL,
                           request->n_operands, &table);
  }
  if (code == CLI_ANSWERED && table != NULL) {
    code = check_units(run, table);
  }
  if (code == CLI_ANSWERED) {
    code = answer(run, table);
  }
  scw_table_free(table);
  return code;
}

const cli_command cli_change = {
    .name = "change",
    .operands = "FILE | BEFORE AFTER",
    .least = 0,
    .most = 2,
    .question =
        "did the product move the reading, or is that the panel's "
        "own scatter?",
    .about =
        "Works out after minus before with its interval and gives one "
        "verdict. Readings are paired by spot where the file names spots on "
        "both sides; else the two sides are compared as a whole. FILE holds "
        "both sides, in columns headed before and after or with a state "
        "column; or give one file for each side.\n\n"
        "The strongest design reads the same spots before and after, on the "
        "same day with the same meter, and takes off what an untreated control "
        "did meanwhile (--control). A remembered number (--baseline) carries "
        "its own doubt: without its SD the answer says how good it would have "
        "to be.\n\n"
        "Only you can say which change matters: give it as --margin D. "
        "Without a margin the answer is \"changed\" or \"cannot tell\", and "
        "never that nothing changed.\n\n"
        "A block-pull coefficient ranks slickness under that block, load, "
        "dwell and speed. It is not a slip-resistance rating and is not to be "
        "used for floors, steps, decks, footwear, pedals, wheel rims, brakes, "
        "tyre treads, seats or controls; keep slick products off them.",
    .example = "change gloss-k1.csv --margin 0.5",
    .groups = groups,
    .run = run_change,
};
