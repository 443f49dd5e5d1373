package chance

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// state is a plan as it is counted through: all that is the same each time.
type state struct {
	p       *schedule.Problem
	step    resources.Minutes
	batches []batch
	order   []task             // by planned start
	free    [][]resources.Span // of each person: hours, less rounds, looks, carries and work that has begun
	planned [][]booking        // of each person: what the plan has for them, by start
	things  map[string]int     // how many there are of each thing
	kept    map[string][]keeps // by thing
	wants   []want
	length  func(x *stage, z float64) resources.Minutes // of a hold, by a normal draw
}

// batch is one that is not packed yet.
type batch struct {
	id, cheese string
	stages     []stage
	earliest   resources.Moment // its milk is there then
	latest     resources.Moment // the make begins by then, or its milk is too old
	uses       []use
	new        bool // it may be lost, and is drawn for
}

// stage is one stage of it.
type stage struct {
	name    string
	begun   bool
	start   resources.Moment // by the plan, or as it was
	work    resources.Minutes
	least   resources.Minutes // of the hold after it
	most    resources.Minutes // likewise
	ready   resources.Minutes // its median; 0: it is over after its least
	sd      float64           // of the logarithm
	unready resources.Minutes // so long after its beginning somebody found that it was not over; 0 for nobody
	draw    int               // which draw is its own; -1 for none
	who     []int             // who may do it
	by      int               // whom the plan has do it; -1 for nobody
}

// use is a thing that a batch keeps from the start of a stage until the work of another is done.
type use struct {
	thing       string
	count       int
	first, last int // stages; last -1: until it has left
	from, until resources.Moment
	clean       resources.Minutes
}

// keeps is that a batch has a thing.
type keeps struct {
	batch int
	*use
}

// task is a stage of a batch, by numbers.
type task struct{ batch, stage int }

// booking is time of somebody that a task has.
type booking struct {
	from, until resources.Moment
	of          task
}

// want is one want of a target, and what it hangs on.
type want struct {
	target, cheese string
	by             resources.Moment
	ready          resources.Moment // packing is over by then
	wanted, met    int
	promised       bool
	of             []int // batches that it has pieces of
}

// ahead is for how long after the plan's last moment people's hours are known: late work is done then.
const ahead = 21 * resources.Day

// stateOf makes ready to count a plan.
func stateOf(p *schedule.Problem, plan *schedule.Plan) *state {
	s := &state{p: p, step: p.Kitchen.Step, things: map[string]int{}, length: logNormal}
	for _, t := range needs.Things(&p.Kitchen) {
		s.things[t.Name] = *t.Count
	}
	draws, last := 0, p.From
	where := map[string]int{}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		r := p.RecipeOf(b.ID, b.Cheese)
		if r == nil || len(b.Stages) != len(r.Stages) {
			continue // one that nothing can carry on: it serves nothing
		}
		where[b.ID] = len(s.batches)
		s.batches = append(s.batches, s.batchOf(b, r, &draws))
		last = max(last, b.Stages[len(b.Stages)-1].Ends)
	}
	s.wantsOf(plan, where)
	s.people(plan, resources.Span{From: min(p.From, plan.From).Add(-resources.Day), Until: last.Add(ahead)})
	s.inTurn()
	return s
}

// inTurn puts the stages in the order of their planned starts, and notes which batches keep what.
func (s *state) inTurn() {
	s.order, s.kept = nil, map[string][]keeps{}
	for bi := range s.batches {
		b := &s.batches[bi]
		for si := range b.stages {
			s.order = append(s.order, task{bi, si})
		}
		for k := range b.uses {
			u := &b.uses[k]
			s.kept[u.thing] = append(s.kept[u.thing], keeps{bi, u})
		}
	}
	slices.SortStableFunc(s.order, func(x, y task) int {
		return cmp.Or(cmp.Compare(s.at(x).start, s.at(y).start), cmp.Compare(x.batch, y.batch), cmp.Compare(x.stage, y.stage))
	})
}

func (s *state) at(t task) *stage { return &s.batches[t.batch].stages[t.stage] }

