# SPDX-License-Identifier: GPL-3.0-or-later
# Judges the figures of place by R: judge_place.R PROGRAM (the filter
# place_figures). Gradient by lm, edge by t.test, semivariogram by gstat, the
# correlation model by nlme; Moran's I and the mean of the panel by dense
# matrices. Stops at the end with every disagreement printed.
suppressPackageStartupMessages({
  library(nlme)
  library(gstat)
})
program <- commandArgs(trailingOnly = TRUE)[1]
bad <- 0
set.seed(20260301)

ask <- function(questions) {
  rows <- system2(program, stdout = TRUE, input = questions)
  if (!is.null(attr(rows, "status")) || length(rows) != length(questions))
    stop("the program failed")
  lapply(strsplit(rows, " "), as.numeric)
}

question <- function(word, panel, ...) {
  n <- nrow(panel)
  numbers <- c(..., n, panel$x, n, panel$y, n, panel$z)
  paste(word, paste(sprintf("%.17g", numbers), collapse = " "))
}

close <- function(what, question, got, wanted, relative, absolute = 0) {
  far <- abs(got - wanted) > pmax(relative * abs(wanted), absolute)
  if (length(got) == length(wanted) && !any(is.na(far) | far)) return()
  bad <<- bad + 1
  cat(what, ": got", format(got, digits = 17), "wanted",
      format(wanted, digits = 17), "\n  ", substr(question, 1, 300), "\n")
}

# Panels of n spots, some on a grid, with a slope, shown to so many decimals;
# with a range, neighbours resemble each other.
panel <- function(n, grid = FALSE, range = 0, nugget = 0.3, slope = 0,
                  decimals = 12) {
  columns <- ceiling(sqrt(n))
  d <- if (grid)
    data.frame(x = 12.5 * ((seq_len(n) - 1) %% columns),
               y = 10 * ((seq_len(n) - 1) %/% columns))
  else data.frame(x = round(runif(n, 0, 300), 3), y = round(runif(n, 0, 200), 3))
  far <- as.matrix(dist(d))
  r <- if (range > 0) (1 - nugget) * exp(-far / range) else 0 * far
  diag(r) <- 1
  z <- 84 + as.vector(t(chol(r)) %*% rnorm(n)) + slope * d$x - slope / 2 * d$y
  d$z <- round(z, decimals)
  d
}

judge_gradient <- function() {
  cases <- lapply(1:60, function(i)
    panel(sample(4:60, 1), i %% 2 == 0, slope = sample(c(0, 0.01, 1), 1),
          decimals = sample(c(1, 12), 1)))
  questions <- vapply(cases, function(d) question("gradient", d, 0.9), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    d <- cases[[i]]
    a <- answers[[i]]
    fit <- lm(z ~ x + y, d)
    s <- summary(fit)
    ends <- confint(fit, level = 0.9)
    close("slope x", questions[i], a[1:4],
          c(s$coefficients[2, 1:2], ends[2, ]), 1e-9, 1e-12)
    close("slope y", questions[i], a[5:8],
          c(s$coefficients[3, 1:2], ends[3, ]), 1e-9, 1e-12)
    f <- s$fstatistic
    close("F", questions[i], a[9:12],
          c(f, pf(f[1], f[2], f[3], lower.tail = FALSE)), 1e-9)
    close("rise", questions[i], a[13], diff(range(fitted(fit))), 1e-10)
    close("SD", questions[i], a[14], s$sigma, 1e-11)
  }
  length(cases)
}

# Spots along x or y only: a line.
judge_line <- function() {
  cases <- lapply(1:20, function(i) {
    d <- panel(sample(3:30, 1), slope = 0.01)
    if (i %% 2) d$y <- 7 else d$x <- -3
    d
  })
  questions <- vapply(cases, function(d) question("gradient", d, 0.95), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    d <- cases[[i]]
    fit <- lm(if (i %% 2) z ~ x else z ~ y, d)
    s <- summary(fit)
    a <- answers[[i]]
    mine <- if (i %% 2) 1:4 else 5:8
    close("slope of a line", questions[i], a[mine],
          c(s$coefficients[2, 1:2], confint(fit)[2, ]), 1e-9, 1e-12)
    close("F of a line", questions[i], a[9:11], s$fstatistic, 1e-9)
    close("p of a line", questions[i], a[12], s$coefficients[2, 4], 1e-9)
    if (!all(is.nan(a[setdiff(1:8, mine)])))
      close("slope across a line", questions[i], 1, 0, 0)
  }
  length(cases)
}

