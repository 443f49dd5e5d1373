package feed

import (
	"cmp"
	"slices"
	"time"

	"ripeby/calendar/said"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// FormView is a form of a writing address: what it is about, sealed, and what its buttons say.
type FormView struct {
	said.About
	Action, Key string
	Name        string // what it is about, for those who do not see where it stands
	At          string // a moment that is sent with it; "" for none
	Planned     string // when it was to be done, to be put right; "" where that is still to come
	Litres      string // how much milk it is as planned; "" for none
	Buttons     []ButtonView
	More        bool // what else may be said of it is to be unfolded
	Looks       bool // that it is not yet is one of that
}

// ButtonView is a button: what is sent, and what stands on it.
type ButtonView struct{ Say, Text string }

// form makes a form of this page; nil at an address to read at.
func (v *View) form(about said.About, name string, buttons ...ButtonView) *FormView {
	if v.Writer == "" {
		return nil
	}
	about.After = v.Told.Last
	return &FormView{About: about, Action: v.Root + sayingAt, Key: about.Key(v.Address), Name: name, Buttons: buttons}
}

// isFirst reports whether a stage begins its batch: nothing is waited for before it.
func (v *View) isFirst(batch, stage string) bool { return v.stageOf(batch, stage) == 0 }

// stageOf is a stage's place in a batch of the plan; -1 for none.
func (v *View) stageOf(batch, stage string) int {
	b := v.batch(batch)
	if b == nil {
		return -1
	}
	return slices.IndexFunc(b.Stages, func(t schedule.Task) bool { return t.Stage == stage })
}

// waits reports whether a hold comes before a stage, so that it may be said not to be over.
func (v *View) waits(batch, stage string) bool {
	i, b := v.stageOf(batch, stage), v.batch(batch)
	if i <= 0 {
		return false
	}
	r := v.Problem.RecipeOf(b.ID, b.Cheese)
	if r == nil || i >= len(r.Stages) {
		return b.Stages[i-1].Hold > 0
	}
	h := r.Stages[i-1].Hold
	return h != nil && h.Most > 0
}

// formOf is the form of a job, nil where nothing is said of such, or it is said.
func (v *View) formOf(j week.Job) *FormView {
	day := j.Start.DateIn(v.Problem.Kitchen.Zone)
	name := words.Printable(j.What)
	if j.Batch != "" {
		name += ", " + words.Printable(j.Batch)
	}
	switch {
	case v.Writer == "":
		return nil
	case j.Batch != "" && j.Stage != "":
		f := v.form(said.About{Batch: j.Batch, Stage: j.Stage}, name)
		f.More, f.Looks = true, v.waits(j.Batch, j.Stage)
		switch {
		case j.Look:
			f.Buttons = []ButtonView{{"not_yet", "Not ready yet"}, {"began", "Ready, and begun"}}
		case j.Until <= v.moment(): // now it was not
			f.asPlanned(v, j.Until)
		case day == v.today():
			f.Buttons = []ButtonView{{"did", "Done"}}
		}
		return f
	case j.Batch != "" && j.To != "":
		return v.form(said.About{Batch: j.Batch, Place: j.To}, name, ButtonView{"stands", "Carried"})
	case j.Round && (day == v.today() || day == v.today().AddDays(-1)):
		return v.form(said.About{Round: day.String()}, name, ButtonView{"round", "Done"}, ButtonView{"skipped", "Not done"})
	case j.Milk != nil && j.Milk.Order:
		f := v.milkForm(j.Milk, name, ButtonView{"ordered", "Ordered"})
		f.Litres = resources.FormatVolume(j.Milk.Litres + j.Milk.Known)
		return f
	case j.Milk != nil && day == v.today():
		f := v.milkForm(j.Milk, name, ButtonView{"came", "Came"})
		f.Litres = resources.FormatVolume(max(j.Milk.Litres, j.Milk.Known))
		return f
	}
	return nil
}

// asPlanned has a form say that it was done as planned.
func (f *FormView) asPlanned(v *View, ends resources.Moment) {
	at := ends.In(v.Problem.Kitchen.Zone)
	f.Buttons, f.At, f.Planned = []ButtonView{{"did", "Done as planned"}}, at.Format(time.RFC3339), at.Format(said.LocalTime)
}

func (v *View) milkForm(m *schedule.MilkJob, name string, button ButtonView) *FormView {
	return v.form(said.About{Milk: m.Supply, Day: m.Collect.DateIn(v.Problem.Kitchen.Zone).String()}, name, button)
}

// lastOf is the last word that was said of a job, nil for none, and what it says; done says that the
// job is over with that.
func (v *View) lastOf(j week.Job) (last *said.Word, of string, done bool) {
	if v.Told == nil {
		return nil, "", false
	}
	day := j.Start.DateIn(v.Problem.Kitchen.Zone)
	for i := range slices.Backward(v.Told.Lately) {
		w := &v.Told.Lately[i]
		switch mine := j.Batch != "" && j.Batch == w.Batch; {
		case mine && w.Lost:
			of, done = "lost", true
		case mine && j.Stage != "" && w.Did == j.Stage:
			of, done = "done", true
		case mine && j.Stage != "" && w.Began == j.Stage:
			of, done = "begun", j.Look
		case mine && j.Stage != "" && w.NotYet == j.Stage:
			of = "not yet"
		case mine && j.To != "" && w.Stands == j.To:
			of, done = "carried", true
		case j.Round && w.Round == day:
			of, done = "said", true
		case j.Milk != nil && w.Milk == j.Milk.Supply && w.Day == j.Milk.Collect.DateIn(v.Problem.Kitchen.Zone):
			if j.Milk.Order && w.Ordered {
				of, done = "ordered", true
			} else if !j.Milk.Order && w.Came {
				of, done = "came", true
			}
		}
		if of != "" {
			return w, of, done
		}
	}
	return nil, "", false
}

// saidOf is what was said of a job last, by whom and when; "" for nothing.
func (v *View) saidOf(j week.Job) (text string, done bool) {
	w, of, done := v.lastOf(j)
	if w == nil {
		return "", false
	}
	return of + v.byAt(w), done
}

// byAt is when something was, and who said so.
func (v *View) byAt(w *said.Word) string {
	text := " " + words.Clock(w.At, v.Problem.Kitchen.Zone)
	if day := v.dayWord(w.At); day != "" {
		text = " " + words.StampOf(v.Problem, w.At)
	}
	if w.Who != "" {
		text += ", " + words.Printable(w.Who)
	}
	return text
}

// AnswerView is something to be answered.
type AnswerView struct {
	Text, When string
	Forms      []*FormView
}

// askedWithin is how long ago work may lie that is asked about.
const askedWithin = 7 * resources.Day

// passed are the jobs of the plan in force that should be done by now, and of which nobody spoke, as
// who writes is asked about them.
func (v *View) passed(jobs []week.Job) (all []said.Question) {
	for _, j := range jobs {
		b := v.batch(j.Batch)
		if v.Writer == "" || b == nil || b.Stage(j.Stage) == nil || j.Look || j.Begun {
			continue
		}
		// That it is not yet says nothing of the time that was planned since.
		if w, _, _ := v.lastOf(j); w == nil || w.NotYet == j.Stage && w.At < j.Start {
			all = append(all, said.Question{Batch: b.ID, Cheese: b.Cheese, Stage: j.Stage, Start: j.Start, Ends: j.Until, Who: j.Who})
		}
	}
	return all
}

// isAsked reports whether a job is one of those that are to be answered.
func isAsked(j week.Job, of []said.Question) bool {
	return j.Stage != "" && !j.Look && slices.ContainsFunc(of, func(q said.Question) bool { return q.Batch == j.Batch && q.Stage == j.Stage })
}

// settled reports whether what was said of a batch answers a question: that the stage or a later one is
// done or begun, or that the batch is lost.
func (v *View) settled(q *said.Question) bool {
	at := v.stageOf(q.Batch, q.Stage)
	return slices.ContainsFunc(v.Told.Lately, func(w said.Word) bool {
		return w.Batch == q.Batch && (w.Lost || q.Carried == "" && max(v.stageOf(q.Batch, w.Did), v.stageOf(q.Batch, w.Began)) >= max(at, 0))
	})
}

// questions are all that is to be answered, the oldest first: what is over by now.
func (v *View) questions(jobs []week.Job) []said.Question {
	if v.Told == nil {
		return nil
	}
	all := slices.Clone(v.Told.Answer)
	for _, q := range v.passed(jobs) {
		if !slices.ContainsFunc(all, func(o said.Question) bool { return o.Batch == q.Batch && o.Stage == q.Stage }) {
			all = append(all, q)
		}
	}
	all = slices.DeleteFunc(all, func(q said.Question) bool {
		return q.Ends > v.moment() || q.Start < v.moment().Add(-askedWithin) || v.settled(&q)
	})
	slices.SortStableFunc(all, func(a, b said.Question) int { return cmp.Compare(a.Start, b.Start) })
	return all
}

// answers are what is to be answered, as the page asks it.
func (v *View) answers(of []said.Question) (all []AnswerView) {
	for _, q := range of {
		a := AnswerView{When: words.StampOf(v.Problem, q.Start), Text: words.Printable(q.Stage + " of " + q.Batch + ", " + q.Cheese)}
		if q.Who != "" {
			a.Text += ", " + words.Printable(q.Who)
		}
		add := func(f *FormView) {
			if f != nil {
				a.Forms = append(a.Forms, f)
			}
		}
		of := said.About{Batch: q.Batch, Stage: q.Stage}
		if q.Carried != "" {
			a.Text = words.Printable(q.Batch + " carried to the " + q.Carried + ", " + q.Cheese)
			add(v.form(said.About{Batch: q.Batch, Place: q.Carried}, a.Text, ButtonView{"stands", "It is there"}))
			all = append(all, a)
			continue
		}
		if done := v.form(of, a.Text); done != nil {
			done.asPlanned(v, q.Ends)
			add(done)
			more := v.form(of, a.Text)
			more.More, more.Looks, more.Planned = true, v.waits(q.Batch, q.Stage), done.Planned
			switch {
			case more.Looks:
				add(v.form(of, a.Text, ButtonView{"not_yet", "Not done"}))
			case v.isFirst(q.Batch, q.Stage):
				add(v.form(said.About{Batch: q.Batch}, a.Text, ButtonView{"lost", "Never made"}))
			}
			add(more)
		}
		all = append(all, a)
	}
	return all
}

// WordView is what was said, and the form that takes it back where that may still be.
type WordView struct {
	Text  string
	Means string // for the plan, where it was said last and here; "" else
	Back  *FormView
}

// wordsShown is how many of the last words are shown, besides those that may be taken back, and
// shownWithin of how long ago.
const (
	wordsShown  = 6
	shownWithin = 2 * resources.Day
)

// lately are the last words, the latest first.
func (v *View) lately() (all []WordView) {
	if v.Writer == "" {
		return nil
	}
	for i := range slices.Backward(v.Told.Lately) {
		w := &v.Told.Lately[i]
		out := WordView{Text: words.Printable(w.Text) + "," + v.byAt(w)}
		if w.At < v.moment().Add(-shownWithin) {
			continue
		}
		if w.Nr == v.Meant.Nr && w.Nr > 0 {
			out.Means = v.Meant.Means
		}
		if w.Last && w.Nr > 0 && w.Who == v.Writer {
			out.Back = v.form(said.About{Nr: w.Nr}, out.Text, ButtonView{"strike", "Take it back"})
		}
		if len(all) < wordsShown || out.Back != nil {
			all = append(all, out)
		}
	}
	return all
}
