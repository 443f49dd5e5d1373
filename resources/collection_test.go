package resources_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
)

func TestCollections(t *testing.T) {
	var twice resources.Weekdays
	twice = twice.With(time.Tuesday).With(time.Friday)
	milk := func(ready resources.Clock, order resources.Minutes, days resources.Weekdays, closed ...string) resources.Milk {
		return resources.Milk{Days: days, Ready: ready, Order: order, Closed: spansAt(t, closed...)}
	}
	tests := []struct {
		name, zone string
		milk       resources.Milk
		within     string
		want       []string // day, ready, order by
	}{
		{"two days a week", "Europe/Dublin", milk(clockAt(7, 30), 2*resources.Day, twice),
			"2027-03-01T00:00Z/2027-03-08T00:00Z", []string{
				"2027-03-02 2027-03-02T07:30Z 2027-02-28T07:30Z",
				"2027-03-05 2027-03-05T07:30Z 2027-03-03T07:30Z"}},
		{"empty span", "Europe/Dublin", milk(clockAt(7, 30), 0, twice), "2027-03-02T07:30Z/2027-03-02T07:30Z", nil},
		{"ready as the span begins", "Europe/Dublin", milk(clockAt(7, 30), 0, twice), "2027-03-02T07:30Z/2027-03-02T07:31Z",
			[]string{"2027-03-02 2027-03-02T07:30Z 2027-03-02T07:30Z"}},
		{"ready before it", "Europe/Dublin", milk(clockAt(7, 30), 0, twice), "2027-03-02T07:31Z/2027-03-03T00:00Z", nil},
		{"ready as it ends", "Europe/Dublin", milk(clockAt(7, 30), 0, twice), "2027-03-02T00:00Z/2027-03-02T07:30Z", nil},
		{"closed on Good Friday", "Europe/Dublin", milk(clockAt(7, 30), 0, twice, "2027-03-26T00:00Z/2027-03-27T00:00Z"),
			"2027-03-23T00:00Z/2027-03-31T00:00+01:00", []string{
				"2027-03-23 2027-03-23T07:30Z 2027-03-23T07:30Z",
				"2027-03-30 2027-03-30T07:30+01:00 2027-03-30T07:30+01:00"}},
		{"closed until it is ready", "UTC", milk(clockAt(7, 30), 0, twice, "2027-03-02T00:00Z/2027-03-02T07:30Z"),
			"2027-03-02T00:00Z/2027-03-03T00:00Z", []string{"2027-03-02 2027-03-02T07:30Z 2027-03-02T07:30Z"}},
		{"closed as it is ready", "UTC", milk(clockAt(7, 30), 0, twice, "2027-03-02T07:30Z/2027-03-02T07:31Z"),
			"2027-03-02T00:00Z/2027-03-03T00:00Z", nil},
		{"elapsed order time over a change", "Europe/Dublin", milk(clockAt(7, 30), 3*resources.Day, twice),
			"2027-03-30T00:00+01:00/2027-03-31T00:00+01:00",
			[]string{"2027-03-30 2027-03-30T07:30+01:00 2027-03-27T06:30Z"}},
		{"ready in a skipped hour", "Europe/Paris", milk(clockAt(2, 30), 0, resources.Daily),
			"2027-03-28T00:00+01:00/2027-03-29T00:00+02:00", []string{"2027-03-28 2027-03-28T03:00+02:00 2027-03-28T03:00+02:00"}},
		{"once in a repeated hour", "Europe/Paris", milk(clockAt(2, 30), 0, resources.Daily),
			"2027-10-31T00:00+02:00/2027-11-01T00:00+01:00", []string{"2027-10-31 2027-10-31T02:30+02:00 2027-10-31T02:30+02:00"}},
		{"24:00 is the old day's, in the span of the new", "UTC", milk(clockAt(24, 0), 0, twice), // Tuesday the 2nd
			"2027-03-03T00:00Z/2027-03-04T00:00Z", []string{"2027-03-02 2027-03-03T00:00Z 2027-03-03T00:00Z"}},
		{"24:00, closed on the old day", "UTC", milk(clockAt(24, 0), 0, twice, "2027-03-02T00:00Z/2027-03-03T00:00Z"),
			"2027-03-03T00:00Z/2027-03-04T00:00Z", nil},
		{"24:00, closed on the new day", "UTC", milk(clockAt(24, 0), 0, twice, "2027-03-03T00:00Z/2027-03-04T00:00Z"),
			"2027-03-03T00:00Z/2027-03-04T00:00Z", []string{"2027-03-02 2027-03-03T00:00Z 2027-03-03T00:00Z"}},
		{"00:00, closed on that day", "UTC", milk(0, 0, twice, "2027-03-02T00:00Z/2027-03-03T00:00Z"),
			"2027-03-02T00:00Z/2027-03-03T00:00Z", nil},
		{"a day that is skipped has none", "Pacific/Apia", milk(clockAt(7, 0), 0, resources.Daily),
			"2011-12-29T00:00-10:00/2012-01-01T00:00+14:00", []string{
				"2011-12-29 2011-12-29T07:00-10:00 2011-12-29T07:00-10:00",
				"2011-12-31 2011-12-31T07:00+14:00 2011-12-31T07:00+14:00"}},
	}
	for _, tt := range tests {
		zone := zoneOf(t, tt.zone)
		var got []string
		for _, c := range tt.milk.Collections(spanAt(t, tt.within), zone) {
			got = append(got, strings.Join([]string{c.Day.String(), show(c.Ready, zone), show(c.OrderBy, zone)}, " "))
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
	}
}
