package ical

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// wording says quantities and moments in the words of an event, in the
// kitchen's zone. Words are English whatever the machine's language.
type wording struct {
	zone *time.Location
}

// moment is a local moment, "Tue 16 Mar 2027 07:30", with the zone's abbreviation
// in an hour that a clock change repeats.
func (w wording) moment(m resources.Moment) string {
	t := m.In(w.zone)
	if repeated(t) {
		return t.Format("Mon 2 Jan 2006 15:04 MST")
	}
	return t.Format("Mon 2 Jan 2006 15:04")
}

// day is a local date as a UID carries it.
func (w wording) day(m resources.Moment) string {
	return m.In(w.zone).Format("2006-01-02")
}

// length is an elapsed length as the kitchen folder writes it, "1 d 6 h".
func (w wording) length(d resources.Minutes) string {
	if d < 0 {
		return "-" + w.length(-d)
	}
	var parts []string
	// Lengths of work are spoken of in minutes up to two hours.
	if d < 2*resources.Hour {
		return fmt.Sprintf("%d min", d)
	}
	if days := d / resources.Day; days >= 2 {
		parts = append(parts, fmt.Sprintf("%d d", days))
		d %= resources.Day
	}
	if hours := d / resources.Hour; hours > 0 {
		parts = append(parts, fmt.Sprintf("%d h", hours))
	}
	if minutes := d % resources.Hour; minutes > 0 {
		parts = append(parts, fmt.Sprintf("%d min", minutes))
	}
	return strings.Join(parts, " ")
}

// litres is a volume with as many decimals as it needs, "7.5 L".
func (w wording) litres(v resources.Millilitres) string {
	s := strconv.FormatFloat(float64(v)/1000, 'f', 3, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".") + " L"
}

// pieces counts pieces.
func (w wording) pieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}

// spare counts pieces and says how many of them are not for sale.
func (w wording) spare(pieces, spare int) string {
	if spare == 0 {
		return w.pieces(pieces)
	}
	return fmt.Sprintf("%s (%d spare)", w.pieces(pieces), spare)
}

// kit lists things, with how many where there is more than one.
func (w wording) kit(kit []note.KitCount) string {
	var parts []string
	for _, k := range kit {
		if k.Count == 1 {
			parts = append(parts, clean(k.Thing))
		} else {
			parts = append(parts, fmt.Sprintf("%d x %s", k.Count, clean(k.Thing)))
		}
	}
	return strings.Join(parts, ", ")
}

// dose is what goes in, of which strength, and from which packet.
func (w wording) dose(d schedule.Dose) string {
	return words.DoseLine(&d, clean, words.Unglue)
}

// place names a place; the plan's "room" is the make room.
func (w wording) place(at string) string {
	if at == "room" {
		return "make room"
	}
	return clean(at)
}

// placeAndShelves names a place and how the boxes are spread over its shelves.
func (w wording) placeAndShelves(at string, boxes []note.ShelfCount) string {
	var parts []string
	for _, b := range boxes {
		many := "1 box"
		if b.Boxes != 1 {
			many = fmt.Sprintf("%d boxes", b.Boxes)
		}
		if b.Shelf != "" {
			many += " on " + clean(b.Shelf)
		}
		parts = append(parts, many)
	}
	if len(parts) == 0 {
		return w.place(at)
	}
	return w.place(at) + " (" + strings.Join(parts, ", ") + ")"
}
