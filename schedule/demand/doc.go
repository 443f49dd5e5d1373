// Package demand says from the maker's own market days how many pieces are worth bringing.
//
// A day on which everything was sold tells only that at least so many would have gone: what was sold then is
// censored. What is known of demand is therefore the product-limit estimate (Kaplan and Meier, "Nonparametric
// estimation from incomplete observations", 1958), in exact fractions, for the answer is a whole number and the
// ratio that it turns on is often met exactly. How many to bring follows by comparing one piece more with what
// it costs (the newsvendor's problem; Arrow, Harris and Marschak, "Optimal inventory policy", 1951).
//
// No model of the weather or of the season: a season has some thirty days. It is pure, and a suggestion; nothing
// is planned by it.
//
// Reading order: curve.go (what is known of demand), bring.go (how many), wants.go (beside which want).
package demand
