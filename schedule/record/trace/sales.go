package trace

import (
	"cmp"
	"slices"

	"ripeby/resources"
)

// Sale is how one cheese went at one target.
type Sale struct {
	Target  string // with its date where it repeats
	Cheese  string
	At      resources.Moment // when it left
	Brought int              // more than 0
	Sold    int              // what did not come back
	SoldOut bool             // nothing came back, or somebody said when it was sold out
}

// Sales are all of which somebody said what came back, or that it was sold out: of the rest nobody knows. Those
// that were over first come first.
func (a *Archive) Sales() (out []Sale) {
	for k, h := range a.targets {
		if h.back == nil && h.out == nil {
			continue
		}
		s := Sale{Target: k.target, Cheese: k.cheese, Brought: h.loose}
		for i := range h.shares {
			l := h.leaving(k.target, &h.shares[i])
			s.Brought += l.Pieces
			s.At = max(s.At, l.By)
		}
		back := 0
		if h.back != nil {
			back = h.back.Target.Back.Value
			s.At = cmp.Or(s.At, h.back.At)
		} else {
			s.At = cmp.Or(s.At, h.out.At)
		}
		if s.Brought == 0 || back > s.Brought {
			continue // what was brought is not known
		}
		s.Sold, s.SoldOut = s.Brought-back, back == 0 || h.out != nil
		out = append(out, s)
	}
	slices.SortFunc(out, func(x, y Sale) int {
		return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(x.Target, y.Target), cmp.Compare(x.Cheese, y.Cheese))
	})
	return out
}
