// Package packing finds where boxes stand over time, exactly, or which of them already cannot
// stand together.
//
// Boxes never move while they stand, so stays that share a moment must not share floor. Every
// stack can be pushed toward the origin until it meets a wall or another stack, so sums of
// sides are enough places to try: the normal patterns of Christofides and Whitlock, "An
// algorithm for two-dimensional cutting problems" (1977). Each place that a stack may have is a
// literal of a kernel of its own; what cannot be is a core of stays, made smaller by deletion.
//
// What stacks take of a space can be told in numbers too, which is less than geometry asks and is
// what the statement knows before boxes are put (weigh.go).
//
// It knows one space and a list of stays; which stays they are is the statement's business.
//
// Reading order: pack.go, moment.go, overfull.go, weigh.go.
package packing
