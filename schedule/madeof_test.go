package schedule_test

import (
	"fmt"
	"reflect"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// What a thing says in short must not leave out anything that it says.
func TestThingsInShortLeaveNothingOut(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var open func(at reflect.Type, path string)
	open = func(at reflect.Type, path string) {
		switch at.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array:
			open(at.Elem(), path)
		case reflect.Map, reflect.Interface, reflect.Func, reflect.Chan:
			t.Errorf("%s is a %s: its text may differ from run to run, or there is none", path, at.Kind())
		case reflect.Struct:
			if seen[at] {
				return
			}
			seen[at] = true
			for i := range at.NumField() {
				f := at.Field(i)
				if f.Type == reflect.TypeFor[schedule.Label]() || f.Type == reflect.TypeFor[[]schedule.Measure]() ||
					at == reflect.TypeFor[schedule.Recipe]() && f.Name == "Cost" {
					continue // no plan is otherwise for what stands on a label, is written down, nor for what a piece costs
				}
				if !f.IsExported() || f.Tag.Get("json") == "-" {
					t.Errorf("%s.%s is not told", path, f.Name)
				}
				open(f.Type, fmt.Sprintf("%s.%s", path, f.Name))
			}
		}
	}
	for _, of := range []any{resources.Person{}, resources.Pot{}, resources.Station{}, resources.Mould{}, resources.Box{}, resources.ColdPlace{},
		resources.Milk{}, resources.Round{}, schedule.Recipe{}, schedule.Ordered{}} {
		at := reflect.TypeOf(of)
		open(at, at.Name())
	}
}

// A kitchen is the same things each time it is asked, and one thing that is otherwise is told alone.
func TestThingsTellWhatIsOtherwise(t *testing.T) {
	p := &schedule.Problem{Recipes: []schedule.Recipe{{Name: "Curd", Stages: []schedule.Stage{{Name: "make", Hands: &schedule.Hands{Fixed: 30}}}}}}
	p.Kitchen.People = []resources.Person{{Name: "Nell"}, {Name: "Finn"}}
	before := p.Things()
	p.Recipes[0].Stages[0].Hands = &schedule.Hands{Fixed: 30}
	if again := p.Things(); !reflect.DeepEqual(before, again) {
		t.Fatalf("got %v and then %v, want the same", before, again)
	}
	p.Recipes[0].Needs = []schedule.Need{{What: "rennet", Stage: "make"}}
	if again := p.Things(); !reflect.DeepEqual(before, again) {
		t.Fatalf("with rennet got %v, want %v: nothing moves for that", again, before)
	}
	p.Recipes[0].Measures = []schedule.Measure{{What: "pH", Stage: "make"}}
	if again := p.Things(); !reflect.DeepEqual(before, again) {
		t.Fatalf("with a pH to measure got %v, want %v: nothing moves for that", again, before)
	}
	p.Recipes[0].Stages[0].Hands.Fixed = 35
	p.Kitchen.People[1].Away = []resources.Span{{From: 1, Until: 2}}
	var told []string
	for i, x := range p.Things() {
		if x != before[i] {
			told = append(told, x.What)
		}
	}
	if want := []string{"Finn in kitchen.yaml", "the recipe of Curd"}; !reflect.DeepEqual(told, want) {
		t.Errorf("got %v, want %v", told, want)
	}
}
