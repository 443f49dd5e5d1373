package cold

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
	"ripeby/schedule/testrun"
)

var update = flag.Bool("update", false, "write the golden files anew")

const cm = resources.Centimetre

// kitchen is the week table's with kinds of boxes, a shelf that is taken for
// a while, and something in stock.
func kitchen(t *testing.T) (*schedule.Problem, *schedule.Plan) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	at := func(s string) resources.Moment { return sample.At(p.Kitchen.Zone, s) }
	p.Kitchen.Boxes = []resources.Box{{Name: "ripening box", Size: resources.Size{Width: 30 * cm, Depth: 36 * cm, Height: 12 * cm}}, {Name: "crate"}}
	p.Recipes[0].Box = &schedule.Boxing{Name: "ripening box", Takes: 8}
	for i := range p.Recipes[0].Stages {
		p.Recipes[0].Stages[i].Uses = []schedule.Use{{Kind: schedule.UseBox}}
	}
	p.Kitchen.Cold[1].Boxes = 6
	p.Kitchen.Cold[0].Shelves[0].Size.Width = 80 * cm
	p.Kitchen.Cold[0].Shelves[1].Taken = []resources.Span{{From: at("2027-03-21 12:00"), Until: at("2027-03-24 00:00")}}
	for i := range plan.Batches[1].Stages { // beside the first batch's, and not in the same place
		boxes := slices.Clone(plan.Batches[1].Stages[i].BoxesAt)
		for k := range boxes {
			if boxes[k].Shelf != "" {
				boxes[k].X = 30 * cm
			}
		}
		plan.Batches[1].Stages[i].BoxesAt = boxes
	}
	plan.Stock = append(plan.Stock, schedule.StockUse{Cheese: "Bramble hoop", Packed: at("2027-03-10 09:00"), Ends: at("2027-03-20 09:00"), At: "kitchen fridge",
		BoxesAt: []schedule.Standing{{Place: "kitchen fridge", Shelf: "middle", X: 40 * cm, Width: 12 * cm, Depth: 30 * cm, Layer: 1}}})
	return p, plan
}

func textOf(t *testing.T, write func(*bytes.Buffer) error) string {
	t.Helper()
	var buf bytes.Buffer
	if err := write(&buf); err != nil {
		t.Fatal(err)
	}
	return buf.String()
}

// asked answers a question about the plan.
func asked(p *schedule.Problem, plan *schedule.Plan, q coldroom.Question, budget int64) Asked {
	return Asked{Question: q, Reply: coldroom.Of(p, plan).Ask(q, budget)}
}

