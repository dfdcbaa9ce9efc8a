# Writes tests/data/spc_run_lengths.csv: average run lengths of two-sided
# charts by the R package spc (Knoth), 0.6.7, Debian r-cran-spc. Run by hand:
#     Rscript tests/reference/spc_run_lengths.R > tests/data/spc_run_lengths.csv
# ewma: weight, limit in sigmas; cusum: slack and decision in sigmas.
suppressMessages(library(spc))
cat("chart,parameter_a,parameter_b,shift_sigmas,average_run\n")
ewma <- list(c(.1, 2.814), c(.2, 2.962), c(.25, 2.998), c(.4, 3.054), c(.3, 3))
cusum <- list(c(.5, 4), c(.5, 5), c(.3175, 4.1959), c(.25, 8))
row <- function(chart, run, p, d)
  cat(sprintf("%s,%g,%g,%g,%.6f\n", chart, p[1], p[2], d,
              run(p[1], p[2], d, sided = "two", r = 60)))
for (p in ewma) for (d in c(0, .5, 1, 2, 3)) row("ewma", xewma.arl, p, d)
for (p in cusum) for (d in c(0, .5, 1, 2, 3)) row("cusum", xcusum.arl, p, d)
