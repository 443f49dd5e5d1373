package sheet

import (
	"cmp"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// measures are the rows of what is measured at a stage: what somebody said, as it was written, with when and by whom,
// and where that lies outside the recipe's own limits; a place to write for each measure of the recipe that is not
// written down yet, or for whatever is measured where the recipe asks for nothing. It is never judged here.
func (m *maker) measures(s *stage, gone bool) (items []Item) {
	all := m.asked()
	for _, e := range m.at(s.name) {
		if text := m.measured(e.Batch.Measured); text != "" {
			items = append(items, plain(heard, "measured: "+text+" ("+m.said(e)+")"))
		}
		for _, x := range (record.Entries{e}).Measured() {
			if of := measured.Find(all, m.beganAt, &x); of != nil {
				if text := measured.Outside(of, x.Is); text != "" {
					items = append(items, plain(heard, m.pen.Text(text)))
				}
			}
		}
	}
	if gone {
		return items
	}
	blanks := measured.Blank(measured.Rows(all, m.beganAt, m.of.Measured()), s.name)
	for i := range blanks {
		after := ""
		if blanks[i].Else != "" {
			after = "; outside that: " + m.pen.Text(blanks[i].Else)
		}
		items = append(items, Item{kind: heard, Parts: []string{m.pen.Text(measured.Line(&blanks[i])) + " ", " at ", after}})
	}
	if len(blanks) == 0 && !(s.known == trace.Said && s.over) {
		items = append(items, Item{Parts: []string{"measured ", "", " at ", ""}})
	}
	return items
}

// asked is all that the recipe has written down of the batch, as the plan has it, else as it was kept.
func (m *maker) asked() []schedule.Measure {
	if m.Planned != nil {
		return m.Planned.Measures()
	}
	if m.Told.Kept == nil {
		return nil
	}
	return m.Told.Kept.Measures()
}

// beganAt is when a stage began, or is to; 0 where that is not known.
func (m *maker) beganAt(name string) resources.Moment {
	for i := range m.stages {
		if s := &m.stages[i]; s.name == name {
			return cmp.Or(s.began, s.planned)
		}
	}
	return 0
}

// measured writes several readings one after the other.
func (m *maker) measured(all []record.Measure) (text string) {
	for _, x := range all {
		text = words.Join(", ", text, words.Join(" ", m.pen.Text(x.What), m.pen.Text(x.Is)))
	}
	return text
}

// at are the entries that belong to a stage: those that name it, and of those that name none the ones from its
// beginning to that of the next.
func (m *maker) at(name string) record.Entries {
	return m.of.With(func(e *record.Entry) bool { return m.stageOf(e) == name })
}

// stageOf is the stage that an entry belongs to; "" where there are no stages.
func (m *maker) stageOf(e *record.Entry) string {
	for _, named := range []string{e.Batch.Did, e.Batch.Began, e.Batch.NotYet} {
		for i := range m.stages {
			if named == m.stages[i].name {
				return named
			}
		}
	}
	if len(m.stages) == 0 {
		return ""
	}
	in, since := m.stages[0].name, resources.Moment(0)
	for i := range m.stages {
		if s := &m.stages[i]; s.began != 0 && s.began <= e.At && s.began >= since {
			in, since = s.name, s.began
		}
	}
	return in
}
