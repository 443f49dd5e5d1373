package ical

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
)

// readEvent is an event as an independent reader sees it.
type readEvent struct {
	uid, summary, description, location string
	start, end                          time.Time
	alarm                               string
	sequence                            int
	stamp, modified                     string
	transparency                        string
	categories                          []string
}

// readClock turns a DATE-TIME property into a moment.
type readClock func(*ical.Prop) (time.Time, error)

// bySystem reads local times by the zone data of the machine.
func bySystem(p *ical.Prop) (time.Time, error) { return p.DateTime(nil) }

// read reads one calendar, and nothing but one calendar.
func read(t *testing.T, data []byte) *ical.Calendar {
	t.Helper()
	dec := ical.NewDecoder(bytes.NewReader(data))
	cal, err := dec.Decode()
	if err != nil {
		t.Fatalf("reading back: %v\n%s", err, data)
	}
	if _, err := dec.Decode(); err != io.EOF {
		t.Fatalf("after the calendar: got %v, want the end", err)
	}
	return cal
}

// eventsSeen reads all events of a calendar, by UID.
func eventsSeen(t *testing.T, data []byte, clock readClock) map[string]readEvent {
	t.Helper()
	seen := map[string]readEvent{}
	for _, e := range read(t, data).Events() {
		text := func(name string) string {
			s, err := e.Props.Text(name)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		s := readEvent{uid: text("UID"), summary: text("SUMMARY"), description: text("DESCRIPTION"), location: text("LOCATION"),
			stamp: e.Props.Get("DTSTAMP").Value, modified: e.Props.Get("LAST-MODIFIED").Value, transparency: text("TRANSP")}
		for _, c := range e.Props.Values("CATEGORIES") {
			list, err := c.TextList()
			if err != nil || len(list) != 1 {
				t.Errorf("CATEGORIES %q: got %d values, want 1", c.Value, len(list))
			}
			s.categories = append(s.categories, list...)
		}
		fmt.Sscan(e.Props.Get("SEQUENCE").Value, &s.sequence)
		var err error
		if s.start, err = clock(e.Props.Get("DTSTART")); err != nil {
			t.Fatal(err)
		}
		s.end = s.start
		if p := e.Props.Get("DTEND"); p != nil {
			if s.end, err = clock(p); err != nil {
				t.Fatal(err)
			}
		}
		for _, a := range e.Children {
			action, _ := a.Props.Text("ACTION")
			d, err := a.Props.Get("TRIGGER").Duration()
			words, _ := a.Props.Text("DESCRIPTION")
			if err != nil || a.Name != "VALARM" {
				t.Fatalf("%s in an event: %v", a.Name, err)
			}
			s.alarm += fmt.Sprintf("%s %v %s", action, d, words)
		}
		if _, double := seen[s.uid]; double {
			t.Errorf("UID %s stands twice", s.uid)
		}
		seen[s.uid] = s
	}
	return seen
}

// ownZone is a clock that knows no zone but the VTIMEZONE of the file, read
// here on its own: among the observances whose DTSTART is not after a local time,
// the one with the latest counts (RFC 5545, 3.6.5), so that a repeated time means
// the first.
func ownZone(t *testing.T, data []byte) readClock {
	t.Helper()
	type observance struct {
		onset  time.Time // local, written as if it were UTC
		offset time.Duration
	}
	var list []observance
	id := ""
	for _, c := range read(t, data).Children {
		if c.Name != "VTIMEZONE" {
			continue
		}
		if id != "" {
			t.Fatal("two VTIMEZONEs")
		}
		id = c.Props.Get("TZID").Value
		for _, o := range c.Children {
			onset, err := time.Parse(localTime, o.Props.Get("DTSTART").Value)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, observance{onset, readOffset(t, o.Props.Get("TZOFFSETTO").Value)})
		}
	}
	return func(p *ical.Prop) (time.Time, error) {
		if strings.HasSuffix(p.Value, "Z") {
			return time.Parse(utcTime, p.Value)
		}
		local, err := time.Parse(localTime, p.Value)
		if err != nil {
			return local, err
		}
		if got := p.Params.Get("TZID"); got != id {
			return local, fmt.Errorf("TZID %q has no VTIMEZONE", got)
		}
		best := -1
		for i, o := range list {
			if !o.onset.After(local) && (best < 0 || o.onset.After(list[best].onset)) {
				best = i
			}
		}
		if best < 0 {
			return local, fmt.Errorf("no observance for %s", p.Value)
		}
		return local.Add(-list[best].offset), nil
	}
}

// readOffset reads a UTC-OFFSET.
func readOffset(t *testing.T, s string) time.Duration {
	t.Helper()
	var h, m, sec int
	if len(s) == 7 {
		fmt.Sscanf(s[5:], "%2d", &sec)
	} else if len(s) != 5 {
		t.Fatalf("offset %q", s)
	}
	fmt.Sscanf(s[1:5], "%2d%2d", &h, &m)
	d := time.Duration(h)*time.Hour + time.Duration(m)*time.Minute + time.Duration(sec)*time.Second
	if s[0] == '-' {
		return -d
	}
	return d
}
