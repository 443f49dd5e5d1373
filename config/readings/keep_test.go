package readings

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/testrun"
)

// stored is what the files of a kitchen hold: each reading with how often it is there.
func stored(t *testing.T, kitchen string, zone *time.Location, from, until string) (all map[Line]int, told string) {
	t.Helper()
	lines, faults := Read(os.DirFS(kitchen), zone, resources.Span{From: moment(t, from), Until: moment(t, until)})
	all = map[Line]int{}
	for _, l := range lines {
		all[l]++
	}
	return all, faults.Error()
}

// Of a quarter of an hour the first is kept, of each place; also by another keeper after a restart, and in the
// file of the month before. A name is a cell of its own, whatever is in it.
func TestFirstOfAQuarterIsKept(t *testing.T) {
	kitchen, zone := t.TempDir(), dublin(t)
	for i, c := range []struct {
		at, place string
		is        resources.MilliCelsius
		added     bool
	}{
		{"2027-03-31 22:45", "fridge", 4600, true},
		{"2027-03-31 22:59", "fridge", 9900, false},
		{"2027-03-31 22:59", "cave, back", -20, true}, // 23:59 on the last of the month in Dublin
		{"2027-03-31 23:00", "fridge", 4700, true},    // midnight there
		{"2027-03-31 22:30", "fridge", 4500, true},    // out of order
		{"2027-03-31 23:14", "fridge", 1, false},
		{"2027-03-31 23:15", "fridge", 1, true},
		{"2027-03-31 22:50", `cave" back`, 5, true},
		{"2027-03-31 22:46", "cave, back", 5, false},
	} {
		k := NewKeeper(recordfile.InFolder(kitchen, Folder))
		added, err := k.Keep(Line{moment(t, c.at), c.place, c.is}, zone)
		if err != nil || added != c.added {
			t.Errorf("%d: got added %v, %v, want %v", i, added, err, c.added)
		}
	}
	for name, want := range map[string]string{
		"2027-03.csv": "at,place,celsius\n2027-03-31 23:45,fridge,4.60\n2027-03-31 23:59,\"cave, back\",-0.02\n2027-03-31 23:30,fridge,4.50\n2027-03-31 23:50,\"cave\"\" back\",0.01\n",
		"2027-04.csv": "at,place,celsius\n2027-04-01 00:00,fridge,4.70\n2027-04-01 00:15,fridge,0.00\n",
	} {
		if got, err := os.ReadFile(filepath.Join(kitchen, Folder, name)); err != nil || string(got) != want {
			t.Errorf("%s: got %q, %v, want %q", name, got, err, want)
		}
	}
}

// What people did to a file, or a lost plug, is told and stays where it is; what comes after is whole, and the
// quarters that are there are known. Nothing that was cut is taken for another number.
func TestDamageThenGoOn(t *testing.T) {
	zone := dublin(t)
	good := "2027-03-16 08:02,fridge,12.50"
	for _, c := range []struct{ name, before, after, told string }{
		{"nothing", "", header + "\n", ""},
		{"whole", header + "\n" + good + "\n", header + "\n" + good + "\n", ""},
		{"no line break", header + "\n" + good, header + "\n" + good + "\n", ""},
		{"only a header", header, header + "\n", ""},
		{"cut in the number", header + "\n" + good[:len(good)-3], header + "\n2027-03-16 08:02,fridge,12,cut\n", "readings/2027-03.csv:2: this line was cut short"},
		{"cut to a smaller number", header + "\n" + good[:len(good)-1], header + "\n2027-03-16 08:02,fridge,12.5,cut\n", ":2: this line was cut short"},
		{"cut in the name", header + "\n" + good[:20], header + "\n2027-03-16 08:02,fri,cut\n", ":2: this line was cut short"},
		{"cut in the header", "at,pl", "at,pl,cut\n", ":1: this line was cut short"},
		{"by a spreadsheet", "at,place,celsius\r\n2027-03-16 08:02,fridge,12.5\r\n", "at,place,celsius\r\n2027-03-16 08:02,fridge,12.5\r\n", ""},
		{"zeros", header + "\n" + good + "\n\x00\x00\x00\x00", header + "\n" + good + "\n\x00\x00\x00\x00,cut\n", ":3: this is not text"},
		{"rubbish between", "x\n" + good + "\ny,\"\n", "x\n" + good + "\ny,\"\n", ":1: a line has a time"},
	} {
		kitchen := t.TempDir()
		if err := os.Mkdir(filepath.Join(kitchen, Folder), 0o755); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(kitchen, Folder, "2027-03.csv")
		if err := os.WriteFile(file, []byte(c.before), 0o644); err != nil {
			t.Fatal(err)
		}
		k, want := NewKeeper(recordfile.InFolder(kitchen, Folder)), c.after
		for q := range 10 {
			l := Line{moment(t, "2027-03-16 09:00") + resources.Moment(15*q), "fridge", resources.MilliCelsius(1000 * q)}
			for range 2 {
				if _, err := k.Keep(l, zone); err != nil {
					t.Fatalf("%s: %v", c.name, err)
				}
			}
			text, _ := l.text(zone)
			want += text
		}
		if _, err := k.Keep(Line{moment(t, "2027-03-16 08:14"), "fridge", 1000}, zone); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(file)
		if err != nil || !strings.HasPrefix(string(got), want) {
			t.Errorf("%s: got %q, %v, want %q", c.name, got, err, want)
		}
		all, told := stored(t, kitchen, zone, "2027-03-10 00:00", "2027-03-17 00:00")
		kept := strings.Contains(c.after, "12.5") && !strings.Contains(c.after, "12.5,cut")
		if len(all) != 11 || (all[Line{moment(t, "2027-03-16 08:02"), "fridge", 12500}] == 1) != kept || (all[Line{moment(t, "2027-03-16 08:14"), "fridge", 1000}] == 1) == kept {
			t.Errorf("%s: got %v", c.name, all)
		}
		if c.told == "" && told != "" || !strings.Contains(told, c.told) {
			t.Errorf("%s: told %q, want %q", c.name, told, c.told)
		}
	}
}

