package judge

import (
	"slices"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// mutation breaks one thing in a plan that holds. Its score is sealed again
// afterwards unless raw is set, so that only the thing itself is told.
type mutation struct {
	name  string
	spoil func(m *mutant)
	want  string // the rules that must be told; more than one only where the contract says a thing twice
	raw   bool
}

// mutant is a plan on its way to being broken.
type mutant struct {
	dublin
	p    *schedule.Problem
	plan *schedule.Plan
}

func (m *mutant) batch(i int) *schedule.Batch { return &m.plan.Batches[i] }

func (m *mutant) task(batch int, stage string) *schedule.Task {
	b := m.batch(batch)
	i := slices.IndexFunc(b.Stages, func(t schedule.Task) bool { return t.Stage == stage })
	return &b.Stages[i]
}

func (m *mutant) recipeStage(recipe int, stage string) *schedule.Stage {
	r := &m.p.Recipes[recipe]
	i := slices.IndexFunc(r.Stages, func(s schedule.Stage) bool { return s.Name == stage })
	return &r.Stages[i]
}

// tell runs one table of mutations.
func tell(t *testing.T, table []mutation) {
	t.Helper()
	for _, x := range table {
		t.Run(x.name, func(t *testing.T) {
			d, p, plan := sound(t)
			x.spoil(&mutant{d, p, plan})
			if !x.raw {
				reseal(p, plan)
			}
			got := rulesOf(Check(p, plan))
			if want := strings.Fields(x.want); !slices.Equal(got, want) {
				t.Errorf("got rules %q, want %q", got, want)
				for _, v := range Check(p, plan) {
					t.Log(v)
				}
			}
		})
	}
}

func TestMutationsOfIdentity(t *testing.T) {
	tell(t, []mutation{
		{name: "another kitchen", spoil: func(m *mutant) { m.plan.Kitchen = "Elsewhere" }, want: "header"},
		{name: "another zone", spoil: func(m *mutant) { m.plan.TimeZone = "Europe/Paris" }, want: "header"},
		{name: "another start", spoil: func(m *mutant) { m.plan.From++ }, want: "header"},
		{name: "one id twice", spoil: func(m *mutant) { m.batch(1).ID = m.batch(0).ID }, want: "id-form id-twice round-care"},
		{name: "number 0", spoil: func(m *mutant) { m.batch(2).ID = "CT-270309-0" }, want: "id-form"},
		{name: "number with a nought", spoil: func(m *mutant) { m.batch(2).ID = "CT-270309-01" }, want: "id-form"},
		{name: "another day", spoil: func(m *mutant) {
			m.batch(2).ID = "CT-270310-1"
			m.plan.LastNumber[0].Day = "CT-270310"
		}, want: "id-form"},
		{name: "another code", spoil: func(m *mutant) {
			m.batch(2).ID = "XX-270309-1"
			m.plan.LastNumber = append(m.plan.LastNumber, schedule.NumberUsed{Day: "XX-270309", Last: 1})
		}, want: "id-form"},
		{name: "number forgotten", spoil: func(m *mutant) { m.plan.LastNumber = m.plan.LastNumber[1:] }, want: "last-number"},
		{name: "numbers not sorted", spoil: func(m *mutant) { slices.Reverse(m.plan.LastNumber) }, want: "last-number"},
		{name: "lost", spoil: func(m *mutant) { m.p.Lost = []string{"CT-270309-1"} }, want: "lost"},
		{name: "begun, said of a new batch", spoil: func(m *mutant) { m.batch(2).Begun = true }, want: "begun-flag"},
		{name: "begun, said of a planned stage", spoil: func(m *mutant) { m.task(2, "salt").Begun = true }, want: "begun-flag"},
	})
}

func TestMutationsOfCourse(t *testing.T) {
	tell(t, []mutation{
		{name: "unknown cheese", spoil: func(m *mutant) { m.batch(2).Cheese = "Moon" }, want: "recipe"},
		{name: "stage left out", spoil: func(m *mutant) { m.batch(2).Stages = m.batch(2).Stages[:2] }, want: "stages"},
		{name: "stages out of order", spoil: func(m *mutant) { m.batch(2).Stages[1].Stage = "pack" }, want: "stages"},
		{name: "end that does not add up", spoil: func(m *mutant) { m.task(0, "drain").Hold -= 5 }, want: "chain"},
		{name: "gap between stages", spoil: func(m *mutant) {
			s := m.task(0, "rest")
			s.Start, s.Hold, s.SlipFrom, s.SlipUntil = s.Start+5, s.Hold-5, s.Start+5, s.Start+5
		}, want: "chain"},
		{name: "off the grid", spoil: func(m *mutant) {
			// The cave's make at 09:02, its hold two minutes shorter.
			s := m.task(2, "make")
			s.Start, s.Hold, s.SlipFrom, s.SlipUntil = s.Start+2, s.Hold-2, s.SlipFrom+2, s.SlipUntil+2
			s.Uses[0].From += 2
		}, want: "off-grid"},
		{name: "before the start", spoil: func(m *mutant) {
			m.p.From, m.plan.From = m.d("03-02 09:05"), m.d("03-02 09:05")
			m.p.Ordered = []schedule.Ordered{{Milk: "Farm cow", Day: m.d("03-02 00:00").DateIn(m.zone), Litres: 8_000}}
			m.revise()
		}, want: "before-start"},
		{name: "work too short", spoil: func(m *mutant) {
			s := m.task(0, "ripen")
			s.Work, s.Hold = 25, s.Hold+5
			m.task(0, "mould").Uses[0].Until -= 5
			m.task(0, "mould").Uses[0].CleanUntil -= 5
			m.task(0, "mould").Uses[1].Until -= 5
			m.task(0, "mould").Uses[1].CleanUntil -= 5
		}, want: "work-length"},
		{name: "hold too short", spoil: func(m *mutant) { m.recipeStage(0, "drain").Hold.Least = 12*hours + 1 }, want: "hold-short"},
		{name: "hold that the room makes too short", spoil: func(m *mutant) { // 10 h to 15 h become 29 h and more
			m.recipeStage(0, "drain").Hold.GoesBy = schedule.GoesBy{Temperature: 24_000, Times: 1000}
			m.p.Kitchen.Room = 16_000
		}, want: "hold-short"},
		{name: "hold that goes by a room outside of the rule", spoil: func(m *mutant) {
			m.recipeStage(0, "drain").Hold.GoesBy = schedule.GoesBy{Temperature: 24_000, Times: 2000}
			m.p.Kitchen.Room = 14_999
		}, want: "warning-missing"},
		{name: "hold that goes by a room outside of the rule, told", spoil: func(m *mutant) {
			m.recipeStage(0, "drain").Hold.GoesBy = schedule.GoesBy{Temperature: 24_000, Times: 2000}
			m.p.Kitchen.Room = 30_001
			for _, b := range m.plan.Batches {
				m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "room-outside", Text: b.ID + " is in a warm room."})
			}
		}},
		{name: "hold as long as its rounded most", spoil: func(m *mutant) {
			m.recipeStage(0, "drain").Hold.Most = 14*hours + 54
			m.recipeStage(0, "drain").Hold.HasBest = false
		}, want: ""},
		{name: "hold too long only by the rounding", spoil: func(m *mutant) { m.recipeStage(0, "drain").Hold.Most = 14*hours + 49 }, want: "hold-long"},
		{name: "hold where none is written", spoil: func(m *mutant) { m.recipeStage(0, "rest").Hold = nil }, want: "hold-long"},
		{name: "end before the last target leaves", spoil: func(m *mutant) {
			s := m.task(2, "pack")
			s.Hold, s.Ends = s.Hold-60, s.Ends-60
			u := &m.task(2, "salt").Uses[0]
			u.Until, u.CleanUntil = u.Until-60, u.CleanUntil-60
		}, want: "last-hold"},
		{name: "last hold under its written least", spoil: func(m *mutant) {
			m.recipeStage(1, "pack").Hold = &schedule.Hold{Least: 5 * resources.Day, Most: 9 * resources.Day}
		}, want: "last-hold"},
		{name: "last hold over its written most", spoil: func(m *mutant) { m.recipeStage(1, "pack").Hold = &schedule.Hold{Most: 4 * resources.Day} }, want: "last-hold"},
		{name: "litres between steps", spoil: func(m *mutant) { m.p.Recipes[1].Batch.Step = 4_000 }, want: "batch-size"},
		{name: "too many litres", spoil: func(m *mutant) { m.p.Recipes[1].Batch.Most = 9_000 }, want: "batch-size"},
		{name: "too few litres", spoil: func(m *mutant) { m.p.Recipes[1].Batch.Least = 11_000; m.p.Recipes[1].Batch.Most = 12_000 }, want: "batch-size"},
		{name: "pieces not made", spoil: func(m *mutant) { m.p.Recipes[1].Yield = schedule.Yield{Pieces: 11, From: 10_000} }, want: "pieces"},
		{name: "spare", spoil: func(m *mutant) { m.batch(0).Spare = 0 }, want: "spare"},
	})
}

