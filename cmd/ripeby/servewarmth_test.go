package main

import (
	"errors"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/feed"
	"ripeby/calendar/thermometer"
	kept "ripeby/config/readings"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// warmKitchen is a kitchen with a fridge and a cave that a spreadsheet would reckon, served.
func warmKitchen(t *testing.T) *servedPage {
	t.Helper()
	return servedWith(t, "boxes: [{name: tub, count: 12}]\ncold: [{name: fridge, temperature: 5 °C, boxes: 4}, {name: \"=cave, back\", temperature: 11 °C, boxes: 4}]\npeople:\n")
}

// of is the address of a kind, of a place where it is a thermometer's.
func (k *servedPage) of(kind address.Kind, place string) string {
	k.t.Helper()
	for _, a := range k.server.Book().Addresses {
		if a.Kind == kind && a.Place == place {
			return a.Path()
		}
	}
	k.t.Fatalf("no address for %s %s", kind, place)
	return ""
}

// posts has a thermometer post.
func (k *servedPage) posts(place, body string, want int) {
	k.t.Helper()
	if w := k.ask("POST", k.of(address.Thermometer, place), body); w.Code != want {
		k.t.Errorf("%s posts %q: got %d, %s, want %d", place, body, w.Code, w.Body, want)
	}
}

// march is the text of the readings of March.
func (k *servedPage) march() string {
	text, err := os.ReadFile(filepath.Join(k.folder, "readings", "2027-03.csv"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		k.t.Fatal(err)
	}
	return string(text)
}

// What thermometers post is in the folder and on the page, also after a restart; what nobody could have read is
// not, and the pages of a place draw the line.
func TestThermometersPost(t *testing.T) {
	k := warmKitchen(t)
	cold := k.of(address.Page, "") + "cold"
	if page := k.ask("GET", cold, "").Body.String(); strings.Contains(page, "Thermometers") {
		t.Error("without readings: the page has a part for them")
	}
	if w := k.ask("GET", cold+"/now/room", ""); w.Code != 404 {
		t.Errorf("without readings: the page of the room is %d, want 404", w.Code)
	}
	for i := range 6 {
		k.posts("fridge", fmt.Sprint(4.0+0.5*float64(i)), 204)
		k.posts("fridge", "9.9", 204) // the same quarter
		k.pass(15 * time.Minute)
	}
	k.posts("=cave, back", "-76.5 °F", 422)
	k.posts("=cave, back", "51.8 °F", 204)
	k.posts("room", "temperature=20.5&at=2027-03-04T19:58:00Z", 204)
	want := "at,place,celsius\n2027-03-04 20:00,fridge,4.00\n2027-03-04 20:15,fridge,4.50\n2027-03-04 20:30,fridge,5.00\n2027-03-04 20:45,fridge,5.50\n2027-03-04 21:00,fridge,6.00\n2027-03-04 21:15,fridge,6.50\n2027-03-04 21:30,\"'=cave, back\",11.00\n2027-03-04 19:58,room,20.50\n"
	if got := k.march(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	k.start()
	k.posts("fridge", "9.9", 204)
	k.posts("room", `{"temperature": 1, "at": "2027-03-04T19:46:00Z"}`, 204)
	if got := k.march(); got != want+"2027-03-04 21:30,fridge,9.90\n" {
		t.Errorf("after a restart: got %q", got)
	}
	page := k.ask("GET", cold, "").Body.String()
	for _, text := range []string{"Thermometers", ">Fridge<", "4 to 9.9", ">=cave, back<", "11\u00a0°C", ">The room<", "20.5\u00a0°C"} {
		if !strings.Contains(page, text) {
			t.Errorf("the page of the cold places has no %q: %s", text, page)
		}
	}
	for _, place := range []string{"fridge", "=cave%2C%20back", "room"} {
		page := k.ask("GET", cold+"/now/"+place, "").Body.String()
		picture := regexp.MustCompile(`src="([^"]*readings-\d-[^"]*\.svg)" width="328" height="196"`).FindStringSubmatch(page)
		if picture == nil || !strings.Contains(page, "no food-safety check: local rules") {
			t.Errorf("%s: no picture, or no caution, on %s", place, page)
			continue
		}
		if w := k.ask("GET", picture[1], ""); w.Code != 200 || w.Header().Get("Content-Type") != "image/svg+xml" || !strings.Contains(w.Body.String(), "temperature over seven days") {
			t.Errorf("%s: got %d, %s", picture[1], w.Code, w.Body)
		}
	}
	if page := k.ask("GET", cold+"/2027-03-05/fridge", "").Body.String(); strings.Contains(page, "How warm it was") {
		t.Error("the page of a day to come says how warm it was")
	}
	if text := k.ask("GET", k.of(address.Page, "")+"keep.json", "").Body.String(); !strings.Contains(text, `"cold/now/room"`) {
		t.Errorf("the page of the room is not kept: %s", text)
	}
	said := runWith(t.Context(), nil, "cold", "-C", k.folder, "--readings", "--at", "2027-03-04 21:30", "--shelf", "fridge")
	if said.code != 0 || !strings.Contains(said.out, "- 7 days: 4 to 9.9 °C, latest 9.9 °C at Thu 4 Mar 21:30.\n") {
		t.Errorf("got %v", said)
	}
}

// No key but the place's own posts, its key opens nothing, and taken back it says so.
func TestKeysOfThermometers(t *testing.T) {
	k := warmKitchen(t)
	fridge := k.of(address.Thermometer, "fridge")
	token := strings.TrimPrefix(fridge, "/t/")
	for _, path := range []string{"/p/" + token + "/", "/w/" + token + "/", "/w/" + token + "/say", "/f/" + token + ".ics", "/s/" + token + "/batch/QC-270304-1", fridge + "/", fridge + "/cold", "/t/" + token + ".csv", "/t"} {
		for _, method := range []string{"GET", "POST"} {
			body := ""
			if method == "POST" {
				body = "4.6"
			}
			if w := k.ask(method, path, body); w.Code < 400 {
				t.Errorf("%s %s: got %d", method, strings.ReplaceAll(path, token, "TOKEN"), w.Code)
			}
		}
	}
	for _, kind := range []address.Kind{address.Page, address.Writing, address.ColdPlaces, address.Everything, address.OnePerson} {
		other := regexp.MustCompile(`[a-z2-7]{26}`).FindString(k.of(kind, ""))
		if w := k.ask("POST", "/t/"+other, "4.6"); w.Code != 404 {
			t.Errorf("the key of %s posts: got %d", kind, w.Code)
		}
	}
	for _, page := range []string{"", "calendars", "cold", "more"} {
		if body := k.ask("GET", k.at("Nell")+page, "").Body.String(); strings.Contains(body, token) {
			t.Errorf("the page %q shows the key of the fridge", page)
		}
	}
	r := httptest.NewRequest("POST", "http://kitchen.evil.example"+fridge, strings.NewReader("4.6"))
	w := httptest.NewRecorder()
	k.server.ServeHTTP(w, r)
	if w.Code != 421 {
		t.Errorf("by another name: got %d, want 421", w.Code)
	}
	if w := k.ask("GET", fridge, ""); w.Code != 200 || strings.Contains(w.Body.String(), token) || strings.Count(w.Body.String(), "\n") != 1 {
		t.Errorf("asked how: got %d, %s", w.Code, w.Body)
	}
	if text := k.march(); text != "" {
		t.Errorf("something was written: %q", text)
	}
	if got := runWith(t.Context(), nil, "serve", "-C", k.folder, "--addresses", "--new-addresses=thermometer: fridge"); got.code != 0 || strings.Contains(got.out, token) {
		t.Fatal(got)
	}
	k.start()
	k.posts("fridge", "4.7", 204)
	if w := k.ask("POST", fridge, "4.6"); w.Code != 410 {
		t.Errorf("taken back: got %d, want 410", w.Code)
	}
}

// Readings are nothing that a plan goes by: the folder is the same with them, and no plan is made for them.
func TestReadingsMakeNoPlan(t *testing.T) {
	k := warmKitchen(t)
	p := newProgram(streams{nil, &heard{}, &heard{}}, func(string) string { return "" })
	w := newWatched(p, &settings{folder: k.folder, out: filepath.Join(k.folder, "plan")}, kitchen{folder: k.folder})
	print, plan := w.Print(), w.PlanPrint()
	k.posts("fridge", "4.6", 204)
	k.posts("room", "19", 204)
	if w.Print() != print || w.PlanPrint() != plan || k.march() == "" {
		t.Error("a reading makes the folder another")
	}
	if err := os.WriteFile(filepath.Join(k.folder, "readings", "2027-04.csv"), []byte("rubbish"), 0o644); err != nil {
		t.Fatal(err)
	}
	if w.Print() != print {
		t.Error("what is wrong with readings makes the folder another")
	}
}

// What can be kept nowhere is answered with a fault and told once; nothing half is there, and later it goes on.
func TestReadingsThatCannotBeKept(t *testing.T) {
	k := warmKitchen(t)
	in := filepath.Join(k.folder, "readings")
	if err := os.WriteFile(in, nil, 0o644); err != nil { // a file where the folder should be
		t.Fatal(err)
	}
	k.posts("fridge", "4.6", 500)
	k.posts("fridge", "4.6", 500)
	if err := os.Remove(in); err != nil {
		t.Fatal(err)
	}
	k.posts("fridge", "4.6", 204)
	file := filepath.Join(in, "2027-03.csv")
	if err := os.Rename(file, file+"~"); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("/dev/full", file); err == nil {
		k.pass(15 * time.Minute)
		k.posts("fridge", "4.7", 500)
		if err := os.Remove(file); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Rename(file+"~", file); err != nil {
		t.Fatal(err)
	}
	k.posts("fridge", "4.8", 204)
	if n := strings.Count(k.march(), "\n"); n < 2 || !strings.HasSuffix(k.march(), "\n") {
		t.Errorf("got %q", k.march())
	}
}

// Two servers of one folder, to which every reading is posted: of 1,000 posts of 250 quarters of an hour each
// quarter is there once.
func TestTwoServersKeepReadingsOnce(t *testing.T) {
	k := warmKitchen(t)
	first := k.server
	k.start()
	servers := []*feed.Server{first, k.server}
	path := k.of(address.Thermometer, "fridge")
	desk := []*thermometers{}
	for _, s := range servers {
		d := &thermometers{s, kept.NewKeeper(recordfile.InFolder(k.folder, kept.Folder))}
		desk = append(desk, d)
	}
	at := resources.MomentOf(k.now)
	var all sync.WaitGroup
	for who := range 4 {
		all.Go(func() {
			for i := range 250 {
				err := desk[who%2].Keep("fridge", at-resources.Moment(15*i), resources.MilliCelsius(10*i))
				for errors.Is(err, thermometer.ErrLater) {
					err = desk[who%2].Keep("fridge", at-resources.Moment(15*i), resources.MilliCelsius(10*i))
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	if w := k.ask("POST", path, "4.6"); w.Code != 204 {
		t.Errorf("got %d", w.Code)
	}
	w := &warm{folder: k.folder}
	course, faults := w.Course("fridge", resources.Span{From: at.Add(-readings.Window), Until: at + 1}, time.UTC)
	if n := len(course.All()); n != 250 || len(course.Gaps) != 1 || len(faults) != 0 {
		t.Errorf("got %d readings, %d gaps, faults %v, want 250, the one before them, none", n, len(course.Gaps), faults)
	}
}

// Of the demo nothing is listened to.
func TestTheDemoHasNoThermometers(t *testing.T) {
	if warmthOf(kitchen{demo: true}) != nil {
		t.Error("the demo has readings")
	}
}

// Five years of four thermometers, 700,000 lines: the page of a place reads the months of its seven days.
func BenchmarkWarmthOfFiveYears(b *testing.B) {
	folder := b.TempDir()
	if err := os.Mkdir(filepath.Join(folder, kept.Folder), 0o755); err != nil {
		b.Fatal(err)
	}
	day := resources.Date{Year: 2022, Month: 3, Day: 1}
	for range 61 {
		var text strings.Builder
		month := day.Month
		for ; day.Month == month; day = day.AddDays(1) {
			for q := range 96 {
				for _, place := range []string{"fridge", "cave", "pantry", "room"} {
					fmt.Fprintf(&text, "%s %02d:%02d,%s,4.60\n", day, q/4, q%4*15, place)
				}
			}
		}
		name := day.AddDays(-1).String()[:7] + ".csv"
		if err := os.WriteFile(filepath.Join(folder, kept.Folder, name), []byte(text.String()), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	until := resources.Date{Year: 2027, Month: 3, Day: 4}.Start(time.UTC)
	for b.Loop() {
		w := &warm{folder: folder}
		if course, faults := w.Course("cave", resources.Span{From: until.Add(-readings.Window), Until: until}, time.UTC); len(course.All()) != 672 || len(faults) != 0 {
			b.Fatal(len(course.All()), faults)
		}
	}
}
