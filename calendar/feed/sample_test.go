package feed

import (
	"bytes"
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/address"
	"ripeby/calendar/label"
	"ripeby/calendar/list"
	"ripeby/calendar/note"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// sampleNow is when the tests' clocks begin.
var sampleNow = time.Date(2027, 3, 16, 8, 0, 0, 0, time.UTC)

// sampleMade is a plan of so many batches of two people, one after another.
func sampleMade(t testing.TB, batches int) *Made {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	from := resources.MomentOf(sampleNow)
	problem := &schedule.Problem{From: from, Kitchen: resources.Kitchen{Name: "Saltgrass <Lane> & Co", TimeZone: "Europe/Dublin", Zone: zone, Step: 5,
		People: []resources.Person{{Name: "Nell"}, {Name: "Ivo"}}}}
	plan := &schedule.Plan{Kitchen: "Saltgrass Lane", TimeZone: "Europe/Dublin", From: from, Outcome: schedule.Met}
	for i := range batches {
		at := from.Add(resources.Minutes(i) * resources.Day)
		make, pack := at.Add(60), at.Add(3*resources.Day)
		plan.Batches = append(plan.Batches, schedule.Batch{ID: fmt.Sprintf("BH-%d", i+1), Cheese: "Bramble hoop", Litres: 9000, Pieces: 16,
			Stages: []schedule.Task{
				{Stage: "make", Start: at, Work: 60, Who: "Nell", Hold: pack.Sub(make), Ends: pack, At: "cave", SlipUntil: at, BoxesAt: []schedule.Standing{{Place: "cave"}}},
				{Stage: "pack", Start: pack, Work: 30, Who: []string{"Nell", "Ivo"}[i%2], Ends: pack.Add(30), At: "room", SlipUntil: pack},
			}})
	}
	plan.Targets = []schedule.WantResult{{Target: "Stall", By: from.Add(20 * resources.Day), Cheese: "Bramble hoop", Wanted: 1, Met: 1}}
	schedule.CountMoves(plan, nil)
	note.Revise(problem, plan, nil)
	return &Made{Problem: problem, Plan: plan, Print: fmt.Sprint("plan of ", batches), Fresh: true}
}

// files is a Store in memory.
type files struct {
	mu   sync.Mutex
	text map[string][]byte
	full error // what writing fails with
}

func (f *files) Read(name string) ([]byte, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if text, ok := f.text[name]; ok {
		return text, nil
	}
	return nil, fs.ErrNotExist
}

func (f *files) Write(name string, text []byte) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.full != nil {
		return f.full
	}
	f.text[name] = text
	return nil
}

// clock is a clock that the test moves.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *clock) move(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(d)
}

// kitchenAt is a Kitchen that does what the test says.
type kitchenAt struct {
	mu     sync.Mutex
	folder string
	kept   *Made
	read   func() (*Made, error) // what reading the kept plan gives; nil for what is kept
	plan   func(context.Context) (*Made, error)
	told   *said.Told
	say    func(said.Saying) (said.Heard, error)

	plans, running, most int
}

func (k *kitchenAt) Print() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.folder
}

func (k *kitchenAt) PlanPrint() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.kept == nil {
		return ""
	}
	return k.kept.Print
}

func (k *kitchenAt) Kept() (*Made, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.read != nil {
		return k.read()
	}
	return k.kept, nil
}

func (k *kitchenAt) Plan(ctx context.Context) (*Made, error) {
	k.mu.Lock()
	k.plans++
	k.running++
	k.most = max(k.most, k.running)
	plan := k.plan
	k.mu.Unlock()
	made, err := plan(ctx)
	k.mu.Lock()
	defer k.mu.Unlock()
	k.running--
	if err == nil {
		k.kept = made
	}
	return made, err
}

func (k *kitchenAt) Told() (*said.Told, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.told, nil
}

func (k *kitchenAt) Say(s said.Saying) (said.Heard, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.say(s)
}

// Labels are those of any batch that is not said to have none.
func (k *kitchenAt) Labels(batch string, opt label.Options) ([]byte, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.kept == nil || k.kept.Plan.Batch(batch).Lot == "" {
		return nil, fmt.Errorf("%s has no lot yet", batch)
	}
	return label.Page(k.kept.Problem, []label.Lot{{Lot: k.kept.Plan.Batch(batch).Lot, Cheese: "Bramble hoop", Labels: 3}}, opt)
}

