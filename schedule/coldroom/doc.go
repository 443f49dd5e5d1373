// Package coldroom says what stands where in the cold places of a plan, and for how
// long; and whether further boxes have a place beside all that.
//
// [Of] reads a plan's stays: boxes that stand unmoved from one moment to another.
// [Occupancy.Piles] gives what stands on one shelf at one moment. [Occupancy.Ask]
// answers whether so many boxes of a size have a place for a stretch of time. [Fills]
// says how full each place is over time.
//
// # What a place for boxes is
//
// Nothing that stands is moved to another spot. Boxes of a kind that stacks by kind may be put on
// others of it, whatever batch those are of: in a spot where nothing else stands in the whole time
// and there is always room below the next shelf. Others, and those that find no such spot, need
// floor on which none of the plan's piles of that whole time stands, on shelves that are not taken
// in that time; there they stand on one another as far as the shelf is high and their kind allows.
// They all go to one cold place, if need be on several of its shelves. In a place that is counted in
// boxes, the greatest number that stands there at one moment of the time is what counts.
//
// How long they may stay from a moment on can only shrink as time goes on, for a
// longer stay meets more: the last end that has a place is found by halving. The next
// moment from which they have a place for a given length is one at which something
// leaves or a shelf opens. A stay that begins a little before such a moment meets all
// that one from that moment on meets, and more.
//
// The geometry is that of resources/shelf and exact. It stops at a budget of work;
// what is then not known is said, and nothing is called No that is not proved.
//
// Reading order: stay.go, pile.go, fill.go, ask.go, room.go, top.go, around.go.
package coldroom
