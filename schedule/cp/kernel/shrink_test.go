package kernel

import (
	"slices"
	"testing"
)

// A set of numbers that is asked of as if it were assumptions: it is impossible while it
// holds one of some sets.
func refusing(cores ...[]int) func(rest []int) (Status, []int) {
	return func(rest []int) (Status, []int) {
		for _, core := range cores {
			if !slices.ContainsFunc(core, func(v int) bool { return !slices.Contains(rest, v) }) {
				return Impossible, rest
			}
		}
		return Solved, nil
	}
}

func TestShrinkGivesASetOfWhichNothingCanBeLeftOut(t *testing.T) {
	for _, c := range []struct {
		name    string
		set     []int
		members []int
		cores   [][]int
		want    []int
	}{
		{"one core", []int{1, 2, 3, 4, 5}, []int{1, 2, 3, 4, 5}, [][]int{{2, 4}}, []int{2, 4}},
		{"two cores, without what is named first", []int{1, 2, 3}, []int{1, 2, 3}, [][]int{{1}, {3}}, []int{3}},
		{"the other way round", []int{1, 2, 3}, []int{3, 2, 1}, [][]int{{1}, {3}}, []int{1}},
		{"what is not named stays", []int{1, 2, 3}, []int{2}, [][]int{{1}}, []int{1, 3}},
		{"impossible by itself", []int{1, 2}, []int{1, 2}, [][]int{{}}, []int{}},
		{"all needed", []int{1, 2, 3}, []int{3, 1, 2}, [][]int{{1, 2, 3}}, []int{1, 2, 3}},
	} {
		ask := refusing(c.cores...)
		got, least := Shrink(c.set, c.members, ask)
		if !slices.Equal(got, c.want) || !least {
			t.Errorf("%s: got %v, least %v, want %v, least", c.name, got, least, c.want)
		}
		if st, _ := ask(got); st != Impossible {
			t.Errorf("%s: %v is not impossible any more", c.name, got)
		}
		for _, member := range c.members {
			if at := slices.Index(got, member); at >= 0 {
				if st, _ := ask(slices.Delete(slices.Clone(got), at, at+1)); st == Impossible {
					t.Errorf("%s: %v does without %d", c.name, got, member)
				}
			}
		}
	}
}

// A part of the rest is enough to go on with, and what it leaves out is not asked about.
func TestShrinkTakesTheCoreThatItIsGiven(t *testing.T) {
	asked := 0
	got, least := Shrink([]int{1, 2, 3, 4}, []int{1, 2, 3, 4}, func(rest []int) (Status, []int) {
		asked++
		if !slices.Contains(rest, 4) {
			return Solved, nil
		}
		return Impossible, []int{4}
	})
	if !slices.Equal(got, []int{4}) || !least || asked != 2 {
		t.Errorf("got %v, least %v, with %d questions; want [4], least, 2", got, least, asked)
	}
}

// Work that runs out keeps the member, and what is given is not said to be the least.
func TestShrinkThatIsStoppedSaysSo(t *testing.T) {
	got, least := Shrink([]int{1, 2}, []int{1, 2}, func(rest []int) (Status, []int) {
		if slices.Contains(rest, 1) {
			return Impossible, rest
		}
		return Unknown, nil
	})
	if !slices.Equal(got, []int{1}) || least {
		t.Errorf("got %v, least %v; want [1], not the least", got, least)
	}
}
