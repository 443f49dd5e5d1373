package dav

import (
	"encoding/xml"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/resources"
	"ripeby/schedule"
)

// answers is an answer about several things, read by encoding/xml on its own.
type answers struct {
	Responses []struct {
		Href   string `xml:"DAV: href"`
		Status string `xml:"DAV: status"`
		Error  struct {
			Inner string `xml:",innerxml"`
		} `xml:"DAV: error"`
		Propstats []struct {
			Status string `xml:"DAV: status"`
			Prop   struct {
				Tag  string `xml:"DAV: getetag"`
				Data string `xml:"urn:ietf:params:xml:ns:caldav calendar-data"`
				Any  []struct {
					XMLName xml.Name
					Inner   string `xml:",innerxml"`
				} `xml:",any"`
			} `xml:"DAV: prop"`
		} `xml:"DAV: propstat"`
	} `xml:"DAV: response"`
	Token string `xml:"DAV: sync-token"`
}

func read(t testing.TB, text string) (a answers) {
	t.Helper()
	if err := xml.Unmarshal([]byte(text), &a); err != nil {
		t.Fatalf("%v:\n%s", err, text)
	}
	return a
}

// synced is what a sync gave.
type synced struct {
	changed, gone []string // hrefs
	more          bool
	token         string
}

// syncBody is the body of one.
func syncBody(token, limit string) string {
	if limit != "" {
		limit = "<D:limit><D:nresults>" + limit + "</D:nresults></D:limit>"
	}
	return `<D:sync-collection xmlns:D="DAV:"><D:sync-token>` + token + `</D:sync-token><D:sync-level>1</D:sync-level>` + limit + `<D:prop><D:getetag/></D:prop></D:sync-collection>`
}

// sync asks what has changed since a token.
func (d *desk) sync(t testing.TB, who address.Address, token string) synced {
	t.Helper()
	return d.syncSome(t, who, token, "")
}

func (d *desk) syncSome(t testing.TB, who address.Address, token, limit string) (out synced) {
	t.Helper()
	w := d.ask(who, "REPORT", tasksOf(who), syncBody(token, limit))
	if w.Code != 207 {
		t.Fatalf("got %d: %s", w.Code, w.Body)
	}
	a := read(t, w.Body.String())
	out.token = a.Token
	for _, r := range a.Responses {
		switch {
		case strings.Contains(r.Status, "404"):
			out.gone = append(out.gone, r.Href)
		case strings.Contains(r.Status, "507"): // RFC 6578, 3.6
			out.more = r.Href == tasksOf(who) && strings.Contains(r.Error.Inner, "number-of-matches-within-limits")
		default:
			out.changed = append(out.changed, r.Href)
		}
	}
	slices.Sort(out.changed)
	return out
}