// batchOf is one batch of the plan.
func (s *state) batchOf(b *schedule.Batch, r *schedule.Recipe, draws *int) batch {
	out := batch{id: b.ID, cheese: b.Cheese, new: !b.Begun, latest: never}
	for i := range b.Stages {
		t := &b.Stages[i]
		begins := t.Start.Add(t.Work)
		h := needs.HoldAt(r, i, &s.p.Kitchen, begins)
		x := stage{name: t.Stage, begun: t.Begun, start: t.Start, work: t.Work, least: h.Least, most: h.Most, draw: -1, who: needs.Who(&r.Stages[i], &s.p.Kitchen), by: s.p.Kitchen.PersonNumber(t.Who)}
		whole := s.p.Recipe(b.Cheese) // as it is written: what a look has bent says nothing of when it is ready
		if w := whole.Stages[i].Hold; w != nil && w.Ready > 0 && i+1 < len(b.Stages) {
			x.ready, x.sd = w.In(needs.RoomAt(&s.p.Kitchen, begins)).Ready, float64(w.Varies)/1000
			x.unready = s.unready(b, i)
			if x.sd > 0 {
				x.draw = *draws
				*draws++
			}
		}
		out.stages = append(out.stages, x)
		for _, o := range t.Uses {
			u := use{thing: o.Thing, count: o.Count, first: i, last: -1, from: o.From, until: o.Until, clean: o.CleanUntil.Sub(o.Until)}
			for k := i; k < len(b.Stages); k++ {
				if b.Stages[k].Start.Add(b.Stages[k].Work) == o.Until {
					u.last = k
					break
				}
			}
			out.uses = append(out.uses, u)
		}
	}
	if m := b.Milk; m != nil && !b.Begun {
		for i := range s.p.Kitchen.Milk {
			if k := &s.p.Kitchen.Milk[i]; k.Name == m.Supply {
				out.earliest, out.latest = m.Collect, m.Collect.Add(k.Keeps)
			}
		}
	}
	return out
}

// unready is how long after the hold of a stage began it was last found not to be over; 0 where nobody looked.
func (s *state) unready(b *schedule.Batch, i int) (since resources.Minutes) {
	t := &b.Stages[i]
	for k := range s.p.Looks {
		if l := &s.p.Looks[k]; l.Batch == b.ID && i+1 < len(b.Stages) && l.Stage == b.Stages[i+1].Stage {
			since = max(since, l.Asked.Sub(t.Start.Add(t.Work)))
		}
	}
	return since
}

// never is later than anything.
const never = resources.Moment(1) << 50

// wantsOf are the wants of the plan with the batches that they hang on.
func (s *state) wantsOf(plan *schedule.Plan, where map[string]int) {
	for i := range plan.Targets {
		t := &plan.Targets[i]
		w := want{target: t.Target, cheese: t.Cheese, by: t.By, ready: t.By, wanted: t.Wanted, met: t.Met, promised: t.Promised}
		for k := range s.p.Targets {
			if s.p.Targets[k].Name == t.Target {
				w.ready = t.By.Add(-s.p.Targets[k].Packed)
			}
		}
		for k := range plan.Batches {
			b := &plan.Batches[k]
			at, ok := where[b.ID]
			if ok && slices.ContainsFunc(b.For, func(f schedule.Share) bool {
				return f.Target == t.Target && f.By == t.By && f.Want == t.Want && f.Pieces > 0 && b.Cheese == t.Cheese
			}) {
				w.of = append(w.of, at)
			}
		}
		s.wants = append(s.wants, w)
	}
}

// people works out when each person has time, and what the plan has for them.
func (s *state) people(plan *schedule.Plan, within resources.Span) {
	k := &s.p.Kitchen
	taken := make([][]resources.Span, len(k.People))
	take := func(who int, span resources.Span) {
		if who >= 0 {
			taken[who] = append(taken[who], span)
		}
	}
	for _, r := range k.Rounds(within) {
		take(r.Person, r.Span)
	}
	for i := range s.p.Looks {
		l := &s.p.Looks[i]
		take(k.PersonNumber(l.Who), resources.Span{From: l.Start, Until: l.Start.Add(l.Minutes)})
	}
	for i := range plan.Carries {
		c := &plan.Carries[i]
		take(k.PersonNumber(c.Who), resources.Span{From: c.Start, Until: c.Start.Add(c.Minutes)})
	}
	s.planned = make([][]booking, len(k.People))
	for bi := range s.batches {
		for si := range s.batches[bi].stages {
			x := &s.batches[bi].stages[si]
			if x.work == 0 || x.by < 0 {
				continue
			}
			if x.begun {
				take(x.by, resources.Span{From: x.start, Until: x.start.Add(x.work)})
				continue
			}
			s.planned[x.by] = append(s.planned[x.by], booking{x.start, x.start.Add(x.work), task{bi, si}})
		}
	}
	s.free = make([][]resources.Span, len(k.People))
	for i := range k.People {
		s.free[i] = resources.Subtract(k.People[i].Windows(within, k.Zone), taken[i])
		slices.SortFunc(s.planned[i], func(a, b booking) int { return cmp.Compare(a.from, b.from) })
	}
}

// draws is how many draws a time through takes.
func (s *state) draws() (n int) {
	for i := range s.batches {
		for k := range s.batches[i].stages {
			n = max(n, s.batches[i].stages[k].draw+1)
		}
	}
	return n
}
