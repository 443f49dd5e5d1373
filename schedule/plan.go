package schedule

import "ripeby/resources"

// Plan answers a [Problem]. Its fields are those of plan.json, which
// schedule/planfile writes and reads.
type Plan struct {
	Kitchen  string
	TimeZone string
	From     resources.Moment
	Outcome  Outcome
	Score    Score
	Proof    Proof
	Batches  []Batch
	Stock    []StockUse
	// Past are packed batches, and PastStock entries of stock, that still keep and of which nothing is
	// left to sell: unless somebody says that not all of it left.
	Past      []Batch
	PastStock []StockUse

	Targets  []WantResult
	Rounds   []RoundBlock
	Looks    []Look    // that were asked for
	Carries  []Carry   // out of closed places: batches by id, then stock as it is listed
	Milk     []MilkJob // as it was numbered when the plan was put in force
	Titles   Titles
	Changes  []Change // what is otherwise than the earlier plan told
	Warnings []Warning
	Cautions []Caution
	// BegunAsOf says of each entry of begun.yaml as of when it holds.
	BegunAsOf []BegunAsOf
	// OffPlan are all batches that were ever made off the plan, those too that are over: what the
	// record says of their make is said once for all.
	OffPlan []MadeOffPlan
	MadeOf  *MadeOf // nil where that is not told
	// Used is what batches that are no longer in the plan took of packets that are open.
	Used []PacketUsed
	// LastNumber holds, for each "code-yymmdd" ever given out, the highest number
	// used, so that an id is never used again. Sorted by Day.
	LastNumber []NumberUsed
}

// Titles says what the titles of events tell in the calendar for everything, which is where the work of
// several people stands side by side.
type Titles struct {
	Named    bool             // who does it
	Sequence int              // how often that has become otherwise
	Revised  resources.Moment // when it last did; 0 for never
}

// Outcome says whether every target is met.
type Outcome string

// The outcomes of a plan.
const (
	Met   Outcome = "met"
	Short Outcome = "short"
)

// Batch is one run of a recipe.
type Batch struct {
	ID     string
	Lot    string // what stands on its label; "" until the make is known to have begun
	Cheese string
	Litres resources.Millilitres
	Pieces int // all that is made, or what is left of a begun batch
	Spare  int
	Gone   int         // pieces that left for targets before the planning start
	Made   int         // how many pieces there were at first, where some were counted or lost since; else 0
	Left   []LeftShare // for which targets
	Begun  bool
	Milk   *Draw // nil when the recipe names no supply, or what was drawn is not known
	Stages []Task
	Care   []CareDay
	For    []Share
}

// Draw is the collection that a batch's milk comes from.
type Draw struct {
	Supply  string
	Collect resources.Moment
}

// Task is one stage of a batch, dated: Work minutes by Who from Start, then Hold
// minutes; Ends is Start+Work+Hold, which is when the next stage starts.
type Task struct {
	Stage string
	Start resources.Moment
	Work  resources.Minutes
	Who   string // "" where there is no work
	Hold  resources.Minutes
	Ends  resources.Moment
	At    string // "room" or a cold place
	// Carried is when its boxes were last carried to At out of a closed place, by an earlier plan; 0
	// for never.
	Carried resources.Moment
	Begun   bool // has happened: exactly as it was
	// Overdue is when it was to begin by the plan that first had it, and by now has not; 0 for what is not
	// overdue: see [Problem.MarkOverdue].
	Overdue resources.Moment
	// SlipFrom and SlipUntil are the earliest and the latest start with every other
	// batch and this batch's earlier stages as planned, its later stages free to move;
	// Start for what has begun.
	SlipFrom, SlipUntil resources.Moment
	// Critical marks what may not be late at all: see [Batch.MarkCritical].
	Critical bool
	// Sequence counts how often start, end or place changed from plan to plan;
	// Revised is the From of the plan that last changed one of them.
	Sequence int
	Revised  resources.Moment
	// Revision and RevisedText are the same for everything that a calendar says
	// about the stage, its text included; RevisedText only ever moves forward. These
	// and all further numbers of a plan are given when it is put in force, by
	// calendar/note.
	Revision    int
	RevisedText resources.Moment
	// StaySequence and StayRevised are the same for what a calendar says about the
	// stay in the cold that begins with this stage; 0 where none does.
	StaySequence int
	StayRevised  resources.Moment
	Uses         []Occupied
	BoxesAt      []Standing
	Needs        []Dose    // what goes in; given when the plan is put in force, by schedule/dose
	Measures     []Measure // what to write down; likewise, by schedule/measured
}

