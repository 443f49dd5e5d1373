package config

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

const button = "recipes/ash-button.yaml"

// TestWhatIsAllowed stands beside the faults: one step inside the limit, or
// another way of writing, loads.
func TestWhatIsAllowed(t *testing.T) {
	pack := "{stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C, uses: [box]}"
	for _, c := range []faultCase{
		{"a box without a size where a counted place will do", button, "at: 2-6 °C, uses: [box]}", "at: 2-12 °C, uses: [box]}"},
		{"no work after a hold, all the same", button, pack, "{stage: rest, at: 2-6 °C, uses: [box]}"},
		{"no work after a hold, at a place of the range", button, pack, "{stage: rest, at: kitchen fridge, uses: [box]}"},
		{"work after a hold, elsewhere", button, pack, "{stage: rest, hands: {fixed: 1 min}, at: cheese cave, uses: [box]}"},
		{"a single temperature", button, "at: 2-6 °C, uses: [mould, box]", "at: 4 °C, uses: [mould, box]"},
		{"a range in Fahrenheit", button, "at: 2-6 °C, uses: [mould, box]", "at: 36–43 °F, uses: [mould, box]"},
		{"best at least", button, "best: 22 h", "best: 18 h"},
		{"best at most", button, "best: 22 h", "best: 28 h"},
		{"least at most", button, "{least: 18 h, best: 22 h, most: 28 h}", "{least: 18 h, most: 18 h}"},
		{"least and most a step apart", button, "{least: 18 h, best: 22 h, most: 28 h}", "{least: 21 min, most: 25 min}"},
		{"one piece to sell", button, "spare: 1", "spare: 17"},
		{"the least batch fills the pot", button, "least: 5 L, most: 15 L", "least: 10 L, most: 15 L"},
		{"a last hold as long as the cheese keeps", button, "uses: [box]}\n", "uses: [box], hold: {least: 6 d, most: 8 d}}\n"},
		{"a pot by its name", button, "uses: [pot]", "uses: [tall pot]"},
		{"fresh of all stations", button, "uses: [board press]", "uses: [board press, hook], fresh: [hook, board press]"},
		{"care every 48 hours", button, "every: 2 d", "every: 48 h"},
		{"work that does not go by the size", button, "hands: {fixed: 40 min, per_litre: 2 min}", "hands: 40 min"},
		{"no work at all", button, "hands: {fixed: 40 min, per_litre: 2 min}", "hands: {fixed: 0 min}"},
		{"who of nobody means anybody", button, "{stage: make,", "{stage: make, who: [],"},
		{"two wants that differ in price", "targets.yaml", "price: 6.50, promised: true", "price: 6.49"},
		{"a feast in capitals", "targets.yaml", "feast: easter", "feast: Orthodox  Easter"},
		{"a moment with an offset", "targets.yaml", "by: 2027-03-27 07:00", "by: 2027-03-27T07:00:00Z"},
		{"all of the batch is left", "begun.yaml", "pieces: 13", "pieces: 14"},
		{"begun at the planning start", "begun.yaml", "drain: 2027-03-13 08:00", "drain: 2027-03-18 20:00"},
		{"begun stages in another order", "begun.yaml", "make: 2027-03-12 07:30, set: 2027-03-12 08:30", "set: 2027-03-12 08:30, make: 2027-03-12 07:30"},
		{"milk ordered for Tuesday", "begun.yaml", "day: 2027-03-19", "day: 2027-03-23"},
		{"days as one text", "kitchen.yaml", "days: [tue, fri]", "days: \"tue,fri\""},
		{"days over the week's end", "kitchen.yaml", "days: [tue, fri]", "days: [fri-tue]"},
		{"closed from and until", "kitchen.yaml", "closed: [2027-03-26]", "closed: [{from: 2027-03-26, until: 2027-03-27 12:00}]"},
		{"a station that takes pieces", "kitchen.yaml", "takes: 6 L", "takes: 3 pieces"},
	} {
		files := saltgrass(t)
		edit(t, files, c.file, c.old, c.new)
		if c.name == "a box without a size where a counted place will do" {
			for range 2 {
				edit(t, files, button, "at: 2-6 °C", "at: 2-12 °C")
			}
			edit(t, files, "kitchen.yaml", ", size: 40 x 30 x 12 cm", "")
		}
		if _, err := LoadFS(files, Options{From: saltgrassFrom}); err != nil {
			t.Errorf("%s: got faults:\n%v", c.name, err)
		}
	}
}

