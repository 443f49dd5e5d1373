package problem

// Delivery names the slots of one last delivery.
type Delivery struct{ Family, Due int }

// DuesOf are the moments at which a family is owed, sorted.
func DuesOf(m *Model, family int) []int {
	var out []int
	for d := range m.Demands {
		if m.Demands[d].Family == family && m.Demands[d].Units > 0 {
			out = append(out, m.Demands[d].Due)
		}
	}
	return distinct(out)
}

// Dues are the moments at which anything is due, sorted.
func Dues(m *Model) []int {
	var out []int
	for d := range m.Demands {
		out = append(out, m.Demands[d].Due)
	}
	return distinct(out)
}

// StockServes reports whether stock keeps until a demand is due.
func (m *Model) StockServes(i, d int) bool {
	st, dm := &m.Stocks[i], &m.Demands[d]
	return st.Ready <= dm.Due-dm.Ahead && dm.Due <= st.Ready+m.Families[st.Family].Keeps
}

// FreeUnits is what stock and jobs under way of a family can give.
func (m *Model) FreeUnits(family int) int {
	n := 0
	for i := range m.Stocks {
		if m.Stocks[i].Family == family {
			n += m.Stocks[i].Units
		}
	}
	for b := range m.Begun {
		if m.Begun[b].Family == family {
			n += m.Begun[b].Mode.Units
		}
	}
	return n
}

// JobsFor gives, for every beginning of a row of units, the least number of jobs
// that serve all of it but free ones: each serves up to most, due within keeps.
func JobsFor(dues []int, keeps, most, free int) []int {
	free = min(free, len(dues))
	none := len(dues) + 1
	// best[u][x]: units before u are served, x of them by free ones.
	best := make([][]int, len(dues)+1)
	for u := range best {
		best[u] = make([]int, free+1)
		for x := range best[u] {
			best[u][x] = none
		}
	}
	best[0][0] = 0
	out := make([]int, len(dues))
	for u := range dues {
		for x := range best[u] {
			v := best[u][x]
			if v == none {
				continue
			}
			if x < free {
				best[u+1][x+1] = min(best[u+1][x+1], v)
			}
			for n := 1; n <= most && u+n <= len(dues) && dues[u+n-1]-dues[u] <= keeps; n++ {
				best[u+n][x] = min(best[u+n][x], v+1)
			}
		}
		out[u] = none
		for _, v := range best[u+1] {
			out[u] = min(out[u], v)
		}
	}
	return out
}
