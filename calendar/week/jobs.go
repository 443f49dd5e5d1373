package week

import (
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Job is a piece of hands-on work, a round, milk to order or to collect, or care that is
// due at any time of a day, as a page shows it.
type Job struct {
	Start, Until resources.Moment
	Anytime      bool              // of the day of Start
	Milk         *schedule.MilkJob // it is nobody's alone, and has no length; nil for other work
	Who          string            // as the plan has it
	What         string
	Batch        string // its id, as the plan has it; "" for a round
	Stage        string // whose work it is, or before which is looked; "" for other work
	To           string // the place that cheese is carried to; "" for other work
	Round, Look  bool
	Clock        string // from when to when
	Facts        []Fact
	Care         []CareShown // of a round
	Begun, Sharp bool
}

// CareShown is the care of one batch in a round.
type CareShown struct{ Batch, Text string }

// Leaving is a target as it leaves.
type Leaving struct {
	At      resources.Moment
	Name    string
	Goes    []string // what goes with it, a line each
	Missing []string // what does not
}

// ShowJobs gives all work of a plan, and all that leaves, by their moments.
func ShowJobs(p *schedule.Problem, plan *schedule.Plan) ([]Job, []Leaving, error) {
	n, err := wholeNames(p)
	if err != nil {
		return nil, nil, err
	}
	var jobs []Job
	var leaving []Leaving
	rows := rowsOf(plan, schedule.MilkOf(p, plan), n.Zone)
	for i := range rows {
		r := &rows[i]
		c := n.cells(r, r.at.DateIn(n.Zone))
		switch r.kind {
		case rowLeaves:
			leaving = append(leaving, Leaving{At: r.at, Name: n.Name(r.what)})
		case rowShare, rowMissing:
			l := &leaving[len(leaving)-1] // a target stands above what goes with it
			if r.kind == rowMissing {
				l.Missing = append(l.Missing, missingOf(n, r, c))
				continue
			}
			l.Goes = append(l.Goes, goesOf(n, r, c))
		case rowCare:
			round := &jobs[len(jobs)-1] // a round stands above its care
			round.Care = append(round.Care, careOf(n, r, c))
		default:
			jobs = append(jobs, showJob(n, plan, r, c))
		}
	}
	return jobs, leaving, nil
}

// showJob makes a job of a row and its cells.
func showJob(n *cellPen, plan *schedule.Plan, r *row, c []string) Job {
	j := Job{Start: r.at, Until: r.at.Add(r.minutes), Who: r.who, What: c[colWhat], Anytime: r.kind == rowAnytime, Milk: r.milk, Round: r.kind == rowRound,
		Begun: r.begun, Sharp: r.critical, Clock: c[colWhen]}
	if r.minutes > 0 && !j.Anytime {
		j.Clock += " to " + words.Clock(j.Until, n.Zone)
	}
	j.Batch = batchOf(plan, r)
	switch r.kind {
	case rowWork, rowLook:
		j.Stage, j.Look = r.what, r.kind == rowLook
	case rowCarry:
		j.To = r.what
	}
	doses, measures := n.doses(r.needs), n.measures(r.measures)
	if doses != "" || measures != "" { // in a line of its own here
		c[colWhere] = n.where(r)
	}
	for _, f := range []Fact{{"Batch", c[colBatch]}, {"How much", c[colMuch]}, {"Goes in", doses}, {"Measure", measures}, {"Takes", c[colTakes]}, {"Where, with", c[colWhere]}, {"Start by", c[colBy]}} {
		if f.Text != "" && !(r.begun && f.Label == "Start by") {
			j.Facts = append(j.Facts, f)
		}
	}
	return j
}

// sentence follows another, where there is one.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	return ". " + text
}
