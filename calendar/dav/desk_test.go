package dav

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/address"
	"ripeby/calendar/note"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// deskNow is when the tests' clock begins: a Tuesday.
var deskNow = time.Date(2027, 3, 16, 8, 0, 0, 0, time.UTC)

// nell and ivo write; away is a token that was taken back.
var (
	nell = address.Address{Kind: address.Writing, Person: "Nell", Token: strings.Repeat("n", 26)}
	ivo  = address.Address{Kind: address.Writing, Person: "Ivo", Token: strings.Repeat("i", 26)}
	away = strings.Repeat("a", 26)
)

// bookOf has them, and what they read at: the page and Nell's calendar.
func bookOf(t testing.TB) *address.Book {
	t.Helper()
	text := `{"format": "ripeby/addresses/1", "addresses": [`
	for _, a := range []address.Address{nell, ivo, {Kind: address.Writing, Person: "away", Token: away}, {Kind: address.Page, Token: strings.Repeat("p", 26)}, {Kind: address.OnePerson, Person: "Nell", Token: strings.Repeat("r", 26)}} {
		text += fmt.Sprintf(`{"kind": %q, "person": %q, "token": %q},`, a.Kind, a.Person, a.Token)
	}
	book, err := address.Decode([]byte(strings.TrimSuffix(text, ",") + "]}"))
	if err != nil {
		t.Fatal(err)
	}
	renewed, _ := book.Renew("away")
	return renewed
}

// kitchenDesk is a desk with a kitchen made by hand, whose record is a list.
type kitchenDesk struct {
	mu      sync.Mutex
	book    *address.Book
	problem *schedule.Problem
	plan    *schedule.Plan
	told    *said.Told
	heard   []said.Saying
	fails   error // what is said fails with
}

func (d *kitchenDesk) Book() *address.Book { return d.book }

func (d *kitchenDesk) Shown() (*schedule.Problem, *schedule.Plan, *said.Told) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.problem, d.plan, d.told
}

// Take puts down what is said as the record does: a word is taken once, and what is struck stands no more.
func (d *kitchenDesk) Take(a address.Address, x said.Saying) (said.Heard, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.fails != nil {
		return said.Heard{}, d.fails
	}
	for i := range d.heard {
		if d.heard[i].Once == x.Once {
			return said.Heard{Nr: i + 1, Before: true}, nil
		}
	}
	next := &said.Told{Last: d.told.Last + 1, Lately: slices.Clone(d.told.Lately), Answer: d.told.Answer}
	switch x.Verb {
	case "did":
		at := resources.MomentOf(deskNow)
		if moment, err := time.Parse(time.RFC3339, x.At); err == nil {
			at = resources.MomentOf(moment)
		}
		next.Lately = append(next.Lately, said.Word{Nr: next.Last, At: at, Who: a.Person, Batch: x.Words[0], Did: x.Words[1], Last: true})
	case "strike":
		next.Lately = slices.DeleteFunc(next.Lately, func(w said.Word) bool { return strconv.Itoa(w.Nr) == x.Words[0] })
	}
	d.heard, d.told = append(d.heard, x), next
	return said.Heard{Nr: next.Last}, nil
}

// change makes another plan of the one there is, as planning anew does.
func (d *kitchenDesk) change(f func(*schedule.Plan)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	plan := *d.plan
	plan.Batches = slices.Clone(plan.Batches)
	for i := range plan.Batches {
		plan.Batches[i].Stages = slices.Clone(plan.Batches[i].Stages)
	}
	f(&plan)
	note.Revise(d.problem, &plan, d.plan)
	d.plan = &plan
}

// sampleBatch is a batch of two stages, which Nell makes and packs; every second one Ivo packs.
func sampleBatch(n int, at resources.Moment) schedule.Batch {
	make, pack := at.Add(60), at.Add(3*resources.Day)
	return schedule.Batch{ID: fmt.Sprintf("BH-%d", n), Cheese: "Bramble hoop", Litres: 9000, Pieces: 16, Stages: []schedule.Task{
		{Stage: "make", Start: at, Work: 60, Who: "Nell", Hold: pack.Sub(make), Ends: pack, At: "cave", SlipUntil: at},
		{Stage: "pack", Start: pack, Work: 30, Who: []string{"Nell", "Ivo"}[n%2], Ends: pack.Add(30), At: "room", SlipUntil: pack},
	}}
}

// desk is a server of tasks with all that the tests move.
type desk struct {
	*Handler
	kitchen *kitchenDesk
	files   *files
	now     time.Time
	said    []string
}

