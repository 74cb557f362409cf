# SPDX-License-Identifier: GPL-3.0-or-later
# Judges components of scatter by R: judge_components.R PROGRAM (the filter
# components_figures). Mean squares by anova; their make-up by traces of the
# quadratic forms; REML by lme4's own criterion at the figures found, by lmer
# and lme, and derivatives by dense matrices. Stops with every disagreement.
suppressPackageStartupMessages({
  library(lme4)
  library(nlme)
})
options(warn = -1) # anova of a fit that leaves nothing
program <- commandArgs(trailingOnly = TRUE)[1]
bad <- 0
compared <- 0
worst <- list()

close_to <- function(what, question, got, wanted, relative, absolute = 0) {
  compared <<- compared + 1
  if (is.na(wanted) && is.na(got)) return(invisible())
  off <- abs(got - wanted)
  if (!is.na(off)) {
    if (wanted != 0)
      worst[[what]] <<- max(worst[[what]], off / abs(wanted))
    if (off <= relative * abs(wanted) || off <= absolute) return(invisible())
  }
  bad <<- bad + 1
  cat(sprintf("%s: got %.17g, R says %.17g\n   %s\n", what, got, wanted,
              substr(question, 1, 300)))
}

line <- function(verb, d, level = 0.95) {
  take <- function(column)
    if (is.null(d[[column]])) rep(0, nrow(d)) else as.integer(d[[column]])
  paste(verb, level, nrow(d), paste(take("panel"), collapse = " "),
        paste(take("session"), collapse = " "),
        paste(take("spot"), collapse = " "), nrow(d),
        paste(sprintf("%.17g", d$y), collapse = " "))
}

# --- limits written out for one or two mean squares, and for sums ------------
difference_limits <- function(a, dfa, b, dfb, assurance) {
  ga <- 1 - dfa / qchisq(assurance, dfa)
  gb <- 1 - dfb / qchisq(assurance, dfb)
  ha <- dfa / qchisq(1 - assurance, dfa) - 1
  hb <- dfb / qchisq(1 - assurance, dfb) - 1
  f1 <- qf(assurance, dfa, dfb)
  f2 <- qf(1 - assurance, dfa, dfb)
  gab <- ((f1 - 1)^2 - ga^2 * f1^2 - hb^2) / f1
  hab <- ((1 - f2)^2 - ha^2 * f2^2 - gb^2) / f2
  c(a - b - sqrt(max(0, ga^2 * a^2 + hb^2 * b^2 + gab * a * b)),
    a - b + sqrt(max(0, ha^2 * a^2 + gb^2 * b^2 + hab * a * b)))
}
sum_limits <- function(part, df, assurance) {
  g <- 1 - df / qchisq(assurance, df)
  h <- df / qchisq(1 - assurance, df) - 1
  c(sum(part) - sqrt(sum(g^2 * part^2)), sum(part) + sqrt(sum(h^2 * part^2)))
}
root <- function(v) sqrt(max(0, v))

judge_component <- function(q, got, ms, df, per, under, df_under, level) {
  close_to("df", q, got[1], df, 0)
  close_to("mean square", q, got[2], ms, 1e-11)
  close_to("variance", q, got[3], (ms - under) / per, 1e-9,
           1e-11 * ms / per)
  both <- (1 + level) / 2
  if (per == 1) {
    close_to("low", q, got[4], sqrt(ms * df / qchisq(both, df)), 1e-11)
    close_to("high", q, got[5], sqrt(ms * df / qchisq(1 - both, df)), 1e-11)
    close_to("most", q, got[6], sqrt(ms * df / qchisq(1 - level, df)), 1e-11)
    return(invisible())
  }
  limits <- difference_limits(ms, df, under, df_under, both) / per
  most <- difference_limits(ms, df, under, df_under, level)[2] / per
  tiny <- 1e-6 * sqrt(ms / per) # where a root is taken of nearly nothing
  close_to("low", q, got[4], root(limits[1]), 1e-10, tiny)
  close_to("high", q, got[5], root(limits[2]), 1e-10, tiny)
  close_to("most", q, got[6], root(most), 1e-10, tiny)
  close_to("F", q, got[8], ms / under, 1e-11)
  close_to("df of F", q, got[9], df_under, 0)
  close_to("p of F", q, got[10], pf(ms / under, df, df_under,
                                    lower.tail = FALSE), 1e-10)
}

