package feed

import (
	"net/url"
	"slices"

	"ripeby/calendar/heard"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// TodayView is what is to be done now and next.
type TodayView struct {
	Begins   string // when the plan does, where that is an hour ahead or more
	Done     string // what to say where nothing is left to do; "" where something is
	Mine     bool   // People[0] is who the page is for
	People   []PersonView
	Short    int            // pieces that targets to come lack
	Missing  []week.Leaving // the targets that lack them
	Anytime  []week.Job     // care that no round does today
	Milk     []JobView      // to order and to collect, today and tomorrow
	OrderBy  string         // until when milk is to be ordered today; "" where none is any more
	Leaving  *week.Leaving  // the next target; nil for none
	LeavesOn string         // when it leaves
	Sharp    string         // what "sharp" means; "" where nothing shown is
	Answer   []AnswerView   // to be answered
	Waits    bool           // what is to be answered is taken not to have begun
	Lately   []WordView     // what was said last
	Warned   []WarningView  // what the plan warns of and is not answered
	MoreWarn int            // how many warnings there are besides
}

// PersonView is one person's work by the clock.
type PersonView struct {
	Name              string
	To                *PersonLink // to the page for them; nil where there is none
	Now, Next, Before []JobView   // Before is what was planned for earlier today
}

// PersonLink leads to the page for somebody.
type PersonLink struct{ Address, Text string }

// JobView is a job with the day as seen from today: "" for today itself.
type JobView struct {
	week.Job
	Day  string
	Said string    // what was said of it
	Form *FormView // on which something may be said of it; nil for none
}

// roundsBefore are somebody's rounds of today and yesterday that lie before the plan, which tells of none of
// them.
func (v *View) roundsBefore(name string) (all []JobView) {
	k := &v.Problem.Kitchen
	span := resources.Span{From: v.today().AddDays(-1).Start(k.Zone), Until: min(v.moment(), v.Plan.From)}
	for _, r := range k.Rounds(span) {
		if k.People[r.Person].Name != name || r.Span.From < span.From || r.Span.Until > span.Until {
			continue
		}
		j := week.Job{Start: r.Span.From, Until: r.Span.Until, Who: name, What: "the round", Round: true,
			Clock: words.Clock(r.Span.From, k.Zone) + " to " + words.Clock(r.Span.Until, k.Zone)}
		shown, _ := v.job(j)
		all = append(all, shown)
	}
	return all
}

// inTurn puts whom the page is for before the others.
func (v *View) inTurn(people []string) []string {
	at := slices.Index(people, v.Person)
	if at <= 0 {
		return people
	}
	return append([]string{v.Person}, slices.Delete(slices.Clone(people), at, at+1)...)
}

// On is a moment as the page names it.
func (v *View) On(m resources.Moment) string { return words.StampOf(v.Problem, m) }

// nextJobs is how many jobs of each person are shown at least after the present one, besides those of today.
const nextJobs = 3

// withToday fills in what is to be done.
func (v *View) withToday() error {
	jobs, leaving, err := week.ShowJobs(v.Problem, v.Plan)
	if err != nil {
		return err
	}
	t, asked := &TodayView{Mine: v.Person != ""}, v.heard().Questions(jobs, v.Writer != "")
	now, today := v.moment(), v.today()
	if v.Plan.From.Sub(now) >= resources.Hour { // a plan made just now begins in some minutes
		t.Begins = words.StampOf(v.Problem, v.Plan.From)
	}
	for _, name := range v.inTurn(workersOf(peopleOf(v.Problem), jobs)) {
		p := PersonView{Name: words.Printable(name)}
		if _, ok := segments("/" + url.PathEscape(name)); ok && v.Root != "" && inKitchen(v.Problem, name) {
			p.To = &PersonLink{v.Root + "for/" + url.PathEscape(name), p.Name}
		}
		if v.Writer != "" {
			p.Before = v.roundsBefore(name)
		}
		for _, j := range jobs {
			if j.Anytime || j.Who != name {
				continue
			}
			shown, done := v.job(j)
			if heard.IsAsked(j, asked) { // above all else
				shown.Form = nil
			}
			switch {
			case done:
				if j.Start.DateIn(v.Problem.Kitchen.Zone) == today {
					p.Before = append(p.Before, shown)
				}
			case j.Start <= now && now < j.Until:
				p.Now = append(p.Now, shown)
			case j.Start > now && !j.Begun && (len(p.Next) < nextJobs || shown.Day == ""): // what has begun is past, though the plan lies ahead
				p.Next = append(p.Next, shown)
			case j.Start <= now && j.Start.DateIn(v.Problem.Kitchen.Zone) == today:
				p.Before = append(p.Before, shown)
			}
		}
		if slices.ContainsFunc(slices.Concat(p.Now, p.Next, p.Before), func(j JobView) bool { return j.Sharp }) {
			t.Sharp = words.SharpNote
		}
		t.People = append(t.People, p)
	}
	for _, j := range jobs {
		away := today.DaysUntil(j.Start.DateIn(v.Problem.Kitchen.Zone))
		switch {
		case j.Anytime && away == 0:
			t.Anytime = append(t.Anytime, j)
		case j.Milk != nil && (away == 0 || away == 1): // what was due this morning may still be there to collect
			shown, done := v.job(j)
			t.Milk = append(t.Milk, shown)
			if j.Milk.Order && away == 0 && !done && j.Start >= now && t.OrderBy == "" {
				t.OrderBy = j.Clock
			}
		}
	}
	for i := range leaving {
		switch l := &leaving[i]; {
		case l.At < now:
			continue
		case t.Leaving == nil:
			t.Leaving, t.LeavesOn = l, words.StampOf(v.Problem, l.At)
		case len(l.Missing) > 0:
			t.Missing = append(t.Missing, *l)
		}
	}
	for i := range v.Plan.Targets {
		if w := &v.Plan.Targets[i]; w.By >= now {
			t.Short += w.Short
		}
	}
	t.Done = v.doneText(jobs, leaving)
	t.Answer, t.Lately = v.answers(asked), v.lately()
	t.Warned, t.MoreWarn = v.warned()
	t.Waits = len(asked) > 0 && asked[0].Waits
	v.Today = t
	return nil
}

// job is a job as it is shown, and whether it was said to be done.
func (v *View) job(j week.Job) (shown JobView, done bool) {
	shown = JobView{Job: j, Day: v.heard().DayWord(j.Start)}
	shown.Facts = append(slices.Clone(j.Facts), v.heard().MeasuredFacts(j.Batch, j.Stage)...)
	if shown.Said, done = v.heard().Said(j); !done {
		shown.Form = v.formOf(j)
	}
	return shown, done
}

// doneText says that nothing is left to do, "" where something is.
func (v *View) doneText(jobs []week.Job, leaving []week.Leaving) string {
	const more = " To have more planned, add targets to the kitchen folder."
	last := resources.Moment(0)
	for _, j := range jobs {
		if j.Anytime {
			last = max(last, j.Start.DateIn(v.Problem.Kitchen.Zone).AddDays(1).Start(v.Problem.Kitchen.Zone))
		} else {
			last = max(last, j.Until)
		}
	}
	for _, l := range leaving {
		last = max(last, l.At)
	}
	switch {
	case last == 0:
		return "Nothing is planned." + more
	case last <= v.moment():
		return "Nothing of this plan is left to do: the last of it was on " + words.StampOf(v.Problem, last) + "." + more
	}
	return ""
}

// workersOf are the people of the kitchen, and then whoever else has work.
func workersOf(people []string, jobs []week.Job) []string {
	all := slices.Clone(people)
	for _, j := range jobs {
		if j.Who != "" && !slices.Contains(all, j.Who) {
			all = append(all, j.Who)
		}
	}
	return all
}
