package note

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// Task is all that a calendar says about one piece of work and nothing that
// it does not say. The text of an event is made from it alone, and [Revise]
// compares it with the earlier plan's: so an event is revised exactly when
// something that people see has changed.
type Task struct {
	TimeZone      string
	Batch, Cheese string
	Stage         string
	First         bool // the batch's first piece of work
	Litres        resources.Millilitres
	Pieces, Spare int
	Start         resources.Moment
	Work          resources.Minutes
	Who, At       string
	Boxes         []ShelfCount     // where the boxes go when the work is done
	Begun         bool             // it has begun: SlipUntil is not told
	Overdue       resources.Moment // when it was to begin, if that is over; 0 if not
	SlipUntil     resources.Moment // Start when it cannot slip
	Critical      bool             // no later, or a target breaks
	Milk          *schedule.Draw   // told with the first piece of work
	Take, Clean   []KitCount       // what to fetch, and what to wash afterwards
	Then          []Rest           // the holds that follow until somebody is needed again
	For           []ForTarget      // told with the last piece of work
	Needs         []schedule.Dose  // what goes in; nil where nothing does
	Measures      []string         // what is to be written down, with the recipe's limits
}

// Rest is one hold after a piece of work: its own, or that of a later stage which
// has no work of its own.
type Rest struct {
	Stage string
	Hold  resources.Minutes
	Ends  resources.Moment
	At    string
	Boxes []ShelfCount
}

// ForTarget is how much of a batch goes to one target, over all its wants.
type ForTarget struct {
	Target           string
	By               resources.Moment
	Pieces, Promised int
}

// KitCount is so many of one thing.
type KitCount struct {
	Thing string
	Count int
}

// ShelfCount is so many boxes on one shelf; Shelf is "" in a counted place.
type ShelfCount struct {
	Place, Shelf string
	Boxes        int
}

// OfTask gives the note of stage i of the batch. The batch is one of the plan's. A stage
// without work has a note too, though a calendar does not show it.
func OfTask(plan *schedule.Plan, b *schedule.Batch, i int) Task {
	t := &b.Stages[i]
	n := Task{
		TimeZone: plan.TimeZone, Batch: b.ID, Cheese: b.Cheese, Stage: t.Stage,
		Litres: b.Litres, Pieces: b.Pieces, Spare: b.Spare,
		Start: t.Start, Work: t.Work, Who: t.Who, At: t.At,
		Boxes: shelves(t.BoxesAt), Begun: t.Begun,
		First: !anyWork(b.Stages[:i]), Overdue: t.Overdue,
	}
	if !t.Begun {
		n.SlipUntil, n.Critical = max(t.Start, t.SlipUntil), t.Critical
	}
	next := i + 1
	for next < len(b.Stages) && b.Stages[next].Work == 0 {
		next++
	}
	for _, f := range b.Stages[i:next] {
		n.Take = addKit(n.Take, f.Uses)
		if f.Hold > 0 {
			n.Then = append(n.Then, Rest{f.Stage, f.Hold, f.Ends, f.At, shelves(f.BoxesAt)})
		}
	}
	if len(t.Needs) > 0 { // an empty list is no change
		n.Needs = t.Needs
	}
	for k := range t.Measures {
		n.Measures = append(n.Measures, measured.Line(&t.Measures[k]))
	}
	n.Clean = released(b, t.Start.Add(t.Work))
	if n.First && b.Milk != nil {
		milk := *b.Milk
		n.Milk = &milk
	}
	if next == len(b.Stages) {
		n.For = byTarget(b.For)
	}
	return n
}

// anyWork reports whether one of the stages needs hands.
func anyWork(stages []schedule.Task) bool {
	for _, t := range stages {
		if t.Work > 0 {
			return true
		}
	}
	return false
}

// addKit appends what the runs that begin here take.
func addKit(kit []KitCount, runs []schedule.Occupied) []KitCount {
	for _, u := range runs {
		kit = append(kit, KitCount{u.Thing, u.Count})
	}
	return kit
}

// released gives the kit of the batch whose occupation ends at the moment.
func released(b *schedule.Batch, at resources.Moment) []KitCount {
	var kit []KitCount
	for _, t := range b.Stages {
		for _, u := range t.Uses {
			if u.Until == at {
				kit = append(kit, KitCount{u.Thing, u.Count})
			}
		}
	}
	return kit
}

// shelves counts boxes by shelf, in the order in which the shelves first appear.
func shelves(boxes []schedule.Standing) []ShelfCount {
	var counts []ShelfCount
next:
	for _, b := range boxes {
		for i := range counts {
			if counts[i].Place == b.Place && counts[i].Shelf == b.Shelf {
				counts[i].Boxes++
				continue next
			}
		}
		counts = append(counts, ShelfCount{b.Place, b.Shelf, 1})
	}
	return counts
}

// byTarget adds up shares by target, in the order in which the targets first
// appear.
func byTarget(shares []schedule.Share) []ForTarget {
	var sums []ForTarget
next:
	for _, s := range shares {
		for i := range sums {
			if sums[i].Target == s.Target && sums[i].By == s.By {
				sums[i].Pieces += s.Pieces
				sums[i].Promised += s.Promised
				continue next
			}
		}
		sums = append(sums, ForTarget{s.Target, s.By, s.Pieces, s.Promised})
	}
	return sums
}
