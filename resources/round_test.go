package resources_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
)

func TestRounds(t *testing.T) {
	weekdays := []time.Weekday{1, 2, 3, 4, 5}
	nell := resources.Person{Name: "Nell", Hours: []resources.Hours{on(clockAt(6, 0), clockAt(8, 0), weekdays...)}}
	odd := resources.Person{Name: "Odd", Hours: []resources.Hours{on(clockAt(7, 0), clockAt(9, 0))}}
	at7 := &resources.Round{At: clockAt(7, 0), For: 20}
	away := func(p resources.Person, spans ...string) resources.Person {
		p.Away = spansAt(t, spans...)
		return p
	}
	tests := []struct {
		name, zone string
		people     []resources.Person
		round      *resources.Round
		within     string
		want       string // who@start, one a block
	}{
		{"none written", "UTC", []resources.Person{nell}, nil, "2027-03-01T00:00Z/2027-03-03T00:00Z", ""},
		{"no length", "UTC", []resources.Person{nell}, &resources.Round{At: clockAt(7, 0)}, "2027-03-01T00:00Z/2027-03-03T00:00Z", ""},
		{"nobody", "UTC", nil, at7, "2027-03-01T00:00Z/2027-03-03T00:00Z", ""},
		{"empty span", "UTC", []resources.Person{nell}, at7, "2027-03-01T07:00Z/2027-03-01T07:00Z", ""},
		{"first listed wins", "UTC", []resources.Person{nell, odd}, at7, "2027-03-01T00:00Z/2027-03-03T00:00Z",
			"0@2027-03-01T07:00Z 0@2027-03-02T07:00Z"},
		{"the list's order, not the names'", "UTC", []resources.Person{odd, nell}, at7, "2027-03-01T00:00Z/2027-03-02T00:00Z",
			"0@2027-03-01T07:00Z"},
		{"the second at the weekend", "UTC", []resources.Person{nell, odd}, at7, "2027-03-05T00:00Z/2027-03-08T00:00Z",
			"0@2027-03-05T07:00Z 1@2027-03-06T07:00Z 1@2027-03-07T07:00Z"},
		{"a day without anybody has none", "UTC", []resources.Person{nell}, at7, "2027-03-05T00:00Z/2027-03-09T00:00Z", // Friday to Monday
			"0@2027-03-05T07:00Z 0@2027-03-08T07:00Z"},
		{"away for a part of it", "UTC", []resources.Person{away(nell, "2027-03-01T07:19Z/2027-03-01T07:30Z"), odd}, at7,
			"2027-03-01T00:00Z/2027-03-02T00:00Z", "1@2027-03-01T07:00Z"},
		{"away from its end", "UTC", []resources.Person{away(nell, "2027-03-01T07:20Z/2027-03-01T07:30Z"), odd}, at7,
			"2027-03-01T00:00Z/2027-03-02T00:00Z", "0@2027-03-01T07:00Z"},
		{"just fits the end of the hours", "UTC", []resources.Person{nell}, &resources.Round{At: clockAt(7, 40), For: 20},
			"2027-03-01T00:00Z/2027-03-02T00:00Z", "0@2027-03-01T07:40Z"},
		{"a minute too long", "UTC", []resources.Person{nell}, &resources.Round{At: clockAt(7, 40), For: 21},
			"2027-03-01T00:00Z/2027-03-02T00:00Z", ""},
		{"a minute too early", "UTC", []resources.Person{nell}, &resources.Round{At: clockAt(5, 59), For: 20},
			"2027-03-01T00:00Z/2027-03-02T00:00Z", ""},
		{"two people do not add up", "UTC", []resources.Person{nell, odd}, &resources.Round{At: clockAt(6, 50), For: 90},
			"2027-03-01T00:00Z/2027-03-02T00:00Z", ""},
		{"starts with the span", "UTC", []resources.Person{nell}, at7, "2027-03-01T07:00Z/2027-03-01T07:01Z", "0@2027-03-01T07:00Z"},
		{"started before the span", "UTC", []resources.Person{nell}, at7, "2027-03-01T07:01Z/2027-03-01T12:00Z", ""},
		{"starts at the span's end", "UTC", []resources.Person{nell}, at7, "2027-03-01T00:00Z/2027-03-01T07:00Z", ""},
		{"over midnight", "UTC", []resources.Person{{Hours: []resources.Hours{on(clockAt(20, 0), clockAt(24, 0)), on(0, clockAt(1, 0))}}},
			&resources.Round{At: clockAt(23, 50), For: 20}, "2027-03-01T00:00Z/2027-03-02T00:00Z", "0@2027-03-01T23:50Z"},
		{"moves with the clock", "Europe/Dublin", []resources.Person{odd}, at7, "2027-03-27T00:00Z/2027-03-29T00:00+01:00",
			"0@2027-03-27T07:00Z 0@2027-03-28T07:00+01:00"},
		{"in a skipped hour", "Europe/Paris", []resources.Person{{Hours: []resources.Hours{on(0, clockAt(24, 0))}}},
			&resources.Round{At: clockAt(2, 30), For: 20}, "2027-03-28T00:00+01:00/2027-03-29T00:00+02:00", "0@2027-03-28T03:00+02:00"},
		{"once in a repeated hour", "Europe/Paris", []resources.Person{{Hours: []resources.Hours{on(0, clockAt(24, 0))}}},
			&resources.Round{At: clockAt(2, 30), For: 20}, "2027-10-31T00:00+02:00/2027-11-01T00:00+01:00", "0@2027-10-31T02:30+02:00"},
		{"not on a day that is skipped", "Pacific/Apia", []resources.Person{{Hours: []resources.Hours{on(0, clockAt(24, 0))}}},
			at7, "2011-12-29T00:00-10:00/2012-01-01T00:00+14:00", "0@2011-12-29T07:00-10:00 0@2011-12-31T07:00+14:00"},
	}
	for _, tt := range tests {
		zone := zoneOf(t, tt.zone)
		k := &resources.Kitchen{Zone: zone, People: tt.people, Round: tt.round}
		var got []string
		for _, r := range k.Rounds(spanAt(t, tt.within)) {
			got = append(got, fmt.Sprintf("%d@%s", r.Person, show(r.Span.From, zone)))
			if r.Span.Length() != tt.round.For {
				t.Errorf("%s: a block of %d min, want %d", tt.name, r.Span.Length(), tt.round.For)
			}
		}
		if got := strings.Join(got, " "); got != tt.want {
			t.Errorf("%s: got %s, want %s", tt.name, got, tt.want)
		}
	}
}

