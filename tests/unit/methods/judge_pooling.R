# SPDX-License-Identifier: GPL-3.0-or-later
# Judges pooled scatter by R: judge_pooling.R PROGRAM (the filter
# pooling_figures). Bartlett by bartlett.test, Levene and Brown-Forsythe by
# anova of the absolute deviations, pooled SD by the residuals of a one-way
# fit, sets apart by pf and p.adjust. Stops with every disagreement printed.
program <- commandArgs(trailingOnly = TRUE)[1]
bad <- 0
compared <- 0
apart <- 0

close <- function(what, question, got, wanted, relative) {
  compared <<- compared + 1
  if (is.nan(wanted) && is.nan(got)) return()
  if (!is.na(got) && !is.na(wanted) &&
      abs(got - wanted) <= relative * abs(wanted)) return()
  bad <<- bad + 1
  cat(sprintf("%s: got %.17g, R says %.17g\n   %s\n", what, got, wanted,
              substr(question, 1, 300)))
}

# Rounding leaves wild sets and even ones behind; a step of half the scatter
# hides none of it.
make <- function(i) {
  k <- sample(2:20, 1)
  scale <- 10^sample(-9:9, 1)
  lapply(seq_len(k), function(j)
    scale * (sample(c(0, 80), 1) + round(rnorm(sample(2:10, 1), 0,
             if (j == 2 && i %% 3 == 0) 6 else 1), 3)))
}

judge_apart <- function(question, got, sets) {
  df <- lengths(sets) - 1
  ss <- vapply(sets, function(x) sum((x - mean(x))^2), 0)
  belongs <- rep(TRUE, length(sets))
  p_of <- function(i) {
    rest <- setdiff(which(belongs), i)
    f <- ss[i] / df[i] / (sum(ss[rest]) / sum(df[rest]))
    min(1, 2 * pf(f, df[i], sum(df[rest])),
        2 * pf(f, df[i], sum(df[rest]), lower.tail = FALSE))
  }
  wanted <- rep(NA, length(sets))
  repeat {
    p <- vapply(seq_along(sets), function(i) if (belongs[i]) p_of(i) else 2, 0)
    worst <- which.min(p)
    if (sum(belongs) * p[worst] >= 0.05 ||
        sum(!belongs) == floor((length(sets) - 1) / 2)) break
    wanted[worst] <- max(sum(belongs) * p[worst], wanted, na.rm = TRUE)
    belongs[worst] <- FALSE
  }
  left <- which(belongs)
  wanted[left] <- p.adjust(vapply(left, p_of, 0), "holm")
  apart <<- apart + sum(!belongs)
  for (i in seq_along(sets)) {
    rest <- setdiff(left, i)
    close("ratio", question, got[9 + 2 * i],
          sd(sets[[i]]) / sqrt(sum(ss[rest]) / sum(df[rest])), 1e-11)
    close("p of a set", question, got[10 + 2 * i], wanted[i], 1e-9)
  }
}

judge <- function(question, got, sets) {
  x <- unlist(sets)
  g <- factor(rep(seq_along(sets), lengths(sets)))
  fit <- lm(x ~ g)
  df <- df.residual(fit)
  s <- sqrt(sum((x - ave(x, g))^2) / df)
  close("sd", question, got[1], s, 1e-11)
  close("df", question, got[2], df, 0)
  close("low", question, got[3], s * sqrt(df / qchisq(0.975, df)), 1e-11)
  close("high", question, got[4], s * sqrt(df / qchisq(0.025, df)), 1e-11)
  bartlett <- bartlett.test(x, g)
  close("Bartlett", question, got[5], unname(bartlett$statistic), 1e-10)
  close("Bartlett p", question, got[6], bartlett$p.value, 1e-9)
  for (j in 1:2) {
    z <- abs(x - ave(x, g, FUN = if (j == 1) mean else median))
    # sets of two have equal distances, R leaves rounding there
    if (all(lengths(sets) == 2)) next
    test <- anova(lm(z ~ g))
    close("Levene", question, got[5 + 2 * j], test[["F value"]][1], 1e-9)
    close("Levene p", question, got[6 + 2 * j], test[["Pr(>F)"]][1], 1e-9)
  }
  judge_apart(question, got, sets)
}

RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20250311)
options(warn = -1)
cases <- lapply(1:150, make)
questions <- vapply(cases, function(sets)
  paste("pool 0", length(sets), paste(vapply(sets, function(x)
    paste(length(x), paste(sprintf("%.17g", x), collapse = " ")), ""),
    collapse = " ")), "")
rows <- system2(program, stdout = TRUE, input = questions)
stopifnot(length(rows) == length(questions))
for (i in seq_along(cases))
  judge(questions[i], as.numeric(strsplit(rows[i], " ")[[1]]), cases[[i]])
cat("compared", compared, "apart", apart, "disagreements", bad, "\n")
quit(status = if (bad || compared < 3000 || apart < 30) 1 else 0)
