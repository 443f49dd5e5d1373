package config

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
)

// measuresOf reads what is to be looked at and written down. Stages that were not read whole name nobody to do it.
func measuresOf(o *object, stages []schedule.Stage) (all []schedule.Measure) {
	nodes := o.objects("measures", "measure")
	if len(nodes) > MaxMeasures {
		o.fault("measures", Fault{What: fmt.Sprintf("%d measures are more than the limit of %d", len(nodes), MaxMeasures)})
		return nil
	}
	for _, f := range nodes {
		var m schedule.Measure
		m.What, _ = take(f, "what", nameText)
		m.Stage, _ = take(f, "stage", nameText)
		stageWithWork(f, m.Stage, "look at it", stages)
		if slices.ContainsFunc(all, func(o schedule.Measure) bool {
			return m.What != "" && strings.EqualFold(o.What, m.What) && o.Stage == m.Stage
		}) {
			f.fault("what", Fault{What: "this is written down at this stage already; write it once", Got: clip(m.What)})
		}
		limitsOf(f, &m)
		all = append(all, m)
	}
	return all
}

// limitsOf reads the limits of a measure, and what the recipe says outside them.
func limitsOf(f *object, m *schedule.Measure) {
	var fromOK, toOK, elseOK bool
	m.From, fromOK = either(f, "from", resources.Reading{}, resources.ParseReading)
	m.To, toOK = either(f, "to", resources.Reading{}, resources.ParseReading)
	m.Else, elseOK = either(f, "else", "", elseText)
	if !fromOK || !toOK {
		return
	}
	if m.From.IsZero() && m.To.IsZero() {
		if m.Else != "" && elseOK && !f.meant["from"] && !f.meant["to"] {
			f.fault("else", Fault{What: "this is shown with what lies outside from and to, and neither is written", Got: clip(m.Else), Want: "from: 4.4, to: 4.7, or both beside it"})
		}
		return
	}
	if m.From.IsZero() || m.To.IsZero() {
		return
	}
	from, to := resources.FormatReading(m.From), resources.FormatReading(m.To)
	switch sign, ok := resources.CompareReadings(m.From, m.To); {
	case !ok:
		f.fault("to", Fault{What: "from and to are of one kind, and from is " + from, Got: to, Want: "to: " + resources.FormatReading(resources.Reading{Num: m.To.Num, Den: m.To.Den, Unit: m.From.Unit})})
	case sign > 0:
		f.fault("to", Fault{What: "to is less than from, which is " + from, Got: to, Want: "from: " + to + ", to: " + from})
	}
}

// elseText reads what is shown with what lies outside.
func elseText(text string) (string, error) {
	switch {
	case utf8.RuneCountInString(text) > MaxElse:
		return "", Fault{What: fmt.Sprintf("this text has at most %d characters", MaxElse), Got: clip(text)}
	case strings.ContainsFunc(text, fault.Unprintable):
		return "", Fault{What: "this text is a single line of letters, digits and signs", Got: clip(text)}
	}
	return strings.TrimSpace(text), nil
}
