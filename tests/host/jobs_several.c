/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products beside each other, points, and an archive. */
#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_JSON, false, false}, {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static const char three[] =
    "product,state,spot,gloss (GU)\n"
    "K0,before,1,81.2\nK0,before,2,80.7\nK0,before,3,81.9\n"
    "K0,after,1,81.0\nK0,after,2,80.9\nK0,after,3,81.8\n"
    "K1,before,1,81.2\nK1,before,2,80.7\nK1,before,3,81.9\n"
    "K1,after,1,84.0\nK1,after,2,83.1\nK1,after,3,84.6\n"
    "K2,before,1,82.0\nK2,before,2,81.1\nK2,before,3,81.6\n"
    "K2,after,1,82.2\nK2,after,2,81.5\nK2,after,3,81.4\n"
    "K3,before,1,82.3\n";

static const char marks[] = "product,marks\nK0,2\nK0,3\nK1,7\nK1,8\nK1,8\n"
                            "K2,5\nK2,5\nK2,6\n";

static const char after[] = "product,gloss (GU)\nK0,81.2\nK0,80.7\nK0,81.9\n"
                            "K1,84.0\nK1,83.1\nK2,82.2\nK2,81.5\nK2,81.4\n";

static const char looks_text[] = "product,ok at,gone by\nK0,0,25\nK1,50,100\n"
                                 "K2,100,\n";

static const char bench_text[] =
    "{\"version\": 1, \"rules\": ["
    "{\"name\": \"gain\", \"kind\": \"difference\", \"reading\": \"gloss\","
    " \"multiplier\": 2, \"low\": -20, \"high\": 40, \"rounding\":"
    " {\"mean\": 0.1, \"points\": 0.5, \"ties\": \"away\"}},"
    "{\"name\": \"kept\", \"kind\": \"percent\", \"reading\": \"gloss\","
    " \"multiplier\": 0.1, \"baseline\": \"K0\"},"
    "{\"name\": \"beading\", \"kind\": \"marks\", \"reading\": \"marks\","
    " \"low\": 0, \"high\": 10},"
    "{\"name\": \"wash\", \"kind\": \"ladder\", \"reading\": \"passes\","
    " \"rungs\": [{\"passes\": 25, \"points\": 5}, {\"passes\": 50,"
    " \"points\": 9}]}], \"scores\": [{\"name\": \"overall\", \"parts\":"
    " [{\"rule\": \"gain\"}, {\"rule\": \"beading\", \"weight\": 0.5},"
    " {\"rule\": \"wash\"}], \"rounding\": {\"points\": 1, \"ties\": \"even\"}},"
    " {\"name\": \"against K0\", \"parts\": [{\"rule\": \"kept\"}]}]}";

static const char archive[] =
    "id,product,date,panel,meter,method,rule,before mean,after mean,n,sd,step,"
    "change,points\n"
    "C1,K1,2024-03-01,H1,M1,old,gain,84.1,86.3,6,0.6,0.1,2.2,4.5\n"
    "C2,K2,2024-04-01,H1,M1,old,gain,84.0,84.3,6,0.7,0.1,0.3,0.5\n"
    "C3,K3,2024-05-01,H1,M1,new,gain,83.9,85.0,5,,0.1,1.1,2\n"
    "C4,K4,2024-06-01,H1,M1,new,gain,83.8,85.1,5,0.5,0.1,1.5,2.5\n"
    "C5,K5,2024-07-01,H1,M1,new,gain,83.6,86.4,8,1.1,0.1,-2.8,5.5\n"
    ",K6,2024-08-01,H1,M1,new,gain,,,4,,,,3\n";

static scw_source source_of(job_text *text, const char *name) {
  return job_source(text, name);
}

static scw_status read_bench(scw_context *context, job_output *out,
                             scw_bench *bench) {
  job_text text = {bench_text, sizeof bench_text - 1, 0};
  const scw_rule *rule;
  const scw_score_rule *score;
  scw_status status =
      scw_bench_read(context, source_of(&text, "bench.json"), bench);
  job_expect(out, status == SCW_OK || (!bench->rule && !bench->score),
             "a failed scw_bench_read leaves no rules");
  if (status == SCW_OK)
    status = scw_bench_find_rule(context, bench, "gain", &rule);
  if (status == SCW_OK)
    status = scw_bench_find_score(context, bench, "overall", &score);
  if (status == SCW_OK) status = scw_bench_write(context, bench, job_sink(out));
  if (status != SCW_OK) return status;
  job_say(out, scw_rule_kind_code(rule->kind));
  job_say(out, scw_ties_code(score->rounding.ties));
  return SCW_OK;
}

