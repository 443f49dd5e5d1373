// Package generalsolver has general solvers answer questions beside this program:
// those that the npm package "minizinc" carries, compiled for node, and CP-SAT of the
// Python package "ortools". [Find] and [FindPython] say where the package is, or in one
// line why there is none. A [Script] of the caller's own drives it: [Start] runs one under
// node, [Run] any program, and [Script.Ask] has a line of JSON answered with another. [Values]
// writes what a MiniZinc model is asked about.
//
// Nothing that plans needs any of this. Tests that do are skipped where it is not there, but
// under .ci/run, which brings it, they fail.
//
// Reading order: script.go, values.go.
package generalsolver
