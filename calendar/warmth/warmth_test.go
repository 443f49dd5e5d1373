package warmth

import (
	"bytes"
	"flag"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/readings"
)

var update = flag.Bool("update", false, "write the golden files anew")

// source has readings by place, and a fault.
type source struct {
	thermometer, told map[string][]readings.Reading
	asked             int
}

func (s *source) Course(place string, span resources.Span, _ *time.Location) (readings.Course, []string) {
	s.asked++
	return readings.Of(span, s.thermometer[place], s.told[place]), []string{"readings/2027-03.csv:7: wrong"}
}

// kitchen is the sample with a fridge that is read over the change of the clocks, with gaps, a cave measured by
// hand alone, and the room once.
func kitchen() (*schedule.Problem, *source, resources.Moment) {
	p := sample.Kitchen()
	at := func(text string) resources.Moment { return sample.At(p.Kitchen.Zone, text) }
	s := &source{thermometer: map[string][]readings.Reading{}, told: map[string][]readings.Reading{}}
	gaps := []resources.Span{{From: at("2027-03-27 22:30"), Until: at("2027-03-28 04:15")}, {From: at("2027-03-30 11:00"), Until: at("2027-03-30 12:00")}}
	for m, i := at("2027-03-25 14:00"), 0; m <= at("2027-03-31 07:00"); m, i = m+15, i+1 {
		if len(resources.Intersect(gaps, []resources.Span{{From: m, Until: m + 1}})) > 0 {
			continue
		}
		is := resources.MilliCelsius(3900 + i*37%700) // it hums, as fridges do
		if i%96 == 40 {
			is = 7250 // the door
		}
		s.thermometer["kitchen fridge"] = append(s.thermometer["kitchen fridge"], readings.Reading{At: m, Is: is})
	}
	s.told["kitchen fridge"] = []readings.Reading{{At: at("2027-03-26 08:00"), Is: 4800}, {At: at("2027-03-28 01:15") - 16, Is: 5000}}
	s.told["cheese cave"] = []readings.Reading{{At: at("2027-03-29 08:00"), Is: -11_000}}
	s.thermometer[readings.Room] = []readings.Reading{{At: at("2027-03-31 06:59"), Is: 19_500}}
	return p, s, at("2027-03-31 08:03")
}

// What is said of seven days: least, greatest, latest, and when nothing came, by the kitchen's own clocks.
func TestSentences(t *testing.T) {
	p, from, now := kitchen()
	all, faults := Show(p, from, "", now)
	var got strings.Builder
	for _, s := range all {
		fmt.Fprintf(&got, "%s | %s | %s\n%s\n", s.Title, s.At, s.To, words.Unglue(strings.Join(s.Says, "\n")))
	}
	want := `Kitchen fridge | cold/readings-0-20270331T0705Z.svg | cold/now/kitchen%20fridge
7 days: 3.9 to 7.3 °C, latest 4.4 °C at Wed 31 Mar 07:00.
Least 3.9 °C at Thu 25 Mar 14:00, greatest 7.3 °C at Fri 26 Mar 00:00.
The first reading is of Thu 25 Mar 14:00.
No readings since Wed 31 Mar 07:00.
No readings Sat 27 Mar 22:15 to Sun 28 Mar 04:15, Tue 30 Mar 10:45 to 12:00.
Measured by hand 2 times: 4.8 to 5 °C, latest 5 °C at Sun 28 Mar 00:59.
Cheese cave | cold/readings-1-20270331T0705Z.svg | cold/now/cheese%20cave
7 days by hand: -11 °C, latest -11 °C at Mon 29 Mar 08:00.
No thermometer told anything.
The room | cold/readings-2-20270331T0705Z.svg | cold/now/room
7 days: 19.5 °C, latest 19.5 °C at Wed 31 Mar 06:59.
The first reading is of Wed 31 Mar 06:59.
No readings since Wed 31 Mar 06:59.
`
	if got.String() != want {
		t.Errorf("got\n%s\nwant\n%s", got.String(), want)
	}
	if len(faults) != 1 {
		t.Errorf("got the faults %q, want each once", faults)
	}
	if one, _ := Show(p, from, "cheese cave", now); len(one) != 1 || one[0].Place != "cheese cave" || !strings.Contains(one[0].Caution, "no food-safety check: local rules") {
		t.Errorf("got %v", one)
	}
	for _, in := range []string{"pantry", "x"} {
		if got, _ := Show(p, from, in, now); len(got) != 0 {
			t.Errorf("%s: got %v", in, got)
		}
	}
	if got, faults := Show(p, nil, "", now); got != nil || faults != nil {
		t.Errorf("without a source: got %v", got)
	}
	for _, s := range all {
		for _, text := range append(s.Says, s.Caution) {
			if regexp.MustCompile(`(?i)\b(safe|unsafe|ok|okay|fine|too warm|too cold)\b`).MatchString(text) {
				t.Errorf("%q judges", text)
			}
		}
	}
}

