package judge

import (
	"slices"
	"testing"

	"ripeby/resources"
)

// TestMutationsOfSpots has the second batch ripen in the spot of the first, from the 8th to the
// 15th, on a shelf that takes five boxes on one another.
func TestMutationsOfSpots(t *testing.T) {
	on := func(layers ...int) func(*mutant) {
		return func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(60)
			m.task(1, "ripen").BoxesAt = stack("middle", 0, 0, 40, 30, len(layers))
			for i, layer := range layers {
				m.task(1, "ripen").BoxesAt[i].Layer = layer
			}
		}
	}
	and := func(layers []int, more func(*mutant)) func(*mutant) {
		return func(m *mutant) { on(layers...)(m); more(m) }
	}
	stacking := func(s resources.Stacking) func(*mutant) {
		return func(m *mutant) { m.p.Kitchen.Boxes[0].Stack = s }
	}
	tell(t, []mutation{
		{name: "on the first's boxes", spoil: on(3, 4), want: ""},
		{name: "in any order", spoil: on(4, 3), want: ""},
		{name: "as if nothing stood there", spoil: on(1, 2), want: "box-layer"},
		{name: "between the first's", spoil: on(2, 3), want: "box-layer"},
		{name: "with a gap", spoil: on(4, 5), want: "box-layer"},
		{name: "two in one layer", spoil: on(3, 3), want: "box-place"},
		{name: "as high as the shelf", spoil: and([]int{3, 4}, func(m *mutant) { m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(48) }), want: ""},
		{name: "higher than the shelf", spoil: and([]int{3, 4}, func(m *mutant) { m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(48) - 1 }), want: "box-place spot-over"},
		{name: "not square on them", spoil: and([]int{3, 4}, func(m *mutant) {
			for i := range m.task(1, "ripen").BoxesAt {
				m.task(1, "ripen").BoxesAt[i].X = cm(1)
			}
		}), want: "box-layer shelf-overlap"},
		{name: "turned", spoil: and([]int{3, 4}, func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Size.Depth = cm(40)
			for i := range m.task(1, "ripen").BoxesAt {
				m.task(1, "ripen").BoxesAt[i].Width, m.task(1, "ripen").BoxesAt[i].Depth = cm(30), cm(40)
			}
		}), want: "box-layer shelf-overlap"},
		{name: "boxes that stand on those of their batch", spoil: and([]int{1, 2}, stacking(resources.StackBatch)), want: "shelf-overlap"},
		{name: "boxes that stand alone", spoil: and([]int{1, 2}, stacking(resources.StackNo)), want: "box-place shelf-overlap"},
		{name: "boxes of another kind", spoil: func(m *mutant) {
			// The second's cartons, large ones here, come at 09:35 on the 15th; the first ripens there until 10:30.
			m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(60)
			m.p.Kitchen.Boxes[1].Size = m.p.Kitchen.Boxes[0].Size
			m.task(0, "pack").BoxesAt, m.task(1, "pack").BoxesAt = stack("top", 0, 0, 40, 30, 2), stack("middle", 0, 0, 40, 30, 2)
		}, want: "shelf-overlap"},
		{name: "boxes of another kind once those are gone", spoil: func(m *mutant) {
			m.p.Kitchen.Boxes[1].Size = m.p.Kitchen.Boxes[0].Size
			m.task(0, "pack").BoxesAt, m.task(1, "pack").BoxesAt = stack("middle", 0, 0, 40, 30, 2), stack("top", 0, 0, 40, 30, 2)
		}, want: ""},
		{name: "on what came before, though written later", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(48)
			m.task(0, "pack").BoxesAt = stack("top", 0, 0, 20, 30, 4)[2:]
		}, want: ""},
		{name: "under what came before", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(48)
			m.task(0, "pack").BoxesAt = stack("top", 0, 0, 20, 30, 2)
		}, want: "box-layer"},
	})
}