// stood serves the tasks of two batches, one today and one tomorrow.
func stood(t testing.TB) *desk {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	from := resources.MomentOf(deskNow)
	k := &kitchenDesk{told: &said.Told{}, book: bookOf(t),
		problem: &schedule.Problem{From: from, Kitchen: resources.Kitchen{Name: "Saltgrass <Lane> & Co", TimeZone: "Europe/Dublin", Zone: zone, People: []resources.Person{{Name: "Nell"}, {Name: "Ivo"}}}},
		plan:    &schedule.Plan{TimeZone: "Europe/Dublin", From: from, Batches: []schedule.Batch{sampleBatch(1, from.Add(60)), sampleBatch(2, from.Add(60+resources.Day))}}}
	note.Revise(k.problem, k.plan, nil)
	d := &desk{kitchen: k, files: &files{text: map[string][]byte{}}, now: deskNow}
	d.restart()
	return d
}

// restart begins to serve anew, with what was kept.
func (d *desk) restart() {
	d.Handler = New(d.kitchen, d.files, Options{Link: func(path string) string { return "https://kitchen.example" + path }, Now: func() time.Time { return d.now }, Say: func(text string) { d.said = append(d.said, text) }})
}

// files is a Store in memory.
type files struct {
	text map[string][]byte
	full error // what writing fails with
}

func (f *files) Read(name string) ([]byte, error) {
	if text, ok := f.text[name]; ok {
		return text, nil
	}
	return nil, fs.ErrNotExist
}

func (f *files) Write(name string, text []byte) error {
	if f.full == nil {
		f.text[name] = text
	}
	return f.full
}

// request makes a request of somebody on this machine; header lists names and values in turn.
func request(who address.Address, method, path, body string, header ...string) *http.Request {
	r := httptest.NewRequest(method, "http://127.0.0.1:7379"+path, strings.NewReader(body))
	r.RemoteAddr = "127.0.0.1:50000"
	if who.Token != "" {
		r.SetBasicAuth(who.Person, who.Token)
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	return r
}

// ask answers one.
func (d *desk) ask(who address.Address, method, path, body string, header ...string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	d.ServeHTTP(w, request(who, method, path, body, header...))
	return w
}

// tasksOf is where somebody's tasks are.
func tasksOf(who address.Address) string {
	return (&person{Address: who, id: idOf(who.Person)}).tasks()
}

// at is where somebody's task of a stage is.
func (d *desk) at(t testing.TB, who address.Address, batch, stage string) string {
	t.Helper()
	v, f := d.viewOf(&person{who, idOf(who.Person), d.sheetsOf(d.kitchen.book, who.Person)}, "")
	if f != nil {
		t.Fatal(f)
	}
	for name, todo := range v.shelf.todos {
		if todo.Batch == batch && todo.Stage == stage {
			return tasksOf(who) + name
		}
	}
	t.Fatalf("%s has no task %s of %s", who.Person, stage, batch)
	return ""
}

// get fetches a task and its tag.
func (d *desk) get(t testing.TB, who address.Address, path string) (text, tag string) {
	t.Helper()
	w := d.ask(who, "GET", path, "")
	if w.Code != 200 {
		t.Fatalf("GET %s: got %d: %s", path, w.Code, w.Body)
	}
	return w.Body.String(), w.Header().Get("ETag")
}

// put sends a task.
func (d *desk) put(who address.Address, path, text string, header ...string) *httptest.ResponseRecorder {
	return d.ask(who, "PUT", path, text, append([]string{"Content-Type", "text/calendar; charset=utf-8"}, header...)...)
}

// with changes lines of a task: "NAME:value" in place of the line of that name, or added; "-NAME" without it.
func with(text string, lines ...string) string {
	for _, l := range lines {
		gone, drop := strings.CutPrefix(l, "-")
		name := strings.FieldsFunc(gone, func(r rune) bool { return r == ':' || r == ';' })[0]
		begin, rest, _ := strings.Cut(text, "BEGIN:VTODO\r\n")
		var kept []string
		for _, had := range strings.SplitAfter(rest, "\r\n") {
			if !strings.HasPrefix(had, name+":") && !strings.HasPrefix(had, name+";") {
				kept = append(kept, had)
			}
		}
		text = begin + "BEGIN:VTODO\r\n"
		if !drop {
			text += l + "\r\n"
		}
		text += strings.Join(kept, "")
	}
	return text
}
