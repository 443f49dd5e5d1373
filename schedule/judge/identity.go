package judge

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ripeby/schedule"
)

// checkIDs: every batch has an id of its own. A new batch's is its recipe's code,
// the local date of its make in the first plan that holds it, and a number; an id
// of the earlier plan still means the same cheese.
func checkIDs(h *hearing) {
	seen := map[string]bool{}
	named := map[string]string{} // ids by lots
	for _, l := range h.lots {
		if lot := l.batch.Lot; lot != "" {
			if l.past == nil || named[lot] != "" {
				h.failLot("lot", l, "got lot %q, want none that another batch has, and none before it has begun", lot)
			}
			named[lot] = l.batch.ID
		}
	}
	for _, l := range h.lots {
		if id := named[l.batch.ID]; id != "" && id != l.batch.ID {
			h.failLot("lot", l, "got an id that is the lot of %s", id)
		}
	}
	for _, l := range h.lots {
		id := l.batch.ID
		if seen[id] {
			h.failLot("id-twice", l, "got two batches of this id, want one")
		}
		seen[id] = true
		old := h.earlier[id]
		if old != nil && old.Cheese != l.batch.Cheese && (l.past == nil || l.past.carried) {
			h.failLot("id-reused", l, "got %s, but in the earlier plan this id is %s; want a new id", l.batch.Cheese, old.Cheese)
			continue
		}
		if l.past != nil || l.recipe == nil {
			continue
		}
		stem, n, ok := splitID(id)
		switch {
		case old == nil && (!ok || n < 1 || !strings.HasPrefix(stem, l.recipe.Code+"-")):
			// An id of the earlier plan stays, though the recipe's code is another now.
			h.failLot("id-form", l, "got %q, want %s-yymmdd-n", id, l.recipe.Code)
		case old == nil && len(l.batch.Stages) > 0 && stem != h.stem(l):
			h.failLot("id-form", l, "got %q, want %s-n for a make on that day", id, h.stem(l))
		case old != nil && len(old.Stages) > 0 && old.Stages[0].Start < h.from && !h.neverBegan(id):
			h.failLot("id-reused", l, "got a new batch, but the earlier plan's batch of this id has begun; want a new id")
		case old == nil && n <= lastNumber(h.problem.Earlier, stem):
			h.failLot("id-reused", l, "got number %d, but the earlier plan has given numbers up to %d on that day; want a later one",
				n, lastNumber(h.problem.Earlier, stem))
		}
	}
}

// neverBegan reports whether the earlier plan as it went shows that a batch of it did not begin:
// it is planned anew, under its id.
func (h *hearing) neverBegan(id string) bool {
	lived := h.problem.Lived
	return lived != nil && lived.Batch(id) == nil && !slices.Contains(h.problem.Lost, id)
}

// stem is the id of a new batch without its number.
func (h *hearing) stem(l *lot) string {
	d := dayIn(l.batch.Stages[0].Start, h.zone).date()
	return fmt.Sprintf("%s-%02d%02d%02d", l.recipe.Code, ((d.Year%100)+100)%100, int(d.Month), d.Day)
}

// splitID takes an id apart at its last hyphen; what stands before it must end in
// six digits.
func splitID(id string) (stem string, number int, ok bool) {
	i := strings.LastIndexByte(id, '-')
	if i < 7 || id[i-7] != '-' {
		return "", 0, false
	}
	for _, c := range id[i-6 : i] {
		if c < '0' || c > '9' {
			return "", 0, false
		}
	}
	n, err := strconv.Atoi(id[i+1:])
	return id[:i], n, err == nil && strconv.Itoa(n) == id[i+1:]
}

// lastNumber is the highest number that a plan says was given for a code and day.
func lastNumber(plan *schedule.Plan, stem string) int {
	highest := 0
	if plan == nil {
		return 0
	}
	for _, u := range plan.LastNumber {
		if u.Day == stem {
			highest = max(highest, u.Last)
		}
	}
	for i := range plan.Batches {
		if s, n, ok := splitID(plan.Batches[i].ID); ok && s == stem {
			highest = max(highest, n)
		}
	}
	return highest
}

// checkNumbers: the numbers given so far are remembered, the plan's own and those
// of the earlier plan, sorted by code and day.
func checkNumbers(h *hearing) {
	kept := map[string]int{}
	for i, u := range h.plan.LastNumber {
		kept[u.Day] = u.Last
		if i > 0 && h.plan.LastNumber[i-1].Day >= u.Day {
			h.fail("last-number", u.Day, 0, "got it after %s, want them sorted and each once", h.plan.LastNumber[i-1].Day)
		}
	}
	for _, l := range h.lots {
		if stem, n, ok := splitID(l.batch.ID); ok && l.past == nil && kept[stem] < n {
			h.failLot("last-number", l, "got %d as the last number of %s, want at least %d", kept[stem], stem, n)
		}
	}
	if h.problem.Earlier == nil {
		return
	}
	for _, u := range h.problem.Earlier.LastNumber {
		if kept[u.Day] < u.Last {
			h.fail("last-number", u.Day, 0, "got %d as the last number, want at least %d as in the earlier plan", kept[u.Day], u.Last)
		}
	}
}

// checkLost: what never began or was thrown away is not in the plan.
func checkLost(h *hearing) {
	for _, l := range h.lots {
		for _, id := range h.problem.Lost {
			if id == l.batch.ID {
				h.failLot("lost", l, "got a batch that is lost, want it left out")
				break
			}
		}
	}
}
