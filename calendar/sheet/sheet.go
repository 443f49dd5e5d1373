package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// Known is all that there is to know of one batch. Either Planned or Told may be nil, but not both.
type Known struct {
	Kitchen string
	Zone    *time.Location
	Problem *schedule.Problem // the kitchen as its folder has it now; nil where that cannot be read
	Plan    *schedule.Plan    // nil for none
	Planned *schedule.Batch   // as the plan has it; nil where it is in no plan any more
	Told    *trace.Batch      // what was kept and said of it; nil where nothing was
	Milk    *trace.Collection // what was said of the milk that the plan has it made of; nil for nothing
	// Struck reports whether an entry was taken back, and Round gives what was said of the round of a day, nil
	// for nothing.
	Struck func(*record.Entry) bool
	Round  func(resources.Date) *record.Entry
}

// ErrNothing says that nothing is known of a batch.
var ErrNothing = errors.New("nothing is known of this batch: it is in no plan, and nothing was kept or said of it")

// Shown is a batch sheet: plain texts, none of them escaped for any markup.
type Shown struct {
	Kitchen, Cheese string
	Lot             string   // "" while it has none
	Number          string   // what the plan calls it, where that is not its lot
	Stands          []string // how it stands: lost, no longer in the plan
	Facts           []Fact
	Stages          []Stage
	Care            []Care
	For             []string
	Notes           []Note
	Cautions        []string
	Ends            []string // what is to be known of the sheet
	LeftOut         []string // what one page has no room for, and where it stands
	Lines           int      // to write on
	Letters         float64  // their size on paper, in points
	LineMM          float64  // how high a line to write on is, in millimetres
	Run             bool     // on paper what belongs to a stage stands one after the other
	lost            bool
}

// Fact is one fact of the batch as a whole.
type Fact struct {
	Label string
	Items []Item
}

// Item is a text with places to write on: one between every two parts.
type Item struct {
	Box   bool // to be ticked
	Parts []string
	kind  kind
}

// kind tells what an item is, for what has to be left out.
type kind int

const (
	other  kind = iota
	dosed       // what goes in
	heard       // what was measured or looked at
	useful      // kit and places
)

// Stage is one stage: by the plan, as it really was, and what belongs to it.
type Stage struct {
	Name    string
	Planned []string
	Really  []Item
	What    []Item
	Wide    bool // on paper What stands below the rest, over its whole width
}

// Care is one kind of care, day by day.
type Care struct {
	Do   string
	Days []Item
}

// Note is something that somebody wrote, and where that stands.
type Note struct{ When, Text, Source string }

// assumed marks what nobody said.
const assumed = " (assumed)"

// toWrite begins a text that is followed by a place to write on.
func toWrite(text string) Item { return Item{Parts: []string{text + " ", ""}} }

func plain(k kind, text string) Item { return Item{Parts: []string{text}, kind: k} }

// maker makes one sheet.
type maker struct {
	Known
	pen     words.Pen
	of      record.Entries // about the batch, those that hold, by moment
	stages  []stage
	shown   *Shown
	packets map[string]bool // those that stand with what goes in, as they are compared
}

// Of makes the sheet of a batch, whole. The error is [ErrNothing].
func Of(k Known) (*Shown, error) {
	if k.Planned == nil && k.Told == nil {
		return nil, ErrNothing
	}
	m := &maker{Known: k, pen: words.Pen{Zone: k.Zone}, packets: map[string]bool{}}
	m.shown = &Shown{Kitchen: m.pen.Name(k.Kitchen), Letters: usual.letters, LineMM: usual.write, Lines: usual.lines}
	if k.Told != nil {
		m.of = k.Told.Entries.With(func(e *record.Entry) bool {
			return !k.Struck(e) && (e.Subject.Kind == record.OfBatch || e.Subject.Kind == record.OfCheese)
		})
	}
	m.name()
	m.shown.lost = m.lost() != ""
	m.stages = m.merged()
	m.stands()
	for i := range m.stages {
		m.shown.Stages = append(m.shown.Stages, m.showStage(i))
	}
	m.facts()
	m.care()
	m.goes()
	m.notes()
	m.cautions()
	m.ends()
	return m.shown, nil
}

// name says which batch it is.
func (m *maker) name() {
	s, id := m.shown, ""
	if t := m.Told; t != nil {
		s.Cheese, s.Lot, id = t.Cheese, t.Lot, t.ID
	}
	if b := m.Planned; b != nil {
		s.Cheese, s.Lot, id = b.Cheese, cmp.Or(b.Lot, s.Lot), b.ID
	}
	s.Cheese, s.Lot = m.pen.Name(s.Cheese), m.pen.Name(s.Lot)
	if id = m.pen.Name(id); id != s.Lot {
		s.Number = id
	}
}

// lost says by whom and when it was said to be lost; "" where it is not.
func (m *maker) lost() string {
	for _, e := range m.of {
		if !e.Batch.Lost {
			continue
		}
		text := "Lost, as said " + m.said(e)
		if e.Batch.Why != "" {
			text += ": " + m.pen.Text(e.Batch.Why)
		}
		return text + "."
	}
	if m.Told != nil && m.Told.Balance.Lost {
		return "Lost, as begun.yaml of the kitchen's folder had it."
	}
	return ""
}

// stands says how the batch stands, where that is not as usual.
func (m *maker) stands() {
	say := func(text string) { m.shown.Stands = append(m.shown.Stands, text) }
	if lost := m.lost(); lost != "" {
		say(lost)
	}
	switch {
	case m.Planned == nil && m.Told.Kept == nil:
		say("No plan knows it any more: this is what was written down of it.")
	case m.Planned == nil:
		say("It is no longer in the plan: this is what was kept and written down of it.")
	}
	begun, stages := 0, len(m.stages)
	for i := range m.stages {
		if m.stages[i].known == trace.Said || m.stages[i].known == trace.Assumed {
			begun++
		}
	}
	switch {
	case m.shown.lost || stages == 0:
	case begun == 0:
		say("Nothing of it has begun.")
	case begun < stages:
		say(fmt.Sprintf("Begun: %d of %d stages.", begun, stages))
	default:
		say("All its stages have begun.")
	}
}

// said is when something was said to be, and by whom.
func (m *maker) said(e *record.Entry) string {
	return words.Join(", ", words.Stamp(e.At, m.Zone), m.pen.Name(e.Who))
}
