package shelf

import (
	"cmp"
	"slices"
)

// room is a question made ready for search: everything in whole units of the
// greatest common divisor of all sides and edges, rows along the shorter side of
// the floor, and the boxes sorted, so that equal ones are neighbours.
type room struct {
	w, d   int64  // floor; what is left over of a unit is useless and dropped
	walls  []wall // fixed boxes, cut to the floor, sorted by front edge
	items  []item // largest first
	unit   int64
	turned bool  // X and Y are exchanged
	spare  int64 // free floor less the area of all boxes
}

// wall is a fixed box as two corners.
type wall struct{ x0, y0, x1, y1 int64 }

// item is one box: its sides, longer first, and its place in the input.
type item struct {
	long, short int64
	at          int
}

// prepare fills the room from the input, in which each box stands on the empty
// floor. It answers No when the free area rules it out, and Unknown otherwise.
func (r *room) prepare(floor Rect, fixed []Placed, boxes []Rect) Answer {
	r.unit = 0
	for i, b := range boxes {
		r.items = append(r.items, item{max(b.W, b.D), min(b.W, b.D), i})
		r.unit = gcd(gcd(r.unit, b.W), b.D)
	}
	r.w, r.d = floor.W, floor.D
	for _, p := range fixed {
		if q, ok := cut(floor, p); ok {
			r.walls = append(r.walls, q)
			r.unit = gcd(gcd(r.unit, q.x0), q.y0)
			if q.x1 < floor.W {
				r.unit = gcd(r.unit, q.x1)
			}
			if q.y1 < floor.D {
				r.unit = gcd(r.unit, q.y1)
			}
		}
	}
	r.scale()
	slices.SortFunc(r.items, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.long*b.short, a.long*a.short),
			cmp.Compare(b.long, a.long), cmp.Compare(a.at, b.at))
	})
	r.spare = r.w*r.d - covered(r.walls)
	for _, it := range r.items {
		if r.spare -= it.long * it.short; r.spare < 0 {
			return No
		}
	}
	return Unknown
}

// scale divides by the unit and lays the rows along the shorter side.
func (r *room) scale() {
	u := r.unit
	r.w, r.d = r.w/u, r.d/u
	for i := range r.items {
		r.items[i].long /= u
		r.items[i].short /= u
	}
	walls := r.walls[:0]
	for _, q := range r.walls {
		// An edge beyond the last whole unit is the edge of the floor.
		q = wall{q.x0 / u, q.y0 / u, min((q.x1+u-1)/u, r.w), min((q.y1+u-1)/u, r.d)}
		if q.x0 < q.x1 && q.y0 < q.y1 {
			walls = append(walls, q)
		}
	}
	r.walls = walls
	if r.w > r.d {
		r.turn()
	}
	r.sortWalls()
}

// turn exchanges X and Y.
func (r *room) turn() {
	r.turned = !r.turned
	r.w, r.d = r.d, r.w
	for i, q := range r.walls {
		r.walls[i] = wall{q.y0, q.x0, q.y1, q.x1}
	}
}

func (r *room) sortWalls() {
	slices.SortFunc(r.walls, func(a, b wall) int {
		return cmp.Or(cmp.Compare(a.y0, b.y0), cmp.Compare(a.x0, b.x0),
			cmp.Compare(a.y1, b.y1), cmp.Compare(a.x1, b.x1))
	})
}

// placed gives a rectangle of the room in the caller's units and directions.
func (r *room) placed(x, y, w, d int64) Placed {
	u := r.unit
	if r.turned {
		return Placed{y * u, x * u, d * u, w * u}
	}
	return Placed{x * u, y * u, w * u, d * u}
}

// cut gives the part of p on the floor; ok is false when there is none.
func cut(floor Rect, p Placed) (q wall, ok bool) {
	q.x0, q.x1 = cutSide(floor.W, p.X, p.W)
	q.y0, q.y1 = cutSide(floor.D, p.Y, p.D)
	return q, q.x0 < q.x1 && q.y0 < q.y1
}

// cutSide is the part of [from, from+length) in [0, side), safe from overflow.
func cutSide(side, from, length int64) (lo, hi int64) {
	if length <= 0 || from >= side {
		return 0, 0
	}
	if from < 0 {
		return 0, max(0, min(side, from+length))
	}
	return from, from + min(length, side-from)
}

// covered is the area of the union of the walls. Fixed boxes do not overlap as a
// rule, and then it is the sum; the sweep is for those that do.
func covered(walls []wall) int64 {
	var sum int64
	apart := true
	for i, a := range walls {
		sum += (a.x1 - a.x0) * (a.y1 - a.y0)
		for _, b := range walls[:i] {
			apart = apart && (a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0)
		}
	}
	if apart {
		return sum
	}
	return sweep(walls)
}

// sweep adds up, strip by strip between neighbouring X edges, the length that
// the walls cover. The walls are sorted by y0.
func sweep(walls []wall) (sum int64) {
	edges := make([]int64, 0, 2*len(walls))
	for _, a := range walls {
		edges = append(edges, a.x0, a.x1)
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	for i := 1; i < len(edges); i++ {
		var length, reached int64
		for _, a := range walls {
			if a.x0 < edges[i] && a.x1 > edges[i-1] && a.y1 > reached {
				length += a.y1 - max(a.y0, reached)
				reached = a.y1
			}
		}
		sum += length * (edges[i] - edges[i-1])
	}
	return sum
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
