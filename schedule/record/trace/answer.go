package trace

import "ripeby/schedule/record"

// Answer is what is known of one word.
type Answer struct {
	Asked string // as it was asked
	Kind  Kind
	// Batches are those of a name: one, unless a damaged folder has two of it.
	Batches []*Batch
	// Collections are those of a day, or of a milk supply.
	Collections []*Collection
	// Packets are those asked about, or opened on a day.
	Packets []*PacketOpened
	// Made are the batches made on a day.
	Made []Neighbour
	// Passed is what left on a day, for a target or a business, or of all that was made of some milk or
	// had of a packet.
	Passed []Passed
	// Balances say what became of each of these batches.
	Balances []Balanced
	// Loose are entries of what left that is of no batch that is known, such as stock.
	Loose record.Entries
	// Entries are all about a target, a business or a supply, struck ones too.
	Entries record.Entries
}

// Kind is what a word was understood as.
type Kind string

// The kinds of words.
const (
	OfBatch    Kind = "batch"
	OfDay      Kind = "day"
	OfMilk     Kind = "milk"
	OfPacket   Kind = "packet"
	OfTarget   Kind = "target"
	OfBusiness Kind = "business"
)

// Passed is what left of a batch.
type Passed struct {
	Batch Neighbour
	Leaving
}

// Balanced is what became of the pieces of a batch.
type Balanced struct {
	Batch Neighbour
	Balance
}
