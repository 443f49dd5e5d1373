package config

import (
	"fmt"
	"strings"
	"time"

	"ripeby/config/keys"
	"ripeby/resources"
)

// kitchen reads kitchen.yaml.
func (l *loader) kitchen(p *page) {
	if p.root == nil {
		p.faultAt(nil, Fault{What: "this file is empty", Want: "kitchen: {name: Saltgrass Lane, timezone: Europe/Dublin}"})
		return
	}
	known := keys.Kitchen()
	o, ok := p.object(p.root, wholeFile, known.Example, known)
	if !ok {
		return
	}
	k := &l.problem.Kitchen
	l.frame(o)
	k.Round = l.round(o)
	var names register
	for _, part := range []struct {
		key  string
		read func()
	}{
		{"people", func() { k.People = l.people(o) }},
		{"pots", func() { k.Pots = l.pots(o, &names) }},
		{"stations", func() { k.Stations = l.stations(o, &names) }},
		{"moulds", func() { k.Moulds = l.moulds(o, &names) }},
		{"boxes", func() { k.Boxes = l.boxes(o, &names) }},
		{"cold", func() { k.Cold = l.cold(o, &names) }},
		{"milk", func() { k.Milk = l.milk(o) }},
		{"businesses", func() { k.Businesses = businesses(o) }},
		{"label", func() { k.Labels = labels(o) }},
	} {
		before := len(l.faults)
		part.read()
		l.sure[part.key] = len(l.faults) == before && !o.meant[part.key]
	}
	if len(k.People) == 0 && len(k.Pots)+len(k.Stations) > 0 {
		l.warn("nobody", "There are no people in "+kitchenFile+", so nobody can do any work", 0)
	}
}

// frame reads what holds for the kitchen as a whole.
func (l *loader) frame(o *object) {
	k := &l.problem.Kitchen
	f, ok := o.inner("kitchen")
	if !ok {
		if o.get("kitchen") == nil {
			o.missing("kitchen")
		}
		// All as it is where nothing is said, so that the rest can be read.
		f = &object{page: o.page, keys: o.keys.Key("kitchen").In, meant: map[string]bool{"timezone": true}}
	}
	k.Name, _ = take(f, "name", nameText)
	if zone, ok := take(f, "timezone", timeZone); ok {
		k.TimeZone, k.Zone = zone.String(), zone
		l.zoneKnown = true
	}
	if k.Step, ok = take(f, "step", gridStep); !ok {
		k.Step = 1
	}
	k.Room, k.Rooms = room(f)
	k.UnsaidWaits, _ = take(f, "unsaid", unsaidWaits)
	k.Settled, _ = take(f, "settled", resources.ParseMinutes)
	k.Alarm, _ = take(f, "alarm", alarmLead)
	k.Scale, _ = either(f, "scale", resources.Amount{}, scaleStep)
	k.Ahead, _ = take(f, "ahead", aheadWeeks)
}

// scaleStep reads what a scale shows at the least.
func scaleStep(text string) (resources.Amount, error) {
	a, err := resources.ParseAmount(text)
	if err != nil {
		err = Fault{What: quantityFault(err).What, Got: clip(text), Want: "scale: 0.1 g"}
	} else if resources.KindOf(a.Unit) != resources.Weighed {
		err = Fault{What: "a scale shows a weight", Got: clip(text), Want: "scale: 0.1 g"}
	}
	return a, err
}

// mostAlarm is how long before work its alarm may go off: what is further away nobody acts on.
const mostAlarm = 7 * resources.Day

// alarmLead reads how long before work its alarm goes off.
func alarmLead(text string) (resources.Minutes, error) {
	m, err := resources.ParseMinutes(text)
	switch {
	case err == nil && m > mostAlarm:
		err = Fault{What: "an alarm goes off at most a week before", Got: clip(text), Want: "alarm: 15 min"}
	case err == nil && m == 0:
		m = resources.AlarmAtOnce
	}
	return m, err
}

// unsaidWaits reads what becomes of what the record does not speak of.
func unsaidWaits(text string) (bool, error) {
	switch text {
	case "waits":
		return true, nil
	case "done":
		return false, nil
	}
	return false, Fault{What: "what nobody speaks of is done as planned, or waits", Got: clip(text), Want: "done or waits", Near: nearest(text, []string{"done", "waits"})}
}

// gridStep reads a step, which divides the hour.
func gridStep(text string) (resources.Minutes, error) {
	m, err := resources.ParseMinutes(text)
	if err == nil && (m < 1 || resources.Hour%m != 0) {
		err = Fault{What: "the step must divide an hour", Got: clip(text), Want: "1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30 or 60 min"}
	}
	return m, err
}

