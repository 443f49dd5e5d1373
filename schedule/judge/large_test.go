package judge

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// manyBatches gives a plan that holds of so many batches, one every other day, as
// the first batch of the small kitchen, in UTC.
func manyBatches(t testing.TB, count int) (*schedule.Problem, *schedule.Plan) {
	d := dublin{nil, time.UTC}
	if tt, ok := t.(*testing.T); ok {
		d.t = tt
	} else {
		d.t = &testing.T{}
	}
	k := smallKitchen(d)
	k.TimeZone, k.Zone = "UTC", time.UTC
	k.People[0].Away = nil
	k.Boxes[0].Count = 40
	k.Cold[0].Shelves = nil
	for i := range 20 {
		k.Cold[0].Shelves = append(k.Cold[0].Shelves, resources.Shelf{Name: fmt.Sprintf("shelf %d", i), Size: box3(52, 36, 26)})
	}
	r := hoop()
	r.Milk = ""
	p := &schedule.Problem{Kitchen: k, Recipes: []schedule.Recipe{r}, From: d.at("03-01 06:00")}
	plan := &schedule.Plan{Kitchen: k.Name, TimeZone: "UTC", From: p.From, Outcome: schedule.Met}
	for i := range count {
		b := firstBatch(d)
		shiftBatch(&b, resources.Moment(i)*2*1440, i)
		b.ID = "RH-" + b.Stages[0].Start.In(time.UTC).Format("060102") + "-1"
		b.Milk = nil
		by := b.For[0].By
		b.For[0].Target = fmt.Sprintf("Stall %d", i)
		p.Targets = append(p.Targets, schedule.Target{Name: b.For[0].Target, By: by, Wants: []schedule.Want{{Cheese: r.Name, Pieces: 15, Price: 650}}})
		plan.Targets = append(plan.Targets, schedule.WantResult{Target: b.For[0].Target, By: by, Cheese: r.Name, Price: 650, Wanted: 15, Met: 15})
		plan.LastNumber = append(plan.LastNumber, schedule.NumberUsed{Day: b.ID[:9], Last: 1})
		for k := range b.Stages {
			b.Stages[k].Revised = p.From
		}
		plan.Batches = append(plan.Batches, b)
	}
	plan.Rounds = newHearing(p, plan).expectedRounds()
	reseal(p, plan)
	return p, plan
}

// shiftBatch moves a batch and puts its boxes on shelves of its own for as long.
func shiftBatch(b *schedule.Batch, by resources.Moment, n int) {
	for i := range b.Stages {
		s := &b.Stages[i]
		s.Start, s.Ends, s.SlipFrom, s.SlipUntil = s.Start+by, s.Ends+by, s.SlipFrom+by, s.SlipUntil+by
		for k := range s.Uses {
			u := &s.Uses[k]
			u.From, u.Until, u.CleanUntil = u.From+by, u.Until+by, u.CleanUntil+by
		}
		for k := range s.BoxesAt {
			s.BoxesAt[k].Shelf = fmt.Sprintf("shelf %d", n%20)
		}
	}
	for i := range b.Care {
		b.Care[i].Day = (dayOf(b.Care[i].Day) + day(by/1440)).date()
	}
	b.For[0].By += by
}

// A plan of 150 batches is checked in far less than a second. The limit leaves
// room for a slow machine; a look at each minute of the year would break it.
func TestLargePlanIsCheckedQuickly(t *testing.T) {
	p, plan := manyBatches(t, 150)
	begins := time.Now()
	expect(t, p, plan, "")
	if took := time.Since(begins); took > time.Second {
		t.Errorf("got %s for 150 batches, want well under a second", took)
	}
	plan.Batches[149].Stages[6].BoxesAt = plan.Batches[148].Stages[6].BoxesAt
	p.Kitchen.Boxes[0].Stack = resources.StackBatch
	expect(t, p, plan, "shelf-overlap")
}

func BenchmarkCheck150(b *testing.B) {
	p, plan := manyBatches(b, 150)
	for b.Loop() {
		Check(p, plan)
	}
}

// Whatever one field of a plan is changed to, the judge neither stops short nor
// runs on, and tells of the same plan the same things.
func TestDamagedPlansAreJudged(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	spoilt := 0
	const tries = 1000
	for n := range tries {
		m := followed(t)
		if n%2 == 0 {
			m = told(t)
		}
		damage(random, reflect.ValueOf(m.plan).Elem())
		got := Check(m.p, m.plan)
		if again := Check(m.p, m.plan); !reflect.DeepEqual(got, again) {
			t.Fatalf("got %v, then %v", got, again)
		}
		if len(got) > 0 {
			spoilt++
		}
	}
	// Warnings, cautions, what the calendar numbers, what titles tell, what goes in or is written down, and what packets were used
	// are not judged.
	if spoilt < tries*7/10 {
		t.Errorf("got violations of %d of %d damaged plans, want most", spoilt, tries)
	}
}

// A problem is read with care elsewhere; still, an odd figure in it is no reason
// for the judge to stop short.
func TestDamagedProblemsAreJudged(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		m := followed(t)
		k := &m.p.Kitchen
		parts := []any{&m.p.Recipes, &m.p.Targets, &m.p.Ordered, &m.p.Earlier, &k.Step, &k.People, &k.Round, &k.Pots, &k.Stations,
			&k.Moulds, &k.Boxes, &k.Cold, &k.Milk}
		damage(random, reflect.ValueOf(parts[random.IntN(len(parts))]).Elem())
		Check(m.p, m.plan)
	}
}

// damage walks to a field at random and changes it.
func damage(random *rand.Rand, v reflect.Value) {
	odd := []int64{0, 1, -1, 7, 1440, 1 << 20, 1 << 40, -1 << 40, 1 << 62, -1 << 62}
	switch v.Kind() {
	case reflect.Struct:
		damage(random, v.Field(random.IntN(v.NumField())))
	case reflect.Slice:
		switch n := v.Len(); {
		case n == 0:
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		case random.IntN(6) == 0:
			v.Set(v.Slice(0, random.IntN(n)))
		case random.IntN(6) == 0:
			v.Set(reflect.Append(v, v.Index(random.IntN(n))))
		default:
			damage(random, v.Index(random.IntN(n)))
		}
	case reflect.Pointer:
		if v.IsNil() || random.IntN(3) == 0 {
			v.Set(reflect.Zero(v.Type()))
			return
		}
		damage(random, v.Elem())
	case reflect.String:
		v.SetString([]string{"", "x", "room", "fridge", "Tom", "RH-270302-1"}[random.IntN(6)])
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Uint8:
		v.SetUint(uint64(random.IntN(256)))
	case reflect.Int, reflect.Int64:
		if random.IntN(2) == 0 {
			v.SetInt(v.Int() + int64(random.IntN(11)-5))
			return
		}
		v.SetInt(odd[random.IntN(len(odd))])
	}
}

func TestEmptyPlanOfAnEmptyProblem(t *testing.T) {
	p, plan := &schedule.Problem{}, &schedule.Plan{Outcome: schedule.Met}
	plan.Proof = schedule.Proof{Best: true, Level: schedule.LevelAll}
	expect(t, p, plan, "")
}