// readSVG reads a picture strictly.
func readSVG(t *testing.T, svg []byte) []sample.Element {
	t.Helper()
	all, err := sample.ReadPicture(svg)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestGolden(t *testing.T) {
	p, plan := kitchen(t)
	at := func(s string) resources.Moment { return sample.At(p.Kitchen.Zone, s) }
	small := coldroom.Question{Count: 3, Box: resources.Size{Width: 20 * cm, Depth: 16 * cm, Height: 10 * cm},
		Span: resources.Span{From: at("2027-03-18 09:00"), Until: at("2027-03-20 09:00")}}
	large := small
	large.Box, large.Count, large.In = resources.Size{Width: 50 * cm, Depth: 30 * cm, Height: 20 * cm}, 1, "kitchen fridge"
	for _, width := range []int{40, 80} {
		opt := Options{Width: width, At: at("2027-03-18 09:00")}
		for name, write := range map[string]func(*bytes.Buffer) error{
			"table": func(b *bytes.Buffer) error { return Table(b, p, plan, opt) },
			"map":   func(b *bytes.Buffer) error { return Map(b, p, plan, opt) },
			"yes": func(b *bytes.Buffer) error {
				return Answer(b, p, plan, asked(p, plan, small, coldroom.DefaultBudget), opt)
			},
			"no": func(b *bytes.Buffer) error {
				return Answer(b, p, plan, asked(p, plan, large, coldroom.DefaultBudget), opt)
			},
		} {
			t.Run(fmt.Sprint(name, width), func(t *testing.T) {
				text := textOf(t, write)
				if err := sample.Fits(text, width); err != nil {
					t.Error(err)
				}
				if err := sample.Golden(fmt.Sprintf("%s_%d.txt", name, width), []byte(text), *update); err != nil {
					t.Error(err)
				}
			})
		}
	}
}

// randomCold is a kitchen with shelves of whole centimetres and a plan whose piles
// share no floor.
func randomCold(t *testing.T, r *rand.Rand) (*schedule.Problem, *schedule.Plan) {
	p := sample.Kitchen()
	p.From = sample.At(p.Kitchen.Zone, "2027-03-14 06:00")
	p.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Boxes: 1 + r.IntN(300)}, {Name: "fridge"}}
	fridge := &p.Kitchen.Cold[1]
	for i := range 1 + r.IntN(3) {
		fridge.Shelves = append(fridge.Shelves, resources.Shelf{Name: fmt.Sprint("s", i),
			Size: resources.Size{Width: cm * resources.Micrometres(20+r.IntN(180)), Depth: cm * resources.Micrometres(10+r.IntN(90)), Height: 30 * cm}})
	}
	plan := &schedule.Plan{From: p.From}
	for i := range 120 {
		b := schedule.Batch{ID: fmt.Sprint("B-", i), Cheese: "Curd"}
		from := p.From.Add(resources.Minutes(r.IntN(100)))
		task := schedule.Task{Stage: "set", Start: from, Hold: resources.Minutes(1 + r.IntN(150))}
		task.Ends = from.Add(task.Hold)
		if r.IntN(4) == 0 {
			for range 1 + r.IntN(5) {
				task.BoxesAt = append(task.BoxesAt, schedule.Standing{Place: "cave"})
			}
		} else {
			s := fridge.Shelves[r.IntN(len(fridge.Shelves))]
			w, d := cm*resources.Micrometres(4+r.IntN(30)), cm*resources.Micrometres(4+r.IntN(30))
			x, y := cm*resources.Micrometres(r.IntN(100)), cm*resources.Micrometres(r.IntN(100))
			for _, o := range plan.Batches {
				if at := o.Stages[0].BoxesAt[0]; at.Shelf == s.Name && r.IntN(5) == 0 { // on that one's
					x, y, w, d = at.X, at.Y, at.Width, at.Depth
				}
			}
			pile := coldroom.Pile{X: x, Y: y, Width: w, Depth: d}
			there := coldroom.Of(p, plan)
			clash := x+w > s.Size.Width || y+d > s.Size.Depth
			for m := task.Start; m < task.Ends && !clash; m++ {
				beside := slices.DeleteFunc(there.Piles("fridge", s.Name, m), func(o coldroom.Pile) bool { return o.X == x && o.Y == y && o.Width == w && o.Depth == d })
				clash = overlaps(beside, pile)
			}
			if clash {
				continue
			}
			for layer := range 1 + r.IntN(12) {
				task.BoxesAt = append(task.BoxesAt, schedule.Standing{Place: "fridge", Shelf: s.Name, X: x, Y: y, Width: w, Depth: d, Layer: layer + 1})
			}
		}
		b.Stages = append(b.Stages, task)
		plan.Batches = append(plan.Batches, b)
	}
	return p, plan
}

// standingAt counts each batch's boxes at a moment, from the plan itself.
func standingAt(plan *schedule.Plan, m resources.Moment) map[string]int {
	n := map[string]int{}
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			if t.Start <= m && m < t.Ends && len(t.BoxesAt) > 0 {
				n[b.ID] += len(t.BoxesAt)
			}
		}
	}
	return n
}

var (
	coldLabel  = regexp.MustCompile(`([A-Z]+)( x |x)?([0-9]+)?`)
	coldListed = regexp.MustCompile(`^  ([A-Z]+): ([0-9]+) x at `)
	coldNarrow = regexp.MustCompile(`^([A-Z]+)  (B-[0-9]+), Curd$`)
	coldCount  = regexp.MustCompile(`^ +([0-9]+) x -$`)
	coldWide80 = regexp.MustCompile(`^([A-Z]+) +(B-[0-9]+) +Curd +([0-9]+) `)
)

