package dav

import (
	"bytes"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/emersion/go-ical"
	"github.com/emersion/go-webdav/caldav"
)

// The collations of text (RFC 4791, 7.5): the first where none is named.
const (
	asciiCasemap = "i;ascii-casemap"
	octets       = "i;octet"
)

// todoName is the component that tasks are.
const todoName = ical.CompToDo

// filter is which tasks a query wants. The library has the shapes of it and reads some of a query's, but takes
// a condition that is turned round for one that is not, every range of time for one of appointments, and a
// property that is to be missing for one that is there: so it is read and held against tasks here (RFC 4791,
// 9.7).
type filter struct{ of *caldav.CompFilter }

// filterOf reads the filter of a query.
func filterOf(e *element) (*filter, *fault) {
	if e == nil || e.kid(caldavName("comp-filter")) == nil {
		return nil, broken(http.StatusForbidden, caldavName("valid-filter"), "A query has a filter of components.")
	}
	of, f := compFilterOf(e.kid(caldavName("comp-filter")))
	if f == nil && of.Name != ical.CompCalendar {
		f = broken(http.StatusForbidden, caldavName("valid-filter"), "A filter begins with VCALENDAR.")
	}
	return &filter{of}, f
}

func compFilterOf(e *element) (*caldav.CompFilter, *fault) {
	out := &caldav.CompFilter{Name: strings.ToUpper(e.attr("name")), IsNotDefined: e.kid(caldavName("is-not-defined")) != nil}
	var f *fault
	for i := range e.kids {
		switch kid := &e.kids[i]; kid.name {
		case caldavName("time-range"):
			if out.Name != todoName {
				return nil, broken(http.StatusForbidden, caldavName("supported-filter"), "Only of tasks it is asked whether they lie within a time.")
			}
			out.Start, out.End, f = rangeOf(kid)
		case caldavName("comp-filter"):
			var inner *caldav.CompFilter
			if inner, f = compFilterOf(kid); f == nil {
				out.Comps = append(out.Comps, *inner)
			}
		case caldavName("prop-filter"):
			var inner *caldav.PropFilter
			if inner, f = propFilterOf(kid); f == nil {
				out.Props = append(out.Props, *inner)
			}
		}
		if f != nil {
			return nil, f
		}
	}
	return out, nil
}

func propFilterOf(e *element) (*caldav.PropFilter, *fault) {
	out := &caldav.PropFilter{Name: strings.ToUpper(e.attr("name")), IsNotDefined: e.kid(caldavName("is-not-defined")) != nil}
	var f *fault
	for i := range e.kids {
		switch kid := &e.kids[i]; kid.name {
		case caldavName("time-range"):
			out.Start, out.End, f = rangeOf(kid)
		case caldavName("text-match"):
			out.TextMatch, f = textMatchOf(kid)
		case caldavName("param-filter"):
			inner := caldav.ParamFilter{Name: strings.ToUpper(kid.attr("name")), IsNotDefined: kid.kid(caldavName("is-not-defined")) != nil}
			if text := kid.kid(caldavName("text-match")); text != nil {
				inner.TextMatch, f = textMatchOf(text)
			}
			out.ParamFilter = append(out.ParamFilter, inner)
		}
		if f != nil {
			return nil, f
		}
	}
	return out, nil
}

// textMatchOf reads a text that is looked for (RFC 4791, 9.7.5). One whose case does not matter is kept in
// small letters.
func textMatchOf(e *element) (*caldav.TextMatch, *fault) {
	text := e.text
	switch e.attr("collation") {
	case "", "default", asciiCasemap:
		text = smallASCII(text)
	case octets:
		text = exactly + text
	default:
		return nil, broken(http.StatusForbidden, caldavName("supported-collation"), "Texts are compared letter by letter, with capitals or without.")
	}
	return &caldav.TextMatch{Text: text, NegateCondition: e.attr("negate-condition") == "yes"}, nil
}

// exactly stands before a text whose case matters: no text of XML holds it.
const exactly = "\x00"

// smallASCII makes the letters of ASCII small, and no others.
func smallASCII(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, text)
}

