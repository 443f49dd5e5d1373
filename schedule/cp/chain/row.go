package chain

// Row is a cost for every start of an activity, with the least of every few
// neighbours, by which most of a row is passed over unseen.
type Row struct {
	Cost  []int32
	least []int32 // of cost[k*rowBlock : (k+1)*rowBlock]
}

const rowBlock = 32

func newRow(cost []int32) Row {
	r := Row{Cost: cost, least: make([]int32, 0, (len(cost)+rowBlock-1)/rowBlock)}
	for x := 0; x < len(cost); x += rowBlock {
		v := Unreachable
		for _, c := range cost[x:min(x+rowBlock, len(cost))] {
			v = min(v, c)
		}
		r.least = append(r.least, v)
	}
	return r
}

// Within is the least of cost[lo..hi], both included; any value up to enough, where
// there is one.
func (r Row) Within(lo, hi, enough int32) int32 {
	v := Unreachable
	for x := lo; x <= hi && v > enough; {
		if x%rowBlock == 0 && x+rowBlock-1 <= hi {
			v = min(v, r.least[x/rowBlock])
			x += rowBlock
			continue
		}
		v = min(v, r.Cost[x])
		x++
	}
	return v
}

// Upward is the first place from x on that costs no more than most, past the end for
// none, and the least of what is passed over.
func (r Row) Upward(x, most int32) (int32, int32) {
	least, n := Unreachable, int32(len(r.Cost))
	for x < n {
		if x%rowBlock == 0 && r.least[x/rowBlock] > most {
			least = min(least, r.least[x/rowBlock])
			x = min(x+rowBlock, n)
			continue
		}
		if r.Cost[x] <= most {
			break
		}
		least = min(least, r.Cost[x])
		x++
	}
	return x, least
}

// Downward is the same toward the beginning, -1 for none.
func (r Row) Downward(x, most int32) (int32, int32) {
	least := Unreachable
	for x >= 0 {
		if (x+1)%rowBlock == 0 && r.least[x/rowBlock] > most {
			least = min(least, r.least[x/rowBlock])
			x -= rowBlock
			continue
		}
		if r.Cost[x] <= most {
			break
		}
		least = min(least, r.Cost[x])
		x--
	}
	return x, least
}
