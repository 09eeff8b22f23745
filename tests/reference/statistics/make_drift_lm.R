#!/usr/bin/Rscript
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes drift_lm.csv beside this script: R's lm(error ~ time + factor(segment)) on the random histories of
# drift_fits_readings.csv: rate, its standard error, t and p-value, residual scatter, Cook's distances (cooks.distance)
# and the rate without each reading (dfbeta), and the likelihood ratio of the most likely step as R's lm sees it: the
# largest |t| of a step column put in between two neighbouring readings of a segment.
# Run in this folder: Rscript make_drift_lm.R     (Debian 12: r-base-core 4.2)
readings <- read.csv("drift_fits_readings.csv")
out <- data.frame()
add <- function(case, quantity, value)
  out <<- rbind(out, data.frame(case, quantity, value = format(value, digits = 15), source = "R lm"))
for (case in unique(readings$case)) {
  these <- readings[readings$case == case, ]
  these$time <- these$time - these$time[1]
  several <- length(unique(these$segment)) > 1
  fit <- if (several) lm(error ~ time + factor(segment), these) else lm(error ~ time, these)
  if (fit$df.residual < 1) next
  told <- summary(fit)$coefficients["time", ]
  add(case, "rate", told[[1]])
  add(case, "rate_standard_error", told[[2]])
  add(case, "t", told[[3]])
  add(case, "p_value", told[[4]])
  add(case, "residual_sd", summary(fit)$sigma)
  changes <- dfbeta(fit)[, "time"]
  cook <- cooks.distance(fit)
  alone <- hatvalues(fit) > 1 - 1e-9
  for (i in which(!alone)) {
    add(case, sprintf("rate_without_%d", i - 1), told[[1]] - changes[[i]])
    add(case, sprintf("cook_distance_%d", i - 1), cook[[i]])
  }
  if (fit$df.residual < 2) next
  best <- NULL
  for (i in seq_len(nrow(these) - 1)) {
    if (these$segment[i] != these$segment[i + 1]) next
    these$behind <- as.numeric(seq_len(nrow(these)) > i & these$segment == these$segment[i])
    stepped <- update(fit, . ~ . + behind, data = these)
    if (is.na(coef(stepped)["behind"])) next
    row <- summary(stepped)$coefficients["behind", ]
    if (is.null(best) || abs(row[[3]]) > abs(best[3])) best <- c(i - 1, row[[1]], row[[3]])
  }
  if (!is.null(best)) {
    add(case, "step_after", best[1])
    add(case, "step_amount", best[2])
    add(case, "step_t", best[3])
  }
}
write.csv(out, "drift_lm.csv", row.names = FALSE, quote = FALSE)
