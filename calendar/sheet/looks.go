package sheet

import (
	"ripeby/calendar/words"
	"ripeby/schedule/record/trace"
)

// looks are what somebody found before a stage: that its batch was not ready yet; and the look that is still to come.
func (m *maker) looks(s *stage, gone bool) (items []Item) {
	for _, e := range m.of {
		if e.Batch.NotYet != s.name {
			continue
		}
		text := "not ready yet, " + m.said(e)
		if e.Batch.Look.Given {
			text += ": look again after " + words.Length(e.Batch.Look.Value)
		}
		items = append(items, plain(heard, text))
	}
	if m.Plan == nil || m.Planned == nil || gone || s.known == trace.Said {
		return items
	}
	for _, l := range m.Plan.Looks {
		if l.Batch == m.Planned.ID && l.Stage == s.name {
			text := "look whether it is ready: " + words.Join(", ", words.Stamp(l.Start, m.Zone), m.pen.Name(l.Who))
			items = append(items, Item{Box: true, Parts: []string{text}})
		}
	}
	return items
}
