package config

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// stages reads a recipe's stages, each with the object that it was read from.
func (l *loader) stages(o *object) ([]schedule.Stage, []*object) {
	if n := o.get("stages"); n == nil || n.Kind == sequence && len(n.Content) == 0 {
		o.missing("stages")
		return nil, nil
	}
	var all []schedule.Stage
	var names register
	nodes := o.objects("stages", "stage")
	if len(nodes) > MaxStages {
		o.fault("stages", Fault{What: fmt.Sprintf("%d stages are more than the limit of %d", len(nodes), MaxStages)})
		return nil, nil
	}
	for _, f := range nodes {
		var s schedule.Stage
		s.Name, _ = names.claim(f, "stage", nameText)
		s.Hands = handsOf(f)
		s.Hold = holdOf(f, l.problem.Kitchen.Step)
		s.At = l.at(f)
		goesByRoom(f, &s)
		s.Uses = l.uses(f)
		s.Fresh = fresh(f, s.Uses)
		s.Box = l.boxing(f)
		s.Care = careOf(f)
		s.Who = l.who(f)
		all = append(all, s)
	}
	return all, nodes
}

// handsOf reads the length of the work; nil when it comes to nothing. A length alone is one that
// does not go by the size of the batch.
func handsOf(f *object) *schedule.Hands {
	if n := f.get("hands"); n != nil && n.Kind == yaml.ScalarNode {
		if fixed, ok := value(f, "hands", resources.ParseRate); ok && fixed > 0 {
			return &schedule.Hands{Fixed: fixed}
		}
		return nil
	}
	h, ok := f.inner("hands")
	if !ok {
		return nil
	}
	var hands schedule.Hands
	hands.Fixed, _ = take(h, "fixed", resources.ParseRate)
	hands.PerLitre, _ = take(h, "per_litre", resources.ParseRate)
	hands.PerPiece, _ = take(h, "per_piece", resources.ParseRate)
	if hands == (schedule.Hands{}) {
		return nil // no work needs no person
	}
	return &hands
}

// holdOf reads a hold and sees that something is left of it on the grid: least is
// rounded up, most down.
func holdOf(f *object, step resources.Minutes) *schedule.Hold {
	o, ok := f.inner("hold")
	if !ok {
		return nil
	}
	var h schedule.Hold
	var okLeast, okBest, okMost bool
	h.Least, okLeast = take(o, "least", resources.ParseMinutes)
	h.Most, okMost = take(o, "most", resources.ParseMinutes)
	h.Best, okBest = either(o, "best", 0, resources.ParseMinutes)
	h.HasBest = o.get("best") != nil
	setTimeOf(o, &h, okLeast && okMost)
	if !okLeast || !okBest || !okMost {
		return &h
	}
	show := resources.FormatMinutes
	switch least, most := resources.CeilLength(h.Least, step), resources.FloorLength(h.Most, step); {
	case h.Most < h.Least:
		o.fault("most", Fault{What: fmt.Sprintf("most (%s) is below least (%s)", show(h.Most), show(h.Least))})
	case h.HasBest && (h.Best < h.Least || h.Best > h.Most):
		o.fault("best", Fault{What: fmt.Sprintf("best (%s) must lie between least (%s) and most (%s)", show(h.Best), show(h.Least), show(h.Most))})
	case most < least:
		o.fault("most", Fault{What: fmt.Sprintf("between %s and %s there is no whole step of %s, so the hold has no length that can be planned",
			show(h.Least), show(h.Most), show(step))})
	}
	return &h
}

// at reads where a stage is: room, a cold place, or a range of temperatures.
func (l *loader) at(f *object) schedule.At {
	text, ok := f.text("at")
	if !ok || text == "room" {
		return schedule.At{Kind: schedule.AtRoom}
	}
	places := namesOf(l.problem.Kitchen.Cold, func(c resources.ColdPlace) string { return c.Name })
	if slices.Contains(places, text) {
		return schedule.At{Kind: schedule.AtPlace, Place: text}
	}
	if !startsLikeTemperature(text) {
		if f.knownName(f.get("at"), "at", text, "cold place", append(places, "room"), l.sure["cold"]) {
			return schedule.At{}
		}
		return schedule.At{Kind: schedule.AtPlace, Place: text}
	}
	at := schedule.At{Kind: schedule.AtRange}
	var err error
	if at.Low, at.High, err = resources.ParseTemperatureRange(text); err != nil {
		f.fault("at", suggested(quantityFault(err), text, func(text string) (resources.MilliCelsius, error) {
			low, _, err := resources.ParseTemperatureRange(text)
			return low, err
		}))
		return at
	}
	if l.sure["cold"] && len(l.placesOf(at)) == 0 {
		f.fault("at", Fault{What: "no cold place of the kitchen has a temperature in this range", Got: clip(text),
			Want: "a range that takes in one of " + l.temperatures()})
	}
	return at
}

// startsLikeTemperature reports whether a text that names no place is meant as
// degrees.
func startsLikeTemperature(text string) bool {
	r := []rune(text)
	return len(r) > 0 && (r[0] >= '0' && r[0] <= '9' || len(r) > 1 && (r[0] == '-' || r[0] == '−') && r[1] >= '0' && r[1] <= '9')
}

// temperatures names the kitchen's cold places with theirs.
func (l *loader) temperatures() string {
	if len(l.problem.Kitchen.Cold) == 0 {
		return "the cold places, of which there are none"
	}
	return listed(namesOf(l.problem.Kitchen.Cold, func(c resources.ColdPlace) string {
		return c.Name + " " + resources.FormatTemperature(c.Temperature)
	}))
}

