package packing

import "testing"

// Boxes that come off the grid come, to the statement, at the next step: what is too much by
// then is found when they are put.
func TestBoxesThatComeOffTheGridAreCounted(t *testing.T) {
	list := []Stay{{From: 0, Until: 6, Boxes: 1, Given: true}, {From: 5, Until: 9, Boxes: 1}, {From: 7, Until: 8, Boxes: 1}}
	for _, c := range []struct{ capacity, want int }{{1, 2}, {2, 0}} {
		if got := Overfull(list, c.capacity); len(got) != c.want {
			t.Errorf("room for %d: got %v, want %d of them", c.capacity, got, c.want)
		}
	}
	facts := []Stay{{From: 0, Until: 6, Boxes: 1, Given: true}, {From: 5, Until: 9, Boxes: 1, Given: true}, {From: 6, Until: 8, Boxes: 0}}
	if got := Overfull(facts, 1); len(got) != 0 {
		t.Errorf("what has begun is no plan's fault: got %v", got)
	}
}