# --- balanced -----------------------------------------------------------------
make <- function(groups, sds, keep = 1, scale = 1) {
  d <- expand.grid(rep = seq_len(groups[4]), spot = seq_len(groups[3]),
                   session = seq_len(groups[2]), panel = seq_len(groups[1]))
  effect <- function(key, sd) {
    key <- factor(key)
    rnorm(nlevels(key), 0, sd)[key]
  }
  d$y <- scale * (80 + effect(d$panel, sds[1]) +
    effect(paste(d$panel, d$session), sds[2]) +
    effect(paste(d$panel, d$session, d$spot), sds[3]) +
    rnorm(nrow(d), 0, sds[4]))
  kept <- sort(sample(nrow(d), max(4, round(keep * nrow(d)))))
  d[kept, c("panel", "session", "spot", "y")]
}
squares <- function(y, levels) { # nested: levels from the top
  key <- rep("", length(y))
  fits <- list(rep(mean(y), length(y)))
  count <- 1
  for (l in levels) {
    key <- paste(key, l)
    fits <- c(fits, list(ave(y, key)))
    count <- c(count, length(unique(key)))
  }
  fits <- c(fits, list(y))
  count <- c(count, length(y))
  k <- length(fits) - 1
  list(df = diff(count), ss = vapply(seq_len(k), function(i)
    sum((fits[[i + 1]] - fits[[i]])^2), 0), count = count)
}
judge_balanced <- function(q, got, d) {
  s <- squares(d$y, d[c("panel", "session", "spot")])
  fit <- anova(lm(y ~ factor(panel) / factor(session) / factor(spot), d))
  ms <- s$ss / s$df
  close_to("anova", q, sum(abs(ms - fit[["Mean Sq"]])), 0, 0,
           1e-8 * sum(ms))
  per <- nrow(d) / s$count[-1]
  for (i in 1:4)
    judge_component(q, got[(i - 1) * 10 + 1:10], ms[i], s$df[i], per[i],
                    if (i < 4) ms[i + 1] else 0, if (i < 4) s$df[i + 1] else NA,
                    0.95)
  v <- pmax(0, (ms - c(ms[-1], 0)) / per)
  close_to("share", q, sum(abs(got[c(7, 17, 27, 37)] - v / sum(v))), 0, 0,
           1e-8)
  close_to("mean", q, got[41], mean(d$y), 1e-13)
  u <- sqrt(ms[1] / nrow(d))
  close_to("u of the mean", q, got[42], u, 1e-11)
  close_to("mean low", q, got[44], mean(d$y) - qt(0.975, s$df[1]) * u, 1e-11)
}

