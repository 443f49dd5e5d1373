package feed

import (
	"context"
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/edition"
	"ripeby/resources"
)

// eventually waits until something holds; it is seldom long.
func eventually(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if holds() {
			return
		}
	}
	t.Fatalf("it never came to this: %s", what)
}

// watching runs Watch until the test ends.
func watching(t *testing.T, s *stand) (stop func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	var done sync.WaitGroup
	done.Go(func() { s.Watch(ctx) })
	stop = sync.OnceFunc(func() { cancel(); done.Wait() })
	t.Cleanup(stop)
	return stop
}

func (s *stand) batches() int {
	if b := s.board.Load(); b.made != nil {
		return len(b.made.Plan.Batches)
	}
	return -1
}

func (s *stand) faults() []string { return s.board.Load().status.Faults }

func (s *stand) edit(folder string, plan func(context.Context) (*Made, error)) {
	s.kitchen.change(func(k *kitchenAt) { k.folder, k.plan = folder, plan })
}

// A changed folder gives a new plan; one that cannot be read leaves the last good
// plan, with what is wrong, until it can be read again.
func TestWatchPlansAnew(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	watching(t, s)
	s.edit("second", func(context.Context) (*Made, error) { return sampleMade(t, 3), nil })
	eventually(t, "three batches", func() bool { return s.batches() == 3 })

	path := s.address(t, "everything").Path()
	good := s.ask("GET", path).Body.String()
	s.edit("third", func(context.Context) (*Made, error) {
		return nil, &FolderFault{Lines: []string{"targets.yaml:3:5: <what> is wrong", "kitchen.yaml:1:1: and this"}}
	})
	eventually(t, "two faults", func() bool { return len(s.faults()) == 2 })
	if got := s.ask("GET", path).Body.String(); got != good || s.batches() != 3 {
		t.Error("the last good plan is not served any more")
	}
	page := s.ask("GET", s.address(t, "page").Path()).Body.String()
	if !strings.Contains(page, "targets.yaml:3:5: &lt;what&gt; is wrong") || !strings.Contains(page, "last good plan") {
		t.Errorf("the page does not say what is wrong:\n%s", page)
	}
	if got := s.ask("GET", "/health").Body.String(); got != "ok, with the last good plan\n" {
		t.Errorf("health: got %q", got)
	}
	plans := s.kitchen.plans
	time.Sleep(30 * time.Millisecond)
	if s.kitchen.plans != plans {
		t.Error("a folder with faults was tried again though it had not changed")
	}
	s.edit("fourth", func(context.Context) (*Made, error) { return sampleMade(t, 4), nil })
	eventually(t, "four batches and no fault", func() bool { return s.batches() == 4 && len(s.faults()) == 0 })
}

// A plan that is the folder's is not made again when the server starts; one that is
// older than the folder is, and so is one whose folder has changed meanwhile.
func TestWatchBeginsWithTheKeptPlan(t *testing.T) {
	store, c := &files{text: map[string][]byte{}}, &clock{at: sampleNow}
	fresh := stoodOn(t, sampleMade(t, 2), store, c)
	stop := watching(t, fresh)
	time.Sleep(30 * time.Millisecond)
	stop()
	if fresh.kitchen.plans != 0 {
		t.Errorf("a fresh plan: got %d plans, want none", fresh.kitchen.plans)
	}

	old := sampleMade(t, 2)
	old.Fresh = false // its files were copied, say; but the plan is remembered to be theirs
	known := stoodOn(t, old, store, c)
	stop = watching(t, known)
	time.Sleep(30 * time.Millisecond)
	stop()
	if known.kitchen.plans != 0 {
		t.Errorf("a plan that is known: got %d plans, want none", known.kitchen.plans)
	}

	changed := stoodOn(t, old, store, c)
	changed.edit("changed while the server was off", func(context.Context) (*Made, error) { return sampleMade(t, 5), nil })
	watching(t, changed)
	eventually(t, "five batches", func() bool { return changed.batches() == 5 })

	stale := stoodOn(t, old, &files{text: map[string][]byte{}}, c)
	stale.edit("folder", func(context.Context) (*Made, error) { return sampleMade(t, 6), nil })
	watching(t, stale)
	eventually(t, "six batches", func() bool { return stale.batches() == 6 })
}

