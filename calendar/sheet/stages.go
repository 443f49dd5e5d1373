package sheet

import (
	"cmp"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// stage is one stage as it was planned beside what is known of it.
type stage struct {
	name    string
	planned resources.Moment // 0 where no plan had it
	work    resources.Minutes
	who     string
	hold    resources.Minutes // of what has not begun
	ends    resources.Moment  // likewise
	limits  *schedule.Hold    // by the recipe; nil for none
	known   trace.Known       // "" where nobody knows
	began   resources.Moment
	done    resources.Moment
	exact   bool // that it began was said, and not worked out from when it was done
	over    bool // that its work was done was said
	by      string
	where   string
	uses    []schedule.Occupied
	needs   []schedule.Dose
}

// merged are the stages of the batch: those of the plan, else those that were kept, else those that were said.
func (m *maker) merged() (all []stage) {
	var names []string
	switch {
	case m.Planned != nil:
		for i := range m.Planned.Stages {
			names = append(names, m.Planned.Stages[i].Stage)
		}
	default:
		for i := range m.Told.Stages {
			names = append(names, m.Told.Stages[i].Name)
		}
	}
	for _, name := range names {
		s := stage{name: name, limits: m.limits(name)}
		if t := m.Planned.Stage(name); t != nil {
			s.byPlan(t, m.where(t))
			s.begunBy(m.Problem, m.Planned)
		}
		m.asTold(&s)
		all = append(all, s)
	}
	return all
}

// where is where a stage is, with its boxes.
func (m *maker) where(t *schedule.Task) string { return words.Where(t, m.pen.Name) }

// byPlan takes over what the plan has.
func (s *stage) byPlan(t *schedule.Task, where string) {
	s.work, s.who, s.uses, s.needs, s.where = t.Work, t.Who, t.Uses, t.Needs, where
	if !t.Begun {
		s.planned, s.hold, s.ends, s.known = t.Start, t.Hold, t.Ends, trace.Planned
		return
	}
	s.began, s.done, s.by, s.known = t.Start, t.Start.Add(t.Work), t.Who, trace.Assumed
}

// begunBy marks what begun.yaml says, for a kitchen of which nothing was kept.
func (s *stage) begunBy(p *schedule.Problem, b *schedule.Batch) {
	if p == nil || s.known != trace.Assumed {
		return
	}
	for i := range p.Begun {
		if e := &p.Begun[i]; e.ID == b.ID && slices.ContainsFunc(e.Stages, func(x schedule.BegunStage) bool { return x.Stage == s.name && x.Start == s.began }) {
			s.known, s.exact, s.over = trace.Said, true, true
		}
	}
}

// asTold takes over what was kept and said of a stage.
func (m *maker) asTold(s *stage) {
	if m.Told == nil {
		return
	}
	at := slices.IndexFunc(m.Told.Stages, func(t trace.Stage) bool { return t.Name == s.name })
	if at < 0 {
		return
	}
	t := &m.Told.Stages[at]
	if kept := m.Told.Kept.Stage(s.name); kept != nil && m.Planned == nil {
		s.work, s.needs, s.uses, s.who = kept.Work, kept.Needs, kept.Uses, kept.Who
		if s.where = m.pen.Name(kept.At); !kept.Begun {
			s.planned, s.hold, s.ends, s.known = kept.Start, kept.Hold, kept.Ends, trace.Planned
		}
	}
	if t.Known == trace.Planned {
		return // the plan may be a later one
	}
	s.planned, s.hold, s.ends, s.known = cmp.Or(t.Planned, s.planned), 0, 0, t.Known
	s.began, s.done, s.by = t.Start, t.Done, t.Who
	if t.Known == trace.Said {
		s.exact, s.over = t.Began != nil || t.Did == nil, t.Did != nil || t.Began == nil
	}
}

// limits is what the recipe says of the hold of a stage, as it was then where that is known.
func (m *maker) limits(name string) *schedule.Hold {
	if m.Told != nil && m.Told.Kept != nil && m.Told.Kept.Recipe != nil {
		for _, l := range m.Told.Kept.Recipe.Stages {
			if l.Stage == name {
				return l.Hold
			}
		}
	}
	if m.Problem == nil || m.Planned == nil {
		return nil
	}
	if r := m.Problem.Recipe(m.Planned.Cheese); r != nil {
		if i := r.StageNumber(name); i >= 0 {
			return r.Stages[i].Hold
		}
	}
	return nil
}

// showStage writes one stage.
func (m *maker) showStage(i int) Stage {
	s := &m.stages[i]
	out := Stage{Name: m.pen.Name(s.name)}
	gone := m.shown.lost && s.began == 0
	if gone && s.planned != 0 {
		out.Planned = []string{"was planned for " + words.Stamp(s.planned, m.Zone)}
		out.Really = m.really(s)
		out.What = append(m.looks(s, gone), m.measures(s, gone)...)
		return out
	}
	if s.planned != 0 {
		out.Planned = append(out.Planned, words.Stamp(s.planned, m.Zone))
	} else {
		out.Planned = append(out.Planned, "when is not known")
	}
	if s.work > 0 {
		out.Planned = append(out.Planned, words.Join(", ", words.Length(s.work)+" by hand", m.pen.Name(s.who)))
	}
	if rests := m.rests(s, i == len(m.stages)-1); rests != "" {
		out.Planned = append(out.Planned, rests)
	}
	out.Really = m.really(s)
	if !gone {
		out.What = append(out.What, m.goesIn(s)...)
	}
	out.What = append(out.What, m.looks(s, gone)...)
	out.What = append(out.What, m.measures(s, gone)...)
	out.What = append(out.What, m.kit(s, gone)...)
	return out
}

// rests is how long the batch rests after the work, or is kept after its last.
func (m *maker) rests(s *stage, last bool) string {
	limits := ""
	if h := s.limits; h != nil && h.Most > 0 {
		limits = words.Length(h.Least) + " to " + words.Length(h.Most)
		if h.HasBest && h.Best != s.hold {
			limits += ", best " + words.Length(h.Best)
		}
	}
	switch {
	case s.hold > 0 && s.known == trace.Planned:
		text := "then rests " + words.Length(s.hold)
		if last {
			text = "then is kept " + words.Length(s.hold)
		}
		if limits != "" {
			text += " (recipe " + limits + ")"
		}
		return text + " until " + words.Stamp(s.ends, m.Zone)
	case limits != "":
		return "then rests, by the recipe " + limits
	}
	return ""
}

// really is when a stage was, by whom, or where that is to be written.
func (m *maker) really(s *stage) []Item {
	toSay := func(text string) Item { return Item{Parts: []string{text}} }
	switch {
	case m.shown.lost && s.began == 0:
		return []Item{toSay("not done: the batch is lost")}
	case s.known == trace.Assumed:
		return []Item{toSay("as planned, " + m.near(s.began, s) + assumed)}
	case s.known != trace.Said && s.work == 0 && len(m.stages) > 0 && m.Planned != nil:
		return []Item{toWrite("ready at")}
	case s.known != trace.Said:
		return []Item{{Parts: []string{"began ", " done ", ""}}, toWrite("by")}
	}
	text := ""
	if s.exact {
		text = "began " + m.near(s.began, s)
	}
	if s.over {
		if s.done != s.began || text == "" {
			text = words.Join(", ", text, "done "+m.near(s.done, s))
		}
		return []Item{toSay(words.Join(", ", text, m.pen.Name(s.by)))}
	}
	return []Item{toSay(words.Join(", ", text, m.pen.Name(s.by))), toWrite("done")}
}

// near writes a moment beside the one that was planned: the time alone on the same day.
func (m *maker) near(at resources.Moment, s *stage) string {
	if s.planned == 0 || s.planned.DateIn(m.Zone) != at.DateIn(m.Zone) {
		return words.Stamp(at, m.Zone)
	}
	return words.Clock(at, m.Zone)
}

// kit is what a stage is done with, and where it rests: as planned, and as somebody said.
func (m *maker) kit(s *stage, gone bool) (items []Item) {
	if !gone {
		text := words.Kit(s.uses, m.pen.Name)
		if text != "" {
			text = "with " + text
		}
		if s.where != "" && s.where != "room" {
			text = words.Join("; ", text, "in the "+s.where)
		}
		if text != "" {
			items = append(items, plain(useful, text))
		}
	}
	for _, e := range m.at(s.name) {
		if e.Batch.Pot != "" {
			items = append(items, plain(heard, "pot, as said: "+m.pen.Name(e.Batch.Pot)))
		}
		if v := e.Batch.Stands; v.Given {
			items = append(items, plain(heard, "stands in "+words.Join(", ", m.pen.Name(v.Value.Place), m.pen.Name(v.Value.Shelf))+" since "+m.said(e)))
		}
	}
	if m.Told != nil && m.Told.Kept != nil {
		for _, c := range m.Told.Kept.Carries {
			if c.Stage == s.name {
				items = append(items, plain(heard, "carried out of the "+m.pen.Name(c.From)+" to the "+m.pen.Name(c.To)+", planned for "+words.Stamp(c.Start, m.Zone)))
			}
		}
	}
	return items
}
