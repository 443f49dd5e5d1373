package needs_test

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

var (
	pot, mould, box = schedule.Use{Kind: schedule.UsePot}, schedule.Use{Kind: schedule.UseMould}, schedule.Use{Kind: schedule.UseBox}
	hook            = schedule.Use{Kind: schedule.UseStation, Name: "hook"}
)

// knobs is a cheese of 2 pieces a litre: made in a pot, drained in moulds, ripened in
// boxes that are changed once, and packed into cartons.
//
//	make  drain  ripen  rest  turn  pack
//	pot---pot
//	      mould
//	             tray---tray
//	                          tray
//	                                carton
//	             cave---------
//	                          cave  cellar
func knobs() *schedule.Recipe {
	hands := &schedule.Hands{Fixed: 10_000, PerLitre: 1_000, PerPiece: 500}
	cave := schedule.At{Kind: schedule.AtPlace, Place: "cave"}
	carton := &schedule.Boxing{Name: "carton", Takes: 6}
	return &schedule.Recipe{
		Name: "Knob", Mould: "ring mould", Box: &schedule.Boxing{Name: "tray", Takes: 4}, Spare: 1, Keeps: 6 * resources.Day,
		Yield: schedule.Yield{Pieces: 2, From: 1000},
		Batch: schedule.BatchSize{Least: 500, Most: 2000, Step: 250},
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands, Hold: &schedule.Hold{Least: 62, Best: 90, Most: 119, HasBest: true}, Uses: []schedule.Use{pot}},
			{Name: "drain", Hands: hands, Uses: []schedule.Use{mould, pot}},
			{Name: "ripen", Hands: hands, Hold: &schedule.Hold{Least: 60, Most: 120}, At: cave, Uses: []schedule.Use{box}},
			{Name: "rest", Hold: &schedule.Hold{Least: 60, Most: 120}, At: schedule.At{Kind: schedule.AtRange, Low: 10_000, High: 13_000}, Uses: []schedule.Use{box}},
			{Name: "turn", Hands: hands, Hold: &schedule.Hold{Most: 60}, At: cave, Uses: []schedule.Use{box}, Fresh: []schedule.UseKind{schedule.UseBox}},
			{Name: "pack", Hands: hands, At: schedule.At{Kind: schedule.AtRange, Low: 3_000, High: 13_000}, Uses: []schedule.Use{box}, Box: carton},
		},
	}
}

func kitchen() *resources.Kitchen {
	return &resources.Kitchen{
		Step:     5,
		Pots:     []resources.Pot{{Name: "small pot", Holds: 1000, Count: 1}, {Name: "tall pot", Holds: 2000, Count: 2, Clean: 30}},
		Stations: []resources.Station{{Name: "hook", Count: 3, TakesVolume: 800}},
		Moulds:   []resources.Mould{{Name: "ring mould", Count: 8, Clean: 60}},
		Boxes:    []resources.Box{{Name: "tray", Count: 3}, {Name: "carton", Count: 3}},
		Cold:     []resources.ColdPlace{{Name: "cellar", Temperature: 11_000, Boxes: 4}, {Name: "cave", Temperature: 12_000, Boxes: 4}},
	}
}

// A batch is made in sizes that sell something, and of those alike in pieces the smallest.
func TestSizes(t *testing.T) {
	r := knobs()
	if got := len(needs.AllSizes(r)); got != 7 {
		t.Errorf("got %d sizes in all, want 7", got)
	}
	want := []needs.Size{{1000, 2}, {1500, 3}, {2000, 4}}
	if got := needs.Sizes(r); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	r.Batch.Step = 0
	if got := needs.AllSizes(r); len(got) != 1 {
		t.Errorf("without a step: got %v, want the least alone", got)
	}
}

