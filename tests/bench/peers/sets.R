# SPDX-License-Identifier: GPL-3.0-or-later
# Mean, SD and 95 % interval of every set, by data.table with two threads.
suppressMessages(library(data.table))
setDTthreads(2)
x <- fread(commandArgs(TRUE)[1])
r <- x[, .(n = .N, mean = mean(reading), sd = sd(reading)), by = set]
h <- qt(0.975, r$n - 1) * r$sd / sqrt(r$n)
fwrite(r[, `:=`(low = mean - h, high = mean + h)])
