package problem

import "slices"

// Infinite is a time or capacity that is never reached.
const Infinite = 1 << 40

// Nowhere is the limit of what cannot stand at all; times may be negative.
const Nowhere = -Infinite

// Model is one problem. Times are ticks from an origin of the caller's choice;
// planned starts are multiples of Step. Ends of occupations may be any tick.
type Model struct {
	Step    int // ticks between two possible starts, at least 1
	From    int // no planned activity starts before it
	Horizon int // nothing planned ends after it, but for what has begun

	Workers  []Worker
	Pools    []Pool
	Spaces   []Space
	Kinds    []Kind
	Intakes  []Intake
	Families []Family
	Demands  []Demand
	Stocks   []Stock
	Begun    []Begun
	Kept     []Kept
	Hints    []Hint

	Settled int // for so long from From on work that is not as an earlier plan told counts; 0: none ever does

	// DayStarts are the moments, sorted, at which days begin: a worker's hours are a
	// reason day by day. Empty: all of them are one day.
	DayStarts []int

	// FitFloor answers whether footprints stand together at one moment; see [FloorFit].
	FitFloor FloorFit
}

// Span is half-open: From is in it, Until is not.
type Span struct{ From, Until int }

// Worker does one piece of work at a time, each wholly inside one window.
type Worker struct {
	Windows []Span // sorted, apart
	Avoid   []Span // sorted, apart; work in it costs one point per AvoidUnit ticks
	Days    []Day  // sorted, apart; empty: no limits
	Many    bool   // does any number of pieces of work at once: one that is not there
}

// AvoidUnit is the whole number of ticks of one piece of work in avoided time that cost one point.
const AvoidUnit = 5

// Day limits the work that starts in [From, Until) to Limit ticks.
type Day struct {
	From, Until, Limit int
}

// Pool is Capacity like units.
type Pool struct {
	Capacity int
}

// Rect is a footprint's or floor's two sides.
type Rect struct{ W, D int64 }

// Placed is where a footprint stands on its floor.
type Placed struct{ X, Y, W, D int64 }

// FloorFit finds places for boxes on a floor beside those fixed, which may
// overlap one another; ok is false when there are none or none was found.
type FloorFit func(floor Rect, fixed []Placed, boxes []Rect) (places []Placed, ok bool)

// Space is somewhere boxes stand: on Floors, or, when there are none, as a count
// up to Capacity.
type Space struct {
	Floors   []Floor
	Capacity int
	Closed   []Span
}

// Floor is one level surface with a height above it.
type Floor struct {
	Size   Rect
	Height int64
	Closed []Span
}

// Kind is a kind of box; Height 0 with sides 0 means not measured.
type Kind struct {
	Size   Rect
	Height int64
	Stack  Stacking
}

// Intake is an amount that becomes ready at once: a job drawing on it starts in
// [Ready, Until].
type Intake struct {
	Supply int // families draw on a supply
	Ready  int
	Until  int
	Amount int64 // Infinite for no limit
}

// Family is a chain that can be run many times. Keeps is how long after the end
// of its last work a unit may still be delivered; the end of the last lag is the
// last delivery.
type Family struct {
	Modes  []Mode
	Keeps  int
	Supply int // intake supply of the first activity, -1 for none
	Serves int // least units on demands, unless one of them is promised
}

// Mode is one size of a family's chain.
type Mode struct {
	Amount int64 // what [Cost.Amount] counts, and what is drawn from an intake
	Units  int   // at most so many go to demands
	Acts   []Activity
	Runs   []Run
	Stays  []Stay
}

// Activity is Work by one of Workers (none needed when Work is 0), then a lag.
type Activity struct {
	Work    int // a multiple of Step
	Workers []int
	Lag     Lag
}

// Never is the cost of a lag that cannot be, for lengths between Least and Most
// that no way of waiting gives.
const Never int32 = 1 << 28

// Lag is the wait after the work: Cost[l-Least] for a lag of l ticks. The last
// activity's lag ends with the last delivery; it has limits but costs nothing.
type Lag struct {
	Least, Most int
	Cost        []int32
	// Late is, likewise, how late a lag is that runs past its time, as the cost's part
	// counts it; nil for never. InTime is the longest lag that does not, where any does.
	Late   []int32
	InTime int
	// Past tells of a lag beyond Most, for what has begun: [Model.Within] lets it go on so far.
	// Nil: never beyond.
	Past *Beyond
	// Slip gives how short and how long a lag made of several parts can become when all
	// but its last part stay as they are in a lag of this length; nil: from Least to Most.
	Slip func(lag int) (least, most int)
	// Turns are what it is by when it begins; none: the same at any time. See [Lag.At].
	Turns []Turn
}

