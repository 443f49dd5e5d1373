package cp

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
)

// chainWorld is one slot whose bother alone is stated, with every chain that its
// tables have.
type chainWorld struct {
	k      *asked
	sl     *slot
	chains []listedChain
	seen   chainTally
	fault  string // the first thing found wrong
}

// listedChain is one chain: values of the slot's variables but the bother, which may
// be anything from cost on.
type listedChain struct {
	values []int32
	cost   int32
}

type chainTally struct {
	models, chains, ways, reasons, conflicts, learned, solved, refused int
	narrowed, absent, least, whole                                     int // reasons by what they conclude
}

// newChainWorld states the bother of a slot and lists its chains; not ok where it has none.
func newChainWorld(s *schedule, sl *slot) (*chainWorld, bool) {
	m := s.m
	k := &asked{s: s, m: m, g: grid{floorTo(m.From, m.Step), m.Step}, k: kernel.New()}
	k.yes = k.k.NewVar(1, 1).Ge(1)
	c, ok := s.chainsOf(k.g, &sl.prospect)
	if !ok {
		return nil, false
	}
	sl.chains = c
	sl.here = k.k.NewVar(0, 1)
	sl.size = k.k.NewVar(0, int32(len(sl.modes)-1))
	sl.bother = k.k.NewVar(0, plenty)
	for i := range sl.acts() {
		if i < sl.fixed {
			sl.start, sl.who = append(sl.start, k.k.NewVar(0, 0)), append(sl.who, nil)
			continue
		}
		sl.start = append(sl.start, k.k.NewVar(c.lo[i], c.hi[i]))
		var who []kernel.Lit
		if sl.modes[0].Acts[i].Work > 0 {
			who = k.oneOf(len(sl.modes[0].Acts[i].Workers))
		}
		sl.who = append(sl.who, who)
	}
	k.addBother(sl)
	w := &chainWorld{k: k, sl: sl}
	for size, z := range c.sizes {
		if z.lo == nil {
			continue
		}
		values := make([]int32, k.k.Vars())
		values[k.yes.B.Var()], values[sl.here], values[sl.size] = 1, 1, int32(size)
		w.list(z, values, sl.fixed, 0, 0)
	}
	return w, len(w.chains) > 0
}

// list goes on with a chain whose work before activity i ended at a step, at a cost.
func (w *chainWorld) list(z *sizeCosts, values []int32, i int, done, cost int32) {
	sl := w.sl
	if i == sl.acts() {
		w.chains = append(w.chains, listedChain{slices.Clone(values), cost})
		return
	}
	for x, own := range z.any[i] {
		t := z.lo[i] + int32(x)
		lag := int32(0)
		switch {
		case i > sl.fixed:
			at := t - done - z.least[i-1]
			if at < 0 || int(at) >= len(z.lags[i-1]) {
				continue
			}
			lag = z.lags[i-1][at]
		case i > 0:
			lag = z.first[x]
		}
		values[sl.start[i]] = t
		for p := range max(len(sl.who[i]), 1) {
			if len(sl.who[i]) > 0 {
				own = z.own[i][p][x]
			}
			for o, l := range sl.who[i] {
				w.k.want(values, l, o == p)
			}
			if own < unreachable && lag < unreachable {
				w.list(z, values, i+1, t+z.work[i], cost+own+lag)
			}
		}
	}
}

// together reports whether literals hold together in some chain at some bother, or
// while the job is not made.
func (w *chainWorld) together(lits []kernel.Lit) bool {
	k, sl := w.k, w.sl
	low, high := map[kernel.Var]int32{}, map[kernel.Var]int32{}
	within := func(x kernel.Var, v int32) bool {
		lo, some := low[x]
		hi, less := high[x]
		return (!some || lo <= v) && (!less || v <= hi)
	}
	for _, l := range lits {
		x := l.B.Var()
		if l.B&1 == 0 {
			if v, some := low[x]; !some || v < l.V {
				low[x] = l.V
			}
		} else if v, some := high[x]; !some || v > -l.V {
			high[x] = -l.V
		}
	}
	most, limited := high[sl.bother]
	if !limited {
		most = plenty
	}
	for _, c := range w.chains {
		ok := max(c.cost, low[sl.bother]) <= most
		for x := kernel.Var(0); ok && int(x) < len(c.values); x++ {
			ok = x == sl.bother || within(x, c.values[x])
		}
		if ok {
			return true
		}
	}
	if !within(sl.here, 0) || !within(k.yes.B.Var(), 1) || max(0, low[sl.bother]) > most {
		return false
	}
	some := func(x kernel.Var, lo, hi int32) bool {
		for v := lo; v <= hi; v++ {
			if within(x, v) {
				return true
			}
		}
		return false
	}
	ok := some(sl.size, 0, int32(len(sl.modes)-1))
	for i := sl.fixed; i < sl.acts(); i++ {
		ok = ok && some(sl.start[i], sl.chains.lo[i], sl.chains.hi[i]) && w.anyWho(i, within)
	}
	return ok
}

