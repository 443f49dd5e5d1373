package ical

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"ripeby/schedule"
)

// nastyNames are names that have broken calendars.
var nastyNames = []struct{ name, in, out string }{
	{"plain", "Bramble hoop", "Bramble hoop"},
	{"comma and semicolon", "Salt, pepper; and thyme", "Salt, pepper; and thyme"},
	{"backslash", `back\slash \n \, end\`, `back\slash \n \, end\`},
	{"quotes", `"Nell's" <best> & 'last'`, `"Nell's" <best> & 'last'`},
	{"colon", "a:b;c=d:e", "a:b;c=d:e"},
	{"newline", "two\nlines", "two lines"},
	{"carriage return", "x\r\nATTENDEE:mailto:eve@kitchen.example", "x ATTENDEE:mailto:eve@kitchen.example"},
	{"lone carriage return", "x\rEND:VEVENT", "x END:VEVENT"},
	{"NUL and controls", "a\x00b\x07c\x1bd\x7fe\u0080f", "abcdef"},
	{"line separator", "a\u2028b\u2029c\u0085d", "a b c d"},
	{"emoji", "🧀👩‍🌾 Käse 🇮🇪", "🧀👩‍🌾 Käse 🇮🇪"},
	{"right to left", "גבינה עם זעתר", "גבינה עם זעתר"},
	{"switch of direction", "a\u202egpj\u202c\u2066b\u2069\u200f", "agpjb"},
	{"combining", "Te\u0301te", "Te\u0301te"},
	{"byte order mark", "\ufeffhoop", "hoop"},
	{"no UTF-8", "a\xffb\xc3", "a\ufffdb\ufffd"},
	{"tab", "a\tb", "a b"},
	{"300 letters", strings.Repeat("Z", 300), strings.Repeat("Z", 300)},
	{"300 wide characters", strings.Repeat("乾", 300), strings.Repeat("乾", 300)},
	{"300 with spaces", strings.Repeat("é é<b>", 50), strings.Repeat("é é<b>", 50)},
	{"nothing to see", " \u200f\x00", " "},
}

func TestClean(t *testing.T) {
	for _, c := range nastyNames {
		if got := clean(c.in); got != c.out {
			t.Errorf("%s: got %q, want %q", c.name, got, c.out)
		}
	}
}

func TestCleanLines(t *testing.T) {
	if got, want := cleanLines("a\r\nb\rc\u2028d\n\ne\x00"), "a\nb\nc\nd\n\ne"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A name gets into a calendar whole, wherever it is used, and adds nothing to it.
func TestEventsWithNastyNames(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	p := kitchenIn(t, "Europe/Dublin")
	p.Kitchen.Milk[0].Name = "Bramble hoop" // everything has one name
	plain := properties(made(t, p, named(samplePlan("Europe/Dublin", start), "Bramble hoop"), Options{}))
	for _, c := range nastyNames {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, "Europe/Dublin")
			p.Kitchen.Name, p.Kitchen.Milk[0].Name = c.in, c.in
			plan := named(samplePlan("Europe/Dublin", start), c.in)
			data := made(t, p, plan, Options{})
			obeys(t, data)
			got := properties(data)
			if c.name == "nothing to see" {
				// Places and categories without a visible name are left out.
				plain, got := count(plain, "LOCATION", "CATEGORIES"), count(got, "LOCATION", "CATEGORIES")
				if got >= plain {
					t.Errorf("got %d places and categories, want fewer than %d", got, plain)
				}
				return
			}
			if !slices.Equal(got, plain) {
				t.Errorf("got properties %v, want the same as with a plain name, %v", got, plain)
			}
			seen := eventsSeen(t, data, bySystem)
			make := seen[uidOf("work", plan.Batches[0].ID, c.in)]
			if !strings.HasSuffix(make.summary, ": "+c.out+", 8.5 L ("+c.out+")") || make.location != c.out {
				t.Errorf("got %q at %q, want %q whole in both", make.summary, make.location, c.out)
			}
			if !strings.Contains(make.description, "Who: "+c.out+"\n") {
				t.Errorf("got\n%s\nwant in it Who: %s", make.description, c.out)
			}
			target := seen[uidOf("target", c.in)]
			if target.summary != "Target: "+c.out+", 18 pieces, 6 short" {
				t.Errorf("got %q, want the target %q", target.summary, c.out)
			}
			order := seen[uidOf("order", c.in, "2027-03-16")]
			if order.summary != "Order milk: "+c.out+", 8.5 L" || !strings.Contains(order.description, ", "+c.out+": 8.5 L") {
				t.Errorf("got %q, %q, want the supply and the cheese %q", order.summary, order.description, c.out)
			}
			if name, _ := read(t, data).Props.Text("NAME"); name != c.out {
				t.Errorf("NAME: got %q, want %q", name, c.out)
			}
		})
	}
}

// named uses one name for everything that a maker names.
func named(plan *schedule.Plan, name string) *schedule.Plan {
	for k := range plan.Batches {
		b := &plan.Batches[k]
		b.Cheese, b.Milk.Supply = name, name
		b.Stages[0].Stage = name
		for i := range b.Stages {
			b.Stages[i].At, b.Stages[i].Who = name, name
			for j := range b.Stages[i].Uses {
				b.Stages[i].Uses[j].Thing = name
			}
			for j := range b.Stages[i].BoxesAt {
				b.Stages[i].BoxesAt[j].Place, b.Stages[i].BoxesAt[j].Shelf = name, name
			}
		}
		for i := range b.For {
			b.For[i].Target = name
		}
	}
	for i := range plan.Targets[:2] {
		plan.Targets[i].Target, plan.Targets[i].Cheese, plan.Targets[i].Because = name, name, name
	}
	for i := range plan.Rounds {
		for j := range plan.Rounds[i].Care {
			plan.Rounds[i].Care[j].Do = name
		}
	}
	for i := range plan.Cautions {
		plan.Cautions[i].Cheese, plan.Cautions[i].Text = name, name
	}
	return plan
}

// unfolded gives the content lines (RFC 5545, 3.1).
func unfolded(data []byte) []string {
	s := strings.ReplaceAll(string(data), "\r\n ", "")
	return strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n")
}

// properties gives the names of the properties, sorted.
func properties(data []byte) []string {
	var names []string
	for _, l := range unfolded(data) {
		names = append(names, l[:strings.IndexAny(l, ":;")])
	}
	slices.Sort(names)
	return names
}

func count(names []string, which ...string) int {
	n := 0
	for _, name := range names {
		if slices.Contains(which, name) {
			n++
		}
	}
	return n
}

// The rules of RFC 5545 and of the acceptance list, on the sample in every zone.
func TestEventsRules(t *testing.T) {
	for _, c := range zoneCases {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, c.zone)
			obeys(t, made(t, p, samplePlan(c.zone, momentAt(t, c.start)), Options{Sheets: "https://kitchen.example/batch/"}))
		})
	}
}

// obeysBytes checks bytes and lines against the rules.
func obeysBytes(t *testing.T, data []byte) {
	t.Helper()
	s := string(data)
	if !strings.HasSuffix(s, "\r\n") || strings.Count(s, "\n") != strings.Count(s, "\r\n") || strings.Count(s, "\r") != strings.Count(s, "\r\n") {
		t.Error("lines do not all end in CRLF")
	}
	for _, line := range strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) || line == "" || line == " " {
			t.Errorf("line of %d octets: %q, want 1 to 75 of whole characters", len(line), line)
		}
		for _, r := range line {
			if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
				t.Errorf("control character %U in %q", r, line)
			}
		}
	}
	obeysLines(t, unfolded(data))
}

// obeys checks bytes, lines and components against the rules.
func obeys(t *testing.T, data []byte) {
	t.Helper()
	obeysBytes(t, data)
	cal := read(t, data)
	for name, n := range map[string]int{"PRODID": 1, "VERSION": 1, "METHOD": 0, "NAME": 1, "X-WR-CALNAME": 1, "X-WR-TIMEZONE": 1,
		"REFRESH-INTERVAL": 1, "X-PUBLISHED-TTL": 1, "COLOR": 1, "X-APPLE-CALENDAR-COLOR": 1} {
		if got := len(cal.Props.Values(name)); got != n {
			t.Errorf("calendar has %d %s, want %d", got, name, n)
		}
	}
	if p := cal.Props.Get("REFRESH-INTERVAL"); p.Params.Get("VALUE") != "DURATION" || p.Value != "PT1H" {
		t.Errorf("REFRESH-INTERVAL: got %+v, want VALUE=DURATION:PT1H", p)
	}
	zones := map[string]bool{}
	for _, c := range cal.Children {
		switch c.Name {
		case "VTIMEZONE":
			zones[c.Props.Get("TZID").Value] = true
		case "VEVENT":
			for name, n := range map[string]int{"UID": 1, "DTSTAMP": 1, "DTSTART": 1, "LAST-MODIFIED": 1, "SEQUENCE": 1, "SUMMARY": 1,
				"DESCRIPTION": 1, "TRANSP": 1, "COLOR": 1, "DURATION": 0, "ORGANIZER": 0, "ATTENDEE": 0, "STATUS": 0} {
				if got := len(c.Props.Values(name)); got != n {
					t.Errorf("event has %d %s, want %d", got, name, n)
				}
			}
			for _, name := range []string{"DTSTART", "DTEND"} {
				if p := c.Props.Get(name); p != nil && p.Params.Get("TZID") != "" && !zones[p.Params.Get("TZID")] {
					t.Errorf("%s: TZID %q has no VTIMEZONE before it", name, p.Params.Get("TZID"))
				}
			}
			if a, b := c.Props.Get("DTSTAMP").Value, c.Props.Get("LAST-MODIFIED").Value; a != b {
				t.Errorf("DTSTAMP %s, LAST-MODIFIED %s, want the same", a, b)
			}
			busy := c.Props.Get("TRANSP").Value == "OPAQUE"
			days := c.Props.Get("DTSTART").ValueType() == "DATE"
			order := strings.HasPrefix(c.Props.Get("UID").Value, "ripeby-order-")
			if len(c.Children) > 1 || len(c.Children) == 1 && !busy && !order || order && len(c.Children) == 0 || (c.Props.Get("DTEND") != nil) != (busy || days) || busy && days {
				t.Errorf("%s: %d alarms, DTEND %v, want no alarm but for work, rounds and orders, and an end for these but orders", c.Props.Get("SUMMARY").Value, len(c.Children), c.Props.Get("DTEND"))
			}
		default:
			t.Errorf("component %s", c.Name)
		}
	}
}

// obeysLines checks each content line on its own.
func obeysLines(t *testing.T, lines []string) {
	t.Helper()
	var open []string
	for _, l := range lines {
		i := strings.IndexAny(l, ":;")
		colon := strings.Index(l, ":")
		if i < 1 || colon < 0 || colon == len(l)-1 {
			t.Errorf("content line %q, want name:value", l)
			continue
		}
		if strings.Contains(l[:colon], "TZID=") && strings.HasSuffix(l, "Z") {
			t.Errorf("TZID with Z: %q", l)
		}
		switch l[:i] {
		case "BEGIN":
			open = append(open, l[colon+1:])
		case "END":
			if len(open) == 0 || open[len(open)-1] != l[colon+1:] {
				t.Fatalf("%q ends %v", l, open)
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) != 0 {
		t.Errorf("not ended: %v", open)
	}
}

// UIDs differ wherever the things differ, and hold nothing but plain characters.
func TestUID(t *testing.T) {
	names := [][]string{
		{"work", "BH-1", "make"}, {"work", "BH-1", "Make"}, {"work", "BH-1", "make "}, {"work", "BH-1", "make!"}, {"work", "BH-1", "make?"},
		{"work", "BH-1m", "ake"}, {"work", "BH", "1-make"}, {"round", "BH-1", "make"}, {"work", "BH-1", "乾"}, {"work", "BH-1", "坤"},
		{"work", "BH-1", strings.Repeat("x", 300)}, {"work", "BH-1", strings.Repeat("x", 301)}, {"target", "2027-03-16"}, {"round", "2027-03-16"},
	}
	seen := map[string][]string{}
	for _, n := range names {
		uid := uidOf(n[0], n[1:]...)
		if before, double := seen[uid]; double {
			t.Errorf("%q and %q: both %s", before, n, uid)
		}
		seen[uid] = n
		for _, r := range uid {
			if r != '-' && (r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)) {
				t.Errorf("%q: %s holds %q", n, uid, r)
			}
		}
		if len(uid) > 100 {
			t.Errorf("%q: %d characters, want at most 100", n, len(uid))
		}
	}
	// Subscribers hold on to these for ever.
	if got, want := uidOf("work", "BH-270316-1", "make"), "ripeby-work-BH-270316-1-make-"; !strings.HasPrefix(got, want) {
		t.Errorf("got %s, want %s…", got, want)
	}
}
