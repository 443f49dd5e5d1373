package cp

import (
	"sort"

	"ripeby/schedule/cp/global"
)

// addStarts keeps a start at moments at which one of its workers can do the work.
func (k *asked) addStarts(sl *slot, i int) {
	ways := make([]global.Way, max(len(sl.who[i]), 1))
	for w := range ways {
		ways[w].If = k.yes
		if len(sl.who[i]) > 0 {
			ways[w].If = sl.who[i][w]
		}
		for _, z := range sl.chains.sizes {
			var set []global.Range
			if z.lo != nil {
				row := z.any[i]
				if len(z.own[i]) > 0 {
					row = z.own[i][w]
				}
				for x, v := range row {
					if v >= unreachable {
						continue
					}
					t := z.lo[i] + int32(x)
					if n := len(set); n > 0 && set[n-1].To == t-1 {
						set[n-1].To = t
						continue
					}
					set = append(set, global.Range{From: t, To: t})
				}
			}
			ways[w].Sets = append(ways[w].Sets, set)
		}
	}
	nest(ways)
	global.AddAllowed(k.k, sl.start[i], sl.size, ways, sl.present())
}

// nest makes every size's set hold that of the next one too: a start that only a
// larger size has is let in, and found out by the chain.
func nest(ways []global.Way) {
	for w := range ways {
		sets := ways[w].Sets
		for k := len(sets) - 2; k >= 0; k-- {
			sets[k] = union(sets[k], sets[k+1])
		}
	}
}

// union joins two sorted lists of ranges.
func union(a, b []global.Range) []global.Range {
	all := append(append([]global.Range(nil), a...), b...)
	sort.Slice(all, func(i, k int) bool { return all[i].From < all[k].From })
	n := 0
	for _, r := range all {
		if n > 0 && r.From <= all[n-1].To+1 {
			all[n-1].To = max(all[n-1].To, r.To)
			continue
		}
		all[n] = r
		n++
	}
	return all[:n]
}