// drawn counts, from the text of maps, the boxes of each batch on the drawings and in
// the legends, which are tables or, where it is narrow, a few lines a batch.
func drawn(t *testing.T, text string) (drawings, legends map[string]int, fine int) {
	t.Helper()
	drawings, legends = map[string]int{}, map[string]int{}
	letters := map[string]int{}
	batches := map[string]string{}
	last := "" // of a narrow legend
	for _, line := range strings.Split(text, "\n") {
		switch {
		case strings.HasPrefix(line, "|"), strings.HasPrefix(line, "+"), strings.HasPrefix(line, "["):
			slots := strings.HasPrefix(line, "[")
			for _, f := range coldLabel.FindAllStringSubmatch(line, -1) {
				n := 1
				if f[3] != "" {
					n, _ = strconv.Atoi(f[3])
				}
				if slots && !strings.Contains(line, " ") { // a letter a box
					for _, r := range f[1] {
						letters[string(r)]++
					}
					continue
				}
				letters[f[1]] += n
			}
		case coldListed.MatchString(line):
			f := coldListed.FindStringSubmatch(line)
			n, _ := strconv.Atoi(f[2])
			letters[f[1]] += n
			fine++
		case coldNarrow.MatchString(line):
			f := coldNarrow.FindStringSubmatch(line)
			batches[f[1]], last = f[2], f[2]
		case coldCount.MatchString(line):
			n, _ := strconv.Atoi(coldCount.FindStringSubmatch(line)[1])
			legends[last] += n
		case coldWide80.MatchString(line):
			f := coldWide80.FindStringSubmatch(line)
			n, _ := strconv.Atoi(f[3])
			legends[f[2]] += n
			if was := batches[f[1]]; was != "" && was != f[2] {
				t.Errorf("letter %s is both %s and %s", f[1], was, f[2])
			}
			batches[f[1]] = f[2]
		}
	}
	for letter, n := range letters {
		drawings[batches[letter]] += n
	}
	return drawings, legends, fine
}

func TestMapShowsEveryBoxOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	kitchens, boxes, fine, wide, shared := testrun.Rounds(24, 80), 0, 0, 0, 0
	for n := range kitchens {
		p, plan := randomCold(t, r)
		for range 6 {
			m := p.From.Add(resources.Minutes(r.IntN(120)))
			want := standingAt(plan, m)
			opt := Options{At: m, Width: 80}
			for _, width := range []int{40, 60, 80} {
				opt.Width = width
				text := textOf(t, func(b *bytes.Buffer) error { return Map(b, p, plan, opt) })
				onMaps, legends, listed := drawn(t, text)
				if fmt.Sprint(onMaps) != fmt.Sprint(want) || fmt.Sprint(legends) != fmt.Sprint(want) {
					t.Fatalf("kitchen %d: got %v on the maps and %v in the legends, want %v\n%s", n, onMaps, legends, want, text)
				}
				if err := sample.Fits(text, width); err != nil {
					t.Error(err)
				}
				fine += listed
			}
			svg, err := Picture(p, plan, opt)
			if err != nil {
				t.Fatal(err)
			}
			pictured := 0
			for _, e := range readSVG(t, svg) {
				if f := coldLabel.FindStringSubmatch(e.Text); e.Name == "text" && e.Class == "k m" {
					k := 1
					if f[3] != "" {
						k, _ = strconv.Atoi(f[3])
					}
					pictured += k
				}
			}
			for _, c := range p.Kitchen.Cold {
				for _, s := range c.Shelves {
					for _, pile := range coldroom.Of(p, plan).Piles(c.Name, s.Name, m) {
						if pile.Below > 0 {
							shared++
						}
					}
				}
			}
			all := 0
			for _, k := range want {
				all += k
			}
			if pictured != all {
				t.Fatalf("kitchen %d: got %d boxes in the picture, want %d", n, pictured, all)
			}
			boxes += all
			if len(want) > 26 {
				wide++
			}
		}
	}
	if shared < kitchens*200/80 {
		t.Errorf("got %d piles on those of others, want more", shared)
	}
	if boxes < kitchens*5000/80 || fine == 0 || wide < kitchens*10/80 {
		t.Errorf("got %d boxes, %d piles in lists, %d moments with more than 26 batches, want more", boxes, fine, wide)
	}
}

// A pile too small for its letter, one that overlaps another and one that stands out
// over the shelf cannot be drawn; they are listed instead, and the limit is named.
func TestMapTooFine(t *testing.T) {
	size := resources.Size{Width: 200 * cm, Depth: 30 * cm, Height: 30 * cm}
	for name, piles := range map[string][]coldroom.Pile{
		"small":    {{X: 10 * cm, Width: cm, Depth: 20 * cm, Boxes: 1}},
		"overlaps": {{Width: 30 * cm, Depth: 20 * cm, Boxes: 1}, {X: 15 * cm, Width: 30 * cm, Depth: 20 * cm, Boxes: 1}},
		"out":      {{X: 180 * cm, Width: 30 * cm, Depth: 20 * cm, Boxes: 1}},
	} {
		if d, ok := drawShelf(size, piles, []string{"A", "B"}[:len(piles)], 80); ok {
			t.Errorf("%s: got a drawing, want none:\n%s", name, bytes.Join(d.cells, []byte("\n")))
		}
	}
	p, plan := kitchen(t)
	plan.Stock[len(plan.Stock)-1].BoxesAt[0].Width = cm / 2
	text := textOf(t, func(b *bytes.Buffer) error {
		return Map(b, p, plan, Options{At: plan.From, In: "middle", Width: 40})
	})
	for _, want := range []string{"Too fine to draw in 40 columns and 60", "B: 1 x at 40 x 0, 0.5 x 30 cm"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := lettersOf(i); got != want {
			t.Errorf("%d: got %q, want %q", i, got, want)
		}
		g := &page{letters: map[int]string{7: lettersOf(i)}}
		if got := g.order(7); got != i {
			t.Errorf("%s: got place %d, want %d", want, got, i)
		}
	}
}