// d reads a moment; shorter in tables.
func (m *mutant) d(s string) resources.Moment { return m.at(s) }

// revise sets every stage's last change to the plan's start, as in a first plan.
func (m *mutant) revise() {
	for i := range m.plan.Batches {
		for k := range m.plan.Batches[i].Stages {
			m.plan.Batches[i].Stages[k].Revised = m.plan.From
		}
	}
}

func TestMutationsOfPeople(t *testing.T) {
	tell(t, []mutation{
		{name: "nobody", spoil: func(m *mutant) { m.task(0, "drain").Who = "" }, want: "who"},
		{name: "a stranger", spoil: func(m *mutant) { m.task(0, "drain").Who = "Ida" }, want: "who"},
		{name: "somebody where there is no work", spoil: func(m *mutant) { m.task(0, "set").Who = "Nell" }, want: "who"},
		{name: "somebody who may not", spoil: func(m *mutant) { m.recipeStage(1, "salt").Who = []string{"Nell"} }, want: "who"},
		{name: "hours that stop during the work", spoil: func(m *mutant) { m.p.Kitchen.People[0].Hours[1].Until = hm(19, 30) }, want: "outside-hours"},
		{name: "away during the work", spoil: func(m *mutant) {
			m.p.Kitchen.People[0].Away = append(m.p.Kitchen.People[0].Away, resources.Span{From: m.d("03-05 10:25"), Until: m.d("03-05 11:00")})
		}, want: "outside-hours"},
		{name: "windows with a gap in the work", spoil: func(m *mutant) {
			m.p.Kitchen.People[0].Hours[0].Until = hm(9, 10)
			m.p.Kitchen.People[0].Hours[1].From = hm(9, 15)
		}, want: "outside-hours"},
		{name: "two things at once", spoil: func(m *mutant) {
			// Tom packs the cave's cheese at 12:00; Nell's pack of the first becomes his, at noon.
			m.move(0, "pack", 90)
			m.task(0, "pack").Who = "Tom"
			m.task(2, "pack").SlipUntil = m.task(2, "pack").Start
		}, want: "person-overlap"},
		{name: "work in the round", spoil: func(m *mutant) { m.p.Kitchen.Round.For = 35; m.rounds(35) }, want: "round-taken"},
		{name: "too much on a day", spoil: func(m *mutant) { m.p.Kitchen.People[0].MostPerDay = 20 + 60 - 1 }, want: "most-per-day"},
		{name: "just enough on a day", spoil: func(m *mutant) { m.p.Kitchen.People[0].MostPerDay = 20 + 60 }, want: ""},
	})
}

