# SPDX-License-Identifier: GPL-3.0-or-later
# Judges ratios of two means: judge_ratio.R PROGRAM (the filter ratio_figures).
# Fieller's quadratic as published, in the covariances of the means, its roots by
# polyroot; the delta interval from a regression without intercept's textbook
# variance of log(after mean) - log(before mean).
program <- commandArgs(trailingOnly = TRUE)[1]
set.seed(7)
bad <- 0

close_to <- function(what, got, wanted, relative) {
  if (is.nan(got) && is.nan(wanted)) return(invisible())
  if (!is.nan(got) && !is.nan(wanted) &&
      abs(got - wanted) <= relative * max(abs(wanted), 1e-300))
    return(invisible())
  bad <<- bad + 1
  cat(what, "got", format(got, digits = 17), "wanted",
      format(wanted, digits = 17), "\n")
}

digits <- function(x) formatC(x, digits = 17, format = "g")

cases <- lapply(1:120, function(i) {
  paired <- i %% 2 == 1
  n <- sample(2:12, 1)
  m <- if (paired) n else sample(2:12, 1)
  spread <- 10^runif(1, -2.5, 0.3)
  before <- rnorm(n, 1, spread)
  after <- if (paired) 0.8 * before + rnorm(n, 0, spread / 3)
           else rnorm(m, 0.8, spread)
  list(paired = paired, before = before, after = after,
       level = sample(c(0.8, 0.95, 0.99), 1))
})
questions <- vapply(cases, function(k)
  paste(if (k$paired) "pairs" else "apart", digits(k$level), 0, 0,
        length(k$before), paste(digits(k$before), collapse = " "),
        length(k$after), paste(digits(k$after), collapse = " ")), "")
answers <- system2(program, input = questions, stdout = TRUE)
kinds <- c(0, 0, 0)
for (i in seq_along(cases)) {
  k <- cases[[i]]
  got <- as.numeric(strsplit(answers[i], " ")[[1]])
  a <- mean(k$after); b <- mean(k$before); r <- a / b
  vaa <- var(k$after) / length(k$after)
  vbb <- var(k$before) / length(k$before)
  vab <- if (k$paired) cov(k$after, k$before) / length(k$before) else 0
  df <- if (k$paired) length(k$before) - 1 else
    (vaa + r^2 * vbb)^2 / (vaa^2 / (length(k$after) - 1) +
                           (r^2 * vbb)^2 / (length(k$before) - 1))
  t <- qt((1 + k$level) / 2, df)
  A <- b^2 - t^2 * vbb; B <- a * b - t^2 * vab; C <- a^2 - t^2 * vaa
  inside <- B^2 - A * C
  kind <- if (A > 0) 0 else if (inside > 0) 1 else 2
  kinds[kind + 1] <- kinds[kind + 1] + 1
  close_to("kind", got[3], kind, 0)
  close_to("df", got[2], df, 1e-12)
  if (kind < 2) {
    ends <- sort(Re(polyroot(c(C, -2 * B, A))))
    close_to("low", got[4], ends[1], 1e-8) # the quadratic cancels
    close_to("high", got[5], ends[2], 1e-8)
  }
  if (r > 0) {
    se <- sqrt(vaa / a^2 - 2 * vab / (a * b) + vbb / b^2)
    close_to("delta low", got[6], exp(log(r) - t * se), 1e-11)
    close_to("delta high", got[7], exp(log(r) + t * se), 1e-11)
  }
}
cat(length(cases), "ratios, kinds", kinds, "disagreements", bad, "\n")
quit(status = as.integer(bad > 0 || min(kinds) < 3))
