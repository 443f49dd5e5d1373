package search

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
)

// paper is every plan of a tiny model as values of the kernel's variables, for one
// statement. Each step of a proof is held against those that are still allowed.
//
// A plan says nothing of what a job that is not made would do, nor how far a bound that
// only has to be high enough is above that: each plan has two entries, one with the least
// values and one with values by chance. What boxes leave out is seen by the first: in the
// other they may be said to stand for longer than they do.
type paper struct {
	p      *prover
	rows   [][]int32
	stands []bool // its boxes can stand, and it has the least values
	open   marks  // rows that what was stated since leaves
	known  map[kernel.Lit]marks
	seen   *proofTally
}

// marks is a set of rows.
type marks []uint64

func (a marks) empty() bool { return !slices.ContainsFunc(a, func(w uint64) bool { return w != 0 }) }

type proofTally struct {
	models, plans, proved, statements, rows, beyond    int
	reasons, conflicts, learned, held, boxes, excluded int
	questions, refused                                 int // asked beside the proof
	leaving                                            int // models in which something under way is left where it is
	telling                                            int // reasons whose premises hold in some plan
	fault                                              string
}

func (n *proofTally) fail(format string, args ...any) {
	if n.fault == "" {
		n.fault = fmt.Sprintf(format, args...)
	}
}

// newPaper turns plans into entries for the prover's present statement: every one
// must be let in that can stand.
func newPaper(p *prover, plans []tiny.ListedPlan, r *rand.Rand, seen *proofTally) *paper {
	l := &paper{p: p, seen: seen, known: map[kernel.Lit]marks{}}
	seen.statements++
	spent := p.s.Spent
	q, ok := statement.Of(&p.s.Schedule, p.s.Frozen, p.count)
	p.s.Spent = spent
	if !ok {
		seen.fail("stated once, but not twice")
		return l
	}
	costs := costsOf(q)
	mayLeave := slices.ContainsFunc(q.Slots, func(sl *statement.Slot) bool { return sl.Begun >= 0 && !q.Kernel.Fixed(sl.Here) })
	for i := range plans {
		if plans[i].Cost.Stuck > 0 && !mayLeave {
			continue // such plans are not asked for
		}
		stands := tiny.CanStand(p.s.Model, &plans[i], func(b int) bool { return p.s.Homes[b].Homeless })
		pins, beyond, err := pinListed(q, &plans[i])
		if err != nil {
			if stands {
				seen.fail("plan %s: %v", plans[i].Text(), err)
			}
			continue
		}
		for n, branch := range []func(*kernel.Solver) (kernel.Lit, bool){nil, randomBut(r, costs)} {
			q.Kernel.Branch(branch)
			st := q.Kernel.Search(context.Background(), 1<<40, pins...)
			if st != kernel.Solved {
				if stands {
					seen.fail("plan %s: the statement does not let it in", plans[i].Text())
				}
				break
			}
			row := make([]int32, q.Kernel.Vars())
			for x := range row {
				row[x] = q.Kernel.Value(kernel.Var(x))
			}
			l.rows, l.stands = append(l.rows, row), append(l.stands, stands && n == 0)
			if beyond == 0 {
				for part, x := range q.Cost {
					if got, want := row[x], q.Value(plans[i].Cost, part); got != want {
						seen.fail("plan %s: part %d of the cost stated as %d, want %d", plans[i].Text(), part+1, got, want)
					}
				}
			}
		}
		seen.beyond += min(beyond, 1)
	}
	seen.rows += len(l.rows)
	l.open = make(marks, (len(l.rows)+63)/64)
	for i := range l.rows {
		l.open[i/64] |= 1 << (i % 64)
	}
	return l
}

// costsOf are the variables that are to be as low as the plan lets them be.
func costsOf(q *statement.Statement) map[kernel.Var]bool {
	out := map[kernel.Var]bool{}
	for _, x := range q.Cost {
		out[x] = true
	}
	for _, sl := range q.Slots {
		out[sl.Penalty], out[sl.Amount], out[sl.Early] = true, true, true
	}
	for _, o := range q.Over {
		out[o.Amount] = true
	}
	delete(out, q.Zero) // of slots under way, which have neither amount nor early
	return out
}

