/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A change judged on the scatter of a bench beside the readings' own, and the
 * answer both allow. Decisions: docs/methods/scatter-bank.md. */
#ifndef SCWI_CHANGE_BANK_H
#define SCWI_CHANGE_BANK_H

#include "change_report.h"

/* Finds the entry that fits the readings (texts not said in options->scatter
 * are taken from here); `entry` and `out` stay empty where none was asked for.
 * The SD is divided by `divisor`, as the readings are. */
scw_status scwi_find_bank(scw_context *context,
                          const scw_change_options *options,
                          const scw_scatter_wanted *readings, double divisor,
                          const scw_bench_scatter **entry, scwi_bank *out);

/* Fills report->bank and makes report->verdict the answer of both. The report
 * holds the readings' own figures and verdict. */
scw_status scwi_change_bank(scw_context *context, const scwi_change_case *one,
                            scw_change_report *report);

/* The verdict by the readings' own scatter, whatever a bank says. */
scw_verdict scwi_own_verdict(const scw_change_report *report);

scw_status scwi_bank_notes(scw_context *context, const scwi_change_case *one,
                           const scw_change_report *report,
                           scwi_notes *notes);

#endif
