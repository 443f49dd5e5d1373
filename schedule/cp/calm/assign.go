package calm

import (
	"math"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Assign makes new jobs, as they are placed, the kept ones that they are best, those of what is frozen
// aside; it reports whether that gained anything. Of equal ways that stays which was there.
func Assign(l, frozen *usage.Ledger) bool {
	if !l.Model.Calm() {
		return false
	}
	better := false
	for f := range l.Model.Families {
		better = assignFamily(l, frozen, f) || better
	}
	return better
}

func assignFamily(l, frozen *usage.Ledger, family int) bool {
	var jobs []*problem.Job
	for _, j := range l.Jobs {
		if j.Begun < 0 && j.Family == family {
			jobs = append(jobs, j)
		}
	}
	var kept []*problem.Kept
	for k := range l.Model.Kept {
		if e := &l.Model.Kept[k]; e.Family == family && (frozen == nil || frozen.IsFree(e)) {
			kept = append(kept, e)
		}
	}
	if len(jobs) == 0 || len(kept) == 0 {
		return false
	}
	gains, now, best := make([][]int64, len(kept)), int64(0), int64(0)
	for x, e := range kept {
		gains[x] = make([]int64, len(jobs))
		for y, j := range jobs {
			gains[x][y] = gainOf(l.Model, j, l.ModeOf(j), e)
			if j.Kept == e {
				now += gains[x][y]
			}
		}
	}
	l.Spent += int64(len(kept)*len(kept)*(len(kept)+len(jobs)))/assignShare + 1
	as := assign(gains, len(jobs))
	for x, y := range as {
		if y >= 0 {
			best += gains[x][y]
		}
	}
	if best <= now {
		return false
	}
	is := make([]*problem.Kept, len(jobs))
	for x, y := range as {
		if y >= 0 && gains[x][y] > 0 {
			is[y] = kept[x]
		}
	}
	for y, j := range jobs {
		if j.Kept == is[y] {
			jobs[y] = nil
			continue
		}
		l.Remove(j)
	}
	for y, j := range jobs {
		if j != nil { // another job: this one may be part of another plan
			again := *j
			again.Kept = is[y]
			l.Add(&again)
		}
	}
	return true
}

// assignShare: so many looks are one unit of counted work.
const assignShare = 16

// assign gives each row a column of its own, or -1, so that the gains, none of which is below 0, are
// greatest in all. Rows come one after another, each by a shortest path of exchanges, with prices of
// rows and columns under which no exchange gains; a row has a column more that only it may take.
func assign(gains [][]int64, columns int) []int {
	n := len(gains)
	cost := func(row, column int) int64 { // columns count from 1; 0 is where a row comes in
		switch {
		case column <= columns:
			return -gains[row][column-1]
		case column == columns+row+1:
			return 0
		}
		return math.MaxInt64 / 4
	}
	rows := make([]int64, n)             // their prices
	prices := make([]int64, columns+n+1) // of columns
	holder := make([]int, columns+n+1)   // row of a column, -1 for none
	for c := range holder {
		holder[c] = -1
	}
	for row := range n {
		holder[0] = row
		least, from, seen := make([]int64, len(holder)), make([]int, len(holder)), make([]bool, len(holder))
		for c := range least {
			least[c] = math.MaxInt64 / 2
		}
		at := 0
		for holder[at] >= 0 {
			seen[at] = true
			next, step := -1, int64(math.MaxInt64/2)
			for c := 1; c < len(holder); c++ {
				if seen[c] {
					continue
				}
				if v := cost(holder[at], c) - rows[holder[at]] - prices[c]; v < least[c] {
					least[c], from[c] = v, at
				}
				if least[c] < step {
					next, step = c, least[c]
				}
			}
			for c := range holder {
				if seen[c] {
					rows[holder[c]], prices[c] = rows[holder[c]]+step, prices[c]-step
				} else {
					least[c] -= step
				}
			}
			at = next
		}
		for at != 0 {
			holder[at], at = holder[from[at]], from[at]
		}
	}
	out := make([]int, n)
	for c := 1; c < len(holder); c++ {
		if holder[c] >= 0 {
			out[holder[c]] = c - 1
			if c > columns {
				out[holder[c]] = -1
			}
		}
	}
	return out
}
