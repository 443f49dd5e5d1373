package resources_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
)

// sp writes spans as pairs of numbers.
func sp(edges ...resources.Moment) []resources.Span {
	var spans []resources.Span
	for i := 0; i+1 < len(edges); i += 2 {
		spans = append(spans, resources.Span{From: edges[i], Until: edges[i+1]})
	}
	return spans
}

func TestMerge(t *testing.T) {
	tests := []struct {
		name     string
		in, want []resources.Span
	}{
		{"none", nil, nil},
		{"one", sp(1, 5), sp(1, 5)},
		{"empty and reversed are dropped", sp(3, 3, 9, 2), nil},
		{"touching become one", sp(1, 5, 5, 8), sp(1, 8)},
		{"a minute apart stay two", sp(1, 5, 6, 8), sp(1, 5, 6, 8)},
		{"out of order", sp(20, 30, 1, 5), sp(1, 5, 20, 30)},
		{"one within another", sp(1, 9, 2, 3, 8, 9), sp(1, 9)},
		{"a chain", sp(6, 9, 1, 4, 3, 7), sp(1, 9)},
		{"an empty one does not join", sp(1, 5, 5, 5, 6, 6), sp(1, 5)},
		{"before 1970", sp(-10, -5, -5, 2), sp(-10, 2)},
	}
	for _, tt := range tests {
		if got := resources.Merge(tt.in); !slices.Equal(got, tt.want) {
			t.Errorf("%s: Merge(%v) = %v, want %v", tt.name, tt.in, got, tt.want)
		}
	}
}

func TestSubtract(t *testing.T) {
	tests := []struct {
		name       string
		a, b, want []resources.Span
	}{
		{"nothing from something", sp(1, 5), nil, sp(1, 5)},
		{"something from nothing", nil, sp(1, 5), nil},
		{"the middle", sp(0, 10), sp(4, 6), sp(0, 4, 6, 10)},
		{"the start", sp(0, 10), sp(-3, 6), sp(6, 10)},
		{"the end", sp(0, 10), sp(6, 12), sp(0, 6)},
		{"all of it", sp(0, 10), sp(0, 10), nil},
		{"touching takes nothing", sp(0, 10), sp(-5, 0, 10, 15), sp(0, 10)},
		{"one over two", sp(0, 10, 20, 30), sp(5, 25), sp(0, 5, 25, 30)},
		{"two from one, one reaching on", sp(0, 10, 12, 20), sp(2, 4, 8, 14), sp(0, 2, 4, 8, 14, 20)},
		{"touching ones are one first", sp(5, 9, 0, 5), sp(4, 6), sp(0, 4, 6, 9)},
	}
	for _, tt := range tests {
		if got := resources.Subtract(tt.a, tt.b); !slices.Equal(got, tt.want) {
			t.Errorf("%s: Subtract(%v, %v) = %v, want %v", tt.name, tt.a, tt.b, got, tt.want)
		}
	}
}

func TestIntersect(t *testing.T) {
	tests := []struct {
		name       string
		a, b, want []resources.Span
	}{
		{"with nothing", sp(1, 5), nil, nil},
		{"overlapping", sp(0, 10), sp(5, 15), sp(5, 10)},
		{"touching share nothing", sp(0, 10), sp(10, 15), nil},
		{"one within another", sp(0, 10), sp(3, 4, 6, 7), sp(3, 4, 6, 7)},
		{"one over two", sp(0, 10, 20, 30), sp(5, 25), sp(5, 10, 20, 25)},
		{"same end", sp(0, 10, 12, 14), sp(4, 10, 12, 13), sp(4, 10, 12, 13)},
		{"touching pieces give one", sp(0, 4, 4, 9), sp(2, 7), sp(2, 7)},
	}
	for _, tt := range tests {
		if got := resources.Intersect(tt.a, tt.b); !slices.Equal(got, tt.want) {
			t.Errorf("%s: Intersect(%v, %v) = %v, want %v", tt.name, tt.a, tt.b, got, tt.want)
		}
	}
}

// The small world of the property tests, in minutes: spans lie within it.
const worldFrom, worldUntil = -40, 40

var anySpans = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) resources.Span {
	edge := rapid.Int64Range(worldFrom, worldUntil)
	return resources.Span{From: resources.Moment(edge.Draw(t, "from")), Until: resources.Moment(edge.Draw(t, "until"))}
}), 0, 8)

// minutesOf colours every minute of the small world that a span covers.
func minutesOf(spans []resources.Span) (set [worldUntil - worldFrom]bool) {
	for _, s := range spans {
		for m := s.From; m < s.Until; m++ {
			set[m-worldFrom] = true
		}
	}
	return set
}

// tidy reports whether spans are sorted, not empty, and at least a minute apart.
func tidy(spans []resources.Span) bool {
	for i, s := range spans {
		if s.Empty() || i > 0 && s.From <= spans[i-1].Until {
			return false
		}
	}
	return true
}

func TestSpansMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anySpans.Draw(t, "a"), anySpans.Draw(t, "b")
		inA, inB := minutesOf(a), minutesOf(b)
		before := slices.Clone(a)
		tests := []struct {
			name string
			got  []resources.Span
			want func(a, b bool) bool
		}{
			{"Merge", resources.Merge(a), func(a, _ bool) bool { return a }},
			{"Subtract", resources.Subtract(a, b), func(a, b bool) bool { return a && !b }},
			{"Intersect", resources.Intersect(a, b), func(a, b bool) bool { return a && b }},
		}
		for _, tt := range tests {
			if !tidy(tt.got) {
				t.Errorf("%s(%v, %v) = %v, want spans sorted and apart", tt.name, a, b, tt.got)
			}
			in := minutesOf(tt.got)
			for i := range in {
				if want := tt.want(inA[i], inB[i]); in[i] != want {
					t.Fatalf("%s(%v, %v) = %v: minute %d in it: %v, want %v", tt.name, a, b, tt.got, i+worldFrom, in[i], want)
				}
			}
			if (tt.got == nil) != (len(tt.got) == 0) {
				t.Errorf("%s(%v, %v) is empty but not nil", tt.name, a, b)
			}
		}
		if !slices.Equal(a, before) {
			t.Errorf("the input was modified: got %v, want %v", a, before)
		}
	})
}
