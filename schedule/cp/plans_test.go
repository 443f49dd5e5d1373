package cp

import (
	"fmt"
	"slices"
	"sort"

	"ripeby/schedule/cp/kernel"
)

// listedPlan is one plan of a tiny model as the naive reading has it.
type listedPlan struct {
	jobs  []*way
	given [][]int // units of each demand, by each job and then by each stock
	cost  Cost
}

// plansOf lists every plan of a tiny model; not ok where there are more than most.
func plansOf(m *Model, most int) (plans []listedPlan, ok bool) {
	many := false
	var units []int
	for d := range m.Demands {
		for range m.Demands[d].Units {
			units = append(units, d)
		}
	}
	_, ok = listPlans(m, func(chosen []*way, from []int, cost Cost) {
		for u := 1; u < len(units); u++ {
			if units[u] == units[u-1] && from[u] < from[u-1] {
				return // the units of one demand are alike
			}
		}
		if many = len(plans) == most; many {
			return
		}
		p := listedPlan{jobs: slices.Clone(chosen), cost: cost, given: make([][]int, len(chosen)+len(m.Stocks))}
		for i := range p.given {
			p.given[i] = make([]int, len(m.Demands))
		}
		for u, i := range from {
			if i >= 0 {
				p.given[i][units[u]]++
			}
		}
		plans = append(plans, p)
	})
	return plans, ok && !many
}

// pinListed lists what holds a statement to a plan: jobs beyond the slots of their
// last delivery are left to its overflow. It is written apart from guide, as the second
// opinion; err says what the statement has no place for.
func pinListed(k *asked, p *listedPlan) (pins []kernel.Lit, beyond int, err error) {
	fix := func(x kernel.Var, v int) { pins = append(pins, x.Ge(int32(v)), x.Le(int32(v))) }
	order := make([]int, len(p.jobs))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return p.jobs[order[a]].starts[0] < p.jobs[order[b]].starts[0] })
	used := map[*slot]bool{}
	over := make([][]int, len(k.over))
	for _, i := range order {
		v := p.jobs[i]
		n := slices.IndexFunc(k.slots, func(sl *slot) bool {
			return !used[sl] && sl.begun == v.begun && sl.family == v.family && (v.begun >= 0 || sl.due == v.end)
		})
		if n >= 0 {
			used[k.slots[n]] = true
			lits, err := pinWay(k, k.slots[n], v, p.given[i])
			if err != nil {
				return nil, 0, err
			}
			pins = append(pins, lits...)
			continue
		}
		o := slices.IndexFunc(k.over, func(o *overflow) bool { return o.family == v.family && o.due == v.end })
		if v.begun >= 0 || o < 0 {
			return nil, 0, fmt.Errorf("no slot for a job of family %d, begun %d, with its last delivery at %d", v.family, v.begun, v.end)
		}
		over[o] = append(over[o], i)
		beyond++
	}
	for _, sl := range k.slots {
		if !used[sl] {
			fix(sl.here, 0)
		}
	}
	for o := range k.over {
		fix(k.over[o].jobs, len(over[o]))
		for x, d := range k.over[o].reach {
			n := 0
			for _, i := range over[o] {
				n += p.given[i][d]
			}
			fix(k.over[o].give[x], n)
		}
	}
	for i := range k.stock {
		for x, d := range k.stock[i].reach {
			fix(k.stock[i].give[x], p.given[len(p.jobs)+i][d])
		}
	}
	for part := range k.cost {
		pins = append(pins, k.cost[part].Le(k.value(p.cost, part)))
	}
	return pins, beyond, nil
}

