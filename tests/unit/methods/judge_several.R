# SPDX-License-Identifier: GPL-3.0-or-later
# Judges comparisons of several products: judge_several.R PROGRAM (the filter
# several_figures). TukeyHSD, oneway.test, p.adjust, t.test, two-way aov; the
# largest of correlated t by integrate() over its definition.
args <- commandArgs()
here <- dirname(sub("--file=", "", grep("--file=", args, value = TRUE)))
source(file.path(here, "judging.R"))
set.seed(11)

text <- function(x) paste(formatC(x, digits = 17, format = "g"), collapse = " ")
group <- function(x) paste(length(x), text(x))
groups_of <- function(k, equal) lapply(seq_len(k), function(i)
  rnorm(sample(if (equal) 3:9 else 4:12, 1), rnorm(1, 80, 1.5),
        if (equal) 0.8 else 10^runif(1, -0.6, 0.4)))

# P(max |T| > x), T of one df and correlations lambda_i lambda_j.
largest <- function(x, lambda, df) {
  inside <- function(w) integrate(function(c) dnorm(c) * vapply(c, function(z)
    prod(pnorm((w - lambda * z) / sqrt(1 - lambda^2)) -
         pnorm((-w - lambda * z) / sqrt(1 - lambda^2))), 0), -9, 9,
    rel.tol = 1e-10, subdivisions = 500L)$value
  if (df > 1e8) return(1 - inside(x))
  density <- function(s) exp(log(2) + df / 2 * log(df / 2) - lgamma(df / 2) +
                             (df - 1) * log(s) - df * s^2 / 2)
  1 - integrate(function(s) density(s) * vapply(x * s, inside, 0), 0,
                1 + 16 / sqrt(2 * df), rel.tol = 1e-9, subdivisions = 500L)$value
}

questions <- character(); checks <- list()
put <- function(question, check) {
  questions[length(questions) + 1] <<- question
  checks[[length(checks) + 1]] <<- check
}
rows_of <- function(got) matrix(got, ncol = 7, byrow = TRUE)

# All pairs, SDs equal: TukeyHSD.
for (i in 1:25) local({
  g <- groups_of(sample(3:7, 1), TRUE); k <- length(g)
  level <- sample(c(0.9, 0.95, 0.99), 1)
  put(paste("compare", level, 1, k, k, paste(sapply(g, group), collapse = " ")),
      function(q, got) {
        data <- data.frame(y = unlist(g),
                           f = factor(rep(seq_len(k), lengths(g))))
        wanted <- TukeyHSD(aov(y ~ f, data), conf.level = level)$f
        # TukeyHSD lists 2-1, 3-1, ... : later less earlier, by columns
        r <- rows_of(got); at <- 0
        for (a in 1:(k - 1)) for (b in (a + 1):k) {
          at <- at + 1
          w <- wanted[paste0(b, "-", a), ]
          close("tukey difference", q, -r[at, 1], w[["diff"]], 1e-11, 1e-12)
          close("tukey low", q, -r[at, 7], w[["lwr"]], 1e-7, 2e-7)
          close("tukey high", q, -r[at, 6], w[["upr"]], 1e-7, 2e-7)
          # ptukey is good to 1e-8 or so
          close("tukey p", q, r[at, 5], w[["p adj"]], 1e-6, 2e-8)
        }
      })
})

# All pairs, SDs as found: Games and Howell, from ptukey at Welch's df.
for (i in 1:25) local({
  g <- groups_of(sample(3:6, 1), FALSE); k <- length(g)
  put(paste("compare", 0.95, 0, k, k, paste(sapply(g, group), collapse = " ")),
      function(q, got) {
        r <- rows_of(got); at <- 0
        for (a in 1:(k - 1)) for (b in (a + 1):k) {
          at <- at + 1
          t <- t.test(g[[a]], g[[b]])
          df <- unname(t$parameter)
          close("welch df", q, r[at, 3], df, 1e-11)
          close("welch p", q, r[at, 4], t$p.value, 1e-10)
          # ptukey and qtukey lose digits towards small df (docs/methods/numeric.md);
          # the range itself is judged in quadruple precision elsewhere
          if (df < 4) next
          p <- ptukey(abs(t$statistic) * sqrt(2), k, df, lower.tail = FALSE)
          close("games howell p", q, r[at, 5], p, 1e-5, 3e-6)
          half <- qtukey(0.95, k, df) / sqrt(2) * t$stderr
          close("games howell low", q, r[at, 6],
                mean(g[[a]]) - mean(g[[b]]) - half, 1e-5, 1e-5)
        }
      })
})

# Against a control: the largest t, SDs equal or as found.
for (i in 1:6) local({
  equal <- i %% 2
  g <- groups_of(sample(3:5, 1), equal == 1); k <- length(g)
  put(paste("compare", 0.95, equal, 0, k, paste(sapply(g, group), collapse = " ")),
      function(q, got) {
        r <- rows_of(got)
        n <- lengths(g); v <- sapply(g, var)
        if (equal == 1) v[] <- sum((n - 1) * v) / sum(n - 1)
        u2 <- v / n
        lambda <- sqrt(u2[1] / (u2[1] + u2[-1]))
        for (j in 1:(k - 1)) {
          u <- sqrt(u2[1] + u2[j + 1])
          df <- if (equal == 1) sum(n - 1) else
            u^4 / (u2[1]^2 / (n[1] - 1) + u2[j + 1]^2 / (n[j + 1] - 1))
          d <- mean(g[[j + 1]]) - mean(g[[1]])
          close("control difference", q, r[j, 1], d, 1e-11, 1e-12)
          close("control u", q, r[j, 2], u, 1e-11)
          close("control df", q, r[j, 3], df, 1e-11)
          close("largest t p", q, r[j, 5], largest(abs(d) / u, lambda, df), 1e-6,
                2e-8)
          # the interval's end is where p is 0.05
          half <- (r[j, 7] - r[j, 6]) / 2
          close("largest t point", q, largest(half / u, lambda, df), 0.05, 1e-6)
        }
      })
})

