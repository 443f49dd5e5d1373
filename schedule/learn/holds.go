package learn

import (
	"fmt"
	"math"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
	"ripeby/schedule/settime"
)

// Hold is what is learned of one hold: how many times as long it takes as its recipe says.
type Hold struct {
	Stage string
	Ready resources.Minutes      // by the recipe, in a room as warm as At
	At    resources.MilliCelsius // as written, else the kitchen's own room
	// Written is the factor that stands in the recipe; 1 where none does.
	Written resources.Factor
	// GoesBy tells that the recipe says how warm the room is that Ready is for.
	GoesBy bool
	Looks  []Look
	Passed []Passed

	// Times is the factor, and Low to High where it lies in 9 of 10 kitchens that saw the same; all three are 0
	// where Why says why there is none.
	Times, Low, High resources.Factor
	Why              string
	// Next is when the next batch is ready in a room as warm as At: 1 in 10 by then, half of them, 9 in 10.
	Next settime.Band
}

// NotYets is how many of the looks saw it when it was not ready yet: without one nobody knows how early it is.
func (h *Hold) NotYets() int {
	n := 0
	for _, l := range h.Looks {
		if l.NotYet > 0 {
			n++
		}
	}
	return n
}

// holdOf learns the hold of stage i of a recipe.
func holdOf(k *resources.Kitchen, r *schedule.Recipe, i int, made []trace.Made) Hold {
	hold := r.Stages[i].Hold
	h := Hold{Stage: r.Stages[i].Name, Ready: hold.Ready, At: hold.GoesBy.Temperature, Written: hold.GoesBy.Times, GoesBy: hold.GoesBy != (schedule.GoesBy{})}
	if !h.GoesBy {
		h.At, h.Written = k.Room, 1000
	}
	switch {
	case r.Stages[i].At.Kind != schedule.AtRoom:
		h.Why = "it is in a cold place, and only what is in the make room goes by its temperature"
	case !h.GoesBy && len(k.Rooms) > 0:
		h.Why = "the room differs by date, and the recipe does not say for which it is ready then; write goes_by: {temperature: 21 °C} beside ready"
	case !schedule.Follows(h.At):
		h.Why = "the recipe is for a room of " + resources.FormatTemperature(h.At) + ", and the rule holds from 15 to 30 °C"
	}
	for m := range made {
		switch l, seen, why := (sight{k, r, &made[m]}).look(i); {
		case why == "" && seen && !schedule.Follows(l.Room):
			h.Passed = append(h.Passed, Passed{l.Batch, "the room was at " + resources.FormatTemperature(l.Room) + ", and the rule holds from 15 to 30 °C"})
		case why != "":
			h.Passed = append(h.Passed, Passed{called(&made[m]), why})
		case seen:
			h.Looks = append(h.Looks, l)
		}
	}
	if h.Why != "" {
		return h
	}
	if len(h.Looks) < Fewest {
		h.Why = fmt.Sprintf("it takes at least %d looks; known so far: %d", Fewest, len(h.Looks))
		return h
	}
	h.fit(settime.Scatter(hold))
	return h
}

// fit finds the factor, unless it lies outside of what the rule is for.
func (h *Hold) fit(scatter float64) {
	p := Fit(h.waits(), scatter)
	times := resources.Factor(math.Round(1000 * math.Exp(p.Mean)))
	if times < schedule.LeastTimes || times > schedule.MostTimes {
		h.Why = fmt.Sprintf("by these looks it would take %.1f times as long as the recipe says, and that is believed from 0.5 to 2.5 only; see whether ready is right", math.Exp(p.Mean))
		return
	}
	factor := func(ln float64) resources.Factor { return resources.Factor(math.Round(1000 * math.Exp(ln))) }
	h.Times, h.Low, h.High = times, factor(p.Quantile(0.05)), factor(p.Quantile(0.95))
	h.Next = settime.Spread(float64(h.Ready)*math.Exp(p.Mean), p.Next(scatter))
}

// waits are the looks as multiples of what the recipe and the rule say.
func (h *Hold) waits() []Wait {
	out := make([]Wait, len(h.Looks))
	for i, l := range h.Looks {
		said := float64(h.Ready) * settime.Scale(h.At, l.Room)
		out[i] = Wait{Over: float64(l.NotYet) / said, Under: math.Inf(1)}
		if l.Ready > 0 {
			out[i].Under = float64(l.Ready) / said
		}
	}
	return out
}