func TestDefaults(t *testing.T) {
	files := small()
	edit(t, files, "kitchen.yaml", "", `
kitchen: {timezone: Europe/Dublin}
people: [{name: Nell}]
pots: [{name: tall pot, holds: 10 L}]
stations: [{name: hook}]
moulds: [{name: ring}]
boxes: [{name: tray}]
cold: [{name: cave, temperature: 11 °C, boxes: 12}]
milk: [{name: cow, days: daily, ready: "07:30", keeps: 2 d}]
`)
	edit(t, files, "recipes/a.yaml", "", minimalRecipe)
	edit(t, files, "targets.yaml", "", "targets: [{name: stall, by: 2027-03-06 07:00, want: [{cheese: Second, pieces: 1}]}]")
	p := loaded(t, files, "2027-03-01")
	k := p.Kitchen
	same(t, "step and room", []any{k.Step, k.Room}, []any{resources.Minutes(5), resources.MilliCelsius(21_000)})
	same(t, "person", k.People[0], resources.Person{Name: "Nell", MostPerDay: resources.NoLimit})
	same(t, "round", k.Round, (*resources.Round)(nil))
	same(t, "pot", k.Pots[0], resources.Pot{Name: "tall pot", Holds: 10_000, Count: 1})
	same(t, "station", k.Stations[0], resources.Station{Name: "hook", Count: 1})
	same(t, "mould", k.Moulds[0], resources.Mould{Name: "ring", Count: 1})
	same(t, "box", k.Boxes[0], resources.Box{Name: "tray", Count: 1})
	same(t, "milk", k.Milk[0], resources.Milk{Name: "cow", Days: resources.Daily, Ready: 450, Most: resources.NoLimit, Keeps: 2880})
	same(t, "recipe", p.Recipes[0], schedule.Recipe{Name: "Second", Code: "S", Yield: schedule.Yield{Pieces: 1, From: 1000},
		Batch: schedule.BatchSize{Least: 1000, Most: 2000, Step: 1000, Serves: 1}, Keeps: 1440,
		Stages: []schedule.Stage{{Name: "make", Hands: &schedule.Hands{Fixed: 5000}, Uses: []schedule.Use{{}}}}})
	same(t, "want", p.Targets[0].Wants, []schedule.Want{{Cheese: "Second", Pieces: 1, Price: 100}})
}

func TestInitials(t *testing.T) {
	for name, want := range map[string]string{
		"Ash button": "AB", "tomme": "T", "Ash-coated log": "AL", "éclat d'or": "ÉD", "(Old) 3 Oaks": "O3O", "!?": "",
	} {
		if got := initials(name); got != want {
			t.Errorf("initials(%q): got %q, want %q", name, got, want)
		}
	}
}

// A stage without work between two that have begun may be left out when it must
// follow at once; it began when the work before it was done, or at the next
// written start if that was earlier.
func TestABegunStageThatIsLeftOut(t *testing.T) {
	for _, c := range []struct{ name, chill, want string }{
		// mould: 20 min + 13 pieces x 2 min = 46 min, 50 on the grid of 5.
		{"follows the work before it", "ripen: 2027-03-16 10:00", "2027-03-15 09:50"},
		{"the next began sooner", "ripen: 2027-03-15 09:30", "2027-03-15 09:30"},
	} {
		files := saltgrass(t)
		edit(t, files, "begun.yaml", "drain: 2027-03-13 08:00", "drain: 2027-03-13 08:00, press: 2027-03-14 08:00, mould: 2027-03-15 09:00, "+c.chill)
		p := loaded(t, files, saltgrassFrom)
		got := p.Begun[0].Stages[5]
		same(t, c.name, got, schedule.BegunStage{Stage: "chill", Start: at(t, c.want)})
	}
}

