package recordfile_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
	"ripeby/schedule/testrun"
)

// liar is a disk in memory that lies. What was written and not flushed is lost in a crash,
// or half of it, or it comes back as zeros; a file that is new in a folder that was not
// flushed may be gone.
type liar struct {
	files map[string]*lying
	step  int // writes, flushes and opened files so far
	act   func(step int) what
	dice  *rand.Rand
}

type lying struct {
	text   []byte
	safe   int // bytes that were flushed
	listed bool
}

// what happens at a step.
type what int

const (
	well       what = iota
	refuses         // nothing is done, and it says so
	half            // of a write half is done: the disk is full
	doneAndNot      // all is done, and it says that it is not
	crashed         // the plug is pulled before
	crashedIn       // in the middle
	crashedOut      // after
	lastWhat
)

var errDisk = errors.New("no space left on device")

// plug is what a crash panics with.
type plug struct{}

// do does a step, whole or half of it.
func (d *liar) do(step func(part int), size int) error {
	d.step++
	switch d.act(d.step) {
	case refuses:
		return errDisk
	case half:
		step(size / 2)
		return errDisk
	case doneAndNot:
		step(size)
		return errDisk
	case crashed:
		panic(plug{})
	case crashedIn:
		step(size / 2)
		panic(plug{})
	case crashedOut:
		step(size)
		panic(plug{})
	}
	step(size)
	return nil
}

func (d *liar) Lock() (func(), error) { return func() {}, nil }

func (d *liar) Names() ([]string, error) {
	var names []string
	for name := range d.files {
		names = append(names, name)
	}
	slices.Sort(names)
	return names, nil
}

func (d *liar) Read(name string, _ int64) ([]byte, error) {
	return slices.Clone(d.files[name].text), nil
}

func (d *liar) Append(name string) (recordfile.File, error) {
	err := d.do(func(int) {
		if d.files[name] == nil {
			d.files[name] = &lying{}
		}
	}, 0)
	return lyingFile{d, name}, err
}

func (d *liar) Flush() error {
	return d.do(func(int) {
		for _, f := range d.files {
			f.listed = true
		}
	}, 0)
}

// reboot is what the disk holds after a crash.
func (d *liar) reboot() {
	names, _ := d.Names()
	for _, name := range names {
		f := d.files[name]
		lost := len(f.text) - f.safe
		switch keep := f.safe + d.dice.IntN(lost+1); d.dice.IntN(3) {
		case 0:
			f.text = f.text[:f.safe]
		case 1:
			f.text = f.text[:keep]
		case 2:
			f.text = append(f.text[:keep], make([]byte, len(f.text)-keep)...)
		}
		if f.safe = len(f.text); !f.listed && d.dice.IntN(2) == 0 {
			delete(d.files, name)
		}
	}
}

type lyingFile struct {
	disk *liar
	name string
}

func (f lyingFile) Write(text []byte) (n int, err error) {
	err = f.disk.do(func(part int) {
		n = part
		f.disk.files[f.name].text = append(f.disk.files[f.name].text, text[:part]...)
	}, len(text))
	return n, err
}

func (f lyingFile) Sync() error {
	return f.disk.do(func(int) { f.disk.files[f.name].safe = len(f.disk.files[f.name].text) }, 0)
}

func (f lyingFile) Close() error { return nil }

// say adds one entry with a word; kept says that the answer came.
func (d *liar) say(zone *time.Location, day resources.Date, word string) (kept bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(plug); !ok {
				panic(r)
			}
			d.reboot()
			err = errors.New("the plug was pulled")
		}
	}()
	w, err := recordfile.Begin(d, zone)
	if err != nil {
		return false, err
	}
	defer w.End()
	added, err := w.Add(day, record.Entry{At: 29_990_000, Note: "ä note of " + word, Once: word})
	if err == nil && (len(added) != 1 || added[0].Once != word || added[0].Nr == 0) {
		return false, fmt.Errorf("got %+v for %s", added, word)
	}
	if err != nil {
		if _, again := w.Add(day, record.Entry{Note: "the same writer goes on"}); again == nil {
			return false, errors.New("a writer went on after its write failed")
		}
	}
	return err == nil, err
}

