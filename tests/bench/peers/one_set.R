# SPDX-License-Identifier: GPL-3.0-or-later
# Mean, SD, interval and Grubbs' limit of one set.
x <- scan(commandArgs(TRUE)[1], quiet = TRUE)
n <- length(x)
t <- qt(1 - 0.05 / (2 * n), n - 2)
print(c(mean(x), sd(x), t.test(x)$conf.int, max(abs(x - mean(x))) / sd(x),
        (n - 1) / sqrt(n) * sqrt(t^2 / (n - 2 + t^2))), digits = 15)
