package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/config"
	"ripeby/schedule/testrun"
)

// oneSpot is a kitchen with one shelf on which one box stands beside none, and another on
// top of it: two cheeses in boxes of one kind, a batch of each in one box, for one moment.
var oneSpot = map[string]string{
	"kitchen.yaml": `kitchen: {name: Reed Farm, timezone: UTC, step: 60 min}
people: [{name: Ann, hours: ["daily 00:00-24:00"]}, {name: Ben, hours: ["daily 00:00-24:00"]}]
pots: [{name: tall pot, holds: 4 L, count: 2}]
boxes: [{name: tub, count: 9, size: 30 x 20 x 10 cm}]
cold: [{name: fridge, temperature: 4 °C, shelves: [{name: top, size: 35 x 35 x 25 cm}]}]
`,
	"targets.yaml": `targets: [{name: market, by: 2027-03-05 10:00, want: [{cheese: Curd, pieces: 2}, {cheese: Wheel, pieces: 2}]}]
`,
	"recipes/curd.yaml":  strings.ReplaceAll(oneSpotRecipe, "CHEESE", "Curd"),
	"recipes/wheel.yaml": strings.ReplaceAll(oneSpotRecipe, "CHEESE", "Wheel"),
}

const oneSpotRecipe = `name: CHEESE
yield: {pieces: 1, from: 1 L}
batch: {least: 2 L, most: 4 L, step: 2 L}
box: {name: tub, takes: 2}
keeps: 2 h
stages:
  - {stage: make, hands: {fixed: 60 min}, hold: {least: 8 h, most: 12 h}, uses: [pot]}
  - {stage: rest, hands: {fixed: 60 min}, hold: {least: 40 h, most: 48 h}, at: fridge, uses: [box]}
  - {stage: pack, hands: {fixed: 60 min}, uses: [box]}
`

// Which boxes may stand on one another each kind of box says: those of its kind, of one batch, or
// none.
func TestBoxesStandOnOneAnother(t *testing.T) {
	if _, err := generalsolver.FindPython(*python); *python == "" || err != nil {
		testrun.Missing(t, fmt.Sprintf("-python %q: %v", *python, err))
	}
	solver, err := startCPSAT(*python, 60)
	if err != nil {
		t.Fatal(err)
	}
	defer solver.close()
	for _, c := range []struct {
		name   string
		wanted int // pieces of one of the cheeses, the other wanting none
		stack  string
		short  int64 // hundredths
	}{
		{"two batches, boxes of a kind", 0, "kind", 0},
		{"two batches, boxes of a batch", 0, "batch", 200},
		{"two batches, none", 0, "no", 200},
		{"two boxes of a batch, boxes of a kind", 4, "kind", 0},
		{"two boxes of a batch, boxes of a batch", 4, "batch", 0},
		{"two boxes of a batch, none", 4, "no", 200},
	} {
		dir := t.TempDir()
		os.MkdirAll(dir+"/recipes", 0o755)
		for name, text := range oneSpot {
			if c.wanted > 0 {
				text = strings.Replace(text, "[{cheese: Curd, pieces: 2}, {cheese: Wheel, pieces: 2}]", fmt.Sprintf("[{cheese: Curd, pieces: %d}]", c.wanted), 1)
			}
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		p, err := config.Load(dir, config.Options{From: "2027-03-02 06:00"})
		if err != nil {
			t.Fatal(err)
		}
		s, err := newStatement(p, 0)
		if err != nil {
			t.Fatal(err)
		}
		f := s.facts()
		for i := range f.Boxes {
			f.Boxes[i].Stack = c.stack
		}
		solver.asked++
		r, err := solver.put(map[string]any{"id": solver.asked, "facts": f, "seconds": 60})
		if err != nil || r.Status != "best" || r.Parts[3] != c.short {
			t.Errorf("%s: got %s, parts %v, %s (%v), want %d short", c.name, r.Status, r.Parts, r.Text, err, c.short)
		}
	}
}
