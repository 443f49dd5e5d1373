package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Encode writes the plan as plan.json: indented by two spaces, ending in a
// newline, moments at the offset that zone has at that moment. Equal plans give
// equal bytes. A moment outside the years 1 to 9999 cannot be written and is an
// error.
func Encode(plan *schedule.Plan, zone *time.Location) ([]byte, error) {
	w := writer{zone: zone}
	doc := w.document(plan)
	if w.err != nil {
		return nil, w.err
	}
	return written(doc, "plan.json")
}

// written is a file of keys: indented, with names as the maker wrote them.
func written(keys any, what string) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(keys); err != nil {
		return nil, fmt.Errorf("%s cannot be written: %w", what, err)
	}
	return out.Bytes(), nil
}

// writer turns the trade's types into keys; it keeps the first error.
type writer struct {
	zone *time.Location
	err  error
}

func (w *writer) document(p *schedule.Plan) document {
	return document{
		Schema: Schema, Kitchen: p.Kitchen, TimeZone: p.TimeZone,
		From: w.moment(p.From), Outcome: string(p.Outcome),
		Score: scoreOf(p.Score),
		Proof: proofKeys{Best: p.Proof.Best, Level: string(p.Proof.Level), Bound: scoreOf(p.Proof.Bound)},

		Batches:  each(p.Batches, w.batch),
		Stock:    each(p.Stock, w.stock),
		Targets:  each(p.Targets, w.target),
		Rounds:   each(p.Rounds, w.round),
		Milk:     each(p.Milk, w.milkJob),
		Changes:  each(p.Changes, w.change),
		Warnings: each(p.Warnings, w.warning),
		Cautions: each(p.Cautions, func(c schedule.Caution) cautionKeys {
			return cautionKeys{Code: c.Code, Cheese: c.Cheese, Stage: orNull(c.Stage), Text: c.Text}
		}),
		LastNumber: each(p.LastNumber, func(n schedule.NumberUsed) numberKeys {
			return numberKeys{Day: n.Day, Last: n.Last}
		}),
		Looks: each(p.Looks, func(l schedule.Look) lookKeys {
			return lookKeys{Batch: l.Batch, Stage: l.Stage, Start: w.moment(l.Start), Minutes: int64(l.Minutes), Who: l.Who, Asked: w.moment(l.Asked)}
		}),
		OffPlan: each(p.OffPlan, func(o schedule.MadeOffPlan) offPlanKeys {
			return offPlanKeys{ID: o.ID, Cheese: o.Cheese, Nr: o.Nr, At: w.moment(o.At)}
		}),
		Carries: each(p.Carries, w.carry),
		BegunAsOf: each(p.BegunAsOf, func(x schedule.BegunAsOf) begunAsOfKeys {
			return begunAsOfKeys{ID: x.ID, AsOf: w.moment(x.AsOf), Entry: x.Entry}
		}),
		MadeOf: w.madeOf(p.MadeOf), Titles: w.titles(p.Titles),
		Past: each(p.Past, w.batch), PastStock: each(p.PastStock, w.stock),
		Used: each(p.Used, w.used),
	}
}

func (w *writer) titles(t schedule.Titles) *titlesKeys {
	if t == (schedule.Titles{}) {
		return nil
	}
	keys := &titlesKeys{Named: t.Named, Sequence: t.Sequence}
	if t.Revised != 0 {
		keys.Revised = w.moment(t.Revised)
	}
	return keys
}

func (w *writer) madeOf(m *schedule.MadeOf) *madeOfKeys {
	if m == nil {
		return nil
	}
	return &madeOfKeys{Entry: m.Entry, Lines: m.Lines,
		Things: each(m.Things, func(x schedule.MadeThing) thingKeys { return thingKeys(x) }),
		Packed: each(m.Packed, func(x schedule.PackedBy) packKeys {
			return packKeys{Target: x.Target, By: w.moment(x.By), Minutes: int64(x.Before)}
		})}
}

func scoreOf(s schedule.Score) scoreKeys {
	return scoreKeys{
		PromisedShort: int64(s.PromisedShort), Late: s.Late, Short: int64(s.Short),
		Batches: s.Batches, Moved: s.Moved, Litres: decimalOf(int64(s.Litres), litrePlaces),
		Bother: s.Bother, MakeStarts: s.MakeStarts,
	}
}

func (w *writer) batch(b schedule.Batch) batchKeys {
	k := batchKeys{
		ID: b.ID, Lot: b.Lot, Cheese: b.Cheese, Begun: b.Begun,
		Litres: decimalOf(int64(b.Litres), litrePlaces), Pieces: b.Pieces, Spare: b.Spare, Gone: b.Gone, Made: b.Made, Left: each(b.Left, w.left),
		Stages: each(b.Stages, w.stage),
		Care: each(b.Care, func(c schedule.CareDay) careKeys {
			return careKeys{Day: dayText(c.Day), Do: c.Do, Minutes: int64(c.Hands)}
		}),
		For: each(b.For, w.share),
	}
	if b.Milk != nil {
		k.Milk = &milkKeys{Supply: b.Milk.Supply, Collect: w.moment(b.Milk.Collect)}
	}
	return k
}

func (w *writer) stage(t schedule.Task) stageKeys {
	return stageKeys{
		Stage: t.Stage, Begun: t.Begun, Start: w.moment(t.Start),
		Work: int64(t.Work), Who: orNull(t.Who), Hold: int64(t.Hold), Ends: w.moment(t.Ends),
		At: t.At, Carried: w.known(t.Carried), Overdue: w.known(t.Overdue), SlipFrom: w.moment(t.SlipFrom), SlipUntil: w.moment(t.SlipUntil), Critical: &t.Critical, Sequence: t.Sequence, Revised: w.moment(t.Revised),
		Revision: t.Revision, RevisedText: w.moment(t.RevisedText),
		StayNumber: t.StaySequence, StayRevised: w.known(t.StayRevised),
		Uses:    each(t.Uses, w.use),
		BoxesAt: each(t.BoxesAt, standing), Needs: each(t.Needs, dose), Measures: each(t.Measures, measure),
	}
}

