package fault

import "testing"

func TestNearest(t *testing.T) {
	kit := []string{"pot", "tall pot", "hook", "board press", "kitchen fridge", "cheese cave"}
	for _, c := range []struct{ word, want string }{
		{"Hook", "hook"},
		{"hok", "hook"},
		{"hookk", "hook"},
		{"ohok", "hook"}, // two neighbours swapped are one slip
		{"boord pres", "board press"},
		{"KITCHEN FRIGDE", "kitchen fridge"},
		{"fridge", "kitchen fridge"},
		{"the cheese cave", "cheese cave"},
		{"pto", "pot"},
		{"spoon", ""},
		{"", ""},
	} {
		if got := Nearest(c.word, kit); got != c.want {
			t.Errorf("Nearest(%q): got %q, want %q", c.word, got, c.want)
		}
	}
}

// Distances of the restricted form, worked out by hand.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"", "abc", 3}, {"hook", "hook", 0}, {"ab", "ba", 1}, {"ca", "abc", 3}, {"kitten", "sitting", 3}} {
		if got := slips([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("slips(%q, %q): got %d, want %d", c.a, c.b, got, c.want)
		}
		if got := slips([]rune(c.b), []rune(c.a)); got != c.want {
			t.Errorf("slips(%q, %q): got %d, want %d", c.b, c.a, got, c.want)
		}
	}
}
