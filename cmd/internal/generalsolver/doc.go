// Package generalsolver has general solvers answer questions beside this program:
// those that the npm package "minizinc" carries, compiled for node, and CP-SAT of the
// Python package "ortools". [Find] and [FindPython] say where the package is, or in one
// line why there is none. A [Script] of the caller's own drives it and answers one line
// of JSON with another. [Values] writes what a model is asked about.
//
// Nothing that plans needs any of this, and no test fails where it is not there.
//
// Reading order: script.go, values.go.
package generalsolver
