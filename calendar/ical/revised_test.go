package ical

import (
	"strings"
	"testing"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// changes are what a second plan may do to the first.
var changes = []struct {
	name   string
	change func(*schedule.Plan)
	moves  int // how many events
	new    int
	gone   int
}{
	{"nothing but a later start", func(*schedule.Plan) {}, 0, 0, 0},
	{"a later make", func(p *schedule.Plan) { p.Batches[0].Stages[0].Start += 10 }, 1, 0, 0},
	{"a later target", func(p *schedule.Plan) { p.Targets[2].By += 60 }, 1, 0, 0},
	{"longer work", func(p *schedule.Plan) { p.Batches[0].Stages[5].Work += 5 }, 1, 0, 0},
	{"another person", func(p *schedule.Plan) { p.Batches[0].Stages[6].Who = "Nell" }, 1, 0, 0},
	{"another place", func(p *schedule.Plan) { p.Batches[0].Stages[6].At = "cheese cave" }, 1, 0, 0},
	{"another place of a hold", func(p *schedule.Plan) { p.Batches[0].Stages[4].At = "cheese cave" }, 1, 0, 0},
	{"another shelf", func(p *schedule.Plan) { p.Batches[0].Stages[4].BoxesAt[1].Shelf = "top" }, 1, 0, 0},
	{"another corner of the shelf", func(p *schedule.Plan) { p.Batches[0].Stages[4].BoxesAt[1].X = resources.Centimetre }, 0, 0, 0},
	{"a longer hold", func(p *schedule.Plan) { p.Batches[0].Stages[1].Hold += 5; p.Batches[0].Stages[1].Ends += 5 }, 1, 0, 0},
	{"less slip", func(p *schedule.Plan) { p.Batches[0].Stages[0].SlipUntil -= 5 }, 1, 0, 0},
	{"no longer critical", func(p *schedule.Plan) { p.Batches[0].Stages[6].Critical = false }, 1, 0, 0},
	{"sooner if need be", func(p *schedule.Plan) { p.Batches[0].Stages[0].SlipFrom -= 5 }, 0, 0, 0},
	{"less slip of a hold", func(p *schedule.Plan) { p.Batches[0].Stages[1].SlipUntil -= 5 }, 0, 0, 0},
	{"more litres", func(p *schedule.Plan) { p.Batches[0].Litres += 500 }, 5 + 2, 0, 0}, // and its milk is ordered and collected
	{"more spare", func(p *schedule.Plan) { p.Batches[0].Spare++ }, 5, 0, 0},
	{"another pot", func(p *schedule.Plan) { p.Batches[0].Stages[0].Uses[0].Thing = "low pot" }, 2, 0, 0},
	{"longer washing", func(p *schedule.Plan) { p.Batches[0].Stages[0].Uses[0].CleanUntil += 5 }, 0, 0, 0},
	{"pieces from a want to another", func(p *schedule.Plan) { p.Batches[0].For[0].Pieces--; p.Batches[0].For[1].Pieces++ }, 1, 0, 0},
	{"more for the target", func(p *schedule.Plan) { p.Batches[0].For[0].Pieces++ }, 2, 0, 0},
	{"another reason", func(p *schedule.Plan) { p.Targets[0].Because = "there is no milk" }, 1, 0, 0},
	{"another price", func(p *schedule.Plan) { p.Targets[0].Price += 50 }, 0, 0, 0},
	{"another caution", func(p *schedule.Plan) { p.Cautions[0].Text = "Keep it colder." }, 4, 0, 0},
	{"a caution of no batch here", func(p *schedule.Plan) { p.Cautions[2].Text = "Still not." }, 0, 0, 0},
	{"more care", func(p *schedule.Plan) { p.Rounds[1].Care[0].Hands++ }, 1, 0, 0},
	{"a round by another", func(p *schedule.Plan) { p.Rounds[0].Who = "Nell" }, 1, 0, 0},
	{"a longer round", func(p *schedule.Plan) { p.Rounds[0].Minutes += 5 }, 1, 0, 0},
	{"no last round", func(p *schedule.Plan) { p.Rounds = p.Rounds[:3] }, 0, 0, 1},
	{"a batch dropped", func(p *schedule.Plan) { p.Batches = p.Batches[1:] }, 2 + 1 + 1, 0, 5 + 2},     // two rounds of care, one target, a day's cautions; its milk
	{"milk of a day before", func(p *schedule.Plan) { p.Batches[0].Milk.Collect -= 24 * 60 }, 1, 1, 2}, // too late to order, and told with the make
	{"a batch more", func(p *schedule.Plan) {
		p.Batches = append(p.Batches, sampleBatch("BH-270320-1", p.From.Add(7*resources.Day)))
	}, 0, 5 + 2, 0},
}

// An event moves, by SEQUENCE and by LAST-MODIFIED, exactly when something else
// about it has changed; everything else stays as it was to the byte.
func TestEventsMoveOnlyWithWhatTheySay(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	for _, c := range changes {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, "Europe/Dublin")
			first, second := samplePlan("Europe/Dublin", start), samplePlan("Europe/Dublin", start)
			made(t, p, first, Options{})
			before := everywhere(t, p, first)
			second.From += 120
			c.change(second)
			schedule.CountMoves(second, first)
			note.Revise(p, second, first)
			after := everywhere(t, p, second)
			moves, fresh := 0, 0
			for uid, now := range after {
				old, known := before[uid]
				switch {
				case !known:
					fresh++
				case now.rest != old.rest:
					moves++
					if now.sequence != "SEQUENCE:1" || now.modified <= old.modified {
						t.Errorf("%s changed: got %s, %s after %s, want the next number and a later moment", uid, now.sequence, now.modified, old.modified)
					}
				case now != old:
					t.Errorf("%s did not change: got %s, %s, want %s, %s", uid, now.sequence, now.modified, old.sequence, old.modified)
				}
			}
			if gone := len(before) + fresh - len(after); moves != c.moves || fresh != c.new || gone != c.gone {
				t.Errorf("got %d moved, %d new, %d gone; want %d, %d, %d", moves, fresh, gone, c.moves, c.new, c.gone)
			}
		})
	}
}

// everywhere are a plan's events by UID, each as everybody's calendar has it and then as that of
// who does it: an event has one number in all calendars, though a day's cautions stand with the
// first work of that day in each.
func everywhere(t *testing.T, p *schedule.Problem, plan *schedule.Plan) map[string]edition {
	t.Helper()
	all := map[string]edition{}
	for _, person := range []string{"", "Nell", "Ivo"} {
		out, err := Encode(p, plan, Options{Person: person})
		if err != nil {
			t.Fatal(err)
		}
		for uid, e := range blocksOf(t, out) {
			e.rest = all[uid].rest + e.rest
			all[uid] = e
		}
	}
	return all
}

// edition is an event's edition and, apart from it, all the rest of its lines.
type edition struct{ sequence, modified, rest string }

// blocksOf cuts a calendar into its events, by UID.
func blocksOf(t *testing.T, data []byte) map[string]edition {
	t.Helper()
	blocks := map[string]edition{}
	var e edition
	uid := ""
	for _, l := range unfolded(data) {
		name, value, _ := strings.Cut(l, ":")
		switch {
		case l == "BEGIN:VEVENT":
			e = edition{}
		case l == "END:VEVENT":
			blocks[uid] = e
		case name == "UID":
			uid = value
		case name == "SEQUENCE":
			e.sequence = l
		case name == "LAST-MODIFIED":
			e.modified = value
		case name == "DTSTAMP":
		default:
			e.rest += l + "\n"
		}
	}
	return blocks
}
