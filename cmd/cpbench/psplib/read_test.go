package psplib_test

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"ripeby/cmd/cpbench/psplib"
)

// A project of our own: start, two tasks one after the other, end.
const smText = `****
file with basedata            : none
jobs (incl. supersource/sink ):  4
RESOURCES
  - renewable                 :  2   R
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          1           2
   2        1          1           3
   3        1          1           4
   4        1          0
****
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------
  1      1     0       0    0
  2      1     5       2    0
  3      1     7       1    3
  4      1     0       0    0
****
RESOURCEAVAILABILITIES:
  R 1  R 2
    2    4
`

// The same tasks; the second starts 5 to 9 after the first.
const schText = `2	2	0	0
0	1	1	1	[0]
1	1	1	2	[5]
2	1	2	3	1	[7]	[-9]
3	1	0

0	1	0	0	0
1	1	5	2	0
2	1	7	1	3
3	1	0	0	0
2	4
`

var (
	lengths  = []int{0, 5, 7, 0}
	demands  = [][]int{{0, 0}, {2, 0}, {1, 3}, {0, 0}}
	capacity = []int{2, 4}
)

func TestReadSM(t *testing.T) {
	got, err := psplib.ReadSM(strings.NewReader(smText))
	want := &psplib.Instance{Lengths: lengths, Demands: demands, Capacity: capacity,
		Lags: []psplib.Lag{{From: 0, To: 1, Least: 0}, {From: 1, To: 2, Least: 5}, {From: 2, To: 3, Least: 7}}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v %v, want %+v", got, err, want)
	}
}

func TestReadSCH(t *testing.T) {
	got, err := psplib.ReadSCH(strings.NewReader(schText))
	want := &psplib.Instance{Lengths: lengths, Demands: demands, Capacity: capacity,
		Lags: []psplib.Lag{{From: 0, To: 1, Least: 0}, {From: 1, To: 2, Least: 5}, {From: 2, To: 3, Least: 7}, {From: 2, To: 1, Least: -9}}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Fatalf("got %+v %v, want %+v", got, err, want)
	}
	if h := got.Horizon(0); h != 12 {
		t.Errorf("horizon: got %d, want 5 + 7", h)
	}
	if h := got.Horizon(10); h != 52 {
		t.Errorf("horizon with a pause of 10 for each of 4 tasks: got %d, want 52", h)
	}
}

