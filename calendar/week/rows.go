package week

import (
	"slices"
	"sort"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// rowKind tells the kinds of rows of a week table. Their order is the order of
// rows at the same moment: what leaves is at the door first.
type rowKind int

const (
	rowLeaves  rowKind = iota // a target leaves
	rowShare                  // of it: the pieces of one batch
	rowMissing                // of it: the pieces that are short
	rowOrder                  // the last moment to order milk
	rowCollect                // milk is ready to be collected
	rowRound                  // a round
	rowCare                   // of it: the care of one batch
	rowLook                   // a look that was asked for
	rowCarry                  // out of a closed place
	rowWork                   // a piece of work
	rowAnytime                // care that falls due on a day without a round
)

// csvKinds are the kinds' names in CSV.
var csvKinds = [...]string{"leaves", "share", "missing", "order", "collect", "round", "care", "look", "carry", "work", "care"}

// row is one row before it is laid out. Empty fields have nothing to say.
type row struct {
	kind     rowKind
	at       resources.Moment
	who      string
	what     string // the stage, the care, or the target also for its shares
	cheese   string
	batch    string // its id, "stock" for stock
	litres   resources.Millilitres
	pieces   int
	promised int
	minutes  resources.Minutes
	place    string
	boxesTo  string   // the cold place of its boxes; "" for none
	shelves  []string // that they stand on
	boxes    int      // how many they are, of what leaves
	kit      []schedule.Occupied
	earliest resources.Moment // 0 where it is not known or there is none
	latest   resources.Moment // the same
	critical bool
	begun    bool
	overdue  resources.Moment  // since when; 0 for what is not
	because  string            // why pieces are missing
	milk     *schedule.MilkJob // of an order or a collection
	needs    []schedule.Dose   // what goes in
	measures []schedule.Measure
}

// rowsOf gives all rows of a plan, and of the milk that it leads to, by their moments.
func rowsOf(plan *schedule.Plan, milk []schedule.MilkJob, zone *time.Location) []row {
	var blocks [][]row // rows that stay together
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for j := range b.Stages {
			if t := &b.Stages[j]; t.Work > 0 {
				blocks = append(blocks, []row{workRow(plan, b, j)})
			}
		}
	}
	for i := range plan.Rounds {
		blocks = append(blocks, roundRows(plan, &plan.Rounds[i]))
	}
	for i := range plan.Looks {
		blocks = append(blocks, []row{lookRow(plan, &plan.Looks[i])})
	}
	for i := range plan.Carries {
		blocks = append(blocks, []row{carryRow(plan, &plan.Carries[i])})
	}
	for i := range milk {
		blocks = append(blocks, []row{milkRow(&milk[i])})
	}
	blocks = append(blocks, leavingRows(plan)...)
	blocks = append(blocks, loneCare(plan, zone)...)
	sort.SliceStable(blocks, func(i, j int) bool {
		a, b := blocks[i][0], blocks[j][0]
		if a.at != b.at {
			return a.at < b.at
		}
		return a.kind < b.kind
	})
	var rows []row
	for _, b := range blocks {
		rows = append(rows, b...)
	}
	return rows
}

// lookRow is the row of a look that was asked for.
func lookRow(plan *schedule.Plan, l *schedule.Look) row {
	r := row{kind: rowLook, at: l.Start, who: l.Who, what: l.Stage, batch: l.Batch, minutes: l.Minutes}
	if b := plan.Batch(l.Batch); b != nil {
		whereIsIt(&r, plan, b, l.Start)
	}
	return r
}

// carryRow is the row of cheese that is carried out of a closed place.
func carryRow(plan *schedule.Plan, c *schedule.Carry) row {
	r := row{kind: rowCarry, at: c.Start, who: c.Who, what: c.To, batch: c.Batch, minutes: c.Minutes, place: c.From}
	if c.OfStock() {
		s := &plan.Stock[c.Stock]
		r.batch, r.cheese, r.pieces = words.Stock, s.Cheese, s.Pieces
		r.boxesTo, r.shelves = standing(s.BoxesAt)
	} else if b := plan.Batch(c.Batch); b != nil {
		r.cheese, r.pieces = b.Cheese, b.Pieces
		if t := b.Stage(c.Stage); t != nil {
			r.boxesTo, r.shelves = standing(t.BoxesAt)
		}
	}
	return r
}

// workRow is the row of stage i, which has work. Where its boxes go when it is
// done may be told only by a stage after it that has no work of its own. What is carried from
// there later is told by a row of its own.
func workRow(plan *schedule.Plan, b *schedule.Batch, i int) row {
	t := &b.Stages[i]
	place, boxes := plan.StandsAt(b, i, t.Start)
	r := row{kind: rowWork, at: t.Start, who: t.Who, what: t.Stage, cheese: b.Cheese, batch: b.ID,
		litres: b.Litres, pieces: b.Pieces, minutes: t.Work, place: place, kit: t.Uses, begun: t.Begun, overdue: t.Overdue, needs: t.Needs, measures: t.Measures}
	r.boxesTo, r.shelves = standing(boxes)
	for j := i + 1; j < len(b.Stages) && b.Stages[j].Work == 0 && r.boxesTo == "" && b.Stages[j-1].Hold == 0; j++ {
		_, boxes = plan.StandsAt(b, j, b.Stages[j].Start)
		r.boxesTo, r.shelves = standing(boxes)
	}
	if !t.Begun {
		r.earliest, r.latest, r.critical = t.SlipFrom, t.SlipUntil, t.Critical
	}
	return r
}

