package main

import (
	"io"
	"slices"
	"strings"
	"time"

	"github.com/mattn/go-runewidth"

	"ripeby/resources"
	"ripeby/schedule"
)

// slipAnswer is what ripeby slip tells.
type slipAnswer struct {
	batches []*schedule.Batch
	zone    *time.Location
	from    resources.Moment // what begins before has begun
	width   int
}

// begun reports whether a stage has begun, or should have by the plan.
func (a *slipAnswer) begun(t *schedule.Task) bool { return t.Begun || t.Start < a.from }

// slipHeads are the columns of the table.
var slipHeads = []string{"Stage", "Begins", "Who", "Earliest", "Latest"}

// The widest that a name is in the table, and what stands between columns.
const (
	slipName = 24
	slipGap  = 2
)

// write tells the answer to a person: aligned where the columns fit, else stacked.
func (a *slipAnswer) write(w io.Writer) {
	if len(a.batches) == 0 {
		line(w, "Nothing is left to begin.")
		return
	}
	say(w, a.width, "How early and how late each stage may begin, while the stages before it and all other batches stay as planned. "+
		"What is sharp may begin no later, or a target breaks.")
	var rows [][]string
	for _, b := range a.batches {
		for i := range b.Stages {
			rows = append(rows, a.cells(&b.Stages[i]))
		}
	}
	widths := make([]int, len(slipHeads))
	sum := (len(slipHeads) - 1) * slipGap
	for i := range widths {
		for _, r := range append(rows, slipHeads) {
			widths[i] = max(widths[i], runewidth.StringWidth(r[i]))
		}
		sum += widths[i]
	}
	for _, b := range a.batches {
		line(w, "")
		_, _ = io.WriteString(w, wrapped(plain(a.heading(b)), a.width, "  ")+"\n")
		if sum <= a.width {
			line(w, aligned(slipHeads, widths))
		}
		for _, r := range rows[:len(b.Stages)] {
			if sum <= a.width {
				line(w, aligned(r, widths))
			} else {
				a.stacked(w, r)
			}
		}
		rows = rows[len(b.Stages):]
	}
}

// heading names a batch and what it is for.
func (a *slipAnswer) heading(b *schedule.Batch) string {
	text := b.ID + ", " + b.Cheese
	var targets []string
	for _, s := range b.For {
		t := s.Target + ", " + a.short(s.By)
		if !slices.Contains(targets, t) {
			targets = append(targets, t)
		}
	}
	if len(targets) == 0 {
		return text + ", for no target"
	}
	return text + ", for " + strings.Join(targets, "; ")
}

// cells are one row.
func (a *slipAnswer) cells(t *schedule.Task) []string {
	name := func(s string) string { return runewidth.Truncate(plain(s), slipName, "...") }
	out := []string{name(t.Stage), a.short(t.Start), name(t.Who), "no sooner", "no later"}
	switch {
	case a.begun(t):
		out[3], out[4] = "begun", ""
		return out
	case t.Work == 0 && t.SlipFrom == t.Start && t.SlipUntil == t.Start:
		out[3], out[4] = "a wait", "" // that begins when the work before it is done
		return out
	case t.SlipFrom < a.from:
		out[3] = "at once"
	case t.SlipFrom < t.Start:
		out[3] = a.short(t.SlipFrom)
	}
	switch {
	case t.Critical:
		out[4] = "sharp"
	case t.SlipUntil > t.Start:
		out[4] = a.short(t.SlipUntil)
	}
	return out
}

func (a *slipAnswer) short(m resources.Moment) string { return resources.ShowMoment(m, a.zone) }

// aligned is a row in columns.
func aligned(cells []string, widths []int) string {
	var b strings.Builder
	for i, c := range cells {
		b.WriteString(runewidth.FillRight(c, widths[i]+slipGap))
	}
	return strings.TrimRight(b.String(), " ")
}

// stacked writes a row as two short paragraphs.
func (a *slipAnswer) stacked(w io.Writer, r []string) {
	head := r[0]
	if r[2] != "" {
		head += ", " + r[2]
	}
	_, _ = io.WriteString(w, wrapped(r[1]+" "+head, a.width, "  ")+"\n")
	if r[4] == "" {
		line(w, "  "+r[3])
		return
	}
	for i := range 2 {
		line(w, "  "+strings.ToLower(slipHeads[3+i])+": "+r[3+i])
	}
}

// slipJSON is the answer for a program. Keys are only ever added.
type slipJSON struct {
	Schema  string          `json:"schema"`
	Batches []slipBatchJSON `json:"batches"`
}

type slipBatchJSON struct {
	Batch  string          `json:"batch"`
	Cheese string          `json:"cheese"`
	Stages []slipStageJSON `json:"stages"`
}

type slipStageJSON struct {
	Stage     string  `json:"stage"`
	Begun     bool    `json:"begun"`
	Start     string  `json:"start"`
	Work      int     `json:"work"`
	Who       *string `json:"who"`
	SlipFrom  string  `json:"slip_from"`
	SlipUntil string  `json:"slip_until"`
	Critical  bool    `json:"critical"`
}

// json tells the answer to a program.
func (a *slipAnswer) json(w io.Writer) error {
	at := func(m resources.Moment) string { return m.In(a.zone).Format(time.RFC3339) }
	out := slipJSON{Schema: "ripeby/slip/1", Batches: []slipBatchJSON{}}
	for _, b := range a.batches {
		j := slipBatchJSON{Batch: b.ID, Cheese: b.Cheese}
		for i := range b.Stages {
			t := &b.Stages[i]
			s := slipStageJSON{Stage: t.Stage, Begun: a.begun(t), Start: at(t.Start), Work: int(t.Work),
				SlipFrom: at(t.SlipFrom), SlipUntil: at(t.SlipUntil), Critical: t.Critical && !a.begun(t)}
			if t.Who != "" {
				s.Who = &t.Who
			}
			j.Stages = append(j.Stages, s)
		}
		out.Batches = append(out.Batches, j)
	}
	return printJSON(w, out)
}