// anyWho reports whether some worker of an activity is let in.
func (w *chainWorld) anyWho(i int, within func(kernel.Var, int32) bool) bool {
	values := make([]int32, w.k.k.Vars())
	for p := range w.sl.who[i] {
		ok := true
		for o, l := range w.sl.who[i] {
			w.k.want(values, l, o == p)
		}
		for _, l := range w.sl.who[i] {
			ok = ok && (l == w.k.yes || within(l.B.Var(), values[l.B.Var()]))
		}
		if ok {
			return true
		}
	}
	return len(w.sl.who[i]) == 0
}

// audit checks every step against the chains.
func (w *chainWorld) audit() {
	k := w.k.k
	deny := func(what string, premises []kernel.Lit, then ...kernel.Lit) {
		for _, p := range premises {
			if !k.True(p) {
				w.fail("premise %v of %v is not true when used", p, premises)
			}
		}
		all := slices.Clone(premises)
		for _, l := range then {
			all = append(all, l.Not())
		}
		if w.together(all) {
			w.fail("%s: %v from %v, but there is a chain without", what, then, premises)
		}
	}
	k.SetAudit(&kernel.Audit{
		Implied: func(l kernel.Lit, premises []kernel.Lit) {
			w.seen.reasons++
			switch {
			case l.B == w.sl.bother.Up():
				w.seen.least++
				if len(premises) > 4 {
					w.seen.whole++
				}
			case l == w.sl.present().Not():
				w.seen.absent++
			default:
				w.seen.narrowed++
			}
			deny("reason", premises, l)
		},
		Conflict: func(premises []kernel.Lit) { w.seen.conflicts++; deny("conflict", premises) },
		Learned:  func(clause []kernel.Lit) { w.seen.learned++; deny("learned", nil, clause...) },
	})
}

func (w *chainWorld) fail(format string, args ...any) {
	if w.fault == "" {
		w.fault = fmt.Sprintf(format, args...)
	}
}

// anyLit is some literal of the slot: of its bother about what some chain costs.
func (w *chainWorld) anyLit(r *rand.Rand) kernel.Lit {
	k, sl := w.k.k, w.sl
	if r.IntN(4) == 0 {
		v := w.chains[r.IntN(len(w.chains))].cost + int32(r.IntN(3)) - 1
		if r.IntN(3) == 0 {
			return sl.bother.Ge(v)
		}
		return sl.bother.Le(v)
	}
	x := kernel.Var(r.IntN(k.Vars()))
	v := k.Min(x) + int32(r.IntN(int(min(k.Max(x)-k.Min(x), 1<<20))+1))
	if r.IntN(2) == 0 {
		return x.Ge(v)
	}
	return x.Le(v)
}