judge_edge <- function() {
  cases <- lapply(1:40, function(i) panel(sample(25:90, 1), i %% 2 == 0))
  questions <- vapply(cases, function(d) question("edge", d, 0.95), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    d <- cases[[i]]
    a <- answers[[i]]
    outer <- if (i %% 2 == 0)
      d$x %in% range(d$x) | d$y %in% range(d$y)
    else seq_len(nrow(d)) %in% chull(d$x, d$y)
    t <- t.test(d$z[outer], d$z[!outer])
    close("edge", questions[i], a[1:3],
          c(if (i %% 2 == 0) 1 else 2, sum(outer), sum(!outer)), 0)
    close("edge effect", questions[i], a[4:8],
          c(-diff(t$estimate), t$parameter, t$p.value, t$conf.int), 1e-9, 1e-11)
  }
  length(cases)
}

# Cliff & Ord, with the matrices written out.
judge_moran <- function() {
  cases <- lapply(1:40, function(i)
    panel(sample(8:80, 1), i %% 2 == 0, range = sample(c(0, 40), 1)))
  questions <- vapply(cases, function(d) question("moran", d), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    d <- cases[[i]]
    n <- nrow(d)
    w <- 1 / as.matrix(dist(d[1:2]))
    diag(w) <- 0
    x <- cbind(1, d$x / 100, d$y / 100)
    m <- diag(n) - x %*% solve(crossprod(x), t(x))
    r <- as.vector(m %*% d$z)
    s0 <- sum(w)
    moran <- n / s0 * sum(r * (w %*% r)) / sum(r^2)
    mw <- m %*% w
    expected <- n / s0 * sum(diag(mw)) / (n - 3)
    second <- (n / s0)^2 * (sum(diag(mw))^2 + 2 * sum(diag(mw %*% mw))) /
      ((n - 3) * (n - 1))
    sd <- sqrt(second - expected^2)
    s1 <- sum((w + t(w))^2) / 2
    s2 <- sum((rowSums(w) + colSums(w))^2)
    b2 <- n * sum(r^4) / sum(r^2)^2
    shuffled <- (n * ((n^2 - 3 * n + 3) * s1 - n * s2 + 3 * s0^2) -
                   b2 * ((n^2 - n) * s1 - 2 * n * s2 + 6 * s0^2)) /
      ((n - 1) * (n - 2) * (n - 3) * s0^2) - 1 / (n - 1)^2
    p <- function(mean, sd) 2 * pnorm(-abs(moran - mean) / sd)
    close("Moran", questions[i], answers[[i]],
          c(moran, expected, sd, p(expected, sd),
            p(-1 / (n - 1), sqrt(shuffled))), 1e-8, 1e-11)
  }
  length(cases)
}

judge_semivariogram <- function() {
  cases <- lapply(1:20, function(i)
    panel(sample(30:120, 1), i %% 2 == 0, range = 50, slope = 0.01))
  questions <- vapply(cases, function(d) question("semivariogram", d), "")
  answers <- ask(questions)
  for (i in seq_along(cases)) {
    d <- cases[[i]]
    cutoff <- sqrt(diff(range(d$x))^2 + diff(range(d$y))^2) / 3
    v <- variogram(z ~ x + y, locations = ~x + y, data = d, cutoff = cutoff,
                   width = cutoff / 15)
    close("cutoff", questions[i], answers[[i]][1], cutoff, 1e-14)
    close("semivariogram", questions[i], answers[[i]][-1],
          as.vector(t(as.matrix(as.data.frame(v)[c("np", "dist", "gamma")]))),
          1e-9)
  }
  length(cases)
}

# Everything the model says, from dense matrices at its range and nugget.
dense <- function(d, x, x_middle, range, nugget) {
  far <- as.matrix(dist(d[1:2]))
  v <- (1 - nugget) * exp(-far / range)
  diag(v) <- 1
  k <- solve(v)
  df <- nrow(x) - ncol(x)
  a <- solve(t(x) %*% k %*% x)
  b <- a %*% t(x) %*% k %*% d$z
  r <- d$z - x %*% b
  s2 <- sum(r * (k %*% r)) / df
  likelihood <- -0.5 * (df * log(s2) + determinant(v)$modulus -
                          determinant(a)$modulus)
  u <- (seq_len(32) - 0.5) / 32
  points <- expand.grid(x = min(d$x) + u * (max(d$x) - min(d$x)),
                        y = min(d$y) + u * (max(d$y) - min(d$y)))
  to <- (1 - nugget) * apply(d[1:2], 1, function(s)
    mean(exp(-sqrt((points$x - s[1])^2 + (points$y - s[2])^2) / range)))
  within <- (1 - nugget) * mean(exp(-as.matrix(dist(points)) / range))
  away <- x_middle - t(x) %*% k %*% to
  list(mean = b[1], u = sqrt(s2 * a[1, 1]), sd = sqrt(s2), effective = 1 / a[1, 1],
       likelihood = as.vector(likelihood),
       area = sum(x_middle * b) + sum(to * (k %*% r)),
       area_u = sqrt(s2 * (within - sum(to * (k %*% to)) +
                             sum(away * (a %*% away)))))
}

alone <- function(d, x) {
  df <- nrow(x) - ncol(x)
  s2 <- sum(lm.fit(x, d$z)$residuals^2) / df
  -0.5 * (df * log(s2) + as.vector(determinant(crossprod(x))$modulus))
}

