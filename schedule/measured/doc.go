// Package measured lays what was measured of a batch beside what its recipe says: what is to be looked at and
// written down at which stage, what was, and what of that lies outside the recipe's own limits.
//
//	{what: pH, stage: drain, from: 4.4, to: 4.7, else: "wait an hour and look again"}
//	pH 4,9, said with drain ──► above 4.7, the recipe says: wait an hour and look again
//
// Numbers are compared exactly, in one unit where two have the same kind. What is no number, or has another kind of
// unit or none where the limit has one, is shown as it was written and is compared with nothing. That is all that is
// said: whether a cheese may be eaten the maker judges, and no number here does.
//
// [Fill] has a plan tell what is to be written down when it is put in force; no start and no person goes by it.
//
// Reading order: compare.go (one number beside one measure), told.go (in words), rows.go (a batch), fill.go (a plan).
package measured
