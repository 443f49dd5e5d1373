package record

import (
	"reflect"

	"ripeby/resources"
)

// Entry is one line of the record: what somebody said of one subject.
type Entry struct {
	Nr      int                    // 0 where the line has none, as one written by hand
	At      resources.Moment       // when it happened
	Written Said[resources.Moment] // when it was put down, where that is said
	Who     string                 // who did it; "" where nobody is named
	Note    string                 // up to MaxNote characters
	Once    string                 // the opaque word of the phone that sent it
	Strikes []int                  // the numbers that it takes back

	Subject Subject // zero where the entry is only a note or only strikes
	// Facts of the subject; those of other kinds are zero.
	Batch  BatchFacts // of OfBatch and OfCheese
	Milk   MilkFacts
	Target TargetFacts
	Place  PlaceFacts
	Person PersonFacts
	Round  RoundFacts
	Packet PacketFacts

	File string // below the folder, "record/2027-03.yaml"; "" where it was not read
	Line int    // from 1
}

// PlansNothing reports whether an entry is only a note, or only what was measured: no plan goes by it.
func (e *Entry) PlansNothing() bool {
	facts := Entry{Strikes: e.Strikes, Batch: e.Batch, Milk: e.Milk, Target: e.Target, Place: e.Place, Person: e.Person, Round: e.Round, Packet: e.Packet}
	facts.Batch.Measured, facts.Milk.Measured, facts.Place.Measured = nil, nil, nil
	return reflect.DeepEqual(facts, Entry{})
}

// MaxNote is how many characters a note may have.
const MaxNote = 2000

// Kind tells what an entry is about.
type Kind int

// The kinds of subjects. Nothing is what a note alone, or a strike alone, is about.
const (
	Nothing Kind = iota
	OfBatch
	OfCheese
	OfMilk
	OfTarget
	OfPlace
	OfPerson
	OfRound
	OfPacket
)

// Subject is what an entry is about. Which fields are set goes by Kind:
//
//	OfBatch   Name, an id or a lot
//	OfCheese  Name of the cheese: a batch made off the plan
//	OfMilk    Name of the supply, Day of the collection
//	OfTarget  Name as in targets.yaml, Day where it repeats, Cheese
//	OfPlace   Name, Shelf where only one is meant; [Room] for the make room
//	OfPerson  Name
//	OfRound   Day
//	OfPacket  Name, of what is in the packet
type Subject struct {
	Kind   Kind
	Name   string
	Day    resources.Date // zero where none is said
	Cheese string
	Shelf  string
}

// Full is the name of a target, with its date where it repeats.
func (s Subject) Full() string {
	if s.HasDay() {
		return s.Name + " " + s.Day.String()
	}
	return s.Name
}

// HasDay reports whether a day was said.
func (s Subject) HasDay() bool { return s.Day != resources.Date{} }

// Room is how the make room is called among places: what is measured there may be said, and nothing else.
const Room = "room"
