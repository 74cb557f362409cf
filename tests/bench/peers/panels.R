# SPDX-License-Identifier: GPL-3.0-or-later
# panels.R FILE closed|lme4|one: every panel by mean squares (balanced, with the
# exact interval of the repeats), every panel by lme4, or all in one model.
words <- commandArgs(trailingOnly = TRUE)
d <- read.csv(words[1])
if (words[2] == "closed") {
  y <- matrix(d$gloss, 30)
  spot <- rep(1:10, each = 3)
  one <- function(y) {
    m <- colMeans(matrix(y, 3))
    msb <- 3 * var(m)
    msw <- sum((y - m[spot])^2) / 20
    half <- qt(0.975, 9) * sqrt(msb / 30)
    c(mean(m), mean(m) - half, mean(m) + half, (msb - msw) / 3, msw,
      msw * 20 / qchisq(c(0.975, 0.025), 20))
  }
  write.csv(t(apply(y, 2, one)), row.names = FALSE)
} else {
  suppressPackageStartupMessages(library(lme4))
  d$panel <- factor(d$panel)
  d$at <- interaction(d$panel, d$spot, drop = TRUE)
  if (words[2] == "one") {
    print(summary(lmer(gloss ~ 1 + (1 | panel) + (1 | at), d)))
  } else {
    for (p in split(d, d$panel)) {
      fit <- suppressMessages(lmer(gloss ~ 1 + (1 | at), p))
      cat(fixef(fit), as.data.frame(VarCorr(fit))$sdcor, "\n")
    }
  }
}
