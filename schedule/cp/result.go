package cp

// Cost is a plan's six parts in the order in which they count, each to be small.
type Cost struct {
	PromisedShort int64
	Short         int64
	Jobs          int64
	Amount        int64
	Bother        int64
	Early         int64 // sum over jobs of -(first start), so that late starts are small
}

// costParts is how many parts a cost has.
const costParts = 6

// Less reports whether c is better than o.
func (c Cost) Less(o Cost) bool { return c.compare(o) < 0 }

func (c Cost) compare(o Cost) int {
	a, b := c.parts(), o.parts()
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

func (c Cost) parts() [costParts]int64 {
	return [costParts]int64{c.PromisedShort, c.Short, c.Jobs, c.Amount, c.Bother, c.Early}
}

// servesAs reports whether the first four parts are those of o.
func (c Cost) servesAs(o Cost) bool {
	c.Bother, c.Early, o.Bother, o.Early = 0, 0, 0, 0
	return c == o
}

// part is one of the parts, from 0, to be changed.
func (c *Cost) part(i int) *int64 {
	return [...]*int64{&c.PromisedShort, &c.Short, &c.Jobs, &c.Amount, &c.Bother, &c.Early}[i]
}

// Plus adds part by part.
func (c Cost) Plus(o Cost) Cost {
	return Cost{c.PromisedShort + o.PromisedShort, c.Short + o.Short, c.Jobs + o.Jobs,
		c.Amount + o.Amount, c.Bother + o.Bother, c.Early + o.Early}
}

// Share is units of a job or of stock that go to one demand.
type Share struct {
	Demand, Units int
}

// Job is one placed run of a family.
type Job struct {
	Family int
	Mode   int // index into the family's modes; -1 for a begun job
	Begun  int // index into Model.Begun, -1 for a new job
	Shares []Share

	Starts  []int // of each activity
	Workers []int // -1 where there is no work
	Choices []int // of each run
	Stays   []StayPlace
	Intake  int // -1 for none
	Ready   int // end of the last activity's work
	End     int // last delivery
	Bother  int64
	Late    int // ticks by which the running lag of a begun job went beyond its most
	Stuck   bool
	// Slips are the latest starts of each activity with every other job as it is
	// and this job's later activities free to move.
	Slips []int
	// Soonest are the earliest starts in the same sense.
	Soonest []int
	// Shown are the jobs that show this for each activity: what this one becomes when
	// it starts at Soonest, and at Slips; nil where that is its start.
	Shown [][2]*Job
	// SlipsCut is set when the work allowed did not tell all of them to the end: some
	// activity may slip further than is said.
	SlipsCut bool
}

// StayPlace is where the boxes of one stay stand.
type StayPlace struct {
	Space    int
	Stacks   []Standing // none in a counted space
	Homeless bool       // boxes of a begun job that stand nowhere by the measures given
}

// StockPlan is what becomes of one stock.
type StockPlan struct {
	Shares []Share
	End    int
	Place  StayPlace
}

// Result is the best plan found and what is known about it.
type Result struct {
	Jobs    []Job // begun ones first, in the model's order
	Stocks  []StockPlan
	Short   []int // units short of each demand
	Cost    Cost
	Bound   Cost // no plan is better in a part, given Cost's earlier parts
	Spent   int64
	Reasons []Reason // for every demand that is short, in order
	// Stopped is set when the context ended the search before its budget did.
	Stopped bool
}
