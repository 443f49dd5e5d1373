package feed

import (
	"slices"

	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// FormView is a form of a writing address: what it is about, sealed, and what its buttons say.
type FormView struct {
	About
	Action, Key string
	Name        string // what it is about, for those who do not see where it stands
	At          string // a moment that is sent with it; "" for none
	Litres      string // how much milk it is as planned; "" for none
	Buttons     []ButtonView
	More        bool // what else may be said of it is to be unfolded
	Looks       bool // that it is not yet is one of that
}

// ButtonView is a button: what is sent, and what stands on it.
type ButtonView struct{ Say, Text string }

// form makes a form of this page; nil at an address to read at.
func (v *View) form(about About, name string, buttons ...ButtonView) *FormView {
	if v.Writer == "" {
		return nil
	}
	about.After = v.Told.Last
	return &FormView{About: about, Action: v.Root + sayingAt, Key: about.key(v.Token), Name: name, Buttons: buttons}
}

// isFirst reports whether a stage begins its batch: nothing is waited for before it.
func (v *View) isFirst(batch, stage string) bool {
	b := v.batch(batch)
	return b != nil && b.Stages[0].Stage == stage
}

// formOf is the form of a job, nil where nothing is said of such, or it is said.
func (v *View) formOf(j week.Job) *FormView {
	day := j.Start.DateIn(v.Problem.Kitchen.Zone)
	name := words.Printable(j.What)
	switch {
	case v.Writer == "":
		return nil
	case j.Batch != "" && j.Stage != "":
		f := v.form(About{Batch: j.Batch, Stage: j.Stage}, name, ButtonView{"did", "Done"})
		if j.Until <= v.moment() { // now it was not
			f.Buttons[0].Text, f.At = "Done as planned", resources.FormatMoment(j.Until, v.Problem.Kitchen.Zone)
		}
		f.More, f.Looks = true, !v.isFirst(j.Batch, j.Stage)
		return f
	case j.Batch != "" && j.To != "":
		return v.form(About{Batch: j.Batch, Place: j.To}, name, ButtonView{"stands", "Carried"})
	case j.Round && day == v.today():
		return v.form(About{Round: day.String()}, name, ButtonView{"round", "Done"}, ButtonView{"skipped", "Not done"})
	case j.Milk != nil:
		button := ButtonView{"came", "Came"}
		if j.Milk.Order {
			button = ButtonView{"ordered", "Ordered"}
		}
		f := v.form(About{Milk: j.Milk.Supply, Day: j.Milk.Collect.DateIn(v.Problem.Kitchen.Zone).String()}, name, button)
		f.Litres = resources.FormatVolume(j.Milk.Litres + j.Milk.Known)
		if !j.Milk.Order {
			f.Litres = resources.FormatVolume(j.Milk.Litres)
		}
		return f
	}
	return nil
}

// saidOf is what was said of a job, "" for nothing; done says that it is over with that.
func (v *View) saidOf(j week.Job) (text string, done bool) {
	if v.Told == nil {
		return "", false
	}
	day := j.Start.DateIn(v.Problem.Kitchen.Zone)
	for _, w := range slices.Backward(v.Told.Lately) {
		of := ""
		switch {
		case j.Batch != "" && j.Batch == w.Batch && j.Stage != "":
			switch j.Stage {
			case w.Did:
				of, done = "done", true
			case w.Began:
				of = "begun"
			case w.NotYet:
				of = "not yet"
			}
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
			return of + v.byAt(&w), done
		}
	}
	return "", false
}

// byAt is when something was, and who said so.
func (v *View) byAt(w *Word) string {
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

// passed are the jobs of the plan in force that should be done by now, and of which nobody spoke, as
// who writes is asked about them.
func (v *View) passed(jobs []week.Job) (all []Question) {
	for _, j := range jobs {
		b := v.batch(j.Batch)
		if v.Writer == "" || b == nil || b.Stage(j.Stage) == nil || j.Begun || j.Until > v.moment() {
			continue
		}
		if said, _ := v.saidOf(j); said == "" {
			all = append(all, Question{Batch: b.ID, Cheese: b.Cheese, Stage: j.Stage, Start: j.Start, Ends: j.Until, Who: j.Who})
		}
	}
	return all
}

// isAsked reports whether a job is one of those that are to be answered.
func isAsked(j week.Job, of []Question) bool {
	return j.Stage != "" && slices.ContainsFunc(of, func(q Question) bool { return q.Batch == j.Batch && q.Stage == j.Stage })
}

// questions are all that is to be answered.
func (v *View) questions(jobs []week.Job) []Question {
	if v.Told == nil {
		return nil
	}
	all := slices.Clone(v.Told.Answer)
	for _, q := range v.passed(jobs) {
		if !slices.ContainsFunc(all, func(o Question) bool { return o.Batch == q.Batch && o.Stage == q.Stage }) {
			all = append(all, q)
		}
	}
	return all
}

// answers are what is to be answered, as the page asks it.
func (v *View) answers(of []Question) (all []AnswerView) {
	for _, q := range of {
		a := AnswerView{When: words.StampOf(v.Problem, q.Start), Text: words.Printable(q.Stage + " of " + q.Batch + ", " + q.Cheese)}
		if q.Who != "" {
			a.Text += ", " + words.Printable(q.Who)
		}
		add := func(about About, at resources.Moment, b ...ButtonView) {
			if f := v.form(about, a.Text, b...); f != nil {
				if at > 0 {
					f.At = resources.FormatMoment(at, v.Problem.Kitchen.Zone)
				}
				f.More, f.Looks = len(b) == 0, !v.isFirst(q.Batch, q.Stage)
				a.Forms = append(a.Forms, f)
			}
		}
		of := About{Batch: q.Batch, Stage: q.Stage}
		switch {
		case q.Carried != "":
			a.Text = words.Printable(q.Batch + " carried to the " + q.Carried + ", " + q.Cheese)
			add(About{Batch: q.Batch, Place: q.Carried}, 0, ButtonView{"stands", "It is there"})
		case v.isFirst(q.Batch, q.Stage):
			add(of, q.Ends, ButtonView{"did", "Done as planned"})
			add(About{Batch: q.Batch}, 0, ButtonView{"lost", "Never made"})
			add(of, 0)
		default:
			add(of, q.Ends, ButtonView{"did", "Done as planned"})
			add(of, 0, ButtonView{"not_yet", "Not done"})
			add(of, 0)
		}
		all = append(all, a)
	}
	return all
}

// WordView is what was said, and the form that takes it back where that may still be.
type WordView struct {
	Text string
	Back *FormView
}

// wordsShown is how many of the last words are shown.
const wordsShown = 6

// lately are the last words of today and yesterday, the latest first.
func (v *View) lately() (all []WordView) {
	if v.Writer == "" {
		return nil
	}
	for _, w := range slices.Backward(v.Told.Lately) {
		if len(all) == wordsShown {
			break
		}
		text := words.Printable(w.Text) + "," + v.byAt(&w)
		out := WordView{Text: text}
		if w.Last && w.Nr > 0 && w.Who == v.Writer {
			out.Back = v.form(About{Nr: w.Nr}, text, ButtonView{"strike", "Take it back"})
		}
		all = append(all, out)
	}
	return all
}