// standing is the place that boxes stand in, and its shelves, each once.
func standing(boxes []schedule.Standing) (place string, shelves []string) {
	for _, s := range boxes {
		place = s.Place
		if s.Shelf != "" && !slices.Contains(shelves, s.Shelf) {
			shelves = append(shelves, s.Shelf)
		}
	}
	return place, shelves
}

// roundRows are a round and the care that is done in it.
func roundRows(plan *schedule.Plan, block *schedule.RoundBlock) []row {
	rows := []row{{kind: rowRound, at: block.Start, who: block.Who, what: "the round", minutes: block.Minutes}}
	for _, c := range block.Care {
		r := row{kind: rowCare, at: block.Start, who: block.Who, what: c.Do, batch: c.Batch, minutes: c.Hands}
		if b := plan.Batch(c.Batch); b != nil {
			whereIsIt(&r, plan, b, block.Start)
		}
		rows = append(rows, r)
	}
	return rows
}

// whereIsIt fills in a batch's cheese, its pieces and the place where it is at a moment: that
// of the last stage that has begun by then.
func whereIsIt(r *row, plan *schedule.Plan, b *schedule.Batch, m resources.Moment) {
	r.cheese = b.Cheese
	if r.pieces == 0 {
		r.pieces = b.Pieces
	}
	if i := stageAt(b, m); i >= 0 {
		place, boxes := plan.StandsAt(b, i, m)
		r.place = place
		r.boxesTo, r.shelves = standing(boxes)
	}
}

// stageAt is the last stage of a batch that has begun by a moment, else its first; -1 where it has none.
func stageAt(b *schedule.Batch, m resources.Moment) int {
	for i := len(b.Stages) - 1; i > 0; i-- {
		if b.Stages[i].Start < m {
			return i
		}
	}
	return min(0, len(b.Stages)-1)
}

// boxesAt is in how many boxes a batch stands at a moment.
func boxesAt(plan *schedule.Plan, b *schedule.Batch, m resources.Moment) int {
	i := stageAt(b, m)
	if i < 0 {
		return 0
	}
	_, boxes := plan.StandsAt(b, i, m)
	return len(boxes)
}

// leaving names a target of one date.
type leaving struct {
	name string
	by   resources.Moment
}

// sharedBy lists, for each target, in order, which of so many lists of shares give to it.
func sharedBy(n int, shares func(int) []schedule.Share) map[leaving][]int {
	out := map[leaving][]int{}
	for i := range n {
		for _, s := range shares(i) {
			l := leaving{s.Target, s.By}
			if k := len(out[l]); k == 0 || out[l][k-1] != i {
				out[l] = append(out[l], i)
			}
		}
	}
	return out
}

// leavingRows are the targets: each its own row, then what goes with it, then
// what is missing.
func leavingRows(plan *schedule.Plan) [][]row {
	batches := sharedBy(len(plan.Batches), func(i int) []schedule.Share { return plan.Batches[i].For })
	stock := sharedBy(len(plan.Stock), func(i int) []schedule.Share { return plan.Stock[i].For })
	var all []leaving
	wants := map[leaving][]schedule.WantResult{}
	for _, w := range plan.Targets {
		l := leaving{w.Target, w.By}
		if wants[l] == nil {
			all = append(all, l)
		}
		wants[l] = append(wants[l], w)
	}
	var blocks [][]row
	for _, l := range all {
		rows := []row{{kind: rowLeaves, at: l.by, what: l.name}}
		for _, i := range batches[l] {
			b := &plan.Batches[i]
			if r, ok := shareRow(b.For, l.name, l.by); ok {
				r.batch = b.ID
				whereIsIt(&r, plan, b, l.by)
				r.boxes = boxesAt(plan, b, l.by)
				rows = append(rows, r)
			}
		}
		for _, i := range stock[l] {
			st := &plan.Stock[i]
			if r, ok := shareRow(st.For, l.name, l.by); ok {
				r.batch, r.cheese, r.place = words.Stock, st.Cheese, st.At
				r.boxesTo, r.shelves = standing(st.BoxesAt)
				r.boxes = len(st.BoxesAt)
				rows = append(rows, r)
			}
		}
		for _, w := range wants[l] {
			if w.Short > 0 {
				r := row{kind: rowMissing, at: l.by, what: l.name, cheese: w.Cheese, pieces: w.Short, because: w.Because}
				if w.Promised {
					r.promised = w.Short
				}
				rows = append(rows, r)
			}
		}
		blocks = append(blocks, rows)
	}
	return blocks
}

// shareRow adds up what one batch, or one entry of stock, gives to one target.
func shareRow(shares []schedule.Share, target string, by resources.Moment) (row, bool) {
	r := row{kind: rowShare, at: by, what: target}
	for _, s := range shares {
		if s.Target == target && s.By == by {
			r.pieces += s.Pieces
			r.promised += s.Promised
		}
	}
	return r, r.pieces > 0
}

// loneCare is the care that falls due on days on which no round does it. It
// stands at the end of its day.
func loneCare(plan *schedule.Plan, zone *time.Location) [][]row {
	type due struct {
		day       resources.Date
		batch, do string
	}
	done := map[due]bool{}
	for _, block := range plan.Rounds {
		for _, c := range block.Care {
			done[due{block.Start.DateIn(zone), c.Batch, c.Do}] = true
		}
	}
	var blocks [][]row
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for _, c := range b.Care {
			if done[due{c.Day, b.ID, c.Do}] {
				continue
			}
			last := c.Day.Span(zone).Until.Add(-1)
			r := row{kind: rowAnytime, at: last, what: c.Do, batch: b.ID, minutes: c.Hands}
			whereIsIt(&r, plan, b, last)
			blocks = append(blocks, []row{r})
		}
	}
	return blocks
}