# --- unbalanced: unweighted means as quadratic forms ---------------------------
forms <- function(levels, n) {
  k <- length(levels)
  maps <- list()
  key <- rep("", n)
  for (l in levels) {
    key <- paste(key, l)
    maps <- c(maps, list(key))
  }
  keys <- c(list(rep("", n)), maps, list(seq_len(n)))
  # row of averages for the groups of each depth, unweighted from below
  average <- diag(n)
  members <- as.character(seq_len(n))
  A <- list()
  df <- c()
  for (d in rev(seq_len(k + 1))) {
    above <- keys[[d]]
    group_of <- vapply(members, function(m) if (d == k + 1)
      as.character(above[as.integer(m)]) else above[match(m, keys[[d + 1]])],
      "")
    up <- outer(unique(group_of), group_of, "==") * 1
    up <- up / rowSums(up)
    rest <- average - t(up > 0) %*% up %*% average
    A[[d]] <- crossprod(rest)
    df[d] <- length(members) - length(unique(group_of))
    members <- unique(group_of)
    average <- up %*% average
  }
  list(A = Map(`/`, A, df), df = df, keys = keys, mean = average)
}
judge_unbalanced <- function(q, got, d, columns) {
  f <- forms(d[columns], nrow(d))
  place <- c(match(columns, c("panel", "session", "spot")), 4)
  k <- length(place)
  z <- lapply(f$keys[-1], function(key) outer(key, key, "==") * 1)
  e <- outer(1:k, 1:k, Vectorize(function(i, j) sum(f$A[[i]] * z[[j]])))
  y <- d$y - mean(d$y)
  v <- vapply(f$A, function(a) drop(y %*% a %*% y), 0)
  s2 <- solve(e, v)
  for (i in 1:k) {
    g <- got[(place[i] - 1) * 10 + 1:10]
    close_to("df, gaps", q, g[1], f$df[i], 0)
    close_to("mean square, gaps", q, g[2], v[i] / e[i, k], 1e-10)
    close_to("variance, gaps", q, g[3], s2[i], 1e-10, 1e-12 * v[i])
    less <- -solve(e)[i, ] * e[i, i]
    under <- sum((less * v)[-i])
    if (i < k && under > 0) {
      close_to("F, gaps", q, g[8], v[i] / under, 1e-10)
      close_to("df of F, gaps", q, g[9],
               under^2 / sum(((less * v)^2 / f$df)[-i]), 1e-10)
    }
    if (i == k - 1) {
      limits <- difference_limits(v[i], f$df[i], less[k] * v[k], f$df[k], 0.975)
      close_to("low, gaps", q, g[4], root(limits[1]), 1e-10, 1e-6 * sqrt(v[i]))
      close_to("high, gaps", q, g[5], root(limits[2]), 1e-10, 1e-6 * sqrt(v[i]))
    }
  }
  close_to("mean, gaps", q, got[41], drop(f$mean %*% d$y), 1e-12)
  close_to("u, gaps", q, got[42], sqrt(v[1] / (f$df[1] + 1)), 1e-10)
}

# --- REML ----------------------------------------------------------------------
formula_of <- function(columns) {
  nested <- vapply(seq_along(columns), function(i)
    paste0("(1|", paste(columns[1:i], collapse = ":"), ")"), "")
  as.formula(paste("y ~ 1 +", paste(nested, collapse = "+")))
}
dense <- function(d, columns, s2) {
  key <- rep("", nrow(d))
  z <- list()
  for (l in columns) {
    key <- paste(key, d[[l]])
    z <- c(z, list(outer(key, key, "==") * 1))
  }
  z <- c(z, list(diag(nrow(d))))
  V <- Reduce(`+`, Map(`*`, z, s2))
  W <- solve(V)
  one <- rep(1, nrow(d))
  g <- 1 / sum(W)
  P <- W - g * W %*% one %*% t(one) %*% W
  PZ <- lapply(z, function(m) P %*% m)
  Py <- drop(P %*% d$y)
  k <- length(z)
  slope <- vapply(1:k, function(i) sum(diag(PZ[[i]])) - Py %*% z[[i]] %*% Py, 0)
  curve <- outer(1:k, 1:k, Vectorize(function(i, j)
    -sum(PZ[[i]] * t(PZ[[j]])) + 2 * Py %*% z[[i]] %*% P %*% z[[j]] %*% Py))
  dg <- vapply(z, function(m) g^2 * drop(t(one) %*% W %*% m %*% W %*% one), 0)
  n <- nrow(d)
  list(slope = slope, curve = curve, u = sqrt(g), dg = dg,
       mean = g * sum(W %*% d$y),
       log_likelihood = -0.5 * ((n - 1) * log(2 * pi) +
         c(determinant(V)$modulus) + log(sum(W)) + drop(d$y %*% P %*% d$y)))
}
judge_reml <- function(q, got, d, columns) {
  place <- c(match(columns, c("panel", "session", "spot")), 4)
  sd <- got[place]
  k <- length(sd)
  judge <- dense(d, columns, sd^2)
  close_to("log likelihood", q, got[10], judge$log_likelihood, 1e-11, 1e-11)
  close_to("GLS mean", q, got[5], judge$mean, 1e-11)
  close_to("u of the GLS mean", q, got[6], judge$u, 1e-12)
  # a maximum: no slope where free, upwards where at 0
  scaled <- judge$slope * sd[k]^2
  for (i in seq_len(k))
    if (sd[i] > 0) close_to("slope", q, scaled[i], 0, 0, 1e-9)
    else close_to("slope at 0", q, min(scaled[i], 0), 0, 0, 1e-9)
  if (all(sd > 0)) {
    C <- 2 * solve(judge$curve)
    close_to("df of the GLS mean", q, got[7], 2 * judge$u^4 /
             drop(judge$dg %*% C %*% judge$dg), 1e-10)
  } else close_to("no df", q, got[7], NA, 0)
  fit <- suppressMessages(suppressWarnings(lmer(formula_of(columns), d,
    control = lmerControl(optimizer = "bobyqa", check.conv.singular = "ignore",
      optCtrl = list(rhoend = 1e-9, maxfun = 1e5), calc.derivs = FALSE))))
  # lmer may stop short of the top, never above it
  above <- as.numeric(logLik(fit)) - got[10]
  close_to("lmer is no higher", q, max(0, above), 0, 0, 1e-9)
  if (above > -1e-8) {
    vc <- as.data.frame(VarCorr(fit))
    theirs <- vc$sdcor[match(c(vapply(seq_len(k - 1), function(i)
      paste(columns[1:i], collapse = ":"), ""), "Residual"), vc$grp)]
    for (i in seq_len(k))
      close_to("SD of lmer", q, sd[i], theirs[i], 1e-3, 1e-3 * max(theirs))
    close_to("u of lmer", q, got[6], sqrt(as.numeric(vcov(fit))), 1e-3)
  }
}

