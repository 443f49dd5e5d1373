//go:build !long

package testrun

// Long says whether this is the long run.
const Long = false
