package config

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// checkWarmth sees that a hold that goes by the make room begins when work is done, and comes before
// another stage, and that it has some length on the grid in each room that the kitchen has by date.
func (l *loader) checkWarmth(r *schedule.Recipe, i int, f *object) {
	h, k := r.Stages[i].Hold, &l.problem.Kitchen
	if !h.ByRoom() || h.GoesBy.Times == 0 || h.GoesBy.Temperature == 0 || h.Most < h.Least {
		return
	}
	switch {
	case i == len(r.Stages)-1:
		f.fault("hold", Fault{What: "goes_by is for a hold before another stage, and this is the last one: from then on the cheese is packed and keeps", Want: "a hold without goes_by"})
		return
	case needs.Follows(r, i, k.Step):
		f.fault("hold", Fault{What: fmt.Sprintf("goes_by goes by the day on which the work before the hold is done, and stage %q has none: it goes on by itself after %q",
			r.Stages[i].Name, r.Stages[i-1].Name), Want: "one hold for both in " + r.Stages[i-1].Name + ", or hands in " + r.Stages[i].Name})
		return
	}
	rooms := []resources.MilliCelsius{h.GoesBy.Temperature, k.Room}
	for _, is := range k.Rooms {
		rooms = append(rooms, is.Is)
	}
	show := resources.FormatMinutes
	for _, is := range rooms {
		in := h.In(is)
		if resources.FloorLength(in.Most, k.Step) < max(k.Step, resources.CeilLength(in.Least, k.Step)) {
			f.fault("hold", Fault{What: fmt.Sprintf("in a room of %s this hold is from %s to %s, and between them there is no whole step of %s, so it has no length that can be planned",
				resources.FormatTemperature(is), show(in.Least), show(in.Most), show(k.Step)), Want: "a larger most, or a smaller least"})
			return
		}
	}
	if resources.FloorLength(h.Most, k.Step) == 0 {
		f.fault("hold", Fault{What: fmt.Sprintf("a hold that goes by the room is at most a whole step of %s or more, as it is written", show(k.Step)), Got: show(h.Most)})
	}
}