# --- operators crossed with spots ----------------------------------------------
judge_model <- function(q, got, ms, df, r, o, s, rest) {
  # ms, df: operators, spots, interaction (NA: none), repeats; rest: which of
  # them operators and spots stand against
  per <- c(r * s, r * o, r, 1)
  under <- c(ms[rest], ms[rest], ms[4], 0)
  df_under <- c(df[rest], df[rest], df[4], NA)
  v <- ifelse(is.na(ms), 0, pmax(0, (ms - under) / per))
  for (i in which(!is.na(ms)))
    judge_component(q, got[(i - 1) * 10 + 1:10], ms[i], df[i], per[i],
                    under[i], df_under[i], 0.95)
  close_to("share, crossed", q, got[7], v[1] / sum(v), 1e-10, 1e-11)
  sd <- sqrt(sum(v[-2]))
  if (rest == 3) part <- c(ms[1] / per[1], ms[3] * (s - 1) / per[1],
                           ms[4] * (1 - 1 / r))
  else part <- c(ms[1] / per[1], ms[4] * (1 - 1 / per[1]))
  limits <- sqrt(sum_limits(part, if (rest == 3) df[c(1, 3, 4)]
                            else df[c(1, 4)], 0.975))
  close_to("s_R, crossed", q, got[44], sd, 1e-11)
  close_to("s_R low", q, got[45], limits[1], 1e-11)
  close_to("s_R high", q, got[46], max(sd, limits[2]), 1e-11)
  factor <- sqrt(2) * qnorm(0.975)
  close_to("r", q, got[47], factor * sqrt(ms[4]), 1e-11)
  close_to("R", q, got[48], factor * sd, 1e-11)
}
judge_crossed <- function(q, got, d) {
  fit <- anova(lm(y ~ factor(panel) * factor(spot), d))
  ms <- fit[["Mean Sq"]]
  df <- fit[["Df"]]
  o <- df[1] + 1
  s <- df[2] + 1
  r <- nrow(d) / o / s
  if (r > 1) judge_model(q, got[1:48], ms, df, r, o, s, 3)
  else close_to("none with interaction", q, got[1], NA, 0)
  flat <- anova(lm(y ~ factor(panel) + factor(spot), d))
  judge_model(q, got[49:96], c(flat[["Mean Sq"]][1:2], NA,
              flat[["Mean Sq"]][3]), c(df[1:2], NA, flat[["Df"]][3]), r, o, s,
              4)
  v <- ms[1] + ms[2] - ms[3]
  close_to("mean, crossed", q, got[97], mean(d$y), 1e-13)
  close_to("u, crossed", q, got[98], if (v > 0) sqrt(v / nrow(d)) else NA, 1e-10)
  nu <- v^2 / sum(ms[1:3]^2 / df[1:3])
  close_to("df of u, crossed", q, got[99], if (v > 0 && nu >= 0.5) nu else NA,
           1e-10)
}