// 10 min, 1 min a litre and half a minute a piece; up to the grid, one step either side.
func TestWork(t *testing.T) {
	s := &knobs().Stages[0]
	for z, want := range map[needs.Size]resources.Minutes{{4000, 2}: 15, {4001, 2}: 20, {0, 0}: 10, {8000, 4}: 20} {
		if got := needs.Work(s, z, 5); got != want {
			t.Errorf("%v: got %d min, want %d", z, got, want)
		}
	}
	if got := needs.Work(&schedule.Stage{}, needs.Size{Litres: 9000, Pieces: 9}, 5); got != 0 {
		t.Errorf("without hands: got %d min", got)
	}
}

// Limits are rounded inward, and the store ends when the cheese has kept its time.
func TestHoldOf(t *testing.T) {
	r := knobs()
	if got, want := needs.HoldOf(r, 0, 5), (needs.Hold{Least: 65, Best: 90, Most: 115, HasBest: true}); got != want {
		t.Errorf("the make's: got %+v, want %+v", got, want)
	}
	if got := needs.HoldOf(r, 1, 5); got != (needs.Hold{}) {
		t.Errorf("none: got %+v", got)
	}
	if got, want := needs.HoldOf(r, 5, 5), (needs.Hold{Most: 6 * resources.Day}); got != want {
		t.Errorf("the store: got %+v, want %+v", got, want)
	}
	r.Stages[5].Hold = &schedule.Hold{Least: 61, Best: 70, Most: 9 * resources.Day, HasBest: true}
	if got, want := needs.HoldOf(r, 5, 5), (needs.Hold{Least: 65, Most: 6 * resources.Day}); got != want {
		t.Errorf("a store with a hold: got %+v, want %+v", got, want)
	}
	for held, want := range map[resources.Minutes]needs.Hold{2109: {Least: 2109, Most: 2109}, 2110: {Least: 2110, Most: 2110}} { // no give, as a look found it
		r.Stages[1].Hold = &schedule.Hold{Least: held, Most: held, AsIs: true}
		if got := needs.HoldOf(r, 1, 5); got != want {
			t.Errorf("held %d min: got %+v, want %+v", held, got, want)
		}
	}
}

// Per cent of the way from best to the limit on that side, halves up.
func TestBother(t *testing.T) {
	h := needs.Hold{Least: 60, Best: 100, Most: 180, HasBest: true}
	for length, want := range map[resources.Minutes]int32{100: 0, 60: 100, 80: 50, 180: 100, 101: 1, 105: 6, 104: 5, 260: 200} {
		if got := h.Bother(length); got != want {
			t.Errorf("%d min: got %d, want %d", length, got, want)
		}
	}
	if got := (needs.Hold{Least: 60, Best: 60, Most: 90, HasBest: true}).Bother(55); got != 100 {
		t.Errorf("a side without width: got %d, want 100", got)
	}
	if got := (needs.Hold{Most: 90}).Bother(10); got != 0 {
		t.Errorf("without a best: got %d, want 0", got)
	}
}

// Runs end where a stage does not use the thing, wants it fresh, or uses another kind.
func TestRuns(t *testing.T) {
	r, k := knobs(), kitchen()
	type row struct {
		first, last int
		kit         []string
		count       int
	}
	var got []row
	z := needs.Size{Litres: 2000, Pieces: 4}
	for _, x := range needs.Runs(r) {
		got = append(got, row{x.First, x.Last, x.Kit(k, r, z.Litres), x.Count(k, z)})
	}
	want := []row{
		{0, 1, []string{"tall pot"}, 1}, {1, 1, []string{"ring mould"}, 4},
		{2, 3, []string{"tray"}, 1}, {4, 4, []string{"tray"}, 1}, {5, 5, []string{"carton"}, 1},
	}
	if !slices.EqualFunc(got, want, func(a, b row) bool {
		return a.first == b.first && a.last == b.last && slices.Equal(a.kit, b.kit) && a.count == b.count
	}) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
	if got := (needs.Run{Use: hook}).Count(k, needs.Size{Litres: 1601, Pieces: 4}); got != 3 {
		t.Errorf("1.601 L on hooks of 0.8 L: got %d, want 3", got)
	}
	if got := needs.PackedIn(r).Name; got != "carton" {
		t.Errorf("packed in: got %s, want carton", got)
	}
}