static scw_status compare_as(scw_context *context, job_output *out,
                             const scw_table *table,
                             const scw_compare_options *options) {
  scw_compare_result result;
  scw_status status = scw_compare(context, table, NULL, options, &result);
  job_expect(out, status == SCW_OK || (!result.product && !result.comparison &&
                                       !result.notes && !result.sentence),
             "a failed scw_compare leaves its result empty");
  if (status == SCW_OK) {
    job_say(out, scw_compared_code(result.compared));
    job_say(out, scw_adjustment_code(result.method));
    job_say(out, scw_adjustment_text(result.method));
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_compare(context, &result, table, ways[i],
                                job_sink(out));
  scw_compare_result_free(&result);
  scw_compare_result_free(&result); /* twice is allowed */
  return status;
}

scw_status job_compare(scw_context *context, job_output *out) {
  const scw_compare_options all[] = {
      {.margin = 0.5, .untreated = "K0", .smaller_is_better = true},
      {.control = "K1", .shared_spots = true}};
  scw_table *table = NULL;
  scw_status status = job_read(context, out, three, NULL, &table);
  for (size_t i = 0; i < sizeof all / sizeof *all && status == SCW_OK; i++)
    status = compare_as(context, out, table, &all[i]);
  scw_table_free(table);
  return status;
}

static scw_status score_as(scw_context *context, job_output *out,
                           const scw_score_table *tables, size_t n,
                           const scw_score_options *options) {
  scw_score_result result;
  const scw_table *looks = options->looks ? options->looks->account : NULL;
  scw_status status = scw_score(context, tables, n, NULL, options, &result);
  job_expect(out, status == SCW_OK || (!result.product && !result.notes &&
                                       !result.sentence),
             "a failed scw_score leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_score(context, &result, tables, n, looks, ways[i],
                              job_sink(out));
  scw_score_result_free(&result);
  scw_score_result_free(&result); /* twice is allowed */
  return status;
}

scw_status job_score(scw_context *context, job_output *out) {
  job_text text = {looks_text, sizeof looks_text - 1, 0};
  scw_bench bench = {0};
  scw_looks looks = {0};
  scw_table *gloss = NULL, *by_eye = NULL, *one_side = NULL;
  scw_status status = read_bench(context, out, &bench);
  if (status == SCW_OK) {
    status = scw_looks_read(context, NULL, source_of(&text, "looks.csv"),
                            &looks);
    job_expect(out, status == SCW_OK || (!looks.look && !looks.account),
               "a failed scw_looks_read leaves nothing");
  }
  if (status == SCW_OK) status = job_read(context, out, three, NULL, &gloss);
  if (status == SCW_OK) status = job_read(context, out, marks, NULL, &by_eye);
  if (status == SCW_OK) status = job_read(context, out, after, NULL, &one_side);
  const scw_score_table against[] = {{one_side, NULL}};
  const scw_score_table tables[] = {{gloss, NULL}, {by_eye, "marks"}};
  scw_score_options options = {.bench = &bench, .score = "overall",
                               .looks = &looks, .trials = 10000};
  if (status == SCW_OK) status = score_as(context, out, tables, 2, &options);
  options.score = "against K0";
  options.looks = NULL;
  if (status == SCW_OK) status = score_as(context, out, against, 1, &options);
  scw_table_free(gloss);
  scw_table_free(by_eye);
  scw_table_free(one_side);
  scw_looks_free(&looks);
  scw_looks_free(&looks); /* twice is allowed */
  scw_bench_free(&bench);
  return status;
}

static void say_claim(job_output *out, const scw_claim *claim) {
  job_say(out, scw_claim_verdict_code(claim->verdict));
  job_say(out, scw_claim_design_code(claim->design));
  job_say(out, scw_claim_design_text(claim->design));
  for (size_t i = 0; i < claim->n_faults; i++) {
    job_say(out, scw_fault_code(claim->faults[i]));
    job_say(out, scw_fault_text(claim->faults[i]));
  }
}

static void say_lists(job_output *out, const scw_audit *audit) {
  const scw_audit_rank *ranks;
  const scw_audit_baseline *baselines;
  const scw_audit_work *work;
  const scw_audit_difference *differences;
  const scw_note *notes;
  const scw_input *input = scw_audit_input(audit);
  job_bits(out, (double)scw_audit_ranks(audit, &ranks));
  job_bits(out, (double)scw_audit_baselines(audit, &baselines));
  job_bits(out, (double)scw_audit_work_list(audit, &work));
  job_bits(out, (double)scw_audit_differences(audit, &differences));
  job_bits(out, (double)scw_audit_notes(audit, &notes));
  job_bits(out, scw_audit_settings(audit)->level);
  job_say(out, scw_audit_options_of(audit)->old_method);
  job_say(out, input ? input->name : "no archive");
  job_say(out, scw_audit_sentence(audit));
}

static scw_status report_audit(scw_context *context, job_output *out,
                               const scw_audit *audit,
                               const scw_table *readings) {
  size_t n = scw_audit_summary_of(audit).claims;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    scw_claim claim;
    status = scw_audit_claim(context, audit, i, &claim);
    job_expect(out, status == SCW_OK || (!claim.sentence && !claim.faults),
               "a failed scw_audit_claim leaves the claim empty");
    if (status == SCW_OK) say_claim(out, &claim);
    if (status == SCW_OK)
      job_say(out, scw_claim_verdict_code(scw_audit_verdict(audit, i)));
    scw_claim_free(&claim);
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_audit(context, audit, readings, i == 0, ways[i],
                              job_sink(out));
  return status;
}

static scw_status audit_as(scw_context *context, job_output *out,
                           const char *text,
                           const scw_audit_options *options) {
  job_text from = {text, text ? sizeof archive - 1 : 0, 0};
  scw_source source = {0};
  scw_audit *audit;
  if (text) source = source_of(&from, "archive.csv");
  scw_status status =
      scw_audit_read(context, NULL, NULL, options, source, &audit);
  job_expect(out, status == SCW_OK || !audit,
             "a failed scw_audit_read leaves nothing");
  if (status == SCW_OK) status = report_audit(context, out, audit,
                                              options->readings);
  if (status == SCW_OK) say_lists(out, audit);
  scw_audit_free(audit);
  scw_audit_free(NULL);
  return status;
}

scw_status job_audit(scw_context *context, job_output *out) {
  scw_bench bench = {0};
  scw_status status = read_bench(context, out, &bench);
  scw_audit_options options = {.bench = &bench};
  if (status == SCW_OK) status = audit_as(context, out, archive, &options);
  options.old_method = "old";
  options.offset = 1;
  options.factor = 0.98;
  if (status == SCW_OK) status = audit_as(context, out, archive, &options);
  scw_bench_free(&bench);
  return status;
}

scw_status job_audit_raw(scw_context *context, job_output *out) {
  scw_table *table = NULL;
  scw_status status = job_read(context, out, three, NULL, &table);
  const scw_audit_options options = {.readings = table};
  if (status == SCW_OK) status = audit_as(context, out, NULL, &options);
  scw_table_free(table);
  return status;
}

/* An audit against its own JSON, which it finds unchanged. */
scw_status job_audit_against(scw_context *context, job_output *out) {
  job_text from = {archive, sizeof archive - 1, 0};
  scw_audit *audit;
  const scw_audit_difference *differences;
  size_t start = out->length; /* the JSON is read back from the output */
  scw_status status = scw_audit_read(context, NULL, NULL, NULL,
                                     source_of(&from, "archive.csv"), &audit);
  if (status == SCW_OK)
    status = scw_report_audit(context, audit, NULL, false, ways[1],
                              job_sink(out));
  job_text text = {out->text + start, out->length - start, 0};
  if (status == SCW_OK)
    status = scw_audit_against(context, audit, source_of(&text, "old.json"));
  if (status == SCW_OK) job_say(out, scw_audit_sentence(audit));
  if (audit)
    job_expect(out, scw_audit_differences(audit, &differences) == 0,
               "an audit does not differ from itself");
  scw_audit_free(audit);
  return status;
}
