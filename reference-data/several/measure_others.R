# SPDX-License-Identifier: GPL-3.0-or-later
# How far ptukey is from quadruple precision: Rscript measure_others.R
d <- read.csv("studentised_range.csv")
df <- suppressWarnings(as.numeric(ifelse(d$df == "inf", "Inf", as.character(d$df))))
p <- suppressWarnings(ptukey(d$q, d$groups, df, lower.tail = FALSE))
off <- abs(p - d$upper)
cat("NaN", sum(is.nan(p)), "worst absolute", format(max(off, na.rm = TRUE), digits = 3),
    "; from 5 df on", format(max(off[df >= 5]), digits = 3), "\n")
