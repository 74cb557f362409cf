# SPDX-License-Identifier: GPL-3.0-or-later
# Readings per side and pairs for each (effect, sd), by power.t.test in a loop.
x <- read.csv(commandArgs(TRUE)[1])
need <- function(type) mapply(function(d, s) ceiling(
  power.t.test(delta = d, sd = s, power = 0.9, type = type, strict = TRUE)$n),
  x$effect, x$sd)
write.csv(cbind(x, need("two.sample"), need("paired")), row.names = FALSE)
