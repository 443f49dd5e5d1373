package packing

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// A table says of all numbers of boxes what trying all ways says, and asks no more than once.
func TestTableAgainstAllWays(t *testing.T) {
	over, not := 0, 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		m := drawnFloors(t)
		for k := range m.Kinds {
			m.Kinds[k].Stack = problem.OnKind
		}
		asked := int64(0)
		memory := map[string][]int8{}
		kept := func(name string, size int) []int8 {
			if memory[name] == nil {
				memory[name] = make([]int8, size)
			}
			return memory[name]
		}
		table, ok := NewTable(m, 0, []int{0, 1}, kept, func(work int64) { asked += work })
		if !ok {
			t.Skip("one of the kinds stands nowhere")
		}
		for range 12 {
			n := []int32{int32(tiny.DrawInt(t, 0, 6, "small")), int32(tiny.DrawInt(t, 0, 4, "large"))}
			var all []tiny.BoxesAt
			for kind := range n {
				if n[kind] > 0 {
					all = append(all, tiny.BoxesAt{Until: 1, Kind: kind, Boxes: int(n[kind]), Begun: true})
				}
			}
			got := table.Over(n)
			if got == tiny.Stands(m, 0, all) {
				t.Fatalf("%v: over %v\n%+v", n, got, m)
			}
			again, _ := NewTable(m, 0, []int{0, 1}, kept, func(int64) { t.Fatal("asked again") })
			if again.Over(n) != got {
				t.Fatal("answered otherwise")
			}
			if got {
				over++
			} else {
				not++
			}
		}
	})
	if t.Logf("%d over, %d not", over, not); over < tiny.Few(100) || not < tiny.Few(100) {
		t.Error("too few to mean much")
	}
}

// There is no table where a kind does not share its spots, or of too many boxes.
func TestNoTable(t *testing.T) {
	m := &problem.Model{Spaces: []problem.Space{{Floors: []problem.Floor{{Size: problem.Rect{W: 9, D: 9}, Height: 9}}}},
		Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 1}, {Size: problem.Rect{W: 2, D: 1}, Height: 1, Stack: problem.OnStay}, {Size: problem.Rect{W: 1, D: 1}, Height: 2}, {Size: problem.Rect{W: 10, D: 10}, Height: 1}}}
	for _, c := range []struct {
		kinds []int
		want  bool
	}{{[]int{0, 2}, false}, {[]int{0, 1}, false}, {[]int{0, 3}, false}, {[]int{0}, false}} {
		if _, ok := NewTable(m, 0, c.kinds, func(string, int) []int8 { return nil }, nil); ok != c.want {
			t.Errorf("kinds %v: got a table: %v", c.kinds, ok)
		}
	}
	m.Spaces[0].Floors[0].Height = 3
	if table, ok := NewTable(m, 0, []int{0, 2}, func(_ string, size int) []int8 { return make([]int8, size) }, nil); !ok || table.Class(2) != 1 || table.Class(1) != -1 {
		t.Error("got no table of 244 x 82 numbers")
	}
}
