package search

import (
	"fmt"
	"slices"
	"sort"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
)

// pinListed lists what holds a statement to a plan: jobs beyond the slots of their
// last delivery are left to its overflow. It is written apart from guide, as the second
// opinion; err says what the statement has no place for.
func pinListed(k *statement.Statement, p *tiny.ListedPlan) (pins []kernel.Lit, beyond int, err error) {
	fix := func(x kernel.Var, v int) { pins = append(pins, x.Ge(int32(v)), x.Le(int32(v))) }
	order := make([]int, len(p.Jobs))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return p.Jobs[order[a]].Starts[0] < p.Jobs[order[b]].Starts[0] })
	used := map[*statement.Slot]bool{}
	over := make([][]int, len(k.Over))
	for _, i := range order {
		v := p.Jobs[i]
		n := slices.IndexFunc(k.Slots, func(sl *statement.Slot) bool {
			return !used[sl] && sl.Begun == v.Begun && sl.Family == v.Family && (v.Begun >= 0 || sl.Due == v.End)
		})
		if n >= 0 {
			used[k.Slots[n]] = true
			lits, err := pinWay(k, k.Slots[n], v, p.Given[i], p.Kept[i])
			if err != nil {
				return nil, 0, err
			}
			pins = append(pins, lits...)
			continue
		}
		o := slices.IndexFunc(k.Over, func(o *statement.Overflow) bool { return o.Family == v.Family && o.Due == v.End })
		if v.Begun >= 0 || o < 0 {
			return nil, 0, fmt.Errorf("no slot for a job of family %d, begun %d, with its last delivery at %d", v.Family, v.Begun, v.End)
		}
		over[o] = append(over[o], i)
		beyond++
	}
	for _, sl := range k.Slots {
		if !used[sl] {
			fix(sl.Here, 0)
		}
	}
	for o := range k.Over {
		fix(k.Over[o].Jobs, len(over[o]))
		for x, d := range k.Over[o].Reach {
			n := 0
			for _, i := range over[o] {
				n += p.Given[i][d]
			}
			fix(k.Over[o].Give[x], n)
		}
	}
	for i := range k.Stock {
		for x, d := range k.Stock[i].Reach {
			fix(k.Stock[i].Give[x], p.Given[len(p.Jobs)+i][d])
		}
	}
	for part := range k.Cost {
		pins = append(pins, k.Cost[part].Le(k.Value(p.Cost, part)))
	}
	return pins, beyond, nil
}

// pinWay holds a slot to one way, which gives so many units to each demand.
func pinWay(k *statement.Statement, sl *statement.Slot, v *tiny.Way, given []int, kept int) ([]kernel.Lit, error) {
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
	if v.Cost.Stuck > 0 {
		fix(sl.Here, 0)
		return pins, nil
	}
	size := max(v.Mode, 0)
	mode := sl.Modes[size]
	fix(sl.Here, 1)
	fix(sl.Size, size)
	var errs []error
	for i := sl.Fixed; i < sl.Acts(); i++ {
		fix(sl.Start[i], int(k.Grid.Down(v.Starts[i])))
		if len(sl.Who[i]) > 0 {
			errs = append(errs, pick(sl.Who[i], slices.Index(mode.Acts[i].Workers, v.Workers[i])))
		}
	}
	for r := range mode.Runs {
		var lits []kernel.Lit
		for _, c := range sl.Pools[r] {
			lits = append(lits, c.Lit)
		}
		chosen := mode.Runs[r].Choices[v.Choices[r]]
		errs = append(errs, pick(lits, slices.IndexFunc(sl.Pools[r], func(c statement.Choice) bool { return c.Pool == chosen.Pool && c.Clean == chosen.Clean })))
	}
	for r := range mode.Stays {
		if len(sl.Spaces[r]) > 0 {
			errs = append(errs, pick(sl.Spaces[r], slices.Index(mode.Stays[r].Spaces, v.Spaces[r])))
		}
	}
	if v.Intake >= 0 {
		var lits []kernel.Lit
		for _, d := range sl.Draws {
			lits = append(lits, d.Lit)
		}
		errs = append(errs, pick(lits, slices.IndexFunc(sl.Draws, func(d statement.Draw) bool { return d.Intake == v.Intake })))
	}
	for _, d := range sl.Decisions() {
		if d.About == statement.DecidesKept { // there is no literal where nothing is gained by it
			l := d.Lit
			if d.Kept.Number != kept {
				l = l.Not()
			}
			pins = append(pins, l)
		}
	}
	for d, n := range given {
		x := slices.Index(sl.Reach, d)
		if x >= 0 {
			fix(sl.Give[x], n)
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