design <- function(d, plane) {
  x <- matrix(1, nrow(d), 1)
  if (plane) x <- cbind(x, d$x - mean(d$x), d$y - mean(d$y))
  middle <- c(mean(range(d$x)) - mean(d$x), mean(range(d$y)) - mean(d$y))
  list(x = x, middle = if (plane) c(1, middle) else 1)
}

judge_model <- function() {
  cases <- lapply(1:24, function(i)
    list(plane = i %% 2 == 0,
         d = panel(sample(40:90, 1), i %% 3 == 0, range = sample(20:60, 1),
                   nugget = sample(c(0.1, 0.4), 1),
                   slope = if (i %% 2) 0 else 0.02)))
  questions <- vapply(cases, function(c) question("model", c$d, 0.95, c$plane),
                      "")
  answers <- ask(questions)
  told <- 0
  for (i in seq_along(cases)) {
    d <- cases[[i]]$d
    a <- answers[[i]]
    if (is.nan(a[2])) next
    told <- told + 1
    p <- design(d, cases[[i]]$plane)
    w <- dense(d, p$x, p$middle, a[2], a[3])
    close("dense", questions[i], a[c(1, 7, 8, 12, 13, 14)],
          c(w$sd, w$mean, w$u, w$effective, w$area, w$area_u), 1e-9)
    df <- w$effective - ncol(p$x)
    close("df", questions[i], a[9], df, 1e-9)
    if (df >= 1)
      close("interval", questions[i], a[10:11],
            w$mean + c(-1, 1) * qt(0.975, df) * w$u, 1e-9)
    close("gain", questions[i], a[6], 2 * (w$likelihood - alone(d, p$x)), 1e-8,
          1e-8)
    judge_peak(questions[i], d, p, a, w)
    judge_nlme(questions[i], d, cases[[i]]$plane, a)
  }
  if (told < 12) close("panels with a model", "", told, 12, 0)
  told
}

# No better range and nugget nearby, and the ends of the profile lie
# qchisq(0.95, 1)/2 below.
judge_peak <- function(question, d, p, a, w) {
  likelihood <- function(log_range, nugget)
    dense_likelihood(d, p$x, exp(log_range), nugget)
  over_nuggets <- function(range)
    optimize(function(v) likelihood(log(range), v), c(0, 1), maximum = TRUE,
             tol = 1e-8)$objective
  best <- optim(c(log(a[2]), min(max(a[3], 1e-3), 0.999)), function(t)
    if (t[2] < 0 || t[2] > 1) 1e10 else -likelihood(t[1], t[2]),
    control = list(reltol = 1e-13, maxit = 2000))
  close("peak", question, w$likelihood, max(-best$value, w$likelihood), 0, 2e-8)
  for (end in a[4:5])
    if (!is.nan(end))
      close("end of the profile", question, over_nuggets(end),
            w$likelihood - qchisq(0.95, 1) / 2, 0, 2e-3)
}

dense_likelihood <- function(d, x, range, nugget) {
  v <- (1 - nugget) * exp(-as.matrix(dist(d[1:2])) / range)
  diag(v) <- 1
  root <- chol(v)
  q <- qr(backsolve(root, x, transpose = TRUE))
  df <- nrow(x) - ncol(x)
  left <- sum(qr.resid(q, backsolve(root, d$z, transpose = TRUE))^2)
  -0.5 * (df * log(left / df)) - sum(log(diag(root))) -
    sum(log(abs(diag(qr.R(q)))))
}

# nlme stops early now and then; it must come near and never beat the peak.
judge_nlme <- function(question, d, plane, a) {
  formula <- if (plane) z ~ I(x - mean(x)) + I(y - mean(y)) else z ~ 1
  start <- c(a[2], min(max(a[3], 0.01), 0.99))
  fit <- gls(formula, d, method = "REML",
             correlation = corExp(start, form = ~x + y, nugget = TRUE),
             control = glsControl(tolerance = 1e-10, msTol = 1e-12,
                                  singular.ok = TRUE, returnObject = TRUE))
  plain <- gls(formula, d, method = "REML")
  gain <- 2 * as.vector(logLik(fit) - logLik(plain))
  close("gain by nlme", question, a[6], gain, 0, 1e-5)
  if (a[3] < 0.01) return() # nlme's nugget never reaches 0
  shape <- coef(fit$modelStruct$corStruct, unconstrained = FALSE)
  close("range and nugget by nlme", question, a[2:3], as.vector(shape), 2e-3)
  close("mean by nlme", question, a[7:8],
        c(coef(fit)[1], sqrt(vcov(fit)[1, 1])), 1e-3)
  close("SD by nlme", question, a[1], fit$sigma, 1e-3)
}

cat(judge_gradient() + judge_line() + judge_edge() + judge_moran() +
      judge_semivariogram() + judge_model(), "cases judged\n")
if (bad > 0) stop(bad, " disagreements")