// Boxes stand on boxes of their kind unless the kitchen says otherwise; `no` is a word here.
func TestHowBoxesStack(t *testing.T) {
	for text, want := range map[string]resources.Stacking{"": resources.StackKind, ", stack: kind": resources.StackKind,
		", stack: batch": resources.StackBatch, ", stack: no": resources.StackNo, `, stack: "no"`: resources.StackNo} {
		files := saltgrass(t)
		edit(t, files, "kitchen.yaml", "clean: 15 min}]", "clean: 15 min"+text+"}]")
		same(t, text, loaded(t, files, saltgrassFrom).Kitchen.Boxes[0].Stack, want)
	}
}

// Stock needs as many boxes as its pieces fill, of the kind that the last boxed
// stage uses, and its place can be left out where there is no choice.
func TestStockThatSaysLittle(t *testing.T) {
	files := saltgrass(t)
	edit(t, files, "begun.yaml", "pieces: 12, packed: 2027-03-18 19:00, at: kitchen fridge, boxes: 2", "pieces: 17, packed: 2027-03-18 19:00")
	same(t, "boxes of eight", loaded(t, files, saltgrassFrom).Stock[0], schedule.Stock{Cheese: "Ash button", Pieces: 17,
		Packed: at(t, "2027-03-18 19:00"), At: "kitchen fridge", Boxes: 3})
	edit(t, files, "kitchen.yaml", "clean: 15 min}]", "clean: 15 min}, {name: carton, size: 20 x 20 x 10 cm}]")
	edit(t, files, button, "per_piece: 1 min}, at: 2-6 °C, uses: [box]}\n", "per_piece: 1 min}, at: 2-6 °C, uses: [box], box: {name: carton, takes: 5}}\n")
	same(t, "cartons of five", loaded(t, files, saltgrassFrom).Stock[0].Boxes, 4)
	edit(t, files, button, "at: 2-6 °C, uses: [box], box: {name: carton, takes: 5}", "uses: [hook]")
	same(t, "in the room", loaded(t, files, saltgrassFrom).Stock[0].At, "room")

	plain := small()
	edit(t, plain, "kitchen.yaml", "", "kitchen: {timezone: Europe/Dublin}\npots: [{name: tall pot, holds: 10 L}]")
	edit(t, plain, "recipes/a.yaml", "", minimalRecipe)
	edit(t, plain, "begun.yaml", "", "stock: [{cheese: Second, pieces: 3, packed: 2027-02-28 12:00}]")
	same(t, "without boxes", loaded(t, plain, "2027-03-01").Stock[0].Boxes, 0)
}

// TestWorkOfOneLength: a length alone is work that does not go by the size of the batch.
func TestWorkOfOneLength(t *testing.T) {
	read := func(hands string) *schedule.Hands {
		t.Helper()
		files := saltgrass(t)
		edit(t, files, button, "hands: {fixed: 40 min, per_litre: 2 min}", "hands: "+hands)
		problem, err := LoadFS(files, Options{From: saltgrassFrom})
		if err != nil {
			t.Fatalf("hands: %s: got faults:\n%v", hands, err)
		}
		return problem.Recipe("Ash button").Stages[0].Hands
	}
	if got, want := read("40 min"), read("{fixed: 40 min}"); got == nil || *got != *want {
		t.Errorf("40 min: got %v, want %v", got, want)
	}
	if got := read("0 min"); got != nil {
		t.Errorf("0 min: got %v, want no work", got)
	}
}
