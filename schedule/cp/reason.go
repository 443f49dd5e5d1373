package cp

import (
	"context"
	"slices"
)

// ReasonKind tells what is known of a demand that is short.
type ReasonKind int

// What can be known.
const (
	ReasonOpen   ReasonKind = iota // nothing: more work might find a plan
	ReasonNoMode                   // no mode can be made with what there is
	ReasonTime                     // the chain is longer than the time that is left
	ReasonFacts                    // facts forbid it
)

// Reason is why a demand is short. Of ReasonFacts each set by itself, whatever the other
// facts were, forbids that the demand gets one unit more while those named get no less
// than they do.
type Reason struct {
	Demand int
	Kind   ReasonKind
	Sets   []FactSet
	Enough bool // with all facts of all sets lifted and every other kept there is such a plan
	Least  int  // ReasonTime: ticks that the chain takes at the least
	Left   int  // and the ticks that there are
}

// FactSet is facts that forbid something together, in order.
type FactSet struct {
	Facts []Fact
	Least bool // without any one of them the rest does not forbid it
}

// setsShown is how many reasons of one demand are looked for at the most: each by itself
// forbids it, and lifting one only shows the next.
const setsShown = 3

// reasonShare: one part in so many of a budget is kept for the reasons of what is
// short, beside what the proof leaves.
const reasonShare = 8

// explain finds the reasons of all demands that are short, within so much counted work.
func explain(ctx context.Context, s *plan, budget int64) []Reason {
	var out []Reason
	until := s.spent + budget
	var todo []int
	for d, n := range s.unmet {
		if n > 0 {
			r := plainReason(s, d)
			out = append(out, r)
			if r.Kind == ReasonOpen {
				todo = append(todo, len(out)-1)
			}
		}
	}
	var r *reasons
	for i, x := range todo {
		share := (until - s.spent) / int64(len(todo)-i)
		if share <= 0 || ctx.Err() != nil {
			break
		}
		if d := out[x].Demand; r == nil || !r.covers(d) {
			if r = newReasons(ctx, s, d, false, nil); r == nil {
				if s.isWhole() {
					break // it would be the same statement again
				}
				continue
			}
		}
		r.until = s.spent + share
		out[x] = r.reason(out[x].Demand, 1, setsShown)
	}
	return out
}

// plainReason is the reason that needs no search: no size, no time.
func plainReason(s *plan, d int) Reason {
	r := Reason{Demand: d}
	dm := &s.m.Demands[d]
	f := &s.m.Families[dm.Family]
	if len(f.Modes) == 0 {
		r.Kind = ReasonNoMode
		return r
	}
	r.Least, r.Left = leastLength(&f.Modes[0]), dm.Due-dm.Ahead-s.first
	if r.Least > r.Left && !hasSources(s, d) {
		r.Kind = ReasonTime
	}
	return r
}

// hasSources reports whether stock or something under way could serve a demand: then it
// is not for want of time alone that it is short.
func hasSources(s *plan, d int) bool {
	dm := &s.m.Demands[d]
	return slices.ContainsFunc(s.relax.sources(&s.schedule, dm.Family), func(src source) bool {
		return src.readyMin <= dm.Due-dm.Ahead && dm.Due <= src.readyMax+s.m.Families[dm.Family].Keeps
	})
}

// leastLength is the least time from the first start to the end of the last work.
func leastLength(m *Mode) int {
	n := 0
	for i := range m.Acts {
		n += m.Acts[i].Work
		if i < len(m.Acts)-1 {
			n += m.Acts[i].Lag.Least
		}
	}
	return n
}
