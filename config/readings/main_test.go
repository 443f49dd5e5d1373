package readings

import (
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/resources"
)

func dublin(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// moment is one of the tests, in UTC.
func moment(t testing.TB, text string) resources.Moment {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		t.Fatal(err)
	}
	return resources.MomentOf(at)
}
