package dav

import (
	"net/http"
	"time"

	"ripeby/calendar/ical"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// shelf is what one person's collection holds at one moment.
type shelf struct {
	problem *schedule.Problem
	plan    *schedule.Plan
	told    *said.Told
	minute  resources.Moment
	sheets  string

	todos map[string]*ical.Todo // by the name of the member
}

// unanswered is how long work stays a task that nobody has spoken of, and that has begun by the plan.
const unanswered = 7 * resources.Day

// shelfOf gives what a person's collection holds now, and notes what programs are shown of it. The handler is
// locked. back is a member that is put back as it was; "" for none.
func (h *Handler) shelfOf(p *person, back string) (*shelf, *seen, *fault) {
	problem, plan, told := h.desk.Shown()
	if plan == nil {
		// Not an empty collection, which would wipe what a program has.
		return nil, nil, &fault{status: http.StatusServiceUnavailable, text: "There is no plan yet.", wait: 60}
	}
	now := resources.MomentOf(h.opt.Now())
	s := h.shelves[p.id]
	if s == nil || s.problem != problem || s.plan != plan || s.told != told || s.minute != now || s.sheets != p.sheets {
		s = &shelf{problem: problem, plan: plan, told: told, minute: now, sheets: p.sheets, todos: map[string]*ical.Todo{}}
		all, err := ical.Todos(problem, plan, ical.TodoOptions{Person: p.Person, Sheets: p.sheets, State: s.stateOf})
		if err != nil {
			h.opt.Say("the tasks of " + p.Person + " cannot be made: " + err.Error())
			return nil, nil, refused(http.StatusInternalServerError, "The tasks cannot be made. The terminal where ripeby serves tells why.")
		}
		for i := range all {
			s.todos[memberOf(all[i].UID)] = &all[i]
		}
		h.shelves[p.id] = s
	}
	tags := map[string]string{}
	for name, t := range s.todos {
		tags[name] = tagOf(t.Text)
	}
	seen, isNew := h.journal.see(p.id, tags, back)
	if isNew {
		if err := h.journal.keep(); err != nil {
			h.opt.Say("what programs have seen of the tasks cannot be kept, and after a restart they fetch all: " + err.Error())
		}
	}
	return s, seen, nil
}

// stateOf is how a piece of work stands: what was said of late, and else what the plan takes for begun. Of what
// has begun only what is on, or is still to be answered, is a task.
func (s *shelf) stateOf(b *schedule.Batch, stage int) ical.TodoState {
	t := &b.Stages[stage]
	if s.isLost(b.ID) {
		return ical.TodoState{}
	}
	if did := s.didWord(b.ID, t.Stage); did != nil {
		return ical.TodoState{Shown: true, Done: true, At: did.At}
	}
	ends := t.Start.Add(t.Work)
	return ical.TodoState{Shown: s.plan.Batch(b.ID) != nil && (!t.Begun || ends > s.minute || s.isAsked(b.ID, t.Stage, ends))}
}

// didWord is the last word that a stage is done; nil for none.
func (s *shelf) didWord(batch, stage string) (last *said.Word) {
	if s.told == nil {
		return nil
	}
	for i := range s.told.Lately {
		if w := &s.told.Lately[i]; w.Batch == batch && w.Did == stage {
			last = w
		}
	}
	return last
}

// isLost reports whether a batch was said to be lost.
func (s *shelf) isLost(batch string) bool {
	if s.told == nil {
		return false
	}
	for i := range s.told.Lately {
		if w := &s.told.Lately[i]; w.Batch == batch && w.Lost {
			return true
		}
	}
	return false
}

// isAsked reports whether work is to be answered.
func (s *shelf) isAsked(batch, stage string, ends resources.Moment) bool {
	if s.told == nil || ends < s.minute.Add(-unanswered) {
		return false
	}
	for i := range s.told.Answer {
		if q := &s.told.Answer[i]; q.Batch == batch && q.Stage == stage {
			return true
		}
	}
	return false
}

// lastNumber is the highest number when the shelf was filled.
func (s *shelf) lastNumber() int {
	if s.told == nil {
		return 0
	}
	return s.told.Last
}

// modified is when a member last changed, as HTTP has it.
func modified(t *ical.Todo) string { return t.Revised.In(time.UTC).Format(http.TimeFormat) }
