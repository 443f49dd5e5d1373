package cp

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// naiveBest tries every way of placing one job beside what is on the board.
func naiveBest(m *Model, b *board, q *query, supply int, drawn []int64) (found bool, cost int64, first int) {
	mode := q.mode
	k := q.k
	var sizes []int
	n := len(mode.Acts)
	for i := k; i < n; i++ {
		sizes = append(sizes, max(1, len(mode.Acts[i].Workers)))
	}
	for r := range mode.Runs {
		if mode.Runs[r].First < k {
			sizes = append(sizes, 1)
		} else {
			sizes = append(sizes, len(mode.Runs[r].Choices))
		}
	}
	for r := range mode.Stays {
		if mode.Stays[r].First < k {
			sizes = append(sizes, 1)
		} else {
			sizes = append(sizes, len(mode.Stays[r].Spaces))
		}
	}
	naiveStarts(m, mode, q.starts[:k], q.readyMin, q.readyMax, func(starts []int) {
		if supply >= 0 && !naiveDraw(m, supply, starts[0], mode.Amount, drawn) {
			return
		}
		mixed(sizes, func(pick []int) {
			workers := append([]int(nil), q.workers[:k]...)
			for i := k; i < n; i++ {
				w := -1
				if mode.Acts[i].Work > 0 {
					w = mode.Acts[i].Workers[pick[i-k]]
				}
				workers = append(workers, w)
			}
			choices := append([]int(nil), pick[n-k:n-k+len(mode.Runs)]...)
			spaces := make([]int, len(mode.Stays))
			for r := range choices {
				if mode.Runs[r].First < k {
					choices[r] = q.choices[r]
				}
			}
			for r := range spaces {
				if mode.Stays[r].First < k {
					spaces[r] = q.homes[r].Space
				} else {
					spaces[r] = mode.Stays[r].Spaces[pick[n-k+len(mode.Runs)+r]]
				}
			}
			end := q.end
			if end == nowhere {
				end = starts[n-1] + mode.Acts[n-1].Work + q.endLeast
			}
			p := partOf(mode, q.facts, starts, workers, choices, spaces, end)
			c := naiveBother(m, mode, q.begun, k, starts, workers)
			if found && (c > cost || (c == cost && starts[0] <= first)) && k == 0 || found && k > 0 && c >= cost {
				return
			}
			b.put(p, 1)
			ok := b.fault(p) == "" && naiveStands(m, b, p, mode)
			b.put(p, -1)
			if ok {
				found, cost, first = true, c, starts[0]
			}
		})
	})
	return found, cost, first
}

func naiveDraw(m *Model, supply, t int, amount int64, drawn []int64) bool {
	for i, in := range m.Intakes {
		if in.Supply == supply && in.Ready <= t && t <= in.Until && in.Amount-drawn[i] >= amount {
			return true
		}
	}
	return false
}

// naiveStands reports whether the planned boxes of p find places on floors.
func naiveStands(m *Model, b *board, p part, mode *Mode) bool {
	for r, x := range p.stays {
		sp := &m.Spaces[x.thing]
		if len(sp.Floors) == 0 || x.until <= x.from || x.fact {
			continue
		}
		kind := m.Kinds[mode.Stays[r].Kind]
		room := 0
		for f := range sp.Floors {
			shut := false
			for _, c := range sp.Floors[f].Closed {
				shut = shut || max(c.From, x.from) < min(c.Until, x.until)
			}
			if shut {
				continue
			}
			var fixed []Placed
			for _, y := range b.measured {
				if y.thing != x.thing || max(x.from, y.from) >= min(x.until, y.until) {
					continue
				}
				for _, st := range y.stacks {
					if st.Floor == f {
						fixed = append(fixed, st.Place)
					}
				}
			}
			room += naiveRoom(sp.Floors[f].Size.W, kind.Size.W, fixed) * int(sp.Floors[f].Height/kind.Height)
		}
		if room < x.amount {
			return false
		}
	}
	return true
}

