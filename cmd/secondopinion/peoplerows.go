package main

import (
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
)

// hoursRow is a person's starts for a length of work, and what each costs.
type hoursRow struct {
	begin []int
	avoid []int // by start step, nil when nothing is avoided
}

// capRow limits a person's work, in whole steps, of the pieces that start on a day.
type capRow struct {
	person      int
	day         resources.Span
	left        resources.Minutes // of the day's most, less the round and what has begun
	first, past int               // the day's steps, half-open
	most        int
}

// horizon is every moment at which planned work may lie, with room on both sides for
// what only touches it.
func (s *statement) horizon() resources.Span {
	return resources.Span{From: s.zero.Add(-3 * resources.Day), Until: s.moment(s.steps + 1).Add(3 * resources.Day)}
}

// hoursOf gives the starts of person i for work of so many steps: wholly in one
// window, and not in the block of that person's round.
func (s *statement) hoursOf(i, length int) hoursRow {
	k := &s.p.Kitchen
	who := &k.People[i]
	free := who.Windows(s.horizon(), k.Zone)
	rather := who.Avoids(s.horizon(), k.Zone)
	blocks := s.blocked(i)
	row := hoursRow{}
	if len(rather) > 0 {
		row.avoid = make([]int, s.steps+1)
	}
	for x := 0; x <= s.steps; x++ {
		from := s.moment(x)
		work := resources.Span{From: from, Until: from.Add(resources.Minutes(length) * s.step)}
		inside := slices.ContainsFunc(free, func(w resources.Span) bool { return w.Contains(work) })
		if !inside || slices.ContainsFunc(blocks, work.Overlaps) {
			continue
		}
		row.begin = append(row.begin, x)
		for _, r := range resources.Intersect(rather, []resources.Span{work}) {
			row.avoid[x] += int(r.Length())
		}
		if row.avoid != nil {
			row.avoid[x] /= 5
		}
	}
	return row
}

// blocked lists when person i may do no planned work within hours: the rounds, and work
// that has begun.
func (s *statement) blocked(i int) []resources.Span {
	var out []resources.Span
	for _, d := range s.p.Kitchen.Rounds(s.horizon()) {
		if d.Person == i {
			out = append(out, d.Span)
		}
	}
	return append(out, s.begunWork(i)...)
}

// costs is what a start costs.
func (r *hoursRow) costs(x int) int {
	if r.avoid == nil {
		return 0
	}
	return r.avoid[x]
}

// stretch is starts from one step to another, both included, that cost the same.
type stretch struct{ first, last, cost int }

// stretches puts starts, in order, into as few as there are.
func stretches(starts []int, cost func(x int) int) []stretch {
	var out []stretch
	for _, x := range starts {
		if n := len(out) - 1; n >= 0 && out[n].last == x-1 && out[n].cost == cost(x) {
			out[n].last = x
			continue
		}
		out = append(out, stretch{x, x, cost(x)})
	}
	return out
}

// writeStretches writes the stretches of each person for each length, one list after
// another, and behind which of them each begins.
func writeStretches(w *generalsolver.Values, name string, rows [][]stretch) {
	at := []int{0}
	var first, last []int
	for _, row := range rows {
		for _, x := range row {
			first, last = append(first, x.first), append(last, x.last)
		}
		at = append(at, len(first))
	}
	w.List(name+"_at", at)
	w.List(name+"_first", first)
	w.List(name+"_last", last)
}

// caps lists the days on which somebody's work is limited: the round of the day is
// taken off first. Work is whole steps, so the rest is rounded down.
func (s *statement) caps() []capRow {
	k := &s.p.Kitchen
	var out []capRow
	for i, who := range k.People {
		if who.MostPerDay == resources.NoLimit {
			continue
		}
		for _, d := range resources.Days(resources.Span{From: s.zero, Until: s.moment(s.steps + 1)}, k.Zone) {
			day := d.Span(k.Zone)
			left := who.MostPerDay
			for _, r := range k.Rounds(s.horizon()) {
				if r.Person == i && day.From <= r.Span.From && r.Span.From < day.Until {
					left -= r.Span.Length()
				}
			}
			for _, work := range s.begunWork(i) {
				if day.From <= work.From && work.From < day.Until {
					left -= work.Length()
				}
			}
			first, past := max(s.stepFrom(day.From), 0), min(s.stepFrom(day.Until), s.steps+1)
			out = append(out, capRow{i, day, left, first, past, max(0, int(left/s.step))})
		}
	}
	return out
}

func (s *statement) writePeople(w *generalsolver.Values) {
	w.Note("people: where work of a length may start, and what it costs there")
	people := s.p.Kitchen.People
	w.Number("people", len(people))
	w.Number("lengths", len(s.lengths))
	w.List("span", s.lengths)
	var begin, avoid [][]stretch // of each person for each length
	for i := range people {
		for _, n := range s.lengths {
			row := s.hoursOf(i, n)
			begin = append(begin, stretches(row.begin, func(int) int { return 0 }))
			avoid = append(avoid, slices.DeleteFunc(stretches(row.begin, row.costs), func(x stretch) bool { return x.cost == 0 }))
		}
	}
	writeStretches(w, "begin", begin)
	writeStretches(w, "avoid", avoid)
	var costs []int
	for _, x := range slices.Concat(avoid...) {
		costs = append(costs, x.cost)
	}
	w.List("avoid_cost", costs)
	var who, most []int
	var days [][2]int
	for _, c := range s.caps() {
		who, most = append(who, c.person+1), append(most, c.most)
		days = append(days, [2]int{c.first, c.past - 1})
	}
	w.Number("caps", len(who))
	w.List("cap_of", who)
	w.Ranges("cap_day", days)
	w.List("cap", most)
}
