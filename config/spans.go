package config

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
)

// sequence is the kind of node that a list is.
const sequence = yaml.SequenceNode

// scalarText gives a single value's text.
func scalarText(n *yaml.Node) (string, bool) {
	if n = solid(n); n.Kind != yaml.ScalarNode || null(n) {
		return "", false
	}
	return n.Value, true
}

// spans reads times at which somebody is away or something is closed. A date, and
// dates from and until, are whole local days, both included; moments are
// half-open.
func (l *loader) spans(o *object, key string) []resources.Span {
	var all []resources.Span
	for _, n := range o.list(key) {
		if text, ok := scalarText(n); ok {
			day, err := resources.ParseDate(text)
			if err != nil {
				f := quantityFault(err)
				f.Want += ", or {from: 2027-03-12, until: 2027-03-14}"
				o.faultAt(solid(n), key, f)
				continue
			}
			all = append(all, day.Span(l.problem.Kitchen.Zone))
			continue
		}
		f, ok := o.page.object(n, o.below(key), o.shown(key), o.keys.Key(key).In)
		if !ok {
			continue
		}
		from, ok1 := take(f, "from", l.edge(false))
		until, ok2 := take(f, "until", l.edge(true))
		if !ok1 || !ok2 || !l.zoneKnown {
			continue
		}
		if until <= from {
			f.fault("until", Fault{What: "this is not after from", Got: clip(f.get("until").Value)})
			continue
		}
		all = append(all, resources.Span{From: from, Until: until})
	}
	return all
}

// edge reads an edge of a span: a moment, or a date, whose start is meant, or the
// start of the day after it where the span ends.
func (l *loader) edge(end bool) func(string) (resources.Moment, error) {
	return func(text string) (resources.Moment, error) {
		day, err := resources.ParseDate(text)
		switch {
		case err != nil && strings.Contains(text, ":"):
			return l.moment(text)
		case err != nil:
			return 0, err
		}
		if end {
			day = day.AddDays(1)
		}
		return day.Start(l.problem.Kitchen.Zone), nil
	}
}

// moment reads a moment in the kitchen's zone.
func (l *loader) moment(text string) (resources.Moment, error) {
	return resources.ParseMoment(text, l.problem.Kitchen.Zone)
}
