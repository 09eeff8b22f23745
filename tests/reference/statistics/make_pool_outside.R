#!/usr/bin/Rscript
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes pool_outside.csv beside this script: the restricted maximum likelihood of pooled rates by a package that shares no
# code with the program, metafor::rma(method = "REML").
# Run in this folder: Rscript make_pool_outside.R     (Debian 12: r-base-core 4.2, r-cran-metafor 3.8)
suppressMessages(library(metafor))
estimates <- read.csv("pool_estimates.csv")
out <- data.frame()
add <- function(group, quantity, value, source)
  out <<- rbind(out, data.frame(group, quantity, value = format(value, digits = 15), source))
for (name in unique(estimates$group)) {
  if (!grepl("^(bcg|rates)", name)) next
  these <- estimates[estimates$group == name, ]
  y <- these$value
  v <- these$variance_or_freedom
  fit <- rma(y, v, method = "REML", control = list(threshold = 1e-13, maxiter = 10000))
  add(name, "between_variance", fit$tau2, "R metafor rma REML")
  add(name, "mean", as.numeric(fit$beta), "R metafor rma REML")
  add(name, "mean_standard_error", fit$se, "R metafor rma REML")
}
write.csv(out, "pool_outside.csv", row.names = FALSE, quote = FALSE)
