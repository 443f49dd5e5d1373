package words

import "testing"

func TestCapital(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Capital("éclair"), "Éclair"}, {Capital(""), ""}, {Capital("乾"), "乾"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