// rounds sets the length of all rounds in the plan.
func (m *mutant) rounds(length resources.Minutes) {
	for i := range m.plan.Rounds {
		m.plan.Rounds[i].Minutes = length
	}
}

// move puts a stage of a batch later, with the hold before it longer, its own
// shorter and the kit that changes hands at it following.
func (m *mutant) move(batch int, stage string, by resources.Minutes) {
	b := m.batch(batch)
	s := m.task(batch, stage)
	was, done := s.Start, s.Start.Add(s.Work)
	for i := range b.Stages {
		if b.Stages[i].Ends == was {
			b.Stages[i].Hold += by
			b.Stages[i].Ends = was.Add(by)
		}
		for k := range b.Stages[i].Uses {
			u := &b.Stages[i].Uses[k]
			if u.From == was {
				u.From = was.Add(by)
			}
			if u.Until == done {
				u.Until, u.CleanUntil = u.Until.Add(by), u.CleanUntil.Add(by)
			}
		}
	}
	s.Start, s.Hold, s.SlipFrom, s.SlipUntil = was.Add(by), s.Hold-by, s.SlipFrom.Add(by), s.SlipUntil.Add(by)
}

func TestMutationsOfKit(t *testing.T) {
	tell(t, []mutation{
		{name: "run forgotten", spoil: func(m *mutant) { m.task(0, "drain").Uses = nil }, want: "kit-missing"},
		{name: "run at a later stage", spoil: func(m *mutant) { s := m.task(0, "make"); m.task(0, "set").Uses, s.Uses = s.Uses, nil }, want: "kit-missing kit-unknown"},
		{name: "kit that the stage does not use", spoil: func(m *mutant) {
			m.task(0, "rest").Uses = []schedule.Occupied{m.used("hook", 1, "03-05 08:25", "03-05 10:00", "03-05 10:00")}
		}, want: "kit-unknown"},
		{name: "pot too small", spoil: func(m *mutant) { m.p.Kitchen.Pots[1].Holds = 7_999 }, want: "kit-missing kit-unknown"},
		{name: "another pot than the one named", spoil: func(m *mutant) {
			for _, s := range []string{"make", "set"} {
				m.recipeStage(0, s).Uses = withAll(schedule.Use{Kind: schedule.UsePot, Name: "tall pot"})
			}
		}, want: "kit-missing kit-unknown"},
		{name: "one hook for 8 L", spoil: func(m *mutant) { m.task(0, "drain").Uses[0].Count = 1 }, want: "kit-count"},
		{name: "moulds for the sold pieces only", spoil: func(m *mutant) { m.task(0, "mould").Uses[0].Count = 15 }, want: "kit-count"},
		{name: "released before the next work is done", spoil: func(m *mutant) { m.task(0, "drain").Uses[0].Until = m.d("03-04 07:30") }, want: "kit-span"},
		{name: "not cleaned", spoil: func(m *mutant) { m.task(0, "make").Uses[0].CleanUntil = m.d("03-03 16:40") }, want: "kit-span"},
		{name: "no fresh boxes", spoil: func(m *mutant) { m.recipeStage(0, "ripen").Fresh = nil }, want: "kit-span kit-unknown"},
		{name: "stations by pieces", spoil: func(m *mutant) {
			m.p.Kitchen.Stations[0].TakesVolume, m.p.Kitchen.Stations[0].TakesPieces = 0, 5
		}, want: "kit-count"},
		{name: "two batches of moulds, one too few", spoil: func(m *mutant) { m.p.Kitchen.Moulds[0].Count = 15 }, want: "kit-over"},
		{name: "boxes all in use", spoil: func(m *mutant) { m.p.Kitchen.Boxes[0].Count = 5 }, want: "kit-over"},
		{name: "boxes just enough", spoil: func(m *mutant) { m.p.Kitchen.Boxes[0].Count = 6 }, want: ""},
		{name: "still being cleaned", spoil: func(m *mutant) {
			m.p.Kitchen.Moulds[0].Clean = resources.Minutes(m.d("03-07 07:40")-m.d("03-05 10:30")) + 1
			m.clean("small hoop", m.p.Kitchen.Moulds[0].Clean)
		}, want: "kit-over"},
		{name: "cleaned just in time", spoil: func(m *mutant) {
			m.p.Kitchen.Moulds[0].Clean = resources.Minutes(m.d("03-07 07:40") - m.d("03-05 10:30"))
			m.clean("small hoop", m.p.Kitchen.Moulds[0].Clean)
		}, want: ""},
	})
}

