# SPDX-License-Identifier: GPL-3.0-or-later
# Judges the figures of one reading set by R: judge_one_set.R PROGRAM
# PROGRAM is the filter set_figures. Exits 1 and prints every disagreement.
#
# Readings are decimals; R takes them as doubles. Where an offset is large
# against the scatter R's own figures lose digits, so the allowed error grows
# with eps * |largest| / sd, the condition of the SD.
program <- commandArgs(trailingOnly = TRUE)[1]
set.seed(20250817)
options(warn = -1)
eps <- .Machine$double.eps
bad <- 0
compared <- 0

# --- cases ----------------------------------------------------------------
make <- function(i) {
  n <- sample(c(2, 3, 3, 4, 5, 5, 6, 7, 8, 9, 10, 10, 12, 14, 15, 18, 20, 30,
                45, 60), 1)
  spread <- sample(c(0.6, 2, 5, 30, 1000), 1) # in steps: many ties, or none
  ticks <- round(rnorm(n, 0, spread) + switch(i %% 4 + 1, 0, 0,
                 seq_len(n) * spread / 5, (seq_len(n) > n / 2) * spread))
  if (i %% 7 == 0) ticks[n] <- ticks[n] + round(8 * spread)
  offset <- sample(c(0, 874, 1e6, 1e9), 1)
  digits <- sample(c(-12, -3, 0, 1, 1, 1, 2, 6, 12), 1)
  list(step = sprintf("1e%d", -digits),
       texts = sprintf("%.0fe%d", ticks + offset, -digits))
}
cases <- lapply(1:300, make)
question <- vapply(cases, function(c)
  paste(c$step, 0, paste(c$texts, collapse = " ")), "")
sent <- tempfile()
writeLines(question, sent)
got <- read.csv(pipe(paste(shQuote(program), "<", shQuote(sent))))
stopifnot(nrow(got) == length(cases))

close_to <- function(i, what, wanted, relative, absolute = 0) {
  value <- got[i, what]
  if (is.na(wanted) && is.na(value)) return(invisible())
  compared <<- compared + 1
  fits <- !is.na(value) && !is.na(wanted) &&
    abs(value - wanted) <= max(relative * abs(wanted), absolute)
  if (!fits) {
    bad <<- bad + 1
    cat(sprintf("%s: got %.17g, R says %.17g (allowed %.2g)\n   %s\n", what,
                value, wanted, relative, question[i]))
  }
}

# --- judgement ------------------------------------------------------------
judge_moments <- function(i, x, step, loss) {
  n <- length(x); s <- sd(x)
  close_to(i, "mean", mean(x), 4 * eps, 4 * eps * max(abs(x)))
  close_to(i, "sd", s, loss)
  q <- quantile(x, c(0.25, 0.5, 0.75), type = 7, names = FALSE)
  for (k in 1:3)
    close_to(i, c("q1", "median", "q3")[k], q[k], 4 * eps,
             4 * eps * max(abs(x)))
  m <- mad(x, constant = 1)
  close_to(i, "mad", m, 4 * eps, 4 * eps * max(abs(x)))
  if (m > 4 * eps * max(abs(x)))
    close_to(i, "mad_sd", m / qnorm(0.75), 4 * eps, 8 * eps * max(abs(x)))
  term <- max(0, step^2 / 12 - s^2 / 3)
  u <- sqrt(s^2 / n + term)
  df <- (n - 1) * (u^2 / (s^2 / n))^2
  close_to(i, "standard_uncertainty", u, loss)
  close_to(i, "df", df, 10 * loss)
  if (term == 0) { # then the interval is R's own
    # t quantiles at two and more df agree to 1e-13, with R's own error
    ci <- t.test(x)$conf.int
    close_to(i, "low", ci[1], loss, loss * u * 100)
    close_to(i, "high", ci[2], loss, loss * u * 100)
  } else {
    half <- qt(0.975, df) * u
    close_to(i, "high", mean(x) + half, loss, loss * half * 20)
  }
  chi <- qchisq(c(0.975, 0.025), n - 1)
  close_to(i, "sd_low", s * sqrt((n - 1) / chi[1]), loss + 1e-12)
  close_to(i, "sd_high", s * sqrt((n - 1) / chi[2]), loss + 1e-12)
  next_one <- predict(lm(x ~ 1), data.frame(one = 1), interval = "prediction")
  close_to(i, "prediction_low", next_one[2], loss, loss * 100 * s)
  close_to(i, "prediction_high", next_one[3], loss, loss * 100 * s)
}

