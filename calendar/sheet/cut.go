package sheet

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/calendar/words"
)

// room is what a page is tried with.
type room struct {
	letters  float64 // points
	write    float64 // how high a line to write on is, in millimetres
	lines    int     // to write on, at the least
	run      bool    // what belongs to a stage stands one after the other
	note     int     // characters of a note
	notes    int
	heard    int  // of what was measured, found or counted, with a stage or a fact: the latest
	days     int  // of one kind of care
	goes     int  // targets
	cautions bool // are left out
	useful   bool // kit and places are left out
	dosed    int  // of what goes in at a stage: the first
	stages   int
}

const whole = 1 << 30

// usual is how a sheet is where there is room.
var usual = room{letters: 10, write: 7, lines: 4, note: whole, notes: whole, heard: whole, days: whole, goes: whole, dosed: whole, stages: whole}

// ladder is what is tried, one after the other: smaller letters first, then less of what stands elsewhere too. What goes
// in and what was measured stay longest. Letters of 7.5 points have small ones 1.3 mm high: above the 1.2 mm that
// Regulation (EU) 1169/2011, article 13, asks of a label (from memory), in the smaller cautions too.
func ladder() (all []room) {
	steps := []func(*room){
		func(*room) {},
		func(r *room) { r.letters, r.lines = 9.5, 3 },
		func(r *room) { r.letters, r.write = 9, 6.5 },
		func(r *room) { r.run, r.lines = true, 2 },
		func(r *room) { r.letters, r.write = 8.5, 6 },
		func(r *room) { r.letters = 8 },
		func(r *room) { r.letters, r.write, r.lines = 7.5, 5.5, 1 },
		func(r *room) { r.note = 1200 },
		func(r *room) { r.note = 600 },
		func(r *room) { r.note, r.notes, r.heard = 300, 12, 8 },
		func(r *room) { r.note, r.notes, r.days, r.goes = 160, 8, 40, 12 },
		func(r *room) { r.cautions = true },
		func(r *room) { r.heard, r.notes, r.days, r.goes = 4, 4, 20, 6 },
		func(r *room) { r.useful = true },
		func(r *room) { r.heard, r.notes, r.days, r.goes = 2, 2, 8, 3 },
		func(r *room) { r.dosed = 20 },
		func(r *room) { r.dosed = 10 },
		func(r *room) { r.dosed, r.heard, r.notes, r.days = 5, 1, 1, 4 },
	}
	r := usual
	for _, step := range steps {
		step(&r)
		all = append(all, r)
	}
	return all
}

// cut is the sheet as it is with less room.
func (s *Shown) cut(r room) *Shown {
	out := *s
	out.Letters, out.LineMM, out.Lines, out.Run, out.LeftOut = r.letters, r.write, r.lines, r.run, nil
	c := &cutter{room: r, left: func(text string) { out.LeftOut = append(out.LeftOut, text) }}
	out.Stages = nil
	for i := range s.Stages {
		if i < r.stages {
			out.Stages = append(out.Stages, c.stage(s.Stages[i]))
		}
	}
	if n := len(s.Stages) - r.stages; n > 0 {
		c.stagesLeft(s.Stages[r.stages:], len(s.Stages))
	}
	out.Facts = slices.Clone(s.Facts)
	for i := range out.Facts {
		f := &out.Facts[i]
		f.Items = c.items("of "+strings.ToLower(f.Label), f.Items)
	}
	out.Care = slices.Clone(s.Care)
	for i := range out.Care {
		if n := len(out.Care[i].Days); n > r.days {
			out.Care[i].Days = out.Care[i].Days[:r.days]
			c.left(fmt.Sprintf("Left out: the last %d of %d days of care, %s.", n-r.days, n, short(out.Care[i].Do)))
		}
	}
	if n := len(s.For); n > r.goes {
		out.For = s.For[:r.goes]
		c.left(fmt.Sprintf("Left out: %d of %d places where it goes.", n-r.goes, n))
	}
	out.Notes = c.notes(s.Notes)
	if r.cautions && len(s.Cautions) > 0 {
		out.Cautions = nil
		c.left(fmt.Sprintf("Left out: %s, which hold all the same.", words.Count(len(s.Cautions), "caution", "cautions")))
	}
	if r.useful {
		c.left("Left out: with what, and where, each stage is.")
	}
	for i := range out.Stages {
		t := &out.Stages[i]
		t.Wide = len(t.What) > 4 && out.wideHeight(t) < out.narrowHeight(t)
	}
	if len(out.LeftOut) > 0 {
		name := s.Lot
		if name == "" {
			name = s.Number
		}
		c.left("All of it stands, with nothing left out, in what ripeby sheet " + short(name) + " shows on a screen; what was said also in the record.")
	}
	return &out
}

// cutter leaves out, and says so.
type cutter struct {
	room
	left func(string)
}

// short is a name, shortened in its middle where it must be.
func short(name string) string {
	out, _ := words.Short(name, words.NameMost)
	return out
}

// stage is one stage with less.
func (c *cutter) stage(t Stage) Stage {
	t.What = c.items("at "+short(t.Name), t.What)
	return t
}

// items are those that are kept of some: of what goes in the first, of what was heard the latest.
func (c *cutter) items(where string, all []Item) (kept []Item) {
	count := map[kind]int{}
	for i := range all {
		count[all[i].kind]++
	}
	seen := map[kind]int{}
	for _, i := range all {
		seen[i.kind]++
		switch {
		case i.kind == dosed && seen[dosed] > c.dosed,
			i.kind == heard && seen[heard] <= count[heard]-c.heard,
			i.kind == useful && c.useful:
			continue
		}
		kept = append(kept, i)
	}
	if n := count[dosed] - c.dosed; n > 0 {
		kept = append(kept, Item{Parts: []string{fmt.Sprintf("and %d more that go in, which are left out here", n)}})
		c.left(fmt.Sprintf("Left out %s: the last %d of %d that go in.", where, n, count[dosed]))
	}
	if n := count[heard] - c.heard; n > 0 {
		c.left(fmt.Sprintf("Left out %s: the first %d of %d that were said.", where, n, count[heard]))
	}
	return kept
}

// stagesLeft says what is left out with the last stages.
func (c *cutter) stagesLeft(stages []Stage, of int) {
	count := map[kind]int{}
	for i := range stages {
		for _, item := range stages[i].What {
			count[item.kind]++
		}
	}
	c.left(fmt.Sprintf("Left out: the last %d of %d stages, with %d that go in and %d that were said.", len(stages), of, count[dosed], count[heard]))
}

// notes are the latest, each with its beginning.
func (c *cutter) notes(all []Note) (kept []Note) {
	if n := len(all) - c.room.notes; n > 0 {
		c.left(fmt.Sprintf("Left out: the first %d of %d notes, up to %s.", n, len(all), all[n-1].Source))
		all = all[n:]
	}
	for _, n := range all {
		if text := []rune(n.Text); len(text) > c.note {
			n.Text = fmt.Sprintf("%s … (%d characters more: %s)", strings.TrimSpace(string(text[:c.note])), len(text)-c.note, n.Source)
		}
		kept = append(kept, n)
	}
	return kept
}
