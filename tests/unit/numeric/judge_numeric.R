# SPDX-License-Identifier: GPL-3.0-or-later
# Judges the distributions, power and tests by R: judge_numeric.R PROGRAM (which
# prints FUNCTION,VALUE,ARGUMENT... lines). Prints the largest disagreement of
# each function; fails where one exceeds what R itself can be trusted with.
program <- commandArgs(trailingOnly = TRUE)[1]
lines <- strsplit(system2(program, stdout = TRUE), ",")
names <- vapply(lines, `[`, "", 1)
bad <- 0

compare <- function(name, got, wanted, relative, absolute = 0) {
  far <- abs(got - wanted) / pmax(relative * abs(wanted), absolute)
  far[got == wanted] <- 0
  worst <- which.max(replace(far, is.na(far), Inf))
  cat(sprintf("%-22s %4d cases, worst at %.2g of the tolerance %.0e\n", name,
              length(got), far[worst], max(relative, absolute)))
  if (length(got) < 60 || !(far[worst] <= 1)) {
    bad <<- bad + 1
    cat("   got", format(got[worst], digits = 17), "wanted",
        format(wanted[worst], digits = 17), "case", worst, "\n")
  }
}

rows_of <- function(name)
  vapply(lines[names == name], function(line) as.numeric(line[2:5]), numeric(4))

judge <- function(name, f, relative, absolute = 0) {
  rows <- rows_of(name)
  compare(name, rows[1, ], mapply(f, rows[2, ], rows[3, ], rows[4, ]),
          relative, absolute)
}

# By R's quantile where that passes R's own distribution function, elsewhere by
# R's distribution function at our point.
judge_quantile <- function(name, quantile, tail, relative = 1e-11) {
  rows <- rows_of(name)
  at <- function(f, x) mapply(f, x, rows[3, ], rows[4, ])
  wanted <- at(quantile, rows[2, ])
  sound <- abs(at(tail, wanted) / rows[2, ] - 1) < 1e-12
  if (!all(sound))
    cat(sprintf("%-22s R misses its own aim in %d cases\n", name, sum(!sound)))
  compare(name, ifelse(sound, rows[1, ], at(tail, rows[1, ])),
          ifelse(sound, wanted, rows[2, ]), relative)
}

upper <- function(f, ...) f(..., lower.tail = FALSE)

judge("normal_upper", function(x, ...) upper(pnorm, x), 1e-13)
judge("t_upper", function(x, df, ...) upper(pt, x, df), 1e-12)
judge("chi2_cdf", function(x, df, ...) pchisq(x, df), 1e-12)
judge("chi2_upper", function(x, df, ...) upper(pchisq, x, df), 1e-12)
judge("f_cdf", pf, 1e-12)
judge("f_upper", function(x, a, b) upper(pf, x, a, b), 1e-12)
judge("beta_cdf", pbeta, 1e-12)
judge_quantile("normal_quantile", function(p, ...) qnorm(p),
               function(x, ...) pnorm(x), 1e-14)
judge_quantile("t_quantile", function(p, df, ...) qt(p, df),
               function(x, df, ...) pt(x, df))
judge_quantile("chi2_quantile", function(p, df, ...) qchisq(p, df),
               function(x, df, ...) pchisq(x, df))
judge_quantile("chi2_upper_quantile",
               function(p, df, ...) upper(qchisq, p, df),
               function(x, df, ...) upper(pchisq, x, df))
judge_quantile("f_quantile", qf, pf)
judge_quantile("f_upper_quantile", function(p, a, b) upper(qf, p, a, b),
               function(x, a, b) upper(pf, x, a, b))
judge_quantile("beta_quantile", qbeta, pbeta)
judge("noncentral_t_cdf", function(t, df, ncp)
  suppressWarnings(pt(t, df, ncp)), 0, 1e-11)
judge("power_two_sample", function(n, effect, alpha)
  power.t.test(n, effect, sig.level = alpha, strict = TRUE)$power, 0, 1e-11)
judge("n_two_sample", function(effect, alpha, power)
  ceiling(power.t.test(NULL, effect, sig.level = alpha, power = power,
                       strict = TRUE, tol = 1e-10)$n), 0)

kendall <- lines[names == "kendall"]
compare("kendall", as.numeric(vapply(kendall, `[`, "", 2)),
        vapply(kendall, function(line) {
          y <- as.numeric(line[-(1:2)])
          cor.test(seq_along(y), y, method = "kendall", exact = TRUE)$p.value
        }, 0), 0, 1e-14) # R takes small tails as 1 - p

shapiro <- lines[names == "shapiro"]
wanted <- lapply(shapiro, function(line) shapiro.test(as.numeric(line[-(1:3)])))
compare("shapiro W", as.numeric(vapply(shapiro, `[`, "", 2)),
        vapply(wanted, function(t) unname(t$statistic), 0), 1e-10)
compare("shapiro p", as.numeric(vapply(shapiro, `[`, "", 3)),
        vapply(wanted, function(t) t$p.value, 0), 0, 1e-9)

if (bad) quit(status = 1)
