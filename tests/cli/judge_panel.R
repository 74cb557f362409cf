# SPDX-License-Identifier: GPL-3.0-or-later
# judge_panel.R FOLDER: the demo's panels through aov, lm and lme4; a line for
# each figure: name, value.
suppressPackageStartupMessages(library(lme4))
folder <- commandArgs(TRUE)[1]
read <- function(file) {
  data <- read.csv(file.path(folder, file), check.names = FALSE)
  names(data)[ncol(data)] <- "gloss"
  data
}
say <- function(name, value) cat(name, format(value, digits = 17), "\n")

hull <- read("hull-map.csv")
squares <- summary(aov(gloss ~ factor(spot), hull))[[1]][["Mean Sq"]]
means <- aggregate(gloss ~ spot, hull, mean)
means$row <- match(substr(means$spot, 1, 1), LETTERS)
means$column <- as.numeric(substr(means$spot, 2, 3))
say("hull.spot", (squares[1] - squares[2]) / 2)
say("hull.repeat", squares[2])
interval <- t.test(means$gloss)
say("hull.mean", mean(means$gloss))
say("hull.low", interval$conf.int[1])
say("hull.high", interval$conf.int[2])
plane <- lm(gloss ~ column + row, means)
say("hull.x", coef(plane)[["column"]])
say("hull.y", coef(plane)[["row"]])
f <- summary(plane)$fstatistic
say("hull.p", pf(f[1], f[2], f[3], lower.tail = FALSE))

crew <- read("operators.csv")
crew$spot <- factor(crew$spot)
squares <- summary(aov(gloss ~ operator * spot, crew))[[1]][["Mean Sq"]]
say("crew.operator", (squares[1] - squares[3]) / 16)
say("crew.spot", (squares[2] - squares[3]) / 6)
say("crew.interaction", (squares[3] - squares[4]) / 2)
say("crew.repeat", squares[4])
say("crew.mean", mean(crew$gloss))
fit <- lmer(gloss ~ 1 + (1 | operator) + (1 | spot) + (1 | operator:spot), crew,
            control = lmerControl(optCtrl = list(xtol_abs = 1e-14,
                                                 ftol_abs = 1e-14)))
parts <- as.data.frame(VarCorr(fit))
say("crew.lmer.spot", parts$sdcor[parts$grp == "spot"])

sets <- read("sets.csv")
squares <- summary(aov(gloss ~ factor(panel), sets))[[1]]
say("sets.panel", (squares[["Mean Sq"]][1] - squares[["Mean Sq"]][2]) / 5)
say("sets.sd", sqrt(squares[["Mean Sq"]][2]))
say("sets.df", squares[["Df"]][2])
say("sets.bartlett", bartlett.test(gloss ~ factor(panel), sets)$p.value)

gaps <- hull[-c(2, 7, 8, 20, 33, 34, 50), ]
fit <- lmer(gloss ~ 1 + (1 | spot), gaps,
            control = lmerControl(optCtrl = list(xtol_abs = 1e-14,
                                                 ftol_abs = 1e-14)))
parts <- as.data.frame(VarCorr(fit))
say("gaps.spot", parts$sdcor[1])
say("gaps.repeat", parts$sdcor[2])
say("gaps.mean", fixef(fit)[[1]])