// Two servers on one folder: of a thousand readings that both are sent at once none is lost and none doubled.
func TestTwoKeepers(t *testing.T) {
	const posts = 1000
	kitchen, zone := t.TempDir(), dublin(t)
	first := moment(t, "2027-03-25 06:00") // over the change of the clocks, and into April
	var both sync.WaitGroup
	var mu sync.Mutex
	added := map[Line]int{}
	for who := range 2 {
		both.Go(func() {
			k := NewKeeper(recordfile.InFolder(kitchen, Folder))
			for i := range posts / 2 {
				if who == 1 {
					i = posts/2 - 1 - i // they meet in the middle
				}
				l := Line{first + resources.Moment(15*i), []string{"fridge", "cave"}[i%2], resources.MilliCelsius(10 * i)}
				ok, err := k.Keep(l, zone)
				for errors.Is(err, recordfile.ErrBusy) {
					ok, err = k.Keep(l, zone)
				}
				if err != nil {
					t.Error(err)
				}
				if ok {
					mu.Lock()
					added[l]++
					mu.Unlock()
				}
			}
		})
	}
	both.Wait()
	all, told := stored(t, kitchen, zone, "2027-03-01 00:00", "2027-04-30 00:00")
	if len(all) != posts/2 || len(added) != posts/2 || told != "" {
		t.Fatalf("got %d readings of %d that were taken, want %d; told %q", len(all), len(added), posts/2, told)
	}
	for l, n := range all {
		if n != 1 || added[l] != 1 {
			t.Errorf("%v is there %d times, and was taken %d times", l, n, added[l])
		}
	}
}

// A month as large as may be takes no more, and says so.
func TestAMonthHasALimit(t *testing.T) {
	d := &liar{files: map[string][]byte{"2027-03.csv": append(make([]byte, MaxBytes-10), '\n')}, act: func(int) fate { return well }}
	if _, err := NewKeeper(d).Keep(Line{moment(t, "2027-03-16 08:00"), "fridge", 4600}, dublin(t)); err == nil || !strings.Contains(err.Error(), "readings/2027-03.csv is as large as it may be (limit 8388608 bytes)") {
		t.Errorf("got %v", err)
	}
}

// liar is a disk in memory where a step goes wrong.
type liar struct {
	files  map[string][]byte
	step   int
	act    func(step int) fate
	cannot bool // be cut back
}

// fate is what becomes of a step.
type fate int

const (
	well       fate = iota
	refuses         // nothing is done, and it says so
	half            // of a write half is done: the disk is full
	doneAndNot      // all is done, and it says that it is not
	killed          // the program ends before
	killedHalf      // in the middle
	killedOut       // after
	lastFate
)

var errFull = errors.New("no space left on device")

// end is what the program ends with.
type end struct{}

func (d *liar) do(step func(part int), size int) error {
	d.step++
	switch d.act(d.step) {
	case refuses:
		return errFull
	case half:
		step(size / 2)
		return errFull
	case doneAndNot:
		step(size)
		return errFull
	case killed:
		panic(end{})
	case killedHalf:
		step(size / 2)
		panic(end{})
	case killedOut:
		step(size)
		panic(end{})
	}
	step(size)
	return nil
}

