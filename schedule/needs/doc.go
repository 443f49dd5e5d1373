// Package needs says what a batch of a recipe needs of a kitchen: how much milk it may
// take, how long its stages work and hold on the planning grid and by whom, which kit it
// keeps from when to when, where its boxes may stand, and which milk it may draw on.
//
// These rules do not depend on how a plan is sought, so each is written once: the planner
// states them to its engine, the second opinion to another solver, and the folder's reader
// and the cold rooms ask here which box a stage is in. The judge reads the contract for
// itself and may not import this package.
//
//	      make      set     drain    chill    rest
//	work  |==|      |=|      |==|     |=|              who.go, size.go
//	hold     |......| |......|  |.....| |......|....   hold.go
//	pot   |-------------------->                       run.go: to the end of the work
//	mould                    |---------------->        that comes after; kit.go
//	cave                                |..........    stay.go: from hold to hold
//
// The engine says the same of a job in its own numbers, in schedule/cp/problem/occupied.go alone.
//
// # Reading order
//
// size.go (litres, pieces and work), hold.go (a hold's limits on the grid, how far it is from
// its best and how late, and how long what has begun is waited for), spell.go (limits that go by the
// room's temperature), who.go (whose work it may
// be), run.go (from when to when kit is kept), kit.go (which kinds of kit there are, and which
// and how many of them a run keeps), stay.go (boxes in the cold), milk.go (collections).
package needs
