package feed

import (
	"slices"
	"time"

	"ripeby/calendar/heard"
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
	Measures    []heard.Field
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
		f.More, f.Looks, f.Measures = true, v.heard().Waits(j.Batch, j.Stage), v.heard().Fields(j.Batch, j.Stage)
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

// AnswerView is something to be answered.
type AnswerView struct {
	Text, When string
	Forms      []*FormView
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
			done.Measures = v.heard().Fields(q.Batch, q.Stage)
			add(done)
			more := v.form(of, a.Text)
			more.More, more.Looks, more.Planned, more.Measures = true, v.heard().Waits(q.Batch, q.Stage), done.Planned, done.Measures
			switch {
			case more.Looks:
				add(v.form(of, a.Text, ButtonView{"not_yet", "Not done"}))
			case v.heard().IsFirst(q.Batch, q.Stage):
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
	Blank *FormView // asks for what is not written down yet of it
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
		out := WordView{Text: words.Printable(w.Text) + "," + v.heard().By(w)}
		if w.At < v.moment().Add(-shownWithin) {
			continue
		}
		if w.Nr == v.Meant.Nr && w.Nr > 0 {
			out.Means = v.Meant.Means
		}
		if w.Last && w.Nr > 0 && w.Who == v.Writer {
			out.Back = v.form(said.About{Nr: w.Nr}, out.Text, ButtonView{"strike", "Take it back"})
		}
		out.Blank = v.blankForm(w)
		if len(all) < wordsShown || out.Back != nil || out.Blank != nil {
			all = append(all, out)
		}
	}
	return all
}

// blankForm asks for what is not written down yet of a stage that was said to be done; nil for nothing.
func (v *View) blankForm(w *said.Word) *FormView {
	blank := v.heard().BlankFields(w)
	if len(blank) == 0 {
		return nil
	}
	f := v.form(said.About{Batch: w.Batch, Stage: w.Did}, words.Printable(w.Did+", "+w.Batch), ButtonView{"measured", "Write down"})
	f.Measures = blank
	return f
}
