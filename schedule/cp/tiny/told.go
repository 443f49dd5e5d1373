package tiny

import (
	"slices"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
)

// Tell draws, for a half of the models, what an earlier plan told: of jobs under way and of some
// that have not begun.
func Tell(t *rapid.T, m *problem.Model) *problem.Model {
	if !OneIn(t, 2, "told") {
		return m
	}
	out := *m
	out.Settled = DrawInt(t, 1, 9, "settled")
	out.Begun = append([]problem.Begun(nil), m.Begun...)
	for b := range out.Begun {
		out.Begun[b].Told = drawTold(t, &out, &out.Begun[b].Mode, len(out.Begun[b].Starts))
	}
	for n := range DrawInt(t, 0, 2, "kept") {
		f := DrawInt(t, 0, len(m.Families)-1, "kept family")
		out.Kept = append(out.Kept, problem.Kept{Number: n, Family: f, Told: drawTold(t, &out, &m.Families[f].Modes[0], 0)})
	}
	return &out
}

// drawTold draws what was told of a mode's activities, but for those that have begun.
func drawTold(t *rapid.T, m *problem.Model, mode *problem.Mode, begun int) []problem.Told {
	out := make([]problem.Told, len(mode.Acts))
	at := m.From + DrawInt(t, 0, 4, "told from")
	for i := begun; i < len(out); i++ {
		out[i] = problem.Told{As: problem.ToldLater, Start: at, Worker: -1}
		if workers := mode.Acts[i].Workers; len(workers) > 0 {
			out[i].Worker = workers[DrawInt(t, 0, len(workers)-1, "told worker")]
		}
		if at < m.From+m.Settled {
			out[i].As = problem.ToldSettled
		}
		if OneIn(t, 8, "told otherwise") {
			out[i].As = []problem.ToldAs{problem.ToldNothing, problem.ToldNoMore}[DrawInt(t, 0, 1, "how")]
		}
		out[i].Taken = out[i].As != problem.ToldNothing && mode.Acts[i].Work > 0 && OneIn(t, 5, "taken on")
		at += mode.Acts[i].Work + mode.Acts[i].Lag.Least + DrawInt(t, 0, 3, "told lag")
	}
	return out
}

// TellAs is a model that was told a plan of another one, from which it then differs in something.
func TellAs(t *rapid.T, m *problem.Model, r *problem.Result) *problem.Model {
	out := *m
	out.Settled = DrawInt(t, 1, 12, "settled")
	out.Begun = slices.Clone(m.Begun)
	for i := range r.Jobs {
		j := &r.Jobs[i]
		_, begun := modeOfJob(m, j)
		told := make([]problem.Told, len(j.Starts))
		for a := begun; a < len(told); a++ {
			told[a] = problem.Told{As: problem.ToldLater, Start: j.Starts[a], Worker: j.Workers[a]}
			if j.Starts[a] < m.From+out.Settled {
				told[a].As = problem.ToldSettled
			}
			told[a].Taken = j.Workers[a] >= 0 && OneIn(t, 6, "taken on")
		}
		switch {
		case j.Stuck:
		case j.Begun >= 0:
			out.Begun[j.Begun].Told = told
		default:
			out.Kept = append(out.Kept, problem.Kept{Number: len(out.Kept), Family: j.Family, Told: told})
		}
	}
	out.Demands, out.Pools, out.Workers = slices.Clone(m.Demands), slices.Clone(m.Pools), slices.Clone(m.Workers)
	d, p, w := DrawInt(t, 0, len(m.Demands)-1, "demand"), DrawInt(t, 0, len(m.Pools)-1, "pool"), DrawInt(t, 0, len(m.Workers)-1, "worker")
	switch DrawInt(t, 0, 5, "what differs") {
	case 0:
		out.Demands[d].Units++
	case 1:
		out.Demands[d].Units = max(1, out.Demands[d].Units-1)
	case 2:
		out.Demands[d].Due += DrawInt(t, -3, 3, "due")
	case 3:
		out.Pools[p].Capacity = max(1, out.Pools[p].Capacity-1)
	case 4:
		out.Workers[w].Windows = []problem.Span{{From: m.From + DrawInt(t, 1, 5, "away"), Until: m.Horizon}}
	case 5:
		at := m.From + DrawInt(t, 0, 6, "avoided")
		out.Workers[w].Avoid = []problem.Span{{From: at, Until: at + 7}}
	}
	return &out
}

