package main

import (
	"fmt"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// moreWork is how many times the work is offered when something is not proved.
const moreWork = 10

// part is one part of the score in words: what is proved when its bound is
// reached, and what is open when it is not.
type part struct {
	level  schedule.Level
	proved string // what no plan does; "" when the part is as good as can be by itself
	equal  string // what the plans have that are as good up to this part
	open   string // what may be possible
}

// parts gives the eight parts, the one that counts most first.
func (s summary) parts() []part {
	a, b := s.plan.Score, s.plan.Proof.Bound
	unless := func(trivial bool, text string) string {
		if trivial {
			return ""
		}
		return text
	}
	return []part{
		{schedule.LevelPromisedShort, unless(a.PromisedShort == 0, "meets more of what is promised"), "as good in that",
			"more of what is promised might be met" + leastShort(b.PromisedShort)},
		{schedule.LevelLate, unless(a.Late == 0, "lets what has begun wait less past its time"), "with as little lateness",
			"what has begun might wait less past its time"},
		{schedule.LevelShort, unless(a.Short == 0, "meets more of what else is wanted"), "as good in that",
			"more of what is wanted might be met" + leastShort(b.Short)},
		{schedule.LevelBatches, unless(a.Batches == 0, "needs fewer batches"), "with as few batches",
			"fewer batches might do" + atBest(b.Batches > 0, fmt.Sprint(b.Batches))},
		{schedule.LevelMoved, unless(a.Moved == 0, "moves fewer stages"), "with as few stages moved", "fewer stages might be moved"},
		{schedule.LevelLitres, unless(a.Litres == 0, "needs less milk"), "with as little milk",
			"less milk might do" + atBest(b.Litres > 0, litres(b.Litres))},
		{schedule.LevelBother, unless(a.Bother == 0, "gives less bother"), "with as little bother",
			"less bother might be possible" + atBest(b.Bother > 0, schedule.Counted(int(b.Bother), "point"))},
		{schedule.LevelAll, unless(a.Batches == 0, "makes the cheese later and so fresher"), "",
			fmt.Sprintf("the cheese might be made later, by at most %s over all batches",
				length(resources.Minutes(b.MakeStarts-a.MakeStarts)))},
	}
}

// atBest tells a bound that says something.
func atBest(says bool, bound string) string {
	if !says {
		return ""
	}
	return ", " + bound + " at best"
}

// leastShort tells a bound on what is short, when there is one.
func leastShort(m resources.Money) string {
	if m == 0 {
		return ""
	}
	return ", but " + money(m) + " worth is short in any plan"
}

// proof says how good the plan is known to be. A plan that leaves nothing to be
// wished for needs no words.
func (s summary) proof() string {
	if s.plan.Proof.Level == schedule.LevelAll && s.plan.Score.Batches == 0 && s.plan.Outcome == schedule.Met && s.plan.Score.Bother == 0 {
		return ""
	}
	proved, open := s.known()
	text := ""
	for i, p := range proved {
		if i == 0 {
			text = "Proved: no plan " + p.proved
		} else {
			text += "; none " + proved[i-1].equal + " " + p.proved
		}
	}
	switch {
	case open == "" && len(proved) > 0:
		text += ". There is no better plan."
	case text != "":
		text += ". "
	}
	if open == "" {
		return text
	}
	text += "Not proved: " + open + "."
	if !s.stopped {
		text += fmt.Sprintf(" A longer search may tell: --work %d.", s.work*moreWork)
	}
	return strings.TrimSpace(text)
}

// known gives the parts that are proved, and the first that is not, "" for none.
func (s summary) known() (proved []part, open string) {
	parts := s.parts()
	if s.plan.Proof.Level == schedule.LevelNone {
		return nil, parts[0].open
	}
	for i, p := range parts {
		if p.proved != "" {
			proved = append(proved, p)
		}
		if p.level == s.plan.Proof.Level {
			if i+1 < len(parts) {
				open = parts[i+1].open
			}
			break
		}
	}
	return proved, open
}
