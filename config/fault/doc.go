// Package fault says what is wrong with what somebody wrote: where it stands, what was
// found, how to write it right, the nearest that is known. It reads single values too,
// names and numbers, whose faults are the same whatever file they stand in.
//
// Reading order: fault.go, value.go, nearest.go, suggest.go.
package fault