// pinWay holds a slot to one way, which gives so many units to each demand.
func pinWay(k *asked, sl *slot, v *way, given []int) ([]kernel.Lit, error) {
	var pins []kernel.Lit
	fix := func(x kernel.Var, v int) { pins = append(pins, x.Ge(int32(v)), x.Le(int32(v))) }
	pick := func(lits []kernel.Lit, at int) error {
		if at < 0 {
			return fmt.Errorf("no literal for what job %+v has", *v)
		}
		pins = append(pins, lits[at])
		for i, l := range lits {
			if i != at {
				pins = append(pins, l.Not())
			}
		}
		return nil
	}
	size := max(v.mode, 0)
	mode := sl.modes[size]
	fix(sl.here, 1)
	fix(sl.size, size)
	var errs []error
	for i := sl.fixed; i < sl.acts(); i++ {
		fix(sl.start[i], int(k.g.down(v.starts[i])))
		if len(sl.who[i]) > 0 {
			errs = append(errs, pick(sl.who[i], slices.Index(mode.Acts[i].Workers, v.workers[i])))
		}
	}
	for r := range mode.Runs {
		var lits []kernel.Lit
		for _, c := range sl.pools[r] {
			lits = append(lits, c.lit)
		}
		chosen := mode.Runs[r].Choices[v.choices[r]]
		errs = append(errs, pick(lits, slices.IndexFunc(sl.pools[r], func(c choice) bool { return c.pool == chosen.Pool && c.clean == chosen.Clean })))
	}
	for r := range mode.Stays {
		if len(sl.spaces[r]) > 0 {
			errs = append(errs, pick(sl.spaces[r], slices.Index(mode.Stays[r].Spaces, v.spaces[r])))
		}
	}
	if v.intake >= 0 {
		var lits []kernel.Lit
		for _, d := range sl.draws {
			lits = append(lits, d.lit)
		}
		errs = append(errs, pick(lits, slices.IndexFunc(sl.draws, func(d draw) bool { return d.intake == v.intake })))
	}
	for d, n := range given {
		x := slices.Index(sl.reach, d)
		if x >= 0 {
			fix(sl.give[x], n)
		} else if n > 0 {
			errs = append(errs, fmt.Errorf("demand %d is out of reach of job %+v", d, *v))
		}
	}
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return pins, nil
}

// boxesAt is boxes that stand in one space from a tick to another; closings do not count for a
// fact.
type boxesAt struct {
	from, until int
	kind, boxes int
	fact        bool
}

// canStand reports whether the boxes of a plan stand on the floors of their spaces,
// cells of one by one, by trying all ways; homeless are jobs under way whose boxes stand nowhere.
func canStand(m *Model, p *listedPlan, homeless func(begun int) bool) bool {
	for space := range m.Spaces {
		if len(m.Spaces[space].Floors) == 0 {
			continue
		}
		var list []boxesAt
		for _, v := range p.jobs {
			mode := modesOfWay(m, v)
			for r, x := range v.part.stays {
				from := max(x.from, m.From)
				if x.thing != space || x.until <= from || x.fact && homeless(v.begun) {
					continue
				}
				list = append(list, boxesAt{from: from, until: x.until, kind: mode.Stays[r].Kind, boxes: x.amount, fact: x.fact})
			}
		}
		if !standsNaively(m, space, list) {
			return false
		}
	}
	return true
}

func modesOfWay(m *Model, v *way) *Mode {
	if v.begun >= 0 {
		return &m.Begun[v.begun].Mode
	}
	return &m.Families[v.family].Modes[v.mode]
}

// standsNaively tries all ways in which boxes may stand in a space.
func standsNaively(m *Model, space int, list []boxesAt) bool {
	taken := make([]uint64, len(list))
	var put func(i int) bool
	put = func(i int) bool {
		if i == len(list) {
			return true
		}
		s := &list[i]
		free := ^uint64(0)
		for o := range i {
			if list[o].from < s.until && s.from < list[o].until {
				free &^= taken[o]
			}
		}
		// Stacks from place n on, with so many boxes left over.
		var stack func(n int, cells uint64, left int) bool
		stack = func(n int, cells uint64, left int) bool {
			if left <= 0 {
				taken[i] = cells
				return put(i + 1)
			}
			bit := 0
			for f := range m.Spaces[space].Floors {
				fl, kind := &m.Spaces[space].Floors[f], &m.Kinds[s.kind]
				shut := !s.fact && slices.ContainsFunc(fl.Closed, func(c Span) bool { return c.From < s.until && s.from < c.Until })
				for x := range int(fl.Size.W) {
					own := (uint64(1)<<kind.Size.W - 1) << (bit + x)
					fits := x+int(kind.Size.W) <= int(fl.Size.W) && kind.Height <= fl.Height && !shut
					if at := bit + x; at >= n && fits && own&free == own && own&cells == 0 &&
						stack(at+1, cells|own, left-int(fl.Height/kind.Height)) {
						return true
					}
				}
				bit += int(fl.Size.W)
			}
			return false
		}
		return stack(0, 0, s.boxes)
	}
	return put(0)
}
