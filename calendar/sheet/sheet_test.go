package sheet_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"ripeby/calendar/sample"
	"ripeby/calendar/sheet"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

var update = flag.Bool("update", false, "write the goldens anew")

const id = "BH-270316-1"

// at is a moment of March 2027 in the sample's zone.
func at(s string) resources.Moment { return sample.At(sample.Kitchen().Kitchen.Zone, "2027-03-"+s) }

// dosed is the sample's first batch with what goes in.
func dosed(p *schedule.Problem) (*schedule.Plan, *schedule.Batch) {
	plan := sample.Plan(p)
	b := &plan.Batches[0]
	b.Stages[0].Needs = []schedule.Dose{{What: "culture", Amount: 1_125_000, Unit: "g", Rounded: 1_100_000},
		{What: "rennet", Amount: 180_000, Unit: "mL", Rounded: 180_000, Strength: "200 IMCU/mL", Lot: "R-55"}}
	b.Stages[4].Needs = []schedule.Dose{{What: "salt", Amount: 1_500_000, Unit: resources.Percent, Rounded: 1_500_000}}
	return plan, b
}

// kept is the first batch as it was kept when its make and its mould had begun.
func kept(p *schedule.Problem, b *schedule.Batch) schedule.KeptBatch {
	k := schedule.KeptBatch{Kitchen: p.Kitchen.Name, TimeZone: "Europe/Dublin", ID: b.ID, Lot: b.ID, Cheese: b.Cheese, Litres: b.Litres, Pieces: 16, Spare: 1,
		Milk:   &schedule.KeptMilk{Draw: *b.Milk, Day: resources.Date{Year: 2027, Month: 3, Day: 16}},
		Recipe: &schedule.KeptRecipe{Name: b.Cheese, Milk: "Hill Farm cow", Yield: schedule.Yield{Pieces: 16, From: 9000}, Keeps: 6 * resources.Day}}
	for i, t := range b.Stages {
		k.Stages = append(k.Stages, schedule.KeptStage{Stage: t.Stage, Begun: i < 3, Start: t.Start, Work: t.Work, Who: t.Who, Hold: t.Hold, Ends: t.Ends,
			At: t.At, Planned: t.Start, Uses: t.Uses, Needs: t.Needs})
		k.Recipe.Stages = append(k.Recipe.Stages, schedule.KeptLimits{Stage: t.Stage, Hold: p.Recipes[0].Stages[i].Hold})
	}
	for _, s := range b.For {
		k.For = append(k.For, schedule.KeptShare{Share: s})
	}
	return k
}

// said is what the kitchen said of the first batch: a packet, its make, a look, its mould, and a line that was taken
// back.
func said() []record.Entry {
	of := func(nr int, moment, who string, f record.BatchFacts, note string) record.Entry {
		return record.Entry{Nr: nr, At: at(moment), Who: who, Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: f, Note: note}
	}
	return []record.Entry{
		{Nr: 1, At: at("16 07:20"), Who: "Nell", Subject: record.Subject{Kind: record.OfMilk, Name: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 16}},
			Milk: record.MilkFacts{Lot: "H-77", Measured: []record.Measure{{What: "temperature", Is: "4 °C"}}}},
		of(2, "16 08:40", "Oisín", record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8500)), Lots: []record.Packet{{What: "Culture", Lot: "K-3"}, {What: "mould spores", Lot: "P-1"}},
			Measured: []record.Measure{{What: "pH", Is: "6.6"}}}, "warmed slowly"),
		of(3, "17 07:00", "Nell", record.BatchFacts{NotYet: "mould", Look: record.Say(2 * resources.Hour), Measured: []record.Measure{{What: "pH", Is: "5.1"}, {What: "room", Is: "19 °C"}}}, ""),
		of(4, "17 10:10", "Nell", record.BatchFacts{Did: "mould", Pieces: record.Say(14), Weight: record.Say(resources.Milligrams(1_050_000))}, ""),
		of(5, "17 10:20", "Nell", record.BatchFacts{Gone: record.Say(3), Why: "dropped"}, "was another batch"),
		{Nr: 6, At: at("17 10:25"), Strikes: []int{5}},
		of(7, "17 18:00", "", record.BatchFacts{Measured: []record.Measure{{What: "curd", Is: "18 °C"}}}, ""),
	}
}

// known is what there is to know of the first batch; without a plan where that is gone, and without a record where
// entries are nil.
func known(t *testing.T, p *schedule.Problem, plan *schedule.Plan, k *schedule.KeptBatch, entries []record.Entry) sheet.Known {
	t.Helper()
	out := sheet.Known{Kitchen: "Saltgrass Lane", Zone: sample.Kitchen().Kitchen.Zone, Problem: p, Plan: plan, Planned: plan.Batch(id)}
	var all []schedule.KeptBatch
	if k != nil {
		all = []schedule.KeptBatch{*k}
	}
	archive := trace.New(all, record.NewBook(entries), out.Zone)
	out.Struck = func(e *record.Entry) bool { return archive.StruckBy(e) != nil }
	out.Round = archive.Round
	if answers, err := archive.Ask([]string{id}); err == nil {
		out.Told = answers[0].Batches[0]
	}
	return out
}

