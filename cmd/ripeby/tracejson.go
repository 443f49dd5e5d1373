package main

import (
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// traceJSON is the answer for a program. Keys are only ever added.
type traceJSON struct {
	Schema  string            `json:"schema"`
	Answers []traceAnswerJSON `json:"answers"`
}

type traceAnswerJSON struct {
	Asked       string                `json:"asked"`
	Kind        trace.Kind            `json:"kind"`
	Batches     []traceBatchJSON      `json:"batches"`
	Collections []traceCollectionJSON `json:"collections"`
	Packets     []traceOpenedJSON     `json:"packets"`
	Made        []traceNeighbourJSON  `json:"made"`
	Left        []traceLeftJSON       `json:"left"`
	Pieces      []traceBalancedJSON   `json:"pieces"`
	Entries     []traceEntryJSON      `json:"entries"`
}

// traceBalancedJSON is what became of the pieces of one batch of several.
type traceBalancedJSON struct {
	Batch traceNeighbourJSON `json:"batch"`
	traceBalanceJSON
}

// tracePacketJSON is a packet that a batch had of.
type tracePacketJSON struct {
	What  string      `json:"what"`
	Lot   *string     `json:"lot"`
	Known trace.Known `json:"known"`
	Stage *string     `json:"stage"` // at which its recipe had it go in; null where it did not say
}

// traceOpenedJSON is a packet, and the batches that had of it.
type traceOpenedJSON struct {
	What    string         `json:"what"`
	Lot     *string        `json:"lot"`
	Opened  *string        `json:"opened"`
	UseBy   *string        `json:"use_by"`
	Batches []traceUseJSON `json:"batches"`
	// Beside were made while it was open, by recipes that say what goes in, but not this. Unsaid is no packet,
	// but what recipes had go in while none was open.
	Beside []traceNeighbourJSON `json:"made_beside"`
	Unsaid bool                 `json:"no_packet"`
}

type traceUseJSON struct {
	Batch traceNeighbourJSON `json:"batch"`
	Known trace.Known        `json:"known"` // that it had of the packet
	Stage *string            `json:"stage"` // as of the packet
}

type traceNeighbourJSON struct {
	Lot    *string     `json:"lot"`
	ID     *string     `json:"id"`
	Cheese string      `json:"cheese"`
	Made   *string     `json:"made"`
	Known  trace.Known `json:"known"`
}

type traceBatchJSON struct {
	traceNeighbourJSON
	Lost     bool                 `json:"lost"`
	UseBy    *string              `json:"use_by"`
	Milk     *traceCollectionJSON `json:"milk"`
	Packets  []tracePacketJSON    `json:"packets"`
	Stages   []traceStageJSON     `json:"stages"`
	Measured []traceMeasuredJSON  `json:"measured,omitempty"`
	Carries  []traceCarryJSON     `json:"carries,omitempty"`
	Left     []traceLeftJSON      `json:"left"`
	Pieces   traceBalanceJSON     `json:"pieces"`
	Before   []traceNeighbourJSON `json:"before"`
	After    []traceNeighbourJSON `json:"after"`
	Entries  []traceEntryJSON     `json:"entries"`
}

// traceMeasuredJSON is a measure of the recipe and what was written down of it; outside is "" for what lies inside its
// limits, and for what is compared with nothing.
type traceMeasuredJSON struct {
	Stage string             `json:"stage"`
	What  string             `json:"what"`
	From  string             `json:"from,omitempty"`
	To    string             `json:"to,omitempty"`
	Said  []traceReadingJSON `json:"said"`
}

type traceReadingJSON struct {
	Is      string  `json:"is"`
	At      *string `json:"at"`
	Who     *string `json:"who"`
	Outside string  `json:"outside,omitempty"`
}

type traceCollectionJSON struct {
	Supply  string               `json:"supply"`
	Day     string               `json:"day"`
	Known   trace.Known          `json:"known,omitempty"`
	Lots    []string             `json:"lots"`
	Batches []traceNeighbourJSON `json:"batches"`
	Entries []traceEntryJSON     `json:"entries"`
	CameML  *int64               `json:"came_ml"`
	UsedML  int64                `json:"used_ml"`
}

// traceCarryJSON is cheese carried out of a closed place, as it was planned.
type traceCarryJSON struct {
	Stage   string  `json:"stage"`
	Planned *string `json:"planned"`
	Who     string  `json:"who"`
	From    string  `json:"from"`
	To      string  `json:"to"`
}

type traceStageJSON struct {
	Stage   string      `json:"stage"`
	Planned *string     `json:"planned"`
	Start   *string     `json:"start"`
	Done    *string     `json:"done"`
	Who     *string     `json:"who"`
	At      *string     `json:"at"`
	Known   trace.Known `json:"known"`
}

type traceLeftJSON struct {
	Batch   *traceNeighbourJSON `json:"batch,omitempty"`
	Target  string              `json:"target"`
	By      *string             `json:"by"`
	Planned int                 `json:"planned"`
	Pieces  int                 `json:"pieces"`
	Back    int                 `json:"back"`
	To      *string             `json:"to"`
	Known   trace.Known         `json:"known"`
}

// traceBalanceJSON is the balance; all but what was said is null where it is not known how many
// were made.
type traceBalanceJSON struct {
	Made    *int    `json:"made"`
	Gone    int     `json:"gone"`
	Took    int     `json:"took"`
	Back    int     `json:"back"`
	Left    *int    `json:"left"`
	Gap     *int    `json:"gap"`
	Counted *string `json:"counted"`
	// Place is where what is left stands; null where nothing is, or nobody knows. Weights are null where
	// nobody weighed.
	Place   *tracePlaceJSON   `json:"place"`
	Weights *traceWeightsJSON `json:"weights"`
}

type tracePlaceJSON struct {
	Place string      `json:"place"`
	Shelf *string     `json:"shelf"`
	Since *string     `json:"since"`
	Known trace.Known `json:"known"`
}

// traceWeightsJSON is the balance in grams.
type traceWeightsJSON struct {
	Made    int     `json:"made_g"`
	Gone    int     `json:"gone_g"`
	Took    int     `json:"took_g"`
	Back    int     `json:"back_g"`
	Left    int     `json:"left_g"`
	Gap     int     `json:"gap_g"`
	Weighed *string `json:"weighed"`
}

type traceEntryJSON struct {
	Nr     int     `json:"nr"`
	At     string  `json:"at"`
	Who    *string `json:"who"`
	Says   string  `json:"says"`
	Struck bool    `json:"struck"`
	File   string  `json:"file"`
	Line   int     `json:"line"`
}

// json tells answers to a program.
func (t *traced) json(answers []*trace.Answer) error {
	out := traceJSON{Schema: "ripeby/trace/1", Answers: []traceAnswerJSON{}}
	for _, a := range answers {
		out.Answers = append(out.Answers, traceAnswerJSON{Asked: a.Asked, Kind: a.Kind,
			Batches:     mapped(a.Batches, t.jsonBatch),
			Collections: mapped(a.Collections, t.jsonCollection),
			Packets:     mapped(a.Packets, t.jsonOpened),
			Made:        mapped(a.Made, t.jsonNeighbour),
			Left: mapped(a.Passed, func(x trace.Passed) traceLeftJSON {
				of, l := t.jsonNeighbour(x.Batch), t.jsonLeft(x.Leaving)
				l.Batch = &of
				return l
			}),
			Pieces: mapped(a.Balances, func(x trace.Balanced) traceBalancedJSON {
				return traceBalancedJSON{t.jsonNeighbour(x.Batch), t.jsonBalance(&x.Balance)}
			}),
			Entries: mapped(a.Entries, t.jsonEntry)})
	}
	return printJSON(t.p.out, out)
}

func (t *traced) jsonBatch(b *trace.Batch) traceBatchJSON {
	out := traceBatchJSON{traceNeighbourJSON: t.jsonNeighbour(b.Neighbour), Lost: b.Balance.Lost,
		Packets: mapped(b.Packets, func(k trace.Packet) tracePacketJSON {
			return tracePacketJSON{k.What, textOrNull(k.Lot), k.Known, textOrNull(k.Stage)}
		}),
		Stages: mapped(b.Stages, t.jsonStage), Measured: mapped(b.Measured, t.jsonMeasured), Left: mapped(b.Leavings, t.jsonLeft), Pieces: t.jsonBalance(&b.Balance),
		Before: mapped(b.Before, t.jsonNeighbour), After: mapped(b.After, t.jsonNeighbour), Entries: mapped(b.Entries, t.jsonEntry)}
	if b.Kept != nil && b.Kept.UseBy != (resources.Date{}) {
		out.UseBy = textOrNull(b.Kept.UseBy.String())
	}
	if b.Kept != nil {
		out.Carries = mapped(b.Kept.Carries, func(c schedule.KeptCarry) traceCarryJSON {
			return traceCarryJSON{Stage: c.Stage, Planned: t.jsonAt(c.Start), Who: c.Who, From: c.From, To: c.To}
		})
	}
	if b.Milk != nil {
		milk := t.jsonCollection(b.Milk)
		out.Milk = &milk
	}
	return out
}

func (t *traced) jsonNeighbour(n trace.Neighbour) traceNeighbourJSON {
	return traceNeighbourJSON{Lot: textOrNull(n.Lot), ID: textOrNull(n.ID), Cheese: n.Cheese, Made: t.jsonAt(n.Made), Known: n.Known}
}

func (t *traced) jsonCollection(c *trace.Collection) traceCollectionJSON {
	out := traceCollectionJSON{Supply: c.Supply, Day: c.Day.String(), Known: c.Known, Lots: append([]string{}, c.Lots...),
		Batches: mapped(c.Batches, t.jsonNeighbour), Entries: mapped(c.Entries, t.jsonEntry), UsedML: int64(c.Used)}
	if came := int64(c.Came.Value); c.Came.Given {
		out.CameML = &came
	}
	return out
}

func (t *traced) jsonOpened(k *trace.PacketOpened) traceOpenedJSON {
	out := traceOpenedJSON{What: k.What, Lot: textOrNull(k.Lot),
		Batches: mapped(k.Batches, func(u trace.PacketUse) traceUseJSON {
			return traceUseJSON{t.jsonNeighbour(u.Batch), u.Known, textOrNull(u.Stage)}
		}),
		Beside: mapped(k.Beside, t.jsonNeighbour), Unsaid: k.Unsaid}
	if k.Opened != nil {
		out.Opened = t.jsonAt(k.Opened.At)
	}
	if k.UseBy != (resources.Date{}) {
		out.UseBy = textOrNull(k.UseBy.String())
	}
	return out
}

func (t *traced) jsonStage(s trace.Stage) traceStageJSON {
	return traceStageJSON{Stage: s.Name, Planned: t.jsonAt(s.Planned), Start: t.jsonAt(s.Start), Done: t.jsonAt(s.Done),
		Who: textOrNull(s.Who), At: textOrNull(s.At), Known: s.Known}
}

func (t *traced) jsonMeasured(r measured.Row) traceMeasuredJSON {
	return traceMeasuredJSON{Stage: r.Stage, What: r.What, From: resources.FormatReading(r.From), To: resources.FormatReading(r.To),
		Said: mapped(r.Said, func(s schedule.Measured) traceReadingJSON {
			return traceReadingJSON{Is: s.Is, At: t.jsonAt(s.At), Who: textOrNull(s.Who), Outside: measured.Outside(&r.Measure, s.Is)}
		})}
}

func (t *traced) jsonLeft(l trace.Leaving) traceLeftJSON {
	return traceLeftJSON{Target: l.Target, By: t.jsonAt(l.By), Planned: l.Planned, Pieces: l.Pieces, Back: l.Back, To: textOrNull(l.To), Known: l.Known}
}

func (t *traced) jsonBalance(b *trace.Balance) traceBalanceJSON {
	out := traceBalanceJSON{Gone: b.Gone, Took: b.Took, Back: b.Back, Counted: t.jsonAt(b.Counted)}
	if b.Known {
		out.Made, out.Left, out.Gap = &b.Made, &b.Left, &b.Gap
	}
	if p := b.Where; p != nil {
		out.Place = &tracePlaceJSON{p.Name, textOrNull(p.Shelf), t.jsonAt(p.Since), p.Known}
	}
	if w := b.Weights; w != nil {
		g := func(m resources.Milligrams) int { return int(m / gram) }
		out.Weights = &traceWeightsJSON{g(w.Made), g(w.Gone), g(w.Took), g(w.Back), g(w.Left), g(w.Gap), t.jsonAt(w.Last.At)}
	}
	return out
}

func (t *traced) jsonEntry(e *record.Entry) traceEntryJSON {
	return traceEntryJSON{Nr: e.Nr, At: e.At.In(t.zone).Format(time.RFC3339), Who: textOrNull(e.Who), Says: recordfile.Said(*e, t.zone),
		Struck: t.known.StruckBy(e) != nil, File: e.File, Line: e.Line}
}

// jsonAt is a moment; null for none.
func (t *traced) jsonAt(m resources.Moment) *string {
	if m == 0 {
		return nil
	}
	return textOrNull(m.In(t.zone).Format(time.RFC3339))
}

func textOrNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// mapped maps a list; an empty one becomes [] and not null.
func mapped[A, B any](list []A, f func(A) B) []B {
	out := make([]B, 0, len(list))
	for _, a := range list {
		out = append(out, f(a))
	}
	return out
}
