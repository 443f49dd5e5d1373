package strips

import (
	"bytes"
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew")

// readSVG reads a picture strictly.
func readSVG(t *testing.T, svg []byte) []sample.Element {
	t.Helper()
	all, err := sample.ReadPicture(svg)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestPictureShowsEveryBatch(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	svg := Draw(p, plan)
	if err := sample.Golden("picture.svg", svg, *update); err != nil {
		t.Error(err)
	}
	all := readSVG(t, svg)
	for _, b := range plan.Batches {
		if !slices.ContainsFunc(all, func(e sample.Element) bool { return e.Name == "g" && e.ID == "b-"+b.ID }) {
			t.Errorf("batch %s has no strip", b.ID)
		}
		for _, text := range []string{b.ID, "Bramble hoop, 9 L, 16 pieces"} {
			if !slices.ContainsFunc(all, func(e sample.Element) bool { return e.Name == "text" && e.Text == text }) {
				t.Errorf("no text %q", text)
			}
		}
	}
	for _, text := range []string{"set", "ripen", "Easter market 24/24", "Thursday shop 4/6", "4 of 3 boxes, TOO FULL"} {
		if !slices.ContainsFunc(all, func(e sample.Element) bool { return e.Name == "text" && e.Text == text }) {
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
	d := &picture{p: p, plan: sample.Plan(p)}
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
			svg := Draw(p, plan)
			for _, e := range readSVG(t, svg) {
				if e.Name == "b" || e.Name == "script" {
					t.Errorf("a name became an element <%s>", e.Name)
				}
				if e.Name == "text" {
					if err := sample.Harmless(e.Text); err != nil {
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
	svg := Draw(p, plan)
	if len(svg) > 1_000_000 {
		t.Errorf("got %d bytes, want at most 1000000", len(svg))
	}
	strips := 0
	for _, e := range readSVG(t, svg) {
		if e.Name == "g" && strings.HasPrefix(e.ID, "b-") {
			strips++
		}
	}
	if strips != 240 {
		t.Errorf("got %d strips, want 240", strips)
	}
	if !bytes.Equal(svg, Draw(p, plan)) {
		t.Error("two pictures of one plan differ")
	}
}

// Up to 40 batches have a row each; more share rows, but never where they meet.
func TestPicturePacksOnlyManyBatches(t *testing.T) {
	height := func(weeks int) int {
		p, plan := manyBatches(t, weeks)
		var w, h int
		if _, err := fmt.Sscanf(strings.Split(string(Draw(p, plan)), "\n")[0],
			`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d"`, &w, &h); err != nil {
			t.Fatal(err)
		}
		return h
	}
	if ten, eleven := height(10), height(11); ten < 40*rowHigh/px || eleven >= 44*rowHigh/px {
		t.Errorf("40 batches are %d high, 44 are %d; want a row each for 40 only", ten, eleven)
	}
	p, plan := manyBatches(t, 12)
	d := &picture{p: p, plan: plan, zone: p.Kitchen.Zone, span: spanOf(plan, p.Kitchen.Zone), width: chartWide}
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

// Some days have the batches and targets of these days alone, in the width that is asked for and the height that is told, each
// stage in the pattern and the colour that it has in the whole picture.
func TestPictureOfSomeDays(t *testing.T) {
	p, plan := manyBatches(t, 12)
	first, last := Reach(p, plan)
	if first.DaysUntil(last) < 60 {
		t.Fatalf("the plan reaches from %s to %s only", first, last)
	}
	from := first.AddDays(21)
	span := resources.Span{From: from.Start(p.Kitchen.Zone), Until: from.AddDays(PhoneDays).Start(p.Kitchen.Zone)}
	for pixels, days := range map[int]int{PhoneWide: PhoneDays, DeskWide: DeskDays} {
		svg, high := DrawDays(p, plan, from, days, pixels)
		if head := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d"`, pixels, high); !strings.HasPrefix(string(svg), head) {
			t.Errorf("got %.90s, want %s", svg, head)
		}
		shown := 0
		for _, e := range readSVG(t, svg) {
			if e.Name == "g" && strings.HasPrefix(e.ID, "b-") {
				shown++
			}
		}
		want := 0
		until := from.AddDays(days).Start(p.Kitchen.Zone)
		for _, b := range plan.Batches {
			if b.Stages[0].Start < until && b.Stages[len(b.Stages)-1].Ends > span.From {
				want++
			}
		}
		if shown != want || want == 0 || want == len(plan.Batches) {
			t.Errorf("%d days: got %d batches, want %d of %d", days, shown, want, len(plan.Batches))
		}
		if again, _ := DrawDays(p, plan, from, days, pixels); !bytes.Equal(svg, again) {
			t.Error("two pictures of the same days differ")
		}
	}
	d, all := daysOf(p, plan, from, PhoneDays), daysOf(p, plan, first, first.DaysUntil(last)+1)
	for _, s := range all.stages {
		if d.pattern(s) != all.pattern(s) {
			t.Errorf("%s has the pattern %q, and %q on all days", s, d.pattern(s), all.pattern(s))
		}
	}
	if none, _ := DrawDays(p, plan, last.AddDays(30), PhoneDays, PhoneWide); !strings.Contains(string(none), "No batches on these days.") {
		t.Error("days without a batch do not say so")
	}
}

func TestPictureOfNothing(t *testing.T) {
	p := sample.Kitchen()
	svg := Draw(p, &schedule.Plan{From: p.From})
	if all := readSVG(t, svg); !slices.ContainsFunc(all, func(e sample.Element) bool { return e.Text == "No batches in this plan." }) {
		t.Errorf("got %s", svg)
	}
}

// A batch whose stages are all to come, or none at all, must not stop the picture.
func TestPictureOddBatches(t *testing.T) {
	p, plan := manyBatches(t, 11)
	plan.Batches[3].Stages = nil
	plan.Batches[4].ID = "with space & <sign>"
	readSVG(t, Draw(p, plan))
	plan.Batches = plan.Batches[:5]
	readSVG(t, Draw(p, plan))
}