// TestNothingKeptIsLostOrDoubled goes through every step of saying four things, two of them
// in a month of their own, and has each go wrong in each way; and then, while that is being
// mended, one more. What was answered is there once. What was not is there once at the
// most, and said again it is there once. Afterwards ten more are said, and all are read.
func TestNothingKeptIsLostOrDoubled(t *testing.T) {
	zone := dublin(t)
	day := resources.Date{Year: 2027, Month: 3, Day: 30}
	runs := 0
	try := func(first, second int, how, then what) (steps int) {
		runs++
		d := &liar{files: map[string]*lying{}, dice: rand.New(rand.NewPCG(uint64(first*100+second), uint64(how*10+then)))}
		d.act = func(step int) what {
			switch step {
			case first:
				return how
			case first + second:
				return then
			}
			return well
		}
		kept := map[string]bool{}
		tell := func(format string, args ...any) {
			t.Helper()
			t.Fatalf("step %d goes wrong by %d, the %d. after it by %d: %s\n%q", first, how, second, then, fmt.Sprintf(format, args...), d.texts())
		}
		for i, word := range []string{"a", "b", "c", "d"} {
			d.sayUntilKept(tell, zone, day.AddDays(i), word) // two in March, two in April
			kept[word] = true
			d.mustHold(tell, zone, kept)
		}
		steps = d.step
		for i := range 10 {
			word := fmt.Sprint("more ", i)
			d.sayUntilKept(tell, zone, day, word)
			kept[word] = true
		}
		d.mustHold(tell, zone, kept)
		return steps
	}
	for how := refuses; how < lastWhat; how++ {
		for first := 1; try(first, 0, how, well) >= first; first++ {
			for then := refuses; then < lastWhat; then++ {
				if then != crashed && !testrun.Long {
					continue // it finds most of what is wrong
				}
				for second := 1; second <= testrun.Rounds(3, 6); second++ {
					try(first, second, how, then)
				}
			}
		}
	}
	if runs < 300 {
		t.Errorf("got %d runs: too few steps went wrong", runs)
	}
}

// sayUntilKept says one thing again until it is answered.
func (d *liar) sayUntilKept(tell func(string, ...any), zone *time.Location, day resources.Date, word string) {
	for range 4 {
		ok, err := d.say(zone, day, word)
		if ok {
			return
		}
		if !errors.Is(err, errDisk) && err.Error() != "the plug was pulled" {
			tell("%v", err)
		}
	}
	tell("%s is refused for ever", word)
}

// texts shows what the disk holds.
func (d *liar) texts() (all []string) {
	names, _ := d.Names()
	for _, name := range names {
		all = append(all, name+": "+string(d.files[name].text))
	}
	return all
}

// mustHold reads all, and wants each word that was answered once and no word twice.
func (d *liar) mustHold(tell func(string, ...any), zone *time.Location, kept map[string]bool) {
	w, err := recordfile.Begin(d, zone)
	if err != nil {
		tell("%v", err)
	}
	defer w.End()
	said, numbers := map[string]int{}, map[int]bool{}
	for _, e := range w.Book().All() {
		said[e.Once]++
		if numbers[e.Nr] || e.Nr == 0 {
			tell("number %d is given twice", e.Nr)
		}
		numbers[e.Nr] = true
		if e.Note != "ä note of "+e.Once {
			tell("got the note %q", e.Note)
		}
	}
	for word, n := range said {
		if n > 1 {
			tell("%q is there %d times", word, n)
		}
	}
	for word := range kept {
		if said[word] != 1 {
			tell("%q was answered, and is there %d times", word, said[word])
		}
	}
	for _, f := range w.Faults() {
		if !strings.Contains(f.What, "cut short") {
			tell("%v", f)
		}
	}
}
