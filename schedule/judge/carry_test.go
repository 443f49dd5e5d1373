package judge

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// carriedOut gives the plan made again on Thursday at noon, with the fridge closed since eleven until
// the next morning: Nell, who is listed first and free, carries the first batch, which is in its
// chill, to the larder at once.
func carriedOut(t *testing.T) *mutant {
	m := followed(t)
	m.closeFridge("03-04 11:00", "03-05 09:30")
	m.moveTo("larder")
	m.plan.Carries = []schedule.Carry{{Batch: "RH-270302-1", Stage: "chill", Stock: -1, Start: m.p.From, Minutes: 5, Who: "Nell",
		From: "fridge", To: "larder", Since: m.p.From, Stood: stack("top", 0, 0, 40, 30, 2)}}
	return m
}

// closeFridge closes the fridge, and gives the kitchen a larder as cold, for two boxes.
func (m *mutant) closeFridge(from, until string) {
	k := &m.p.Kitchen
	k.Cold = append(k.Cold, resources.ColdPlace{Name: "larder", Temperature: 5_000, Boxes: 2})
	k.Cold[0].Taken = []resources.Span{{From: m.d(from), Until: m.d(until)}}
}

// moveTo has the running stay of the first batch in a place that is counted in boxes.
func (m *mutant) moveTo(place string) {
	for _, stage := range []string{"chill", "rest"} {
		t := m.task(0, stage)
		t.At, t.BoxesAt = place, []schedule.Standing{{Place: place}, {Place: place}}
		t.Sequence, t.Revised = 1, m.p.From
	}
}

// stay takes it back: the batch is left where it is, and nothing takes it.
func (m *mutant) stay() {
	for _, stage := range []string{"chill", "rest"} {
		t := m.task(0, stage)
		t.At, t.BoxesAt, t.Sequence, t.Revised = "fridge", stack("top", 0, 0, 40, 30, 2), 0, m.p.Earlier.From
	}
	m.plan.Carries = nil
	m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "no-place", Text: "RH-270302-1 has no place."})
}

func TestCarries(t *testing.T) {
	tellBegun(t, carriedOut, []begunCase{
		{"as it should be", func(m *mutant) {}, ""},
		{"left out", func(m *mutant) { m.plan.Carries = nil }, "carry-missing"},
		{"late", func(m *mutant) { m.plan.Carries[0].Start += 5 }, "carry"},
		{"shorter", func(m *mutant) { m.plan.Carries[0].Minutes = 4 }, "carry"},
		{"by the second listed", func(m *mutant) { m.plan.Carries[0].Who = "Tom" }, "carry"},
		{"by somebody who is away", func(m *mutant) {
			m.p.Kitchen.People[0].Away = append(m.p.Kitchen.People[0].Away, resources.Span{From: m.d("03-04 12:00"), Until: m.d("03-04 13:00")})
		}, "carry"},
		{"by the second listed, when the first is away", func(m *mutant) {
			m.p.Kitchen.People[0].Away = append(m.p.Kitchen.People[0].Away, resources.Span{From: m.d("03-04 12:00"), Until: m.d("03-04 13:00")})
			m.plan.Carries[0].Who = "Tom"
		}, ""},
		{"in a round", func(m *mutant) {
			m.p.Kitchen.Round.At, m.plan.Rounds = hm(12, 0), nil
		}, "carry round-missing"},
		{"before a look", func(m *mutant) {
			m.p.Looks = []schedule.Look{{Batch: "RH-270302-1", Stage: "ripen", Start: m.p.From, Minutes: 5, Who: "Nell", Asked: m.p.From - 60}}
			m.plan.Looks = m.p.Looks
		}, "carry"},
		{"with work in it", func(m *mutant) {
			m.plan.Carries[0].Start, m.plan.Carries[0].Who = m.d("03-05 12:00"), "Tom"
		}, "carry carry-taken"},
		{"to a place where it may not be", func(m *mutant) { m.moveTo("cave"); m.plan.Carries[0].To = "cave" }, "carry-place place"},
		{"into a full place", func(m *mutant) { m.p.Kitchen.Cold[3].Boxes = 1 }, "carry-room"},
		{"to another than the first that takes it", func(m *mutant) {
			c := m.p.Kitchen.Cold
			m.p.Kitchen.Cold = append(c[:1:1], append([]resources.ColdPlace{{Name: "pantry", Temperature: 5_000, Boxes: 2}}, c[1:]...)...)
		}, "carry-place"},
		{"past one that is full", func(m *mutant) {
			c := m.p.Kitchen.Cold
			m.p.Kitchen.Cold = append(c[:1:1], append([]resources.ColdPlace{{Name: "pantry", Temperature: 5_000, Boxes: 1}}, c[1:]...)...)
		}, ""},
		{"past one that closes sooner than it may be gone", func(m *mutant) {
			c := m.p.Kitchen.Cold
			m.p.Kitchen.Cold = append(c[:1:1], append([]resources.ColdPlace{{Name: "pantry", Temperature: 5_000, Boxes: 2,
				Taken: []resources.Span{{From: m.d("03-05 06:00"), Until: m.d("03-05 07:00")}}}}, c[1:]...)...)
		}, ""},
		{"to one that is closed too", func(m *mutant) {
			m.p.Kitchen.Cold[3].Taken = []resources.Span{{From: m.d("03-04 11:30"), Until: m.d("03-04 12:30")}}
		}, "carry-place"},
		{"from other spots", func(m *mutant) { m.plan.Carries[0].Stood = stack("middle", 0, 0, 40, 30, 2) }, "carry"},
		{"from a place that is open", func(m *mutant) { m.p.Kitchen.Cold[0].Taken = nil }, "carry-needless place"},
		{"from a place that is open before anybody is there", func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken[0].Until = m.d("03-04 18:30")
			for i := range m.p.Kitchen.People {
				p := &m.p.Kitchen.People[i]
				p.Away = append(p.Away, resources.Span{From: m.d("03-04 12:00"), Until: m.d("03-04 20:00")})
			}
		}, "carry"},
		{"twice", func(m *mutant) { m.plan.Carries = append(m.plan.Carries, m.plan.Carries[0]) }, "carry carry-order"},
		{"said to be overdue", func(m *mutant) { m.task(0, "pack").Overdue = m.p.From - 60 }, "overdue"},
		{"said to have been carried before", func(m *mutant) { m.task(0, "chill").Carried = m.p.From - 60 }, "carried"},
		{"left, and nothing is said", func(m *mutant) { m.stay(); m.plan.Warnings = m.plan.Warnings[:1] }, "carry-missing"},
		{"left, though the larder takes it", func(m *mutant) { m.stay() }, "carry-missing"},
		{"left, as the larder is full", func(m *mutant) { m.stay(); m.p.Kitchen.Cold[3].Boxes = 1 }, ""},
	})
}

