package drawings

import (
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/cold"
	"ripeby/calendar/strips"
	"ripeby/resources"
	"ripeby/schedule"
)

// The pieces of an address of a picture.
const (
	batchesAt  = "batches/"
	coldAt     = "cold/"
	pictureEnd = ".svg"
	deskEnd    = "-desk"
	largeEnd   = "-large"
	momentForm = "20060102T1504Z"
)

// IsPicture reports whether the last piece of an address is that of a picture, whether there is one or not.
func IsPicture(last string) bool { return strings.HasSuffix(last, pictureEnd) }

// Draw draws the picture at an address below the page's own, as an SVG; nil where there is none.
func Draw(p *schedule.Problem, plan *schedule.Plan, path string) ([]byte, error) {
	name, ok := strings.CutSuffix(path, pictureEnd)
	if !ok {
		return nil, nil
	}
	if day, ok := strings.CutPrefix(name, batchesAt); ok {
		return drawDays(p, plan, day), nil
	}
	if moment, ok := strings.CutPrefix(name, coldAt); ok {
		return drawPlaces(p, plan, moment)
	}
	return nil, nil
}

func drawDays(p *schedule.Problem, plan *schedule.Plan, name string) []byte {
	text, desk := strings.CutSuffix(name, deskEnd)
	day, err := resources.ParseDate(text)
	if err != nil || day.String() != text {
		return nil
	}
	days, wide := strips.PhoneDays, strips.PhoneWide
	if desk {
		days, wide = strips.DeskDays, strips.DeskWide
	}
	picture, _ := strips.DrawDays(p, plan, day, days, wide)
	return picture
}

func drawPlaces(p *schedule.Problem, plan *schedule.Plan, name string) ([]byte, error) {
	text, large := strings.CutSuffix(name, largeEnd)
	text, nr, one := strings.Cut(text, "-")
	at, err := time.Parse(momentForm, text)
	if err != nil || at.Year() < resources.FirstYear || at.Year() > resources.LastYear || large && !one {
		return nil, nil
	}
	if !one {
		return cold.Picture(p, plan, cold.Options{At: resources.MomentOf(at)})
	}
	number, err := strconv.Atoi(nr)
	if err != nil || strconv.Itoa(number) != nr {
		return nil, nil
	}
	pixels := cold.SmallWide
	if large {
		pixels = cold.LargeWide
	}
	return cold.PartPicture(p, plan, resources.MomentOf(at), number, pixels)
}
