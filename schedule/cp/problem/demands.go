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