// clean sets the end of cleaning of all uses of a thing.
func (m *mutant) clean(thing string, clean resources.Minutes) {
	for i := range m.plan.Batches {
		for k := range m.plan.Batches[i].Stages {
			for n := range m.plan.Batches[i].Stages[k].Uses {
				if u := &m.plan.Batches[i].Stages[k].Uses[n]; u.Thing == thing {
					u.CleanUntil = u.Until.Add(clean)
				}
			}
		}
	}
}

func TestMutationsOfPlaces(t *testing.T) {
	tell(t, []mutation{
		{name: "too warm", spoil: func(m *mutant) { m.p.Kitchen.Cold[1].Temperature = 14_001 }, want: "place"},
		{name: "room for a range", spoil: func(m *mutant) { s := m.task(2, "salt"); s.At, s.BoxesAt = "room", nil }, want: "place"},
		{name: "cold for the room", spoil: func(m *mutant) { m.task(2, "make").At = "cave"; m.task(2, "make").BoxesAt = nil }, want: "place"},
		{name: "another place than the one named", spoil: func(m *mutant) { m.at1(2, "pack", "cellar") }, want: "place"},
		{name: "range met by another place", spoil: func(m *mutant) { m.at1(2, "salt", "cellar") }, want: ""},
		{name: "moved while nobody is there", spoil: func(m *mutant) { m.task(0, "rest").BoxesAt = stack("middle", 0, 0, 40, 30, 2) }, want: "stay-moved"},
		{name: "to another place while nobody is there", spoil: func(m *mutant) {
			m.p.Kitchen.Cold = append(m.p.Kitchen.Cold, resources.ColdPlace{Name: "larder", Temperature: 5_000, Boxes: 9})
			m.at1(0, "rest", "larder")
		}, want: "stay-moved"},
		{name: "fridge taken", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken = []resources.Span{{From: m.d("03-19 00:00"), Until: m.d("03-20 00:00")}}
		}, want: "place-taken"},
		{name: "shelf taken", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Taken = []resources.Span{{From: m.d("03-06 00:00"), Until: m.d("03-07 00:00")}}
		}, want: "place-taken"},
		{name: "shelf taken until they come", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Taken = []resources.Span{{From: m.d("03-02 00:00"), Until: m.d("03-05 10:30")}}
		}, want: ""},
		{name: "cave taken", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[1].Taken = []resources.Span{{From: m.d("03-10 00:00"), Until: m.d("03-11 00:00")}}
		}, want: "place-taken"},
		{name: "cave too small", spoil: func(m *mutant) { m.p.Kitchen.Cold[1].Boxes = 1 }, want: "place-over"},
		{name: "a box too few", spoil: func(m *mutant) { m.task(0, "ripen").BoxesAt = m.task(0, "ripen").BoxesAt[:1] }, want: "boxes-count"},
		{name: "no boxes", spoil: func(m *mutant) { m.task(2, "salt").BoxesAt = nil }, want: "boxes-count"},
		{name: "boxes of a hold of 0", spoil: func(m *mutant) { m.task(1, "rest").BoxesAt = stack("top", 0, 0, 40, 30, 2) }, want: "boxes-count"},
		{name: "boxes in the room", spoil: func(m *mutant) { m.task(0, "set").BoxesAt = stack("top", 0, 0, 40, 30, 2) }, want: "boxes-count"},
	})
}

