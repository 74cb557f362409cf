# SPDX-License-Identifier: GPL-3.0-or-later
# What the judges of filters share: questions to the program named on the command
# line, one answer a line, and counting what disagrees. To be sourced.
program <- commandArgs(trailingOnly = TRUE)[1]
bad <- 0

ask <- function(questions) {
  rows <- system2(program, stdout = TRUE, input = questions)
  if (!is.null(attr(rows, "status")) || length(rows) != length(questions))
    stop("the program failed")
  lapply(strsplit(rows, " "), as.numeric)
}

close <- function(what, question, got, wanted, relative, absolute = 0) {
  far <- abs(got - wanted) > pmax(relative * abs(wanted), absolute)
  if (!any(is.na(far) | far)) return()
  bad <<- bad + 1
  cat(what, ": got", format(got, digits = 17), "wanted",
      format(wanted, digits = 17), "\n  ", substr(question, 1, 300), "\n")
}
