package warmth

import (
	"fmt"
	"net/url"
	"strings"
	"time"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

// Source is where readings come from.
type Source interface {
	// Course is what is known of a place over a span of time, and what of it cannot be read, a line each.
	Course(place string, span resources.Span, zone *time.Location) (course readings.Course, faults []string)
}

// Step is by how much what is shown moves on. A source may give the same for the same span.
const Step resources.Minutes = 5

// Caution goes with every reading that is shown.
const Caution = "A thermometer's reading is no food-safety check: local rules and your own checks decide. " +
	"One reading a quarter of an hour is kept, so what goes up and down within one is not seen."

// Shown is how warm a place was, as a page has it.
type Shown struct {
	Place         string // as the kitchen has it
	To            string // the page of the place, below the page's own address
	Title         string
	Short         string   // in one line
	Says          []string // the same and more, a sentence each
	Days          layout.Table
	At            string // the picture, below the page's own address
	Width, Height int    // of it, in pixels
	Caution       string
}

// Show gives the places of which something is known, or one of them, "" for all, and what of the readings cannot
// be read. There are none where there is no source.
func Show(p *schedule.Problem, from Source, in string, now resources.Moment) (all []Shown, faults []string) {
	zone, err := words.Zone(p)
	if from == nil || err != nil {
		return nil, nil
	}
	span := upTo(now)
	for i, place := range readings.Places(&p.Kitchen) {
		if in != "" && in != place {
			continue
		}
		course, bad := from.Course(place, span, zone)
		faults = bad // of all places
		if course.Empty() {
			continue
		}
		s := said{&course, zone}
		all = append(all, Shown{Place: place, To: "cold/now/" + url.PathEscape(place), Title: title(place), Short: s.short(), Says: s.sentences(), Days: s.days(),
			At: pictureAt(i, span.Until), Width: Wide, Height: High, Caution: Caution})
	}
	return all, faults
}

// upTo is what is shown at a moment: what came in this minute too.
func upTo(now resources.Moment) resources.Span {
	until := now - now%resources.Moment(Step) + resources.Moment(Step)
	return resources.Span{From: until.Add(-readings.Window), Until: until}
}

// title is the name of a place as a heading.
func title(place string) string {
	if place == readings.Room {
		return "The room"
	}
	return words.Capital(words.Printable(place))
}

// said puts a course into words.
type said struct {
	*readings.Course
	zone *time.Location
}

// short is the least, the greatest and the latest, in one line.
func (s said) short() string {
	all, by := s.All(), ""
	if len(all) == 0 {
		all, by = s.Told, " by hand"
	}
	last := all[len(all)-1]
	return fmt.Sprintf("7 days%s: %s, latest %s at %s.", by, between(all), words.Degrees(last.Is), s.stamp(last.At))
}

// between is from the least to the greatest.
func between(all []readings.Reading) string {
	least, greatest := words.Degrees(readings.Coldest(all).Is), words.Degrees(readings.Warmest(all).Is)
	if least == greatest {
		return least
	}
	number, _, _ := strings.Cut(least, words.Glue)
	return number + " to " + greatest
}

// stamp is a moment within seven days.
func (s said) stamp(m resources.Moment) string {
	return words.Midnight(m.DateIn(s.zone)).Format("Mon 2 Jan") + " " + words.Clock(m, s.zone)
}

// sentences are all that is to be said of a course.
func (s said) sentences() []string {
	out := []string{s.short()}
	all := s.All()
	if len(all) == 0 {
		return append(out, "No thermometer told anything.")
	}
	coldest, warmest := readings.Coldest(all), readings.Warmest(all)
	if coldest.Is != warmest.Is {
		out = append(out, fmt.Sprintf("Least %s at %s, greatest %s at %s.", words.Degrees(coldest.Is), s.stamp(coldest.At), words.Degrees(warmest.Is), s.stamp(warmest.At)))
	}
	out = append(out, s.gaps()...)
	if n := len(s.Told); n > 0 {
		last := s.Told[n-1]
		out = append(out, fmt.Sprintf("Measured by hand %s: %s, latest %s at %s.", words.Count(n, "time", "times"), between(s.Told), words.Degrees(last.Is), s.stamp(last.At)))
	}
	return out
}

// mostGaps is how many gaps are named.
const mostGaps = 4

// gaps says when no reading came.
func (s said) gaps() (out []string) {
	var named []string
	more, sum := 0, resources.Minutes(0)
	for _, g := range s.Gaps {
		switch {
		case g.From == s.Span.From:
			out = append(out, "The first reading is of "+s.stamp(g.Until)+".")
		case g.Until == s.Span.Until:
			out = append(out, "No readings since "+s.stamp(g.From)+".")
		case len(named) < mostGaps:
			until := s.stamp(g.Until)
			if g.From.DateIn(s.zone) == g.Until.DateIn(s.zone) {
				until = words.Clock(g.Until, s.zone)
			}
			named = append(named, s.stamp(g.From)+" to "+until)
		default:
			more, sum = more+1, sum+g.Until.Sub(g.From)
		}
	}
	if len(named) > 0 {
		text := "No readings " + strings.Join(named, ", ")
		if more > 0 {
			text += fmt.Sprintf(", and in %s more, %s in all", words.Count(more, "gap", "gaps"), words.Length(sum))
		}
		out = append(out, text+".")
	}
	return out
}