// Kit is kept until the work of the stage after it is done, and the last until the batch
// has left; then it is cleaned.
func TestHeld(t *testing.T) {
	var dated []schedule.Task
	for i, work := range []resources.Minutes{30, 20, 15, 0, 10, 10} {
		dated = append(dated, schedule.Task{Start: resources.Moment(100 * i), Work: work})
	}
	runs, tall := needs.Runs(knobs()), needs.Things(kitchen())[1]
	want := schedule.Occupied{Thing: "tall pot", Count: 1, From: 0, Until: 215, CleanUntil: 245}
	if got := tall.Occupied(1, runs[0].Held(dated, 999)); got != want {
		t.Errorf("the pot: got %+v, want %+v", got, want)
	}
	if got, want := runs[4].Held(dated, 999), (resources.Span{From: 500, Until: 999}); got != want {
		t.Errorf("the carton: got %v, want %v", got, want)
	}
}

// A stage that follows by itself goes on with the stay, where both of them may be.
func TestStays(t *testing.T) {
	got := needs.Stays(knobs(), kitchen())
	want := []needs.Stay{{First: 2, Last: 3, Places: []int{1}}, {First: 4, Last: 4, Places: []int{1}}, {First: 5, Last: 5, Places: []int{0, 1}}}
	if !slices.EqualFunc(got, want, func(a, b needs.Stay) bool {
		return a.First == b.First && a.Last == b.Last && slices.Equal(a.Places, b.Places)
	}) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	if got[1].Box.Name != "tray" || got[2].Box.Name != "carton" {
		t.Errorf("got boxes %s and %s, want tray and carton", got[1].Box.Name, got[2].Box.Name)
	}
}

// A collection is open while it can be ordered; after that, up to what was ordered or
// stands, or to what the plan before drew where nobody said; and to what came whenever.
func TestDrawable(t *testing.T) {
	day := func(d int) resources.Date { return resources.Date{Year: 2027, Month: 3, Day: d} }
	ready := func(d int) resources.Moment { return resources.Moment(1000 + 100*d) }
	drew := func(d int, litres resources.Millilitres) schedule.Batch {
		return schedule.Batch{Litres: litres, Milk: &schedule.Draw{Supply: "farm", Collect: ready(d)}}
	}
	p := &schedule.Problem{From: 1000,
		Ordered: []schedule.Ordered{{Milk: "farm", Day: day(2), Litres: 4000}, {Milk: "farm", Day: day(2), Litres: 3000}, {Milk: "hill", Day: day(3), Litres: 9000},
			{Milk: "farm", Day: day(4), Litres: 0}, {Milk: "farm", Day: day(5), Litres: 2000}},
		Came:    []schedule.Came{{Milk: "farm", Day: day(6), Litres: 9000}, {Milk: "farm", Day: day(7), Litres: 0}},
		Earlier: &schedule.Plan{Batches: []schedule.Batch{drew(1, 2000), drew(1, 3000), drew(4, 5000), drew(5, 5000), drew(6, 5000), drew(8, 7000), {Litres: 4000}}},
	}
	for _, c := range []struct {
		name           string
		day            int
		late           bool // it is too late to order
		standing, most resources.Millilitres
		open           bool
	}{
		{"to be ordered at the last moment", 3, false, 0, 6000, true},
		{"to be ordered, though some stands", 3, false, 1000, 6000, true},
		{"too late to order", 3, true, 0, 0, false},
		{"ordered, and more than there is", 2, true, 0, 6000, true},
		{"the plan before drew it", 1, true, 0, 5000, true},
		{"the plan before drew more than there is now", 8, true, 0, 6000, true},
		{"the plan before drew it, but none was ordered", 4, true, 0, 0, false},
		{"the plan before drew more than was ordered", 5, true, 0, 2000, true},
		{"it stands", 3, true, 1000, 1000, true},
		{"none was ordered, but it stands", 4, true, 1000, 1000, true},
		{"less was ordered than stands", 5, true, 4000, 4000, true},
		{"less stands than was ordered", 5, true, 1000, 2000, true},
		{"less stands than the plan before drew", 1, true, 1000, 5000, true},
		{"more came than there is", 6, true, 1000, 9000, true},
		{"none came", 7, false, 1000, 0, false},
	} {
		m := &resources.Milk{Name: "farm", Most: 6000, Standing: c.standing}
		at := resources.Collection{Day: day(c.day), Ready: ready(c.day), OrderBy: 1000}
		if c.late {
			at.OrderBy = 999
		}
		if most, open := needs.Drawable(p, m, at); most != c.most || open != c.open {
			t.Errorf("%s: got %d, %v, want %d, %v", c.name, most, open, c.most, c.open)
		}
	}
}

