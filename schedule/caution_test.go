package schedule

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/resources"
)

// cautionKitchen has a room at 20 °C, a fridge at 4 °C and a cave at 11 °C.
func cautionKitchen() resources.Kitchen {
	return resources.Kitchen{Room: 20_000, Cold: []resources.ColdPlace{
		{Name: "fridge", Temperature: 4_000}, {Name: "cave", Temperature: 11_000}}}
}

func cautionHold(least, most resources.Minutes) *Hold { return &Hold{Least: least, Most: most} }

func codes(cs []Caution) []string {
	var list []string
	for _, c := range cs {
		list = append(list, strings.TrimSuffix(fmt.Sprintf("%s %s", c.Code, c.Stage), " "))
	}
	return list
}

func TestCautionsByRecipe(t *testing.T) {
	const h, d = resources.Hour, resources.Day
	set := func(most resources.Minutes) Stage { return Stage{Name: "set", Hold: cautionHold(h, most)} }
	at := func(place string) At { return At{Kind: AtPlace, Place: place} }
	ripen := func(place string, least, most resources.Minutes) Stage {
		return Stage{Name: "ripen", At: at(place), Hold: cautionHold(least, most)}
	}
	pack := Stage{Name: "pack", At: at("fridge")}
	for _, c := range []struct {
		name   string
		room   resources.MilliCelsius
		stages []Stage
		want   []string
	}{
		{"quick and cold", 20_000, []Stage{set(12*h - 1), pack}, []string{"raw-milk", "keeps"}},
		{"12 h set", 20_000, []Stage{set(12 * h), pack}, []string{"raw-milk", "keeps", "slow-set set"}},
		{"just below a day", 20_000, []Stage{set(24*h - 1), pack}, []string{"raw-milk", "keeps", "slow-set set"}},
		{"a day's set", 20_000, []Stage{set(24 * h), pack}, []string{"raw-milk", "keeps", "slow-set set", "no-set set"}},
		{"room below 10 °C", 9_999, []Stage{set(24 * h), pack}, []string{"raw-milk", "keeps"}},
		{"only the first long warm hold", 20_000, []Stage{set(12 * h), {Name: "drain", Hold: cautionHold(h, 20*h)}, pack},
			[]string{"raw-milk", "keeps", "slow-set set"}},
		{"warm after cold", 20_000, []Stage{ripen("fridge", h, d), set(20 * h), pack}, []string{"raw-milk", "keeps"}},
		{"rind in the fridge", 20_000, []Stage{ripen("fridge", 5*d, 5*d), pack}, []string{"raw-milk", "keeps", "soft-ripened"}},
		{"too short for a rind", 20_000, []Stage{ripen("fridge", d, 5*d-1), pack}, []string{"raw-milk", "keeps"}},
		{"ripens in the cave", 20_000, []Stage{ripen("cave", 7*d, 9*d), pack},
			[]string{"raw-milk", "keeps", "soft-ripened", "ripening-above-5 ripen"}},
		{"60 days old", 20_000, []Stage{ripen("fridge", 60*d, 70*d), pack}, []string{"raw-milk", "keeps"}},
		{"kept in the cave", 20_000, []Stage{{Name: "pack", At: at("cave")}}, []string{"raw-milk", "keeps", "store-above-5 pack"}},
		{"no rest in the cave", 20_000, []Stage{{Name: "pass", At: at("cave")}, pack}, []string{"raw-milk", "keeps"}},
		{"range that reaches the cave", 20_000, []Stage{{Name: "rest", At: At{Kind: AtRange, Low: 2_000, High: 11_000}, Hold: cautionHold(h, d)}, pack},
			[]string{"raw-milk", "keeps", "ripening-above-5 rest"}},
		{"range below the cave", 20_000, []Stage{{Name: "rest", At: At{Kind: AtRange, Low: 2_000, High: 10_999}, Hold: cautionHold(h, d)}, pack},
			[]string{"raw-milk", "keeps"}},
	} {
		k := cautionKitchen()
		k.Room = c.room
		p := &Problem{Kitchen: k, Recipes: []Recipe{{Name: "Try", Keeps: d, Stages: c.stages}}, Stock: []Stock{{Cheese: "Try"}}}
		if got := codes(Cautions(p)); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// FDA Food Code, cold holding: 5 °C (41 °F) is within it, a little more is not.
func TestCautionsAtFiveDegreesFoodCode(t *testing.T) {
	for _, c := range []struct {
		at   resources.MilliCelsius
		want string
	}{{5_000, ""}, {5_001, "5 °C"}, {8_000, "5 °C"}, {8_001, "8 °C"}} {
		k := resources.Kitchen{Cold: []resources.ColdPlace{{Name: "shop fridge", Temperature: c.at}}}
		p := &Problem{Kitchen: k, Recipes: []Recipe{{Name: "Try", Stages: []Stage{{Name: "pack", At: At{Kind: AtPlace, Place: "shop fridge"}}}}},
			Begun: []Begun{{Cheese: "Try"}}}
		text := ""
		for _, found := range Cautions(p) {
			if found.Code == CautionWarmStore {
				text = found.Text
			}
		}
		if (c.want == "") != (text == "") || !strings.Contains(text, c.want) || (c.want == "5 °C" && strings.Contains(text, "the 8 °C")) {
			t.Errorf("at %s: got %q, want %q in it", resources.FormatTemperature(c.at), text, c.want)
		}
	}
}

// 21 CFR 133.182(a): 60 days, from the start of the make as the recipe has it at
// the earliest.
func TestCautionRawMilkNamesSixtyDays(t *testing.T) {
	for _, c := range []struct {
		least resources.Minutes
		want  bool
	}{{60*resources.Day - 1, true}, {60 * resources.Day, false}} {
		r := Recipe{Name: "Try", Stages: []Stage{{Name: "ripen", Hold: cautionHold(c.least, 90*resources.Day)}, {Name: "pack"}}}
		p := &Problem{Recipes: []Recipe{r}, Stock: []Stock{{Cheese: "Try"}}}
		if got := strings.Contains(Cautions(p)[0].Text, "60 days"); got != c.want {
			t.Errorf("least %s: names 60 days %t, want %t", resources.FormatMinutes(c.least), got, c.want)
		}
	}
}

func TestCautionsOfUsedCheesesInRecipeOrder(t *testing.T) {
	p := &Problem{
		Recipes: []Recipe{{Name: "A"}, {Name: "B"}, {Name: "C"}, {Name: "D"}},
		Targets: []Target{{Wants: []Want{{Cheese: "D"}, {Cheese: "B"}, {Cheese: "gone"}}}},
		Begun:   []Begun{{Cheese: "A"}},
		Stock:   []Stock{{Cheese: "B"}},
	}
	var got []string
	for _, c := range Cautions(p) {
		if c.Code == CautionKeeps {
			got = append(got, c.Cheese)
		}
		if strings.Contains(strings.ToLower(c.Text), "is safe") && !strings.Contains(c.Text, "not a proof") {
			t.Errorf("%s presents something as safe: %q", c.Code, c.Text)
		}
	}
	if want := []string{"A", "B", "D"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if !slices.Equal(codes(Cautions(p)), codes(Cautions(p))) {
		t.Error("two calls differ")
	}
}

func TestCautionsStandBySelf(t *testing.T) {
	if got := Cautions(&Problem{}); len(got) != 0 {
		t.Errorf("got %v of nothing, want none", got)
	}
}
