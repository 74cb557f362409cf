/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scatterwise take: when have I read enough? */
#include "commands.h"
#include "input.h"
#include "keep.h"
#include "lines.h"
#include "message.h"
#include "output.h"
#include "store.h"
#include "take_run.h"

static const cli_option keep_options[] = {
    CLI_OPTION("keep", "FILE", NULL, cli_store_text, take.keep,
               "keep every reading in this new file, safe on the disk before "
               "the next one is asked for; `readings` and `change` read it"),
    CLI_OPTION("resume", NULL, NULL, cli_store_yes, take.resume,
               "go on with the file of an earlier run, however it ended"),
    CLI_OPTION("follow", "FILE", NULL, cli_store_text, take.follow,
               "take readings from a file that grows, such as the log of a "
               "meter; what is typed goes on working beside it"),
    CLI_OPTION("brief", NULL, NULL, cli_store_yes, brief,
               "no lines for single readings, only how it stands at the end"),
};

static const cli_option what_options[] = {
    CLI_OPTION("spots", "FILE", NULL, cli_store_text, take.spots,
               "list of spots to go to, such as `plan --spots` writes: with "
               "the columns spot and, as wanted, x and y"),
    CLI_OPTION("baseline", "FILE", NULL, cli_store_text, take.baseline,
               "readings taken before: the change is worked out, spot by spot "
               "where they name spots"),
    CLI_OPTION("unpaired", NULL, NULL, cli_store_yes, take.unpaired,
               "with --baseline: not spot by spot"),
    CLI_OPTION("quantity", "WORD", "the baseline's, else reading",
               cli_store_text, take.quantity,
               "what is read: gloss, haze, pull, thickness and so on; the "
               "header of the readings"),
    CLI_OPTION("unit", "U", "the baseline's", cli_store_text, table.unit,
               "unit of the readings"),
    CLI_OPTION("step", "Q", "inferred from the readings", cli_store_step, step,
               "smallest step of the display; 0 says the values are "
               "continuous"),
    CLI_OPTION("product", "NAME", "the baseline's", cli_store_text,
               take.product, "what is on the panel, for every row"),
    CLI_OPTION("panel", "NAME", "the baseline's", cli_store_text, take.panel,
               "the panel, for every row"),
    CLI_OPTION("session", "NAME", NULL, cli_store_text, take.session,
               "the day or session, for every row"),
    CLI_OPTION("geometry", "A", "the baseline's", cli_store_text,
               table.geometry, "angle of the gloss meter, for every row"),
    CLI_OPTION("operator", "NAME", NULL, cli_store_text, take.by,
               "who reads, for every row"),
    CLI_OPTION("meter", "NAME", NULL, cli_store_text, take.meter,
               "the meter, for every row"),
};

static const cli_option stop_options[] = {
    CLI_OPTION("readings", "N", NULL, cli_store_count, readings,
               "a plan fixed beforehand: after so many readings (spots, where "
               "there are spots)"),
    CLI_OPTION("top-up", "M", NULL, cli_store_count, take.top_up,
               "the first M readings say how many are needed for --half-width"),
    CLI_OPTION("anytime", NULL, NULL, cli_store_yes, take.anytime,
               "by the interval that holds at every look together: until it "
               "is within --half-width, lies beyond or within --margin, or "
               "excludes no change"),
    CLI_OPTION("half-width", "H", NULL, cli_store_positive, half_width,
               "how narrow the interval shall be: plus or minus H"),
    CLI_OPTION("margin", "D", NULL, cli_store_positive, margin,
               "with --baseline: smallest change that matters to you"),
    CLI_OPTION("g", "G", "1", cli_store_positive, take.g,
               "of the interval at every look: the variance, in squared SDs, "
               "of the shifts it looks out for"),
};

static const cli_option everywhere_options[] = {
    CLI_OPTION("level", "L", "0.95", cli_store_share, settings.level,
               "level of every interval, such as 0.95 or 95%"),
    CLI_OPTION("json", NULL, NULL, cli_store_yes, json,
               "write JSON: one object on one line for each thing that "
               "happens"),
    CLI_OPTION("plain", NULL, NULL, cli_store_yes, plain,
               "write text in ASCII and without colour"),
    CLI_OPTION("help", NULL, NULL, cli_store_yes, help, "show this help"),
    CLI_OPTION("version", NULL, NULL, cli_store_yes, version,
               "show the version"),
};

static const cli_group keep_group = {"Keeping", NULL, keep_options,
                                     CLI_COUNT(keep_options)};
static const cli_group what_group = {"What is read", NULL, what_options,
                                     CLI_COUNT(what_options)};
static const cli_group stop_group = {
    "When to stop",
    "Without one of --readings, --top-up and --anytime the figures are shown "
    "and no advice is given. Looking after every reading and stopping when it "
    "looks good makes the t interval too narrow; these rules do not.",
    stop_options, CLI_COUNT(stop_options)};
static const cli_group everywhere_group = {"Everywhere", NULL,
                                           everywhere_options,
                                           CLI_COUNT(everywhere_options)};
static const cli_group *const groups[] = {&keep_group, &what_group, &stop_group,
                                          &everywhere_group, NULL};

