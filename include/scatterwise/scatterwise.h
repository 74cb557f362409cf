/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole public interface of scatterwise. */
#ifndef SCATTERWISE_SCATTERWISE_H
#define SCATTERWISE_SCATTERWISE_H

#include "scatterwise/audit.h"
#include "scatterwise/bench.h"
#include "scatterwise/bench_budget.h"
#include "scatterwise/bridge.h"
#include "scatterwise/budget.h"
#include "scatterwise/change.h"
#include "scatterwise/compare.h"
#include "scatterwise/comparison.h"
#include "scatterwise/components.h"
#include "scatterwise/context.h"
#include "scatterwise/drift.h"
#include "scatterwise/figures.h"
#include "scatterwise/given.h"
#include "scatterwise/gloss.h"
#include "scatterwise/layout.h"
#include "scatterwise/monte_carlo.h"
#include "scatterwise/panel.h"
#include "scatterwise/place.h"
#include "scatterwise/plan.h"
#include "scatterwise/planning.h"
#include "scatterwise/pooling.h"
#include "scatterwise/readings.h"
#include "scatterwise/report.h"
#include "scatterwise/rules.h"
#include "scatterwise/score.h"
#include "scatterwise/sink.h"
#include "scatterwise/spot_list.h"
#include "scatterwise/status.h"
#include "scatterwise/summary.h"
#include "scatterwise/table.h"
#include "scatterwise/take.h"
#include "scatterwise/version.h"

#endif
