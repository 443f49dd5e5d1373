package problem

// Cost is a plan's parts in the order in which they count, each to be small. Stuck comes
// before them all: what can be carried on is never left for the sake of anything else.
type Cost struct {
	Stuck         int64 // jobs under way that are left where they are
	PromisedShort int64
	Late          int64 // of the lags of jobs under way
	Short         int64
	Jobs          int64
	Moved         int64 // pieces of work in the settled time that are not as an earlier plan told
	Amount        int64
	Penalty       int64
	Early         int64 // sum over jobs of -(first start), so that late starts are small
}

// The parts of a cost, by their place.
const (
	PartStuck = iota
	PartPromised
	PartLate
	PartShort
	PartJobs
	PartMoved
	PartAmount
	PartPenalty
	PartEarly

	CostParts // how many there are
)

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

// Parts is the parts in order.
func (c Cost) Parts() [CostParts]int64 {
	return [CostParts]int64{c.Stuck, c.PromisedShort, c.Late, c.Short, c.Jobs, c.Moved, c.Amount, c.Penalty, c.Early}
}

// ServesAs reports whether all parts before the penalty are those of o.
func (c Cost) ServesAs(o Cost) bool {
	c.Penalty, c.Early, o.Penalty, o.Early = 0, 0, 0, 0
	return c == o
}

// Part is one of the parts, by its place, to be changed.
func (c *Cost) Part(i int) *int64 {
	return [...]*int64{&c.Stuck, &c.PromisedShort, &c.Late, &c.Short, &c.Jobs, &c.Moved, &c.Amount, &c.Penalty, &c.Early}[i]
}

// Part is the part in which what is short of a demand counts.
func (d *Demand) Part() int {
	if d.Promised {
		return PartPromised
	}
	return PartShort
}

// Plus adds part by part.
func (c Cost) Plus(o Cost) Cost {
	return Cost{c.Stuck + o.Stuck, c.PromisedShort + o.PromisedShort, c.Late + o.Late, c.Short + o.Short,
		c.Jobs + o.Jobs, c.Moved + o.Moved, c.Amount + o.Amount, c.Penalty + o.Penalty, c.Early + o.Early}
}
