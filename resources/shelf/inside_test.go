package shelf

import (
	"slices"
	"testing"
)

// Each number of boxes that finds places is within the bound, and the bound by
// bars is sometimes better than the area.
func TestAtMost(t *testing.T) {
	for _, c := range []struct {
		name              string
		w, d, long, short int64
		want              int64
	}{
		{"area", 22, 16, 5, 3, 23},
		{"bars, one less than the area", 60, 40, 11, 7, 30},
		{"bars, 17x13 of 5x4", 17, 13, 5, 4, 10},
		{"usable lengths, 9x9 of 5x5", 9, 9, 5, 5, 1},
	} {
		if got := atMost(c.w, c.d, c.long, c.short); got != c.want {
			t.Errorf("%s: atMost = %d, want %d", c.name, got, c.want)
		}
	}
}

func TestReach(t *testing.T) {
	for length := int64(0); length < 60; length++ {
		want := int64(0)
		for a := int64(0); a*7 <= length; a++ {
			for b := int64(0); a*7+b*4 <= length; b++ {
				want = max(want, a*7+b*4)
			}
		}
		if got := reach(length, 7, 4); got != want {
			t.Errorf("reach(%d, 7, 4) = %d, want %d", length, got, want)
		}
	}
}

// A pattern has as many places as it counts, on the floor and apart, and reaches
// the numbers that published five-block patterns reach: 56 of 8x3 on 49x28 (page
// of the packing group at lagrange.ime.usp.br/~lobato/packing, where the L-method
// gets 57). Blocks cut edge to edge do not get 41 of 12x5 on 57x44, either.
func TestBlocks(t *testing.T) {
	for _, c := range []struct {
		w, d, long, short int64
		want              int
	}{
		{49, 28, 8, 3, 56}, {22, 16, 5, 3, 23}, {57, 44, 12, 5, 40}, {5, 5, 3, 2, 4}, {10, 3, 4, 3, 2}, {3, 3, 4, 1, 0},
	} {
		b, _, ok := newBlocks(c.w, c.d, c.long, c.short, DefaultBudget)
		if !ok {
			t.Errorf("%v: no table", c)
			continue
		}
		p, _ := b.whirl(1<<30, DefaultBudget)
		stood := b.stand(p)
		if int(p.count) != c.want || len(stood) != c.want {
			t.Errorf("%v: %d boxes and %d places, want %d", c, p.count, len(stood), c.want)
		}
		for i, s := range stood {
			if s.x < 0 || s.y < 0 || s.x+s.w > c.w || s.y+s.d > c.d || s.w*s.d != c.long*c.short {
				t.Errorf("%v: place %v is not on the floor", c, s)
			}
			for _, r := range stood[:i] {
				if s.x < r.x+r.w && r.x < s.x+s.w && s.y < r.y+r.d && r.y < s.y+s.d {
					t.Errorf("%v: places %v and %v overlap", c, s, r)
				}
			}
		}
	}
}

// A side with more usable lengths than LengthsMost has no table, however much work is
// allowed, and the search takes it from there.
func TestLengthsMost(t *testing.T) {
	const short, long = 2, 149
	if _, _, ok := newBlocks(148, 151, long, short, 1<<40); !ok {
		t.Errorf("got no table of few lengths, want one")
	}
	lengths, ok := usable(3001, long, short)
	if ok || len(lengths) <= LengthsMost {
		t.Errorf("got %d usable lengths and %v, want more than %d to be too many", len(lengths), ok, LengthsMost)
	}
	if _, _, ok := newBlocks(3001, 151, long, short, 1<<40); ok {
		t.Errorf("got a table of %d lengths, want none", len(lengths))
	}
	floor, box := Rect{3001, 151}, Rect{long, short}
	if _, a, _ := Fit(floor, nil, []Rect{box, box, box}, DefaultBudget); a != Yes {
		t.Errorf("Fit = %v, want yes", a)
	}
}

func TestSums(t *testing.T) {
	var s search
	s.w, s.d = 12, 10
	s.kinds = []kind{{long: 7, short: 5, count: 1}, {long: 3, short: 3, count: 2}}
	s.walls = []wall{{0, 0, 2, 1}}
	s.list()
	if want := []int64{0, 3, 5, 6, 7, 8, 10, 11}; !slices.Equal(s.sums.list, want) {
		t.Errorf("sums = %v, want %v", s.sums.list, want)
	}
	if want := []int64{0, 2, 3, 5, 6, 7, 8, 9, 10, 11}; !slices.Equal(s.spots, want) {
		t.Errorf("spots = %v, want %v", s.spots, want)
	}
	for length, want := range map[int64]int64{0: 0, 2: 0, 4: 3, 5: 5, 9: 8, 12: 11} {
		if got := s.sums.fill(length); got != want {
			t.Errorf("fill(%d) = %d, want %d", length, got, want)
		}
	}
}

// Where not all positions could be listed and one of them was wanted, a failed
// search proves nothing; where none was wanted, it does.
func TestSumsMost(t *testing.T) {
	overhang := []Placed{{X: 0, Y: 0, W: 1, D: 3}}
	for _, c := range []struct {
		name  string
		fixed []Placed
		boxes []Rect
		want  Answer
	}{
		{"wanted", overhang, []Rect{{2, 3}, {2, 5}}, Unknown},
		{"not wanted", nil, []Rect{{3, 3}, {3, 3}}, No},
	} {
		var s search
		s.budget = DefaultBudget
		s.prepare(Rect{4, 5}, c.fixed, c.boxes)
		s.sums.begin(5, 0)
		s.sums.full, s.partial = true, true
		s.sort()
		s.choose(largest)
		got := s.run(len(s.kinds), DefaultBudget)
		if got != c.want {
			t.Errorf("%s: run = %v, want %v", c.name, got, c.want)
		}
	}
	var s search
	s.w, s.d = 1<<20, 1<<20
	for i := range 16 {
		s.kinds = append(s.kinds, kind{long: 3 << i, short: 1 << i, count: 1})
	}
	s.list()
	if !s.partial {
		t.Errorf("%d sums and not partial, want partial beyond %d", len(s.sums.list), SumsMost)
	}
}

// The memory stops at its limit and goes on answering.
func TestMemoMost(t *testing.T) {
	var s search
	s.w, s.d = 10, 10
	v := s.reset(0)
	if s.memo.has(&s, v) {
		t.Errorf("an empty memory has a state")
	}
	s.memo.put(&s, v)
	if !s.memo.has(&s, v) {
		t.Errorf("a state that was put is not there")
	}
	v.y = 1
	if s.memo.has(&s, v) {
		t.Errorf("another row is taken for the same state")
	}
	s.memo.failed = make(map[string]struct{}, MemoMost)
	for i := range MemoMost {
		s.memo.failed[string(rune(i))+"x"] = struct{}{}
	}
	n := len(s.memo.failed)
	for i := 0; len(s.memo.failed) < MemoMost; i++ {
		s.memo.failed[string(rune(i))+"y"] = struct{}{}
	}
	s.memo.put(&s, v)
	if len(s.memo.failed) != MemoMost || s.memo.has(&s, v) {
		t.Errorf("%d states from %d, want %d and no more", len(s.memo.failed), n, MemoMost)
	}
}
