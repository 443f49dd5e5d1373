package judge

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// stuckFirst gives the followed plan with the first batch stuck in its chill: it
// keeps top shelf, boxes and moulds for good. The second stands on the middle one.
// It is a cheese of its own, which only Ida may ripen, and she is not there.
func stuckFirst(t *testing.T) *mutant {
	m := followed(t)
	b := m.batch(0)
	old := hoop()
	old.Name, old.Code = "Old hoop", "OH"
	old.Stages[6].Who = []string{"Ida"}
	m.p.Recipes = append(m.p.Recipes, old)
	b.Cheese, m.p.Earlier.Batches[0].Cheese = "Old hoop", "Old hoop"
	b.Stages, b.Care, b.For = b.Stages[:5], nil, nil
	for k := range m.task(0, "mould").Uses {
		u := &m.task(0, "mould").Uses[k]
		u.Until = b.Stages[4].Ends
		_, clean, _ := newHearing(m.p, m.plan).owned(u.Thing)
		u.CleanUntil = u.Until.Add(clean)
	}
	for _, stage := range []string{"chill", "ripen", "pack"} {
		s := m.task(1, stage)
		for k := range s.BoxesAt {
			s.BoxesAt[k].Shelf = "middle"
		}
	}
	m.plan.Rounds = []schedule.RoundBlock{m.round("03-09"), m.round("03-11"), m.round("03-12", "RH-270305-1"), m.round("03-13"),
		m.round("03-14", "RH-270305-1"), m.round("03-15")}
	m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "begun-stuck", Text: "RH-270302-1 cannot go on."})
	m.short(0, 15)
	m.p.Kitchen.Moulds[0].Count = 32
	return m
}

func TestStuckBatches(t *testing.T) {
	tellBegun(t, stuckFirst, []begunCase{
		{"keeps its begun stages only", func(*mutant) {}, ""},
		{"without a warning", func(m *mutant) { m.plan.Warnings = m.plan.Warnings[:1] }, "stages"},
		{"keeps its moulds for good", func(m *mutant) { m.p.Kitchen.Moulds[0].Count = 31 }, "kit-over"},
		{"keeps its shelf for good", func(m *mutant) { m.task(1, "pack").BoxesAt = stack("top", 30, 0, 20, 30, 2) }, "shelf-overlap"},
		{"serves nothing", func(m *mutant) {
			m.batch(0).For = []schedule.Share{{Target: "Stall", By: m.d("03-20 07:00"), Pieces: 15}}
			m.short(0, -15)
			m.plan.Targets[0].Because, m.plan.Outcome = "", schedule.Met
		}, "serve"},
		{"somebody could go on", func(m *mutant) { m.p.Recipes[2].Stages[6].Who = nil }, "stuck-unfounded"},
		{"somebody could go on weeks later, and pack in time", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = []string{"Una"}
			m.hire("Una", 40*resources.Day)
		}, "stuck-unfounded"},
		{"somebody could go on on the last day of the patience", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = []string{"Una"}
			m.hire("Una", 60*resources.Day)
		}, "stuck-unfounded"},
		{"somebody could go on, but only after the patience", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = []string{"Una"}
			m.hire("Una", 61*resources.Day)
		}, ""},
		{"somebody could go on, but has too short a day", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = []string{"Una"}
			m.hire("Una", 20*resources.Day)
			m.p.Kitchen.People[2].MostPerDay = 29
		}, ""},
		{"somebody could go on and pack, but perhaps not both in a day", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who, m.p.Recipes[2].Stages[7].Who = []string{"Una"}, []string{"Una"}
			m.hire("Una", 20*resources.Day)
			m.p.Kitchen.People[2].MostPerDay = 59
		}, ""},
		{"somebody could go on, but nobody could pack then", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = []string{"Nell"}
			m.p.Recipes[2].Stages[7].Who = []string{"Una"}
			m.hire("Una", Reach)
		}, ""},
		{"somebody could go on, but there are too few cartons", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = nil
			m.p.Recipes[2].Stages[7].Box = &schedule.Boxing{Name: "carton", Takes: 1}
			m.p.Kitchen.Boxes[1].Count = 15
		}, ""},
		{"somebody could go on, but the fridge is too small", func(m *mutant) {
			m.p.Recipes[2].Stages[6].Who = nil
			m.p.Recipes[2].Stages[6].At = schedule.At{Kind: schedule.AtPlace, Place: "nook"}
			m.p.Kitchen.Cold = append(m.p.Kitchen.Cold, resources.ColdPlace{Name: "nook", Temperature: 9_000, Boxes: 1})
		}, ""},
	})
}

