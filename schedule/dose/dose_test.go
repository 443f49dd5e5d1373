package dose

import (
	"math/big"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
)

// amount reads an amount that a test writes.
func amount(t interface{ Fatal(...any) }, text string) resources.Amount {
	a, err := resources.ParseAmount(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func strength(t interface{ Fatal(...any) }, text string) (s resources.Strength) {
	if text == "" {
		return s
	}
	s, err := resources.ParseStrength(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Doses that are published, and what suppliers print of theirs.
func TestPublishedDoses(t *testing.T) {
	for _, c := range []struct {
		source string
		per    schedule.NeedPer
		need   string
		recipe string // strength
		packet string
		litres resources.Millilitres
		curd   resources.Milligrams
		want   string // with as many decimals as are printed
		unit   string
	}{
		{"D1, urbancheese.co.nz, which rennet, a supplier's rule: litres set per mL are IMCU x 0.01, so 100 IMCU/L", schedule.PerLitre, "100 IMCU", "280 IMCU/mL", "", 8000, 0, "2.86", "mL"},
		{"D2, urbancheese.co.nz, the same supplier's table for 10 L", schedule.PerLitre, "100 IMCU", "240 IMCU/mL", "", 10_000, 0, "4.17", "mL"},
		{"D2, urbancheese.co.nz, 280 IMCU", schedule.PerLitre, "100 IMCU", "280 IMCU/mL", "", 10_000, 0, "3.57", "mL"},
		{"D2, urbancheese.co.nz, 65 IMCU", schedule.PerLitre, "100 IMCU", "65 IMCU/mL", "", 10_000, 0, "15.4", "mL"},
		{"D3, cheeseforum.org, topic 8167: 8 mL of 200 IMCU set 43.7 L: 36.6 IMCU/L", schedule.PerLitre, "36.6 IMCU", "200 IMCU/mL", "", 10_000, 0, "1.83", "mL"},
		{"D3, worked out of it, the same of 500 IMCU, by the packet", schedule.PerLitre, "0.183 mL", "200 IMCU/mL", "500 IMCU/mL", 10_000, 0, "0.73", "mL"},
		{"D3, worked out of it, written in IMCU", schedule.PerLitre, "36.6 IMCU", "200 IMCU/mL", "500 IMCU/mL", 10_000, 0, "0.73", "mL"},
		{"D4, beta.reader.beckr.dev, rennet thread: IMCU/L x L / (IMCU/mL)", schedule.PerLitre, "45 IMCU", "150 IMCU/mL", "", 10_000, 0, "3.0", "mL"},
		{"D4, the same, where only the packet says a strength", schedule.PerLitre, "45 IMCU", "", "150 IMCU/mL", 10_000, 0, "3.0", "mL"},
		{"D5, scribd 451157483, a French tomme: 30 mL/100 L", schedule.PerLitre, "0.3 mL", "", "", 12_000, 0, "3.6", "mL"},
		{"D5, the same, its culture: 1.25 DCU/100 L", schedule.PerLitre, "0.0125 DCU", "", "", 12_000, 0, "0.15", "DCU"},
		{"D6, cheeseforum.org, topic 4747: a packet of 25 DCU does 385 L at 6.5 DCU/100 L", schedule.PerLitre, "0.065 DCU", "25 DCU/packet", "", 385_000, 0, "1.00", "packet"},
		{"D6, the same, 256 L at 9.75", schedule.PerLitre, "0.0975 DCU", "25 DCU/packet", "", 256_000, 0, "1.00", "packet"},
		{"D6, the same, 192 L at 13", schedule.PerLitre, "0.13 DCU", "25 DCU/packet", "", 192_000, 0, "1.00", "packet"},
		{"D17, worked out, 3 kg of cheese take up 1.8 % of salt", schedule.PerCurd, "1.8 %", "", "", 12_000, 3_000_000, "54", "g"},
		{"D18, worked out, 1.5 % of 2.4 kg of curd", schedule.PerCurd, "1.5 %", "", "", 12_000, 2_400_000, "36", "g"},
		{"of curd that nobody weighed nothing is reckoned", schedule.PerCurd, "1.5 %", "", "", 12_000, 0, "1.5", "%"},
		{"what is fixed does not grow", schedule.PerBatch, "1/8 tsp", "", "", 12_000, 0, "0.125", "tsp"},
	} {
		n := schedule.Need{Per: c.per, Amount: amount(t, c.need), Strength: strength(t, c.recipe)}
		got, unit, _, fits := scaled(&n, size{litres: c.litres, curd: c.curd}, strength(t, c.packet))
		places := 0
		for i := range c.want {
			if c.want[i] == '.' {
				places = len(c.want) - i - 1
			}
		}
		if s := got.FloatString(places); s != c.want || unit != c.unit || !fits {
			t.Errorf("%s: got %s %s, %v, want %s %s", c.source, s, unit, fits, c.want, c.unit)
		}
	}
}

// A packet whose strength is not of what the recipe writes changes nothing, and it is told.
func TestAStrengthThatSaysNothing(t *testing.T) {
	for _, c := range []struct{ need, recipe, packet, want string }{
		{"4 IMCU", "200 IMCU/mL", "25 DCU/sachet", "0.2"},
		{"0.05 mL", "", "200 IMCU/mL", "0.5"}, {"2 drops", "", "200 IMCU/mL", "20.0"}, {"1 sachet", "", "25 DCU/sachet", "10.0"},
	} {
		n := schedule.Need{Per: schedule.PerLitre, Amount: amount(t, c.need), Strength: strength(t, c.recipe)}
		got, _, _, fits := scaled(&n, size{litres: 10_000}, strength(t, c.packet))
		if fits || got.FloatString(1) != c.want {
			t.Errorf("%s by a packet of %s: got %s, fits %v, want %s and that it does not", c.need, c.packet, got.FloatString(1), fits, c.want)
		}
	}
}

func TestMeasurable(t *testing.T) {
	for _, c := range []struct{ size, unit, scale, want string }{
		{"20/7", "mL", "", "2.9 mL"}, {"0.183", "mL", "", "0.18 mL"}, {"0.995", "mL", "", "1 mL"}, {"0.0102", "L", "", "0.0102 L"},
		{"0.123", "g", "", "0.12 g"}, {"9.996", "g", "", "10 g"}, {"12.34", "g", "", "12.3 g"}, {"123.4", "g", "", "123 g"}, {"0.004", "g", "", ""},
		{"123", "mg", "", "120 mg"}, {"1.2344", "kg", "", "1.234 kg"},
		{"0.123", "g", "0.1 g", "0.1 g"}, {"0.26", "g", "0.5 g", "0.5 g"}, {"0.24", "g", "0.5 g", ""}, {"1.004", "oz", "0.1 g", "28.5 g"}, {"10", "g", "0.1 oz", "0.4 oz"},
		{"1.234", "oz", "", "1.23 oz"}, {"0.1", "lb", "", "1.6 oz"},
		{"0.36", "tsp", "", "3/8 tsp"}, {"0.15", "tsp", "", "5/32 tsp"}, {"2.49", "tsp", "", "2 1/2 tsp"}, {"0.98", "tsp (metric)", "", "1 tsp (metric)"}, {"0.001", "tsp", "", ""},
		{"1.5", "tbsp", "", "1 1/2 tbsp"}, {"0.25", "tbsp", "", "3/4 tsp"},
		{"2.4", "drops", "", "2 drops"}, {"2.5", "drops", "", "3 drops"}, {"0.4", "drops", "", ""},
		{"0.3", "sachet", "", "0.5 sachet"}, {"1.2", "sachet", "", "1 sachet"}, {"0.2", "sachet", "", ""},
		{"36.44", "IMCU", "", "36.4 IMCU"}, {"0.1533", "DCU", "", "0.15 DCU"},
	} {
		size, _ := new(big.Rat).SetString(c.size)
		var scale resources.Amount
		if c.scale != "" {
			scale = amount(t, c.scale)
		}
		_, unit, rounded := measurable(size, c.unit, scale)
		got := ""
		if rounded.Sign() > 0 {
			got = resources.FormatAmount(resources.Amount{Num: rounded.Num().Int64(), Den: rounded.Denom().Int64(), Unit: unit})
		}
		if got != c.want {
			t.Errorf("%s %s on a scale of %q: got %q, want %q", c.size, c.unit, c.scale, got, c.want)
		}
	}
}

// Twice the milk takes twice as much, whatever is written; and what is measured is off by half a step at the most.
func TestDosesAreLinearInLitres(t *testing.T) {
	units := []string{"mg", "g", "kg", "oz", "lb", "mL", "L", "tsp", "tbsp", "tsp (metric)", "tbsp (metric)", "drops", "IMCU", "DCU", "sachet"}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		n := schedule.Need{Per: schedule.PerLitre, Amount: resources.Amount{Num: rapid.Int64Range(1, 1000).Draw(t, "top"), Den: 1009, Unit: unit}}
		if resources.KindOf(unit) == resources.Active && rapid.Bool().Draw(t, "strong") {
			n.Strength = strength(t, rapid.SampledFrom([]string{"200", "37.5", "0.1"}).Draw(t, "strength")+" "+unit+"/mL")
		}
		a, b := resources.Millilitres(rapid.Int64Range(1, 100_000).Draw(t, "a")), resources.Millilitres(rapid.Int64Range(1, 100_000).Draw(t, "b"))
		of := func(litres resources.Millilitres) *big.Rat {
			r, _, _, _ := scaled(&n, size{litres: litres}, resources.Strength{})
			return r
		}
		if sum := new(big.Rat).Add(of(a), of(b)); sum.Cmp(of(a+b)) != 0 {
			t.Fatalf("%v and %v together: got %v, want %v", a, b, of(a+b), sum)
		}
		_, to, _, _ := scaled(&n, size{litres: a}, resources.Strength{})
		told, in, rounded := measurable(of(a), to, resources.Amount{})
		if resources.KindOf(in) == resources.Weighed && rounded.Sign() > 0 {
			off := new(big.Rat).Sub(told, rounded)
			if grams, _ := resources.InUnit(off.Abs(off), in, "g"); grams.Cmp(big.NewRat(3, 2)) > 0 { // a tenth of an ounce is 2.8 g
				t.Fatalf("%v %s is rounded to %v", told, in, rounded)
			}
		}
	})
}

// kitchen is a plan of three batches of one cheese, a day apart.
func kitchen(t *testing.T) (*schedule.Problem, *schedule.Plan) {
	p := &schedule.Problem{Kitchen: resources.Kitchen{Zone: time.UTC}, From: 1000}
	p.Recipes = []schedule.Recipe{{Name: "Ash", Yield: schedule.Yield{Pieces: 2, From: 1000}, Needs: []schedule.Need{
		{What: "rennet", Stage: "make", Per: schedule.PerLitre, Amount: amount(t, "50 IMCU"), Strength: strength(t, "200 IMCU/mL")},
		{What: "salt", Stage: "salt", Per: schedule.PerCurd, Amount: amount(t, "1.5 %")},
		{What: "ash", Stage: "salt", Per: schedule.PerPiece, Amount: amount(t, "0.5 g")},
	}}}
	plan := &schedule.Plan{From: 1000}
	for i, id := range []string{"A-1", "A-2", "A-3"} {
		at := resources.Moment(2000 + i*1440)
		plan.Batches = append(plan.Batches, schedule.Batch{ID: id, Cheese: "Ash", Litres: 8000, Pieces: 16,
			Stages: []schedule.Task{{Stage: "make", Start: at, Work: 60}, {Stage: "salt", Start: at + 600, Work: 30}}})
	}
	return p, plan
}

// TestSaltGoesByTheLastWeight: said before the work is over or with it; a weight of later, of another batch or
// with another stage is none.
func TestSaltGoesByTheLastWeight(t *testing.T) {
	const over = 2630 // of the salting of A-1
	w := func(at resources.Moment, kg int64, with string) schedule.CurdWeight {
		return schedule.CurdWeight{Batch: "A-1", At: at, Is: resources.Milligrams(kg * 1_000_000), With: with}
	}
	for _, c := range []struct {
		name string
		said []schedule.CurdWeight // by time
		want int64                 // grams; 0 for a blank
	}{
		{"nobody said", nil, 0},
		{"before", []schedule.CurdWeight{w(2100, 2, "make")}, 30},
		{"twice before: the last", []schedule.CurdWeight{w(2100, 2, "make"), w(2200, 3, "")}, 45},
		{"as the work is over", []schedule.CurdWeight{w(over, 2, "")}, 30},
		{"once it is over", []schedule.CurdWeight{w(over+1, 2, "")}, 0},
		{"with it, which took longer", []schedule.CurdWeight{w(2100, 2, "make"), w(over+40, 4, "salt")}, 60},
		{"with what came later", []schedule.CurdWeight{w(over+40, 4, "pack")}, 0},
		{"of another batch", []schedule.CurdWeight{{Batch: "A-2", At: 2100, Is: 2_000_000}}, 0},
	} {
		p, plan := kitchen(t)
		p.Weighed = c.said
		Fill(p, plan)
		salt := plan.Batches[0].Stages[1].Needs[0]
		if blank := salt.Unweighed(); blank != (c.want == 0) || !blank && salt.Amount != c.want*millionths {
			t.Errorf("%s: got %v, want %d g", c.name, salt, c.want)
		}
	}
}

func rennet(plan *schedule.Plan, batch int) schedule.Dose {
	return plan.Batches[batch].Stages[0].Needs[0]
}

func TestAPlanIsFilled(t *testing.T) {
	p, plan := kitchen(t)
	p.Weighed = []schedule.CurdWeight{{Batch: "A-1", At: 2620, Is: 2_400_000}, {Batch: "A-1", At: 9000, Is: 1}}
	Fill(p, plan)
	if got, want := rennet(plan, 0), (schedule.Dose{What: "rennet", Amount: 2_000_000, Rounded: 2_000_000, Unit: "mL", Strength: "200 IMCU/mL"}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	salt, waits := plan.Batches[0].Stages[1].Needs[0], plan.Batches[1].Stages[1].Needs[0]
	if salt.Amount != 36_000_000 || salt.Unit != "g" || !waits.Unweighed() || waits.Amount != 1_500_000 {
		t.Errorf("got %v and %v, want 36 g by the weight that was said by then, and a blank", salt, waits)
	}
	if ash := plan.Batches[2].Stages[1].Needs[1]; ash.Amount != 8_000_000 {
		t.Errorf("got %v, want 8 g for 16 pieces", ash)
	}
	sums := Sums(plan, resources.Span{From: 2500, Until: 2000 + 2*1440})
	if len(sums) != 4 || sums[2].What != "rennet" || sums[2].Amount != 2_000_000 || sums[2].Batches != 1 || sums[1].Amount != 16_000_000 || sums[1].Batches != 2 {
		t.Errorf("got %v", sums)
	}
}

// What is opened later, of another strength, is scaled for from then on; what was made before keeps its own.
func TestAPacketHoldsFromWhenItIsOpened(t *testing.T) {
	p, plan := kitchen(t)
	p.Packets = []schedule.Packet{
		{What: "rennet", From: 500, Lot: "R-1", Strength: strength(t, "200 IMCU/mL")},
		{What: "rennet", From: 3000, Lot: "R-2", Strength: strength(t, "400 IMCU/mL")}}
	Fill(p, plan)
	if a, b := rennet(plan, 0), rennet(plan, 1); a.Lot != "R-1" || a.Amount != 2_000_000 || b.Lot != "R-2" || b.Amount != 1_000_000 || b.Strength != "400 IMCU/mL" {
		t.Errorf("got %v and %v, want 2 mL of R-1 and 1 mL of R-2", a, b)
	}
	p.LotsUsed = []schedule.LotUsed{{Batch: "A-2", What: "rennet", Lot: "R-1"}, {Batch: "A-3", What: "rennet", Lot: "elsewhere"}}
	Fill(p, plan)
	if a, b := rennet(plan, 1), rennet(plan, 2); a.Lot != "R-1" || a.Amount != 2_000_000 || b.Lot != "elsewhere" || b.Amount != 2_000_000 {
		t.Errorf("got %v and %v, want what was said to have gone in", a, b)
	}
}

// What a stage that had begun was told stays, whatever the recipe says now.
func TestWhatWentInStays(t *testing.T) {
	p, was := kitchen(t)
	was.Batches[0].Stages[0].Begun = true
	Fill(p, was)
	_, plan := kitchen(t)
	plan.Batches[0].Stages[0].Begun = true
	p.Earlier = was
	p.Recipes[0].Needs[0].Amount = amount(t, "100 IMCU")
	Fill(p, plan)
	if a, b := rennet(plan, 0), rennet(plan, 1); a.Amount != 2_000_000 || b.Amount != 4_000_000 {
		t.Errorf("got %v and %v, want 2 mL that went in and 4 mL to come", a, b)
	}
}

func codes(plan *schedule.Plan) (out []string) {
	for _, w := range plan.Warnings {
		out = append(out, w.Code+" "+w.At.In(time.UTC).Format("02 15:04"))
	}
	return out
}

func TestWhatOfAPacketIsTold(t *testing.T) {
	date := resources.Date{Year: 1970, Month: 1, Day: 3}
	for _, c := range []struct {
		name   string
		packet schedule.Packet
		used   []schedule.PacketUsed
		want   []string
	}{
		{"lasts to the drop", schedule.Packet{Holds: amount(t, "6 mL")}, nil, nil},
		{"runs out at the third", schedule.Packet{Holds: amount(t, "5 mL")}, nil, []string{"packet-empty 04 09:20"}},
		{"has given 3 mL to batches of before", schedule.Packet{Holds: amount(t, "5 mL")}, []schedule.PacketUsed{{What: "rennet", From: 500, Amount: 3_000_000, Unit: "mL"}}, []string{"packet-empty 03 09:20"}},
		{"what another packet gave is no matter", schedule.Packet{Holds: amount(t, "6 mL")}, []schedule.PacketUsed{{What: "rennet", From: 400, Amount: 3_000_000, Unit: "mL"}}, nil},
		{"in other words", schedule.Packet{Holds: amount(t, "1 tsp")}, nil, []string{"packet-empty 04 09:20"}},
		{"by weight nothing is reckoned", schedule.Packet{Holds: amount(t, "1 g")}, nil, nil},
		{"its last day is a day", schedule.Packet{UseBy: date}, nil, []string{"packet-past 04 09:20"}},
		{"another strength", schedule.Packet{Strength: strength(t, "25 DCU/sachet")}, nil, []string{"packet-strength 02 09:20"}},
	} {
		p, plan := kitchen(t)
		c.packet.What, c.packet.From = "rennet", 500
		p.Packets = []schedule.Packet{c.packet}
		p.Earlier = &schedule.Plan{Used: c.used}
		Fill(p, plan)
		if got := codes(plan); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// What a batch took that is over and forgotten, or lost, is still gone from the packet.
func TestWhatForgottenBatchesTook(t *testing.T) {
	for _, past := range []bool{false, true} {
		p, was := kitchen(t)
		p.Packets = []schedule.Packet{{What: "rennet", From: 500, Holds: amount(t, "50 mL")}}
		Fill(p, was)
		if past {
			was.Past, was.Batches = was.Batches[:1:1], was.Batches[1:]
		}
		_, plan := kitchen(t)
		plan.Batches, p.Earlier, p.From = plan.Batches[1:], was, 3000
		p.Lived = &schedule.Plan{Batches: was.Batches[len(was.Batches)-1:]} // the first is lost
		Fill(p, plan)
		Fill(p, plan) // again comes to the same
		if want := (schedule.PacketUsed{What: "rennet", From: 500, Amount: 2_000_000, Unit: "mL"}); len(plan.Used) != 1 || plan.Used[0] != want {
			t.Errorf("packed already %v: got %v, want %v", past, plan.Used, want)
		}
	}
}
