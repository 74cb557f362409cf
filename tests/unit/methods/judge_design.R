# SPDX-License-Identifier: GPL-3.0-or-later
# Judges rank intervals and SD ratios by R: judge_design.R PROGRAM (the filter
# design_figures). Stops at the end with every disagreement printed.
here <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
source(file.path(dirname(here), "judging.R"))

text <- function(word, ...)
  paste(word, paste(sprintf("%.17g", c(...)), collapse = " "))

# Two samples without ties: wilcox.test itself.
judge_ranks <- function() {
  cases <- lapply(1:120, function(i)
    list(level = sample(c(0.9, 0.95, 0.99), 1),
         before = rnorm(sample(2:25, 1), 80), after = rnorm(sample(2:25, 1), 81)))
  questions <- vapply(cases, function(c)
    text("ranks", c$level, length(c$before), c$before, length(c$after),
         c$after), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    m <- length(c$before)
    n <- length(c$after)
    tail <- (1 - c$level) / 2
    test <- suppressWarnings(wilcox.test(c$after, c$before, exact = TRUE,
                                         conf.int = TRUE, conf.level = c$level))
    close("estimate", questions[i], answers[[i]][1], unname(test$estimate),
          1e-13)
    if (pwilcox(0, m, n) > tail) {
      if (!is.nan(answers[[i]][2])) close("unreachable", questions[i], 1, 0, 0)
      next
    }
    close("interval", questions[i], answers[[i]][2:3], test$conf.int[1:2],
          1e-12, 1e-13)
    close("coverage", questions[i], answers[[i]][4],
          1 - 2 * pwilcox(qwilcox(tail, m, n) - 1, m, n), 1e-13)
  }
  length(cases)
}

judge_signed_ranks <- function() {
  cases <- lapply(1:120, function(i)
    list(level = sample(c(0.9, 0.95, 0.99), 1), d = rnorm(sample(2:40, 1), 0.4)))
  questions <- vapply(cases, function(c)
    text("signed_ranks", c$level, length(c$d), c$d), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    n <- length(c$d)
    tail <- (1 - c$level) / 2
    test <- suppressWarnings(wilcox.test(c$d, exact = TRUE, conf.int = TRUE,
                                         conf.level = c$level))
    close("estimate", questions[i], answers[[i]][1], unname(test$estimate),
          1e-12, 1e-14)
    if (psignrank(0, n) > tail) {
      if (!is.nan(answers[[i]][2])) close("unreachable", questions[i], 1, 0, 0)
      next
    }
    close("interval", questions[i], answers[[i]][2:3], test$conf.int[1:2],
          1e-12, 1e-13)
    close("coverage", questions[i], answers[[i]][4],
          1 - 2 * psignrank(qsignrank(tail, n) - 1, n), 1e-13)
  }
  length(cases)
}

# With ties R leaves the exact distribution, so the order statistics are taken
# by hand from qwilcox and qsignrank.
judge_ties <- function() {
  cases <- lapply(1:80, function(i)
    list(before = round(rnorm(sample(5:20, 1), 80), 1),
         after = round(rnorm(sample(5:20, 1), 80.5), 1)))
  questions <- vapply(cases, function(c)
    text("ranks", 0.95, length(c$before), c$before, length(c$after), c$after),
    "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    pairs <- sort(outer(c$after, c$before, "-"))
    q <- qwilcox(0.025, length(c$before), length(c$after))
    close("tied ranks", questions[i], answers[[i]][1:3],
          c(median(pairs), pairs[q], pairs[length(pairs) + 1 - q]), 1e-12,
          1e-12)
  }
  questions <- vapply(cases, function(c)
    text("signed_ranks", 0.95, length(c$after), c$after - 80), "")
  answers <- ask(questions)
  judged <- 0
  for (i in seq_along(cases)) {
    d <- cases[[i]]$after - 80
    q <- qsignrank(0.025, length(d))
    if (q == 0) next
    judged <- judged + 1
    means <- outer(d, d, "+") / 2
    pairs <- sort(means[lower.tri(means, diag = TRUE)])
    close("tied signed ranks", questions[i], answers[[i]][1:3],
          c(median(pairs), pairs[q], pairs[length(pairs) + 1 - q]), 1e-12,
          1e-12)
  }
  length(cases) + judged
}

judge_sd_ratio <- function() {
  cases <- lapply(1:100, function(i)
    list(level = sample(c(0.9, 0.95), 1),
         scale = 10^sample(c(-12, 0, 12), 1), before = rnorm(sample(2:20, 1)),
         after = rnorm(sample(2:20, 1), sd = 3)))
  questions <- vapply(cases, function(c)
    text("sd_ratio", c$level, length(c$before), c$scale * c$before,
         length(c$after), c$scale * c$after), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    test <- var.test(c$after, c$before, conf.level = c$level)
    close("sd ratio", questions[i], answers[[i]],
          sqrt(c(unname(test$estimate), test$conf.int)), 1e-11)
  }
  length(cases)
}

RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20240612)
cat("ranks", judge_ranks(), "signed ranks", judge_signed_ranks(), "ties",
    judge_ties(), "sd ratio", judge_sd_ratio(), "disagreements", bad, "\n")
quit(status = if (bad) 1 else 0)
