package dav

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"time"

	"github.com/emersion/go-ical"
	"github.com/emersion/go-webdav/caldav"

	"ripeby/calendar/said"
	"ripeby/resources"
)

// ticked is what a program sent of a task.
type ticked struct {
	uid    string
	done   bool
	at     resources.Moment // when it was done; 0 for not said
	others bool             // something else of it is not as it was sent
}

// readTask reads what is sent in place of a task (RFC 4791, 5.3.2.1): one task, in a calendar of its own.
func readTask(text []byte, was []byte, zone *time.Location) (*ticked, *fault) {
	cal, err := decode(text)
	if err != nil {
		return nil, broken(http.StatusForbidden, caldavName("valid-calendar-data"), "This is no calendar that can be read.")
	}
	kind, uid, err := caldav.ValidateCalendarObject(withoutZones(cal))
	switch {
	case err != nil:
		return nil, broken(http.StatusForbidden, caldavName("valid-calendar-object-resource"), "A calendar holds one task, and no METHOD.")
	case kind != todoName:
		return nil, broken(http.StatusForbidden, caldavName("supported-calendar-component"), "Only tasks are here.")
	}
	before, err := decode(was)
	if err != nil {
		return nil, refused(http.StatusInternalServerError, "this is a fault of ripeby")
	}
	sent, kept := taskOf(cal), taskOf(before)
	out := &ticked{uid: uid, done: isDone(sent, kept), others: differs(sent, kept)}
	if p := sent.Props.Get(ical.PropCompleted); p != nil {
		if at, err := p.DateTime(zone); err == nil {
			out.at = resources.MomentOf(at)
		}
	}
	return out, nil
}

// decode reads a calendar. The library panics on some lines that are cut short.
func decode(text []byte) (cal *ical.Calendar, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fmt.Errorf("reading a calendar: %v", cause)
		}
	}()
	return ical.NewDecoder(bytes.NewReader(text)).Decode()
}

// withoutZones leaves out the time zones, which have no UID.
func withoutZones(cal *ical.Calendar) *ical.Calendar {
	out := ical.NewCalendar()
	out.Props = cal.Props
	for _, c := range cal.Children {
		if c.Name != ical.CompTimezone {
			out.Children = append(out.Children, c)
		}
	}
	return out
}

// taskOf is the task of a calendar: the first, where an exception to a series stands beside it.
func taskOf(cal *ical.Calendar) *ical.Component {
	for _, c := range cal.Children {
		if c.Name == todoName {
			return c
		}
	}
	return ical.NewComponent(todoName)
}

const completed = "COMPLETED" // as STATUS, and the name of the property

// isDone reports whether a task is done as a program has it: by its status, by 100 per cent or by a moment at
// which it was, for programs set one, two or all of them (RFC 5545, 3.8.1.11, 3.8.1.8 and 3.8.2.1). One that was done and
// has another status now is not any more, whatever was left of the others.
func isDone(sent, kept *ical.Component) bool {
	status := strings.ToUpper(valueOf(sent, ical.PropStatus))
	if valueOf(kept, ical.PropStatus) == completed && status != "" && status != completed {
		return false
	}
	return status == completed || valueOf(sent, ical.PropPercentComplete) == "100" || valueOf(sent, completed) != ""
}

// ours are the properties of a task that people see, besides whether it is done.
var ours = []string{ical.PropSummary, ical.PropDescription, ical.PropLocation, ical.PropDateTimeStart, ical.PropDue, ical.PropDuration, ical.PropPriority, ical.PropRecurrenceRule}

// differs reports whether something else of a task was changed that people see.
func differs(sent, kept *ical.Component) bool {
	for _, name := range ours {
		a, b := sent.Props.Get(name), kept.Props.Get(name)
		if a == nil || b == nil {
			if (a == nil || a.Value == "" || a.Value == "0") != (b == nil) {
				return true
			}
			continue
		}
		if at, err := a.DateTime(time.UTC); err == nil {
			if of, err := b.DateTime(time.UTC); err == nil && at.Equal(of) {
				continue
			}
			return true
		}
		if textOf(a) != textOf(b) {
			return true
		}
	}
	return false
}

func valueOf(c *ical.Component, name string) string {
	if p := c.Props.Get(name); p != nil {
		return strings.TrimSpace(p.Value)
	}
	return ""
}

// mostAgo is how long ago something may have been done that is ticked only now; mostAhead how far a program's
// clock may be ahead.
const (
	mostAgo   = 14 * resources.Day
	mostAhead = 10 * resources.Minutes(1)
)

// saying is what a tick says: that the stage is done, when the program has it. Its word is that of the page's
// form, so that what is sent again, or tapped there too, is written once.
func (t *ticked) saying(p *person, batch, stage string, after int, now resources.Moment, zone *time.Location) said.Saying {
	at := ""
	if t.at > now.Add(-mostAgo) && t.at <= now.Add(mostAhead) {
		at = t.at.In(zone).Format(time.RFC3339)
	}
	return said.Saying{Verb: "did", Words: []string{batch, stage}, Who: p.Person, At: at, Options: map[string]string{},
		Once: said.About{Batch: batch, Stage: stage, After: after}.Key(p.Address) + "-did"}
}
