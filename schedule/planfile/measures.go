package planfile

import (
	"errors"

	"ripeby/resources"
	"ripeby/schedule"
)

// measureKeys is what is to be written down at a stage: from and to as a recipe writes them.
type measureKeys struct {
	What string `json:"what"`
	From string `json:"from,omitempty"`
	To   string `json:"to,omitempty"`
	Else string `json:"else,omitempty"`
}

func measure(m schedule.Measure) measureKeys {
	return measureKeys{What: m.What, From: resources.FormatReading(m.From), To: resources.FormatReading(m.To), Else: m.Else}
}

// measure reads one of a stage.
func (r *reader) measure(at trail, stage string, k measureKeys) schedule.Measure {
	return schedule.Measure{What: r.name(at.key("what"), k.What), Stage: stage, From: r.limit(at.key("from"), k.From), To: r.limit(at.key("to"), k.To), Else: k.Else}
}

// limit reads a limit of what is measured; "" for none.
func (r *reader) limit(at trail, text string) resources.Reading {
	if text == "" {
		return resources.Reading{}
	}
	limit, err := resources.ParseReading(text)
	if wrong := (*resources.QuantityError)(nil); errors.As(err, &wrong) {
		r.fail(at, wrong.What, "4.6 or 26 °C")
	}
	return limit
}
