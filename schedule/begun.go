package schedule

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"ripeby/resources"
)

// Begun is a batch under way, as begun.yaml tells it.
type Begun struct {
	ID     string
	Cheese string
	Litres resources.Millilitres
	Stages []BegunStage // the stages that have begun, in the recipe's order
	Pieces int          // what is left of it; -1: all that was made
	Pot    string       // "" where there is no choice
	At     string       // cold place of the running stage; "" where there is no choice
}

// BegunStage is the moment at which a stage began. It may lie off the grid.
type BegunStage struct {
	Stage string
	Start resources.Moment
}

// BegunAsOf says of one entry of begun.yaml as of when it holds.
type BegunAsOf struct {
	ID    string           // of the batch; [StockEntry] for an entry of stock
	AsOf  resources.Moment // by then it stood so
	Entry string           // what the entry said, in short: another text is another entry
}

// StockEntry is the ID of an entry of stock, which has no name.
const StockEntry = "stock"

// InShort names what an entry says: the same for the same, another for anything else.
func (b *Begun) InShort() string { return asPlansKnow(*b) }

// InShort names what an entry says: the same for the same, another for anything else.
func (s *Stock) InShort() string {
	entry := struct {
		Cheese string
		Pieces int
		Packed resources.Moment
		At     string
		Boxes  int
	}{s.Cheese, s.Pieces, s.Packed, s.WrittenAt(), s.Boxes}
	if s.Lot == "" { // as plans knew it before there were lots of stock
		return asPlansKnow(entry)
	}
	return asPlansKnow([]any{entry, s.Lot})
}

// WrittenAt is where the entry has it.
func (s *Stock) WrittenAt() string {
	if s.Written != "" {
		return s.Written
	}
	return s.At
}

// asPlansKnow is [InShort] of an entry of begun.yaml, in the way in which plans have always known it: in
// another, every entry would be read as a new one.
func asPlansKnow(entry any) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%+v", entry))
	return hex.EncodeToString(sum[:8])
}

// Stock is packed cheese in the kitchen.
type Stock struct {
	Cheese  string
	Pieces  int
	Packed  resources.Moment
	At      string      // cold place where it stands
	Written string      // where the entry has it, "" where that is At
	Boxes   int         // of the kind that the recipe packs into
	Lot     string      // "" where it has none
	Left    []LeftShare // what has left of it since it was written
}

// Ordered is milk that has been ordered: usable after its order moment too. It is all
// that comes that day, what stands included; 0 says that none has been ordered.
type Ordered struct {
	Milk   string
	Day    resources.Date
	Litres resources.Millilitres
}

// Came is milk that has come, whatever was ordered of it or stands; 0 says that none came.
type Came struct {
	Milk   string
	Day    resources.Date
	Litres resources.Millilitres
}
