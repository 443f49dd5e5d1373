package ical

import (
	"bytes"
	"cmp"
	"fmt"
	"strconv"
	"time"

	ics "github.com/arran4/golang-ical"

	"ripeby/resources"
	"ripeby/schedule"
)

const (
	product = "-//ripeby//plan//EN"
	// refresh is how often a subscriber is asked to look again.
	refresh = "PT1H"
	// lineMost is how many octets a line may have without its end (RFC 5545,
	// 3.1).
	lineMost = 75
	// noName is what the calendar of a kitchen without a name is called.
	noName = "Kitchen"
)

// block is a component: lines, then blocks within it.
type block struct {
	name   string
	lines  []line
	blocks []block
}

// line is a property. Its value is plain; the encoder escapes it if its type
// is text.
type line struct {
	name, value string
	params      []ics.PropertyParameter
}

// text adds a property that carries a name or a text; none when nothing would be
// seen of it, since some readers refuse an empty value.
func (b *block) text(name, value string) {
	if value = clean(value); !cleanEmpty(value) {
		b.put(name, value)
	}
}

// put adds a property whose value is known to be clean.
func (b *block) put(name, value string, params ...ics.PropertyParameter) {
	b.lines = append(b.lines, line{name, value, params})
}

// fileOf builds the whole calendar. It holds the VTIMEZONE even when there is no
// event, since a calendar without any component is not allowed.
func fileOf(p *schedule.Problem, plan *schedule.Plan, opt Options, events []event) block {
	zone := p.Kitchen.Zone
	tzid := p.Kitchen.TimeZone
	if tzid == "" {
		tzid = zone.String()
	}
	name := clean(p.Kitchen.Name)
	if cleanEmpty(name) {
		name = noName
	}
	switch {
	case opt.Cold:
		name += ": cold places"
	case opt.Person != "":
		name += ": " + clean(opt.Person)
	}
	b := block{name: "VCALENDAR"}
	b.put("VERSION", "2.0")
	b.put("PRODID", product)
	b.put("CALSCALE", "GREGORIAN")
	b.text("NAME", name)
	b.text("X-WR-CALNAME", name)
	b.text("X-WR-TIMEZONE", tzid)
	b.put("REFRESH-INTERVAL", refresh, ics.WithValue("DURATION"))
	b.put("X-PUBLISHED-TTL", refresh)
	b.put("COLOR", calendarColour)
	b.put("X-APPLE-CALENDAR-COLOR", calendarColourNumber)
	first, last := plan.From, plan.From
	for _, e := range events {
		first, last = min(first, e.start), max(last, e.end)
	}
	b.blocks = append(b.blocks, zoneOf(tzid, zone, first, last))
	for _, e := range events {
		b.blocks = append(b.blocks, e.block(zone, tzid, cmp.Or(opt.Lead, p.Kitchen.Alarm, DefaultLead)))
	}
	return b
}

// block builds the VEVENT.
func (e event) block(zone *time.Location, tzid string, lead resources.Minutes) block {
	b := block{name: "VEVENT"}
	revised := e.revised.In(time.UTC).Format(utcTime)
	b.put("UID", e.uid)
	b.put("DTSTAMP", revised)
	b.put("LAST-MODIFIED", revised)
	b.put("SEQUENCE", strconv.Itoa(e.sequence))
	if e.off {
		b.put("STATUS", "CANCELLED")
	}
	e.times(&b, zone, tzid)
	b.text("SUMMARY", e.summary)
	b.put("DESCRIPTION", paragraph(e.description))
	b.text("LOCATION", e.location)
	for _, c := range e.categories {
		b.text("CATEGORIES", cleanCategory(c))
	}
	b.put("COLOR", e.colour)
	b.text("URL", e.sheet)
	transparency := "TRANSPARENT"
	if e.busy {
		transparency = "OPAQUE"
	}
	b.put("TRANSP", transparency)
	if e.alarm {
		b.blocks = append(b.blocks, alarmOf(e.summary, lead))
	}
	return b
}

// times adds DTSTART and DTEND. Whole days are dates, and DTEND the day after the
// last (RFC 5545, 3.6.1), counted on the calendar and not in hours. Other events
// have local time with the zone, but both in UTC when a clock change repeats the local
// time of one of them. An event without length has no DTEND, which must be later than
// DTSTART (RFC 5545, 3.8.2.2).
func (e event) times(b *block, zone *time.Location, tzid string) {
	if e.days != nil {
		b.put("DTSTART", date(e.days.first), ics.WithValue("DATE"))
		b.put("DTEND", date(e.days.last.AddDays(1)), ics.WithValue("DATE"))
		return
	}
	start, end := e.start.In(zone), e.end.In(zone)
	form := localTime
	params := []ics.PropertyParameter{ics.WithTZID(tzid)}
	if repeated(start) || repeated(end) {
		start, end, form, params = start.UTC(), end.UTC(), utcTime, nil
	}
	b.put("DTSTART", start.Format(form), params...)
	if e.end > e.start {
		b.put("DTEND", end.Format(form), params...)
	}
}

// date writes a DATE (RFC 5545, 3.3.4).
func date(d resources.Date) string {
	return fmt.Sprintf("%04d%02d%02d", d.Year, int(d.Month), d.Day)
}

// paragraph joins lines that have been cleaned.
func paragraph(lines []string) string {
	var b bytes.Buffer
	for i, line := range lines {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(line)
	}
	return cleanLines(b.String())
}

// alarmOf builds a VALARM that shows the summary.
func alarmOf(summary string, lead resources.Minutes) block {
	b := block{name: "VALARM"}
	b.put("ACTION", "DISPLAY")
	if lead < 0 {
		b.put("TRIGGER", "PT0S")
	} else {
		b.put("TRIGGER", fmt.Sprintf("-PT%dM", lead))
	}
	b.text("DESCRIPTION", summary)
	return b
}

// write is the one function that writes: it escapes, folds and ends lines.
// The lines are folded by the library at a space where there is one, and never
// within a character, which holds because all text is valid UTF-8 by now.
func write(file block) ([]byte, error) {
	cal := &ics.Calendar{}
	for _, l := range file.lines {
		cal.CalendarProperties = append(cal.CalendarProperties, ics.CalendarProperty{BaseProperty: l.property()})
	}
	for _, b := range file.blocks {
		cal.Components = append(cal.Components, b.component())
	}
	var out bytes.Buffer
	if err := cal.SerializeTo(&out, ics.WithLineLength(lineMost), ics.WithNewLineWindows); err != nil {
		return nil, fmt.Errorf("calendar: writing: %w", err)
	}
	return out.Bytes(), nil
}

// component gives the block in the library's form. All kinds are general ones: the
// library knows no VTIMEZONE beyond its name, and adds nothing of its own to these.
func (b block) component() ics.Component {
	c := &ics.GeneralComponent{Token: b.name}
	for _, l := range b.lines {
		c.Properties = append(c.Properties, ics.IANAProperty{BaseProperty: l.property()})
	}
	for _, inner := range b.blocks {
		c.Components = append(c.Components, inner.component())
	}
	return c
}

// property gives the line in the library's form.
func (l line) property() ics.BaseProperty {
	p := ics.BaseProperty{IANAToken: l.name, Value: l.value, ICalParameters: map[string][]string{}}
	for _, param := range l.params {
		k, v := param.KeyValue()
		p.ICalParameters[k] = v
	}
	return p
}
