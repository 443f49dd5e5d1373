package week

import (
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// LineShown is what one moment of a day brings, on a line of its own: a job, or a target that
// leaves. What there is to it besides is in the job's facts and care, and in Goes and Missing.
type LineShown struct {
	Job
	At      string // when it begins, or "any time"
	Name    string // who does it, shortened; "" for nobody
	Label   string // the batch as it is written; "" for none
	Leaves  bool   // it is a target, and no job
	Goes    []CareShown
	Missing []string
}

// nameMost is how many columns of a name stand on a line; the whole of it is unfolded with the rest.
const nameMost = 8

// linesOf makes lines of a day's rows: a row that is a part of the one above goes with that one.
func linesOf(n *cellPen, plan *schedule.Plan, rows []row, day resources.Date) []LineShown {
	var lines []LineShown
	for i := range rows {
		r := &rows[i]
		c := n.cells(r, day)
		switch r.kind {
		case rowShare, rowMissing, rowCare:
			if len(lines) == 0 {
				continue // rows come in blocks, each with its head
			}
			l := &lines[len(lines)-1]
			switch {
			case r.kind == rowMissing:
				l.Missing = append(l.Missing, missingOf(n, r, c))
			case r.kind == rowCare:
				l.Care = append(l.Care, careOf(n, r, c))
			default:
				l.Goes = append(l.Goes, CareShown{batchOf(plan, r), goesOf(n, r, c)})
			}
			continue
		}
		l := LineShown{Job: showJob(n, plan, r, c), At: c[colWhen], Label: c[colBatch], Leaves: r.kind == rowLeaves}
		if l.Anytime {
			l.At = "any time" // it is shown on other days too
		}
		l.Name, _ = words.Short(c[colWho], nameMost)
		if who := c[colWho]; who != "" {
			l.Facts = append([]Fact{{"Who", who}}, l.Facts...)
		}
		lines = append(lines, l)
	}
	return lines
}

// batchOf is the id of a row's batch where the plan has it, and so a sheet; "" for none.
func batchOf(plan *schedule.Plan, r *row) string {
	if plan.Batch(r.batch) == nil {
		return ""
	}
	return r.batch
}

// missingOf, careOf and goesOf are parts of a row above: what a target lacks and why, the care of one
// batch, and what goes of one.
func missingOf(n *cellPen, r *row, c []string) string {
	return n.Name(r.cheese) + ", " + c[colMuch] + sentence(n.Text(r.because))
}

func careOf(n *cellPen, r *row, c []string) CareShown {
	return CareShown{r.batch, words.Join(", ", n.Name(r.what)+" "+n.Name(r.cheese), c[colBatch], c[colMuch], c[colTakes], c[colWhere])}
}

func goesOf(n *cellPen, r *row, c []string) string {
	text := words.Join(", ", n.Name(r.cheese), c[colMuch], c[colBatch], c[colWhere])
	if r.boxes > 0 {
		text += ", in " + words.Count(r.boxes, "box", "boxes")
	}
	return text
}