// The first batch, whose next work is to put two boxes into the fridge for ten days and 16
// pieces into cartons, goes on beside others only with what they certainly leave.
func TestWhatOthersLeaveToAStuckBatch(t *testing.T) {
	for _, x := range []struct {
		name  string
		spoil func(m *mutant, b *beside)
		want  bool
	}{
		{"everything", func(*mutant, *beside) {}, true},
		{"two cartons of twenty", func(m *mutant, b *beside) { b.held["carton"] = 18 }, true},
		{"one carton", func(m *mutant, b *beside) { b.held["carton"] = 19 }, false},
		{"one shelf of two", func(m *mutant, b *beside) { b.taken[[2]string{"fridge", "top"}] = true }, true},
		{"no shelf", func(m *mutant, b *beside) {
			b.taken[[2]string{"fridge", "top"}], b.taken[[2]string{"fridge", "middle"}] = true, true
		}, false},
		{"everything, within the patience", func(m *mutant, b *beside) { b.after = m.p.From.Add(60 * resources.Day) }, true},
		{"everything, but after the patience", func(m *mutant, b *beside) { b.after = m.p.From.Add(62 * resources.Day) }, false},
	} {
		t.Run(x.name, func(t *testing.T) {
			m := stuckFirst(t)
			m.p.Recipes[2].Stages[6].Who = nil
			h := newHearing(m.p, m.plan)
			b := h.othersGone(h.lots[0])
			x.spoil(m, &b)
			if got := h.goesOn(h.lots[0], b); got != x.want {
				t.Errorf("got %v, want %v", got, x.want)
			}
		})
	}
}

// Stock in the way leaves in time; another stuck batch keeps its boxes and its shelf for good.
func TestWhatOthersKeepOfAStuckBatch(t *testing.T) {
	m := stuckFirst(t)
	s := withStock(t)
	m.p.Stock, m.plan.Stock = s.p.Stock, s.plan.Stock
	other := *m.batch(0)
	other.ID = "RH-270302-2"
	m.plan.Batches = append(m.plan.Batches, other)
	m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "begun-stuck", Text: "RH-270302-2 cannot go on."})
	e := other
	e.Stages = append(e.Stages[:5:5], m.p.Earlier.Batches[0].Stages[5:]...)
	m.p.Earlier.Batches = append(m.p.Earlier.Batches, e)
	h := newHearing(m.p, m.plan)
	gone, there := h.othersGone(h.lots[0]), h.othersThere(h.lots[0])
	if gone.after != m.d("03-05 08:00") || gone.held["ripening box"] != 2 || gone.held["tall pot"] != 0 || gone.held["carton"] != 0 {
		t.Errorf("when others are gone: got %+v", gone)
	}
	if !gone.taken[[2]string{"fridge", "top"}] || gone.taken[[2]string{"fridge", "middle"}] || gone.boxes["fridge"] != 2 {
		t.Errorf("where others stand for good: got %+v", gone)
	}
	if there.after != m.p.From || there.held["carton"] != 1 || there.held["ripening box"] != 2 || there.held["tall pot"] != 1 {
		t.Errorf("what others ever have: got %+v", there)
	}
}

// hire adds a person with whole days who comes only so long after the planning start.
func (m *mutant) hire(name string, after resources.Minutes) {
	m.p.Kitchen.People = append(m.p.Kitchen.People, resources.Person{Name: name, MostPerDay: resources.NoLimit,
		Hours: []resources.Hours{{Days: resources.Daily, From: hm(0, 0), Until: hm(24, 0)}},
		Away:  []resources.Span{{From: m.p.From, Until: m.p.From.Add(after)}}})
}

