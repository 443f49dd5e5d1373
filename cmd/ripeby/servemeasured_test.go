package main

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// What a recipe asks for is filled in on the page beside its work, answered with what lies outside and with what is
// not written down yet, and makes no other plan; so is the temperature of a place.
func TestWhatIsMeasuredOnThePage(t *testing.T) {
	k := servedKitchen(t)
	rewrite(t, k.folder, "kitchen.yaml", "pots:", "cold: [{name: small fridge, temperature: 4 °C, boxes: 2}]\npots:")
	recipes, err := filepath.Glob(filepath.Join(k.folder, "recipes", "*.yaml"))
	if err != nil || len(recipes) == 0 {
		t.Fatal(err)
	}
	rewrite(t, k.folder, "recipes/"+filepath.Base(recipes[0]), "keeps: 3 d", `keeps: 3 d
measures:
  - {what: curd temperature, stage: make, from: 25 °C, to: 27 °C, else: "warm it slowly"}
  - {what: smell of the whey, stage: make}`)
	planAt(t, k.folder, "2027-03-01 06:00")
	plan := filepath.Join(k.folder, "plan", "plan.json")
	before, err := os.ReadFile(plan)
	if err != nil {
		t.Fatal(err)
	}
	k.start()

	f := formWith(k.see("Nell"), "did", "make")
	f.Set("is:°C:curd temperature", "28,5")
	k.taps("Nell", f, http.StatusSeeOther)
	k.said(1, `measured: [{what: "curd temperature", is: "28,5 °C"}]`)
	page := k.see("Nell")
	const outside = "curd temperature 28,5 °C: above 27 °C, the recipe says: warm it slowly"
	for _, want := range []string{outside + ". Not written down yet: smell of the whey. As planned.", outside + ", "} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page:\n%s", want, page)
		}
	}
	blank := formWith(page, "measured", "make")
	blank.Set("is::smell of the whey", "clean, sweet")
	k.now = k.now.Add(time.Minute)
	k.taps("Nell", blank, http.StatusSeeOther)
	k.said(2, `measured: [{what: "smell of the whey", is: "clean, sweet"}]`)
	if page := k.see("Nell"); strings.Contains(page, "Not written down yet") || strings.Contains(page, ">Write down<") {
		t.Errorf("what is written down is asked for still:\n%s", page)
	}

	fridge := k.at("Nell") + "cold/now/small%20fridge"
	at := formWith(k.ask("GET", fridge, "").Body.String(), "measured", "")
	at.Set("measured", "5,5")
	k.taps("Nell", at, http.StatusSeeOther)
	k.said(3, `place: "small fridge", measured: [{what: "temperature", is: "5,5 °C"}]`)
	if page := k.ask("GET", strings.Replace(fridge, k.at("Nell"), k.at("Ivo"), 1), "").Body.String(); !strings.Contains(page, "temperature 5,5 °C, 20:01, Nell") {
		t.Errorf("Ivo does not see what was measured in the fridge:\n%s", page)
	}
	if after, err := os.ReadFile(plan); err != nil || string(after) != string(before) {
		t.Errorf("the plan is otherwise: %v", err)
	}
}
