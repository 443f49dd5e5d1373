package feed

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// steady is a source of a place that is read every quarter of an hour but for a gap, and by hand.
type steady struct{ place string }

func (s steady) Course(place string, span resources.Span, _ *time.Location) (readings.Course, []string) {
	var all, told []readings.Reading
	if place == s.place {
		for m := span.From; m < span.Until; m += 15 {
			if hour := m.Sub(span.From) / resources.Hour; hour < 50 || hour > 60 {
				all = append(all, readings.Reading{At: m, Is: resources.MilliCelsius(4000 + int64(m)*7919%1500)})
			}
		}
		told = append(told, readings.Reading{At: span.From.Add(30 * resources.Hour), Is: 4200})
	}
	return readings.Of(span, all, told), []string{"readings/2027-03.csv:7: <b>cold</b> is no number"}
}

// With thermometers each place has an address for one, and its page the line; what is posted goes beside the page.
func TestWarmthOnThePage(t *testing.T) {
	s := stood(t, pageMade(t))
	s.clock.at = pageNow
	if w := s.ask("GET", "/t/"+s.address(t, "page").Token); w.Code != 404 {
		t.Errorf("without thermometers: got %d", w.Code)
	}
	s.opt.Warmth = steady{"wine fridge"}
	s.Thermometers(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { w.WriteHeader(http.StatusTeapot) }))
	s.show(pageMade(t))
	for _, place := range readings.Places(&s.board.Load().made.Problem.Kitchen) {
		a := s.address(t, address.ThermometerOf(place))
		if w := s.send(a.Path(), "4.6"); w.Code != http.StatusTeapot {
			t.Errorf("%s: got %d, want what is beside the page", place, w.Code)
		}
		if w := s.ask("GET", "/p/"+a.Token+"/"); w.Code != 404 {
			t.Errorf("the key of a thermometer opens the page: %d", w.Code)
		}
		if w := s.ask("GET", "/f/"+a.Token+".ics"); w.Code != 404 {
			t.Errorf("the key of a thermometer opens a calendar: %d", w.Code)
		}
	}
	root := s.address(t, "page").Path()
	page := s.ask("GET", root+"cold/now/wine%20fridge").Body.String()
	for _, text := range []string{"How warm it was", "No readings ", "Measured by hand 1", "Day by day", `data-head="Least"`, "no food-safety check", "&lt;b&gt;cold&lt;/b&gt; is no number"} {
		if !strings.Contains(page, text) {
			t.Errorf("the page of the fridge has no %q: %s", text, page)
		}
	}
	if page := s.ask("GET", root+"cold").Body.String(); !strings.Contains(page, `<h2>Thermometers</h2>`) || !strings.Contains(page, root+`cold/now/wine%20fridge`) || strings.Contains(page, "The room") {
		t.Errorf("got %s", page)
	}
	_, rest, _ := strings.Cut(page, "readings-")
	name, _, _ := strings.Cut(rest, `"`)
	if w := s.ask("GET", root+"cold/readings-"+name); w.Code != 200 || header(w, "Content-Type") != "image/svg+xml" || !strings.Contains(header(w, "Content-Security-Policy"), "style-src 'sha256-") {
		t.Errorf("the picture %s: got %d", name, w.Code)
	}
	for _, path := range []string{"cold/now/room", "cold/readings-9-" + name[2:], "cold/readings-" + name + "/x", "cold/2027-03-16/readings-" + name} {
		if w := s.ask("GET", root+path); w.Code != 404 {
			t.Errorf("%s: got %d, want 404", path, w.Code)
		}
	}
}
