// Package psplib reads the public benchmark formats of resource-constrained
// scheduling: .sm of PSPLIB (Kolisch and Sprecher, "PSPLIB - a project scheduling
// problem library", 1996) and .sch of ProGen/max (Schwindt, "Generation of
// resource-constrained project scheduling problems with minimal and maximal time
// lags", 1998); and .dzn of the public sets with weighted earliness and tardiness.
// One mode a task and renewable things only: what the formats have
// beside that is refused with its line.
//
// Reading order: instance.go, fault.go, sm.go, sch.go, dzn.go, words.go.
package psplib
