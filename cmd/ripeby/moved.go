package main

import (
	"context"
	"fmt"
	"io"
	"regexp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// What a plan changes of what was told is said before anything that only the new plan knows: within the
// settled time each task with its reason, later ones as far as laterTold; plan.json has all of them.

// laterTold is how many tasks after the settled time are told one by one.
const laterTold = 6

// moved tells what the plan moves, drops or gives to somebody else, from when to when and why.
func (s summary) moved(w io.Writer) {
	if s.settled == nil {
		return
	}
	p := s.plan
	line(w, "")
	if len(p.Changes) == 0 {
		s.sentence(w, "Nothing that was planned has moved. "+s.saves)
		return
	}
	soon := 0
	for _, c := range p.Changes {
		if c.Before(s.settled.Until) {
			soon++
		}
	}
	once := &toldOnce{}
	if !s.settled.Empty() {
		s.sentence(w, fmt.Sprintf("Until %s %s of what was planned.", moment(s.settled.Until, s.zone), movedCount(soon)))
		for _, c := range p.Changes[:soon] {
			s.item(w, once.shown(s.change(c)))
		}
	}
	later := p.Changes[soon:]
	if len(later) > 0 {
		s.sentence(w, fmt.Sprintf("Later %s.", movedCount(len(later))))
	}
	for _, c := range later[:min(len(later), laterTold)] {
		s.item(w, once.shown(s.change(c)))
	}
	if n := len(later) - laterTold; n > 0 {
		s.item(w, fmt.Sprintf("%s more, in plan.json under changes.", schedule.Counted(n, "task")))
	}
	s.sentence(w, s.saves)
}

// toldOnce leaves out what an entry of the record says where that was told before.
type toldOnce struct{ seen []string }

// saidInFull is an entry with what it says.
var saidInFull = regexp.MustCompile(`(entry \d+|line \d+)( \([^()]*\))`)

func (o *toldOnce) shown(text string) string {
	return saidInFull.ReplaceAllStringFunc(text, func(full string) string {
		if slices.Contains(o.seen, full) {
			return saidInFull.FindStringSubmatch(full)[1]
		}
		o.seen = append(o.seen, full)
		return full
	})
}

// movedCount says how many tasks change.
func movedCount(n int) string {
	if n == 1 {
		return "1 task changes"
	}
	if n == 0 {
		return "nothing changes"
	}
	return schedule.Counted(n, "task") + " change"
}

// change is one task: from when to when, by whom, and why.
func (s summary) change(c schedule.Change) string {
	at := func(m resources.Moment, who string) string {
		text := moment(m, s.zone)
		if who != "" && c.WasWho != c.NowWho {
			text += " by " + who
		}
		return text
	}
	what := c.Batch + " " + c.Stage + ": "
	switch {
	case c.Now == 0:
		what += "no more " + at(c.Was, "")
	case c.Was == 0:
		what += "now too, " + at(c.Now, c.NowWho)
	default:
		what += at(c.Was, c.WasWho) + ", now " + at(c.Now, c.NowWho)
	}
	return what + ". " + c.Because
}

// One part in savesShare of the work goes to the question what would be saved if nothing were settled, and
// no more than savesMost: where that is too little, nothing is said of it.
const (
	savesShare = 4
	savesMost  = 40_000_000
)

// savesIfFree says what a plan would save in which anything may move, where that is something, as a sentence without its end.
func savesIfFree(ctx context.Context, problem *schedule.Problem, plan *schedule.Plan, work int64) string {
	if problem.Settled().Empty() || ctx.Err() != nil {
		return ""
	}
	free := *problem
	free.Kitchen.Settled = 0
	other, err := planner.Plan(ctx, &free, planner.Options{Budget: max(min(work/savesShare, savesMost), 1)})
	if err != nil || leftToOthers(problem, other) > leftToOthers(problem, plan) {
		return "" // nobody is offered what somebody else has taken on
	}
	now := plan.Score
	now.Moved, now.Bother = 0, now.Bother-laterPoints(problem, plan)
	what := ""
	switch s := other.Score; {
	case s.Compare(now) >= 0:
		return ""
	case s.PromisedShort != now.PromisedShort || s.Late != now.Late || s.Short != now.Short || s.Batches != now.Batches:
		what = "serve better"
	case s.Litres < now.Litres:
		what = "save " + litres(now.Litres-s.Litres) + " of milk"
	case s.Bother < now.Bother:
		what = "save " + schedule.Counted(int(now.Bother-s.Bother), "point") + " of bother"
	default:
		what = "make cheese later and so fresher"
	}
	if !other.Proof.Best {
		what += ", or do better yet" // the look was a short one
	}
	return "Moving more would " + what
}

// leftToOthers is how much work that is to come somebody has taken on and another does.
func leftToOthers(problem *schedule.Problem, plan *schedule.Plan) (n int) {
	for _, x := range problem.TakenOn {
		if t := plan.Batch(x.Batch).Stage(x.Stage); t == nil || t.Who != x.Who {
			n++
		}
	}
	return n
}

// laterPoints is the bother of what was told for after the settled time and is otherwise.
func laterPoints(problem *schedule.Problem, plan *schedule.Plan) (points int64) {
	until := problem.Settled().Until
	for _, c := range plan.Changes {
		if c.Was >= until && (c.Now == 0 || c.Now >= until) && !problem.OnlyTakenOver(&c) {
			points += schedule.OtherwisePoints
		}
	}
	return points
}
