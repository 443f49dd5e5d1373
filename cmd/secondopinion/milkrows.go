package main

import (
	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule/needs"
)

// collectionRow is a collection that new batches may draw on: makes start on one of
// its steps, and together draw at most most.
type collectionRow struct {
	supply      int
	ready       resources.Moment
	first, last int // steps of makes; first > last when none fits
	most        resources.Millilitres
}

// setMilk lists the collections that can still be used.
func (s *statement) setMilk() error {
	k := &s.p.Kitchen
	for i, m := range k.Milk {
		within := resources.Span{From: s.zero.Add(-m.Keeps - 2*resources.Day), Until: s.last + 1}
		for _, c := range m.Collections(within, k.Zone) {
			most, open := needs.Drawable(s.p, &k.Milk[i], c)
			if !open {
				continue
			}
			row := collectionRow{supply: i, ready: c.Ready, most: s.drawn(i, c, most)}
			row.first = max(0, s.stepFrom(c.Ready))
			row.last = min(s.steps, s.stepUntil(c.Ready.Add(m.Keeps)))
			if row.last >= row.first {
				s.supply = append(s.supply, row)
			}
		}
	}
	return nil
}

// drawn takes off what begun batches have drawn from a collection of supply i: each from
// the latest within keeps before its make.
func (s *statement) drawn(i int, c resources.Collection, most resources.Millilitres) resources.Millilitres {
	m := &s.p.Kitchen.Milk[i]
	for _, e := range s.p.Begun {
		made := e.Stages[0].Start
		if most == resources.NoLimit || s.p.Recipe(e.Cheese).Milk != m.Name {
			continue
		}
		if d := needs.DrewOn(m, made, s.p.Kitchen.Zone); d != nil && d.Ready == c.Ready {
			most = max(0, most-e.Litres)
		}
	}
	return most
}

func (s *statement) writeMilk(w *generalsolver.Values) {
	w.Note("milk: the steps at which a make may draw on a collection")
	var most []int
	var starts [][2]int
	bySupply := map[string][]int{}
	for i, c := range s.supply {
		starts = append(starts, [2]int{c.first, c.last})
		if c.most < 0 {
			most = append(most, -1)
		} else {
			most = append(most, int(c.most/s.measure))
		}
		name := s.p.Kitchen.Milk[c.supply].Name
		bySupply[name] = append(bySupply[name], i+1)
	}
	var of [][]int
	var needs []bool
	for _, r := range s.recipes {
		if r.begun != nil {
			of, needs = append(of, nil), append(needs, false)
			continue
		}
		of, needs = append(of, bySupply[r.r.Milk]), append(needs, r.r.Milk != "")
	}
	w.Number("collections", len(most))
	w.Sets("collections_of", of)
	w.List("needs_milk", needs)
	w.Ranges("milk_starts", starts)
	w.List("milk_most", most)
}
