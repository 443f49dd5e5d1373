// Package bound says what every plan must cost at the least, part by part, by relaxations: plans
// of a kitchen with something left out.
//
// # Theory
//
//	cover, walk   each family and each job has the kitchen to itself: a shortest path over
//	              the units owed, in due order. Bounds every part, and gives the first jobs
//	energy        units times time of one thing in a stretch, or times moments so far apart as
//	              it is held at the least: bounds what is short, and says what is full (hold, moments)
//	layers        the covers by number of jobs: bounds the amount where more jobs are made
//	traded        the covers with value short priced against amount: where more is short
//
// A relaxation may leave any rule out; it only gets weaker. It must leave no plan out: every
// bound is held against all plans of tiny models (bound_test.go, layers_test.go, traded_test.go).
// Deliveries of two jobs that cross are exchanged, which is why a family's demands are walked in due
// order; where that may not be (a job must wait after its last work, its boxes must leave at once,
// demands differ in how long before they are to be ready) the walk is loosened first.
//
// Lopez, Erschler, Esquirol, "Ordonnancement de tâches sous contraintes: une approche
// énergétique" (1992); Dantzig, "Discrete-variable extremum problems" (1957) for the
// knapsack; Geoffrion, "Lagrangean relaxation for integer programming" (1974).
//
// # Invariants
//
//   - A part's bound holds for all plans whose earlier parts are those of the cost given.
//   - [Relaxation] keeps what was worked out of one model; all its plans share it.
//
// Reading order: cover.go, walk.go, left.go, sources.go, hold.go, energy.go, moments.go, bound.go, layers.go, traded.go.
package bound
