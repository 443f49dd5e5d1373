package config

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// setTimeOf reads when a hold is ready, and how it goes by the make room; limits tells that its least
// and its most are known.
func setTimeOf(o *object, h *schedule.Hold, limits bool) {
	var ok bool
	if h.Ready, ok = either(o, "ready", 0, above0(resources.ParseMinutes)); ok && limits && o.get("ready") != nil && (h.Ready < h.Least || h.Ready > h.Most) {
		show := resources.FormatMinutes
		o.fault("ready", Fault{What: fmt.Sprintf("ready (%s) must lie between least (%s) and most (%s)", show(h.Ready), show(h.Least), show(h.Most))})
	}
	h.Varies, _ = either(o, "varies", 0, within(resources.ParsePercent, 10, 600, resources.FormatPercent))
	by, ok := o.inner("goes_by")
	if !ok {
		return
	}
	h.GoesBy.Temperature, _ = take(by, "temperature", within(resources.ParseTemperature, schedule.Coolest, schedule.Warmest, resources.FormatTemperature))
	h.GoesBy.Times, _ = take(by, "times", within(resources.ParseFactor, schedule.LeastTimes, schedule.MostTimes, resources.FormatFactor))
}

// within is a reader of what lies between two bounds, both included.
func within[T ~int64](parse func(string) (T, error), least, most T, format func(T) string) func(string) (T, error) {
	return func(text string) (T, error) {
		v, err := parse(text)
		if err == nil && (v < least || v > most) {
			err = Fault{What: fmt.Sprintf("this is from %s to %s", format(least), format(most)), Got: clip(text)}
		}
		return v, err
	}
}

// goesByRoom sees that what goes by the make room is there.
func goesByRoom(o *object, s *schedule.Stage) {
	if s.Hold == nil || s.At.Kind == schedule.AtRoom {
		return
	}
	if hold, ok := o.fields["hold"]; ok && s.Hold.GoesBy != (schedule.GoesBy{}) {
		if at := keyAt(solid(hold), "goes_by"); at >= 0 {
			o.faultAt(solid(hold).Content[at], "hold", Fault{What: "goes_by goes by the make room, and this stage is in a cold place", Want: "at: room, or no goes_by"})
		}
	}
}