// A folder that goes on changing is left alone until it has been quiet for a look;
// changes while a plan is being made lead to one more.
func TestWatchWaitsForQuiet(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	w := s.watch
	s.edit("a", func(context.Context) (*Made, error) { return sampleMade(t, 3), nil })
	for i, folder := range []string{"a", "b", "c", "c"} {
		s.kitchen.change(func(k *kitchenAt) { k.folder = folder })
		w.look(t.Context())
		if started := w.running != nil; started != (i == 3) {
			t.Errorf("look %d at %q: started %v", i, folder, started)
		}
	}
	s.kitchen.change(func(k *kitchenAt) { k.folder = "d" })
	w.look(t.Context()) // nothing while one is being made
	w.take(<-w.running)
	w.running = nil
	w.look(t.Context())
	w.look(t.Context())
	if w.running == nil {
		t.Fatal("what changed while a plan was being made was forgotten")
	}
	w.take(<-w.running)
	if s.kitchen.plans != 2 || s.kitchen.most != 1 {
		t.Errorf("got %d plans, %d at a time; want 2, one at a time", s.kitchen.plans, s.kitchen.most)
	}
}

// While another run plans nothing is wrong; when it is done its plan is shown, and
// is not made again when it is younger than the folder.
func TestWatchAnotherRun(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	watching(t, s)
	s.edit("second", func(context.Context) (*Made, error) { return nil, ErrBusy })
	eventually(t, "some tries", func() bool { s.kitchen.mu.Lock(); defer s.kitchen.mu.Unlock(); return s.kitchen.plans > 2 })
	if len(s.faults()) != 0 {
		t.Errorf("got faults %q, want none", s.faults())
	}
	s.kitchen.change(func(k *kitchenAt) { k.kept = sampleMade(t, 7) })
	eventually(t, "the other's plan", func() bool { return s.batches() == 7 })
	time.Sleep(10 * time.Millisecond)
	s.kitchen.mu.Lock()
	plans := s.kitchen.plans
	s.kitchen.mu.Unlock()
	time.Sleep(30 * time.Millisecond)
	if s.kitchen.mu.Lock(); s.kitchen.plans != plans {
		t.Error("the plan of the other run was made again")
	}
	s.kitchen.mu.Unlock()
}

// A failure that may pass is tried again after a while, a fault of ours (a panic)
// too; neither ends the server.
func TestWatchTriesAgain(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	watching(t, s)
	s.edit("second", func(context.Context) (*Made, error) { return nil, errors.New("disk full") })
	eventually(t, "the failure", func() bool { return slices.Equal(s.faults(), []string{"disk full"}) })
	s.kitchen.change(func(k *kitchenAt) { k.plan = func(context.Context) (*Made, error) { panic("broken invariant") } })
	s.clock.move(tryAgain)
	eventually(t, "the panic", func() bool { f := s.faults(); return len(f) == 1 && strings.Contains(f[0], "a fault of ripeby") })
	page := s.ask("GET", s.address(t, "page").Path()).Body.String()
	if strings.Contains(page, "goroutine") || strings.Contains(page, "broken invariant") || strings.Contains(page, ".go:") {
		t.Errorf("the page tells how ripeby is made: %s", page)
	}
	if said := s.said.String(); !strings.Contains(said, "broken invariant") || !strings.Contains(said, "watch_test.go:") {
		t.Errorf("the terminal is told %q, want the panic and its place", said)
	}
	s.kitchen.change(func(k *kitchenAt) { k.plan = func(context.Context) (*Made, error) { return sampleMade(t, 3), nil } })
	s.clock.move(tryAgain)
	eventually(t, "three batches", func() bool { return s.batches() == 3 && len(s.faults()) == 0 })
}

// Addresses that another run took back a moment before somebody new came into the kitchen
// stay taken back: making an address for them does not write the old book again.
func TestWatchLeavesTakenBackWhatIs(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	old := s.address(t, "Nell")
	book, err := address.Read(s.files)
	if err != nil {
		t.Fatal(err)
	}
	renewed, _ := book.Renew("Nell")
	renewed, _ = renewed.Complete([]string{"Nell", "Ivo"})
	if err := renewed.Keep(s.files); err != nil {
		t.Fatal(err)
	}
	made := sampleMade(t, 2)
	made.Problem.Kitchen.People = append(made.Problem.Kitchen.People, resources.Person{Name: "Wren"})
	s.show(made) // before the next look
	kept, err := address.Read(s.files)
	if err != nil {
		t.Fatal(err)
	}
	for name, b := range map[string]*address.Book{"served": s.board.Load().book, "kept": kept} {
		if _, standing := b.Find(old.Token); standing != address.Revoked {
			t.Errorf("%s: the old address is %v, want taken back", name, standing)
		}
	}
	if w := s.ask("GET", s.address(t, "Wren").Path()); w.Code != 200 {
		t.Errorf("Wren's: got %d", w.Code)
	}
	if w := s.ask("GET", old.Path()); w.Code != 410 {
		t.Errorf("the old address: got %d, want 410", w.Code)
	}
}

