package whatif

import "testing"

// What of an order is ruled out.
func TestRefusedText(t *testing.T) {
	for _, c := range []struct {
		pieces, most, refused int
		want                  string
	}{{1, 0, 1, "It is"}, {24, 0, 1, "Even one is"}, {24, 6, 7, "More than 6 are"}, {24, 6, 24, "So many are"}, {24, 6, 9, "9 or more are"}} {
		if got := refusedText(c.pieces, c.most, c.refused); got != c.want {
			t.Errorf("%+v: got %s", c, got)
		}
	}
}
