# SPDX-License-Identifier: GPL-3.0-or-later
# How far R is from the judge values beside this script: see measure_scipy.py.
# Rscript measure_r.R FOLDER
options(warn = -1)
folder <- commandArgs(trailingOnly = TRUE)[1]
rows <- function(name)
  read.csv(file.path(folder, paste0(name, ".csv")), comment.char = "#")

report <- function(name, got, wanted, label, absolute = FALSE) {
  error <- abs(got - wanted) / (if (absolute) 1 else abs(wanted))
  error[!is.finite(got)] <- Inf
  worst <- which.max(error)
  cat(sprintf("%-24s %4d cases, worst %.1e at %s; %d wrong by more than 1e-6\n",
              name, length(got), error[worst], label[worst], sum(error > 1e-6)))
}

cat("R", as.character(getRversion()), "\n")
d <- rows("normal")
report("normal upper", pnorm(d$z, lower.tail = FALSE), d$upper, d$z)
d <- rows("t")
report("t upper", pt(d$t, d$df, lower.tail = FALSE), d$upper, paste(d$t, d$df))
d <- rows("chi_square")
report("chi_square lower", pchisq(d$x, d$df), d$lower, paste(d$x, d$df))
report("chi_square upper", pchisq(d$x, d$df, lower.tail = FALSE), d$upper,
       paste(d$x, d$df))
d <- rows("f")
at <- paste(d$x, d$df1, d$df2)
report("f lower", pf(d$x, d$df1, d$df2), d$lower, at)
report("f upper", pf(d$x, d$df1, d$df2, lower.tail = FALSE), d$upper, at)
d <- rows("beta")
at <- paste(d$x, d$a, d$b)
report("beta lower", pbeta(d$x, d$a, d$b), d$lower, at)
report("beta upper", pbeta(d$x, d$a, d$b, lower.tail = FALSE), d$upper, at)

quantile_of <- list(normal = function(p, a, b) qnorm(p),
                    t = function(p, a, b) qt(p, a),
                    chi_square = function(p, a, b) qchisq(p, a),
                    f = qf, beta = qbeta)
d <- rows("quantiles")
for (name in names(quantile_of)) {
  e <- d[d$distribution == name, ]
  report(paste(name, "quantile"),
         mapply(quantile_of[[name]], e$p, e$first, e$second), e$quantile,
         paste("p", e$p, ";", e$first, e$second))
}
d <- rows("noncentral_t")
at <- paste("t", d$t, "df", d$df, "ncp", d$ncp)
report("noncentral t lower", pt(d$t, d$df, d$ncp), d$lower, at)
report("noncentral t lower, abs.", pt(d$t, d$df, d$ncp), d$lower, at, TRUE)
upper <- pt(d$t, d$df, d$ncp, lower.tail = FALSE)
report("noncentral t upper", upper, d$upper, at)
report("noncentral t upper, abs.", upper, d$upper, at, TRUE)