// naiveUnrest counts stages one by one: moved is a stage with work in the settled time, by what was told
// or by what is done, that is not the same in both; what was to come later and is otherwise costs 3.
// starts is nil for what is not done.
func naiveUnrest(m *problem.Model, told []problem.Told, mode *problem.Mode, begun int, starts, workers []int) (u problem.Unrest) {
	if m.Settled == 0 {
		return u
	}
	until := m.From + m.Settled
	for i := range mode.Acts {
		was, is := false, starts != nil && i >= begun && mode.Acts[i].Work > 0
		t := problem.Told{}
		if told != nil {
			t = told[i]
			was = t.As == problem.ToldSettled || t.As == problem.ToldLater
		}
		if t.Taken && !(is && workers[i] == t.Worker) { // somebody's own, and another does it, or nobody
			u.Moved++
		}
		if t.As == problem.ToldNoMore || was && is && t.Start == starts[i] && (t.Taken || t.Worker == workers[i]) {
			continue
		}
		if was && t.As == problem.ToldSettled || is && starts[i] < until {
			u.Moved++
		} else if was {
			u.Points += 3
		}
	}
	return u
}

// tellings are what a plan may count of what was told: for every way of having its new jobs be kept
// ones, the number of each, -1 for none, and what that counts.
func tellings(m *problem.Model, chosen []*Way) (kept [][]int, counts []problem.Unrest) {
	as := make([]int, len(chosen))
	taken := make([]bool, len(m.Kept))
	var next func(i int, u problem.Unrest)
	next = func(i int, u problem.Unrest) {
		if i == len(chosen) {
			for k := range m.Kept {
				if !taken[k] {
					u = sum(u, naiveUnrest(m, m.Kept[k].Told, &m.Families[m.Kept[k].Family].Modes[0], 0, nil, nil))
				}
			}
			kept, counts = append(kept, slices.Clone(as)), append(counts, u)
			return
		}
		v := chosen[i]
		as[i] = -1
		if v.Begun >= 0 {
			b := &m.Begun[v.Begun]
			starts := v.Starts
			if v.Cost.Stuck > 0 {
				starts = nil
			}
			next(i+1, sum(u, naiveUnrest(m, b.Told, &b.Mode, len(b.Starts), starts, v.Workers)))
			return
		}
		mode := &m.Families[v.Family].Modes[v.Mode]
		next(i+1, sum(u, naiveUnrest(m, nil, mode, 0, v.Starts, v.Workers)))
		for k := range m.Kept {
			if !taken[k] && m.Kept[k].Family == v.Family {
				taken[k], as[i] = true, k
				next(i+1, sum(u, naiveUnrest(m, m.Kept[k].Told, mode, 0, v.Starts, v.Workers)))
				taken[k] = false
			}
		}
	}
	next(0, problem.Unrest{})
	return kept, counts
}

func sum(a, b problem.Unrest) problem.Unrest {
	return problem.Unrest{Moved: a.Moved + b.Moved, Points: a.Points + b.Points}
}

// unrestOf counts a whole result; a kept job that is two jobs, or another family's, makes it cost
// what none does.
func unrestOf(m *problem.Model, r *problem.Result) problem.Cost {
	var u problem.Unrest
	taken := make([]bool, len(m.Kept))
	for i := range r.Jobs {
		j := &r.Jobs[i]
		mode, begun := modeOfJob(m, j)
		var told []problem.Told
		starts := j.Starts
		switch {
		case j.Begun >= 0:
			if told = m.Begun[j.Begun].Told; j.Stuck {
				starts = nil
			}
		case j.Kept != nil:
			if taken[j.Kept.Number] || j.Kept.Family != j.Family {
				return problem.Cost{Stuck: problem.Infinite}
			}
			told, taken[j.Kept.Number] = j.Kept.Told, true
		}
		u = sum(u, naiveUnrest(m, told, mode, begun, starts, j.Workers))
	}
	for k := range m.Kept {
		if !taken[k] {
			u = sum(u, naiveUnrest(m, m.Kept[k].Told, &m.Families[m.Kept[k].Family].Modes[0], 0, nil, nil))
		}
	}
	return problem.Cost{Moved: u.Moved, Penalty: u.Points}
}

// AsTold reports whether a plan has work as it was told.
func (p *ListedPlan) AsTold(m *problem.Model, c problem.Changed) bool {
	for i, v := range p.Jobs {
		var told []problem.Told
		switch {
		case v.Cost.Stuck > 0:
			continue
		case c.Begun >= 0 && v.Begun == c.Begun:
			told = m.Begun[c.Begun].Told
		case c.Kept != nil && p.Kept[i] == c.Kept.Number:
			told = c.Kept.Told
		default:
			continue
		}
		mode := modesOfWay(m, v)
		return mode.Acts[c.Activity].Work > 0 && v.Starts[c.Activity] == told[c.Activity].Start && v.Workers[c.Activity] == told[c.Activity].Worker
	}
	return false
}
