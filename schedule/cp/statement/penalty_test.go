package statement

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// chainWorld is one slot whose bother alone is stated, or how late it is, with every chain
// that its tables have. What is said of bother here is said of either.
type chainWorld struct {
	k      *Statement
	sl     *Slot
	chains []listedChain
	late   bool // it is of how late the slot is
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
	late                                                               int // slots that may be late
	narrowed, absent, least, whole                                     int // reasons by what they conclude
	weak                                                               int // of whole chains, that ask less of a start than holds
}

// newChainWorld states the bother of a slot and lists its chains; not ok where it has none.
func newChainWorld(s *chain.Schedule, sl *Slot, late bool) (*chainWorld, bool) {
	m := s.Model
	k := &Statement{Schedule: s, Model: m, Grid: problem.Grid{Origin: problem.FloorTo(m.From, m.Step), Step: m.Step}, Kernel: kernel.New()}
	k.Yes = k.Kernel.NewVar(1, 1).Ge(1)
	c, ok := s.ChainsOf(k.Grid, &sl.Prospect)
	if ok && late {
		c = s.LatenessOf(k.Grid, &sl.Prospect)
	}
	if !ok || c == nil {
		return nil, false
	}
	sl.chains = c
	sl.Here = k.Kernel.NewVar(0, 1)
	sl.Size = k.Kernel.NewVar(0, int32(len(sl.Modes)-1))
	sl.Penalty = k.Kernel.NewVar(0, plenty)
	for i := range sl.Acts() {
		if i < sl.Fixed {
			sl.Start, sl.Who = append(sl.Start, k.Kernel.NewVar(0, 0)), append(sl.Who, nil)
			continue
		}
		sl.Start = append(sl.Start, k.Kernel.NewVar(c.Lo[i], c.Hi[i]))
		var who []kernel.Lit
		if sl.Modes[0].Acts[i].Work > 0 {
			who = k.oneOf(len(sl.Modes[0].Acts[i].Workers))
		}
		sl.Who = append(sl.Who, who)
	}
	k.addMeasure(sl, sl.Penalty, c)
	w := &chainWorld{k: k, sl: sl, late: late}
	for size, z := range c.Sizes {
		if z.Lo == nil {
			continue
		}
		values := make([]int32, k.Kernel.Vars())
		values[k.Yes.B.Var()], values[sl.Here], values[sl.Size] = 1, 1, int32(size)
		w.list(z, values, sl.Fixed, 0, 0)
	}
	return w, len(w.chains) > 0
}

// list goes on with a chain whose work before activity i ended at a step, at a cost.
func (w *chainWorld) list(z *chain.SizeCosts, values []int32, i int, done, cost int32) {
	sl := w.sl
	if i == sl.Acts() {
		w.chains = append(w.chains, listedChain{slices.Clone(values), cost})
		return
	}
	for x, own := range z.Any[i] {
		t := z.Lo[i] + int32(x)
		lag := int32(0)
		switch {
		case i > sl.Fixed && len(sl.Modes[values[sl.Size]].Acts[i-1].Lag.Turns) > 0:
			lag = w.turned(&sl.Modes[values[sl.Size]].Acts[i-1].Lag, done, t)
		case i > sl.Fixed:
			at := t - done - z.Least[i-1]
			if at < 0 || int(at) >= len(z.Lags[i-1]) {
				continue
			}
			lag = z.Lags[i-1][at]
		case i > 0:
			lag = z.First[x]
		}
		values[sl.Start[i]] = t
		for p := range max(len(sl.Who[i]), 1) {
			if len(sl.Who[i]) > 0 {
				own = z.Own[i][p][x]
			}
			for o, l := range sl.Who[i] {
				w.k.want(values, l, o == p)
			}
			if own < chain.Unreachable && lag < chain.Unreachable {
				w.list(z, values, i+1, t+z.Work[i], cost+own+lag)
			}
		}
	}
}