// placeAgainst asks place and the naive search the same and compares.
func placeAgainst(t *rapid.T, m *Model, exact bool, tally *counts) {
	s := newSchedule(m)
	b := newBoard(m)
	for x := 0; x < drawInt(t, 0, 3, "others"); x++ {
		f := drawInt(t, 0, len(m.Families)-1, "other family")
		q := s.query(f, 0, drawWindow(t, m, f))
		j, ok := s.place(q)
		if !ok {
			continue
		}
		j.Family, j.Mode = f, 0
		s.add(j)
		p := jobPart(m, j)
		b.put(p, 1)
		for _, st := range p.stays {
			if st.until > st.from {
				b.measured = append(b.measured, st)
			}
		}
		if f := b.fault(p); f != "" {
			t.Fatalf("the engine placed a job wrongly: %s\n%s", f, told(m, j))
		}
	}
	if f := b.standingFault(); f != "" {
		t.Fatal(f)
	}
	f := drawInt(t, 0, len(m.Families)-1, "family")
	mode := drawInt(t, 0, len(m.Families[f].Modes)-1, "mode")
	q := s.query(f, mode, drawWindow(t, m, f))
	if n := len(q.mode.Acts); n > 1 && oneIn(t, 3, "carries on") {
		fixPrefix(t, m, q, b, s)
	}
	found, cost, first := naiveBest(m, b, q, q.supply, s.drawn)
	j, ok := s.place(q)
	tally.all++
	if ok {
		j.Family, j.Mode = f, mode
		p := partOf(q.mode, q.facts, j.Starts, j.Workers, j.Choices, spacesOf(j), j.End)
		b.put(p, 1)
		if fault := b.fault(p); fault != "" || !naiveStands(m, b, p, q.mode) {
			t.Fatalf("placed wrongly: %q\n%s", fault, told(m, j))
		}
		if c := naiveBother(m, q.mode, q.begun, q.k, j.Starts, j.Workers); c != j.Bother {
			t.Fatalf("bother %d, counted by hand %d\n%s", j.Bother, c, told(m, j))
		}
		if !found || j.Bother < cost {
			t.Fatalf("better than the best: %d, want %v %d\n%s", j.Bother, found, cost, told(m, j))
		}
	}
	same := ok == found && (!ok || j.Bother == cost && (q.k > 0 || j.Starts[0] == first))
	if same {
		tally.same++
	}
	if found {
		tally.found++
	}
	if exact && !same {
		t.Fatalf("place: %v %+v; by hand %v cost %d first %d\nquery %+v\nmode %+v\nmodel %+v", ok, j, found, cost, first, *q, *q.mode, *m)
	}
}

type counts struct{ all, found, same int }

func drawWindow(t *rapid.T, m *Model, f int) window {
	end := drawInt(t, m.From+8, m.Horizon, "end")
	w := window{readyMin: end - drawInt(t, 5, 20, "keeps"), readyMax: end - drawInt(t, 1, 3, "ahead"), end: end}
	return w
}

// fixPrefix makes the query one of a job whose first activity began before the start.
func fixPrefix(t *rapid.T, m *Model, q *query, b *board, s *schedule) {
	act := &q.mode.Acts[0]
	q.k, q.facts, q.begun, q.supply = 1, 1, true, -1
	if oneIn(t, 3, "serves nothing") {
		q.end, q.endLeast = nowhere, drawInt(t, 0, 2, "rests")
		q.readyMin, q.readyMax = -Infinite, m.Horizon
	}
	q.starts = []int{m.From - act.Work - drawInt(t, 0, 3, "ago")}
	q.workers = []int{-1}
	q.choices = make([]int, len(q.mode.Runs))
	q.homes = make([]StayPlace, len(q.mode.Stays))
	for r, run := range q.mode.Runs {
		q.choices[r] = drawInt(t, 0, len(run.Choices)-1, "began in")
	}
	for r, stay := range q.mode.Stays {
		q.homes[r].Space = -1
		if stay.First > 0 {
			continue
		}
		q.homes[r] = StayPlace{Space: stay.Spaces[0]}
		if len(m.Spaces[stay.Spaces[0]].Floors) > 0 {
			q.homes[r].Homeless = true
		}
	}
}

func spacesOf(j *Job) []int {
	out := make([]int, len(j.Stays))
	for r := range out {
		out[r] = j.Stays[r].Space
	}
	return out
}

func jobPart(m *Model, j *Job) part {
	mode := &m.Families[j.Family].Modes[j.Mode]
	p := partOf(mode, 0, j.Starts, j.Workers, j.Choices, spacesOf(j), j.End)
	for r := range p.stays {
		p.stays[r].stacks = j.Stays[r].Stacks
	}
	return p
}

func told(m *Model, j *Job) string { return fmt.Sprintf("job %+v\nmodel %+v", *j, *m) }

func TestPlaceIsBest(t *testing.T) {
	var tally counts
	checkMany(t, 40, func(t *rapid.T) {
		m := drawModel(t, tiny{families: 2, acts: 3, length: 24, days: true, avoid: true, floors: true, closed: true, intakes: oneIn(t, 2, "milk")})
		placeAgainst(t, m, true, &tally)
	})
	t.Logf("%d questions, %d with an answer, %d answered exactly", tally.all, tally.found, tally.same)
}

// Runs of one job that meet in one pool, with a choice of pools or cleaning, are
// checked after the chain is found: place may then miss a way, but never errs.
func TestPlaceNeverErrsWhereRunsMeet(t *testing.T) {
	var tally counts
	checkMany(t, 40, func(t *rapid.T) {
		m := drawModel(t, tiny{families: 2, acts: 3, length: 24, clash: true, closed: true})
		placeAgainst(t, m, false, &tally)
	})
	t.Logf("%d questions, %d with an answer, %d answered exactly", tally.all, tally.found, tally.same)
}