// Many gaps are named as far as one reads them; a day with its gap is told in the table in hours. On 28 March
// 2027 the clocks of Dublin go from 01:00 to 02:00, so that from 22:15 to 04:15 are five hours, of which three
// and a quarter on that day.
func TestGapsAndDays(t *testing.T) {
	p, from, now := kitchen()
	all, _ := Show(p, from, "kitchen fridge", now)
	var table []string
	for _, row := range all[0].Days.Rows {
		table = append(table, words.Unglue(strings.Join(row, "|")))
	}
	if len(table) != 8 || table[3] != "Sat 27 Mar|3.9 °C|7.3 °C|90|1 h 45 min|" || table[4] != "Sun 28 Mar|3.9 °C|4.6 °C|79|3 h 15 min|5 °C" || table[0] != "Wed 24 Mar||||16 h 55 min|" {
		t.Errorf("got %q", table)
	}
	var some []readings.Reading
	for i := range 24 {
		some = append(some, readings.Reading{At: now.Add(-24 * resources.Hour).Add(resources.Minutes(i) * resources.Hour), Is: 4000})
	}
	from.thermometer["kitchen fridge"] = some
	all, _ = Show(p, from, "kitchen fridge", now)
	text := words.Unglue(strings.Join(all[0].Says, "\n"))
	if !strings.Contains(text, "09:03 to 10:03, ") || !strings.HasSuffix(text, "and in 19 gaps more, 19 h in all.\nMeasured by hand 2 times: 4.8 to 5 °C, latest 5 °C at Sun 28 Mar 00:59.") {
		t.Errorf("got %s", text)
	}
}

// The picture, over the change of the clocks and two gaps: no stroke leads across one.
func TestPicture(t *testing.T) {
	p, from, now := kitchen()
	drawn := Picture(p, from, "readings-0-20270331T0705Z.svg", now)
	if err := sample.Golden("fridge.svg", drawn, *update); err != nil {
		t.Error(err)
	}
	elements, err := sample.ReadPicture(drawn)
	if err != nil {
		t.Fatal(err)
	}
	lines := 0
	for _, e := range elements {
		if e.Name == "path" && e.Class == "ink" && e.ID == "" && bytes.Contains(drawn, []byte("stroke-width=\"1.6\"")) {
			lines++
		}
	}
	strokes := regexp.MustCompile(`stroke-linejoin="round" d="(M[^"]*)"`).FindAllSubmatch(drawn, -1)
	if len(strokes) != 3 || lines < 3 {
		t.Fatalf("got %d strokes, want one each before, between and after two gaps", len(strokes))
	}
	course, _ := from.Course("kitchen fridge", upTo(now), p.Kitchen.Zone)
	d := &picture{said: said{&course, p.Kitchen.Zone}, scale: scaleOf(course.All())}
	for i, run := range course.Runs {
		first, last := run[0], run[len(run)-1]
		text := string(strokes[i][1])
		if !strings.HasPrefix(text, fmt.Sprintf("M%d.", d.x(first.At)/10)) && !strings.HasPrefix(text, fmt.Sprintf("M%d ", d.x(first.At)/10)) || strings.Count(text, "M") != 1 || !strings.Contains(text[strings.LastIndex(text, "L"):], fmt.Sprintf("L%d", d.x(last.At)/10)) {
			t.Errorf("stroke %d is not from %d to %d: %s", i, d.x(first.At), d.x(last.At), text)
		}
	}
	if n := bytes.Count(drawn, []byte(`class="mark"`)); n != 3 { // two, and the legend
		t.Errorf("got %d signs of what was measured by hand, want 3", n)
	}
	if !bytes.Contains(drawn, []byte("Measured by hand 2 times")) || !bytes.Contains(drawn, []byte("prefers-color-scheme:dark")) {
		t.Error("the picture has no description, or no dark scheme")
	}
	// By hand: of 10,080 minutes on 284 px the day of the change has 1,380, 38.9 px, the others 1,440, 40.6 px.
	marks := regexp.MustCompile(`<path d="M([\d.]+) 8L[\d.]+ 156" class="month"/>`).FindAllSubmatch(drawn, -1)
	var at []float64
	for _, m := range marks {
		var x float64
		fmt.Sscan(string(m[1]), &x)
		at = append(at, x)
	}
	if len(at) != 7 || at[4]-at[3] < 38.7 || at[4]-at[3] > 39.1 || at[5]-at[4] < 40.4 || at[5]-at[4] > 40.8 {
		t.Errorf("midnights stand at %v", at)
	}
}

