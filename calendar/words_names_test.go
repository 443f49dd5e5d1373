package calendar

import "testing"

func TestCapital(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{capital("éclair"), "Éclair"}, {capital(""), ""}, {capital("乾"), "乾"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
