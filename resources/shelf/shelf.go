package shelf

// Rect is a box's footprint or a shelf's floor: width along the shelf's front
// edge and depth away from it, in micrometres.
type Rect struct{ W, D int64 }

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

// DefaultBudget is the work that Fit is usually given: positions
// tried, of which a common machine does some millions a second.
const DefaultBudget = 200_000

// Longest is the longest side of a floor, in micrometres (about one kilometre),
// that is reckoned with, so that areas stay exact. A longer one is answered
// Unknown.
const Longest = 1 << 30
