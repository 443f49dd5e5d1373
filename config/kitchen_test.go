package config

import (
	"io/fs"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// saltgrassFrom is a planning start at which everything in testdata/saltgrass has
// happened that its begun.yaml says has.
const saltgrassFrom = "2027-03-18 20:00"

// saltgrass gives the example folder of the contract for a test to change.
func saltgrass(t testing.TB) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	disk := os.DirFS("testdata/saltgrass")
	err := fs.WalkDir(disk, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(disk, name)
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// edit replaces the first old by new in a file; an empty old puts new in place of
// the whole file.
func edit(t testing.TB, files fstest.MapFS, name, old, new string) {
	t.Helper()
	if old == "" {
		files[name] = &fstest.MapFile{Data: []byte(new)}
		return
	}
	text := string(files[name].Data)
	if !strings.Contains(text, old) {
		t.Fatalf("%s does not hold %q", name, old)
	}
	files[name] = &fstest.MapFile{Data: []byte(strings.Replace(text, old, new, 1))}
}

// loaded reads a folder that has no fault.
func loaded(t testing.TB, files fs.FS, from string) *schedule.Problem {
	t.Helper()
	p, err := LoadFS(files, Options{From: from})
	if err != nil {
		t.Fatalf("got faults:\n%v", err)
	}
	return p
}

// at gives a moment of the Dublin clock.
func at(t testing.TB, text string) resources.Moment {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	m, err := resources.ParseMoment(text, zone)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// same compares one part of a problem.
func same(t *testing.T, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\n got %+v\nwant %+v", what, got, want)
	}
}

// TestAlarm reads how long before work its alarm goes off, and that it goes off at its moment.
func TestAlarm(t *testing.T) {
	for text, want := range map[string]resources.Minutes{"": 15, "\n  alarm: 45 min": 45, "\n  alarm: 2 h": 120, "\n  alarm: 0 min": resources.AlarmAtOnce} {
		files := saltgrass(t)
		edit(t, files, "kitchen.yaml", "name: Saltgrass Lane", "name: Saltgrass Lane"+text)
		same(t, "alarm"+text, loaded(t, files, saltgrassFrom).Kitchen.Alarm, want)
	}
}

func TestKitchenOfTheContract(t *testing.T) {
	k := loaded(t, saltgrass(t), saltgrassFrom).Kitchen
	same(t, "frame", []any{k.Name, k.TimeZone, k.Zone.String(), k.Step, k.Room},
		[]any{"Saltgrass Lane", "Europe/Dublin", "Europe/Dublin", resources.Minutes(5), resources.MilliCelsius(20_000)})
	weekdays, _ := resources.ParseWeekdays("mon-fri")
	weekend, _ := resources.ParseWeekdays("sat,sun")
	same(t, "people", k.People, []resources.Person{{
		Name:       "Nell",
		Hours:      []resources.Hours{{Days: weekdays, From: 360, Until: 480}, {Days: weekdays, From: 1050, Until: 1290}, {Days: weekend, From: 420, Until: 1200}},
		RatherNot:  []resources.Hours{{Days: weekdays, From: 360, Until: 420}},
		MostPerDay: 360,
		Away: []resources.Span{{From: at(t, "2027-03-12 00:00"), Until: at(t, "2027-03-15 00:00")},
			{From: at(t, "2027-03-20 14:00"), Until: at(t, "2027-03-20 18:00")}},
	}})
	same(t, "round", k.Round, &resources.Round{At: 420, For: 20})
	same(t, "pots", k.Pots, []resources.Pot{{Name: "tall pot", Holds: 10_000, Count: 1, Clean: 20}})
	same(t, "stations", k.Stations, []resources.Station{{Name: "hook", Count: 4, TakesVolume: 6000}, {Name: "board press", Count: 2}})
	same(t, "moulds", k.Moulds, []resources.Mould{{Name: "small ring", Count: 16, Clean: 30}})
	same(t, "boxes", k.Boxes, []resources.Box{{Name: "ripening box", Count: 8, Clean: 15,
		Size: resources.Size{Width: 400_000, Depth: 300_000, Height: 120_000}}})
	shelf := resources.Size{Width: 520_000, Depth: 360_000, Height: 260_000}
	same(t, "cold", k.Cold, []resources.ColdPlace{
		{Name: "kitchen fridge", Temperature: 4000, Shelves: []resources.Shelf{{Name: "top", Size: shelf},
			// The last day ends after the clock change of 28 March: 95 hours, not 96.
			{Name: "middle", Size: shelf, Taken: []resources.Span{{From: at(t, "2027-03-26 00:00"), Until: at(t, "2027-03-26 00:00").Add(95 * 60)}}}}},
		{Name: "cheese cave", Temperature: 11_000, Boxes: 12},
	})
	days, _ := resources.ParseWeekdays("tue,fri")
	same(t, "milk", k.Milk, []resources.Milk{{Name: "Hill Farm cow", Days: days, Ready: 450, Most: 40_000, Keeps: 2880, Order: 2880,
		Closed: []resources.Span{{From: at(t, "2027-03-26 00:00"), Until: at(t, "2027-03-27 00:00")}}}})
}

// Milk may come without an order, up to all that a collection has; and that none was
// ordered can be said.
func TestStandingMilk(t *testing.T) {
	files := saltgrass(t)
	edit(t, files, "kitchen.yaml", "most: 40 L,", "most: 40 L, standing: 40 L,")
	edit(t, files, "begun.yaml", "litres: 24}", "litres: 0}")
	p := loaded(t, files, saltgrassFrom)
	same(t, "standing", p.Kitchen.Milk[0].Standing, resources.Millilitres(40_000))
	same(t, "ordered", p.Ordered, []schedule.Ordered{{Milk: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 19}}})
}

// Businesses are listed by name and address, and stock may have a lot.
func TestBusinessesAndLotsOfStock(t *testing.T) {
	files := saltgrass(t)
	edit(t, files, "kitchen.yaml", "\npots:", "\nbusinesses:\n  - {name: Corner shop, address: \"2 Quay Row, Saltgrass\"}\n  - {name: Tea room}\npots:")
	edit(t, files, "begun.yaml", "pieces: 12,", "pieces: 12, lot: AB-270311-4,")
	p := loaded(t, files, saltgrassFrom)
	same(t, "businesses", p.Kitchen.Businesses, []resources.Business{{Name: "Corner shop", Address: "2 Quay Row, Saltgrass"}, {Name: "Tea room"}})
	same(t, "lot", p.Stock[0].Lot, "AB-270311-4")
}

func TestRecipeOfTheContract(t *testing.T) {
	r := loaded(t, saltgrass(t), saltgrassFrom).Recipes[0]
	pot, mould, box := schedule.Use{Kind: schedule.UsePot}, schedule.Use{Kind: schedule.UseMould}, schedule.Use{Kind: schedule.UseBox}
	cold := schedule.At{Kind: schedule.AtRange, Low: 2000, High: 6000}
	hold := func(least, best, most resources.Minutes) *schedule.Hold {
		return &schedule.Hold{Least: least, Best: best, Most: most, HasBest: true}
	}
	stages := r.Stages
	r.Stages = nil
	same(t, "recipe", r, schedule.Recipe{Name: "Ash button", Code: "AB", Milk: "Hill Farm cow",
		Yield: schedule.Yield{Pieces: 9, From: 5000}, Piece: 75_000, Spare: 1,
		Batch: schedule.BatchSize{Least: 5000, Most: 15_000, Step: 1000, Serves: 1},
		Mould: "small ring", Box: &schedule.Boxing{Name: "ripening box", Takes: 8}, Keeps: 6 * 1440})
	same(t, "stages", stages, []schedule.Stage{
		{Name: "make", Hands: &schedule.Hands{Fixed: 40_000, PerLitre: 2000}, Uses: []schedule.Use{pot}},
		{Name: "set", Hold: hold(1080, 1320, 1680), Uses: []schedule.Use{pot}},
		{Name: "drain", Hands: &schedule.Hands{Fixed: 20_000, PerLitre: 2000}, Hold: hold(540, 660, 900), Uses: []schedule.Use{{Kind: schedule.UseStation, Name: "hook"}}},
		{Name: "press", Hands: &schedule.Hands{Fixed: 15_000}, Hold: hold(420, 540, 720), Uses: []schedule.Use{{Kind: schedule.UseStation, Name: "board press"}}},
		{Name: "mould", Hands: &schedule.Hands{Fixed: 20_000, PerPiece: 2000}, Uses: []schedule.Use{mould, box}},
		{Name: "chill", Hold: hold(1080, 1560, 2160), At: cold, Uses: []schedule.Use{mould, box}},
		{Name: "ripen", Hands: &schedule.Hands{Fixed: 10_000, PerPiece: 1000}, Hold: hold(11_520, 15_840, 21_600), At: cold,
			Uses: []schedule.Use{box}, Fresh: []schedule.UseKind{schedule.UseBox}, Care: &schedule.Care{Do: "turn", Every: 2, Hands: 5}},
		{Name: "pack", Hands: &schedule.Hands{Fixed: 10_000, PerPiece: 1000}, At: cold, Uses: []schedule.Use{box}},
	})
}

func TestTargetsOfTheContract(t *testing.T) {
	p := loaded(t, saltgrass(t), saltgrassFrom)
	var got []string
	for _, target := range p.Targets {
		got = append(got, target.Name+" by "+resources.FormatMoment(target.By, p.Kitchen.Zone))
	}
	// The stall's local time stays 07:00 across the clock change of 28 March 2027.
	same(t, "targets", got, []string{
		"Easter market by 2027-03-27 07:00",
		"Saturday stall 2027-03-20 by 2027-03-20 07:00", "Saturday stall 2027-03-27 by 2027-03-27 07:00",
		"Saturday stall 2027-04-03 by 2027-04-03 07:00", "Saturday stall 2027-04-10 by 2027-04-10 07:00",
		"Saturday stall 2027-04-17 by 2027-04-17 07:00", "Saturday stall 2027-04-24 by 2027-04-24 07:00",
		"Spring holiday orders by 2027-03-26 15:00",
	})
	same(t, "wants", p.Targets[0].Wants, []schedule.Want{{Cheese: "Ash button", Pieces: 24, Price: 650},
		{Cheese: "Ash button", Pieces: 6, Price: 650, Promised: true}})
	same(t, "want of the stall", p.Targets[1].Wants, []schedule.Want{{Cheese: "Ash button", Pieces: 8, Price: 100}})
}

func TestBegunOfTheContract(t *testing.T) {
	p := loaded(t, saltgrass(t), saltgrassFrom)
	same(t, "begun", p.Begun, []schedule.Begun{{ID: "AB-270312-1", Cheese: "Ash button", Litres: 8000, Pieces: 13,
		Pot: "tall pot", At: "kitchen fridge", Stages: []schedule.BegunStage{
			{Stage: "make", Start: at(t, "2027-03-12 07:30")}, {Stage: "set", Start: at(t, "2027-03-12 08:30")},
			{Stage: "drain", Start: at(t, "2027-03-13 08:00")}}}})
	same(t, "stock", p.Stock, []schedule.Stock{{Cheese: "Ash button", Pieces: 12, Packed: at(t, "2027-03-18 19:00"), At: "kitchen fridge", Boxes: 2}})
	same(t, "ordered", p.Ordered, []schedule.Ordered{{Milk: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 19}, Litres: 24_000}})
	same(t, "lost", p.Lost, []string{"AB-270305-2"})
	same(t, "from", p.From, at(t, saltgrassFrom))
}
