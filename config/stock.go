package config

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// stock reads packed cheese that is in the kitchen.
func (l *loader) stock(o *object) {
	var lots register
	for _, f := range o.objects("stock", "stock") {
		var s schedule.Stock
		var known bool
		s.Cheese, known = l.cheese(f)
		s.Pieces, _ = take(f, "pieces", whole(1, MaxPieces))
		m, ok := take(f, "packed", l.moment)
		if ok && l.happened(f, "packed", m) {
			s.Packed = m
		}
		if s.Lot, _ = either(f, "lot", "", nameText); s.Lot != "" {
			lots.enter(f, "lot", s.Lot)
		}
		boxes, okBoxes := either(f, "boxes", -1, whole(0, MaxCount))
		r := l.problem.Recipe(s.Cheese)
		if !known || r == nil || !l.sound[s.Cheese] {
			continue
		}
		s.At = l.stockPlace(f, r)
		if okBoxes {
			s.Boxes = stockBoxes(f, r, s.Pieces, boxes)
		}
		l.problem.Stock = append(l.problem.Stock, s)
	}
}

// stockPlace reads where the stock is. It can be left out where the recipe's last
// stage leaves no choice.
func (l *loader) stockPlace(f *object, r *schedule.Recipe) string {
	last := r.Stages[len(r.Stages)-1].At
	name, written := f.text("at")
	if written {
		if name != "room" || last.Kind != schedule.AtRoom {
			l.coldPlace(f, "at", name)
		}
		return name
	}
	if f.get("at") != nil {
		return "" // complained of already
	}
	if last.Kind == schedule.AtRoom {
		return "room"
	}
	if places := l.placesOf(last); len(places) == 1 {
		return places[0].Name
	}
	f.missing("at")
	return ""
}

// stockBoxes gives the number of boxes that stock takes: as written, or as many as
// its pieces need. They are of the kind that the recipe's last boxed stage uses;
// written is -1 for a number that was left out.
func stockBoxes(f *object, r *schedule.Recipe, pieces, written int) int {
	box := needs.PackedIn(r)
	switch {
	case box == nil && written > 0:
		f.fault("boxes", Fault{What: fmt.Sprintf("no stage of %q uses boxes, so its stock has none", r.Name), Want: "boxes: 0"})
		return 0
	case written >= 0:
		return written
	case box == nil:
		return 0
	}
	return needs.Boxes(box, pieces)
}

// ordered reads milk that has been ordered.
func (l *loader) ordered(o *object) {
	var pairs register
	for _, f := range o.objects("ordered", "ordered milk") {
		var d schedule.Ordered
		var okDay bool
		d.Milk = l.milkName(f, "milk", true)
		d.Day, okDay = take(f, "day", resources.ParseDate)
		d.Litres, _ = take(f, "litres", resources.ParseLitres) // 0: none was ordered
		if !okDay {
			continue
		}
		if first, twice := pairs.at[d.Milk+"\n"+d.Day.String()]; twice {
			f.fault("day", Fault{What: "this milk and day stand in the list already, see " + first + "; add their litres up", Got: d.Day.String()})
			continue
		}
		pairs.enter(f, "day", d.Milk+"\n"+d.Day.String())
		l.collectionDay(f, d)
		l.problem.Ordered = append(l.problem.Ordered, d)
	}
}

// collectionDay sees that milk is collected on the day for which it was ordered.
func (l *loader) collectionDay(f *object, d schedule.Ordered) {
	zone := l.problem.Kitchen.Zone
	for _, m := range l.problem.Kitchen.Milk {
		if m.Name != d.Milk || !l.sure["milk"] || !l.zoneKnown {
			continue
		}
		if !m.Days.Has(d.Day.Weekday()) {
			f.fault("day", Fault{What: fmt.Sprintf("this is a %s, and this milk is collected %s", d.Day.Weekday(), resources.FormatWeekdays(m.Days)), Got: d.Day.String()})
			return
		}
		// Ready at 24:00 is the next day's first moment.
		within := resources.Span{From: d.Day.Start(zone), Until: d.Day.AddDays(1).Start(zone) + 1}
		for _, c := range m.Collections(within, zone) {
			if c.Day == d.Day {
				return
			}
		}
		f.fault("day", Fault{What: "this milk is not collected on this day, which is closed", Got: d.Day.String()})
		return
	}
}