// ask searches under random assumptions, deciding at random, and checks the answer.
func (w *chainWorld) ask(r *rand.Rand) {
	k, sl := w.k.k, w.sl
	k.Branch(func(s *kernel.Solver) (kernel.Lit, bool) {
		from := r.IntN(s.Vars())
		for i := range s.Vars() {
			x := kernel.Var((from + i) % s.Vars())
			if lo, hi := s.Min(x), s.Max(x); lo < hi {
				v := lo + int32(r.IntN(int(hi-lo)))
				if x == sl.bother {
					v = lo
				}
				if r.IntN(2) == 0 && x != sl.bother {
					return x.Ge(v + 1), true
				}
				return x.Le(v), true
			}
		}
		return kernel.Lit{}, false
	})
	assume := []kernel.Lit{sl.present()}
	if r.IntN(4) == 0 {
		assume = nil
	}
	for range r.IntN(5) {
		assume = append(assume, w.anyLit(r))
	}
	switch k.Search(context.Background(), 1<<40, assume...) {
	case kernel.Impossible:
		w.seen.refused++
		if w.together(assume) {
			w.fail("%v: said to be impossible, but there is a chain", assume)
		}
	case kernel.Solved:
		w.seen.solved++
		var all []kernel.Lit
		for x := range kernel.Var(k.Vars()) {
			all = append(all, x.Ge(k.Value(x)), x.Le(k.Value(x)))
		}
		if !w.together(append(all, assume...)) {
			w.fail("%v: answered by %v, which is no chain at that bother", assume, all)
		}
	}
}

// holdsWays checks that every way that the naive reading has for the slot is a
// chain of the tables, at its bother.
func (w *chainWorld) holdsWays(m *Model) {
	sl := w.sl
	known := map[string]int32{}
	for _, c := range w.chains {
		known[fmt.Sprint(c.values)] = c.cost
	}
	world := &whole{m: m, board: newBoard(m)}
	for size, mode := range sl.modes {
		number := size
		if sl.begun >= 0 {
			number = -1
		}
		for _, v := range world.waysOf(sl.family, number, sl.begun, mode) {
			if sl.begun < 0 && (v.end != sl.due || !w.good(m, &v)) {
				continue
			}
			w.seen.ways++
			values := make([]int32, w.k.k.Vars())
			values[w.k.yes.B.Var()], values[sl.here], values[sl.size] = 1, 1, int32(size)
			for i := sl.fixed; i < sl.acts(); i++ {
				values[sl.start[i]] = w.k.g.down(v.starts[i])
				for p, l := range sl.who[i] {
					w.k.want(values, l, mode.Acts[i].Workers[p] == v.workers[i])
				}
			}
			if cost, some := known[fmt.Sprint(values)]; !some || int64(cost) != v.cost.Bother {
				w.fail("way at %v by %v for %d: got cost %d (%v) in the tables", v.starts, v.workers, v.cost.Bother, cost, some)
			}
		}
	}
}

// good reports whether a way is ready for something due at its last delivery, from
// milk that there is enough of.
func (w *chainWorld) good(m *Model, v *way) bool {
	enough := v.intake < 0 || v.amount <= m.Intakes[v.intake].Amount
	return enough && slices.ContainsFunc(m.Demands, func(d Demand) bool {
		return d.Family == v.family && d.Due == v.end && v.ready <= d.Due-d.Ahead
	})
}

// slotsOf are all slots that a model may have, one of each.
func slotsOf(m *Model) []*slot {
	var out []*slot
	for f := range m.Families {
		for _, due := range duesOf(m, f) {
			out = append(out, &slot{prospect: prospect{family: f, begun: -1, due: due, modes: modesOf(&m.Families[f])}})
		}
	}
	for b := range m.Begun {
		if bg := &m.Begun[b]; len(bg.Starts) < len(bg.Mode.Acts) {
			out = append(out, &slot{prospect: prospect{family: bg.Family, begun: b, modes: []*Mode{&bg.Mode}, fixed: len(bg.Starts)}})
		}
	}
	return out
}

// addThirdWorker adds one who may do some of the work, so that "none of these"
// leaves more than one.
func addThirdWorker(t *rapid.T, m *Model, k tiny) {
	drawWorkers(t, m, k)
	m.Workers = m.Workers[:3]
	for f := range m.Families {
		for i := range m.Families[f].Modes[0].Acts { // the sizes share them
			if a := &m.Families[f].Modes[0].Acts[i]; oneIn(t, 2, "third helps") {
				a.Workers = append(a.Workers, 2)
			}
		}
	}
}

// lengthen has larger sizes take longer over their work, so that what bounds one
// size need not bound the next.
func lengthen(t *rapid.T, m *Model) {
	for f := range m.Families {
		modes := m.Families[f].Modes
		for k := 1; k < len(modes); k++ {
			modes[k].Acts = slices.Clone(modes[k-1].Acts)
			for i := range modes[k].Acts {
				if a := &modes[k].Acts[i]; a.Work > 0 {
					a.Work += m.Step * drawInt(t, 0, 2, "longer work")
				}
			}
		}
	}
}

