// Command secondopinion has plans of whole kitchens held against the answers of a
// general solver, which knows nothing of the planner and its engine:
//
//	secondopinion compare --kitchens 200 --seed 1 --node DIR [--seconds 60] [--keep DIR]
//	secondopinion export KITCHENDIR [--from MOMENT] [--slots N] > kitchen.dzn
//
// compare draws small kitchens by chance, has each planned and judged, has its model
// solved part of the score after part by the npm package "minizinc", which
// DIR/node_modules holds, and holds the two answers against each other. A plan that is
// better than the proved best, or claims to be proved and is not, is a mistake on one of
// the two sides. Where node or the package is missing, one line says so.
//
// export writes a kitchen folder as values for kitchen.mzn, a model of the planning
// contract for general solvers that was written from the contract alone.
//
// # What is shared, and what is not
//
// kitchen.mzn says what a plan may be and what it is worth; the statement gives it the
// problem in whole numbers. Both are written from the contract, as the judge is, and
// use nothing of the planner or the engine, so that all of them would have to make the
// same mistake for a wrong proof to pass. What a recipe needs of a kitchen (a hold on the
// grid, which kit a run keeps, where a stage may stand) is schedule/needs' to say, for the
// planner and here; the judge alone reads it again, and hears both. What a statement
// cannot tell it refuses by name.
//
// # Reading order
//
// main.go (exit codes), compare.go, verdict.go (how the answers stand); statement.go
// (the problem in whole numbers), wants.go, reciperows.go, slots.go, begunrows.go,
// peoplerows.go, kitrows.go, stayrows.go, stockrows.go, shelfrows.go, milkrows.go (each
// what it states and how its values are written), dzn.go (all of them), export.go;
// solver.go, solved.go (the solver and its answer as a plan); mint.go, mintrecipe.go
// (kitchens by chance).
package main