# Blocks: paired t with Bonferroni and Holm; the residual of two ways.
for (i in 1:10) local({
  k <- sample(3:4, 1); m <- sample(3:9, 1)
  y <- matrix(rnorm(k * m, rep(rnorm(m, 80, 2), each = k) + seq_len(k) / 2, 0.6),
              k, m)
  put(paste("blocks", 0.95, 0, k, k, m, text(t(y))), function(q, got) {
    r <- rows_of(got); at <- 0; p <- NULL
    for (a in 1:(k - 1)) for (b in (a + 1):k) {
      at <- at + 1
      t <- t.test(y[a, ], y[b, ], paired = TRUE,
                  conf.level = 1 - 0.05 / (k * (k - 1) / 2))
      p[at] <- t$p.value
      close("paired p", q, r[at, 4], t$p.value, 1e-10)
      close("paired low", q, r[at, 6], t$conf.int[1], 1e-9, 1e-10)
      close("paired high", q, r[at, 7], t$conf.int[2], 1e-9, 1e-10)
    }
    close("holm", q, r[, 5], p.adjust(p, "holm"), 1e-10)
  })
  put(paste("blocks", 0.95, 1, k, k, m, text(t(y))), function(q, got) {
    data <- data.frame(y = as.vector(t(y)), f = factor(rep(1:k, each = m)),
                       s = factor(rep(1:m, k)))
    fit <- aov(y ~ f + s, data)
    w <- TukeyHSD(fit, "f")$f
    r <- rows_of(got); at <- 0
    for (a in 1:(k - 1)) for (b in (a + 1):k) {
      at <- at + 1
      one <- w[paste0(b, "-", a), ]
      close("blocks df", q, r[at, 3], df.residual(fit), 0)
      close("blocks low", q, -r[at, 7], one[["lwr"]], 1e-6, 1e-7)
      close("blocks p", q, r[at, 5], one[["p adj"]], 1e-6, 5e-8)
    }
  })
  put(paste("blocks", 0.95, 1, 1, k, m, text(t(y))), function(q, got) {
    data <- data.frame(y = as.vector(t(y)), f = factor(rep(1:k, each = m)),
                       s = factor(rep(1:m, k)))
    fit <- aov(y ~ f + s, data)
    u <- sqrt(2 * deviance(fit) / df.residual(fit) / m)
    r <- rows_of(got)
    close("blocks control u", q, r[, 2], rep(u, k - 1), 1e-10)
    for (j in 1:(k - 1))
      close("blocks control p", q, r[j, 5],
            largest(abs(r[j, 1]) / u, rep(sqrt(0.5), k - 1), df.residual(fit)),
            1e-6, 2e-8)
  })
})

# Analyses of variance.
for (i in 1:30) local({
  g <- groups_of(sample(2:8, 1), FALSE)
  put(paste("anova", length(g), paste(sapply(g, group), collapse = " ")),
      function(q, got) {
        y <- unlist(g); f <- factor(rep(seq_along(g), lengths(g)))
        one <- oneway.test(y ~ f, var.equal = TRUE)
        welch <- oneway.test(y ~ f)
        close("one way", q, got[1:4], c(one$statistic, one$parameter,
                                        one$p.value), 1e-9)
        close("welch", q, got[5:8], c(welch$statistic, welch$parameter,
                                      welch$p.value), 1e-9)
      })
})

# Adjusted p, with ties.
for (i in 1:30) local({
  p <- round(rbeta(sample(1:60, 1), 0.4, 2), sample(2:9, 1))
  put(paste("adjust", group(p)), function(q, got) {
    close("holm", q, head(got, length(p)), p.adjust(p, "holm"), 1e-13)
    close("hochberg", q, tail(got, length(p)), p.adjust(p, "BH"), 1e-13)
  })
})

# The best of several: the order statistics by integrate().
for (i in 1:20) local({
  u <- if (i %% 2) rep(runif(1, 0.1, 3), sample(2:12, 1)) else
    runif(sample(2:8, 1), 0.1, 3)
  put(paste("best", group(u)), function(q, got) {
    k <- length(u); reach <- 10 * max(u)
    none <- function(x) vapply(x, function(z) prod(pnorm(z / u)), 0)
    one <- function(x) vapply(x, function(z) sum(vapply(1:k, function(j)
      pnorm(-z / u[j]) * prod(pnorm(z / u[-j])), 0)), 0)
    second <- integrate(one, -reach, reach, rel.tol = 1e-10,
                        subdivisions = 500L)$value
    best <- integrate(function(x) 1 - none(x), 0, reach, rel.tol = 1e-10,
                      subdivisions = 500L)$value -
      integrate(none, -reach, 0, rel.tol = 1e-10, subdivisions = 500L)$value
    close("over second", q, got[1], second, 1e-8)
    close("over rest", q, got[2], best * k / (k - 1), 1e-8)
  })
})

answers <- ask(questions)
for (i in seq_along(questions)) checks[[i]](questions[i], answers[[i]])
cat(length(questions), "questions,", bad, "disagreements\n")
quit(status = as.integer(bad > 0))
