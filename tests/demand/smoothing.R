# Plain weekday exponential smoothing of daily sales: ets(A,N,A) with a season of
# seven days, fitted anew at the end of each of the last weeks.
# Reads  series,begins,days...  one series a line (sold balls, day by day);
# writes week,series and the fourteen means after that week's origin.
suppressMessages(library(forecast))
args <- commandArgs(trailingOnly = TRUE)
weeks <- as.integer(args[1])
for (line in readLines(file("stdin"))) {
  cells <- as.numeric(strsplit(line, ",")[[1]])
  sold <- cells[-1]
  for (week in seq_len(weeks) - 1) {
    origin <- length(sold) - 14 - 7 * (weeks - 1 - week)
    fit <- ets(ts(sold[seq_len(origin)], frequency = 7), model = "ANA",
               ic = "aicc", damped = FALSE)
    means <- forecast(fit, h = 14, PI = FALSE)$mean
    cat(sprintf("%d,%d,%s\n", week, cells[1],
                paste(sprintf("%.6g", means), collapse = ",")))
  }
}