func shown(t *testing.T, k sheet.Known) *sheet.Shown {
	t.Helper()
	s, err := sheet.Of(k)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func terminal(t *testing.T, s *sheet.Shown, width int) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.Write(&b, width, false); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func page(t *testing.T, s *sheet.Shown) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.HTML(&b, "/p/x/batch/"+id); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestAsKept: the sheet of one batch before it has begun, on its way, done and out of the plan, and lost.
func TestAsKept(t *testing.T) {
	p := sample.Kitchen()
	plan, b := dosed(p)
	k := kept(p, b)
	done := k
	done.Stages = slices.Clone(k.Stages)
	for i := range done.Stages {
		done.Stages[i].Begun = true
	}
	lost := append(said(), record.Entry{Nr: 8, At: at("18 08:00"), Who: "Nell", Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: record.BatchFacts{Lost: true, Why: "blown"}})
	for name, of := range map[string]sheet.Known{
		"empty": known(t, p, plan, nil, nil),
		"half":  known(t, p, plan, &k, said()),
		"done":  known(t, nil, nil, &done, said()),
		"lost":  known(t, p, plan, &k, lost),
	} {
		s := shown(t, of)
		for _, f := range []struct{ name, text string }{{".txt", terminal(t, s, 100)}, {".html", page(t, s)}} {
			if err := sample.Golden(name+f.name, []byte(f.text), *update); err != nil {
				t.Error(err)
			}
		}
	}
	if err := sample.Golden("narrow.txt", []byte(terminal(t, shown(t, known(t, p, plan, &k, said())), 30)), *update); err != nil {
		t.Error(err)
	}
}

// TestStruckAndLost: what was taken back does not count, though it is counted; of a lost batch nothing is to come; a
// strike of the loss has it all back.
func TestStruckAndLost(t *testing.T) {
	p := sample.Kitchen()
	plan, b := dosed(p)
	k := kept(p, b)
	entries := said()
	text := terminal(t, shown(t, known(t, p, plan, &k, entries)), 400)
	for _, bad := range []string{"dropped", "3 gone", "was another batch"} {
		if strings.Contains(text, bad) {
			t.Errorf("%q is shown, though it was struck:\n%s", bad, text)
		}
	}
	if !strings.Contains(text, "Not counted here: 1 entry that was taken back") {
		t.Errorf("nothing is said of what was struck:\n%s", text)
	}
	entries = append(entries, record.Entry{Nr: 8, At: at("18 08:00"), Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: record.BatchFacts{Lost: true, Why: "blown"}})
	text = terminal(t, shown(t, known(t, p, plan, &k, entries)), 400)
	for _, bad := range []string{"Use by", "planned\n", "[ ]", "salt"} {
		if strings.Contains(text, bad) {
			t.Errorf("%q is shown of a lost batch:\n%s", bad, text)
		}
	}
	if !strings.Contains(text, "Lost, as said Thu 18 Mar 08:00: blown.") || strings.Count(text, "not done: the batch is lost") != 3 {
		t.Errorf("it is not shown as lost:\n%s", text)
	}
	entries = append(entries, record.Entry{Nr: 9, At: at("18 09:00"), Strikes: []int{8}})
	if text = terminal(t, shown(t, known(t, p, plan, &k, entries)), 400); strings.Contains(text, "ost") && strings.Contains(text, "blown") || !strings.Contains(text, "Use by") {
		t.Errorf("the loss was taken back, and holds:\n%s", text)
	}
}

// TestNothing: of what no plan and no record knows there is no sheet.
func TestNothing(t *testing.T) {
	if _, err := sheet.Of(sheet.Known{}); !errors.Is(err, sheet.ErrNothing) {
		t.Errorf("got %v", err)
	}
}

// TestRoundsAreTicked: care of a day of whose round somebody spoke is said, that of other days is to be ticked.
func TestRoundsAreTicked(t *testing.T) {
	p := sample.Kitchen()
	plan, b := dosed(p)
	k := kept(p, b)
	day := func(n int) record.Subject {
		return record.Subject{Kind: record.OfRound, Day: resources.Date{Year: 2027, Month: 3, Day: n}}
	}
	for want, e := range map[string]record.Entry{
		"Sat 20 Mar: done":     {Nr: 9, At: at("20 20:00"), Subject: day(20), Round: record.RoundFacts{Did: true}},
		"Sat 20 Mar: not done": {Nr: 9, At: at("20 20:00"), Subject: day(20), Round: record.RoundFacts{Skipped: true}},
		"[ ] Sat 20 Mar":       {Nr: 9, At: at("20 20:00"), Subject: day(21), Round: record.RoundFacts{Did: true}},
	} {
		text := terminal(t, shown(t, known(t, p, plan, &k, append(said(), e))), 100)
		if !strings.Contains(text, "  "+want+"\n") {
			t.Errorf("%q is not there:\n%s", want, text)
		}
	}
}

// leftOut adds up what the lines say that was left out, of each kind.
var leftOut = regexp.MustCompile(`(?:the last (\d+) of \d+ that go in)|(?:the first (\d+) of \d+ that were said)|(?:with (\d+) that go in and (\d+) that were said)`)

// full is the first batch with so much of everything.
func full(p *schedule.Problem, stages, needs, turns, note, looks int) (*schedule.Plan, []record.Entry) {
	plan, b := dosed(p)
	first := b.Stages[0]
	first.Needs = nil
	for i := range needs {
		first.Needs = append(first.Needs, schedule.Dose{What: fmt.Sprintf("thing number %d", i), Amount: int64(i+1) * 1_111_111, Unit: "g", Rounded: int64(i+1) * 1_100_000, Lot: fmt.Sprintf("L-%d", i)})
	}
	rest := b.Stages[1:]
	b.Stages = []schedule.Task{first}
	for len(b.Stages) < stages {
		t := rest[len(b.Stages)%len(rest)]
		t.Needs = nil
		t.Stage = fmt.Sprintf("%s no. %d", t.Stage, len(b.Stages))
		b.Stages = append(b.Stages, t)
	}
	b.Care = nil
	for i := range turns {
		b.Care = append(b.Care, schedule.CareDay{Day: resources.Date{Year: 2027, Month: 3, Day: 17}.AddDays(i), Do: "turn", Hands: 5})
	}
	entries := []record.Entry{{Nr: 1, At: at("16 09:00"), Who: "Nell", Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: record.BatchFacts{Began: first.Stage},
		Note: strings.TrimSpace(strings.Repeat("curd slow ", note/10))}}
	for i := range looks {
		entries = append(entries, record.Entry{Nr: i + 2, At: at("16 10:00").Add(resources.Minutes(i)), Who: "Nell", Subject: record.Subject{Kind: record.OfBatch, Name: id},
			Batch: record.BatchFacts{Measured: []record.Measure{{What: "pH", Is: fmt.Sprintf("5.%04d", i)}}}})
	}
	return plan, entries
}

// TestAllIsThereOrLeftOut: every amount and every reading stands on the page, or is counted in the line that says what
// was left out; on a screen all of it stands. Nothing is left out where there is room.
func TestAllIsThereOrLeftOut(t *testing.T) {
	p := sample.Kitchen()
	cut := 0
	type much struct{ stages, needs, turns, note, looks int }
	cases := []much{{6, 3, 2, 0, 2}, {6, 20, 14, 2000, 4}, {8, 30, 40, 2000, 40}, {20, 60, 200, 2000, 200}, {60, 60, 300, 2000, 400}, {60, 0, 0, 0, 0}}
	dice := rand.New(rand.NewPCG(20261201, 10))
	for range 20 {
		cases = append(cases, much{1 + dice.IntN(60), dice.IntN(60), dice.IntN(100), dice.IntN(2000), dice.IntN(100)})
	}
	for _, c := range cases {
		name := fmt.Sprintf("%+v", c)
		plan, entries := full(p, c.stages, c.needs, c.turns, c.note, c.looks)
		s := shown(t, known(t, p, plan, nil, entries))
		screen := words.Unglue(terminal(t, s, 400))
		paper := s.Paper()
		text := words.Unglue(texts(paper))
		doses, readings := 0, 0
		for i := range plan.Batches[0].Stages[0].Needs {
			d := &plan.Batches[0].Stages[0].Needs[i]
			amount := words.Unglue(d.What + " " + words.Dose(d))
			if !strings.Contains(screen, amount) {
				t.Errorf("%s: %q is not on the screen", name, amount)
			}
			if strings.Contains(text, amount) {
				doses++
			}
		}
		for _, e := range entries[1:] {
			if !strings.Contains(screen, e.Batch.Measured[0].Is) {
				t.Errorf("%s: %q is not on the screen", name, e.Batch.Measured[0].Is)
			}
			if strings.Contains(text, e.Batch.Measured[0].Is) {
				readings++
			}
		}
		for _, found := range leftOut.FindAllStringSubmatch(strings.Join(paper.LeftOut, "\n"), -1) {
			doses += number(found[1]) + number(found[3])
			readings += number(found[2]) + number(found[4])
		}
		if doses != c.needs || readings != c.looks {
			t.Errorf("%s: %d amounts and %d readings stand there or are left out, of %d and %d\n%s", name, doses, readings, c.needs, c.looks, strings.Join(paper.LeftOut, "\n"))
		}
		if n := len(paper.LeftOut); n > 0 {
			cut++
			if !strings.Contains(paper.LeftOut[n-1], "ripeby sheet "+id) {
				t.Errorf("%s: %q does not say where it stands", name, paper.LeftOut[n-1])
			}
		} else if c.stages > 20 {
			t.Errorf("%s: nothing is left out, of so much", name)
		}
	}
	if cut == 0 || cut == len(cases) {
		t.Errorf("something is left out in %d of %d: too little is tested", cut, len(cases))
	}
}

func number(s string) int {
	n := 0
	_, _ = fmt.Sscan(s, &n)
	return n
}

// texts are all that stands on a sheet.
func texts(s *sheet.Shown) string {
	var b strings.Builder
	add := func(items []sheet.Item) {
		for _, i := range items {
			fmt.Fprintln(&b, strings.Join(i.Parts, "____"))
		}
	}
	for _, f := range s.Facts {
		add(f.Items)
	}
	for _, t := range s.Stages {
		fmt.Fprintln(&b, t.Name, t.Planned)
		add(t.Really)
		add(t.What)
	}
	for _, n := range s.Notes {
		fmt.Fprintln(&b, n.When, n.Text)
	}
	return b.String()
}

// TestHostileNames: names that have broken pages before add no markup and turn no text.
func TestHostileNames(t *testing.T) {
	for _, name := range sample.NastyNames {
		p := sample.Kitchen()
		plan, entries := full(p, 6, 3, 3, 100, 3)
		p.Recipes[0].Name, plan.Batches[0].Cheese = name, name
		plan.Batches[0].Stages[0].Who, plan.Batches[0].Stages[0].Needs[0].What, plan.Batches[0].Stages[0].Needs[1].Lot = name, name, name
		plan.Batches[0].Care[0].Do, plan.Batches[0].For[0].Target = name, name
		entries[0].Note, entries[1].Who, entries[1].Batch.Measured[0] = name+" "+name, name, record.Measure{What: name, Is: name}
		s := shown(t, known(t, p, plan, nil, entries))
		text, html := terminal(t, s, 60), page(t, s)
		if err := errors.Join(sample.Harmless(text), sample.Harmless(html), sample.Fits(text, 60)); err != nil {
			t.Errorf("%q: %v", name, err)
		}
		if n := strings.Count(html, "<script"); n > 0 || strings.Count(html, "<style>") != 1 || strings.Contains(html, "ZgotmplZ") {
			t.Errorf("%q: got markup of its own:\n%s", name, html)
		}
	}
}

// FuzzSheet: whatever names and texts there are, nothing of them becomes markup, turns a text or breaks a line, and what
// there is of amounts stands on the screen.
func FuzzSheet(f *testing.F) {
	for _, name := range sample.NastyNames {
		f.Add(name, name)
	}
	f.Fuzz(func(t *testing.T, name, note string) {
		if utf8.RuneCountInString(name) > 80 || utf8.RuneCountInString(note) > record.MaxNote {
			t.Skip("a kitchen folder may not hold it")
		}
		p := sample.Kitchen()
		plan, entries := full(p, 6, 3, 3, 100, 3)
		sample.Rename(p, plan, name)
		plan.Batches[0].Stages[0].Needs[0].Lot, entries[0].Note = name, note
		entries[1].Batch.Measured[0] = record.Measure{What: name, Is: note}
		s := shown(t, known(t, p, plan, nil, entries))
		text, html := terminal(t, s, 60), page(t, s)
		if err := errors.Join(sample.Harmless(text), sample.Harmless(html), sample.Fits(text, 60)); err != nil {
			t.Error(err)
		}
		if strings.Contains(html, "<script") || strings.Count(html, "<style>") != 1 || strings.Contains(html, "ZgotmplZ") {
			t.Errorf("got markup of its own:\n%s", html)
		}
		if screen := words.Unglue(terminal(t, s, 400)); !strings.Contains(screen, "1.1 g (exactly 1.111)") {
			t.Errorf("an amount is not there:\n%s", screen)
		}
	})
}

// capitals is a plan whose names are of the widest letters, as long as a name may be.
func capitals(p *schedule.Problem) *schedule.Plan {
	plan, b := dosed(p)
	name := strings.Repeat("WM @", 20)
	for i := range b.Stages {
		b.Stages[i].Stage = name
		for k := range b.Stages[i].Needs {
			b.Stages[i].Needs[k].What = name
		}
	}
	return plan
}
