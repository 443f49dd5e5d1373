package words

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"ripeby/resources"
	"ripeby/schedule"
)

// Words that must not be overlooked. Sharp marks a critical piece of work, and
// SharpNote says once what that is.
const (
	Sharp   = "sharp"
	Missing = "MISSING"
	TooFull = "TOO FULL"

	SharpNote = "sharp: it may begin no later, or a target breaks, however short the waits after it are made."
)

// Stock stands for a batch's id where pieces come from stock.
const Stock = "stock"

// Zone is the kitchen's zone, loaded if the caller has not.
func Zone(p *schedule.Problem) (*time.Location, error) {
	if p.Kitchen.Zone != nil {
		return p.Kitchen.Zone, nil
	}
	zone, err := time.LoadLocation(p.Kitchen.TimeZone)
	if err != nil {
		return nil, fmt.Errorf("the kitchen's time zone: %w", err)
	}
	return zone, nil
}

// StampOf is a moment's day and local time in the kitchen's zone, as in
// "Tue 16 Mar 07:30", with the zone's name in an hour that a clock change repeats; in
// UTC where there is no such zone.
func StampOf(p *schedule.Problem, m resources.Moment) string {
	zone, err := Zone(p)
	if err != nil {
		zone = time.UTC
	}
	return Stamp(m, zone)
}

// Join joins the parts that are not empty.
func Join(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), sep)
}

// Capital gives the text with its first letter large.
func Capital(s string) string {
	if s == "" {
		return s
	}
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

// Carry names cheese that is carried to another place.
func Carry(cheese, to string) string { return "carry " + cheese + " to the " + to }

// Look names a look at a cheese that was not ready for a stage.
func Look(stage, cheese string) string { return "look: is " + cheese + " ready to " + stage + "?" }