// Occupied is the whole occupation of one thing by a run of stages; it stands at
// the first stage of the run.
type Occupied struct {
	Thing       string
	Count       int
	From, Until resources.Moment
	CleanUntil  resources.Moment
}

// Standing is where one box stands during a stage's hold: the corner nearest the
// shelf's left front, and the sides as the box stands. In a counted place only
// Place is set and Layer is 0.
type Standing struct {
	Place        string
	Shelf        string
	X, Y         resources.Micrometres
	Width, Depth resources.Micrometres
	Layer        int // from 1
}

// CareDay is care that falls due on a local day.
type CareDay struct {
	Day   resources.Date
	Do    string
	Hands resources.Minutes
}

// Share is how many pieces of a batch or of stock go to one want of a target.
type Share struct {
	Target   string
	By       resources.Moment
	Want     int // place of the want in its target, from 0
	Pieces   int
	Promised int // how many of Pieces are promised ones
}

// StockUse is one entry of stock and what becomes of it.
type StockUse struct {
	Cheese  string
	Pieces  int
	Packed  resources.Moment
	Lot     string // "" where it has none
	Left    []LeftShare
	At      string
	Written string // where begun.yaml has it, "" where that is At: what was carried since is elsewhere
	Ends    resources.Moment
	BoxesAt []Standing
	For     []Share
	// Sequence counts how often what a calendar says about its stay in the cold
	// changed from plan to plan, and Revised is when it last did; entries of one
	// cheese and packing share both. Both are 0 where it is not in the cold.
	Sequence int
	Revised  resources.Moment
}

// WantResult is one want of one target and how far it is met.
type WantResult struct {
	Target   string
	By       resources.Moment
	Want     int
	Cheese   string
	Price    resources.Money
	Promised bool
	Wanted   int
	Met      int
	Short    int
	Because  string // "" when nothing is short
	// Sequence counts how often what a calendar says about the whole target
	// changed from plan to plan, and Revised is when it last did; the wants of one
	// target share both.
	Sequence int
	Revised  resources.Moment
}

// RoundBlock is the round of one day.
type RoundBlock struct {
	Start   resources.Moment
	Minutes resources.Minutes
	Who     string
	Care    []RoundCare
	// Sequence counts how often what a calendar says about the day's round changed
	// from plan to plan, and Revised is when it last did.
	Sequence int
	Revised  resources.Moment
}

// RoundCare is the care of one batch that is done in a round.
type RoundCare struct {
	Batch string
	Do    string
	Hands resources.Minutes
}

// Warning is something that the maker should know about the plan. Code is stable
// ("round-too-short"), Text is for people.
type Warning struct {
	Code string
	Text string
	At   resources.Moment // 0 when it belongs to no moment
}

// WarnTargetPast is the code of a target that was due before the planning start.
const WarnTargetPast = "target-past"

// Caution is a usual food-safety caution that applies to a cheese, or to one of
// its stages when Stage is not "".
type Caution struct {
	Code   string
	Cheese string
	Stage  string
	Text   string
}

// NumberUsed is the highest number given to a batch of one code on one day.
type NumberUsed struct {
	Day  string // "BH-270316"
	Last int
}
