# SPDX-License-Identifier: GPL-3.0-or-later
# Makes wear_windows.csv and wear_fits.csv beside this script: random failures known only to lie between two looks,
# and what R's survreg (package survival) makes of them with the Weibull and the exponential model. Half of the cases
# are outcomes of calibrations: each looked at once, so in (0, age] or still in at that age.
#
# Run: Rscript make_wear_table.R     (Debian 12: r-base-core 4.2.2, r-cran-survival 3.5)
library(survival)
set.seed(20261125)
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE)))
control <- survreg.control(rel.tolerance = 1e-14, maxiter = 500)
windows <- NULL
fits <- NULL
for (case in 0:39) {
  n <- sample(15:80, 1)
  scale <- exp(runif(1, log(150), log(2000)))
  shape <- runif(1, 0.6, 3)
  life <- rweibull(n, shape, scale)
  if (case %% 2 == 0) {
    look <- round(scale * runif(n, 0.1, 1.6), 1)
    after <- ifelse(life > look, look, 0)
    until <- ifelse(life > look, NA, look)
  } else {
    step <- round(scale / 4, 1)
    after <- pmin(floor(life / step), 5) * step
    until <- ifelse(life >= 5 * step, NA, after + step)
  }
  # survreg asks for a left end above 0 or none.
  response <- Surv(ifelse(after > 0, after, NA), until, type = "interval2")
  weibull <- survreg(response ~ 1, dist = "weibull", control = control)
  exponential <- survreg(response ~ 1, dist = "exponential", control = control)
  windows <- rbind(windows, data.frame(case = case, after = after, until = until))
  fits <- rbind(fits, data.frame(
    case = case,
    scale = format(exp(coef(weibull)[[1]]), digits = 17), shape = format(1 / weibull$scale, digits = 17),
    log_likelihood = format(weibull$loglik[2], digits = 17),
    constant_rate = format(exp(-coef(exponential)[[1]]), digits = 17),
    constant_log_likelihood = format(exponential$loglik[2], digits = 17)))
}
write.csv(windows, file.path(here, "wear_windows.csv"), row.names = FALSE, quote = FALSE, na = "")
write.csv(fits, file.path(here, "wear_fits.csv"), row.names = FALSE, quote = FALSE)

# The random outcomes of reliability_outcomes.csv again, by the exponential model of survreg: the rates of
# reliability_fits.csv from another program.
outcomes <- read.csv(file.path(here, "reliability_outcomes.csv"))
rates <- NULL
for (case in unique(outcomes$case)) {
  own <- outcomes[outcomes$case == case, ]
  inside <- own$in_tolerance == "yes"
  if (all(inside) || !any(inside)) next
  response <- Surv(ifelse(inside, own$interval_days, NA), ifelse(inside, NA, own$interval_days), type = "interval2")
  fit <- survreg(response ~ 1, dist = "exponential", control = control)
  rates <- rbind(rates, data.frame(case = case, rate = format(exp(-coef(fit)[[1]]), digits = 17)))
}
write.csv(rates, file.path(here, "reliability_survreg.csv"), row.names = FALSE, quote = FALSE)