func (d *liar) Lock() (func(), error)    { return func() {}, nil }
func (d *liar) Names() ([]string, error) { return nil, nil }
func (d *liar) Flush() error             { return d.do(func(int) {}, 0) }

func (d *liar) Read(name string, _ int64) ([]byte, error) {
	text, ok := d.files[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return slices.Clone(text), nil
}

func (d *liar) Append(name string) (recordfile.File, error) {
	err := d.do(func(int) { d.files[name] = append(d.files[name], ""...) }, 0)
	if d.cannot {
		return struct{ recordfile.File }{&lying{d, name}}, err
	}
	return &lying{d, name}, err
}

// lying is a file of it.
type lying struct {
	disk *liar
	name string
}

func (f *lying) Write(text []byte) (n int, err error) {
	err = f.disk.do(func(part int) {
		n = part
		f.disk.files[f.name] = append(f.disk.files[f.name], text[:part]...)
	}, len(text))
	return n, err
}

func (f *lying) Sync() error                { return f.disk.do(func(int) {}, 0) }
func (f *lying) Close() error               { return nil }
func (f *lying) Stat() (fs.FileInfo, error) { return size(len(f.disk.files[f.name])), nil }
func (f *lying) Truncate(n int64) error {
	f.disk.files[f.name] = f.disk.files[f.name][:n]
	return nil
}

// size is a file's, and nothing else of it.
type size int

func (s size) Name() string       { return "" }
func (s size) Size() int64        { return int64(s) }
func (s size) Mode() fs.FileMode  { return 0 }
func (s size) ModTime() time.Time { return time.Time{} }
func (s size) IsDir() bool        { return false }
func (s size) Sys() any           { return nil }

// keep sends a reading to a keeper, that of a program which may end.
func keep(k *Keeper, l Line, zone *time.Location) (err error) {
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(end); !ok {
				panic(r)
			}
			err = errFull
		}
	}()
	_, err = k.Keep(l, zone)
	return err
}

// Every step of keeping four readings goes wrong in every way, and so does one after it. What was answered is
// there once; what is sent again until it is answered too; and no other number ever is. Where the program goes
// on after an error, nothing half is left.
func TestNothingIsLostDoubledOrHalf(t *testing.T) {
	zone, runs := dublin(t), 0
	lines := []Line{}
	for i, at := range []string{"2027-03-31 22:00", "2027-03-31 22:15", "2027-03-31 23:00", "2027-03-31 23:15"} { // two in April
		lines = append(lines, Line{moment(t, at), "fridge", resources.MilliCelsius(12340 + 10*i)})
	}
	try := func(first, second int, how, then fate, cannot bool) (steps int) {
		runs++
		d := &liar{files: map[string][]byte{}, cannot: cannot}
		d.act = func(step int) fate {
			switch step {
			case first:
				return how
			case first + second:
				return then
			}
			return well
		}
		tell := func(what string, args ...any) {
			t.Helper()
			t.Fatalf("step %d: %d, the %d. after it: %d, cannot be cut %v: %s\n%q", first, how, second, then, cannot, fmt.Sprintf(what, args...), d.files)
		}
		k := NewKeeper(d)
		for n, l := range lines {
			for tries := 0; keep(k, l, zone) != nil; tries++ {
				if tries == 4 {
					tell("refused for ever")
				}
				if fate := max(how, then); fate < killed && !cannot {
					for name, text := range d.files {
						if _, faults := month(name, text, zone); len(faults) > 0 {
							tell("left half a line: %v", faults)
						}
					}
				}
				if tries%2 == 0 {
					k = NewKeeper(d) // it was ended and begun again
				}
			}
			found := map[Line]int{}
			for name, text := range d.files {
				got, _ := month(name, text, zone)
				for _, g := range got {
					found[g]++
				}
			}
			if len(found) != n+1 {
				tell("got %v", found)
			}
			for _, l := range lines[:n+1] {
				if found[l] != 1 {
					tell("%v is there %d times", l, found[l])
				}
			}
		}
		return d.step
	}
	for _, cannot := range []bool{false, true} {
		for how := refuses; how < lastFate; how++ {
			for first := 1; try(first, 0, how, well, cannot) >= first; first++ {
				for then := refuses; then < lastFate; then++ {
					for second := 1; second <= testrun.Rounds(3, 6); second++ {
						try(first, second, how, then, cannot)
					}
				}
			}
		}
	}
	if runs < 1000 {
		t.Errorf("got %d runs: too few steps went wrong", runs)
	}
}
