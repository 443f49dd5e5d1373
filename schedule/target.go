package schedule

import (
	"regexp"

	"ripeby/resources"
)

// Target is one moment at which packed pieces leave the kitchen. A repeated
// target has been written out, one Target a date, its Name ending in that date.
type Target struct {
	Name   string
	By     resources.Moment
	Packed resources.Minutes // packing is done at least this long before By
	Wants  []Want
}

// Want is so many pieces of one cheese.
type Want struct {
	Cheese   string
	Pieces   int
	Price    resources.Money
	Promised bool
}

// dated is the end of the name of a target that repeats.
var dated = regexp.MustCompile(` \d{4}-\d{2}-\d{2}$`)

// Undated is the name of a target without its date.
func Undated(name string) string { return dated.ReplaceAllString(name, "") }