// placesOf gives the cold places in which a stage can be, none for the room.
func (l *loader) placesOf(at schedule.At) []resources.ColdPlace {
	var all []resources.ColdPlace
	for _, c := range needs.Places(&l.problem.Kitchen, at) {
		all = append(all, l.problem.Kitchen.Cold[c])
	}
	return all
}

// uses reads what a stage occupies.
func (l *loader) uses(f *object) []schedule.Use {
	var all []schedule.Use
	words, nodes := each(f, "uses", nameText)
	pots := 0
	for i, word := range words {
		u, ok := l.use(f, nodes[i], word)
		if !ok {
			continue
		}
		if slices.Contains(all, u) {
			f.faultAt(nodes[i], "uses", Fault{What: "this is named twice", Got: clip(word)})
			continue
		}
		if u.Kind == schedule.UsePot {
			if pots++; pots > 1 {
				f.faultAt(nodes[i], "uses", Fault{What: "a batch fills one pot; name only one", Got: clip(word)})
				continue
			}
		}
		all = append(all, u)
	}
	return all
}

// use reads one word of uses.
func (l *loader) use(f *object, at *yaml.Node, word string) (schedule.Use, bool) {
	switch word {
	case "pot":
		return schedule.Use{Kind: schedule.UsePot}, true
	case "mould":
		return schedule.Use{Kind: schedule.UseMould}, true
	case "box":
		return schedule.Use{Kind: schedule.UseBox}, true
	}
	k := l.problem.Kitchen
	pots := namesOf(k.Pots, func(p resources.Pot) string { return p.Name })
	stations := namesOf(k.Stations, func(s resources.Station) string { return s.Name })
	switch {
	case slices.Contains(pots, word):
		return schedule.Use{Kind: schedule.UsePot, Name: word}, true
	case slices.Contains(stations, word):
		return schedule.Use{Kind: schedule.UseStation, Name: word}, true
	case slices.ContainsFunc(k.Moulds, func(m resources.Mould) bool { return m.Name == word }):
		f.faultAt(at, "uses", Fault{What: "moulds are named once for the recipe (mould: …); a stage says only that it uses them", Got: clip(word), Want: "mould"})
		return schedule.Use{}, false
	case slices.ContainsFunc(k.Boxes, func(b resources.Box) bool { return b.Name == word }):
		f.faultAt(at, "uses", Fault{What: "boxes are named in box: {…}; a stage says only that it uses them", Got: clip(word), Want: "box"})
		return schedule.Use{}, false
	case slices.ContainsFunc(k.Cold, func(c resources.ColdPlace) bool { return c.Name == word }):
		f.faultAt(at, "uses", Fault{What: "a cold place is not kit", Got: clip(word), Want: "at: " + word})
		return schedule.Use{}, false
	}
	all := slices.Concat([]string{"pot", "mould", "box"}, pots, stations)
	return schedule.Use{}, f.knownName(at, "uses", word, "pot or station", all, l.sure["pots"] && l.sure["stations"])
}

// fresh reads for which kit a new run starts, each of which the stage uses. A
// Stage can say so for its stations only together.
func fresh(f *object, uses []schedule.Use) []schedule.UseKind {
	var kinds []schedule.UseKind
	words, nodes := each(f, "fresh", nameText)
	stations := 0
	for i, word := range words {
		at := slices.IndexFunc(uses, func(u schedule.Use) bool {
			return u.Name == word || word == "pot" && u.Kind == schedule.UsePot ||
				word == "mould" && u.Kind == schedule.UseMould || word == "box" && u.Kind == schedule.UseBox
		})
		if at < 0 {
			f.faultAt(nodes[i], "fresh", Fault{What: "the stage does not use this; fresh names something of uses", Got: clip(word)})
			continue
		}
		if slices.Contains(words[:i], word) {
			f.faultAt(nodes[i], "fresh", Fault{What: "this is named twice", Got: clip(word)})
			continue
		}
		if uses[at].Kind == schedule.UseStation {
			stations++
		}
		if !slices.Contains(kinds, uses[at].Kind) {
			kinds = append(kinds, uses[at].Kind)
		}
	}
	used := 0
	for _, u := range uses {
		if u.Kind == schedule.UseStation {
			used++
		}
	}
	if stations > 0 && stations < used {
		f.fault("fresh", Fault{What: fmt.Sprintf("the stage uses %d stations; fresh names all of them or none", used)})
	}
	return kinds
}

// careOf reads care; every is whole days.
func careOf(f *object) *schedule.Care {
	o, ok := f.inner("care")
	if !ok {
		return nil
	}
	var c schedule.Care
	c.Do, _ = take(o, "do", nameText)
	c.Every, _ = take(o, "every", func(text string) (int, error) {
		m, err := resources.ParseMinutes(text)
		if err == nil && (m == 0 || m%resources.Day != 0) {
			err = Fault{What: "care falls due every so many whole days", Got: clip(text), Want: "every: 2 d"}
		}
		return int(m / resources.Day), err
	})
	c.Hands, _ = take(o, "hands", resources.ParseMinutes)
	return &c
}

// who reads whom a stage's work is limited to; nil for anybody.
func (l *loader) who(f *object) []string {
	words, nodes := each(f, "who", nameText)
	people := namesOf(l.problem.Kitchen.People, func(p resources.Person) string { return p.Name })
	for i, word := range words {
		if slices.Contains(words[:i], word) {
			f.faultAt(nodes[i], "who", Fault{What: "this person is named twice", Got: clip(word)})
			continue
		}
		f.knownName(nodes[i], "who", word, "person", people, l.sure["people"])
	}
	return words
}
