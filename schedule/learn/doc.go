// Package learn says what a kitchen's own record tells of its cheeses: how many times as long a hold
// takes there as its recipe says, how many pieces come from the milk, how long work really takes, and
// what a cheese loses in weight. It is pure: the same record gives the same answer, nothing is drawn by
// chance, and no plan goes by it before a maker has written it into the recipe.
//
// A set is never seen to become ready. Somebody comes and it is not ready yet, or it is, and the moment lies
// between two looks, before the first, or after the last:
//
//	hold began   not yet      not yet        began to drain
//	├─────────────×────────────×══════════════╡          between
//	├═════════════════════════════════════════╡          nobody looked before
//	├──────────────────────────×═══════════════════…     not ready yet, as far as is known
//
// So the factor is fitted to what the looks leave possible, and never to when the work was planned or done:
// a farm's "24 h" is when somebody comes back, not when the curd is ready (rule_test.go lists
// what is published).
//
// Small numbers are held back by what is known of other kitchens: the logarithm of a factor is taken to
// scatter about 0 with a standard deviation of 0.35 from kitchen to kitchen, and by what the recipe says,
// 0.15 without, from batch to batch. Under three looks nothing is told, nor a factor outside 0.5 to 2.5.
//
// All of it is time, weight and number: none of it says whether a cheese is safe.
//
// Reading order: normal.go (the normal curve, far out too), posterior.go
// (a factor fitted to looks), student.go (few numbers); then from the record: learn.go (one cheese),
// looks.go, holds.go, yield.go, work.go, loss.go, lengths.go.
package learn