// Beyond gives how late a lag of so many ticks, more than its most, is and what it costs, neither
// less than a shorter one's. Lags that have one in common go on alike.
type Beyond struct {
	Of func(lag int) (late, cost int32)
}

// Run occupies Amount units of one of the pools in Choices from the start of
// activity First until the work of activity Last+1 is done (or the last delivery,
// when Last is the last activity), then Clean more ticks.
type Run struct {
	First, Last int
	Amount      int
	Choices     []PoolChoice
}

// PoolChoice is one pool that a run may use and the cleaning after it.
type PoolChoice struct {
	Pool, Clean int
}

// Stay puts Boxes boxes of a kind in one of Spaces from the end of the work of
// activity First until the start of activity Last+1 (or the last delivery).
type Stay struct {
	First, Last int
	Kind        int
	Boxes       int
	Spaces      []int
}

// Demand wants Units of a family delivered at Due, ready Ahead before it.
type Demand struct {
	Family   int
	Due      int
	Ahead    int
	Units    int
	Value    int64 // of one unit
	Promised bool
}

// Stock is units that were ready at Ready and may serve demands while they keep.
// Boxes of it stand in Space (-1 for none) and occupy Pool (-1 for none), from the
// planning start or, where that is later, from Since on. Boxes that are expected somewhere,
// and keep their place free, are stock of no units.
type Stock struct {
	Family int
	Ready  int
	Units  int
	Space  int
	Kind   int
	Boxes  int
	Pool   int
	Clean  int
	Prefer []Standing // where they stood before
	Keep   int        // leaves then when nothing of it is delivered
	Since  int
}

// Stands is from when the boxes of a stock stand where they do.
func (m *Model) Stands(stock int) int { return max(m.From, m.Stocks[stock].Since) }

// Begun is a job under way. Its Mode is its own: lags that are running may have
// been bent to what is known. The first len(Starts) activities have begun, at
// any tick; runs and stays with First among them have begun too.
type Begun struct {
	Family  int
	Mode    Mode
	Starts  []int
	Workers []int      // of the begun activities, -1 for none
	Choices []int      // of each run that has begun; others are ignored
	Homes   []int      // space of each stay that has begun; -1 and others are ignored
	Latest  []int      // latest start of each activity, of those to come; nil for no limit
	Left    *Begun     // what it was, of one that is left where it is for good; see [Begun.Held]
	NoWay   bool       // it could not go on even with the kitchen to itself
	Prefer  []Standing // where the boxes of the running stay stood
	Told    []Told     // of each activity, nothing of those that have begun; nil for nothing
}

// Standing is one stack of a stay: Boxes boxes on a floor of a space, in a spot that boxes of other
// stays may share.
type Standing struct {
	Space, Floor int
	Place        Placed
	Boxes        int
}

// Hint is a job of an earlier plan, worth trying again as it was. For a job
// under way Begun is its number and Starts are of all its activities; for stock
// only Stock and Shares count. Begun and Stock are -1 where they do not apply.
type Hint struct {
	Family, Begun, Stock int
	Shares               []Share
	Starts               []int
	Stood                [][]Standing // where the boxes of each stay stood
	Exact                *Exact       // nil where not all of it is known
	Stuck                bool         // one under way that the plan left where it was
	Kept                 *Kept        // which of [Model.Kept] it is, nil for none
}

// Exact is the rest of what there is to know of an earlier job: with it the job can be
// put back as it was.
type Exact struct {
	Mode    int   // -1 for a job under way
	Workers []int // of each activity, -1 where there is no work
	Choices []int // of each run
	Spaces  []int // of each stay
	Intake  int   // -1 for none
}

// Fits reports whether each person, pool and space is one that the mode may have, of which so
// many activities have begun.
func (e *Exact) Fits(mode *Mode, begun int) bool {
	if len(e.Workers) != len(mode.Acts) || len(e.Choices) != len(mode.Runs) || len(e.Spaces) != len(mode.Stays) {
		return false
	}
	for r := range mode.Runs {
		if mode.Runs[r].First >= begun && (e.Choices[r] < 0 || e.Choices[r] >= len(mode.Runs[r].Choices)) {
			return false
		}
	}
	for r := range mode.Stays {
		if mode.Stays[r].First >= begun && !slices.Contains(mode.Stays[r].Spaces, e.Spaces[r]) {
			return false
		}
	}
	return true
}
