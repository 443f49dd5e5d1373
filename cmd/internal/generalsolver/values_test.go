package generalsolver_test

import (
	"testing"

	"ripeby/cmd/internal/generalsolver"
)

// TestValues: every form, with something and with nothing in it.
func TestValues(t *testing.T) {
	w := &generalsolver.Values{}
	w.Note("all forms")
	w.Number("n", -3)
	w.List("numbers", []int{1, 2})
	w.List("truths", []bool{true, false})
	w.List("none", []int(nil))
	w.Table("table", "1..2, A", [][]int{{1, 2}, {3, 4}})
	w.Table("cube", "A, B, 0..1", nil)
	w.Sets("sets", [][]int{{1, 2}, nil})
	w.Sets("no_sets", nil)
	w.Ranges("ranges", [][2]int{{0, 4}, {7, 7}})
	const want = `% all forms
n = -3;
numbers = [1, 2];
truths = [true, false];
none = [];
table = array2d(1..2, A, [1,2,3,4,]);
cube = array3d(A, B, 0..1, []);
sets = [{1,2}, {}];
no_sets = [];
ranges = [0..4, 7..7];
`
	if got := w.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}
