// Package tiny is for the engine's tests: random models so small that every plan of them can be
// listed, and the naive reading that lists and checks them. It shares nothing with the engine but
// the types of package problem, and is slow on purpose.
//
// Reading order: tiny.go (models), draw.go, turns.go (lags that change), season.go (larger ones), naive.go (a plan tick by
// tick), late.go (what has begun), whole.go (every plan's cost), plans.go (every plan), told.go (what was told),
// standing.go (where boxes stand), inforce.go (a
// plan as the one in force), main.go (how many are enough).
package tiny