// A hold is late by whole tenths of its most; a short most counts as two hours.
func TestLate(t *testing.T) {
	for _, c := range []struct {
		most, length resources.Minutes
		want         int64
	}{
		{1680, 1680, 0}, {1680, 1847, 0}, {1680, 1848, 1}, {1680, 3360, 10},
		{0, 11, 0}, {0, 12, 1}, {60, 72, 1}, {120, 132, 1}, {130, 142, 0}, {130, 143, 1},
		{120, 120 + 999*12, 999}, {120, 120 + 1000*12, 999},
	} {
		if got := (needs.Hold{Most: c.most}).Late(c.length); got != c.want {
			t.Errorf("a most of %d, %d long: got %d, want %d", c.most, c.length, got, c.want)
		}
	}
}

// A hold that goes by the room has a spell for each stretch of days with other limits, from local midnight
// on: Dublin's on 29 March 2027 is 23:00 of the day before in UTC, for the clock has changed.
func TestSpells(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	day := func(m time.Month, d int) resources.Date { return resources.Date{Year: 2027, Month: m, Day: d} }
	k := &resources.Kitchen{Step: 5, Zone: zone, Room: 16_000, Rooms: []resources.RoomFrom{
		{From: day(time.January, 1), Is: 16_000}, {From: day(time.February, 1), Is: 16_000}, {From: day(time.March, 29), Is: 21_000}, {From: day(time.June, 1), Is: 31_000}}}
	r := &schedule.Recipe{Stages: []schedule.Stage{{Hold: &schedule.Hold{Least: 17 * 60, Best: 18 * 60, Most: 20*60 + 4, HasBest: true,
		GoesBy: schedule.GoesBy{Temperature: 21_000, Times: 1000}}}, {}}}
	change := resources.Moment(time.Date(2027, time.March, 28, 23, 0, 0, 0, time.UTC).Unix() / 60)
	cool, warm := needs.Hold{Least: 2135, Best: 2260, Most: 2515, HasBest: true}, needs.Hold{Least: 1020, Best: 1080, Most: 1200, HasBest: true}
	got := needs.Spells(r, 0, k) // 31 °C is outside of the rule: as it is written, which is as at 21 °C
	if len(got) != 2 || got[0].Hold != cool || got[1] != (needs.Spell{From: change, Hold: warm}) {
		t.Errorf("got %+v, want %+v until %d and then %+v", got, cool, change, warm)
	}
	for at, want := range map[resources.Moment]needs.Hold{change - 1: cool, change: warm, 0: cool} {
		if got := needs.HoldAt(r, 0, k, at); got != want {
			t.Errorf("at %d: got %+v, want %+v", at, got, want)
		}
	}
	if got := needs.Ever(got); got != (needs.Hold{Least: 1020, Most: 2515}) {
		t.Errorf("ever: got %+v", got)
	}
}