judge_grubbs <- function(i, x, loss) {
  n <- length(x)
  if (n < 3) return(invisible())
  g <- max(abs(x - mean(x))) / sd(x)
  t2 <- qt(0.05 / (2 * n), n - 2)^2
  close_to(i, "grubbs_statistic", g, loss)
  close_to(i, "grubbs_limit", (n - 1) / sqrt(n) * sqrt(t2 / (n - 2 + t2)),
           1e-12)
  room <- (n - 1)^2 - n * g^2 # conditions p near the largest possible g
  if (min(table(x)) < n - 1 && length(unique(x)) > 2 && room > 1e-3) {
    t <- g * sqrt(n * (n - 2) / room)
    close_to(i, "grubbs_p",
             min(1, 2 * n * pt(t, n - 2, lower.tail = FALSE)),
             loss * (1e2 + n^3 / room), 0)
  }
}

judge_order <- function(i, x, ticks, loss) {
  n <- length(x); order <- seq_len(n)
  k <- cor.test(order, ticks, method = "kendall",
                exact = length(unique(ticks)) == n && n < 50,
                continuity = TRUE)
  pairs <- sum(sign(outer(ticks, ticks, "-"))[lower.tri(diag(n))])
  close_to(i, "kendall_s", pairs, 0)
  if (n > 9 || length(unique(ticks)) == n)
    # R takes exact p from 1 - P, which leaves 1e-16 a term and no small p
    close_to(i, "kendall_p", min(1, k$p.value), 1e-12, 1e-14)
  if (n < 3 || all(diff(diff(ticks)) == 0)) return(invisible())
  line <- lm(I(x - x[1]) ~ order)
  slope <- summary(line)$coefficients[2, ]
  ci <- confint(line)[2, ]
  size <- abs(ci[2] - ci[1])
  close_to(i, "slope", slope[1], loss, loss * size * 10)
  close_to(i, "sd_about_line", summary(line)$sigma, 100 * loss)
  close_to(i, "slope_low", ci[1], 10 * loss, 100 * loss * size)
  close_to(i, "slope_high", ci[2], 10 * loss, 100 * loss * size)
  if (slope[4] > 1e-10) close_to(i, "slope_p", slope[4], 1000 * loss)
  a <- acf(ticks, 1, plot = FALSE)$acf[2]
  close_to(i, "lag1", a, 1e-13, 1e-13)
}

judge_shape <- function(i, ticks) {
  n <- length(ticks)
  if (n < 3) return(invisible())
  w <- shapiro.test(ticks)
  close_to(i, "shapiro_w", unname(w$statistic), 1e-9)
  close_to(i, "shapiro_p", w$p.value, 1e-9, 1e-9)
}

for (i in seq_along(cases)) {
  x <- as.numeric(cases[[i]]$texts)
  ticks <- as.numeric(sub("e.*", "", cases[[i]]$texts))
  if (length(unique(ticks)) < 2) next
  # worked out in whole numbers, R loses nothing to binary fractions
  from <- ticks - ticks[1]
  loss <- 2e-13 + 4 * eps * max(abs(x)) / sd(x)
  judge_moments(i, x, as.numeric(cases[[i]]$step), loss)
  judge_grubbs(i, from, 1e-13)
  judge_order(i, x, from, loss)
  judge_shape(i, from)
}
cat(sprintf("%d figures of %d sets compared, %d disagree\n", compared,
            length(cases), bad))
quit(status = if (bad > 0 || compared < 5000) 1 else 0)