// rangeOf reads a range of time, open at one end where that is left out (RFC 4791, 9.9).
func rangeOf(e *element) (start, end time.Time, f *fault) {
	for _, side := range []struct {
		name string
		to   *time.Time
	}{{"start", &start}, {"end", &end}} {
		text := e.attr(side.name)
		if text == "" {
			continue
		}
		at, err := time.Parse("20060102T150405Z", text)
		if err != nil {
			return start, end, broken(http.StatusForbidden, caldavName("valid-filter"), "A time is written as 20270316T080000Z.")
		}
		*side.to = at
	}
	if start.IsZero() && end.IsZero() || !start.IsZero() && !end.IsZero() && !start.Before(end) {
		return start, end, broken(http.StatusForbidden, caldavName("valid-filter"), "A range of time has a start, an end after it, or both.")
	}
	return start, end, nil
}

// lets reports whether a task is wanted. zone is that of times that name none.
func (f *filter) lets(text []byte, zone *time.Location) (bool, *fault) {
	cal, err := ical.NewDecoder(bytes.NewReader(text)).Decode()
	if err != nil {
		return false, refused(http.StatusInternalServerError, "this is a fault of ripeby")
	}
	return !f.of.IsNotDefined && letsComponent(f.of, cal.Component, zone), nil
}

func letsComponent(f *caldav.CompFilter, c *ical.Component, zone *time.Location) bool {
	if (!f.Start.IsZero() || !f.End.IsZero()) && !within(f.Start, f.End, c, zone) {
		return false
	}
	for i := range f.Props {
		if !letsProperty(&f.Props[i], c.Props[f.Props[i].Name], zone) {
			return false
		}
	}
	for i := range f.Comps {
		inner := &f.Comps[i]
		any := slices.ContainsFunc(c.Children, func(kid *ical.Component) bool {
			return kid.Name == inner.Name && (inner.IsNotDefined || letsComponent(inner, kid, zone))
		})
		if any == inner.IsNotDefined {
			return false
		}
	}
	return true
}

// within reports whether a task lies in a range of time: of the table of RFC 4791, 9.9, the line for tasks with a
// DTSTART and a later DUE, which all of ours have.
func within(start, end time.Time, c *ical.Component, zone *time.Location) bool {
	from, err := c.Props.DateTime(ical.PropDateTimeStart, zone)
	due, bad := c.Props.DateTime(ical.PropDue, zone)
	if err != nil || bad != nil {
		return false
	}
	return (start.IsZero() || start.Before(due) || !start.After(from)) && (end.IsZero() || end.After(from) || !end.Before(due))
}

// letsProperty holds a filter against all properties of its name.
func letsProperty(f *caldav.PropFilter, all []ical.Prop, zone *time.Location) bool {
	if f.IsNotDefined || len(all) == 0 {
		return f.IsNotDefined && len(all) == 0
	}
	return slices.ContainsFunc(all, func(p ical.Prop) bool {
		if !f.Start.IsZero() || !f.End.IsZero() {
			at, err := p.DateTime(zone)
			if err != nil || !f.Start.IsZero() && at.Before(f.Start) || !f.End.IsZero() && !at.Before(f.End) {
				return false
			}
		}
		if f.TextMatch != nil && !matches(f.TextMatch, textOf(&p)) {
			return false
		}
		for i := range f.ParamFilter {
			values := p.Params.Values(f.ParamFilter[i].Name)
			named, text := f.ParamFilter[i].IsNotDefined, f.ParamFilter[i].TextMatch
			any := slices.ContainsFunc(values, func(v string) bool { return text == nil || matches(text, v) })
			if named && len(values) > 0 || !named && !any {
				return false
			}
		}
		return true
	})
}

// textOf is what a property says, its escapes taken off where it is a text.
func textOf(p *ical.Prop) string {
	if text, err := p.Text(); err == nil {
		return text
	}
	return p.Value
}

func matches(m *caldav.TextMatch, text string) bool {
	want, exact := strings.CutPrefix(m.Text, exactly)
	if !exact {
		text = smallASCII(text)
	}
	return strings.Contains(text, want) != m.NegateCondition
}