// TestFaults: each malformed file is refused at the line where it goes wrong.
func TestFaults(t *testing.T) {
	tests := []struct {
		name, text, old, new string
		line                 int
		what                 string
	}{
		{"empty", smText, smText, "", 0, "tasks"},
		{"a word for a number", smText, "  2      1     5       2", "  2      1     five    2", 17, "a number"},
		{"a number out of all bounds", smText, "     5       2", " 1000001   2", 17, "a number"},
		{"fewer successors than said", smText, "   1        1          1           2", "   1        1          2           2", 8, "a row of successors"},
		{"a count below nought", smText, "   4        1          0", "   4        1          -1", 11, "a row of successors"},
		{"a job left out", smText, "   2        1          1           3\n", "", 9, "job"},
		{"two modes", smText, "   2        1  ", "   2        2  ", 9, "modes"},
		{"a successor that is not there", smText, "1           4", "1           9", 23, "a successor of job"},
		{"a job twice", smText, "  3      1     7", "  2      1     7", 18, "job"},
		{"no demands", smText, "  3      1     7       1    3", "  3      1     7", 18, "a row of requests"},
		{"demands for one thing of two", smText, "    7       1    3", "    7       1", 23, "demands of one task"},
		{"a length below nought", smText, "  1     5", "  1    -5", 17, "length and demands"},
		{"a capacity below nought", smText, "    2    4\n", "    2   -4\n", 23, "capacities"},
		{"capacities twice", smText, "    2    4\n", "    2    4\n    2    4\n", 24, "a second row of capacities"},
		{"no capacities", smText, "    2    4\n", "", 22, "things"},

		{"sch: empty", schText, schText, "", 1, "the head"},
		{"sch: a head below nought", schText, "2	2	0	0", "-5	2	0	0", 1, "the head"},
		{"sch: a word", schText, "[5]", "[five]", 3, "a number"},
		{"sch: a lag too few", schText, "[7]	[-9]", "[7]", 4, "a row of successors"},
		{"sch: tasks out of order", schText, "1	1	1	2	[5]", "2	1	1	2	[5]", 3, "a row of successors"},
		{"sch: a row too few", schText, "3	1	0\n\n", "", 9, "rows"},
		{"sch: a demand too many", schText, "1	1	5	2	0", "1	1	5	2	0	1", 8, "a row of demands"},
		{"sch: a demand below nought", schText, "1	1	5	2	0", "1	1	5	-2	0", 8, "length and demands"},
		{"sch: a capacity below nought", schText, "2	4\n", "-2	4\n", 11, "capacities"},
		{"sch: two modes", schText, "1	1	5	2	0", "1	2	5	2	0", 8, "mode"},
		{"sch: a successor that is not there", schText, "1	1	1	2	[5]", "1	1	1	4	[5]", 11, "a lag between tasks"},
		{"sch: capacities unlike the head", schText, "2	4\n", "2	4	1\n", 11, "capacities"},
	}
	for _, tt := range tests {
		read := psplib.ReadSM
		if tt.text == schText {
			read = psplib.ReadSCH
		}
		text := strings.Replace(tt.text, tt.old, tt.new, 1)
		if text == tt.text {
			t.Fatalf("%s: the text was not changed", tt.name)
		}
		_, err := read(strings.NewReader(text))
		var f *psplib.Fault
		if !errors.As(err, &f) || f.Line != tt.line || f.What != tt.what {
			t.Errorf("%s: got %v, want line %d: %s", tt.name, err, tt.line, tt.what)
		}
	}
}

// FuzzRead: whatever the text, a reader gives a fault or an instance that is whole.
func FuzzRead(f *testing.F) {
	f.Add(smText)
	f.Add(schText)
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func() (*psplib.Instance, error){
			func() (*psplib.Instance, error) { return psplib.ReadSM(strings.NewReader(text)) },
			func() (*psplib.Instance, error) { return psplib.ReadSCH(strings.NewReader(text)) },
		} {
			in, err := read()
			if err != nil {
				continue
			}
			n := len(in.Lengths)
			if n < 2 || len(in.Demands) != n || len(in.Capacity) == 0 {
				t.Fatalf("got %d tasks, %d demands, %d things", n, len(in.Demands), len(in.Capacity))
			}
			for _, l := range in.Lags {
				if min(l.From, l.To) < 0 || max(l.From, l.To) >= n {
					t.Fatalf("got lag %+v of %d tasks", l, n)
				}
			}
			if h := in.Horizon(0); h < 0 || h > 1<<31-1 {
				t.Fatalf("got horizon %d", h)
			}
		}
	})
}

// TestPublishedFiles reads every file of a folder of the public sets, where one is
// given.
func TestPublishedFiles(t *testing.T) {
	dir := os.Getenv("RIPEBY_RCPSP")
	if dir == "" {
		t.Skip("RIPEBY_RCPSP does not name a folder with the public sets j30, ubo10, …")
	}
	sets := map[string]int{"j30": 32, "j60": 62, "j10": 12, "j20": 22, "ubo10": 12, "ubo20": 22}
	for set, tasks := range sets {
		files, _ := filepath.Glob(filepath.Join(dir, set, "*.s*"))
		if len(files) == 0 {
			t.Errorf("%s: got no files", set)
		}
		for _, name := range files {
			file, err := os.Open(name)
			if err != nil {
				t.Fatal(err)
			}
			read := psplib.ReadSM
			if filepath.Ext(name) == ".sch" {
				read = psplib.ReadSCH
			}
			in, err := read(file)
			file.Close()
			if err != nil || len(in.Lengths) != tasks {
				t.Errorf("%s: got %v, want %d tasks", name, err, tasks)
			}
		}
	}
}
