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
// It also gives a second opinion on plans of whole kitchens:
//
//	cpbench export KITCHENDIR [--from MOMENT] [--slots N] > kitchen.dzn
//	cpbench compare --kitchens 200 --seed 1 --node DIR [--seconds 60] [--keep DIR]
//
// export writes a kitchen folder as values for kitchen.mzn, a model of the planning
// contract for general solvers that was written from the contract alone. compare draws
// small kitchens by chance, has each planned and judged, has its model solved part of
// the score after part by the package minizinc, which DIR/node_modules holds, and holds
// the two answers against each other. A plan that is better than the proved best, or
// claims to be proved and is not, is a mistake on one of the two sides.
//
// Reading order: main.go (exit codes), run.go, trial.go (what is asked), table.go
// (what is known), project.go (an instance as constraints), tally.go (what came out);
// for kitchens statement.go (the problem in whole numbers), wants.go, slots.go,
// begunrows.go, peoplerows.go, kitrows.go, coldrows.go,
// milkrows.go, dzn.go (its values), export.go;
// solver.go, solved.go (the solver and its answer as a plan), mint.go, mintrecipe.go
// (kitchens by chance), compare.go, verdict.go.
package main
