# SPDX-License-Identifier: GPL-3.0-or-later
# The job of components_speed in R: components.R FILE (written by it).
library(lme4)
d <- read.csv(commandArgs(trailingOnly = TRUE)[1])
d$panel <- factor(d$panel)
d$at <- interaction(d$panel, d$spot, drop = TRUE)
full <- matrix(rnorm(30000), 30)
spot <- rep(1:10, each = 3)
one <- function(y) { # closed form, one panel
  m <- rowMeans(matrix(y, 10, byrow = TRUE))
  msb <- 3 * var(m)
  msw <- sum((y - m[spot])^2) / 20
  c((msb - msw) / 3, msw, msw * 20 / qchisq(c(0.975, 0.025), 20))
}
median_of <- function(f, n = 5)
  median(replicate(n, system.time(f())[["elapsed"]]))
cat("1,000 panels, closed form:", median_of(function() apply(full, 2, one)),
    "s\n")
fit <- NULL
time <- median_of(function()
  fit <<- lmer(reading ~ 1 + (1 | panel) + (1 | at), d), 3)
cat("one REML by lmer:", time, "s\n")
print(as.data.frame(VarCorr(fit))[c("grp", "sdcor")], digits = 10)
panels <- lapply(1:50, function(i)
  data.frame(y = full[, i], spot = factor(spot)))
time <- median_of(function() for (p in panels)
  suppressMessages(lmer(y ~ 1 + (1 | spot), p)), 1)
cat("1,000 panels by lmer (from 50):", 20 * time, "s\n")