// What comes stands above what is there then, and those that come at one moment share the layers
// above that among themselves.
func TestLayersOfWhatComes(t *testing.T) {
	d, p, plan := sound(t)
	p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(60)
	now := d.at("03-08 10:00")
	at := func(batch string, from resources.Moment, layers ...int) pile {
		return pile{place: "fridge", shelf: "top", width: cm(40), depth: cm(30), layers: layers, kind: "ripening box",
			stay: resources.Span{From: from, Until: now + 100}, comes: true, planned: true, batch: batch, stage: "ripen"}
	}
	goesOn := at("A", now, 1, 2)
	goesOn.comes = false
	has := at("A", d.at("02-20 10:00"), 4) // what stood below has left
	has.planned = false
	for _, c := range []struct {
		name     string
		standing []pile
		want     string
	}{
		{"two at once", []pile{at("A", now, 1, 2), at("B", now, 3)}, ""},
		{"two at once, the other way round", []pile{at("A", now, 2, 3), at("B", now, 1)}, ""},
		{"two at once, mixed", []pile{at("A", now, 1, 3), at("B", now, 2)}, ""},
		{"two in one layer", []pile{at("A", now, 1, 2), at("B", now, 2)}, "box-layer"},
		{"a gap", []pile{at("A", now, 1, 2), at("B", now, 4)}, "box-layer"},
		{"on what goes on there", []pile{goesOn, at("B", now, 3)}, ""},
		{"beside what goes on there", []pile{goesOn, at("B", now, 1)}, "box-layer"},
		{"on one that has come down", []pile{has, at("B", now, 2)}, ""},
		{"as if it had not come down", []pile{has, at("B", now, 5)}, "box-layer"},
		{"six of five", []pile{at("A", now-5, 1, 2, 3), at("B", now, 4, 5, 6)}, "spot-over"},
	} {
		h := newHearing(p, plan)
		h.checkSpots(c.standing, now)
		if got := rulesOf(h.found); !slices.Equal(got, rulesNamed(c.want)) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func rulesNamed(rule string) []string {
	if rule == "" {
		return []string{}
	}
	return []string{rule}
}

// Boxes of a begun batch stay where the earlier plan has them as long as they have room there beside
// what has begun too, at every moment.
func TestBegunBoxesShareTheirSpot(t *testing.T) {
	d, p, plan := sound(t)
	p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(48)
	h := newHearing(p, plan)
	x := pile{place: "fridge", shelf: "top", width: cm(40), depth: cm(30), layers: []int{1, 2}, kind: "ripening box",
		stay: resources.Span{From: d.at("03-04 08:00"), Until: d.at("03-20 08:00")}}
	other := func(from, until string, kind string, layers ...int) pile {
		o := x
		o.stay, o.kind, o.layers = resources.Span{From: d.at(from), Until: d.at(until)}, kind, layers
		return o
	}
	for _, c := range []struct {
		name   string
		others []pile
		want   bool
	}{
		{"alone", nil, false},
		{"with two more", []pile{other("03-01 08:00", "03-09 08:00", "ripening box", 1, 2)}, false},
		{"with three more", []pile{other("03-01 08:00", "03-09 08:00", "ripening box", 1, 2, 3)}, true},
		{"with two more, and two after them", []pile{other("03-01 08:00", "03-09 08:00", "ripening box", 1, 2), other("03-09 08:00", "03-10 08:00", "ripening box", 1, 2)}, false},
		{"with two more, and two before they go", []pile{other("03-01 08:00", "03-09 08:01", "ripening box", 1, 2), other("03-09 08:00", "03-10 08:00", "ripening box", 1, 2)}, true},
		{"with another kind", []pile{other("03-01 08:00", "03-09 08:00", "carton", 1)}, true},
		{"after another kind", []pile{other("03-01 08:00", "03-04 08:00", "carton", 1)}, false},
	} {
		if got := h.crowded(x, c.others); got != c.want {
			t.Errorf("%s: got crowded %v, want %v", c.name, got, c.want)
		}
	}
}

// Of boxes that stand in a spot already the layers are as they were; of those still to come they
// are told anew.
func TestBegunBoxesAreToldTheirLayer(t *testing.T) {
	tellBegun(t, followed, []begunCase{
		{"another layer", func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(48)
			for _, stage := range []string{"chill", "rest"} {
				m.task(0, stage).BoxesAt = stack("top", 0, 0, 40, 30, 4)[2:]
			}
		}, "begun-boxes"},
		{"as it was, and what was below has gone", func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[0].Size.Height = cm(48)
			for _, stage := range []string{"chill", "rest"} {
				m.task(0, stage).BoxesAt = stack("top", 0, 0, 40, 30, 4)[2:]
				m.p.Earlier.Batches[0].Stages[map[string]int{"chill": 4, "rest": 5}[stage]].BoxesAt = stack("top", 0, 0, 40, 30, 4)[2:]
			}
		}, ""},
	})
}
