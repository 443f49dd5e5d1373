package planner_test

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
)

// everyShelf says whether stays in measured places go together. Where the
// others stand is given, and so are the times; so piles can be pushed to the left and to the front
// until each touches the edge or another, and only sums of sides need be tried.
type everyShelf struct {
	k     *resources.Kitchen
	known map[string][]everyPile // nil: they do not go together
}

// everyPile is boxes of one stay on one another.
type everyPile struct {
	stay, shelf int
	x, y, w, d  resources.Micrometres
	layers      int
}

func newEveryShelf(k *resources.Kitchen) *everyShelf {
	return &everyShelf{k, map[string][]everyPile{}}
}

// stand reports whether all the stays go together, place by place.
func (s *everyShelf) stand(stays []everyStay) bool {
	for place := range s.k.Cold {
		if piles, any := s.piles(stays, place); any && piles == nil {
			return false
		}
	}
	return true
}

// piles gives a way of standing for the stays in one place, nil for none; any says
// whether there are such stays. A pile's stay counts among these.
func (s *everyShelf) piles(stays []everyStay, place int) (piles []everyPile, any bool) {
	var here []everyStay
	var key strings.Builder
	fmt.Fprint(&key, place)
	for _, x := range stays {
		if x.place != place {
			continue
		}
		fmt.Fprintf(&key, ";%d %d %d %v", x.box, x.boxes, x.open, x.at)
		for _, o := range here {
			if meets(o, x) {
				key.WriteString("+")
			} else {
				key.WriteString("-")
			}
		}
		here = append(here, x)
	}
	if len(here) == 0 {
		return nil, false
	}
	if known, ok := s.known[key.String()]; ok {
		return known, true
	}
	p := packing{s: s, stays: here, place: &s.k.Cold[place]}
	known := p.standing()
	p.sums()
	if !known || !p.next(0, p.toStand(0)) {
		p.piles = nil
	}
	s.known[key.String()] = p.piles
	return p.piles, true
}

// meets reports whether two stays may not be in each other's way. What was to come where something
// stands that is not gone by then has happened; no plan is to blame.
func meets(a, b everyStay) bool {
	if !a.planned && !b.planned && a.carried+b.carried == 0 {
		return a.now && b.now
	}
	return a.from < b.until && b.from < a.until
}

// packing is the search for one question.
type packing struct {
	s      *everyShelf
	stays  []everyStay
	place  *resources.ColdPlace
	corner []resources.Micrometres // sums of sides
	piles  []everyPile
}

// sums lists every sum of sides of different boxes, from the edge or from a pile that stands already.
func (p *packing) sums() {
	p.corner = []resources.Micrometres{0}
	for _, x := range p.piles {
		p.corner = append(p.corner, x.x, x.y, x.x+x.w, x.y+x.d)
	}
	for _, x := range p.stays {
		size := p.s.k.Boxes[x.box].Size
		for range x.boxes - x.stood() {
			for _, c := range slices.Clone(p.corner) {
				p.corner = append(p.corner, c+size.Width, c+size.Depth)
			}
			slices.Sort(p.corner)
			p.corner = slices.Compact(p.corner)
		}
	}
}

// standing puts up what has a spot; false where that is in use.
func (p *packing) standing() bool {
	for i, x := range p.stays {
		for _, pile := range x.at {
			pile.stay = i
			if layers := p.layers(&x, pile.shelf); p.held(pile, layers)+pile.layers > layers {
				return false
			}
			p.piles = append(p.piles, pile)
		}
	}
	return true
}

// layers is how many boxes of a stay stand on one another on a shelf.
func (p *packing) layers(x *everyStay, shelf int) int {
	layers := int(p.place.Shelves[shelf].Size.Height / p.s.k.Boxes[x.box].Size.Height)
	if p.s.k.Boxes[x.box].Stack == resources.StackNo {
		layers = min(layers, 1)
	}
	return layers
}

// toStand is how many boxes of a stay are to be given a spot.
func (p *packing) toStand(stay int) int { return p.stays[stay].boxes - p.stays[stay].stood() }

// stood is how many boxes of a stay have a spot.
func (s *everyStay) stood() (n int) {
	for _, p := range s.at {
		n += p.layers
	}
	return n
}

// next stands what is left of the boxes of a stay, and all later ones.
func (p *packing) next(stay, left int) bool {
	if left <= 0 {
		if stay+1 == len(p.stays) {
			return true
		}
		return p.next(stay+1, p.toStand(stay+1))
	}
	x := &p.stays[stay]
	size := p.s.k.Boxes[x.box].Size
	for i, shelf := range p.place.Shelves {
		layers := p.layers(x, i)
		if x.open&(1<<i) == 0 || layers == 0 {
			continue
		}
		for _, turned := range []bool{false, true} {
			w, d := size.Width, size.Depth
			if turned {
				w, d = d, w
			}
			for _, cx := range p.corner {
				for _, cy := range p.corner {
					pile := everyPile{stay, i, cx, cy, w, d, 0}
					if cx+w > shelf.Size.Width || cy+d > shelf.Size.Depth || !p.inOrder(pile) {
						continue
					}
					for n := min(layers-p.held(pile, layers), left); n > 0; n-- {
						pile.layers = n
						p.piles = append(p.piles, pile)
						if p.next(stay, left-n) {
							return true
						}
						p.piles = p.piles[:len(p.piles)-1]
						if !p.stacks(x) {
							break // a pile of its own is as well full
						}
					}
				}
			}
		}
	}
	return false
}

// stacks reports whether boxes of a stay may stand on those of others.
func (p *packing) stacks(x *everyStay) bool { return p.s.k.Boxes[x.box].Stack == resources.StackKind }

// held is how many boxes of other stays are where a pile would be, at the moment of its stay at which
// they are the most; all layers where something else is in the way.
func (p *packing) held(n everyPile, layers int) int {
	x, most := &p.stays[n.stay], 0
	for _, o := range p.piles {
		clash := o.shelf == n.shelf && o.x < n.x+n.w && n.x < o.x+o.w && o.y < n.y+n.d && n.y < o.y+o.d
		if !clash || o.stay != n.stay && !meets(p.stays[o.stay], *x) {
			continue
		}
		if o.stay == n.stay || !o.square(n) || p.stays[o.stay].box != x.box || !p.stacks(x) {
			return layers
		}
		at, sum := max(p.stays[o.stay].from, x.from), 0
		for _, q := range p.piles {
			if y := &p.stays[q.stay]; q.shelf == n.shelf && q.square(n) && y.from <= at && at < y.until {
				sum += q.layers
			}
		}
		most = max(most, sum)
	}
	return most
}

// square reports whether two piles on one shelf stand square on each other.
func (o everyPile) square(n everyPile) bool {
	return o.x == n.x && o.y == n.y && o.w == n.w && o.d == n.d
}

// inOrder reports whether a pile comes after those of its stay, so that equal piles
// are tried in one order only.
func (p *packing) inOrder(n everyPile) bool {
	if len(p.piles) == 0 || p.piles[len(p.piles)-1].stay != n.stay {
		return true
	}
	o := p.piles[len(p.piles)-1]
	return o.shelf < n.shelf || o.shelf == n.shelf && (o.x < n.x || o.x == n.x && o.y < n.y)
}