// What a sync tells after a change of the plan (RFC 6578, 3.4 and 3.5): the cases are those that servers are held to.
func TestSync(t *testing.T) {
	move := func(n int) func(*schedule.Plan) {
		return func(p *schedule.Plan) { p.Batches[0].Stages[0].Start += resources.Moment(n) }
	}
	added := func(p *schedule.Plan) { p.Batches = append(p.Batches, sampleBatch(4, p.From.Add(5*resources.Day))) }
	dropped := func(p *schedule.Plan) { p.Batches = p.Batches[:len(p.Batches)-1] }
	tests := []struct {
		name    string
		changes []func(*schedule.Plan)
		seen    bool // somebody looks after each
		changed string
		gone    int
	}{
		{"nothing", nil, true, "", 0},
		{"the same again", []func(*schedule.Plan){func(*schedule.Plan) {}}, true, "", 0},
		{"moved", []func(*schedule.Plan){move(30)}, true, "BH-1 make", 0},
		{"moved and back, unseen", []func(*schedule.Plan){move(30), move(-30)}, false, "BH-1 make", 0}, // with another edition
		{"moved twice", []func(*schedule.Plan){move(30), move(30)}, true, "BH-1 make", 0},
		{"added", []func(*schedule.Plan){added}, true, "BH-4 make, BH-4 pack", 0},
		{"dropped", []func(*schedule.Plan){dropped}, true, "", 2},
		{"added and dropped between", []func(*schedule.Plan){added, dropped}, true, "", 2}, // 404 though never told of (3.5.2)
		{"added and dropped, unseen", []func(*schedule.Plan){added, dropped}, false, "", 0},
		{"dropped and added again", []func(*schedule.Plan){dropped, func(p *schedule.Plan) { p.Batches = append(p.Batches, sampleBatch(2, p.From.Add(60+resources.Day))) }}, true, "BH-2 make, BH-2 pack", 0},
		{"all at once", []func(*schedule.Plan){func(p *schedule.Plan) { dropped(p); move(45)(p); added(p) }}, true, "BH-1 make, BH-4 make, BH-4 pack", 2},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			d := stood(t)
			first := d.sync(t, nell, "")
			if len(first.changed) != 3 || len(first.gone) != 0 {
				t.Fatalf("the first time: got %d and %d gone, want 3 tasks of Nell", len(first.changed), len(first.gone))
			}
			for _, change := range c.changes {
				d.kitchen.change(change)
				if c.seen {
					d.sync(t, nell, "")
				}
			}
			d.restart() // what a token means outlasts a restart
			got := d.sync(t, nell, first.token)
			var want []string
			for _, name := range strings.Split(c.changed, ", ") {
				if batch, stage, ok := strings.Cut(name, " "); ok {
					want = append(want, d.at(t, nell, batch, stage))
				}
			}
			slices.Sort(want)
			if !slices.Equal(got.changed, want) || len(got.gone) != c.gone {
				t.Errorf("got %v and gone %v, want %v and %d gone", got.changed, got.gone, want, c.gone)
			}
			if again := d.sync(t, nell, got.token); len(again.changed)+len(again.gone) != 0 || again.token != got.token {
				t.Errorf("a second sync: got %+v, want nothing and the same token", again)
			}
			// PROPFIND gives the same token (RFC 6578, 4).
			if w := d.ask(nell, "PROPFIND", tasksOf(nell), `<propfind xmlns="DAV:"><prop><sync-token/></prop></propfind>`, "Depth", "0"); !strings.Contains(w.Body.String(), ">"+got.token+"<") {
				t.Errorf("PROPFIND has another token than %s: %s", got.token, w.Body)
			}
		})
	}
}

// A token that was never given out, or is not known any more, is refused so that a program fetches all (RFC
// 6578, 3.2: valid-sync-token).
func TestTokensThatAreNotKnown(t *testing.T) {
	d := stood(t)
	good := d.sync(t, nell, "").token
	d.sync(t, ivo, "")
	for _, token := range []string{"x", "http://elsewhere.example/sync/1", tokenBegin, tokenBegin + "1", tokenBegin + "1:abc", tokenBegin + "-1:" + good[len(good)-24:], good + ":a:b", tokenBegin + "99999999999999999999:x",
		strings.Replace(good, ":1:", ":2:", 1), d.sync(t, ivo, "").token} {
		if w := d.ask(nell, "REPORT", tasksOf(nell), syncBody(token, "")); w.Code != 403 || !strings.Contains(w.Body.String(), "<D:valid-sync-token/>") {
			t.Errorf("%s: got %d: %s", token, w.Code, w.Body)
		}
	}
}

// Of many changes a part is sent, and the rest from there on (RFC 6578, 3.6): nothing is lost, nothing comes twice.
func TestSyncInParts(t *testing.T) {
	d := stood(t)
	d.kitchen.change(func(p *schedule.Plan) {
		for n := range 9 {
			p.Batches = append(p.Batches, sampleBatch(10+n, p.From.Add(resources.Minutes(n+4)*resources.Day)))
		}
	})
	begin := d.sync(t, nell, "").token
	all := d.sync(t, nell, "").changed
	d.kitchen.change(func(p *schedule.Plan) {
		p.Batches[0].Stages[0].Start += 5
		p.Batches = p.Batches[:len(p.Batches)-2]
	})
	for _, limit := range []int{1, 2, 5, 100} {
		for _, from := range []string{"", begin} {
			var got []string
			token, rounds := from, 0
			for more := true; more; rounds++ {
				part := d.syncSome(t, nell, token, fmt.Sprint(limit))
				if n := len(part.changed) + len(part.gone); n > limit || n == 0 && part.more {
					t.Fatalf("got %d at a time, want at most %d", n, limit)
				}
				got = append(got, part.changed...)
				if from != "" { // a program that comes for the first time knows none of what is gone
					got = append(got, part.gone...)
				}
				token, more = part.token, part.more
			}
			want := d.sync(t, nell, from)
			if !slices.Equal(slices.Sorted(slices.Values(got)), slices.Sorted(slices.Values(append(want.changed, want.gone...)))) {
				t.Errorf("%d at a time: got %v, want %v (of %d)", limit, got, want, len(all))
			}
			if last := d.sync(t, nell, token); len(last.changed)+len(last.gone) != 0 {
				t.Errorf("%d at a time: got %+v after the last part, want nothing", limit, last)
			}
		}
	}
	for _, limit := range []string{"0", "-1", "x"} {
		if w := d.ask(nell, "REPORT", tasksOf(nell), syncBody("", limit)); w.Code != 400 {
			t.Errorf("a limit of %s: got %d, want 400", limit, w.Code)
		}
	}
}

