package lags

import "math/bits"

// leastTable answers "the least of row[a..b]" at once, from the least of every
// stretch whose length is a power of two (a sparse table: Bender and
// Farach-Colton, "The LCA problem revisited", 2000, section 3). Filling it takes
// n log n steps; it is filled anew for every row and keeps its memory.
type leastTable struct {
	level [][]int32
}

// fill takes over a row. The row is not copied and must not change while in use.
func (t *leastTable) fill(row []int32) {
	n := len(row)
	high := bits.Len(uint(n))
	for len(t.level) < high {
		t.level = append(t.level, nil)
	}
	t.level[0] = row
	for h := 1; h < high; h++ {
		width := n - 1<<h + 1
		if cap(t.level[h]) < width {
			t.level[h] = make([]int32, width, width+width/2)
		}
		up := t.level[h][:width]
		down := t.level[h-1]
		half := 1 << (h - 1)
		for i := range up {
			up[i] = min(down[i], down[i+half])
		}
		t.level[h] = up
	}
}

// over is the least sum of a lag's cost and the row's at so much after a place, or with way
// -1 before it, but not beyond top, where floor is the least of the row within the lag's
// reach; what it is given where there is none below that. The cheapest lengths are tried
// first, and it ends when no dearer one could do better. Tried is how many bands of lengths
// were looked at.
func (t *leastTable) over(l *Table, way, at, top int, floor, best int32) (least int32, tried int64) {
	for x := range l.Bands {
		b := &l.Bands[x]
		if b.Cost+floor >= best {
			break
		}
		tried++
		from, to := at+int(b.From), at+int(b.To)
		if way < 0 {
			from, to = at-int(b.To), at-int(b.From)
		}
		if from, to = max(from, 0), min(to, top); from <= to {
			best = min(best, b.Cost+t.of(from, to))
		}
	}
	return best, tried
}

// of is the least of row[a..b], both included; a <= b.
func (t *leastTable) of(a, b int) int32 {
	h := bits.Len(uint(b-a+1)) - 1
	l := t.level[h]
	return min(l[a], l[b-1<<h+1])
}
