package main

import (
	"strings"
	"testing"
	"time"

	"ripeby/calendar/label"
	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/resources"
)

// What the demo says of labels fits on them, for every cheese.
func TestLabelsOfTheDemoFit(t *testing.T) {
	p, err := config.LoadFS(demo.Files(), config.Options{From: demo.From, Now: time.Unix(0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range p.Recipes {
		page, err := label.Page(p, []label.Lot{{Lot: r.LotDay(resources.Date{Year: 2027, Month: 3, Day: 9}) + "-12", Cheese: r.Name, Packed: p.From, Labels: 25}}, label.Options{})
		if err != nil || !strings.Contains(string(page), "25 labels of 60 x 30 mm on 2 sheets of A4") {
			t.Errorf("%s: %v", r.Name, err)
		}
	}
}