// How far back a token may lie, and how many members are remembered that are gone, has a bound; a token that is
// not told of one any more is refused.
func TestWhatIsRememberedIsBounded(t *testing.T) {
	d := stood(t)
	first := d.sync(t, nell, "").token
	middle := ""
	for n := range mostStates + 40 {
		d.kitchen.change(func(p *schedule.Plan) { p.Batches[1] = sampleBatch(100+2*n, p.From.Add(resources.Day)) })
		if token := d.sync(t, nell, "").token; n == mostStates {
			middle = token
		}
	}
	if w := d.ask(nell, "REPORT", tasksOf(nell), syncBody(first, "")); w.Code != 403 {
		t.Errorf("the first token: got %d, want 403", w.Code)
	}
	if got := d.sync(t, nell, middle); len(got.changed) != 2 || len(got.gone) != 2*39 {
		t.Errorf("a token of 39 changes ago: got %d and %d gone, want 2 and 78", len(got.changed), len(got.gone))
	}
	s := d.journal.people[idOf("Nell")]
	if len(s.States) > mostStates || len(s.Members)-len(s.there()) > mostGone {
		t.Errorf("got %d states and %d members", len(s.States), len(s.Members))
	}
	if n := len(d.files.text[File]); n > 200<<10 {
		t.Errorf("the file has %d bytes", n)
	}
}

// A journal that is damaged, or cannot be kept, is said; tasks are served all the same, and a token from before
// is refused.
func TestTheJournalIsDamaged(t *testing.T) {
	d := stood(t)
	token := d.sync(t, nell, "").token
	good := string(d.files.text[File])
	for name, text := range map[string]string{
		"cut short": good[:len(good)/2], "empty": "", "another format": strings.Replace(good, journalFormat, "ripeby/tasks/9", 1),
		"no states":              `{"format":"ripeby/tasks/1","people":{"` + idOf("Nell") + `":{}}}`,
		"nobody":                 `{"format":"ripeby/tasks/1","people":{"` + idOf("Nell") + `":null}}`,
		"a member of the future": strings.Replace(good, `"nr":1}`, `"nr":7}`, 3),
	} {
		d.files.text[File], d.said = []byte(text), nil
		d.restart()
		if w := d.ask(nell, "REPORT", tasksOf(nell), syncBody("", "")); w.Code != 207 || len(read(t, w.Body.String()).Responses) != 3 {
			t.Errorf("%s: got %d, want the tasks", name, w.Code)
		}
		if strings.HasPrefix(name, "cut") && (len(d.said) != 1 || !strings.Contains(d.said[0], "damaged")) {
			t.Errorf("%s: got %q said", name, d.said)
		}
	}
	d.files.full, d.said = errors.New("disk full"), nil
	d.kitchen.change(func(p *schedule.Plan) { p.Batches = p.Batches[1:] })
	if got := d.sync(t, nell, token); len(got.gone) != 1 || len(d.said) == 0 {
		t.Errorf("a full disk: got %+v, and %q said", got, d.said)
	}
	d.restart()
	if w := d.ask(nell, "REPORT", tasksOf(nell), syncBody(d.sync(t, nell, "").token+"x", "")); w.Code != 403 {
		t.Errorf("got %d, want 403", w.Code)
	}
}