// There is a picture of each place of which something is known, for the last two hours, and nothing else at all.
func TestAddressesOfPictures(t *testing.T) {
	p, from, now := kitchen()
	shown, _ := Show(p, from, "", now)
	for _, s := range shown {
		name := strings.TrimPrefix(s.At, "cold/")
		if got := Picture(p, from, name, now); got == nil || !bytes.Contains(got, []byte(fmt.Sprintf(`width="%d" height="%d"`, s.Width, s.Height))) {
			t.Errorf("%s: no picture, or of another size", name)
		}
		if Picture(p, from, name, now.Add(kept)+2) == nil || Picture(p, from, name, now.Add(kept)+3) != nil {
			t.Errorf("%s: it is not there for two hours", name)
		}
	}
	from.asked = 0
	for _, name := range []string{"", "readings-0.svg", "readings-0-20270331T0705Z", "0-20270331T0705Z.svg", "readings-00-20270331T0705Z.svg", "readings--1-20270331T0705Z.svg", "readings-3-20270331T0705Z.svg",
		"readings-0-20270331T0704Z.svg", "readings-0-20270331T0710Z.svg", "readings-0-20260331T0700Z.svg", "readings-0-99990331T0700Z.svg", "readings-0-20270331T0705Z.svg.svg", "readings-x-20270331T0705Z.svg"} {
		if Picture(p, from, name, now) != nil {
			t.Errorf("%q: got a picture", name)
		}
	}
	if from.asked != 0 {
		t.Errorf("what is no picture had readings read %d times", from.asked)
	}
	if Picture(p, nil, "readings-0-20270331T0705Z.svg", now) != nil {
		t.Error("without a source: got a picture")
	}
}

// However a place reads, its line lies within its frame.
func TestScale(t *testing.T) {
	for _, c := range []struct{ least, greatest, from, until, step resources.MilliCelsius }{
		{4000, 4000, 2000, 6000, 1000}, {3900, 6200, 3000, 8000, 1000}, {-500, 300, -3000, 2000, 1000}, {2000, 9000, 2000, 10_000, 2000}, {-18_100, 4000, -20_000, 5000, 5000}, {-60_000, 100_000, -100_000, 100_000, 50_000}, {0, 100_000, 0, 100_000, 20_000},
	} {
		s := scaleOf([]readings.Reading{{Is: c.least}, {Is: c.greatest}})
		if s != (scale{c.from, c.until, c.step}) || s.least > c.least || s.greatest < c.greatest {
			t.Errorf("%d to %d: got %v, want %v", c.least, c.greatest, s, scale{c.from, c.until, c.step})
		}
	}
}

// Whatever a place is called, and however often it is read, a picture is whole and small, a page fits.
func TestOddPlaces(t *testing.T) {
	p, from, now := kitchen()
	name := "<b>\u202e & \"kä\"" + strings.Repeat("x", 200)
	p.Kitchen.Cold[0].Name = name
	var all []readings.Reading
	for i := range 200_000 {
		all = append(all, readings.Reading{At: upTo(now).From + resources.Moment(i/20), Is: resources.MilliCelsius(i * 7919 % 9000)})
	}
	from.thermometer[name] = all
	begin := time.Now()
	picture := Picture(p, from, "readings-0-20270331T0705Z.svg", now)
	if _, err := sample.ReadPicture(picture); err != nil || len(picture) > 500_000 || time.Since(begin) > 5*time.Second {
		t.Errorf("got %d bytes, %v", len(picture), err)
	}
	if err := sample.Harmless(string(picture)); err != nil {
		t.Error(err)
	}
	for _, width := range []int{0, 30, 40, 120} {
		var b strings.Builder
		shown, _ := Show(p, from, "", now)
		if err := Write(&b, shown, width, false); err != nil {
			t.Fatal(err)
		}
		if err := sample.Fits(b.String(), max(width, 80*min(1, max(0, 1-width)))); err != nil {
			t.Errorf("%d columns: %v", width, err)
		}
		if !strings.Contains(strings.Join(strings.Fields(b.String()), " "), "no food-safety check: local rules and your own checks decide") {
			t.Errorf("%d columns: without caution", width)
		}
	}
	var b strings.Builder
	if err := Write(&b, nil, 0, false); err != nil || !strings.Contains(b.String(), "No thermometer told anything") {
		t.Errorf("got %q, %v", b.String(), err)
	}
}
