package schedule

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Numbers are the highest numbers given so far, each under the code and the day of a make, as
// [Recipe.LotDay] writes them. Ids and lots share them: no name stands for two batches.
type Numbers map[string]int

// NumbersGiven are those that the folder and the plans before have given: to batches that are, were
// or are lost, and to lots.
func (p *Problem) NumbersGiven() Numbers {
	n := Numbers{}
	for _, plan := range []*Plan{p.Earlier, p.Lived} {
		if plan == nil {
			continue
		}
		for _, u := range plan.LastNumber {
			n[u.Day] = max(n[u.Day], u.Last)
		}
		for i := range plan.Batches {
			n.Note(plan.Batches[i].ID)
			n.Note(plan.Batches[i].Lot)
		}
	}
	for i := range p.Begun {
		n.Note(p.Begun[i].ID)
	}
	for _, id := range p.Lost {
		n.Note(id)
	}
	return n
}

// Note remembers that a name has been given. One that does not end in a number gives none.
func (n Numbers) Note(name string) {
	cut, number := strings.LastIndexByte(name, '-'), 0
	if cut < 0 {
		return
	}
	if _, err := fmt.Sscanf(name[cut+1:], "%d", &number); err == nil && number > n[name[:cut]] {
		n[name[:cut]] = number
	}
}

// Next gives a name of a day that nothing had before.
func (n Numbers) Next(day string) string {
	n[day]++
	return fmt.Sprintf("%s-%d", day, n[day])
}

// List gives the numbers as a plan keeps them, sorted by day.
func (n Numbers) List() []NumberUsed {
	var out []NumberUsed
	for day, last := range n {
		out = append(out, NumberUsed{Day: day, Last: last})
	}
	slices.SortFunc(out, func(a, b NumberUsed) int { return cmp.Compare(a.Day, b.Day) })
	return out
}
