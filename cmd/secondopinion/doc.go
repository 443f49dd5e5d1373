// Command secondopinion has plans of whole kitchens held against the answers of a
// general solver, which knows nothing of the planner and its engine:
//
//	secondopinion compare [KITCHENDIR...] [--solvers chuffed,cpsat] [--node DIR] [--python PYTHON] [--time]
//	secondopinion export KITCHENDIR [--json] [--from MOMENT] [--slots N]
//
// compare takes kitchen folders, or draws small kitchens by chance, has each planned and
// judged, has its model solved part of the score after part, and holds the answers against
// each other. A plan that is better than the proved best, or claims to be proved and is
// not, is a mistake on one of the sides. chuffed and others come with the npm package
// "minizinc", which DIR/node_modules holds, cpsat with PyPI's "ortools", which PYTHON has.
// Where one is missing, one line says so. --time has all answer from nothing, and prints
// who proved what in how much processor time.
//
// export writes a kitchen folder as values for kitchen.mzn, a model of the planning
// contract for general solvers that was written from the contract alone; or, with --json,
// as facts for models of any kind. The model for cpsat, which reads these, is cpsat/*.py; it too
// was written from the contract, and neither from kitchen.mzn nor from the engine.
//
// # What is shared, and what is not
//
// The models say what a plan may be and what it is worth; the statement gives them the
// problem, to kitchen.mzn in whole steps, with costs and starts worked out, to the other
// model as it was written. All three are written from the contract, as the judge is, and
// use nothing of the planner or the engine, so that all of them would have to make the
// same mistake for a wrong proof to pass. What a recipe needs of a kitchen (a hold on the
// grid, which kit a run keeps, where a stage may stand) is schedule/needs' to say, for the
// planner and here; the judge alone reads it again, and hears both. What a statement
// cannot tell it refuses by name.
//
// # Reading order
//
// main.go (exit codes), compare.go, meeting.go (a kitchen with all answers), worth.go (what
// is compared), verdict.go (how the answers stand), tally.go, timing.go; statement.go
// (the problem in whole numbers), wants.go, reciperows.go, slots.go, begunrows.go,
// packedrows.go, peoplerows.go, kitrows.go, stayrows.go, stockrows.go, shelfrows.go,
// milkrows.go, toldrows.go (each what it states and how its values are written), dzn.go (all of them),
// facts.go, factsofrow.go (the same as JSON), export.go; solver.go, cpsat.go, solved.go (the
// solvers and their answers as plans); mint.go, mintrecipe.go, mintbegun.go, mintearlier.go (kitchens by
// chance).
//
// In the model for cpsat: cpsat/main.py (questions and answers, part after part), cpsat/grid.py,
// cpsat/model.py (what the rest stands on), cpsat/batches.py, cpsat/people.py, cpsat/wants.py,
// cpsat/kit.py, cpsat/cold.py, cpsat/shelves.py, cpsat/milk.py, cpsat/told.py, cpsat/score.py, cpsat/answer.py
// (the plan in the words of kitchen.mzn).
package main
