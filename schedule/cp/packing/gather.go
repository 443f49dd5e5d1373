package packing

import "ripeby/schedule/cp/problem"

// gather moves the boxes of each stay that share spots into as few of the spots that it has as can
// be: what was found is any way of standing.
//
//	found      │ A │     │ A │     │ A │        gathered   │ A │
//	           │ B │     └───┘     └───┘                   │ A │     │ A │
//	           └───┘                                       │ B │     └───┘
func (f *standSearch) gather(places [][]problem.Standing) {
	for i := range places {
		if f.list[i].Known != nil {
			continue
		}
		for to := 0; to < len(places[i]); to++ {
			for from := len(places[i]) - 1; from > to; from-- {
				n := min(places[i][from].Boxes, f.spare(places, i, &places[i][to]))
				places[i][to].Boxes += n
				if places[i][from].Boxes -= n; places[i][from].Boxes == 0 {
					places[i] = append(places[i][:from], places[i][from+1:]...)
				}
			}
		}
	}
}

// spare is how many more boxes of a stay a spot of its takes for all its time; none where it is not
// shared, for such a spot is full.
func (f *standSearch) spare(places [][]problem.Standing, i int, at *problem.Standing) int {
	s, kind, floor := &f.list[i], &f.m.Kinds[f.list[i].Kind], &f.m.Spaces[f.space].Floors[at.Floor]
	if !kind.Shares(floor) {
		return 0
	}
	most := 0
	for o := range f.list {
		now := max(f.list[o].From, s.From)
		if now >= min(f.list[o].Until, s.Until) {
			continue
		}
		n := 0
		for x := range f.list {
			if f.list[x].From <= now && now < f.list[x].Until && f.list[x].Kind == s.Kind {
				n += boxesIn(places[x], at.Floor, at.Place)
			}
		}
		most = max(most, n)
	}
	return max(0, int(kind.High(floor))-most)
}