// at1 puts the boxes of a stage in a counted place.
func (m *mutant) at1(batch int, stage, place string) {
	s := m.task(batch, stage)
	s.At = place
	for k := range s.BoxesAt {
		s.BoxesAt[k] = schedule.Standing{Place: place}
	}
}

func TestMutationsOfShelves(t *testing.T) {
	put := func(boxes ...[]schedule.Standing) func(*mutant) {
		return func(m *mutant) { m.task(0, "ripen").BoxesAt = slices.Concat(boxes...) }
	}
	tell(t, []mutation{
		{name: "unknown shelf", spoil: put(stack("attic", 0, 0, 40, 30, 2)), want: "box-place"},
		{name: "another place than the stage's", spoil: func(m *mutant) { m.task(0, "ripen").BoxesAt[0].Place = "cave" }, want: "box-layer box-place"},
		{name: "sides of another box", spoil: put(stack("middle", 0, 0, 41, 30, 2)), want: "box-place"},
		{name: "turned, and over the edge", spoil: put(stack("middle", 0, 0, 30, 40, 2)), want: "box-place"},
		{name: "over the right edge", spoil: put(stack("middle", 13, 0, 40, 30, 2)), want: "box-place"},
		{name: "to the right edge", spoil: put(stack("middle", 12, 6, 40, 30, 2)), want: ""},
		{name: "over the back", spoil: put(stack("middle", 0, 7, 40, 30, 2)), want: "box-place"},
		{name: "left of the shelf", spoil: put(stack("middle", -1, 0, 40, 30, 2)), want: "box-place"},
		{name: "higher than the shelf", spoil: func(m *mutant) { m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(24) - 1 }, want: "box-place spot-over"},
		{name: "as high as the shelf", spoil: func(m *mutant) { m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(24) }, want: ""},
		{name: "layer 0", spoil: func(m *mutant) { m.task(0, "ripen").BoxesAt[0].Layer = 0 }, want: "box-place"},
		{name: "hanging in the air", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(40)
			m.task(0, "ripen").BoxesAt[1].Layer = 3
		}, want: "box-layer"},
		{name: "two boxes in one", spoil: func(m *mutant) { m.task(0, "ripen").BoxesAt[1].Layer = 1 }, want: "box-place"},
		{name: "stack that does not stand square", spoil: func(m *mutant) { m.task(0, "ripen").BoxesAt[1].X = cm(1) }, want: "box-layer box-place"},
		{name: "box without a size", spoil: func(m *mutant) { m.p.Kitchen.Boxes[1].Size = resources.Size{} }, want: "box-place"},
		{name: "position in a counted place", spoil: func(m *mutant) { m.task(2, "salt").BoxesAt[0].Layer = 1 }, want: "box-place"},
		{name: "where another batch ripens", spoil: func(m *mutant) { m.task(1, "ripen").BoxesAt = stack("middle", 12, 6, 40, 30, 2) }, want: "shelf-overlap"},
		{name: "beside another batch", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Size.Width = cm(80)
			m.task(1, "ripen").BoxesAt = stack("middle", 40, 6, 40, 30, 2)
		}, want: ""},
		{name: "in before the other is out", spoil: func(m *mutant) {
			// The second's cartons come at 09:35 on the 15th, the first ripens there until 10:30.
			m.task(1, "pack").BoxesAt = stack("middle", 30, 0, 20, 30, 2)
		}, want: "shelf-overlap"},
		{name: "on another batch's stack", spoil: func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[1].Size.Height = cm(60)
			m.task(1, "ripen").BoxesAt = stack("middle", 0, 0, 40, 30, 4)[2:]
		}, want: ""},
	})
}
