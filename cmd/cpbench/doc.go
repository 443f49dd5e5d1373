// Command cpbench measures the constraint kernel on public benchmark sets of
// resource-constrained scheduling, and checks its answers against published ones:
//
//	cpbench run --data DIR [--set j30,ubo20] [--seconds 20 | --work N] [--sample N]
//
// DIR holds one folder for each set (j30 and j60 of PSPLIB; j10, j20, ubo10 and
// ubo20 with minimum and maximum lags), the tables rcpsp.csv, rcpsp_max.csv and
// rcpsp_max_measured.csv of known values, and calendar/calendar.csv, which puts
// working windows on some of the instances. The sets are not part of the program.
//
// Reading order: main.go (exit codes), run.go, trial.go (what is asked), table.go
// (what is known), project.go (an instance as constraints), tally.go (what came out).
package main
