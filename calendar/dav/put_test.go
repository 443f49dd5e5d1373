package dav

import (
	"errors"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/schedule"
)

// A task is done where any of three properties says so (RFC 5545, 3.8.1.11, 3.8.1.8, 3.8.2.1), and that is said
// once, when it was, by who asks.
func TestTicks(t *testing.T) {
	tests := []struct {
		name  string
		lines []string
		at    string // as said; "-" where nothing is
	}{
		{"all three", []string{"STATUS:COMPLETED", "PERCENT-COMPLETE:100", "COMPLETED:20270316T075900Z"}, "2027-03-16T07:59:00Z"},
		{"the status alone", []string{"STATUS:COMPLETED"}, ""},
		{"100 per cent alone", []string{"PERCENT-COMPLETE:100", "-STATUS"}, ""},
		{"the moment alone", []string{"COMPLETED:20270316T073000Z", "-STATUS", "-PERCENT-COMPLETE"}, "2027-03-16T07:30:00Z"},
		{"the moment beside a status that was left", []string{"COMPLETED:20270316T073000Z"}, "2027-03-16T07:30:00Z"},
		{"small letters", []string{"STATUS:completed"}, ""},
		{"yesterday", []string{"STATUS:COMPLETED", "COMPLETED:20270315T190000Z"}, "2027-03-15T19:00:00Z"},
		{"in the kitchen's own time", []string{"STATUS:COMPLETED", "COMPLETED;TZID=Europe/Dublin:20270316T073000"}, "2027-03-16T07:30:00Z"},
		{"a clock that is ahead", []string{"STATUS:COMPLETED", "COMPLETED:20270316T080900Z"}, "2027-03-16T08:09:00Z"},
		{"tomorrow: now", []string{"STATUS:COMPLETED", "COMPLETED:20270317T080000Z"}, ""},
		{"a month ago: now", []string{"STATUS:COMPLETED", "COMPLETED:20270216T080000Z"}, ""},
		{"half done", []string{"STATUS:IN-PROCESS", "PERCENT-COMPLETE:50"}, "-"},
		{"not done", []string{"STATUS:NEEDS-ACTION"}, "-"},
		{"called off", []string{"STATUS:CANCELLED"}, "-"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			d := stood(t)
			at := d.at(t, nell, "BH-1", "make")
			text, tag := d.get(t, nell, at)
			w := d.put(nell, at, with(text, c.lines...), "If-Match", tag)
			if w.Code/100 != 2 || w.Header().Get("ETag") != "" { // RFC 4791, 5.3.4: no tag where what is kept is other than what was sent
				t.Fatalf("got %d and the tag %q: %s", w.Code, w.Header().Get("ETag"), w.Body)
			}
			if c.at == "-" {
				if len(d.kitchen.heard) != 0 {
					t.Errorf("got %v said, want nothing", d.kitchen.heard)
				}
				return
			}
			if len(d.kitchen.heard) != 1 {
				t.Fatalf("got %v said, want one thing", d.kitchen.heard)
			}
			got := d.kitchen.heard[0]
			if got.Verb != "did" || strings.Join(got.Words, " ") != "BH-1 make" || got.Who != "Nell" || got.At != c.at {
				t.Errorf("got %+v, want that Nell did make of BH-1 at %q", got, c.at)
			}
			after, other := d.get(t, nell, at)
			if other == tag || !strings.Contains(after, "STATUS:COMPLETED\r\n") || !strings.Contains(after, "PERCENT-COMPLETE:100\r\n") || !strings.Contains(after, "COMPLETED:2027") {
				t.Errorf("the task is not shown as done:\n%s", after)
			}
			if w := d.put(nell, at, after, "If-Match", other); w.Code != 204 || len(d.kitchen.heard) != 1 {
				t.Errorf("sent again: got %d and %d things said, want 204 and one", w.Code, len(d.kitchen.heard))
			}
			if w := d.put(nell, at, with(text, c.lines...), "If-Match", tag); w.Code != 412 || len(d.kitchen.heard) != 1 {
				t.Errorf("the first sent again: got %d and %d things said, want 412 and one", w.Code, len(d.kitchen.heard))
			}
		})
	}
}

