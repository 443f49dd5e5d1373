package warmth

import (
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

// The pieces of an address of a picture.
const (
	pictureBegins = "readings-"
	momentForm    = "20060102T1504Z"
	pictureEnds   = ".svg"
)

// pictureAt is where the picture of a place is up to a moment.
func pictureAt(number int, until resources.Moment) string {
	return "cold/" + pictureBegins + strconv.Itoa(number) + "-" + until.In(time.UTC).Format(momentForm) + pictureEnds
}

// kept is for how long before the present there are pictures: a page that was fetched shows its own for that long.
const kept = 2 * resources.Hour

// Picture draws what is at the last piece of an address; nil where no picture is. Only those of the present are
// drawn, or whoever may read could have every month read again.
func Picture(p *schedule.Problem, from Source, name string, now resources.Moment) []byte {
	rest, begins := strings.CutPrefix(name, pictureBegins)
	rest, ends := strings.CutSuffix(rest, pictureEnds)
	nr, moment, cut := strings.Cut(rest, "-")
	at, err := time.Parse(momentForm, moment)
	number, wrong := strconv.Atoi(nr)
	zone, zoneless := words.Zone(p)
	if from == nil || !begins || !ends || !cut || err != nil || wrong != nil || strconv.Itoa(number) != nr || zoneless != nil {
		return nil
	}
	span, places := upTo(resources.MomentOf(at)-1), readings.Places(&p.Kitchen)
	if span.Until != resources.MomentOf(at) || span.Until > upTo(now).Until || now.Sub(span.Until) > kept || number < 0 || number >= len(places) {
		return nil
	}
	course, _ := from.Course(places[number], span, zone)
	if course.Empty() {
		return nil
	}
	return draw(places[number], said{&course, zone})
}
