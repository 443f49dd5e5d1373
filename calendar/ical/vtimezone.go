package ical

import (
	"fmt"
	"time"

	"ripeby/resources"
)

// observance is a stretch of time with one offset from UTC, as a VTIMEZONE
// writes it: it begins at Onset, local time by the offset before it.
type observance struct {
	onset    string // local, by the offset from
	from, to int    // seconds east of UTC
	name     string
	daylight bool
}

// localTime and utcTime are the two forms of a DATE-TIME (RFC 5545, 3.3.5).
const (
	localTime = "20060102T150405"
	utcTime   = "20060102T150405Z"
)

// zoneOf builds the VTIMEZONE of the zone for all of the local years from first
// to last: one explicit observance for each change of the clocks, and the one that
// was in force when the first year began. Explicit observances say exactly what
// the zone data say, where a rule would have to be guessed from them.
func zoneOf(name string, zone *time.Location, first, last resources.Moment) block {
	b := block{name: "VTIMEZONE"}
	b.text("TZID", name)
	begin := time.Date(first.In(zone).Year(), 1, 1, 0, 0, 0, 0, zone)
	end := time.Date(last.In(zone).Year()+1, 1, 1, 0, 0, 0, 0, zone)
	for _, o := range observances(begin, end) {
		kind := "STANDARD"
		if o.daylight {
			kind = "DAYLIGHT"
		}
		c := block{name: kind}
		c.put("DTSTART", o.onset)
		c.put("TZOFFSETFROM", offset(o.from))
		c.put("TZOFFSETTO", offset(o.to))
		c.text("TZNAME", o.name)
		b.blocks = append(b.blocks, c)
	}
	return b
}

// observances gives the observance in force at begin and those that start
// before end.
func observances(begin, end time.Time) []observance {
	var list []observance
	for t := begin; ; {
		start, stop := t.ZoneBounds()
		list = append(list, observe(t, start))
		if stop.IsZero() || !stop.Before(end) {
			return list
		}
		t = stop
	}
}

// observe describes the observance that t lies in and that began at start. One
// without a beginning, or with one before 1970, is said to begin with 1970 and to
// change nothing: the offsets of those years have odd seconds, which few readers
// take, and no event is as old.
func observe(t, start time.Time) observance {
	name, to := t.Zone()
	o := observance{onset: "19700101T000000", from: to, to: to, name: name, daylight: t.IsDST()}
	if start.IsZero() || start.Unix() < 0 {
		return o
	}
	before := start.Add(-time.Second)
	_, o.from = before.Zone()
	o.onset = start.UTC().Add(time.Duration(o.from) * time.Second).Format(localTime)
	o.daylight = daylight(before, t)
	return o
}

// daylight says whether the time after a change is daylight time. Ireland's
// and Morocco's data call the winter an hour of negative saving, depending on how
// they were compiled; readers expect daylight time to be the later clock.
func daylight(before, after time.Time) bool {
	_, from := before.Zone()
	_, to := after.Zone()
	switch {
	case after.IsDST() && to < from && !before.IsDST():
		return false
	case !after.IsDST() && to > from && before.IsDST():
		return true
	}
	return after.IsDST()
}

// offset writes seconds east of UTC as RFC 5545, 3.3.14, wants them.
func offset(seconds int) string {
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	s := fmt.Sprintf("%c%02d%02d", sign, seconds/3600, seconds/60%60)
	if seconds%60 != 0 {
		s += fmt.Sprintf("%02d", seconds%60)
	}
	return s
}

// repeated reports whether t's local time comes twice, because the clocks are
// put back just after or were put back just before it.
func repeated(t time.Time) bool {
	start, stop := t.ZoneBounds()
	_, here := t.Zone()
	if !stop.IsZero() {
		_, then := stop.Zone()
		if back := time.Duration(here-then) * time.Second; t.Add(back).Compare(stop) >= 0 {
			return true
		}
	}
	if !start.IsZero() {
		_, then := start.Add(-time.Second).Zone()
		if back := time.Duration(then-here) * time.Second; t.Add(-back).Before(start) {
			return true
		}
	}
	return false
}
