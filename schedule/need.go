package schedule

import "ripeby/resources"

// NeedPer says by what a need grows.
type NeedPer int

// The ways in which a need is written.
const (
	PerBatch NeedPer = iota // fixed: the same whatever the batch
	PerLitre
	PerPiece
	PerCurd // a share of the curd's weight, in %
)

// Need is what a recipe puts in at a stage: so much per litre of milk, per piece, per batch or of the curd's weight.
// How much is the maker's own to say; only the scaling is the program's.
type Need struct {
	What, Stage string
	Per         NeedPer
	Amount      resources.Amount
	// Strength is what the amount goes by: of what is written in IMCU how many IMCU there are in a mL; of what is
	// written in mL for which strength it is meant. Zero where nothing is said.
	Strength resources.Strength
}

// Dose is how much of something goes into one batch at one stage.
type Dose struct {
	What string
	// Amount is exact to a millionth of Unit, in millionths. In "%" it is a share of the curd, whose weight nobody
	// has said yet.
	Amount int64
	Unit   string
	// Rounded is what the kitchen's scale, spoons or syringe can show, in millionths of Unit; 0 where that is less than
	// the least of it.
	Rounded  int64
	Strength string // for which it is: "200 IMCU/mL"; "" where that plays no part
	Lot      string // of the packet that is open, or was said; "" for none
}

// Unweighed reports whether a dose waits for the weight of the curd.
func (d *Dose) Unweighed() bool { return d.Unit == resources.Percent }

// Taken is what is really taken, in millionths of the unit: as rounded, and where that is nothing all of it.
func (d *Dose) Taken() int64 {
	if d.Rounded == 0 {
		return d.Amount
	}
	return d.Rounded
}

// Packet is a packet or bottle that was opened. It is used for all that needs it from then on, until the next one of
// the kind is opened.
type Packet struct {
	What     string
	From     resources.Moment
	Lot      string             // "" where nobody said
	UseBy    resources.Date     // zero where nobody said
	Strength resources.Strength // likewise
	Holds    resources.Amount   // likewise
}

// LotUsed is a lot that was said to have gone into a batch, whatever packet was open.
type LotUsed struct{ Batch, What, Lot string } // Batch is an id or a lot

// CurdWeight is what all of a batch was said to weigh at a moment.
type CurdWeight struct {
	Batch string // its id or its lot
	At    resources.Moment
	Is    resources.Milligrams
	With  string // the stage that it was said with, as begun or done; "" for none
}

// PacketUsed is how much of a packet went into batches of which the plan knows no more.
type PacketUsed struct {
	What   string
	From   resources.Moment // when it was opened
	Amount int64            // in millionths of Unit
	Unit   string
}