// What a table or a map leaves out is said under it.
func TestNotes(t *testing.T) {
	p, plan := kitchen(t)
	p.Kitchen.Cold[0].Shelves[1].Name = "mid"
	plan.Warnings = append(plan.Warnings, schedule.Warning{Code: "boxes-do-not-fit", Text: "The boxes of X do not fit."})
	for name, write := range map[string]func(*bytes.Buffer) error{
		"table": func(b *bytes.Buffer) error { return Table(b, p, plan, Options{}) },
		"map":   func(b *bytes.Buffer) error { return Map(b, p, plan, Options{At: plan.From}) },
	} {
		text := strings.Join(strings.Fields(textOf(t, write)), " ")
		for _, want := range []string{"stand at kitchen fridge, middle, which the kitchen folder does not have", "The boxes of X do not fit. They are not shown here."} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", name, want, text)
			}
		}
	}
	p.Kitchen.Cold = nil
	text := textOf(t, func(b *bytes.Buffer) error { return Table(b, p, plan, Options{}) })
	if !strings.Contains(text, "The kitchen has no cold place.") {
		t.Errorf("without a cold place:\n%s", text)
	}
}

// Before its table each page has at most two sentences of at most 25 words.
func TestSentencesAreShort(t *testing.T) {
	p, plan := kitchen(t)
	from := sample.At(p.Kitchen.Zone, "2027-03-17 12:00")
	seen := map[string]bool{}
	for _, answer := range []shelf.Answer{shelf.Yes, shelf.No, shelf.Unknown} {
		for mask := range 64 {
			sure, found := mask&1 > 0, mask&2 > 0
			q := coldroom.Question{Count: 10 * (1 + mask&8), Box: resources.Size{Width: 30*cm + 5000, Depth: 20 * cm, Height: 11 * cm}, Span: resources.Span{From: from, Until: from + 1440}}
			r := coldroom.Reply{Answer: answer, Spent: 123456, Next: coldroom.Bound{At: from + 777, Found: found, Sure: sure}, Longest: coldroom.Bound{At: from + 888, Found: mask&4 > 0 || answer == shelf.Yes, Sure: mask&16 > 0}}
			if mask&32 > 0 {
				q.Span.Until = from
			}
			text := textOf(t, func(b *bytes.Buffer) error {
				return Answer(b, p, plan, Asked{Question: q, Reply: r}, Options{Width: 300})
			})
			first, _, _ := strings.Cut(text, "\n")
			sentences := regexp.MustCompile(`\. `).Split(first, -1)
			if len(sentences) > 2 {
				t.Errorf("%d sentences: %s", len(sentences), first)
			}
			for _, s := range sentences {
				if n := len(strings.Fields(s)); n > 25 {
					t.Errorf("%d words: %s", n, s)
				}
			}
			unsettled := answer == shelf.Unknown || !r.Longest.Sure || answer == shelf.No && !sure
			if said := strings.Contains(text, "given up after 123456 positions"); said != unsettled {
				t.Errorf("says that it gave up: %t, want %t\n%s", said, unsettled, text)
			}
			seen[sentences[len(sentences)-1]] = true
		}
	}
	if len(seen) < 12 {
		t.Errorf("got %d second sentences, want more: %v", len(seen), seen)
	}
}

