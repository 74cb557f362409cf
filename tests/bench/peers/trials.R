# SPDX-License-Identifier: GPL-3.0-or-later
# The two models of monte_carlo_speed.c in R.
ratio <- function(n) {
  pull <- 160 + 4 / sqrt(5) * rt(n, 4) +
    runif(n, -1, 1) * sqrt(100 / 12 - 16 / 3) * sqrt(3)
  pull / runif(n, 499, 501)
}
six <- function(n) {
  a <- rnorm(n, 2, 0.1); b <- rnorm(n, 0.5, 0.05)
  c <- runif(n, 4.5, 5.5); d <- rnorm(n, 3, 0.1)
  e <- runif(n, 0.8, 1.2); f <- rnorm(n, 4, 0.2)
  a * exp(-b) * log(c) / d^1.5 + e^2 / f
}
figures <- function(y) {
  y <- sort(y)
  n <- length(y)
  q <- floor(0.95 * n + 0.5)
  r <- which.min(y[(q + 1):n] - y[1:(n - q)])
  c(mean(y), sd(y), y[n %/% 2], y[r], y[r + q])
}
for (model in c("ratio", "six")) for (n in c(1e6, 1e7)) {
  set.seed(1)
  times <- replicate(if (n > 1e6) 1 else 5,
                     system.time(figures(get(model)(n)))[1:3])
  cat(sprintf("%-6s %9.0f trials: %.3f s, processor %.3f s\n", model, n,
              median(times[3, ]), median(times[1, ] + times[2, ])))
}