// randomBut decides by chance, but gives the least value to some, which come first.
func randomBut(r *rand.Rand, least map[kernel.Var]bool) func(*kernel.Solver) (kernel.Lit, bool) {
	return func(s *kernel.Solver) (kernel.Lit, bool) {
		for x := range kernel.Var(s.Vars()) {
			if least[x] && !s.Fixed(x) {
				return x.Le(s.Min(x)), true
			}
		}
		from := r.IntN(s.Vars())
		for i := range s.Vars() {
			x := kernel.Var((from + i) % s.Vars())
			if lo, hi := s.Min(x), s.Max(x); lo < hi {
				v := lo + int32(r.IntN(int(hi-lo)))
				if r.IntN(2) == 0 {
					return x.Ge(v + 1), true
				}
				return x.Le(v), true
			}
		}
		return kernel.Lit{}, false
	}
}

// where is the set of rows in which a literal is true.
func (l *paper) where(lit kernel.Lit) marks {
	if known, ok := l.known[lit]; ok {
		return known
	}
	out := make(marks, len(l.open))
	for i, row := range l.rows {
		row = l.p.k.WithSums(row)
		l.rows[i] = row
		v := row[lit.B.Var()]
		if lit.B&1 != 0 {
			v = -v
		}
		if v >= lit.V {
			out[i/64] |= 1 << (i % 64)
		}
	}
	l.known[lit] = out
	return out
}

// against gives the allowed rows in which all premises hold, and none of the others.
func (l *paper) against(premises, others []kernel.Lit) marks {
	out := slices.Clone(l.open)
	for _, p := range premises {
		for w, bits := range l.where(p) {
			out[w] &= bits
		}
	}
	for _, o := range others {
		for w, bits := range l.where(o) {
			out[w] &^= bits
		}
	}
	return out
}

// audit has every step of the prover's kernel held against the rows.
func (l *paper) audit() *kernel.Audit {
	s, seen := l.p.k.Kernel, l.seen
	now := func(premises []kernel.Lit) {
		for _, p := range premises {
			if !s.True(p) {
				seen.fail("premise %v of %v is not true when used", p, premises)
			}
		}
	}
	return &kernel.Audit{
		Implied: func(lit kernel.Lit, premises []kernel.Lit) {
			seen.reasons++
			now(premises)
			held := l.against(premises, nil)
			if held.empty() {
				return
			}
			seen.telling++
			for w, bits := range l.where(lit) {
				if held[w]&^bits != 0 {
					seen.fail("%v was said to follow from %v", lit, premises)
				}
			}
		},
		Conflict: func(premises []kernel.Lit) {
			seen.conflicts++
			now(premises)
			if !l.against(premises, nil).empty() {
				seen.fail("%v were said to be impossible together", premises)
			}
		},
		Learned: func(clause []kernel.Lit) {
			seen.learned++
			if !l.against(nil, clause).empty() {
				seen.fail("learned %v", clause)
			}
		},
		Stated: l.stated,
	}
}

// stated takes a clause that the prover adds: a part of the cost that is held, which
// may leave plans out, or boxes that are said not to stand, which may leave out only
// such plans as do not.
func (l *paper) stated(clause []kernel.Lit) {
	broken := l.against(nil, clause)
	if len(clause) == 1 && slices.Contains(l.p.k.Cost[:], clause[0].B.Var()) {
		l.seen.held++
	} else {
		l.seen.boxes++
		for i := range l.rows {
			if broken[i/64]>>(i%64)&1 == 0 {
				continue
			}
			if l.stands[i] && !l.p.doubt {
				l.seen.fail("boxes said not to stand: %v leaves out a plan in which they do", clause)
			}
			l.seen.excluded++
		}
	}
	for w := range l.open {
		l.open[w] &^= broken[w]
	}
}
