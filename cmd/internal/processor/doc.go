// Package processor tells how much of the processor this process has taken: on a busy machine
// the clock would measure what others do.
//
// Reading order: spent_unix.go, spent_other.go (where the system does not tell).
package processor
