package readings

import (
	"strings"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Told is what people measured of the temperature of a place, by the record: every reading with a unit of
// temperature that stands, said of the place or of one of its shelves. Of the room it is also what was said of
// a batch under that name: "room 19 °C".
func Told(book *record.Book, place string) (all []Reading) {
	for _, e := range book.Standing() {
		measured := e.Place.Measured
		switch {
		case e.Subject.Kind == record.OfPlace && e.Subject.Name == place:
		case place == Room:
			measured = ofTheRoom(e.Batch.Measured)
		default:
			continue
		}
		for _, m := range measured {
			if is, err := resources.ParseTemperature(m.Is); err == nil {
				all = append(all, Reading{e.At, is})
			}
		}
	}
	return all
}

// ofTheRoom are those of a batch's readings that are of the room.
func ofTheRoom(all []record.Measure) (some []record.Measure) {
	for _, m := range all {
		if what := strings.ToLower(m.What); what == Room || what == Room+" temperature" {
			some = append(some, m)
		}
	}
	return some
}
