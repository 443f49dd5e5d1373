package config

import (
	"ripeby/resources"
)

// The readers of kit differ in one or two keys; count and clean are common.

func countOf(f *object) int {
	n, _ := take(f, "count", whole(1, MaxCount))
	return n
}

func cleanOf(f *object) resources.Minutes {
	m, _ := take(f, "clean", resources.ParseMinutes)
	return m
}

// pots reads the pots.
func (l *loader) pots(o *object, names *register) []resources.Pot {
	var all []resources.Pot
	for _, f := range o.objects("pots", "pot") {
		var p resources.Pot
		p.Name, _ = names.claim(f, "name", kitName)
		p.Holds, _ = take(f, "holds", above0(resources.ParseVolume))
		p.Count, p.Clean = countOf(f), cleanOf(f)
		all = append(all, p)
	}
	return all
}

// stations reads hooks, presses, boards and whatever else is counted.
func (l *loader) stations(o *object, names *register) []resources.Station {
	var all []resources.Station
	for _, f := range o.objects("stations", "station") {
		var s resources.Station
		s.Name, _ = names.claim(f, "name", kitName)
		s.Count, s.Clean = countOf(f), cleanOf(f)
		either(f, "takes", 0, func(text string) (int, error) {
			var err error
			s.TakesVolume, s.TakesPieces, err = resources.ParseTakes(text)
			return 0, err
		})
		all = append(all, s)
	}
	return all
}

// moulds reads the moulds.
func (l *loader) moulds(o *object, names *register) []resources.Mould {
	var all []resources.Mould
	for _, f := range o.objects("moulds", "mould") {
		var m resources.Mould
		m.Name, _ = names.claim(f, "name", kitName)
		m.Count, m.Clean = countOf(f), cleanOf(f)
		all = append(all, m)
	}
	return all
}

// boxes reads the boxes. One without a size can stand in counted places only.
func (l *loader) boxes(o *object, names *register) []resources.Box {
	var all []resources.Box
	for _, f := range o.objects("boxes", "box") {
		var b resources.Box
		b.Name, _ = names.claim(f, "name", kitName)
		b.Count, b.Clean = countOf(f), cleanOf(f)
		b.Size, _ = either(f, "size", resources.Size{}, resources.ParseSize)
		b.Stack, _ = take(f, "stack", resources.ParseStacking)
		all = append(all, b)
	}
	return all
}

// cold reads the cold places: measured ones with shelves, counted ones with a
// number of boxes.
func (l *loader) cold(o *object, names *register) []resources.ColdPlace {
	var all []resources.ColdPlace
	for _, f := range o.objects("cold", "cold place") {
		var c resources.ColdPlace
		c.Name, _ = names.claim(f, "name", kitName)
		c.Temperature, _ = take(f, "temperature", resources.ParseTemperature)
		c.Shelves = l.shelves(f)
		c.Boxes, _ = either(f, "boxes", 0, whole(1, MaxCount))
		c.Taken = l.spans(f, "taken")
		shelves, boxes := f.get("shelves"), f.get("boxes")
		switch {
		case boxes != nil && len(c.Shelves) > 0:
			f.fault("boxes", Fault{What: "a place is measured by its shelves or counted in boxes, not both"})
		case boxes == nil && (shelves == nil || shelves.Kind == sequence && len(shelves.Content) == 0):
			f.page.faultAt(f.node, Fault{What: f.label + " says neither shelves nor boxes", Want: "shelves: [{name: top, size: 52 x 36 x 26 cm}], or boxes: 12"})
		}
		all = append(all, c)
	}
	return all
}

// shelves reads the shelves of one place; their names differ within it.
func (l *loader) shelves(o *object) []resources.Shelf {
	var all []resources.Shelf
	var names register
	for _, f := range o.objects("shelves", "shelf") {
		f.label = o.label + ", " + f.label
		var s resources.Shelf
		s.Name, _ = names.claim(f, "name", nameText)
		s.Size, _ = take(f, "size", resources.ParseSize)
		s.Taken = l.spans(f, "taken")
		all = append(all, s)
	}
	return all
}
