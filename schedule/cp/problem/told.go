package problem

// What an earlier plan told of its work is kept where it can be. Its jobs under way are known
// ([Begun.Told]); of its jobs not begun each may be one new job of the same family ([Kept]), or
// none. So who is who is decided with the plan, and counts like the rest of it:
//
//	told of an activity     begins in the settled time       begins after it
//	nothing                 1 moved                          -
//	settled                 1 moved, unless it is the same   1 moved
//	later                   1 moved, unless it is the same   LaterPoints, unless it is the same
//	no more                 -                                -
//
// Work that was told and is not done at all counts as if it were other work after the settled
// time. Where its worker has taken it on, it is the same at its time by whomever, and counts one moved
// more unless that worker does it, whenever. To be one of the kept is never dearer than to be none of them.

// LaterPoints is what work told for after the settled time costs of the penalty when it is otherwise.
const LaterPoints = 3

// ToldAs is how work was told.
type ToldAs int8

// The ways in which work was told.
const (
	ToldNothing ToldAs = iota // not at all: what begins in the settled time is new
	ToldSettled               // to begin in the settled time
	ToldLater                 // to begin after it
	ToldNoMore                // to begin before From, which it did not: it counts in nothing
)

// Told is what an earlier plan told of the work of one activity.
type Told struct {
	As     ToldAs
	Start  int
	Worker int // -1 for one that there is no more
	Taken  bool
}

// Kept is a job of an earlier plan that has not begun. A new job of its family may be it.
type Kept struct {
	Number int // its place in [Model.Kept]
	Family int
	Told   []Told // of each activity
}

// Unrest is how much of what was told is otherwise.
type Unrest struct{ Moved, Points int64 }

func (u *Unrest) add(o Unrest, times int64) {
	u.Moved, u.Points = u.Moved+times*o.Moved, u.Points+times*o.Points
}

// Calm reports whether anything counts that is otherwise than an earlier plan told.
func (m *Model) Calm() bool { return m.Settled > 0 }

// SettledUntil is when the settled time is over.
func (m *Model) SettledUntil() int { return m.From + m.Settled }

// UnrestAt is what work counts of which something was told.
func (m *Model) UnrestAt(t Told, start, worker int) (u Unrest) {
	settled, same := start < m.SettledUntil(), t.Start == start && (t.Taken || t.Worker == worker)
	switch {
	case t.As == ToldNoMore, t.As != ToldNothing && same:
	case settled, t.As == ToldSettled:
		u.Moved = 1
	case t.As == ToldLater:
		u.Points = LaterPoints
	}
	if t.Taken && t.Worker != worker {
		u.Moved++
	}
	return u
}

// Undone is what told work counts that is not done.
func (t Told) Undone() (u Unrest) {
	switch t.As {
	case ToldSettled:
		u.Moved = 1
	case ToldLater:
		u.Points = LaterPoints
	}
	if t.Taken {
		u.Moved++
	}
	return u
}

// undone is what all of some told work counts that is not done.
func undone(told []Told) (u Unrest) {
	for _, t := range told {
		u.add(t.Undone(), 1)
	}
	return u
}

// ToldOf is what was told of an activity; nothing where there is no list.
func ToldOf(told []Told, activity int) Told {
	if told == nil {
		return Told{}
	}
	return told[activity]
}

// UnrestOf is what a job counts that runs in a mode: of one that is left where it is, as undone;
// of one that is a kept one, less what that would count without it ([Model.Unkept]).
func (m *Model) UnrestOf(j *Job, mode *Mode) (u Unrest) {
	switch {
	case !m.Calm():
		return u
	case j.Begun >= 0 && (j.Stuck || m.Begun[j.Begun].Left != nil):
		return undone(m.Begun[j.Begun].Told)
	}
	var told []Told
	first := 0
	switch {
	case j.Begun >= 0:
		told, first = m.Begun[j.Begun].Told, len(m.Begun[j.Begun].Starts)
	case j.Kept != nil:
		told = j.Kept.Told
		u.add(undone(told), -1)
	}
	for i := first; i < len(mode.Acts); i++ {
		switch {
		case mode.Acts[i].Work > 0:
			u.add(m.UnrestAt(ToldOf(told, i), j.Starts[i], j.Workers[i]), 1)
		case told != nil:
			u.add(told[i].Undone(), 1)
		}
	}
	return u
}

// Unkept is what the kept jobs count while no job is any of them.
func (m *Model) Unkept() (u Unrest) {
	if m.Calm() {
		for k := range m.Kept {
			u.add(undone(m.Kept[k].Told), 1)
		}
	}
	return u
}

// Changed is work that is otherwise than an earlier plan told, and why: were it as told, the best plan
// would be worse first in one part of the cost.
type Changed struct {
	Begun    int   // of which job under way, -1 for none
	Kept     *Kept // or of which kept job
	Activity int
	By       int // the part, or one of the following
}

// What may be said in place of a part.
const (
	ByNothing = -1 // a plan as good has it as it was told
	ByItself  = -2 // no plan has it so, but for one in which what is under way is later, or left where it is
	ByUnknown = -3 // it was not found out in the work allowed
	ByLittle  = -4 // nothing before the penalty is worse; whether that is, or what comes after it, was not found out
)

// ChangedIn lists the work that is otherwise in a plan's jobs: what was settled first.
func (m *Model) ChangedIn(jobs []*Job) (out []Changed) {
	if !m.Calm() {
		return nil
	}
	as, under := make([]*Job, len(m.Kept)), make([]*Job, len(m.Begun))
	for _, j := range jobs {
		if j.Begun >= 0 {
			under[j.Begun] = j
		} else if j.Kept != nil {
			as[j.Kept.Number] = j
		}
	}
	for _, how := range []ToldAs{ToldSettled, ToldLater} {
		list := func(told []Told, j *Job, begun int, kept *Kept) {
			for i, t := range told {
				if t.As == how && (j == nil || i >= len(j.Starts) || j.Starts[i] != t.Start || j.Workers[i] != t.Worker) {
					out = append(out, Changed{begun, kept, i, ByUnknown})
				}
			}
		}
		for b := range m.Begun {
			j := under[b]
			if j != nil && (j.Stuck || m.Begun[b].Left != nil) {
				j = nil
			}
			list(m.Begun[b].Told, j, b, nil)
		}
		for k := range m.Kept {
			list(m.Kept[k].Told, as[k], -1, &m.Kept[k])
		}
	}
	return out
}