func (w *writer) use(o schedule.Occupied) useKeys {
	return useKeys{Thing: o.Thing, Count: o.Count, From: w.moment(o.From), Until: w.moment(o.Until), CleanUntil: w.moment(o.CleanUntil)}
}

// standing leaves out what a counted place does not know: it has no shelf, so
// its boxes have no layer.
func standing(s schedule.Standing) standingKeys {
	if s.Shelf == "" && s.Layer == 0 {
		return standingKeys{Place: s.Place}
	}
	cm := func(m resources.Micrometres) *json.Number {
		n := decimalOf(int64(m), centimetrePlaces)
		return &n
	}
	return standingKeys{Place: s.Place, Shelf: s.Shelf, X: cm(s.X), Y: cm(s.Y),
		Width: cm(s.Width), Depth: cm(s.Depth), Layer: &s.Layer}
}

func (w *writer) share(s schedule.Share) shareKeys {
	return shareKeys{Target: s.Target, By: w.moment(s.By), Want: s.Want, Pieces: s.Pieces, Promised: s.Promised}
}

func (w *writer) left(l schedule.LeftShare) leftKeys {
	return leftKeys{Target: l.Target, By: w.moment(l.By), Want: l.Want, Planned: l.Planned, Pieces: l.Pieces}
}

func (w *writer) stock(s schedule.StockUse) stockKeys {
	return stockKeys{Cheese: s.Cheese, Pieces: s.Pieces, Packed: w.moment(s.Packed), Lot: s.Lot, Left: each(s.Left, w.left), At: s.At, Written: s.Written,
		Ends: w.moment(s.Ends), BoxesAt: each(s.BoxesAt, standing), For: each(s.For, w.share),
		Number: s.Sequence, Revised: w.known(s.Revised)}
}

func (w *writer) carry(c schedule.Carry) carryKeys {
	k := carryKeys{Batch: c.Batch, Stage: c.Stage, Start: w.moment(c.Start), Minutes: int64(c.Minutes), Who: c.Who, From: c.From, To: c.To, Since: w.moment(c.Since),
		Stood: each(c.Stood, standing), Sequence: c.Sequence, Revised: w.moment(c.Revised)}
	if c.OfStock() {
		k.Stock = &c.Stock
	}
	return k
}

func (w *writer) target(t schedule.WantResult) targetKeys {
	return targetKeys{Target: t.Target, By: w.moment(t.By), Want: &t.Want, Cheese: t.Cheese,
		Price: int64(t.Price), Promised: t.Promised, Wanted: t.Wanted, Met: t.Met, Short: t.Short,
		Because: orNull(t.Because), Sequence: t.Sequence, Revised: w.moment(t.Revised)}
}

func (w *writer) round(r schedule.RoundBlock) roundKeys {
	return roundKeys{Start: w.moment(r.Start), Minutes: int64(r.Minutes), Who: orNull(r.Who),
		Care: each(r.Care, func(c schedule.RoundCare) roundCareKeys {
			return roundCareKeys{Batch: c.Batch, Do: c.Do, Minutes: int64(c.Hands)}
		}), Sequence: r.Sequence, Revised: w.moment(r.Revised)}
}

func (w *writer) milkJob(j schedule.MilkJob) jobKeys {
	do := doCollect
	if j.Order {
		do = doOrder
	}
	return jobKeys{Do: do, At: w.moment(j.At), Supply: j.Supply, Collect: w.moment(j.Collect),
		Litres: decimalOf(int64(j.Litres), litrePlaces), Known: decimalOf(int64(j.Known), litrePlaces), By: string(j.By), Assumed: j.Assumed,
		Draws: each(j.Draws, func(d schedule.MilkDraw) drawKeys {
			return drawKeys{Batch: d.Batch, Cheese: d.Cheese, Litres: decimalOf(int64(d.Litres), litrePlaces)}
		}), Sequence: j.Sequence, Revised: w.moment(j.Revised)}
}

func (w *writer) warning(n schedule.Warning) noteKeys {
	return noteKeys{Code: n.Code, Text: n.Text, At: w.known(n.At)}
}

func (w *writer) change(c schedule.Change) changeKeys {
	return changeKeys{Batch: c.Batch, Stage: c.Stage, Was: w.known(c.Was), Now: w.known(c.Now),
		WasWho: orNull(c.WasWho), NowWho: orNull(c.NowWho), Because: c.Because}
}

// known writes a moment that there may not be: 0 is none.
func (w *writer) known(m resources.Moment) *string {
	if m == 0 {
		return nil
	}
	text := w.moment(m)
	return &text
}

// moment writes RFC 3339. An offset that is no whole number of minutes cannot be
// written in it; such a moment (local mean time, before 1972) is written in UTC.
func (w *writer) moment(m resources.Moment) string {
	t := m.In(w.zone)
	if _, offset := t.Zone(); offset%60 != 0 {
		t = t.UTC()
	}
	if y := t.Year(); (y < 1 || y > 9999) && w.err == nil {
		w.err = fmt.Errorf("plan.json cannot hold the year %d: moments are written for the years 1 to 9999", y)
	}
	return t.Format(time.RFC3339)
}

func dayText(d resources.Date) string {
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// each maps a list; an empty one becomes [] and not null.
func each[A, B any](list []A, f func(A) B) []B {
	out := make([]B, 0, len(list))
	for _, a := range list {
		out = append(out, f(a))
	}
	return out
}
