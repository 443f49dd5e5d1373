package shelf

import "ripeby/resources"

// Rect is a box's footprint or a shelf's floor: width along the shelf's front
// edge and depth away from it, in micrometres.
type Rect struct{ W, D int64 }

// RectOf is the floor of a shelf, or the footprint of a box, of this size.
func RectOf(s resources.Size) Rect {
	return Rect{W: int64(s.Width), D: int64(s.Depth)}
}

// Placed is a footprint as it stands: the distances of its nearest corner from
// the shelf's left front corner (X to the right, Y to the back) and its sides as
// it stands, in micrometres. A box that was turned has its sides exchanged.
type Placed struct{ X, Y, W, D int64 }

// Answer says what is known about a question.
type Answer int

// The answers. No and Yes are proved; Unknown means that the work budget ran out
// or that a limit of this package was met before either was.
const (
	No Answer = iota
	Yes
	Unknown
)

// String gives the answer as a word.
func (a Answer) String() string {
	switch a {
	case No:
		return "no"
	case Yes:
		return "yes"
	case Unknown:
		return "unknown"
	}
	return "answer?"
}

// DefaultBudget is the work that Fit and Most are usually given: positions
// tried, of which a common machine does some millions a second.
const DefaultBudget = 200_000

// Longest is the longest side of a floor, in micrometres (about one kilometre),
// that is reckoned with, so that areas stay exact. A longer one is answered
// Unknown.
const Longest = 1 << 30

// Layers is how many boxes of this size stand on one another on the shelf: as
// many heights as go under the shelf's height. It is 0 when not even one can
// stand there, whether for its height or for its footprint either way round, and
// for sizes that are not positive. Stacks stand square, so that a stack has the
// footprint of one box.
func Layers(shelf, box resources.Size) int {
	if box.Width <= 0 || box.Depth <= 0 || box.Height <= 0 {
		return 0
	}
	straight := box.Width <= shelf.Width && box.Depth <= shelf.Depth
	turned := box.Depth <= shelf.Width && box.Width <= shelf.Depth
	if shelf.Height < box.Height || !straight && !turned {
		return 0
	}
	return int(shelf.Height / box.Height)
}