// A closing that is still to come: until then the batch keeps its spot, and from then on the larder
// keeps a place for it.
func TestLaterCarries(t *testing.T) {
	later := func(t *testing.T) *mutant {
		m := carriedOut(t)
		m.p.Kitchen.Cold[0].Taken[0].From = m.d("03-04 20:00")
		c := &m.plan.Carries[0]
		c.Start, c.Since = m.d("03-04 20:00"), m.d("03-04 20:00")
		return m
	}
	tellBegun(t, later, []begunCase{
		{"as it should be", func(m *mutant) {}, ""},
		{"at once", func(m *mutant) { m.plan.Carries[0].Start = m.p.From }, "carry"},
		{"from the planning start on", func(m *mutant) { m.plan.Carries[0].Since = m.p.From }, "carry"},
		{"without a carry", func(m *mutant) { m.plan.Carries = nil }, "carry-missing"},
		{"while something new is in its place", func(m *mutant) {
			m.p.Kitchen.Cold[3].Boxes = 2
			r := m.task(0, "ripen")
			r.At, r.BoxesAt, r.Sequence, r.Revised = "larder", []schedule.Standing{{Place: "larder"}, {Place: "larder"}}, 1, m.p.From
		}, "place-over"}, // its hold may last until then
		{"of what goes on before", func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken = nil
			m.p.Kitchen.Cold[0].Shelves[0].Taken = []resources.Span{{From: m.d("03-05 10:00"), Until: m.d("03-05 12:00")}}
			m.plan.Carries[0].Start, m.plan.Carries[0].Since = m.d("03-05 10:00"), m.d("03-05 10:00")
		}, "carry-needless carry-taken place"}, // and the shelf below is open
		{"none of what goes on before", func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken = nil
			m.p.Kitchen.Cold[0].Shelves[0].Taken = []resources.Span{{From: m.d("03-05 10:00"), Until: m.d("03-05 12:00")}}
			m.stay()
		}, ""},
	})
}

// Stock is carried after batches, at the same moment by whoever is free then, and keeps what
// begun.yaml says of it.
func TestCarriedStock(t *testing.T) {
	stocked := func(t *testing.T) *mutant {
		m := carriedOut(t)
		m.p.Kitchen.Cold[3].Boxes = 3
		m.p.Stock = []schedule.Stock{{Cheese: "Reed hoop", Pieces: 3, Packed: m.d("03-03 09:00"), At: "fridge", Boxes: 1}}
		m.plan.Stock = []schedule.StockUse{{Cheese: "Reed hoop", Pieces: 3, Packed: m.d("03-03 09:00"), At: "larder", Written: "fridge",
			Ends: m.d("03-09 09:00"), BoxesAt: []schedule.Standing{{Place: "larder"}}, For: []schedule.Share{}}}
		m.plan.Carries = append(m.plan.Carries, schedule.Carry{Stock: 0, Start: m.p.From, Minutes: 5, Who: "Tom", From: "fridge", To: "larder",
			Since: m.p.From, Stood: stack("middle", 0, 0, 30, 20, 1)})
		return m
	}
	tellBegun(t, stocked, []begunCase{
		{"as it should be", func(m *mutant) {}, ""},
		{"left out", func(m *mutant) { m.plan.Carries = m.plan.Carries[:1] }, "carry-missing"},
		{"first", func(m *mutant) {
			c := m.plan.Carries
			c[0], c[1] = c[1], c[0]
			c[0].Who, c[1].Who = c[1].Who, c[0].Who
		}, "carry carry-order"},
		{"as if it had been written there", func(m *mutant) { m.plan.Stock[0].Written = "" }, "stock"},
		{"into a full place", func(m *mutant) { m.p.Kitchen.Cold[3].Boxes = 2 }, "carry-room"},
	})
}
