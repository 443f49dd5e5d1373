// Package sample is a small kitchen made by hand, with a plan of it, for the tests of
// the rooms of calendar; no program holds it.
//
// Names, people and cheeses are invented. Each call gives a kitchen and a plan of its
// own, so that a test may change what it likes. What cannot be made is a mistake in this
// package, and panics. What a test asks again and again of any text that was made is
// here too, as an error for the test to report.
//
// Reading order: kitchen.go, plan.go, names.go (names that have broken pages),
// picture.go (a picture read back), checks.go.
package sample
