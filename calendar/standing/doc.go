// Package standing says in words how a plan stands: what it meets, how good it is known to be, what it lacks and
// warns of, and what is otherwise in it than in the plan before.
//
// Reading order: standing.go, changes.go.
package standing