// turned is what a lag costs that has turns, between two steps, by the turn that holds when it begins.
func (w *chainWorld) turned(l *problem.Lag, done, next int32) int32 {
	g := w.k.Grid
	lag := tiny.LagAt(*l, g.Tick(done))
	x := g.Tick(next) - g.Tick(done) - lag.Least
	switch {
	case x < 0 || x > lag.Most-lag.Least || lag.Cost[x] >= problem.Never:
		return chain.Unreachable
	case w.late && lag.Late == nil:
		return 0
	case w.late:
		return lag.Late[x]
	case w.k.Schedule.Flat:
		return 0
	}
	return lag.Cost[x]
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
	most, limited := high[sl.Penalty]
	if !limited {
		most = plenty
	}
	for _, c := range w.chains {
		ok := max(c.cost, low[sl.Penalty]) <= most
		for x := kernel.Var(0); ok && int(x) < len(c.values); x++ {
			ok = x == sl.Penalty || within(x, c.values[x])
		}
		if ok {
			return true
		}
	}
	if !within(sl.Here, 0) || !within(k.Yes.B.Var(), 1) || max(0, low[sl.Penalty]) > most {
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
	ok := some(sl.Size, 0, int32(len(sl.Modes)-1))
	for i := sl.Fixed; i < sl.Acts(); i++ {
		ok = ok && some(sl.Start[i], sl.chains.Lo[i], sl.chains.Hi[i]) && w.anyWho(i, within)
	}
	return ok
}

// anyWho reports whether some worker of an activity is let in.
func (w *chainWorld) anyWho(i int, within func(kernel.Var, int32) bool) bool {
	values := make([]int32, w.k.Kernel.Vars())
	for p := range w.sl.Who[i] {
		ok := true
		for o, l := range w.sl.Who[i] {
			w.k.want(values, l, o == p)
		}
		for _, l := range w.sl.Who[i] {
			ok = ok && (l == w.k.Yes || within(l.B.Var(), values[l.B.Var()]))
		}
		if ok {
			return true
		}
	}
	return len(w.sl.Who[i]) == 0
}

// audit checks every step against the chains.
func (w *chainWorld) audit() {
	k := w.k.Kernel
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
			case l.B == w.sl.Penalty.Up():
				w.seen.least++
				if slices.ContainsFunc(premises, func(p kernel.Lit) bool { return p.B == w.sl.Size.Down() }) {
					w.seen.whole++
					w.countWeak(premises)
				}
			case l == w.sl.Present().Not():
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

// countWeak counts a reason of a whole chain that asks less of some start than holds of it.
func (w *chainWorld) countWeak(premises []kernel.Lit) {
	for i := w.sl.Fixed; i < w.sl.Acts(); i++ {
		low := w.k.Kernel.Min(w.sl.Start[i])
		if low > w.sl.chains.Lo[i] && !slices.Contains(premises, w.sl.Start[i].Ge(low)) {
			w.seen.weak++
			return
		}
	}
}

func (w *chainWorld) fail(format string, args ...any) {
	if w.fault == "" {
		w.fault = fmt.Sprintf(format, args...)
	}
}

// anyLit is some literal of the slot: of its bother about what some chain costs.
func (w *chainWorld) anyLit(r *rand.Rand) kernel.Lit {
	k, sl := w.k.Kernel, w.sl
	if r.IntN(4) == 0 {
		v := w.chains[r.IntN(len(w.chains))].cost + int32(r.IntN(3)) - 1
		if r.IntN(3) == 0 {
			return sl.Penalty.Ge(v)
		}
		return sl.Penalty.Le(v)
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
	k, sl := w.k.Kernel, w.sl
	k.Branch(func(s *kernel.Solver) (kernel.Lit, bool) {
		from := r.IntN(s.Vars())
		for i := range s.Vars() {
			x := kernel.Var((from + i) % s.Vars())
			if lo, hi := s.Min(x), s.Max(x); lo < hi {
				v := lo + int32(r.IntN(int(hi-lo)))
				if x == sl.Penalty {
					v = lo
				}
				if r.IntN(2) == 0 && x != sl.Penalty {
					return x.Ge(v + 1), true
				}
				return x.Le(v), true
			}
		}
		return kernel.Lit{}, false
	})
	assume := []kernel.Lit{sl.Present()}
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
func (w *chainWorld) holdsWays(m *problem.Model) {
	sl := w.sl
	known := map[string]int32{}
	for _, c := range w.chains {
		known[fmt.Sprint(c.values)] = c.cost
	}
	world := &tiny.Whole{M: m, Board: tiny.NewBoard(m)}
	for size, mode := range sl.Modes {
		number := size
		if sl.Begun >= 0 {
			number = -1
		}
		for _, v := range world.WaysOf(sl.Family, number, sl.Begun, mode) {
			if sl.Begun < 0 && (v.End != sl.Due || !w.good(m, &v)) {
				continue
			}
			w.seen.ways++
			values := make([]int32, w.k.Kernel.Vars())
			values[w.k.Yes.B.Var()], values[sl.Here], values[sl.Size] = 1, 1, int32(size)
			for i := sl.Fixed; i < sl.Acts(); i++ {
				values[sl.Start[i]] = w.k.Grid.Down(v.Starts[i])
				for p, l := range sl.Who[i] {
					w.k.want(values, l, mode.Acts[i].Workers[p] == v.Workers[i])
				}
			}
			want := v.Cost.Penalty
			if w.late {
				want = v.Cost.Late
			}
			if cost, some := known[fmt.Sprint(values)]; !some || int64(cost) != want {
				w.fail("way at %v by %v for %d: got cost %d (%v) in the tables", v.Starts, v.Workers, want, cost, some)
			}
		}
	}
}

// good reports whether a way is ready for something due at its last delivery, from
// milk that there is enough of.
func (w *chainWorld) good(m *problem.Model, v *tiny.Way) bool {
	enough := v.Intake < 0 || v.Amount <= m.Intakes[v.Intake].Amount
	return enough && slices.ContainsFunc(m.Demands, func(d problem.Demand) bool {
		return d.Family == v.Family && d.Due == v.End && v.Ready <= d.Due-d.Ahead
	})
}

// slotsOf are all slots that a model may have, one of each.
func slotsOf(m *problem.Model) []*Slot {
	var out []*Slot
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			out = append(out, &Slot{Prospect: chain.Prospect{Family: f, Begun: -1, Due: due, Modes: problem.ModesOf(&m.Families[f])}})
		}
	}
	for b := range m.Begun {
		if bg := &m.Begun[b]; len(bg.Starts) < len(bg.Mode.Acts) {
			out = append(out, &Slot{Prospect: chain.Prospect{Family: bg.Family, Begun: b, Modes: []*problem.Mode{&bg.Mode}, Fixed: len(bg.Starts)}})
		}
	}
	return out
}

// Every reason that the bother of a slot is given follows from the tables of its
// chains, what is answered is a chain, and the tables hold every way that there is.
func TestReasonsOfThePenaltyFollowFromTheChains(t *testing.T) {
	var n chainTally
	tiny.CheckMany(t, 15, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Acts, k.Length = tiny.DrawInt(t, 1, 3, "longer"), tiny.DrawInt(t, 12, 24, "length")
		m := tiny.Draw(t, k)
		tiny.AddThirdWorker(t, m, k)
		tiny.Lengthen(t, m)
		m = tiny.Within(t, m)
		s := chain.NewSchedule(m)
		s.SettleHomes()
		r := rand.New(rand.NewPCG(uint64(tiny.DrawInt(t, 0, 1<<30, "dice")), 1))
		slots := slotsOf(m)
		for x, sl := range append(slots, slotsOf(m)...) {
			w, ok := newChainWorld(s, sl, x >= len(slots))
			if !ok {
				continue
			}
			if w.late {
				n.late++
			}
			w.seen.models, w.seen.chains = 1, len(w.chains)
			w.holdsWays(m)
			w.audit()
			for range 20 {
				w.ask(r)
			}
			if w.fault != "" {
				t.Fatalf("%s\nslot %+v\n%s", w.fault, *sl, tiny.Text(m))
			}
			n.add(w.seen)
		}
	})
	t.Logf("%+v", n)
	for what, got := range map[string]int{"chains": n.chains, "ways": n.ways, "conflicts": n.conflicts, "learned clauses": n.learned,
		"solved": n.solved, "refused": n.refused, "starts moved": n.narrowed, "jobs given up": n.absent, "bothers raised": n.least, "of whole chains": n.whole, "that ask less than holds": n.weak, "slots that may be late": 2 * n.late} {
		if got < 50 {
			t.Errorf("got %d %s: too few to mean much", got, what)
		}
	}
}

func (n *chainTally) add(o chainTally) {
	n.models, n.chains, n.ways, n.reasons, n.conflicts = n.models+o.models, n.chains+o.chains, n.ways+o.ways, n.reasons+o.reasons, n.conflicts+o.conflicts
	n.learned, n.solved, n.refused, n.narrowed = n.learned+o.learned, n.solved+o.solved, n.refused+o.refused, n.narrowed+o.narrowed
	n.absent, n.least, n.whole = n.absent+o.absent, n.least+o.least, n.whole+o.whole
	n.weak += o.weak
}

// A job of the large size, whose work must end by 22, starts at 3 for nothing, at 6 for one
// point and later not at all. That it cannot start at 9 is no reason why it cannot at 6.
func TestStartsThatNoChainHasSayNothingOfDearOnes(t *testing.T) {
	acts := func(work int) []problem.Activity {
		return []problem.Activity{
			{Work: 0, Workers: []int{0}, Lag: problem.Lag{Least: 6, Most: 12, Cost: []int32{1, 100, 5, 0, 0, 1, 20}}},
			{Work: work, Workers: []int{0}, Lag: problem.Lag{Most: 30}},
		}
	}
	m := &problem.Model{Step: 3, Horizon: 25, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 25}}}}, Demands: []problem.Demand{{Due: 22, Units: 1, Value: 1}},
		Families: []problem.Family{{Keeps: 16, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts(6)}, {Amount: 2, Units: 2, Acts: acts(9)}}}}}
	s := chain.NewSchedule(m)
	w, ok := newChainWorld(s, slotsOf(m)[0], false)
	if !ok {
		t.Fatal("no chain at all")
	}
	w.audit()
	sl, k := w.sl, w.k
	large, cheap := sl.Size.Ge(1), sl.Penalty.Le(0)
	if st := k.Kernel.Search(context.Background(), 1<<30, cheap, large, sl.Start[0].Ge(k.Grid.Up(9)), sl.Present()); st != kernel.Impossible {
		t.Fatalf("a start at 9 for nothing: got %v", st)
	}
	if st := k.Kernel.Search(context.Background(), 1<<30, sl.Start[0].Ge(k.Grid.Up(6)), large, sl.Present()); st != kernel.Solved {
		t.Errorf("a start at 6: got %v, want solved", st)
	}
	if w.fault != "" {
		t.Error(w.fault)
	}
}
