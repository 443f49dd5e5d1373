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
	if day, number := cutNumber(name); number > n[day] {
		n[day] = number
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

// CompareIDs orders ids and lots as a maker reads them: by code and day, then by number.
func CompareIDs(a, b string) int {
	x, n := cutNumber(a)
	y, m := cutNumber(b)
	return cmp.Or(cmp.Compare(x, y), cmp.Compare(n, m), cmp.Compare(a, b))
}

// cutNumber takes the number off the end of a name; -1 where there is none.
func cutNumber(name string) (rest string, number int) {
	cut := strings.LastIndexByte(name, '-')
	if cut < 0 {
		return name, -1
	}
	if _, err := fmt.Sscanf(name[cut+1:], "%d", &number); err != nil {
		return name, -1
	}
	return name[:cut], number
}
