package dav

import (
	"sync"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// Programs of both people ask, tick and take back while the plan changes: each answer is whole, what is ticked
// is said once, and at the end nothing is left to sync.
func TestManyAtOnce(t *testing.T) {
	d := stood(t)
	var all sync.WaitGroup
	for n := range 8 {
		all.Go(func() {
			who := nell
			if n%2 == 1 {
				who = ivo
			}
			token := ""
			for range 20 {
				token = d.sync(t, who, token).token
			}
		})
	}
	all.Go(func() {
		for n := range 20 {
			d.kitchen.change(func(p *schedule.Plan) {
				p.Batches = append(p.Batches[:2:2], sampleBatch(50+n, p.From.Add(resources.Minutes(n+4)*resources.Day)))
			})
		}
	})
	at := d.at(t, nell, "BH-1", "make")
	text, tag := d.get(t, nell, at)
	codes := make([]int, 8)
	for n := range codes {
		all.Go(func() { codes[n] = d.put(nell, at, with(text, "STATUS:COMPLETED"), "If-Match", tag).Code })
	}
	all.Wait()
	done := 0
	for _, code := range codes {
		if code == 204 {
			done++
		}
	}
	if done == 0 || len(d.kitchen.heard) != 1 {
		t.Errorf("eight times the same tick: got %v and %d things said, want one", codes, len(d.kitchen.heard))
	}
	for _, who := range []string{"Nell", "Ivo"} {
		s := d.journal.people[idOf(who)]
		if len(s.there()) == 0 {
			t.Errorf("%s has no tasks", who)
		}
	}
	token := d.sync(t, nell, "").token
	if last := d.sync(t, nell, token); len(last.changed)+len(last.gone) != 0 {
		t.Errorf("got %+v at the end, want nothing", last)
	}
}
