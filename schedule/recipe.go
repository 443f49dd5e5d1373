package schedule

import (
	"fmt"
	"slices"

	"ripeby/resources"
)

// Recipe is one cheese.
type Recipe struct {
	Name   string
	Code   string // for lot numbers
	Milk   string // a supply by name; "" for milk that is always to hand
	Yield  Yield
	Piece  resources.Milligrams // 0 when not written
	Spare  int                  // pieces a batch keeps for tasting and breakage
	Batch  BatchSize
	Mould  string // the recipe's own mould; "" for none
	Box    *Boxing
	Keeps  resources.Minutes // from packing until it must have left
	Stages []Stage
	Needs  []Need          `json:",omitempty"` // what goes in; no start and no person goes by it
	Cost   resources.Money `json:"-"`          // of a piece, to make it; 0 when not written. No plan goes by it
	Label  Label           `json:"-"`          // no part of what a plan is made from: [InShort] passes it over

	Measures []Measure `json:"-"` // what to write down; likewise
}

// LotDay is what the batches made on a day are numbered under: "BH-270316".
func (r *Recipe) LotDay(day resources.Date) string {
	return fmt.Sprintf("%s-%02d%02d%02d", r.Code, day.Year%100, int(day.Month), day.Day)
}

// StageNumber is the place of a stage in Stages, -1 for none.
func (r *Recipe) StageNumber(name string) int {
	return slices.IndexFunc(r.Stages, func(s Stage) bool { return s.Name == name })
}

// Yield is how many pieces come from how much milk.
type Yield struct {
	Pieces int
	From   resources.Millilitres
}

// BatchSize says which sizes a batch may have: Least, Least+Step, … up to Most.
// Serves is the least number of its pieces that must have a target.
type BatchSize struct {
	Least, Most, Step resources.Millilitres
	Serves            int
}

// Boxing is a kind of box and how many pieces one of them takes.
type Boxing struct {
	Name  string
	Takes int
}

// Stage is hands-on work, then a hold; either may be absent.
type Stage struct {
	Name  string
	Hands *Hands // nil when the stage has no work
	Hold  *Hold  // nil when none is written
	At    At
	Uses  []Use
	Fresh []UseKind // a new run starts here for these (UseMould or UseBox, UsePot, UseStation)
	Box   *Boxing   // another kind of box from this stage on; nil for the recipe's own
	Care  *Care
	Who   []string // nil: anybody
}

// Hands is the length of a piece of work: Fixed + PerLitre x litres + PerPiece x
// pieces, rounded up to the grid.
type Hands struct {
	Fixed, PerLitre, PerPiece resources.Rate
}

// Hold is the wait after a stage's work. Best is where the cheese is best; it
// counts only when HasBest.
type Hold struct {
	Least, Best, Most resources.Minutes
	HasBest           bool
	AsIs              bool // Least is to the minute: it is not rounded up to the grid

	Ready  resources.Minutes `json:",omitempty"` // the median time until it is really ready; 0 when not written
	GoesBy GoesBy            `json:",omitzero"`  // zero when not written
	Varies resources.Factor  `json:",omitempty"` // how much one batch scatters about Ready; 0 when not written
}

// GoesBy is how a hold goes by the make room: what it says is for a room as warm as Temperature, and
// takes Times as long in this kitchen.
type GoesBy struct {
	Temperature resources.MilliCelsius
	Times       resources.Factor
}

// AtKind tells the three ways of saying where a stage is.
type AtKind int

// The ways of saying where a stage is.
const (
	AtRoom  AtKind = iota // the make room
	AtPlace               // a cold place by name
	AtRange               // any one cold place whose temperature lies in Low…High
)

// At is where a stage's hold is.
type At struct {
	Kind      AtKind
	Place     string
	Low, High resources.MilliCelsius
}

// UseKind tells what a stage occupies.
type UseKind int

// The kinds of kit that a stage can occupy.
const (
	UsePot     UseKind = iota // any pot large enough (Name ""), or the pot named
	UseMould                  // the recipe's mould, one a piece
	UseBox                    // the stage's box if it names one, else the recipe's
	UseStation                // a station by name
)

// Use is one thing that a stage occupies. Name is set for UseStation and for a
// pot asked for by name.
type Use struct {
	Kind UseKind
	Name string
}

// Care falls due every Every whole local days after the hold began.
type Care struct {
	Do    string
	Every int // days
	Hands resources.Minutes
}
