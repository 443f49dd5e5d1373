// Package packing finds where boxes stand over time, exactly, or which of them already cannot
// stand together.
//
// Boxes keep their spot while they stand, so spots that are in use at one moment must not share
// floor. Boxes of a kind that stacks on its own share a spot, whatever stays they are of, as high as
// the floor allows; of two kinds they never do. Every spot can be pushed toward the origin, with all
// that stands in it, until it meets a wall or another spot, so sums of sides are enough places to
// try: the normal patterns of Christofides and Whitlock, "An algorithm for two-dimensional cutting
// problems" (1977). Each spot that boxes of a stay may have is a literal of a kernel of its own; what
// cannot be is a core of stays, made smaller by deletion.
//
// What stacks take of a space can be told in numbers too, which is less than geometry asks and is
// what the statement knows before boxes are put (weigh.go, load.go). Where boxes of several kinds
// share spots a table of what stands at one moment says more (table.go).
//
// It knows one space and a list of stays; which stays they are is the statement's business.
//
// Reading order: pack.go, apart.go, gather.go, moment.go, overfull.go, weigh.go, load.go, table.go.
package packing
