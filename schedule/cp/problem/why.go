package problem

// ReasonKind tells what is known of a demand that is short.
type ReasonKind int

// What can be known.
const (
	ReasonOpen     ReasonKind = iota // nothing: more work might find a plan
	ReasonNoMode                     // no mode can be made with what there is
	ReasonTime                       // the chain is longer than the time that is left
	ReasonFacts                      // facts forbid it
	ReasonProved                     // the proof of the plan forbids it; which facts do is not known
	ReasonUnpriced                   // a unit of it is worth nothing, and nothing else is known to be in its way
	ReasonMoments                    // as ReasonFacts, and the pools among them are full at so many moments
)

// Reason is why a demand is short. Of ReasonFacts and ReasonMoments each set by itself, whatever the other
// facts were, forbids that the demand gets one unit more while those named get no less
// than they do.
type Reason struct {
	Demand int
	Kind   ReasonKind
	Sets   []FactSet
	Enough bool // with all facts of all sets lifted and every other kept there is such a plan
	Least  int  // ReasonTime: ticks that the chain takes at the least
	Left   int  // and the ticks that there are
	Times  int  // ReasonMoments: moments, at one of which every job for it and the others holds the pools
}

// FactSet is facts that forbid something together, in order.
type FactSet struct {
	Facts []Fact
	Least bool // without any one of them the rest does not forbid it
}