// What a program takes back is struck, whichever of the three properties it leaves.
func TestUnticks(t *testing.T) {
	for name, lines := range map[string][]string{
		"all taken away":        {"STATUS:NEEDS-ACTION", "-COMPLETED", "PERCENT-COMPLETE:0"},
		"none left":             {"-STATUS", "-COMPLETED", "-PERCENT-COMPLETE"},
		"the status alone":      {"STATUS:NEEDS-ACTION"},
		"the moment taken away": {"STATUS:IN-PROCESS", "-COMPLETED"},
	} {
		t.Run(name, func(t *testing.T) {
			d := stood(t)
			at := d.at(t, nell, "BH-1", "make")
			text, _ := d.get(t, nell, at)
			d.put(nell, at, with(text, "STATUS:COMPLETED"))
			done, tag := d.get(t, nell, at)
			if w := d.put(nell, at, with(done, lines...), "If-Match", tag); w.Code != 204 {
				t.Fatalf("got %d: %s", w.Code, w.Body)
			}
			if n := len(d.kitchen.heard); n != 2 || d.kitchen.heard[1].Verb != "strike" || d.kitchen.heard[1].Words[0] != "1" {
				t.Errorf("got %+v, want that 1 is struck", d.kitchen.heard)
			}
			if after, _ := d.get(t, nell, at); after != text {
				t.Errorf("got\n%s\nwant the task as it was", after)
			}
			if w := d.put(nell, at, with(text, "STATUS:COMPLETED")); w.Code != 204 || len(d.kitchen.heard) != 3 {
				t.Errorf("ticked once more: got %d and %d things said, want 204 and a third", w.Code, len(d.kitchen.heard))
			}
		})
	}
}

// Only who said it takes it back, and as long as it is the last word; what is refused is sent back.
func TestWhatIsNotTakenBack(t *testing.T) {
	for name, word := range map[string]said.Word{
		"another said it":          {Nr: 7, Who: "Ivo", Last: true},
		"something was said since": {Nr: 7, Who: "Nell"},
		"it has no number":         {Who: "Nell", Last: true},
	} {
		t.Run(name, func(t *testing.T) {
			d := stood(t)
			word.Batch, word.Did, word.At = "BH-1", "make", d.kitchen.plan.From
			d.kitchen.told = &said.Told{Last: 7, Lately: []said.Word{word}}
			at := d.at(t, nell, "BH-1", "make")
			text, tag := d.get(t, nell, at)
			w := d.put(nell, at, with(text, "STATUS:NEEDS-ACTION", "-COMPLETED"))
			// RFC 3744, 7.1.1: the precondition by which programs take back what they changed.
			if w.Code != 403 || !strings.Contains(w.Body.String(), "need-privileges") || !strings.Contains(w.Body.String(), "Only who said it") || len(d.kitchen.heard) != 0 {
				t.Errorf("got %d: %s", w.Code, w.Body)
			}
			if same, other := d.get(t, nell, at); same != text || other == tag {
				t.Errorf("want the same text with another tag than %s, so that it is fetched; got %s\n%s", tag, other, same)
			}
		})
	}
}

// All else that a program changes is put back, and it says so.
func TestWhatIsPutBack(t *testing.T) {
	alarm := "BEGIN:VALARM\r\nACTION:DISPLAY\r\nTRIGGER:-PT5M\r\nDESCRIPTION:x\r\nEND:VALARM\r\nEND:VTODO"
	tests := []struct {
		name  string
		edit  func(string) string
		moved bool // the tag does
	}{
		{"the title", func(s string) string { return with(s, "SUMMARY:Something else") }, true},
		{"when it is due", func(s string) string { return with(s, "DUE:20270320T100000Z") }, true},
		{"no due", func(s string) string { return with(s, "-DUE") }, true},
		{"a priority", func(s string) string { return with(s, "PRIORITY:1") }, true},
		{"a repetition", func(s string) string { return with(s, "RRULE:FREQ=DAILY") }, true},
		{"the same time in UTC", func(s string) string { return with(s, "DTSTART:20270316T090000Z") }, false},
		{"its own words", func(s string) string { return with(s, "X-SORT-ORDER:7", "PRIORITY:0") }, false},
		{"an alarm", func(s string) string { return strings.Replace(s, "END:VTODO", alarm, 1) }, false},
		{"nothing", func(s string) string { return s }, false},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			d := stood(t)
			at := d.at(t, nell, "BH-1", "make")
			text, tag := d.get(t, nell, at)
			token := d.sync(t, nell, "").token
			w := d.put(nell, at, c.edit(text), "If-Match", tag)
			after, other := d.get(t, nell, at)
			if w.Code/100 != 2 || w.Header().Get("ETag") != "" || after != text || len(d.kitchen.heard) != 0 {
				t.Errorf("got %d, tag %q, %d things said and\n%s\nwant it taken without a tag, nothing said, the text as it was", w.Code, w.Header().Get("ETag"), len(d.kitchen.heard), after)
			}
			if (other != tag) != c.moved || strings.Contains(w.Body.String(), "put back") != c.moved {
				t.Errorf("got the tag %s after %s, and %q", other, tag, w.Body)
			}
			if n := len(d.sync(t, nell, token).changed); (n == 1) != c.moved {
				t.Errorf("got %d changed for the next sync", n)
			}
		})
	}
}

