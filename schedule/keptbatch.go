package schedule

import "ripeby/resources"

// KeptBatch is what a kitchen keeps of a batch that has begun, whatever becomes of the plan, of
// its recipe and of every name since. It holds what the plan knew of it; what nobody said is
// marked as assumed. Nothing is planned from it.
type KeptBatch struct {
	Kitchen  string
	TimeZone string
	ID       string
	Lot      string // "" while it has none
	Cheese   string
	Lost     bool
	OffPlan  *MadeOffPlan // nil for a batch that a plan had
	Litres   resources.Millilitres
	Pieces   int         // all that was made
	Spare    int         // of Pieces
	Counted  *Count      // what begun.yaml said that there was of it; nil where it said nothing
	Milk     *KeptMilk   // nil where it named no supply, or what was drawn is not known
	Recipe   *KeptRecipe // as it was; nil where it was never known
	Stages   []KeptStage
	UseBy    resources.Date // the maker's own estimate; zero where it is not known
	For      []KeptShare
	Carries  []KeptCarry // in order; those that are to come last
	Assumed  []string    // of litres, pieces, milk: what nobody said
}

// MadeOffPlan is a batch that was made off the plan, and the line of the record that says so.
type MadeOffPlan struct {
	ID     string
	Cheese string
	Nr     int              // of the line; 0 where it has none
	At     resources.Moment // as the line has it
}

// KeptMilk is the collection that a batch's milk is taken to come from.
type KeptMilk struct {
	Draw
	Day resources.Date // of the collection: the day before Collect, where that is at 24:00
}

// Count is how many pieces there were of a batch at a moment.
type Count struct {
	Pieces int
	At     resources.Moment
}

// Who says that a stage was when a [KeptStage] has it.
const (
	SaidByRecord = "record"
	SaidByBegun  = "begun.yaml"
)

// KeptRecipe is what a recipe said of a batch's cheese.
type KeptRecipe struct {
	Name   string
	Code   string
	Milk   string // a supply by name; "" for milk that is always to hand
	Yield  Yield
	Piece  resources.Milligrams // 0 when not written
	Spare  int
	Keeps  resources.Minutes
	Stages []KeptLimits
}

// KeptLimits is how long the hold of a stage may last, and where: nil where it has none.
type KeptLimits struct {
	Stage string
	Hold  *Hold
	At    string // "room", a cold place, or a range of temperatures as the recipe writes it
}

// KeptStage is one stage: as it went where it has begun, else as it is planned.
type KeptStage struct {
	Stage   string
	Begun   bool
	Start   resources.Moment
	Work    resources.Minutes
	Who     string // "" where there is no work
	Hold    resources.Minutes
	Ends    resources.Moment
	At      string           // "room" or a cold place
	Planned resources.Moment // the start by the last plan before it began; 0 where no plan had it
	Said    string           // by whom, of what has begun; "" for what is assumed
	Uses    []Occupied
	Needs   []Dose

	Measures []Measure
}

// Assumed reports whether a stage counts as begun without anybody having said so.
func (s *KeptStage) Assumed() bool { return s.Begun && s.Said == "" }

// KeptShare is how many pieces of a batch a target was to have by the plan, and what left.
type KeptShare struct {
	Share
	Gone    bool // its moment has come
	Left    int  // pieces that left then; 0 before
	Assumed bool // nobody said so
}

// KeptCarry is when a batch's boxes were carried out of a closed place, or are to be. Nobody says that they
// were: it is assumed.
type KeptCarry struct {
	Stage    string // the one whose boxes stood there
	Start    resources.Moment
	Who      string
	From, To string
}

// Names are those by which the batch is spoken of: its id, and its lot where that is another.
func (b *KeptBatch) Names() []string { return (&Batch{ID: b.ID, Lot: b.Lot}).Names() }

// Stage finds a stage by its name; nil for none, and of no batch.
func (b *KeptBatch) Stage(name string) *KeptStage {
	if b == nil {
		return nil
	}
	for i := range b.Stages {
		if b.Stages[i].Stage == name {
			return &b.Stages[i]
		}
	}
	return nil
}

// Packed is when the packing is over, or will be by the plan; 0 where the batch has no stages.
func (b *KeptBatch) Packed() resources.Moment {
	if len(b.Stages) == 0 {
		return 0
	}
	last := &b.Stages[len(b.Stages)-1]
	return last.Start.Add(last.Work)
}
