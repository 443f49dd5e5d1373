package follows_test

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// TestBegunYamlOfWhatIsOver: an entry that the plan before has read, whose batch it no longer has,
// does not begin that batch again; one that is written anew does.
func TestBegunYamlOfWhatIsOver(t *testing.T) {
	entry := schedule.Begun{ID: "D-270301-1", Cheese: "Dew", Litres: 5000, Pieces: -1, Stages: []schedule.BegunStage{{Stage: "make", Start: day(1, 8, 0)}}}
	asOf := day(2, 0, 0)
	for _, c := range []struct {
		name string
		read bool              // by the plan before
		asOf *resources.Moment // as begun.yaml has it
		want int
	}{{"never read", false, nil, 1}, {"never read, as of long ago", false, &asOf, 1}, {"read", true, nil, 0}, {"read, as of long ago", true, &asOf, 0}} {
		for _, entries := range [][]record.Entry{nil, {{At: day(8, 9, 0), Note: "cold"}}} {
			p := dairy(day(9, 12, 0))
			p.Begun, p.AsOf = []schedule.Begun{entry}, c.asOf
			if c.read {
				p.Earlier.BegunAsOf = []schedule.BegunAsOf{{ID: entry.ID, AsOf: asOf, Entry: entry.InShort()}}
			}
			got := follows.Of(p, record.NewBook(entries)).Problem
			n := len(got.Begun)
			if got.Lived != nil && got.Lived.Batch(entry.ID) != nil {
				n++
			}
			if n != c.want {
				t.Errorf("%s: got it %d times under way, want %d", c.name, n, c.want)
			}
			if len(got.BegunAsOf) != 1 {
				t.Errorf("%s: got %v, want the entry remembered", c.name, got.BegunAsOf)
			}
		}
	}
}

// TestRecipeThatLostAStage: a batch with more stages than its recipe has now is left as the plan
// before has it, whatever is said of it.
func TestRecipeThatLostAStage(t *testing.T) {
	p := dairy(day(9, 12, 0))
	p.Recipes[0].Stages = p.Recipes[0].Stages[:3]
	p.Recipes[0].Stages[1].At = schedule.At{Kind: schedule.AtPlace, Place: "fridge"}
	got := follows.Of(p, record.NewBook([]record.Entry{of(day(8, 9, 30), record.BatchFacts{Did: "make", Stands: record.Say(record.Stand{Place: "fridge"})})}))
	if words, want := told(got.Problem, "D-270308-1"), "make 8 08:00 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell"; words != want {
		t.Errorf("got %s, want %s", words, want)
	}
}
