package shelf

// Patterns of blocks for one size of box on an empty floor. A table holds the
// best that cutting edge to edge gives for every pair of usable lengths; over the
// whole floor lies one pinwheel of five such blocks (Bischoff and Dowsland 1982):
//
//	+-----------+------+
//	|     4     |      |
//	+------+----+  5   |
//	|      | 3  |      |
//	|  1   +----+------+
//	|      |     2     |
//	+------+-----------+
//
// A block may have no width or depth, so that patterns of one to four blocks are
// among them. A pattern shows that so many fit, never that more do not.

// LengthsMost is how many usable lengths a side may have for the table of
// blocks. Beyond it only straight rows are tried.
const LengthsMost = 200

// blockWork is how many cuts or pinwheels are looked at for one unit of budget.
const blockWork = 32

// blocks is the table for one size of box.
type blocks struct {
	long, short  int64
	xs, ys       []int64 // usable lengths, ascending, from 0 to the floor's
	restX, restY []int32 // index of what is usable of xs[i]-xs[k], at i*len(xs)+k
	best         []int32 // boxes on xs[i] by ys[j], at i*len(ys)+j
	cuts         []int32 // how: 0 not cut, k>0 cut at xs[k], k<0 cut at ys[-k]
}

// pinwheel is two cuts each way, as indices of xs and ys, and its boxes.
type pinwheel struct {
	x1, x2, y1, y2 int
	count          int32
}

// newBlocks builds the table; ok is false if it would be too large or take more
// than work. The work done is always said.
func newBlocks(w, d, long, short, work int64) (b *blocks, spent int64, ok bool) {
	b = &blocks{long: long, short: short}
	var fineX, fineY bool
	b.xs, fineX = usable(w, long, short)
	b.ys, fineY = usable(d, long, short)
	nx, ny := int64(len(b.xs)), int64(len(b.ys))
	spent = nx*ny*(nx+ny)/2/blockWork + 1
	if !fineX || !fineY || spent > work {
		return nil, 0, false
	}
	b.restX, b.restY = rests(b.xs), rests(b.ys)
	b.fill()
	return b, spent, true
}

// usable lists the sums of sides up to length; ok is false if they are too many.
func usable(length, long, short int64) (out []int64, ok bool) {
	var s sums
	s.begin(length, LengthsMost)
	for n := 0; n != len(s.list) && !s.full; {
		n = len(s.list)
		s.widen(long, short)
	}
	return s.list, !s.full
}

// rests tells for each two lengths the index of what is usable of the difference.
func rests(lengths []int64) []int32 {
	n := len(lengths)
	out := make([]int32, n*n)
	for i := range n {
		for k := range i + 1 {
			out[i*n+k] = int32(after(lengths, lengths[i]-lengths[k]) - 1)
		}
	}
	return out
}

// fill reckons the table, smaller floors first.
func (b *blocks) fill() {
	nx, ny := len(b.xs), len(b.ys)
	b.best, b.cuts = make([]int32, nx*ny), make([]int32, nx*ny)
	for i, w := range b.xs {
		for j, d := range b.ys {
			var best, cut int32
			if w >= b.long && d >= b.short || w >= b.short && d >= b.long {
				best = 1
			}
			for k := 1; k < i; k++ {
				if n := b.best[k*ny+j] + b.best[int(b.restX[i*nx+k])*ny+j]; n > best {
					best, cut = n, int32(k)
				}
			}
			for k := 1; k < j; k++ {
				if n := b.best[i*ny+k] + b.best[i*ny+int(b.restY[j*ny+k])]; n > best {
					best, cut = n, int32(-k)
				}
			}
			b.best[i*ny+j], b.cuts[i*ny+j] = best, cut
		}
	}
}

// whirl finds the best pinwheel, or the first with enough boxes, within work.
func (b *blocks) whirl(enough, work int64) (p pinwheel, spent int64) {
	nx, ny := len(b.xs), len(b.ys)
	p.x1, p.y2 = nx-1, ny-1 // block 1 alone
	p.x2 = nx - 1
	p.count = b.best[nx*ny-1]
	lastX, lastY := b.restX[(nx-1)*nx:], b.restY[(ny-1)*ny:]
	step := int64(ny*(ny+1)/2)/blockWork + 1
	for x1 := 0; x1 < nx; x1++ {
		for x2 := x1; x2 < nx; x2++ {
			if int64(p.count) >= enough || spent+step > work {
				return p, spent
			}
			spent += step
			middle := b.best[int(b.restX[x2*nx+x1])*ny:]
			right, far := b.best[int(lastX[x1])*ny:], b.best[int(lastX[x2])*ny:]
			one, four := b.best[x1*ny:], b.best[x2*ny:]
			for y2 := 0; y2 < ny; y2++ {
				base, rest := one[y2]+four[lastY[y2]], b.restY[y2*ny:]
				for y1 := 0; y1 <= y2; y1++ {
					if n := base + right[y1] + middle[rest[y1]] + far[lastY[y1]]; n > p.count {
						p = pinwheel{x1, x2, y1, y2, n}
					}
				}
			}
		}
	}
	return p, spent
}

// stand lists the places of a pinwheel's boxes.
func (b *blocks) stand(p pinwheel) (out []stand) {
	nx, ny := len(b.xs), len(b.ys)
	restX := func(i, k int) int { return int(b.restX[i*nx+k]) }
	restY := func(i, k int) int { return int(b.restY[i*ny+k]) }
	x1, x2, y1, y2 := b.xs[p.x1], b.xs[p.x2], b.ys[p.y1], b.ys[p.y2]
	out = b.block(out, 0, 0, p.x1, p.y2)
	out = b.block(out, x1, 0, restX(nx-1, p.x1), p.y1)
	out = b.block(out, x1, y1, restX(p.x2, p.x1), restY(p.y2, p.y1))
	out = b.block(out, 0, y2, p.x2, restY(ny-1, p.y2))
	return b.block(out, x2, y1, restX(nx-1, p.x2), restY(ny-1, p.y1))
}

// block lists the places of the boxes of one block with its corner at x, y.
func (b *blocks) block(out []stand, x, y int64, i, j int) []stand {
	nx, ny := len(b.xs), len(b.ys)
	switch cut := int(b.cuts[i*ny+j]); {
	case cut > 0:
		out = b.block(out, x, y, cut, j)
		return b.block(out, x+b.xs[cut], y, int(b.restX[i*nx+cut]), j)
	case cut < 0:
		out = b.block(out, x, y, i, -cut)
		return b.block(out, x, y+b.ys[-cut], i, int(b.restY[j*ny-cut]))
	case b.best[i*ny+j] == 0:
		return out
	case b.xs[i] >= b.long && b.ys[j] >= b.short:
		return append(out, stand{0, x, y, b.long, b.short})
	}
	return append(out, stand{0, x, y, b.short, b.long})
}
