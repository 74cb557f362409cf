# SPDX-License-Identifier: GPL-3.0-or-later
# Judges lines with error in both by R: judge_bridge.R PROGRAM (the filter
# bridge_figures). The line is the first eigenvector of the covariance matrix,
# the jackknife leaves rows out of it, weights are iterated; lm gives the ends
# of the error ratio and the trend. Stops with every disagreement printed.
here <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
source(file.path(dirname(here), "judging.R"))
set.seed(20260314)

text <- function(word, ...)
  paste(word, paste(sprintf("%.17g", c(...)), collapse = " "))

fit <- function(x, y, ratio, w = rep(1, length(x))) {
  y <- y / sqrt(ratio)
  w <- w / sum(w)
  mx <- sum(w * x)
  my <- sum(w * y)
  m <- cbind(x - mx, y - my)
  v <- eigen(crossprod(m * w, m), symmetric = TRUE)$vectors[, 1]
  slope <- v[2] / v[1] * sqrt(ratio)
  c(slope, my * sqrt(ratio) - slope * mx)
}

# Weights 1 / level^2, the level between what the line says of x and of y.
fit_weighted <- function(x, y, ratio) {
  line <- fit(x, y, ratio)
  for (round in 1:100) {
    d <- y - line[2] - line[1] * x
    k <- ratio + line[1]^2
    level <- (ratio * (x + line[1] * d / k) + (y - ratio * d / k)) / (1 + ratio)
    now <- fit(x, y, ratio, 1 / level^2)
    if (max(abs(now - line)) < 1e-12) break
    line <- now
  }
  now
}

jackknife <- function(x, y, ratio, how) {
  n <- length(x)
  all <- how(x, y, ratio)
  left <- sapply(1:n, function(i) how(x[-i], y[-i], ratio))
  pseudo <- n * all - (n - 1) * left
  rbind(rowMeans(pseudo), apply(pseudo, 1, sd) / sqrt(n))
}

# Fuller 1987, Measurement Error Models, 1.3.12, with covariances
fuller <- function(x, y, ratio, slope) {
  n <- length(x)
  r <- y - mean(y) - slope * (x - mean(x))
  vv <- sum(r^2) / (n - 2)
  uu <- vv / (ratio + slope^2)
  uv <- -slope * uu
  xx <- cov(x, y) / slope
  sqrt((xx * vv + uu * vv - uv^2) / (xx^2 * (n - 1)))
}

make <- function(n, ratio) {
  true <- runif(n, 30, 95)
  list(x = true + rnorm(n, 0, 1), y = 2 + 1.05 * true + rnorm(n, 0, sqrt(ratio)),
       ratio = ratio)
}

judge_lines <- function(weighted) {
  cases <- lapply(1:30, function(i)
    make(sample(4:14, 1), sample(c(0.3, 1, 5), 1)))
  questions <- vapply(cases, function(c)
    text("line", c$ratio, as.numeric(weighted), 0.95, length(c$x), c$x,
         length(c$y), c$y), "")
  answers <- ask(questions)
  how <- if (weighted) fit_weighted else fit
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    got <- answers[[i]]
    line <- how(c$x, c$y, c$ratio)
    close("slope", questions[i], got[1], line[1], 1e-10)
    close("intercept", questions[i], got[2], line[2], 1e-8, 1e-8)
    shaken <- jackknife(c$x, c$y, c$ratio, how)
    close("jackknife", questions[i], got[7:10], as.vector(shaken), 1e-6, 1e-8)
    if (!weighted)
      close("fuller", questions[i], got[4],
            fuller(c$x, c$y, c$ratio, line[1]), 1e-9)
  }
  length(cases)
}

# Errors in y only, in x only.
judge_ends <- function() {
  for (i in 1:20) {
    c <- make(sample(4:20, 1), 1)
    of_y <- unname(coef(lm(y ~ x, c))[2])
    of_x <- 1 / unname(coef(lm(x ~ y, c))[2])
    q <- c(text("line", 1e14, 0, 0.95, length(c$x), c$x, length(c$y), c$y),
           text("line", 1e-14, 0, 0.95, length(c$x), c$x, length(c$y), c$y))
    got <- ask(q)
    # what is left of the ratio is of the order of its 1e-14
    close("error in y only", q[1], got[[1]][1], of_y, 1e-11)
    close("error in x only", q[2], got[[2]][1], of_x, 1e-11)
  }
  20
}

judge_trend <- function() {
  cases <- lapply(1:60, function(i) make(sample(3:20, 1), 1))
  questions <- vapply(cases, function(c)
    text("trend", 0.9, length(c$x), (c$x + c$y) / 2, length(c$x), c$y - c$x), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    c <- cases[[i]]
    model <- lm(I(y - x) ~ I((x + y) / 2), c)
    s <- coef(summary(model))[2, ]
    wanted <- c(s[1], s[2], model$df.residual, s[4],
                confint(model, level = 0.9)[2, ])
    close("trend", questions[i], answers[[i]][1:6], unname(wanted), 1e-8, 1e-10)
  }
  length(cases)
}

counts <- c(judge_lines(FALSE), judge_lines(TRUE), judge_ends(), judge_trend())
cat(counts, "cases of lines, weighted lines, ends, trends;", bad, "disagree\n")
if (bad) quit(status = 1)