// withStock gives the sound plan with stock of twelve hoops in a carton at the
// back of the top shelf of a wider fridge, for a want of its own.
func withStock(t *testing.T) *mutant {
	d, p, plan := sound(t)
	m := &mutant{d, p, plan}
	p.Kitchen.Cold[0].Shelves[0].Size.Width = cm(80)
	p.Stock = []schedule.Stock{{Cheese: "Reed hoop", Pieces: 12, Packed: d.at("02-27 19:00"), At: "fridge", Boxes: 1}}
	p.Targets = append(p.Targets, schedule.Target{Name: "Shop", By: d.at("03-05 08:00"), Wants: []schedule.Want{{Cheese: "Reed hoop", Pieces: 12, Price: 1}}})
	share := schedule.Share{Target: "Shop", By: d.at("03-05 08:00"), Pieces: 12}
	plan.Stock = []schedule.StockUse{{Cheese: "Reed hoop", Pieces: 12, Packed: d.at("02-27 19:00"), At: "fridge", Ends: d.at("03-05 08:00"),
		BoxesAt: stack("top", 50, 0, 30, 20, 1), For: []schedule.Share{share}}}
	plan.Targets = append(plan.Targets, schedule.WantResult{Target: "Shop", By: share.By, Cheese: "Reed hoop", Price: 1, Wanted: 12, Met: 12})
	return m
}

func TestStock(t *testing.T) {
	tellBegun(t, withStock, []begunCase{
		{"as written", func(*mutant) {}, ""},
		{"forgotten", func(m *mutant) {
			m.plan.Stock = nil
			m.plan.Targets[4].Met, m.plan.Targets[4].Short, m.plan.Targets[4].Because = 0, 12, "There is none."
			m.plan.Outcome = schedule.Short
		}, "stock"},
		{"other pieces", func(m *mutant) { m.plan.Stock[0].Pieces = 13 }, "stock"},
		{"another end", func(m *mutant) { m.plan.Stock[0].Ends += 5 }, "stock-ends"},
		{"serves no target, and keeps its place", func(m *mutant) {
			m.plan.Stock[0].For, m.plan.Stock[0].Ends = nil, m.d("03-05 19:00")
			m.plan.Targets[4].Met, m.plan.Targets[4].Short, m.plan.Targets[4].Because = 0, 12, "It is eaten."
			m.plan.Outcome = schedule.Short
		}, ""},
		{"more than there is", func(m *mutant) {
			m.p.Targets[2].Wants[0].Pieces, m.plan.Targets[4].Wanted, m.plan.Targets[4].Met = 13, 13, 13
			m.plan.Stock[0].For[0].Pieces = 13
		}, "sellable"},
		{"no longer keeps then", func(m *mutant) {
			by := m.d("03-05 19:05")
			m.p.Targets[2].By, m.plan.Targets[4].By, m.plan.Stock[0].For[0].By, m.plan.Stock[0].Ends = by, by, by, by
		}, "serve"},
		{"no place", func(m *mutant) { m.plan.Stock[0].BoxesAt = nil }, "boxes-count"},
		{"no place, and said so", func(m *mutant) {
			m.plan.Stock[0].BoxesAt = nil
			m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "boxes-do-not-fit", Text: "The stock of Reed hoop has no room."})
		}, ""},
		{"in ripening boxes", func(m *mutant) { m.plan.Stock[0].BoxesAt = stack("top", 40, 0, 40, 30, 1) }, "box-place"},
		{"where a batch comes", func(m *mutant) { m.plan.Stock[0].BoxesAt = stack("top", 20, 0, 30, 20, 1) }, "shelf-overlap"},
		{"no longer keeps, and takes no space", func(m *mutant) {
			m.p.Stock[0].Packed, m.plan.Stock[0].Packed = m.d("02-22 19:00"), m.d("02-22 19:00")
			m.plan.Stock[0].For, m.plan.Stock[0].BoxesAt, m.plan.Stock[0].Ends = nil, nil, m.d("02-28 19:00")
			m.plan.Targets[4].Met, m.plan.Targets[4].Short, m.plan.Targets[4].Because = 0, 12, "It is too old."
			m.plan.Outcome = schedule.Short
		}, ""},
		{"its cartons are in use", func(m *mutant) {
			// Four cartons: two of each batch on the 15th, and one still with the stock.
			m.p.Kitchen.Boxes[1].Count = 4
			m.p.Stock[0].Boxes = 1
			m.p.Recipes[0].Keeps = 16 * resources.Day
			m.plan.Stock[0].For, m.plan.Stock[0].Ends = nil, m.d("03-15 19:00")
			m.plan.Targets[4].Met, m.plan.Targets[4].Short, m.plan.Targets[4].Because = 0, 12, "It is kept."
			m.plan.Outcome = schedule.Short
			m.plan.Stock[0].BoxesAt = stack("top", 50, 0, 30, 20, 1)
		}, "kit-over"},
	})
}
