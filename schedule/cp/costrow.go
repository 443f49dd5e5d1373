package cp

// costRow is a cost for every start of an activity, with the least of every few
// neighbours, by which most of a row is passed over unseen.
type costRow struct {
	cost  []int32
	least []int32 // of cost[k*rowBlock : (k+1)*rowBlock]
}

const rowBlock = 32

func newCostRow(cost []int32) costRow {
	r := costRow{cost: cost, least: make([]int32, 0, (len(cost)+rowBlock-1)/rowBlock)}
	for x := 0; x < len(cost); x += rowBlock {
		v := unreachable
		for _, c := range cost[x:min(x+rowBlock, len(cost))] {
			v = min(v, c)
		}
		r.least = append(r.least, v)
	}
	return r
}

// within is the least of cost[lo..hi], both included; any value up to enough, where
// there is one.
func (r costRow) within(lo, hi, enough int32) int32 {
	v := unreachable
	for x := lo; x <= hi && v > enough; {
		if x%rowBlock == 0 && x+rowBlock-1 <= hi {
			v = min(v, r.least[x/rowBlock])
			x += rowBlock
			continue
		}
		v = min(v, r.cost[x])
		x++
	}
	return v
}

// upward is the first place from x on that costs no more than most, past the end for
// none, and the least of what is passed over.
func (r costRow) upward(x, most int32) (int32, int32) {
	least, n := unreachable, int32(len(r.cost))
	for x < n {
		if x%rowBlock == 0 && r.least[x/rowBlock] > most {
			least = min(least, r.least[x/rowBlock])
			x = min(x+rowBlock, n)
			continue
		}
		if r.cost[x] <= most {
			break
		}
		least = min(least, r.cost[x])
		x++
	}
	return x, least
}

// downward is the same toward the beginning, -1 for none.
func (r costRow) downward(x, most int32) (int32, int32) {
	least := unreachable
	for x >= 0 {
		if (x+1)%rowBlock == 0 && r.least[x/rowBlock] > most {
			least = min(least, r.least[x/rowBlock])
			x -= rowBlock
			continue
		}
		if r.cost[x] <= most {
			break
		}
		least = min(least, r.cost[x])
		x--
	}
	return x, least
}