// When the server is stopped while a plan is being made, the planner is told, and
// waited for.
func TestWatchStops(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	stop := watching(t, s)
	begun, ended := make(chan bool), false
	s.edit("second", func(ctx context.Context) (*Made, error) {
		close(begun)
		<-ctx.Done()
		ended = true
		return nil, ctx.Err()
	})
	<-begun
	if !s.board.Load().status.Planning {
		t.Error("the board does not say that a plan is being made")
	}
	stop()
	if !ended || s.batches() != 2 {
		t.Errorf("ended %v, %d batches; want the planner ended and the old plan", ended, s.batches())
	}
}

// Addresses that another run takes back stop working at once, without a new plan;
// so do they when a plan is being made.
func TestWatchTakesAddressesBack(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	watching(t, s)
	hold := make(chan bool)
	s.edit("second", func(context.Context) (*Made, error) { <-hold; return sampleMade(t, 3), nil })
	eventually(t, "planning", func() bool { return s.board.Load().status.Planning })
	old := s.address(t, "Nell").Path()
	tag := header(s.ask("GET", s.address(t, "Ivo").Path()), "ETag")
	book, err := address.Read(s.files)
	if err != nil {
		t.Fatal(err)
	}
	book, _ = book.Renew("Nell")
	if err := book.Keep(s.files); err != nil {
		t.Fatal(err)
	}
	eventually(t, "410", func() bool { return s.ask("GET", old).Code == 410 })
	if w := s.ask("GET", s.address(t, "Nell").Path()); w.Code != 200 {
		t.Errorf("the new address: got %d, want 200", w.Code)
	}
	if w := s.ask("GET", s.address(t, "Ivo").Path(), "If-None-Match: "+tag); w.Code != 304 {
		t.Errorf("Ivo's: got %d, want 304", w.Code)
	}
	close(hold)
	eventually(t, "three batches", func() bool { return s.batches() == 3 })
	if w := s.ask("GET", old); w.Code != 410 {
		t.Errorf("after the plan: got %d, want 410", w.Code)
	}
	// A file that was damaged or removed meanwhile takes nothing back.
	s.files.mu.Lock()
	s.files.text[address.File] = []byte("{")
	s.files.mu.Unlock()
	eventually(t, "a word about it", func() bool { return strings.Contains(s.said.String(), "is damaged") })
	if w := s.ask("GET", s.address(t, "Nell").Path()); w.Code != 200 {
		t.Errorf("with a damaged file: got %d, want 200", w.Code)
	}
}

// What cannot be kept is said, and served all the same.
func TestWatchWithAFullDisk(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.files.full = errors.New("no space left on device")
	watching(t, s)
	s.edit("second", func(context.Context) (*Made, error) { return sampleMade(t, 3), nil })
	eventually(t, "three batches", func() bool { return s.batches() == 3 })
	if !strings.Contains(s.said.String(), "cannot be kept: no space left on device") {
		t.Errorf("got %q, want it said", s.said)
	}
	if w := s.ask("GET", s.address(t, "Nell").Path()); w.Code != 200 || !strings.Contains(w.Body.String(), "BH-3") {
		t.Errorf("got %d, want the new plan", w.Code)
	}
}

// A memory that is damaged costs a download, and is written anew.
func TestDamagedMemory(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	for _, broken := range []string{"{", `{"format":"ripeby/feeds/9"}`} {
		s.files.text[edition.MemoryFile] = []byte(broken)
		again := stoodOn(t, sampleMade(t, 2), s.files, s.clock)
		if w := again.ask("GET", s.address(t, "Nell").Path()); w.Code != 200 || !strings.Contains(again.said.String(), "written anew") {
			t.Errorf("%s: got %d and %q", broken, w.Code, again.said)
		}
		if _, err := edition.Read(s.files); err != nil {
			t.Errorf("%s: %v, want it mended", broken, err)
		}
	}
}