// timeZone loads a zone by its IANA name. "Local" would mean another zone on
// every machine.
func timeZone(text string) (*time.Location, error) {
	const want = "its region and city, such as Europe/Dublin or America/New_York"
	if text == "" || text == "Local" || len(text) > MaxNameLength {
		return nil, Fault{What: "this is not a time zone", Got: clip(text), Want: want}
	}
	zone, err := time.LoadLocation(text)
	if err == nil {
		return zone, nil
	}
	f := Fault{What: "this time zone is not known", Got: text, Want: want}
	// Capitals and spaces are what goes wrong most.
	guess := strings.ToLower(strings.ReplaceAll(text, " ", "_"))
	guess = strings.Map(afterBreak(), guess)
	if _, err := time.LoadLocation(guess); err == nil {
		f.Near, f.Want = guess, ""
	}
	return nil, f
}

// afterBreak gives a mapping that puts each word's first letter in upper case.
func afterBreak() func(rune) rune {
	first := true
	return func(r rune) rune {
		if first && r >= 'a' && r <= 'z' {
			r += 'A' - 'a'
		}
		first = r == '/' || r == '_' || r == '-'
		return r
	}
}

// people reads who works in the kitchen.
func (l *loader) people(o *object) []resources.Person {
	var all []resources.Person
	var names register
	for _, f := range o.objects("people", "person") {
		var p resources.Person
		p.Name, _ = names.claim(f, "name", nameText)
		p.Hours, _ = each(f, "hours", resources.ParseHours)
		p.RatherNot, _ = each(f, "rather_not", resources.ParseHours)
		p.MostPerDay, _ = either(f, "most_per_day", resources.NoLimit, resources.ParseMinutes)
		p.Away = l.spans(f, "away")
		if len(p.Hours) == 0 && p.Name != "" {
			l.warn("person-without-hours", fmt.Sprintf("%s has no hours in %s, so no work can be given to %s", p.Name, kitchenFile, p.Name), 0)
		}
		all = append(all, p)
	}
	return all
}

// businesses reads to whom cheese goes.
func businesses(o *object) []resources.Business {
	var all []resources.Business
	var names register
	for _, f := range o.objects("businesses", "business") {
		var b resources.Business
		b.Name, _ = names.claim(f, "name", nameText)
		b.Address, _ = either(f, "address", "", nameText)
		all = append(all, b)
	}
	return all
}

// round reads the daily round, nil when there is none.
func (l *loader) round(o *object) *resources.Round {
	f, ok := o.inner("round")
	if !ok {
		return nil
	}
	at, _ := take(f, "at", startClock)
	length, ok := take(f, "for", above0(resources.ParseMinutes))
	if ok && length > resources.Day {
		f.fault("for", Fault{What: "the round lasts at most a day"})
	}
	return &resources.Round{At: at, For: length}
}

// startClock reads a time of day at which something begins, which is before
// 24:00.
func startClock(text string) (resources.Clock, error) {
	c, err := resources.ParseClock(text)
	if err == nil && c == 24*60 {
		err = Fault{What: "a day has no 24:00 to start at", Got: text, Want: `"00:00"`}
	}
	return c, err
}

// milk reads the supplies.
func (l *loader) milk(o *object) []resources.Milk {
	var all []resources.Milk
	var names register
	for _, f := range o.objects("milk", "milk") {
		var m resources.Milk
		m.Name, _ = names.claim(f, "name", nameText)
		m.Days = weekdays(f, "days")
		m.Ready, _ = take(f, "ready", resources.ParseClock)
		m.Most, _ = either(f, "most", resources.NoLimit, resources.ParseVolume)
		m.Standing, _ = either(f, "standing", 0, above0(resources.ParseVolume))
		if m.Most != resources.NoLimit && m.Standing > m.Most {
			f.fault("standing", Fault{What: fmt.Sprintf("more comes without an order than a collection has at most, %s", resources.FormatVolume(m.Most)),
				Got: resources.FormatVolume(m.Standing), Want: "standing: " + resources.FormatVolume(m.Most)})
		}
		m.Keeps, _ = take(f, "keeps", resources.ParseMinutes)
		m.Order, _ = take(f, "order", resources.ParseMinutes)
		m.Closed = l.spans(f, "closed")
		all = append(all, m)
	}
	return all
}

// weekdays reads days as one text or as a list of them.
func weekdays(f *object, key string) resources.Weekdays {
	n := f.get(key)
	if n == nil {
		f.missing(key)
		return 0
	}
	if text, ok := scalarText(n); ok {
		days, err := resources.ParseWeekdays(text)
		if err != nil {
			f.fault(key, suggested(quantityFault(err), text, resources.ParseWeekdays))
		}
		return days
	}
	var days resources.Weekdays
	sets, _ := each(f, key, resources.ParseWeekdays)
	for _, set := range sets {
		days |= set
	}
	if len(f.list(key)) == 0 && n.Kind == sequence {
		f.fault(key, Fault{What: "name at least one day", Want: f.shown(key)})
	}
	return days
}
