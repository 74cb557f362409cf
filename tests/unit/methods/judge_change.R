# SPDX-License-Identifier: GPL-3.0-or-later
# Judges changes and plans by R: judge_change.R PROGRAM (the filter
# change_figures). Stops at the end with every disagreement printed.
here <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
source(file.path(dirname(here), "judging.R"))

text <- function(word, ...)
  paste(word, paste(sprintf("%.17g", c(...)), collapse = " "))

figures_of <- function(test, estimate)
  c(estimate, unname(test$stderr), unname(test$parameter), test$p.value,
    test$conf.int)

judge_changes <- function() {
  cases <- lapply(1:200, function(i) {
    scale <- 10^sample(-12:12, 1)
    offset <- sample(c(0, 100), 1) * scale
    list(pair = i %% 3 == 0, level = sample(c(0.9, 0.95, 0.99), 1),
         before = offset + scale * round(rnorm(sample(3:20, 1)), 2),
         after = offset + scale * round(rnorm(sample(3:20, 1), 0.4, 2), 2))
  })
  for (i in seq_along(cases)) if (cases[[i]]$pair) {
    m <- min(length(cases[[i]]$before), length(cases[[i]]$after))
    cases[[i]]$before <- cases[[i]]$before[1:m]
    cases[[i]]$after <- cases[[i]]$after[1:m]
  }
  questions <- vapply(cases, function(c) {
    if (c$pair) {
      d <- c$after - c$before
      text("paired", c$level, 0, length(d), d)
    } else {
      text("welch", c$level, 0, length(c$before), c$before,
           length(c$after), c$after)
    }
  }, "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    test <- t.test(c$after, c$before, paired = c$pair, conf.level = c$level)
    estimate <- if (c$pair) mean(c$after - c$before)
                else mean(c$after) - mean(c$before)
    wanted <- figures_of(test, estimate)
    size <- max(abs(c$before), abs(c$after))
    loss <- 1e-15 * size / wanted[2]
    close("estimate", questions[i], answers[[i]][1], wanted[1], 0, 1e-15 * size)
    close("u, df", questions[i], answers[[i]][2:3], wanted[2:3], 1e-12)
    close("p", questions[i], answers[[i]][4], wanted[4],
          1e-10 + 100 * wanted[3] * loss)
    close("interval", questions[i], answers[[i]][5:6], wanted[5:6], 0,
          1e-11 * max(abs(wanted[5:6])) + 1e-15 * size)
  }
  length(cases)
}

judge_power <- function() {
  cases <- lapply(1:200, function(i)
    list(pair = i %% 2, sd = runif(1, 0.2, 3), n = sample(3:60, 1),
         effect = runif(1, 0.1, 3), level = sample(c(0.9, 0.95, 0.99), 1),
         power = runif(1, 0.3, 0.97)))
  questions <- vapply(cases, function(c)
    text("power", c$pair, c$sd, c$sd, 0, c$level, c$n, c$n, c$effect, c$power),
    "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    power <- function(delta)
      power.t.test(n = c$n, delta = delta, sd = c$sd, sig.level = 1 - c$level,
                   type = if (c$pair) "paired" else "two.sample",
                   strict = TRUE)$power
    # R's noncentral t: about 1e-12 absolute, none beyond ncp 37.62
    if (c$effect / c$sd * sqrt(c$n) < 37)
      close("power", questions[i], answers[[i]][1], power(c$effect), 0, 1e-11)
    close("detectable", questions[i], power(answers[[i]][2]), c$power, 0, 1e-10)
  }
  length(cases)
}

judge_plans <- function() {
  cases <- lapply(1:100, function(i)
    list(pair = i %% 2, sd = runif(1, 0.5, 2), effect = runif(1, 0.3, 2),
         level = sample(c(0.9, 0.95), 1), power = runif(1, 0.6, 0.95)))
  questions <- vapply(cases, function(c)
    text("plan", c$pair, c$sd, c$sd, 0, c$level, 1, c$effect, c$power, 0.8, 0),
    "")
  answers <- ask(questions)
  judged <- 0
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    # power.t.test finds no n below 2
    n <- tryCatch(power.t.test(
      delta = c$effect, sd = c$sd, sig.level = 1 - c$level, power = c$power,
      type = if (c$pair) "paired" else "two.sample", strict = TRUE,
      tol = 1e-10)$n, error = function(e) NA)
    if (is.na(n)) next
    judged <- judged + 1
    close("n", questions[i], answers[[i]][1], max(3, ceiling(n)), 0)
  }
  if (judged < 60) stop("too few plans judged")
  judged
}

judge_holm <- function() {
  cases <- lapply(1:60, function(i) sample(c(runif(sample(2:30, 1))^3, 0.5, 0.5)))
  questions <- vapply(cases, function(p) text("holm", length(p), p), "")
  answers <- ask(questions)
  for (i in seq_along(cases))
    close("holm", questions[i], answers[[i]], p.adjust(cases[[i]], "holm"),
          1e-14)
  length(cases)
}

RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20240611)
cat("changes", judge_changes(), "power", judge_power(), "plans", judge_plans(),
    "holm", judge_holm(), "disagreements", bad, "\n")
quit(status = if (bad) 1 else 0)
