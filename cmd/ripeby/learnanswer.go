package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/mattn/go-runewidth"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/learn"
)

// learnAnswer tells what was learned.
type learnAnswer struct {
	cheeses []learn.Cheese
	width   int
	asked   bool // to write
	written []writtenLearned
	as      string
}

// learnRow is one thing that was learned: what it is here, what the recipe says, where most of it lies.
type learnRow struct {
	what, here, recipe, mostly, of string
	picture                        string
	notes                          []string
}

// learnHeads are those of the columns; the last one has a picture of each.
var learnHeads = []string{"What", "Here", "Recipe", "Mostly", "From"}

// learnName is how wide what is learned may be told.
const learnName = 24

// write tells it to people.
func (a *learnAnswer) write(w io.Writer) {
	pictures := false
	for i := range a.cheeses {
		rows, notes := a.rows(&a.cheeses[i])
		if i > 0 {
			line(w, "")
		}
		line(w, plain(a.cheeses[i].Name))
		pictures = a.table(w, rows) || pictures
		for _, n := range notes {
			item(w, a.width, n)
		}
	}
	if len(a.cheeses) == 0 {
		line(w, "There are no recipes.")
	}
	line(w, "")
	if pictures {
		say(w, a.width, "Pictures: o is here, [ ] is where 9 in 10 lie, of work and weight all, and ^ is what the recipe says. A hold's goes from 0.5 to 2.5 times as long.")
	}
	a.writeWritten(w)
}

// writeWritten says what was changed in recipes, or how to have it changed.
func (a *learnAnswer) writeWritten(w io.Writer) {
	for _, r := range a.written {
		line(w, "Written into "+plain(r.file)+":")
		for _, c := range r.changes {
			item(w, a.width, c)
		}
	}
	switch {
	case len(a.written) > 0:
		line(w, "Plan with it: ripeby plan"+a.as)
	case a.asked:
		line(w, "Nothing was written: there is nothing that the recipes do not say.")
	default:
		line(w, "Nothing is used before it is written; set times and yields with: ripeby learn --write"+a.as)
	}
}

// table prints rows under each other, with their pictures beside them where there is room; false where there
// are none.
func (a *learnAnswer) table(w io.Writer, rows []learnRow) (pictures bool) {
	if len(rows) == 0 {
		return false
	}
	cells := [][]string{learnHeads}
	for _, r := range rows {
		cells = append(cells, []string{runewidth.Truncate(plain(r.what), learnName, "..."), r.here, r.recipe, r.mostly, r.of})
	}
	widths, sum := make([]int, len(learnHeads)), 0
	for c := range learnHeads {
		for _, row := range cells {
			widths[c] = max(widths[c], runewidth.StringWidth(row[c]))
		}
		sum += widths[c] + slipGap
	}
	for i, row := range cells {
		text := "  " + aligned(row, widths)
		if sum+2 > a.width {
			text = wrapped(strings.Join(row, ", "), a.width-2, "    ")
			text = "  " + text
			if i == 0 {
				continue
			}
		}
		picture := ""
		if i > 0 {
			picture = rows[i-1].picture
		}
		beside := 2 + sum + len(picture)
		switch {
		case picture == "":
			line(w, text)
		case beside <= a.width:
			line(w, runewidth.FillRight(text, 2+sum)+picture)
		default:
			line(w, text)
			line(w, "    "+picture)
		}
		pictures = pictures || picture != ""
	}
	for _, r := range rows {
		for _, n := range r.notes {
			item(w, a.width, n)
		}
	}
	return pictures
}

// rows are what was learned of a cheese, and what is to be said beside that.
func (a *learnAnswer) rows(c *learn.Cheese) (rows []learnRow, notes []string) {
	for i := range c.Holds {
		h := &c.Holds[i]
		notes = append(notes, passedNotes(h.Stage, h.Passed)...)
		if h.Times == 0 {
			notes = append(notes, fmt.Sprintf("%s: no set time; %s.", h.Stage, h.Why))
			continue
		}
		rows = append(rows, holdRow(h))
	}
	if len(c.Holds) == 0 {
		notes = append(notes, "No hold says when it is ready, so no set time is learned; write it into the recipe, such as: hold: {most: 24 h, ready: 17 h, goes_by: {temperature: 21 °C}}")
	}
	notes = append(notes, passedNotes("Yield", c.Yield.Passed)...)
	if c.Yield.Told() {
		rows = append(rows, yieldRow(&c.Yield))
	} else {
		notes = append(notes, few("Yield", schedule.Counted(c.Yield.Batches, "counted batch")))
	}
	for i := range c.Works {
		k := &c.Works[i]
		notes = append(notes, passedNotes("Work of "+k.Stage, k.Passed)...)
		if k.Took.Median == 0 {
			notes = append(notes, few("Work of "+k.Stage, "said when it began and when it was done "+schedule.Counted(k.Times, "time")))
			continue
		}
		rows = append(rows, workRow(k))
	}
	for i := range c.Loss {
		l := &c.Loss[i]
		if l.Batches < learn.Fewest {
			notes = append(notes, few(fmt.Sprintf("Loss from %s to %s", l.From, l.To), schedule.Counted(l.Batches, "batch")+" weighed at both"))
			continue
		}
		rows = append(rows, lossRow(l))
	}
	return rows, notes
}