static cli_exit check(const cli_run *run) {
  const cli_request *r = &run->request;
  const cli_taking *take = &r->take;
  const char *wrong = NULL;
  int rules = (r->readings > 0) + (take->top_up > 0) + take->anytime;
  if (rules > 1) {
    wrong = "--readings, --top-up and --anytime exclude each other: choose one "
            "rule before the first reading";
  } else if (r->half_width.given && take->top_up == 0 && !take->anytime) {
    wrong = "--half-width needs --top-up M or --anytime";
  } else if (take->resume && take->keep == NULL) {
    wrong = "--resume needs --keep FILE, the file to go on with";
  } else if (take->unpaired && take->baseline == NULL) {
    wrong = "--unpaired needs --baseline FILE";
  } else if (r->n_operands > 0 && take->follow != NULL) {
    wrong = "lines come either from a file given or from one that is followed";
  }
  return wrong == NULL ? CLI_ANSWERED : cli_usage(run->command, "%s", wrong);
}

static const char *meter_unit(const cli_request *request) {
  const char *const units[] = {request->table.unit, request->step.unit,
                               request->half_width.unit, request->margin.unit};
  for (size_t i = 0; i < CLI_COUNT(units); i++) {
    if (units[i] != NULL) {
      return units[i];
    }
  }
  return NULL;
}

static scw_take_options options_of(const cli_request *request,
                                   const scw_spot_list *spots) {
  const cli_taking *take = &request->take;
  return (scw_take_options){
      .rule = request->readings > 0 ? SCW_TAKE_PLAN
              : take->top_up > 0    ? SCW_TAKE_TOP_UP
              : take->anytime       ? SCW_TAKE_ANYTIME
                                    : SCW_TAKE_OPEN,
      .readings = request->readings > 0 ? request->readings : take->top_up,
      .half_width = request->half_width.value,
      .margin = request->margin.value,
      .g = take->g.value,
      .quantity = take->quantity,
      .unit = meter_unit(request),
      .panel = take->panel,
      .product = take->product,
      .session = take->session,
      .geometry = request->table.geometry,
      .by = take->by,
      .meter = take->meter,
      .spots = take->spots != NULL ? spots : NULL,
      .unpaired = take->unpaired,
  };
}

static cli_exit read_spots(cli_run *run, scw_spot_list *spots) {
  cli_input input;
  if (run->request.take.spots == NULL) {
    return CLI_ANSWERED;
  }
  cli_exit code =
      cli_input_open(&input, run->host, run->request.take.spots);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status = scw_spot_list_read(run->context, input.source, spots);
  cli_input_close(&input);
  return status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
}

static cli_exit read_baseline(cli_run *run, scw_table **baseline) {
  cli_input input;
  const scw_table_options options = {.unit = NULL};
  if (run->request.take.baseline == NULL) {
    return CLI_ANSWERED;
  }
  cli_exit code =
      cli_input_open(&input, run->host, run->request.take.baseline);
  if (code != CLI_ANSWERED) {
    return code;
  }
  scw_status status =
      scw_table_read(run->context, &options, input.source, baseline);
  cli_input_close(&input);
  if (status != SCW_OK) {
    return cli_failed(run, status);
  }
  code = cli_check_unit(run, *baseline, "margin", &run->request.margin);
  if (code == CLI_ANSWERED) {
    code = cli_check_unit(run, *baseline, "half-width",
                          &run->request.half_width);
  }
  return code == CLI_ANSWERED
             ? cli_check_unit(run, *baseline, "step", &run->request.step)
             : code;
}

static cli_exit begin(cli_run *run, cli_keep *keep, scw_take **take) {
  scw_spot_list spots = {0};
  scw_table *baseline = NULL;
  cli_exit code = read_spots(run, &spots);
  if (code == CLI_ANSWERED) {
    code = read_baseline(run, &baseline);
  }
  if (code == CLI_ANSWERED) {
    scw_take_options options = options_of(&run->request, &spots);
    scw_status status =
        scw_take_open(run->context, &options, &run->request.settings, baseline,
                      cli_keep_sink(keep), take);
    code = status == SCW_OK ? CLI_ANSWERED : cli_failed(run, status);
  }
  scw_table_free(baseline);
  scw_spot_list_free(&spots);
  return code;
}

static cli_exit run_take(cli_run *run) {
  cli_keep keep = {.descriptor = -1};
  scw_take *take = NULL;
  cli_exit code = check(run);
  if (code == CLI_ANSWERED) {
    code = begin(run, &keep, &take);
  }
  if (code == CLI_ANSWERED && run->request.take.keep != NULL) {
    code = cli_keep_open(&keep, run->request.take.keep,
                         run->request.take.resume);
  }
  if (code == CLI_ANSWERED) {
    code = cli_take_readings(run, &keep, take);
  }
  cli_keep_close(&keep);
  scw_take_close(take);
  return code;
}

const cli_command cli_take = {
    .name = "take",
    .operands = "[FILE]",
    .least = 0,
    .most = 1,
    .question = "have I read enough?",
    .about =
        "Takes one reading at a time, typed, piped from an instrument, out of "
        "a FILE of such lines or from a file that grows. After each one it "
        "shows how many there are, the mean or the change, the scatter, two "
        "intervals, readings that stand out and creep, and whether to stop.\n\n"
        "A line is a reading, 87.4, or a spot and its reading, 3 87.4. undo, "
        "again, mark and note, each with its reason or text, stop and help do "
        "what they say. With --keep every reading is safe on the disk before "
        "the next is asked for; ending the program at any moment loses "
        "nothing, and --resume goes on.",
    .example = "take bench-k1.txt --baseline gloss-k1.csv --anytime --brief",
    .groups = groups,
    .run = run_take,
};
