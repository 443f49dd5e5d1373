package words

import "time"

// NameMost is how many columns of a name a page shows. A longer one loses its middle,
// and the page says so; CSV and plan.json hold it whole.
const NameMost = 48

// Pen writes names and texts for one form, and remembers whether it had to
// shorten any.
type Pen struct {
	Zone   *time.Location
	Most   int                 // columns of a name; 0 for all
	Escape func(string) string // after it is printable; nil for none
	Cut    bool
}

// Name writes a name, shortened where it must be.
func (n *Pen) Name(s string) string {
	s = Printable(s)
	if n.Most > 0 {
		short, cut := Short(s, n.Most)
		s, n.Cut = short, n.Cut || cut
	}
	return n.escaped(s)
}

// Text writes a sentence, whole.
func (n *Pen) Text(s string) string { return n.escaped(Printable(s)) }

func (n *Pen) escaped(s string) string {
	if n.Escape == nil {
		return s
	}
	return n.Escape(s)
}
