package planfile

import (
	"encoding/json"
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// plan restores the whole plan, in the order of the file, so that the first
// fault kept is the first one in it.
func (r *reader) plan(d *document) *schedule.Plan {
	root := trail{}
	if d.Schema != Schema && d.Schema != schemaBefore {
		r.fail(root.key("schema"), fmt.Sprintf("is %q", clip(d.Schema)), fmt.Sprintf("%q", Schema))
		return nil
	}
	p := &schedule.Plan{
		Kitchen:  d.Kitchen,
		TimeZone: r.name(root.key("timezone"), d.TimeZone),
		From:     r.moment(root.key("from"), d.From),
		Outcome:  schedule.Outcome(r.oneOf(root.key("outcome"), d.Outcome, string(schedule.Met), string(schedule.Short))),
		Score:    r.score(root.key("score"), d.Score),
		Proof:    r.proof(root.key("proof"), d.Proof),
	}
	p.Batches = list(root.key("batches"), d.Batches, r.batch)
	p.Stock = list(root.key("stock"), d.Stock, r.stock)
	p.Targets = list(root.key("targets"), d.Targets, r.target)
	placeWants(d.Targets, p.Targets)
	p.Rounds = list(root.key("rounds"), d.Rounds, r.round)
	p.Milk = list(root.key("milk"), d.Milk, r.milkJob)
	p.Changes = list(root.key("changes"), d.Changes, r.change)
	p.Warnings = list(root.key("warnings"), d.Warnings, r.warning)
	p.Cautions = list(root.key("cautions"), d.Cautions, r.caution)
	p.LastNumber = list(root.key("last_number"), d.LastNumber, func(at trail, n numberKeys) schedule.NumberUsed {
		return schedule.NumberUsed{Day: r.name(at.key("day"), n.Day), Last: r.number(at.key("last"), n.Last)}
	})
	p.Looks = list(root.key("looks"), d.Looks, func(at trail, l lookKeys) schedule.Look {
		if l.Asked == "" { // the contract does not ask for it
			l.Asked = l.Start
		}
		return schedule.Look{Batch: r.name(at.key("batch"), l.Batch), Stage: r.name(at.key("stage"), l.Stage), Start: r.moment(at.key("start"), l.Start),
			Minutes: r.minutes(at.key("minutes"), l.Minutes), Who: r.name(at.key("who"), l.Who), Asked: r.moment(at.key("asked"), l.Asked)}
	})
	p.OffPlan = list(root.key("off_plan"), d.OffPlan, func(at trail, o offPlanKeys) schedule.MadeOffPlan {
		return schedule.MadeOffPlan{ID: r.name(at.key("id"), o.ID), Cheese: r.name(at.key("cheese"), o.Cheese), Nr: r.number(at.key("nr"), o.Nr), At: r.moment(at.key("at"), o.At)}
	})
	p.Carries = list(root.key("carries"), d.Carries, r.carry)
	p.BegunAsOf = list(root.key("begun_as_of"), d.BegunAsOf, func(at trail, x begunAsOfKeys) schedule.BegunAsOf {
		return schedule.BegunAsOf{ID: r.name(at.key("id"), x.ID), AsOf: r.moment(at.key("as_of"), x.AsOf), Entry: x.Entry}
	})
	p.Past = list(root.key("past"), d.Past, r.batch)
	p.PastStock = list(root.key("past_stock"), d.PastStock, r.stock)
	p.Used = list(root.key("packets_used"), d.Used, r.used)
	p.MadeOf = r.madeOf(root.key("made_of"), d.MadeOf)
	p.Titles = r.titles(root.key("titles"), d.Titles)
	return p
}

func (r *reader) titles(at trail, t *titlesKeys) (of schedule.Titles) {
	if t == nil {
		return of
	}
	of = schedule.Titles{Named: t.Named, Sequence: r.number(at.key("sequence"), t.Sequence)}
	if t.Revised != "" {
		of.Revised = r.moment(at.key("revised"), t.Revised)
	}
	return of
}

func (r *reader) madeOf(at trail, m *madeOfKeys) *schedule.MadeOf {
	if m == nil {
		return nil
	}
	return &schedule.MadeOf{Entry: r.number(at.key("entry"), m.Entry), Lines: m.Lines,
		Things: list(at.key("things"), m.Things, func(_ trail, x thingKeys) schedule.MadeThing { return schedule.MadeThing(x) }),
		Packed: list(at.key("packed"), m.Packed, func(at trail, x packKeys) schedule.PackedBy {
			return schedule.PackedBy{Target: r.name(at.key("target"), x.Target), By: r.moment(at.key("by"), x.By), Before: r.minutes(at.key("minutes"), x.Minutes)}
		})}
}

func (r *reader) score(at trail, s scoreKeys) schedule.Score {
	return schedule.Score{
		PromisedShort: resources.Money(s.PromisedShort), Late: s.Late, Short: resources.Money(s.Short),
		Batches: r.number(at.key("batches"), s.Batches), Moved: r.number(at.key("moved"), s.Moved), Litres: r.litres(at.key("litres"), s.Litres),
		Bother: s.Bother, MakeStarts: s.MakeStarts,
	}
}

func (r *reader) proof(at trail, p proofKeys) schedule.Proof {
	var known []string
	for _, l := range schedule.Levels() {
		known = append(known, string(l))
	}
	level := r.oneOf(at.key("level"), p.Level, known...)
	return schedule.Proof{Best: p.Best, Level: schedule.Level(level), Bound: r.score(at.key("bound"), p.Bound)}
}

func (r *reader) batch(at trail, b batchKeys) schedule.Batch {
	out := schedule.Batch{
		ID: r.name(at.key("id"), b.ID), Lot: b.Lot, Cheese: r.name(at.key("cheese"), b.Cheese), Begun: b.Begun,
		Litres: r.litres(at.key("litres"), b.Litres),
		Pieces: r.number(at.key("pieces"), b.Pieces), Spare: r.number(at.key("spare"), b.Spare),
		Gone: r.number(at.key("gone"), b.Gone), Made: r.number(at.key("made"), b.Made),
		Left: list(at.key("left"), b.Left, r.left),
	}
	if m, at := b.Milk, at.key("milk"); m != nil {
		out.Milk = &schedule.Draw{Supply: r.name(at.key("supply"), m.Supply), Collect: r.moment(at.key("collect"), m.Collect)}
	}
	if len(b.Stages) == 0 {
		r.fail(at.key("stages"), "is empty or missing", "the stages of the batch")
	}
	out.Stages = list(at.key("stages"), b.Stages, r.stage)
	out.Care = list(at.key("care"), b.Care, func(at trail, c careKeys) schedule.CareDay {
		return schedule.CareDay{Day: r.day(at.key("day"), c.Day), Do: c.Do, Hands: r.minutes(at.key("minutes"), c.Minutes)}
	})
	out.For = list(at.key("for"), b.For, r.share)
	// Where the file does not say what is critical, how far it may slip does.
	out.MarkCritical()
	for i, s := range b.Stages {
		if s.Critical != nil {
			out.Stages[i].Critical = *s.Critical
		}
	}
	return out
}

func (r *reader) stage(at trail, s stageKeys) schedule.Task {
	if s.SlipFrom == "" {
		s.SlipFrom = s.Start
	}
	return schedule.Task{
		Stage: r.name(at.key("stage"), s.Stage), Begun: s.Begun,
		Start: r.moment(at.key("start"), s.Start),
		Work:  r.minutes(at.key("work"), s.Work), Who: orEmpty(s.Who),
		Hold: r.hold(at.key("hold"), s.Hold), Ends: r.moment(at.key("ends"), s.Ends),
		At: r.name(at.key("at"), s.At), Carried: r.known(at.key("carried"), s.Carried), Overdue: r.known(at.key("overdue"), s.Overdue), SlipFrom: r.moment(at.key("slip_from"), s.SlipFrom), SlipUntil: r.moment(at.key("slip_until"), s.SlipUntil),
		Sequence: r.number(at.key("sequence"), s.Sequence), Revised: r.moment(at.key("revised"), s.Revised),
		Revision: r.number(at.key("revision"), s.Revision), RevisedText: r.added(at.key("revised_text"), s.RevisedText),
		StaySequence: r.number(at.key("stay_sequence"), s.StayNumber), StayRevised: r.added(at.key("stay_revised"), orEmpty(s.StayRevised)),
		Uses:    list(at.key("uses"), s.Uses, r.use),
		BoxesAt: list(at.key("boxes_at"), s.BoxesAt, r.standing), Needs: list(at.key("needs"), s.Needs, r.dose),
		Measures: list(at.key("measures"), s.Measures, func(at trail, k measureKeys) schedule.Measure { return r.measure(at, s.Stage, k) }),
	}
}

func (r *reader) use(at trail, u useKeys) schedule.Occupied {
	return schedule.Occupied{Thing: r.name(at.key("thing"), u.Thing), Count: r.number(at.key("count"), u.Count),
		From: r.moment(at.key("from"), u.From), Until: r.moment(at.key("until"), u.Until), CleanUntil: r.moment(at.key("clean_until"), u.CleanUntil)}
}

// standing reads one box; the keys of a counted place's box are all missing but
// its place.
func (r *reader) standing(at trail, s standingKeys) schedule.Standing {
	out := schedule.Standing{Place: r.name(at.key("place"), s.Place), Shelf: s.Shelf}
	cm := func(key string, n *json.Number) resources.Micrometres {
		if n == nil {
			return 0
		}
		return resources.Micrometres(r.decimal(at.key(key), *n, centimetrePlaces))
	}
	out.X, out.Y = cm("x", s.X), cm("y", s.Y)
	out.Width, out.Depth = cm("width", s.Width), cm("depth", s.Depth)
	if s.Layer != nil {
		out.Layer = r.number(at.key("layer"), *s.Layer)
	}
	return out
}

func (r *reader) left(at trail, l leftKeys) schedule.LeftShare {
	return schedule.LeftShare{Target: r.name(at.key("target"), l.Target), By: r.moment(at.key("by"), l.By), Want: r.number(at.key("want"), l.Want),
		Planned: r.number(at.key("planned"), l.Planned), Pieces: r.number(at.key("pieces"), l.Pieces)}
}

func (r *reader) share(at trail, s shareKeys) schedule.Share {
	return schedule.Share{Target: r.name(at.key("target"), s.Target), By: r.moment(at.key("by"), s.By),
		Want: r.number(at.key("want"), s.Want), Pieces: r.number(at.key("pieces"), s.Pieces),
		Promised: r.number(at.key("promised"), s.Promised)}
}

func (r *reader) stock(at trail, s stockKeys) schedule.StockUse {
	return schedule.StockUse{Cheese: r.name(at.key("cheese"), s.Cheese), Pieces: r.number(at.key("pieces"), s.Pieces),
		Packed: r.moment(at.key("packed"), s.Packed), Lot: s.Lot, Left: list(at.key("left"), s.Left, r.left), At: s.At, Written: s.Written, Ends: r.moment(at.key("ends"), s.Ends),
		BoxesAt: list(at.key("boxes_at"), s.BoxesAt, r.standing), For: list(at.key("for"), s.For, r.share),
		Sequence: r.number(at.key("sequence"), s.Number), Revised: r.added(at.key("revised"), orEmpty(s.Revised))}
}

func (r *reader) carry(at trail, k carryKeys) schedule.Carry {
	if k.Since == "" { // the contract does not ask for it
		k.Since = k.Start
	}
	c := schedule.Carry{Stock: -1, Start: r.moment(at.key("start"), k.Start), Minutes: r.minutes(at.key("minutes"), k.Minutes), Who: r.name(at.key("who"), k.Who),
		From: r.name(at.key("from"), k.From), To: r.name(at.key("to"), k.To), Since: r.moment(at.key("since"), k.Since), Stood: list(at.key("stood"), k.Stood, r.standing),
		Sequence: r.number(at.key("sequence"), k.Sequence), Revised: r.added(at.key("revised"), k.Revised)}
	if k.Stock != nil {
		c.Stock = r.number(at.key("stock"), *k.Stock)
	} else {
		c.Batch, c.Stage = r.name(at.key("batch"), k.Batch), r.name(at.key("stage"), k.Stage)
	}
	return c
}

func (r *reader) target(at trail, t targetKeys) schedule.WantResult {
	out := schedule.WantResult{
		Target: r.name(at.key("target"), t.Target), By: r.moment(at.key("by"), t.By),
		Cheese: r.name(at.key("cheese"), t.Cheese), Price: resources.Money(r.count(at.key("price"), t.Price)),
		Promised: t.Promised, Wanted: r.number(at.key("wanted"), t.Wanted),
		Met: r.number(at.key("met"), t.Met), Short: r.number(at.key("short"), t.Short),
		Because:  orEmpty(t.Because),
		Sequence: r.number(at.key("sequence"), t.Sequence), Revised: r.added(at.key("revised"), t.Revised),
	}
	if t.Want != nil {
		out.Want = r.number(at.key("want"), *t.Want)
	}
	return out
}

// placeWants numbers the wants of a file that has no "want" in its targets: they
// stand in the order written, so each is one further than the one before it of
// the same target.
func placeWants(keys []targetKeys, wants []schedule.WantResult) {
	for i := 1; i < len(wants); i++ {
		before := wants[i-1]
		if keys[i].Want == nil && wants[i].Target == before.Target && wants[i].By == before.By {
			wants[i].Want = before.Want + 1
		}
	}
}

func (r *reader) round(at trail, b roundKeys) schedule.RoundBlock {
	return schedule.RoundBlock{Start: r.moment(at.key("start"), b.Start),
		Minutes: r.minutes(at.key("minutes"), b.Minutes), Who: orEmpty(b.Who),
		Care: list(at.key("care"), b.Care, func(at trail, c roundCareKeys) schedule.RoundCare {
			return schedule.RoundCare{Batch: c.Batch, Do: c.Do, Hands: r.minutes(at.key("minutes"), c.Minutes)}
		}),
		Sequence: r.number(at.key("sequence"), b.Sequence), Revised: r.added(at.key("revised"), b.Revised)}
}

func (r *reader) milkJob(at trail, j jobKeys) schedule.MilkJob {
	return schedule.MilkJob{Order: r.oneOf(at.key("do"), j.Do, doOrder, doCollect) == doOrder, At: r.moment(at.key("at"), j.At),
		Supply: r.name(at.key("supply"), j.Supply), Collect: r.moment(at.key("collect"), j.Collect),
		Litres: r.litres(at.key("litres"), j.Litres), Known: r.litres(at.key("known"), j.Known), By: schedule.KnownBy(j.By), Assumed: j.Assumed,
		Draws: list(at.key("draws"), j.Draws, func(at trail, d drawKeys) schedule.MilkDraw {
			return schedule.MilkDraw{Batch: r.name(at.key("batch"), d.Batch), Cheese: r.name(at.key("cheese"), d.Cheese), Litres: r.litres(at.key("litres"), d.Litres)}
		}), Sequence: r.number(at.key("sequence"), j.Sequence), Revised: r.added(at.key("revised"), j.Revised)}
}

func (r *reader) warning(at trail, n noteKeys) schedule.Warning {
	out := schedule.Warning{Code: n.Code, Text: n.Text}
	out.At = r.known(at.key("at"), n.At)
	return out
}

func (r *reader) change(at trail, c changeKeys) schedule.Change {
	return schedule.Change{Batch: r.name(at.key("batch"), c.Batch), Stage: c.Stage, Was: r.known(at.key("was"), c.Was),
		Now: r.known(at.key("now"), c.Now), WasWho: orEmpty(c.WasWho), NowWho: orEmpty(c.NowWho), Because: c.Because}
}

// known reads a moment that there may not be: 0 is none.
func (r *reader) known(at trail, m *string) resources.Moment {
	if m == nil {
		return 0
	}
	return r.moment(at, *m)
}

func (r *reader) caution(_ trail, c cautionKeys) schedule.Caution {
	return schedule.Caution{Code: c.Code, Cheese: c.Cheese, Stage: orEmpty(c.Stage), Text: c.Text}
}

func orEmpty(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

// list maps a list together with the place of each item; an empty one becomes
// nil.
func list[A, B any](at trail, items []A, f func(trail, A) B) []B {
	if len(items) == 0 {
		return nil
	}
	out := make([]B, len(items))
	for i, item := range items {
		out[i] = f(at.item(i), item)
	}
	return out
}
