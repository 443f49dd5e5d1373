package tiny

import (
	"slices"

	"ripeby/schedule/cp/problem"
)

// NaiveLate adds up how late lags are that run past their time.
func NaiveLate(mode *problem.Mode, k int, starts []int) int64 {
	var sum int64
	for i := max(k-1, 0); i+1 < len(mode.Acts); i++ {
		lag := LagAt(mode.Acts[i].Lag, starts[i]+mode.Acts[i].Work)
		switch l := starts[i+1] - starts[i] - mode.Acts[i].Work; {
		case l > lag.Most:
			late, _ := lag.Past.Of(l)
			sum += int64(late)
		case lag.Late != nil:
			sum += int64(lag.Late[l-lag.Least])
		}
	}
	return sum
}

// leftPart lays out what a job under way holds that is left where it is.
func leftPart(b *problem.Begun, homes []int) Part {
	var p Part
	done := len(b.Starts)
	for i := range b.Starts {
		if w := b.Workers[i]; w >= 0 && b.Mode.Acts[i].Work > 0 {
			p.works = append(p.works, taken{w, 1, b.Starts[i], b.Starts[i] + b.Mode.Acts[i].Work, true, 0, nil})
		}
	}
	for r, run := range b.Mode.Runs {
		c := run.Choices[b.Choices[r]]
		switch {
		case run.First < done && run.Last+1 < done:
			p.runs = append(p.runs, taken{c.Pool, run.Amount, b.Starts[run.First], b.Starts[run.Last+1] + b.Mode.Acts[run.Last+1].Work + c.Clean, true, 0, nil})
		case run.First < done:
			p.runs = append(p.runs, taken{c.Pool, run.Amount, b.Starts[run.First], problem.Infinite, true, 0, nil})
		}
	}
	for r, stay := range b.Mode.Stays {
		if stay.First < done && stay.Last+1 >= done {
			p.Stays = append(p.Stays, taken{homes[r], stay.Boxes, b.Starts[stay.First] + b.Mode.Acts[stay.First].Work, problem.Infinite, true, stay.Kind, nil})
		}
	}
	return p
}

// latestOf is the latest start of an activity of a job under way that runs late.
func latestOf(m *problem.Model, b, i int) int {
	if latest := m.Begun[b].Latest; latest != nil {
		return min(latest[i], m.Horizon)
	}
	return m.Horizon
}

// LeavesSome reports whether one of the jobs is left where it is.
func LeavesSome(jobs []*problem.Job) bool {
	return slices.ContainsFunc(jobs, func(j *problem.Job) bool { return j.Stuck })
}

// spacesOf are the spaces of a job's stays.
func spacesOf(j *problem.Job) []int {
	out := make([]int, len(j.Stays))
	for r := range out {
		out[r] = j.Stays[r].Space
	}
	return out
}