# --- repeatability and reproducibility -----------------------------------------
judge_precision <- function(q, got, d) {
  y <- split(d$y, d$panel)
  n <- lengths(y)
  p <- length(y)
  m <- vapply(y, mean, 0)
  ss <- vapply(y, function(x) sum((x - mean(x))^2), 0)
  v <- ss / (n - 1)
  df <- sum(n) - p
  per <- (sum(n) - sum(n^2) / sum(n)) / (p - 1)
  fit <- anova(lm(y ~ factor(panel), d))
  ms <- fit[["Mean Sq"]]
  s2 <- c(ms[2], (ms[1] - ms[2]) / per)
  s_R <- sqrt(sum(pmax(0, s2)))
  close_to("mean of labs", q, got[1], mean(d$y), 1e-13)
  close_to("n of labs", q, got[2], per, 1e-13)
  close_to("F of labs", q, got[3], fit[["F value"]][1], 1e-10)
  close_to("p of labs", q, got[4], fit[["Pr(>F)"]][1], 1e-10)
  close_to("s_L^2", q, got[5], s2[2], 1e-9, 1e-11 * ms[1])
  close_to("s_r", q, got[6], sqrt(s2[1]), 1e-11)
  close_to("s_R", q, got[8], s_R, 1e-11)
  close_to("s_r low", q, got[9], sqrt(ms[2] * df / qchisq(0.975, df)), 1e-11)
  limits <- sum_limits(c(ms[1] / per, ms[2] * (1 - 1 / per)), c(p - 1, df),
                       0.975)
  close_to("s_R low, labs", q, got[11], sqrt(limits[1]), 1e-10)
  close_to("s_R high, labs", q, got[12], max(s_R, sqrt(limits[2])), 1e-10)
  close_to("R of labs", q, got[14], qnorm(0.975) * sqrt(2) * s_R, 1e-11)
  tail <- ifelse(n > 1, pbeta(ss / sum(ss), (n - 1) / 2, (df - n + 1) / 2,
                              lower.tail = FALSE), 2)
  close_to("Cochran p", q, got[18], min(1, sum(n > 1) * min(tail)), 1e-10)
  close_to("Cochran lab", q, got[21], unname(which.min(tail)) - 1, 0)
  close_to("Cochran C", q, got[17], v[which.min(tail)] / sum(v, na.rm = TRUE),
           1e-8)
  f <- qf(0.05 / p, n[1] - 1, (p - 1) * (n[1] - 1), lower.tail = FALSE)
  close_to("Cochran limit", q, got[19], if (all(n == n[1]))
    1 / (1 + (p - 1) / f) else NA, 1e-11)
  h <- (m - mean(m)) / sd(m)
  if (p >= 3) {
    t <- qt(0.05 / 2 / p, p - 2)
    close_to("Grubbs", q, got[22], max(abs(h)), 1e-10)
    close_to("Grubbs limit", q, got[24],
             (p - 1) / sqrt(p) * sqrt(t^2 / (p - 2 + t^2)), 1e-11)
    t <- qt(0.025, p - 2)
    close_to("h limit", q, got[15], (p - 1) * abs(t) / sqrt(p * (t^2 + p - 2)),
             1e-11)
  }
  labs <- matrix(got[-(1:26)], 6)
  for (i in seq_len(p)) {
    close_to("h", q, labs[3, i], unname(h[i]), 1e-10, 1e-11)
    close_to("k", q, labs[4, i], unname(sqrt(v[i] / s2[1])), 1e-10, 1e-11)
    if (n[i] < 2) next
    f <- qf(0.95, n[i] - 1, df - n[i] + 1)
    close_to("k limit", q, labs[5, i],
             sqrt(df * f / ((n[i] - 1) * f + df - n[i] + 1)), 1e-11)
  }
}

RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20250412)
cases <- list()
ask <- function(verb, d, judge) {
  cases[[length(cases) + 1]] <<- list(line = line(verb, d), d = d,
                                      judge = judge)
}
for (i in 1:40) {
  d <- make(sample(2:4, 4, TRUE), sample(c(0, 0.2, 1, 5), 4, TRUE) + 0.01,
            scale = 10^sample(-6:6, 1))
  ask("nested", d, judge_balanced)
}
three <- c("panel", "session", "spot")
sets <- list(three, c("panel", "spot"), "spot")
for (i in 1:60) {
  columns <- sets[[i %% 3 + 1]]
  groups <- ifelse(c(three %in% columns, TRUE), sample(2:5, 4, TRUE), 1)
  groups[4] <- groups[4] + 1
  d <- make(groups, c(sample(c(0, 0.3, 1, 3), 3, TRUE), 1), 0.8)
  d <- d[c(columns, "y")]
  s <- squares(d$y, d[columns])
  if (any(s$df < 1)) next
  local({
    mine <- columns
    ask("nested", d, function(q, got, d) judge_unbalanced(q, got, d, mine))
    ask("reml", d, function(q, got, d) judge_reml(q, got, d, mine))
  })
}
for (i in 1:40) {
  groups <- c(sample(2:5, 1), 1, sample(2:8, 1), sample(1:3, 1))
  d <- make(groups, sample(c(0.1, 1, 4), 4, TRUE), scale = 10^sample(-5:5, 1))
  operator <- rnorm(groups[1], 0, sample(c(0, 2), 1))
  d$y <- d$y + operator[d$panel] * sd(d$y)
  ask("crossed", d, judge_crossed)
}
for (i in 1:40) {
  keep <- if (i %% 2) 1 else 0.8
  d <- make(c(sample(2:20, 1), 1, 1, sample(3:5, 1)), c(sample(0:2, 1), 0, 0, 1),
            keep)
  d$panel <- as.integer(factor(d$panel))
  if (max(table(d$panel)) < 2 || max(d$panel) < 2) next
  if (sum(table(d$panel) > 1) < 2) next
  ask("precision", d, judge_precision)
}
# lme on the two classics
classic <- function(d, columns, random) {
  ask("reml", d, function(q, got, d) {
    judge_reml(q, got, d, columns)
    fit <- lme(y ~ 1, d, random, control = lmeControl(msTol = 1e-12,
               tolerance = 1e-12, opt = "nlminb"))
    # lme stops a little short of the maximum
    close_to("residual SD of lme", q, got[4], fit$sigma, 1e-5)
    close_to("u of lme", q, got[6], sqrt(drop(vcov(fit))), 1e-5)
  })
}
dye <- data.frame(spot = as.integer(Dyestuff$Batch), y = Dyestuff$Yield)
classic(dye, "spot", ~ 1 | spot)
paste_data <- data.frame(panel = as.integer(Pastes$batch),
                         spot = as.integer(Pastes$cask), y = Pastes$strength)
classic(paste_data, c("panel", "spot"), ~ 1 | panel/spot)

rows <- system2(program, stdout = TRUE,
                input = vapply(cases, `[[`, "", "line"))
stopifnot(length(rows) == length(cases))
for (i in seq_along(cases))
  cases[[i]]$judge(cases[[i]]$line, as.numeric(strsplit(rows[i], " ")[[1]]),
                   cases[[i]]$d)
for (what in names(worst))
  cat(sprintf("%-22s largest relative difference %.1e\n", what, worst[[what]]))
cat("compared", compared, "disagreements", bad, "\n")
quit(status = if (bad || compared < 4000) 1 else 0)