func TestNastyNames(t *testing.T) {
	for name, nasty := range sample.NastyNames {
		t.Run(name, func(t *testing.T) {
			p, plan := kitchen(t)
			sample.Rename(p, plan, nasty)
			p.Recipes[0].Box.Name = nasty
			opt := Options{At: sample.At(p.Kitchen.Zone, "2027-03-18 09:00")}
			for _, width := range []int{30, 40, 80} {
				opt.Width = width
				for _, write := range []func(*bytes.Buffer) error{
					func(b *bytes.Buffer) error { return Table(b, p, plan, opt) },
					func(b *bytes.Buffer) error { return Map(b, p, plan, opt) },
				} {
					text := textOf(t, write)
					if err := sample.Fits(text, width); err != nil {
						t.Error(err)
					}
					if err := sample.Harmless(text); err != nil {
						t.Error(err)
					}
				}
			}
			svg, err := Picture(p, plan, opt)
			if err != nil {
				t.Fatal(err)
			}
			readSVG(t, svg)
			if err := sample.Harmless(string(svg)); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestPicture(t *testing.T) {
	p, plan := kitchen(t)
	at := sample.At(p.Kitchen.Zone, "2027-03-18 09:00")
	p.Kitchen.Cold[1].Taken = []resources.Span{{From: at, Until: at + 9}}
	p.Kitchen.Cold[0].Shelves = append(p.Kitchen.Cold[0].Shelves, resources.Shelf{Name: "low", Taken: p.Kitchen.Cold[1].Taken, Size: resources.Size{Width: 30 * cm, Depth: 20 * cm, Height: 9 * cm}})
	svg, err := Picture(p, plan, Options{At: at})
	if err != nil {
		t.Fatal(err)
	}
	if err := sample.Golden("cold.svg", svg, *update); err != nil {
		t.Error(err)
	}
	all := readSVG(t, svg)
	for _, want := range []string{"A x 2", "front", "D: stock, Bramble hoop, 1 x ripening box, until Sat 20 Mar 09:00"} {
		if !slices.ContainsFunc(all, func(e sample.Element) bool { return e.Name == "text" && e.Text == want }) {
			t.Errorf("no text %q", want)
		}
	}
	for _, part := range []string{`role="img"`, "prefers-color-scheme:dark", "<desc", `fill="url(#` + hatch + `)"`} {
		if !bytes.Contains(svg, []byte(part)) {
			t.Errorf("no %s", part)
		}
	}
	q := coldroom.Question{Count: 2, Box: resources.Size{Width: 20 * cm, Depth: 16 * cm, Height: 10 * cm}, In: "top", Span: resources.Span{From: at, Until: at + 60}}
	svg, err = AnswerPicture(p, plan, asked(p, plan, q, coldroom.DefaultBudget), Options{In: "top"})
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(svg, []byte("asked for, 2 x 20 x 16 x 10 cm, until Thu 18 Mar 10:00")) {
		t.Errorf("the boxes asked for are not in the picture:\n%s", svg)
	}
}

// A day's cell, shelf taken or not, and a place that holds more than it can.
func TestCells(t *testing.T) {
	day := resources.Span{From: 0, Until: resources.Moment(resources.Day)}
	place := func(boxes int, shelfTaken ...resources.Span) *resources.ColdPlace {
		c := &resources.ColdPlace{Name: "c", Boxes: boxes}
		if boxes == 0 {
			c.Shelves = []resources.Shelf{{Name: "s", Size: resources.Size{Width: 40 * cm, Depth: 30 * cm}, Taken: shelfTaken}}
		}
		return c
	}
	half := resources.Span{From: 600, Until: 900}
	box := schedule.Standing{Place: "c", Shelf: "s", Layer: 1, Width: 20 * cm, Depth: 20 * cm}
	for _, c := range []struct {
		name  string
		place *resources.ColdPlace
		stays []coldroom.Stay
		want  string
	}{
		{"empty", place(0), nil, "empty"},
		{"taken", place(0, day), nil, "taken"},
		{"taken in part", place(0, half), nil, "empty, taken in part"},
		{"some", place(0, half), []coldroom.Stay{{Span: resources.Span{From: 0, Until: 300}, Boxes: []schedule.Standing{box}}}, "1, 34 %, taken in part"},
		{"in a taken one", place(0, day), []coldroom.Stay{{Span: day, Boxes: []schedule.Standing{box}}}, "1 box, TOO FULL, taken"},
		{"counted", place(3), []coldroom.Stay{{Span: half, Boxes: []schedule.Standing{box, box}}}, "2 of 3"},
		{"too many", place(1), []coldroom.Stay{{Span: half, Boxes: []schedule.Standing{box, box}}}, "2 of 1, TOO FULL"},
	} {
		part := part{place: c.place, fill: (&coldroom.Occupancy{Stays: c.stays}).Fill(c.place, func(schedule.Standing) bool { return true })}
		if c.place.Measured() {
			part.shelf = &c.place.Shelves[0]
		}
		if got := words.Unglue(part.cell([]resources.Span{day})); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
