package sheet

import (
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// measures are the rows of what is measured at a stage: what somebody said, as it was written, with when and by
// whom; and a place for more while its work is not known to be over. It is never judged here.
//
// This is the one place where a row for a measure joins the sheet.
func (m *maker) measures(s *stage, gone bool) (items []Item) {
	for _, e := range m.at(s.name) {
		if text := m.measured(e.Batch.Measured); text != "" {
			items = append(items, plain(heard, "measured: "+text+" ("+m.said(e)+")"))
		}
	}
	if !gone && !(s.known == trace.Said && s.over) {
		items = append(items, Item{Parts: []string{"measured ", "", " at ", ""}})
	}
	return items
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
