# SPDX-License-Identifier: GPL-3.0-or-later
# judge_drift.R LOG FROM: figures of a log by R's own lm and filter: the means
# of the days from FROM on, their line, and the weighted moving average.
arguments <- commandArgs(TRUE)
log <- read.csv(arguments[1], check.names = FALSE)
log <- log[!is.na(log[["reading (GU)"]]), ]
means <- tapply(log[["reading (GU)"]], log$date, mean)
means <- means[order(names(means))]
now <- means[names(means) >= arguments[2]]
day <- as.numeric(as.Date(names(now)))
fit <- lm(as.numeric(now) ~ day)
ends <- confint(fit)[2, ]
centre <- mean(now)
average <- stats::filter(0.2 * (now - centre), 0.8, method = "recursive")
say <- function(name, value) cat(name, sprintf("%.17g", value), "\n")
say("mean", centre)
say("slope", coef(fit)[[2]] * 30.4375)
say("slope_low", ends[[1]] * 30.4375)
say("slope_high", ends[[2]] * 30.4375)
say("slope_p", summary(fit)$coefficients[2, 4])
say("sd", summary(fit)$sigma)
say("day_sd", max(mean(abs(diff(now))) * sqrt(pi) / 2, 0.05))
for (i in seq_along(average)) say(paste0("average", i), average[[i]] + centre)