// Every reason that the bother of a slot is given follows from the tables of its
// chains, what is answered is a chain, and the tables hold every way that there is.
func TestReasonsOfTheBotherFollowFromTheChains(t *testing.T) {
	var n chainTally
	checkMany(t, 15, func(t *rapid.T) {
		k := small(t)
		k.acts, k.length = drawInt(t, 1, 3, "longer"), drawInt(t, 12, 24, "length")
		m := drawModel(t, k)
		addThirdWorker(t, m, k)
		lengthen(t, m)
		s := newSchedule(m)
		s.settleHomes()
		r := rand.New(rand.NewPCG(uint64(drawInt(t, 0, 1<<30, "dice")), 1))
		for _, sl := range slotsOf(m) {
			w, ok := newChainWorld(s, sl)
			if !ok {
				continue
			}
			w.seen.models, w.seen.chains = 1, len(w.chains)
			w.holdsWays(m)
			w.audit()
			for range 20 {
				w.ask(r)
			}
			if w.fault != "" {
				t.Fatalf("%s\nslot %+v\n%s", w.fault, *sl, modelText(m))
			}
			n.add(w.seen)
		}
	})
	t.Logf("%+v", n)
	for what, got := range map[string]int{"chains": n.chains, "ways": n.ways, "conflicts": n.conflicts, "learned clauses": n.learned,
		"solved": n.solved, "refused": n.refused, "starts moved": n.narrowed, "jobs given up": n.absent, "bothers raised": n.least, "of whole chains": n.whole} {
		if got < 50 {
			t.Errorf("got %d %s: too few to mean much", got, what)
		}
	}
}

func (n *chainTally) add(o chainTally) {
	n.models, n.chains, n.ways, n.reasons, n.conflicts = n.models+o.models, n.chains+o.chains, n.ways+o.ways, n.reasons+o.reasons, n.conflicts+o.conflicts
	n.learned, n.solved, n.refused, n.narrowed = n.learned+o.learned, n.solved+o.solved, n.refused+o.refused, n.narrowed+o.narrowed
	n.absent, n.least, n.whole = n.absent+o.absent, n.least+o.least, n.whole+o.whole
}

// A job of the large size, whose work must end by 22, starts at 3 for nothing, at 6 for one
// point and later not at all. That it cannot start at 9 is no reason why it cannot at 6.
func TestStartsThatNoChainHasSayNothingOfDearOnes(t *testing.T) {
	acts := func(work int) []Activity {
		return []Activity{
			{Work: 0, Workers: []int{0}, Lag: Lag{Least: 6, Most: 12, Cost: []int32{1, 100, 5, 0, 0, 1, 20}}},
			{Work: work, Workers: []int{0}, Lag: Lag{Most: 30}},
		}
	}
	m := &Model{Step: 3, Horizon: 25, Workers: []Worker{{Windows: []Span{{0, 25}}}}, Demands: []Demand{{Due: 22, Units: 1, Value: 1}},
		Families: []Family{{Keeps: 16, Supply: -1, Modes: []Mode{{Amount: 1, Units: 1, Acts: acts(6)}, {Amount: 2, Units: 2, Acts: acts(9)}}}}}
	s := newSchedule(m)
	w, ok := newChainWorld(s, slotsOf(m)[0])
	if !ok {
		t.Fatal("no chain at all")
	}
	w.audit()
	sl, k := w.sl, w.k
	large, cheap := sl.size.Ge(1), sl.bother.Le(0)
	if st := k.k.Search(context.Background(), 1<<30, cheap, large, sl.start[0].Ge(k.g.up(9)), sl.present()); st != kernel.Impossible {
		t.Fatalf("a start at 9 for nothing: got %v", st)
	}
	if st := k.k.Search(context.Background(), 1<<30, sl.start[0].Ge(k.g.up(6)), large, sl.present()); st != kernel.Solved {
		t.Errorf("a start at 6: got %v, want solved", st)
	}
	if w.fault != "" {
		t.Error(w.fault)
	}
}
