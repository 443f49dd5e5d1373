// Command cpbench measures the constraint kernel on public benchmark sets of
// resource-constrained scheduling, and checks its answers against published ones:
//
//	cpbench run --data DIR [--set j30,ubo20] [--seconds 20 | --work N] [--sample N]
//	            [--yardstick FOLDER] [--yardstick-set wet,j60sample]
//
// DIR holds one folder for each set (j30 and j60 of PSPLIB; j10, j20, ubo10 and
// ubo20 with minimum and maximum lags; wet with wanted times), the tables rcpsp.csv,
// rcpsp_max.csv, rcpsp_max_measured.csv and wet_measured.csv of known values, and
// calendar/calendar.csv, which puts working windows on some of the instances. The
// sets are not part of the program. The set j60sample is every eighth of j60, 60 of
// them, always the same.
//
// For each set it prints how many were proved, how long that took, and how far what
// was found lies above the tables: the gap, in per cent, over all instances of which
// something was found and the tables know a value. Times are processor time, so that
// a busy machine does not count. Every plan found is checked against its project.
//
// # Reasons
//
// For a row of the calendar that is impossible it prints a least reason: windows,
// capacities of things and greatest lags that together forbid every plan, where
// without any one of them there is a plan. Least lags are the order of the work and
// always hold. Tasks are numbered from 0, things from 1:
//
//	ubo10/psp4.sch 11 of 16: impossible because of: windows 11 of 16; lag 7 -> 9 at most 11
//
// # Yardstick
//
// Beside the kernel the sets of --yardstick-set are answered by Chuffed, another
// solver that learns from conflicts, as the npm package "minizinc" carries it for
// node; "npm install minizinc" in some folder, and --yardstick with that folder. It
// gets models of our own (folder yardstick), is asked twice, with the search that the
// models give and with its own free search, and has the same limit, of which stating
// the question takes nothing. Where node or the package is missing, one line says so.
// Nothing else needs them; no test does.
//
// # Reading order
//
// main.go (exit codes), run.go, limit.go (what a question may take), trial.go (what is
// asked), table.go (what is known), project.go and wanted.go (an instance as constraints),
// tally.go (what came out), check.go, reason.go, yardstick.go. Package psplib reads the
// instances, package rules has the constraints that only they need.
package main
