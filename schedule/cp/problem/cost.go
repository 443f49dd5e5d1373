package problem

// Cost is a plan's six parts in the order in which they count, each to be small.
type Cost struct {
	PromisedShort int64
	Short         int64
	Jobs          int64
	Amount        int64
	Penalty       int64
	Early         int64 // sum over jobs of -(first start), so that late starts are small
}

// CostParts is how many parts a cost has.
const CostParts = 6

// Less reports whether c is better than o.
func (c Cost) Less(o Cost) bool { return c.compare(o) < 0 }

func (c Cost) compare(o Cost) int {
	a, b := c.Parts(), o.Parts()
	for i := range a {
		if a[i] < b[i] {
			return -1
		}
		if a[i] > b[i] {
			return 1
		}
	}
	return 0
}

// Parts is the six parts in order.
func (c Cost) Parts() [CostParts]int64 {
	return [CostParts]int64{c.PromisedShort, c.Short, c.Jobs, c.Amount, c.Penalty, c.Early}
}

// ServesAs reports whether the first four parts are those of o.
func (c Cost) ServesAs(o Cost) bool {
	c.Penalty, c.Early, o.Penalty, o.Early = 0, 0, 0, 0
	return c == o
}

// Part is one of the parts, from 0, to be changed.
func (c *Cost) Part(i int) *int64 {
	return [...]*int64{&c.PromisedShort, &c.Short, &c.Jobs, &c.Amount, &c.Penalty, &c.Early}[i]
}

// Plus adds part by part.
func (c Cost) Plus(o Cost) Cost {
	return Cost{c.PromisedShort + o.PromisedShort, c.Short + o.Short, c.Jobs + o.Jobs,
		c.Amount + o.Amount, c.Penalty + o.Penalty, c.Early + o.Early}
}
