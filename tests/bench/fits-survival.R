# Censored lives on log10 S by maximum likelihood with survreg. Arguments: a file of doubles (S of all rows, then N, then 1 for broken
# specimens), runs, distribution. Prints seconds of each run, then coefficients, scale, log likelihood and the standard errors.
given <- commandArgs(TRUE)
suppressMessages(library(survival))
rows <- file.size(given[1]) / 24
columns <- matrix(readBin(given[1], "double", 3 * rows), ncol = 3)
S <- columns[, 1]
N <- columns[, 2]
broken <- columns[, 3]
fit <- function(...) survreg(Surv(N, broken) ~ log10(S), dist = given[3], ...)
times <- replicate(as.integer(given[2]), {
  gc(FALSE)
  system.time(fit())[["elapsed"]]
})
# Timed as it comes, compared as near to the top as it goes.
found <- fit(control = survreg.control(rel.tolerance = 1e-14))
cat(format(times, digits = 8), "\n")
cat(format(c(coef(found), found$scale, found$loglik[2], sqrt(diag(vcov(found)))), digits = 16), "\n")
