package drawings

import (
	"net/url"
	"strconv"
	"time"

	"ripeby/calendar/cold"
	"ripeby/resources"
	"ripeby/schedule"
)

// Present is what the address of a place's sheet has for now, in place of a day.
const Present = "now"

// Places are the cold places at a moment, or one of them.
type Places struct {
	*cold.Shown
	Maps  []Part
	Whole string // the picture of all, below the page's own address
}

// Part is a shelf, or a counted place, with its pictures.
type Part struct {
	cold.PartShown
	Small, Large Drawing
	To           string // the sheet of its place, below the page's own address
}

// PlacesAt are the cold places at a moment; when is how addresses have it, a day or [Present], and in the one
// place that is asked for, "" for all.
func PlacesAt(p *schedule.Problem, plan *schedule.Plan, at resources.Moment, when, in string) (*Places, error) {
	shown, err := cold.Show(p, plan, at)
	if err != nil {
		return nil, err
	}
	moment := coldAt + at.In(time.UTC).Format(momentForm)
	c := &Places{Shown: shown, Whole: moment + pictureEnd}
	for _, part := range shown.Parts {
		if in != "" && part.Place != in {
			continue
		}
		nr := moment + "-" + strconv.Itoa(part.Number)
		c.Maps = append(c.Maps, Part{PartShown: part, To: coldAt + when + "/" + url.PathEscape(part.Place),
			Small: Drawing{nr + pictureEnd, cold.SmallWide, part.Small}, Large: Drawing{nr + largeEnd + pictureEnd, cold.LargeWide, part.Large}})
	}
	return c, nil
}
