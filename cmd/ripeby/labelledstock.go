package main

import (
	"fmt"
	"slices"

	"ripeby/calendar/label"
	"ripeby/resources"
	"ripeby/schedule"
)

// stock is what begun.yaml has in stock, by the plan that is kept; and what was written there since, under
// another lot.
func (l labelled) stock() []schedule.StockUse {
	all := slices.Concat(l.plan.Stock, l.plan.PastStock)
	for i := range l.problem.Stock {
		s := &l.problem.Stock[i]
		if s.Lot != "" && !slices.ContainsFunc(all, func(o schedule.StockUse) bool { return o.Lot == s.Lot }) {
			all = append(all, schedule.StockUse{Cheese: s.Cheese, Pieces: s.Pieces, Packed: s.Packed, Lot: s.Lot})
		}
	}
	return all
}

// ofStock is the label of what begun.yaml has in stock under a lot; ok is false where it has nothing of that
// lot. Where something lacks of what a label has to say, the error says what.
func (l labelled) ofStock(lot string) (out label.Lot, ok bool, err error) {
	all := l.stock()
	i := slices.IndexFunc(all, func(s schedule.StockUse) bool { return lot != "" && s.Lot == lot })
	if i < 0 {
		return out, false, nil
	}
	if out, err = l.stockLot(&all[i]); err == nil && out.Labels == 0 {
		err = wrong("nothing is left of the stock with the lot %s, so there are no labels for it", lot)
	}
	return out, true, err
}

// stockLot is what a label has to say of an entry of stock.
func (l labelled) stockLot(s *schedule.StockUse) (label.Lot, error) {
	if r := l.problem.Recipe(s.Cheese); r == nil || r.Keeps == 0 {
		return label.Lot{}, wrong("there is no recipe of %s that says how long it keeps, so the stock with the lot %s has no date to put on a label", s.Cheese, s.Lot)
	}
	return label.Lot{Lot: s.Lot, Cheese: s.Cheese, Packed: s.Packed, IsPacked: true, Labels: s.Pieces}, nil
}

// stockGift is what an entry of stock gives to a target, or gave.
type stockGift struct {
	of     schedule.StockUse
	by     resources.Moment
	pieces int
}

// stockFor are those of a target's name, with its date or without.
func (l labelled) stockFor(target string) (out []stockGift) {
	named := func(name string) bool { return name == target || schedule.Undated(name) == target }
	for _, s := range l.stock() {
		for _, x := range s.Left {
			if named(x.Target) {
				out = append(out, stockGift{s, x.By, x.Pieces})
			}
		}
		for _, x := range s.For {
			if named(x.Target) {
				out = append(out, stockGift{s, x.By, x.Pieces})
			}
		}
	}
	return out
}

// stockLots are the labels of what stock gives to a target at a moment, added to those of batches; what has no
// lot is told.
func (l labelled) stockLots(lots []label.Lot, gifts []stockGift, by resources.Moment) ([]label.Lot, error) {
	for _, g := range gifts {
		if g.by != by || g.pieces == 0 {
			continue
		}
		if g.of.Lot == "" {
			l.say(fmt.Sprintf("mind that the stock of %s packed %s has no lot in begun.yaml, so there is no label for it", g.of.Cheese, moment(g.of.Packed, l.problem.Kitchen.Zone)))
			continue
		}
		lot, err := l.stockLot(&g.of)
		if err != nil {
			return nil, err
		}
		lot.Labels = g.pieces
		lots = addLabels(lots, lot)
	}
	return lots, nil
}

// addLabels adds the labels of a lot to those of others.
func addLabels(lots []label.Lot, lot label.Lot) []label.Lot {
	if i := slices.IndexFunc(lots, func(o label.Lot) bool { return o.Lot == lot.Lot }); i >= 0 {
		lots[i].Labels += lot.Labels
		return lots
	}
	return append(lots, lot)
}
