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

// The tasks of smText, wanted at 1, 3, 8 and 15.
const dznText = `n_tasks = 4;
n_res = 2;
d = [0, 5, 7, 0]; % lengths
rr = array2d(1..2, 1..4, [
  0, 2, 1, 0,
  0, 0, 3, 0]);
rc = [2, 4];
suc = [{2}, {3}, {4}, {}];
t_max = 20;
deadline = array2d(1..4, 1..3, [1, 5, 4, 3, 2, 2, 8, 4, 0, 15, 5, 2]);
`

func TestReadDZN(t *testing.T) {
	got, err := psplib.ReadDZN(strings.NewReader(dznText))
	if err != nil {
		t.Fatal(err)
	}
	want := &psplib.Dated{
		Instance: psplib.Instance{
			Lengths:  lengths,
			Demands:  demands,
			Capacity: capacity,
			Lags:     []psplib.Lag{{From: 0, To: 1, Least: 0}, {From: 1, To: 2, Least: 5}, {From: 2, To: 3, Least: 7}},
		},
		Dues: []psplib.Due{{At: 1, Early: 5, Late: 4}, {At: 3, Early: 2, Late: 2}, {At: 8, Early: 4, Late: 0}, {At: 15, Early: 5, Late: 2}},
		Most: 20,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestDueCost(t *testing.T) {
	d := psplib.Due{At: 8, Early: 4, Late: 3}
	for _, tt := range []struct{ start, want int }{{6, 8}, {7, 4}, {8, 0}, {9, 3}, {11, 9}} {
		if got := d.Cost(tt.start); got != tt.want {
			t.Errorf("start %d: got %d, want %d", tt.start, got, tt.want)
		}
	}
}

func TestRefusedDZN(t *testing.T) {
	tests := []struct {
		name, old, new string
		line           int
		what           string
	}{
		{"a name left out", "t_max = 20;\n", "", 9, "t_max"},
		{"a name twice", "n_res = 2;", "n_tasks = 2;", 2, "a name"},
		{"a name that is none of them", "t_max", "t_min", 9, "a name"},
		{"a successor that is not there", "{4}, {}", "{5}, {}", 8, "a successor of task"},
		{"a set too few", ", {}]", "]", 8, "suc"},
		{"a length too few", "[0, 5, 7, 0]", "[0, 5, 7]", 3, "d"},
		{"a length below zero", "[0, 5, 7, 0]", "[0, -5, 7, 0]", 3, "d"},
		{"a table on its side", "1..4, 1..3", "1..3, 1..4", 10, "deadline"},
		{"a table that is short", "15, 5, 2]", "15, 5]", 10, "a table"},
		{"a word for a number", "t_max = 20", "t_max = soon", 9, "a number"},
		{"no semicolon", "t_max = 20;", "t_max = 20", 10, "a sign"},
		{"a list where one number is wanted", "t_max = 20", "t_max = [20]", 9, "t_max"},
		{"one number where a list is wanted", "rc = [2, 4]", "rc = 2", 7, "rc"},
		{"a number too large", "t_max = 20", "t_max = 1000001", 9, "a number"},
		{"the end in a list", "15, 5, 2]);\n", "15, 5", 10, "a sign"},
	}
	for _, tt := range tests {
		if !strings.Contains(dznText, tt.old) {
			t.Fatalf("%s: %q is not in the text", tt.name, tt.old)
		}
		_, err := psplib.ReadDZN(strings.NewReader(strings.Replace(dznText, tt.old, tt.new, 1)))
		var f *psplib.Fault
		if !errors.As(err, &f) || f.Line != tt.line || f.What != tt.what {
			t.Errorf("%s: got %v, want line %d: %s", tt.name, err, tt.line, tt.what)
		}
	}
}

// TestPublishedDZN reads the public set where it is given.
func TestPublishedDZN(t *testing.T) {
	dir := os.Getenv("RIPEBY_RCPSP")
	if dir == "" {
		t.Skip("RIPEBY_RCPSP does not name a folder with the public sets")
	}
	files, err := filepath.Glob(filepath.Join(dir, "wet", "*.dzn"))
	if err != nil || len(files) != 12 {
		t.Fatalf("got %d files, %v, want 12", len(files), err)
	}
	for _, path := range files {
		file, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		if _, err := psplib.ReadDZN(file); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
}