// Each date's block is looked at minute by minute: the first person who is free
// in all of them has it.
func TestRoundsMinuteByMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone, from := anyMoment(t)
		from -= 1500
		k := &resources.Kitchen{Zone: zone, Round: &resources.Round{
			At:  resources.Clock(rapid.IntRange(0, 1440).Draw(t, "at")),
			For: resources.Minutes(rapid.IntRange(1, 90).Draw(t, "for")),
		}}
		for range 2 {
			k.People = append(k.People, anyPerson(t, from))
		}
		within := resources.Span{From: from, Until: from + resources.Moment(rapid.Int64Range(0, 4000).Draw(t, "length"))}
		seen := resources.Span{From: within.From, Until: within.Until.Add(k.Round.For)}
		var free []map[resources.Moment]bool
		for _, p := range k.People {
			free = append(free, freeByMinute(p, seen, zone))
		}
		var want []resources.DatedRound
		around := resources.Span{From: within.From - 4000, Until: within.Until + 1}
		for _, d := range resources.Days(around, zone) {
			block := resources.Span{From: d.At(k.Round.At, zone)}
			block.Until = block.From.Add(k.Round.For)
			who := slices.IndexFunc(free, func(free map[resources.Moment]bool) bool {
				for m := block.From; m < block.Until; m++ {
					if !free[m] {
						return false
					}
				}
				return true
			})
			if within.From <= block.From && block.From < within.Until && who >= 0 {
				want = append(want, resources.DatedRound{Person: who, Span: block})
			}
		}
		if got := k.Rounds(within); !slices.Equal(got, want) {
			t.Errorf("%v, %+v: got %v, want %v", zone, *k.Round, got, want)
		}
	})
}
