# SPDX-License-Identifier: GPL-3.0-or-later
# Welch's p of every row (readings before, then as many after), the
# Benjamini-Hochberg q and what it calls beyond. Second argument "loop": t.test
# row by row; else whole matrices.
arguments <- commandArgs(TRUE)
suppressMessages(library(data.table))
setDTthreads(2)
x <- as.matrix(fread(arguments[1])[, -1])
half <- ncol(x) / 2
before <- x[, 1:half]
after <- x[, half + 1:half]
if (length(arguments) > 1) {
  p <- vapply(seq_len(nrow(x)), function(i) t.test(after[i, ], before[i, ])$p.value, 0)
} else {
  variance <- function(m) rowSums((m - rowMeans(m))^2) / (half - 1) / half
  u <- variance(before)
  v <- variance(after)
  t <- (rowMeans(after) - rowMeans(before)) / sqrt(u + v)
  df <- (u + v)^2 / ((u^2 + v^2) / (half - 1))
  p <- 2 * pt(-abs(t), df)
}
q <- p.adjust(p, "BH")
cat(length(p), sum(q <= 0.05), sum(p < 0.05), "\n")