// Sheet is a page that names the batch, of one that is known and of one that is in the plan no more.
func (k *kitchenAt) Sheet(batch, back string) ([]byte, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	switch {
	case batch == "BH-2":
		return nil, errors.New("the record cannot be read just now")
	case batch != "BH-0" && (k.kept == nil || k.kept.Plan.Batch(batch) == nil):
		return nil, errors.New("there is none")
	}
	return fmt.Appendf(nil, "<!DOCTYPE html><title>%s</title><style>p{margin:0}</style><a href=\"%s\">Back</a>", html.EscapeString(batch), html.EscapeString(back)), nil
}

// Note is that of a kitchen in which nobody has said that anything went; none for what cannot be read.
func (k *kitchenAt) Note(p *schedule.Problem, plan *schedule.Plan, t list.Target, to resources.Business, back string) ([]byte, error) {
	if to.Name == "unread" {
		return nil, errors.New("the record cannot be read just now")
	}
	note, err := list.NoteOf(p, plan, t, to, nil)
	if err != nil {
		return nil, err
	}
	var page bytes.Buffer
	note.Back = back
	err = note.HTML(&page)
	return page.Bytes(), err
}

func (k *kitchenAt) change(f func(*kitchenAt)) {
	k.mu.Lock()
	defer k.mu.Unlock()
	f(k)
}

// stand is a server with all that the tests move.
type stand struct {
	*Server
	kitchen *kitchenAt
	files   *files
	clock   *clock
	said    *sayings
	secure  *tls.Config  // as it is served; nil for http
	stop    func() error // where the test stops it
}

// sayings collects what a server says.
type sayings struct {
	mu   sync.Mutex
	text strings.Builder
}

func (w *sayings) say(text string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.text.WriteString(text + "\n")
}

func (w *sayings) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}

// stood gives a server that shows the plan, without watching.
func stood(t testing.TB, made *Made) *stand {
	t.Helper()
	return stoodOn(t, made, &files{text: map[string][]byte{}}, &clock{at: sampleNow})
}

func stoodOn(t testing.TB, made *Made, store *files, c *clock) *stand {
	t.Helper()
	k := &kitchenAt{folder: "folder", kept: made}
	said := &sayings{}
	s, err := New(k, store, Options{Site: Site{Root: "http://127.0.0.1:7379", Loopback: true}, Version: "v1", Every: time.Millisecond, Now: c.now, Say: said.say})
	if err != nil {
		t.Fatal(err)
	}
	return &stand{Server: s, kitchen: k, files: store, clock: c, said: said}
}

// show shows another plan, as after planning anew.
func (s *stand) show(made *Made) {
	s.watch.show(made)
}

// address finds an address by its label.
func (s *stand) address(t testing.TB, label string) address.Address {
	t.Helper()
	for _, a := range s.board.Load().book.Addresses {
		if a.Label() == label {
			return a
		}
	}
	t.Fatalf("no address for %q", label)
	return address.Address{}
}

// ask answers a request for this machine; headers are "Name: value".
func (s *stand) ask(method, path string, headers ...string) *httptest.ResponseRecorder {
	return s.answer(httptest.NewRequest(method, "http://127.0.0.1:7379/", nil), path, headers...)
}

// send sends a form.
func (s *stand) send(path, body string, headers ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", "http://127.0.0.1:7379/", strings.NewReader(body))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return s.answer(r, path, headers...)
}

// answer answers a request for a path.
func (s *stand) answer(r *http.Request, path string, headers ...string) *httptest.ResponseRecorder {
	if u, err := r.URL.Parse(path); err == nil {
		r.URL = u
	}
	r.Host = "127.0.0.1:7379"
	for _, h := range headers {
		name, value, _ := strings.Cut(h, ": ")
		r.Header.Add(name, value)
	}
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w
}

func header(w *httptest.ResponseRecorder, name string) string {
	return strings.Join(w.Result().Header[http.CanonicalHeaderKey(name)], " | ")
}
