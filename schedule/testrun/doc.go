// Package testrun says how much a run of the tests has in it. Only tests import it.
//
// A run is quick, so that it is made after every change, unless it is built with the
// tag long, as .ci/run does: then tests have more rounds, and those in files that
// begin with the tag are there too. The quick rounds are the first of the long ones.
//
// Files: rounds.go (how many), quick.go and long.go (which run this is), main.go (the
// same draws in every run), missing.go (what a test needs and is not here).
package testrun
