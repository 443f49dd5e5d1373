package calendar

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

// svgElement is what the tests look at of an element.
type svgElement struct {
	name, class, id, fill, text string
}

// readSVG parses a picture strictly and gives its elements in order. Character
// data goes to the element that it stands in.
func readSVG(t *testing.T, svg []byte) []svgElement {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(svg))
	var all []svgElement
	var open []int
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			e := svgElement{name: tok.Name.Local}
			for _, a := range tok.Attr {
				switch a.Name.Local {
				case "class":
					e.class = a.Value
				case "id":
					e.id = a.Value
				case "fill":
					e.fill = a.Value
				}
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(tok)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

func TestPictureShowsEveryBatch(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	svg := Picture(p, plan)
	if err := sample.Golden("picture.svg", svg, *updateWeek); err != nil {
		t.Error(err)
	}
	all := readSVG(t, svg)
	for _, b := range plan.Batches {
		if !slices.ContainsFunc(all, func(e svgElement) bool { return e.name == "g" && e.id == "b-"+b.ID }) {
			t.Errorf("batch %s has no strip", b.ID)
		}
		for _, text := range []string{b.ID, "Bloomy heart, 8 L, 16 pieces"} {
			if !slices.ContainsFunc(all, func(e svgElement) bool { return e.name == "text" && e.text == text }) {
				t.Errorf("no text %q", text)
			}
		}
	}
	for _, text := range []string{"set", "ripen", "Easter market 24/24", "Thursday shop 4/6", "4 of 3 boxes, TOO FULL"} {
		if !slices.ContainsFunc(all, func(e svgElement) bool { return e.name == "text" && e.text == text }) {
			t.Errorf("no text %q", text)
		}
	}
	for _, part := range []string{`role="img"`, `aria-labelledby="t d"`, "prefers-color-scheme:dark", "<desc"} {
		if !bytes.Contains(svg, []byte(part)) {
			t.Errorf("no %s", part)
		}
	}
	for _, part := range []string{"<script", "http://www.w3.org/1999/xlink", "<image", "@import"} {
		if bytes.Contains(svg, []byte(part)) {
			t.Errorf("%s in a picture that stands alone", part)
		}
	}
}

// Stages differ by pattern, so that they can be told apart without colour.
func TestPicturePatternsDiffer(t *testing.T) {
	p := sample.Kitchen()
	d := &stripsPicture{p: p, plan: sample.Plan(p)}
	d.collectNames()
	seen := map[string]string{}
	for _, s := range d.stages {
		if other, taken := seen[d.pattern(s)]; taken {
			t.Errorf("%s and %s have the same pattern %q", s, other, d.pattern(s))
		}
		seen[d.pattern(s)] = s
	}
	if len(seen) != 6 {
		t.Errorf("got %d patterns, want 6", len(seen))
	}
}

func TestPictureNastyNames(t *testing.T) {
	for name, nasty := range sample.NastyNames {
		t.Run(name, func(t *testing.T) {
			p := sample.Kitchen()
			plan := sample.Plan(p)
			sample.Rename(p, plan, nasty)
			plan.Batches[0].ID = nasty
			for i := range plan.Targets {
				plan.Targets[i].Target = nasty
			}
			svg := Picture(p, plan)
			for _, e := range readSVG(t, svg) {
				if e.name == "b" || e.name == "script" {
					t.Errorf("a name became an element <%s>", e.name)
				}
				if e.name == "text" {
					if err := sample.Harmless(e.text); err != nil {
						t.Error(err)
					}
				}
			}
		})
	}
}

// manyBatches is a plan of four batches a week.
func manyBatches(t *testing.T, weeks int) (*schedule.Problem, *schedule.Plan) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	start := plan.Batches[0].Stages[0].Start
	plan.Batches, plan.Targets = nil, nil
	for w := range weeks {
		leaves := start.Add(resources.Minutes(7*w+14) * resources.Day)
		for k := range 4 {
			b := sample.Batch(fmt.Sprintf("BH-%02d-%d", w, k), start.Add(resources.Minutes(7*w)*resources.Day+resources.Minutes(k)*100), leaves)
			b.For = []schedule.Share{{Target: "stall", By: leaves, Pieces: 15}}
			plan.Batches = append(plan.Batches, b)
		}
		plan.Targets = append(plan.Targets, schedule.WantResult{Target: fmt.Sprintf("Saturday stall %d", w), By: leaves, Wanted: 60, Met: 60})
	}
	return p, plan
}

func TestPictureOfSixtyWeeksIsBelowOneMegabyte(t *testing.T) {
	p, plan := manyBatches(t, 60)
	svg := Picture(p, plan)
	if len(svg) > 1_000_000 {
		t.Errorf("got %d bytes, want at most 1000000", len(svg))
	}
	strips := 0
	for _, e := range readSVG(t, svg) {
		if e.name == "g" && strings.HasPrefix(e.id, "b-") {
			strips++
		}
	}
	if strips != 240 {
		t.Errorf("got %d strips, want 240", strips)
	}
	if !bytes.Equal(svg, Picture(p, plan)) {
		t.Error("two pictures of one plan differ")
	}
}

// Up to 40 batches have a row each; more share rows, but never where they meet.
func TestPicturePacksOnlyManyBatches(t *testing.T) {
	height := func(weeks int) int {
		p, plan := manyBatches(t, weeks)
		var w, h int
		if _, err := fmt.Sscanf(strings.Split(string(Picture(p, plan)), "\n")[0],
			`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d"`, &w, &h); err != nil {
			t.Fatal(err)
		}
		return h
	}
	if ten, eleven := height(10), height(11); ten < 40*stripsRow/px || eleven >= 44*stripsRow/px {
		t.Errorf("40 batches are %d high, 44 are %d; want a row each for 40 only", ten, eleven)
	}
	p, plan := manyBatches(t, 12)
	d := &stripsPicture{p: p, plan: plan, zone: p.Kitchen.Zone, span: stripsSpan(plan, p.Kitchen.Zone), width: stripsChart}
	var pack packing
	ends := map[int]int{}
	for i := range plan.Batches {
		left, right := d.extent(&plan.Batches[i])
		row := pack.row(left, right)
		if left < ends[row] {
			t.Errorf("batch %s begins at %d in a row taken until %d", plan.Batches[i].ID, left, ends[row])
		}
		ends[row] = right
	}
}

func TestPictureOfNothing(t *testing.T) {
	p := sample.Kitchen()
	svg := Picture(p, &schedule.Plan{From: p.From})
	if all := readSVG(t, svg); !slices.ContainsFunc(all, func(e svgElement) bool { return e.text == "No batches in this plan." }) {
		t.Errorf("got %s", svg)
	}
}

// A batch whose stages are all to come, or none at all, must not stop the picture.
func TestPictureOddBatches(t *testing.T) {
	p, plan := manyBatches(t, 11)
	plan.Batches[3].Stages = nil
	plan.Batches[4].ID = "with space & <sign>"
	readSVG(t, Picture(p, plan))
	plan.Batches = plan.Batches[:5]
	readSVG(t, Picture(p, plan))
}