// few says that there is too little to tell of something.
func few(what, sofar string) string {
	return fmt.Sprintf("%s: nothing is told under %d; %s so far.", what, learn.Fewest, sofar)
}

// passedNotes says what was not counted, together where it is for one reason.
func passedNotes(what string, all []learn.Passed) (notes []string) {
	var reasons []string
	of := map[string][]string{}
	for _, p := range all {
		if of[p.Why] == nil {
			reasons = append(reasons, p.Why)
		}
		of[p.Why] = append(of[p.Why], p.Batch)
	}
	for _, why := range reasons {
		notes = append(notes, fmt.Sprintf("%s: not counted: %s; %s.", what, schedule.Listed(of[why]), why))
	}
	return notes
}

// holdRow tells a hold.
func holdRow(h *learn.Hold) learnRow {
	r := learnRow{what: h.Stage + ", times as long", here: factor(h.Times), recipe: factor(h.Written), mostly: factor(h.Low) + " to " + factor(h.High), of: schedule.Counted(len(h.Looks), "look")}
	r.picture = picture(0.5, 2.5, asTimes(h.Low), asTimes(h.Times), asTimes(h.High), asTimes(h.Written))
	r.notes = append(r.notes, fmt.Sprintf("%s: by this the next batch in a room of %s is ready after %s in half of all cases, in 1 of 10 by %s, in 9 of 10 by %s; the recipe says %s. This is time, and not safety.",
		h.Stage, degrees(h.At), hoursLong(h.Next.Median), hoursLong(h.Next.Low), hoursLong(h.Next.High), hoursLong(h.Ready)))
	if h.NotYets() == 0 {
		r.notes = append(r.notes, h.Stage+": nobody looked before it was ready, so that how early it is is hardly known; say not_yet when you look.")
	}
	return r
}

func asTimes(f resources.Factor) float64 { return float64(f) / 1000 }

// factor is a factor with its three decimals.
func factor(f resources.Factor) string { return strconv.FormatFloat(asTimes(f), 'f', 3, 64) }

// yieldRow tells a yield, for as much milk as a batch had in the mean.
func yieldRow(y *learn.Yield) learnRow {
	mean := meanLitres(y)
	here := float64(mean) / 1000 * y.PerLitre()
	says := float64(mean) * float64(y.Written.Pieces) / float64(y.Written.From)
	low := y.Low(mean)
	tenth := func(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }
	high := 2*here - float64(low)
	from, until := scaleOf(float64(low), high, says)
	return learnRow{what: "pieces from " + litres(mean), here: tenth(here), recipe: tenth(says), mostly: fmt.Sprintf("%d or more", low), of: schedule.Counted(y.Batches, "batch"),
		picture: picture(from, until, float64(low), here, high, says),
		notes: []string{fmt.Sprintf("Yield: %s of %s in all. --write takes all of both: about half of all batches then give less, which is what spare pieces are for; 9 in 10 give %d or more of %s.",
			schedule.Counted(y.Pieces, "piece"), litres(y.From), low, litres(mean))}}
}

// meanLitres is how much milk a batch had in the mean, to a tenth of a litre.
func meanLitres(y *learn.Yield) resources.Millilitres {
	return resources.Millilitres(math.Round(float64(y.From)/float64(y.Batches)/100)) * 100
}

// workRow tells how long work takes.
func workRow(k *learn.Work) learnRow {
	t := k.Took
	from, until := scaleOf(float64(t.Least), float64(t.Most), float64(k.Recipe))
	return learnRow{what: "work of " + k.Stage, here: length(t.Median), recipe: length(k.Recipe), mostly: length(t.Least) + " to " + length(t.Most), of: schedule.Counted(k.Times, "time"),
		picture: picture(from, until, float64(t.Least), float64(t.Median), float64(t.Most), float64(k.Recipe))}
}

// lossRow tells what a cheese loses.
func lossRow(l *learn.Loss) learnRow {
	percent := func(x float64) string { return strconv.FormatFloat(100*x, 'f', 1, 64) + " %" }
	from, until := scaleOf(l.Least, l.Most, l.Share)
	return learnRow{what: fmt.Sprintf("loss, %s to %s", l.From, l.To), here: percent(l.Share), recipe: "", mostly: percent(l.Least) + " to " + percent(l.Most), of: schedule.Counted(l.Batches, "batch"),
		picture: picture(from, until, l.Least, l.Share, l.Most, math.NaN()),
		notes:   []string{fmt.Sprintf("Loss from %s to %s: over %s, half of the time.", l.From, l.To, schedule.Counted(l.Days, "day"))}}
}