// What a request says it has seen must be so (RFC 9110, 13.1.1 and 13.1.2).
func TestConditions(t *testing.T) {
	tests := []struct {
		name, header, value string // TAG is the task's
		want                int
	}{
		{"its tag", "If-Match", "TAG", 204},
		{"one of several", "If-Match", `"x", TAG`, 204},
		{"any", "If-Match", "*", 204},
		{"another", "If-Match", `"x"`, 412},
		{"a new one wanted", "If-None-Match", "*", 412},
		{"but this one", "If-None-Match", "TAG", 412},
		{"but another", "If-None-Match", `"x"`, 204},
	}
	for _, c := range tests {
		d := stood(t)
		at := d.at(t, nell, "BH-1", "make")
		text, tag := d.get(t, nell, at)
		w := d.put(nell, at, with(text, "STATUS:COMPLETED"), c.header, strings.ReplaceAll(c.value, "TAG", tag))
		if w.Code != c.want || (len(d.kitchen.heard) == 1) != (c.want == 204) {
			t.Errorf("%s: got %d and %d things said, want %d", c.name, w.Code, len(d.kitchen.heard), c.want)
		}
	}
	d := stood(t)
	at := d.at(t, nell, "BH-1", "make")
	text, tag := d.get(t, nell, at)
	d.kitchen.change(func(p *schedule.Plan) { p.Batches = p.Batches[1:] })
	if w := d.put(nell, at, with(text, "STATUS:COMPLETED"), "If-Match", tag); w.Code != 412 || len(d.kitchen.heard) != 0 {
		t.Errorf("a task that the new plan has not: got %d, want 412 and nothing said", w.Code)
	}
}

// What the kitchen refuses, or cannot take just now, is told as such.
func TestWhatTheKitchenSays(t *testing.T) {
	tests := []struct {
		name string
		err  error
		want int
		text string
	}{
		{"refused", &said.Refusal{Lines: []string{"set comes before make."}}, 403, "set comes before make."},
		{"asked about", &said.Refusal{Lines: []string{"Is it so?"}, Asked: true}, 403, "Is it so?"},
		{"too often", &said.TooOften{Wait: 59e9}, 429, "in a while"},
		{"busy", said.ErrBusy, 503, "once more"},
		{"the folder is half saved", &said.Refusal{Later: true, Lines: []string{"It cannot be read."}}, 503, "It cannot be read."},
		{"a full disk", errors.New("disk full"), 500, "may not have been written"},
	}
	for _, c := range tests {
		d := stood(t)
		d.kitchen.fails = c.err
		at := d.at(t, nell, "BH-1", "make")
		text, tag := d.get(t, nell, at)
		w := d.put(nell, at, with(text, "STATUS:COMPLETED"), "If-Match", tag)
		if w.Code != c.want || !strings.Contains(w.Body.String(), c.text) || c.want == 429 && w.Header().Get("Retry-After") != "60" {
			t.Errorf("%s: got %d: %s", c.name, w.Code, w.Body)
		}
		if _, other := d.get(t, nell, at); other == tag {
			t.Errorf("%s: want another tag, so that the program has the task as it is", c.name)
		}
	}
	// Said by somebody else in the meantime: it is done, as was wanted.
	d := stood(t)
	at := d.at(t, nell, "BH-1", "make")
	text, _ := d.get(t, nell, at)
	d.kitchen.fails = &said.Refusal{Said: true, Lines: []string{"It was said already"}}
	if w := d.put(nell, at, with(text, "STATUS:COMPLETED")); w.Code != 403 {
		t.Errorf("said otherwise: got %d, want 403", w.Code)
	}
	d.Handler.desk = &faster{d.kitchen}
	if w := d.put(nell, at, with(text, "STATUS:COMPLETED")); w.Code != 204 {
		t.Errorf("said by another: got %d, want 204: %s", w.Code, w.Body)
	}
}

// faster is a desk at which Ivo says everything just before.
type faster struct{ *kitchenDesk }

func (d *faster) Take(_ address.Address, x said.Saying) (said.Heard, error) {
	d.mu.Lock()
	d.told = &said.Told{Last: 1, Lately: []said.Word{{Nr: 1, Who: "Ivo", At: d.plan.From, Batch: x.Words[0], Did: x.Words[1], Last: true}}}
	d.mu.Unlock()
	return said.Heard{}, &said.Refusal{Said: true, Lines: []string{"It was said already"}}
}
