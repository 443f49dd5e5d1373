// Package global holds the constraints of scheduling for the kernel, one filtering
// rule a file. Each rule is written forward, for lower bounds; run on the negated
// views of time it gives the backward half.
//
// Reading order: interval.go, timetable.go, profile.go, edgefind.go, holes.go,
// excess.go, lift.go.
package global
