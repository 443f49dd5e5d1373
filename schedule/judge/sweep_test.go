package judge

import (
	"testing"

	"ripeby/resources"
)

func TestOverloads(t *testing.T) {
	fact := func(from, until resources.Moment, n int) claim {
		return claim{span: resources.Span{From: from, Until: until}, count: n}
	}
	plan := func(from, until resources.Moment, n int) claim {
		c := fact(from, until, n)
		c.planned = true
		return c
	}
	for _, x := range []struct {
		name   string
		claims []claim
		limit  int
		want   int
	}{
		{"nothing", nil, 0, 0},
		{"just enough", []claim{plan(0, 10, 2), plan(0, 10, 1)}, 3, 0},
		{"one too many", []claim{plan(0, 10, 2), plan(9, 12, 2)}, 3, 1},
		{"free at the end", []claim{plan(0, 10, 2), plan(10, 12, 2)}, 3, 0},
		{"one alone too many", []claim{plan(0, 10, 4)}, 3, 1},
		{"facts alone", []claim{fact(0, 10, 2), fact(5, 12, 2)}, 3, 0},
		{"a planned one on top of facts", []claim{fact(0, 10, 2), fact(5, 12, 2), plan(9, 12, 1)}, 3, 1},
		{"a planned one when one fact is over", []claim{fact(0, 10, 2), fact(5, 12, 2), plan(10, 12, 1)}, 3, 0},
		{"a planned one that begins with a fact", []claim{plan(5, 12, 2), fact(5, 12, 2)}, 3, 1},
		{"empty spans", []claim{plan(5, 5, 9), plan(0, 10, 3)}, 3, 0},
		{"three, each pair fits", []claim{plan(0, 6, 1), plan(2, 8, 1), plan(4, 10, 1)}, 2, 1},
	} {
		t.Run(x.name, func(t *testing.T) {
			if got := overloads(x.claims, x.limit); len(got) != x.want {
				t.Errorf("got %v, want %d", got, x.want)
			}
		})
	}
}
