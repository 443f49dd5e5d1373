package learn

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// Look is one hold as somebody saw it: how long after it began it was not ready yet, and how long after it
// was.
type Look struct {
	Batch  string
	NotYet resources.Minutes // 0 where nobody looked before it was ready
	Ready  resources.Minutes // 0 where nobody has seen it ready
	Room   resources.MilliCelsius
}

// sight is one batch beside the stage whose hold is looked at.
type sight struct {
	k *resources.Kitchen
	r *schedule.Recipe
	m *trace.Made
}

// look reads what the record says of the hold of stage i of the recipe. Where it says nothing both are "";
// where what it says cannot be used, why is not.
func (s sight) look(i int) (l Look, seen bool, why string) {
	if i+1 >= len(s.r.Stages) {
		return l, false, ""
	}
	next := s.r.Stages[i+1].Name
	ready, known := s.began(i + 1)
	if !known && len(s.m.Said.NotYet(next)) == 0 {
		return l, false, ""
	}
	if s.m.Lost {
		return l, false, "it was lost"
	}
	if !s.follows(i) {
		return l, false, "its stages are not those of the recipe"
	}
	from, said := s.holdBegan(i)
	if !said {
		return l, false, "nobody said when its hold began"
	}
	l = Look{Batch: called(s.m), Room: s.k.RoomOn(from.DateIn(s.k.Zone))}
	over := s.m.Said.NotYet(next).With(func(e *record.Entry) bool { return e.At > from })
	if known {
		before := over.With(func(e *record.Entry) bool { return e.At < ready.by })
		if len(before) < len(over) {
			return l, false, "it was said not to be ready after " + next + " was begun or done"
		}
		l.Ready = ready.from.Sub(from)
	}
	if e := over.Latest(); e != nil {
		l.NotYet = e.At.Sub(from)
		if known && l.Ready <= l.NotYet { // its work was begun sooner after the look than it is planned to last
			l.Ready = ready.by.Sub(from)
		}
	}
	switch {
	case known && l.Ready <= 0:
		return l, false, next + " was begun before the hold did"
	case !known && l.NotYet == 0:
		return l, false, ""
	}
	return l, true, ""
}

// beginning is between which moments the work of a stage began: at from, as far as is known, and by no later than by.
type beginning struct{ from, by resources.Moment }

// began is when the work of a stage of the recipe began, by what was said: as was said, else when it was done
// less its work. Planned moments are never taken for it.
func (s sight) began(i int) (b beginning, said bool) {
	name := s.r.Stages[i].Name
	if e, _ := s.m.Said.Began(name).First(); e != nil {
		return beginning{e.At, e.At}, true
	}
	if e, _ := s.m.Said.Did(name).First(); e != nil {
		return beginning{e.At.Add(-s.work(i)), e.At}, true
	}
	if t := s.m.Stage(name); t != nil && t.Begun && t.Said == schedule.SaidByBegun {
		return beginning{t.Start, t.Start}, true
	}
	return b, false
}

// holdBegan is when the hold of a stage began, by what was said: when its work was done. A stage without work
// that follows one without a hold begins when that is done.
func (s sight) holdBegan(i int) (m resources.Moment, said bool) {
	name := s.r.Stages[i].Name
	if e, _ := s.m.Said.Did(name).First(); e != nil {
		return e.At, true
	}
	if b, said := s.began(i); said {
		return b.from.Add(s.work(i)), true
	}
	if i == 0 || s.r.Stages[i].Hands != nil || s.r.Stages[i-1].Hold != nil {
		return 0, false
	}
	return s.holdBegan(i - 1)
}

// work is how long the work of a stage is by the recipe, for the batch's size.
func (s sight) work(i int) resources.Minutes {
	z := needs.Size{Litres: s.m.Filled, Pieces: needs.Pieces(s.r, s.m.Filled)}
	return needs.Work(&s.r.Stages[i], z, s.k.Step)
}

// follows reports whether the batch, too, had the stage after stage i of the recipe just after it.
func (s sight) follows(i int) bool {
	at := slices.IndexFunc(s.m.Stages, func(t schedule.KeptStage) bool { return t.Stage == s.r.Stages[i].Name })
	return at >= 0 && at+1 < len(s.m.Stages) && s.m.Stages[at+1].Stage == s.r.Stages[i+1].Name
}
