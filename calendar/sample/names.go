package sample

import (
	"strings"

	"ripeby/schedule"
)

// NastyNames are names that a kitchen folder may hold.
var NastyNames = map[string]string{
	"newline":     "a\r\nb",
	"escape":      "\x1b[31mred\x07",
	"right":       "abc\u202edef\u2066",
	"hebrew":      "גבינה רכה",
	"wide":        "チーズ工房の冷蔵庫一番上の棚",
	"pipe":        "a|b\\|c",
	"markup":      "<b>*x*</b> _y_ `z` [l](http://example.org)",
	"formula":     "=cmd|'/c calc'!A1",
	"emoji":       "👩\u200d🍳🇮🇪❤️ 🏴\U000e0067\U000e0062\U000e007f",
	"broken":      "\xff\xfeabc",
	"long":        strings.Repeat("long name ", 30),
	"unbroken":    strings.Repeat("x", 300),
	"separators":  "a\u2028b\u0085c\u00a0d",
	"invisible":   "\u200b\ufeff\u00ad",
	"combining":   "e\u0301\u0301\u0301",
	"devanagari":  "नमस्ते दुनिया",
	"semicolons":  "a;b,c\"d",
	"leading tab": "\t=1+1",
}

// Rename gives every name of the kitchen the same text.
func Rename(p *schedule.Problem, plan *schedule.Plan, name string) {
	p.Kitchen.Name = name
	p.Kitchen.Milk[0].Name = name
	p.Recipes[0].Name = name
	p.Targets[0].Wants[0].Cheese = name
	p.Kitchen.Cold[0].Name = name
	p.Kitchen.Cold[0].Shelves[0].Name = name
	for i := range plan.Targets {
		plan.Targets[i].Because, plan.Targets[i].Cheese = name, name
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		b.Cheese, b.Milk.Supply = name, name
		for j := range b.Stages {
			t := &b.Stages[j]
			t.Stage = name
			if t.Who != "" {
				t.Who = name
			}
			if t.At == "kitchen fridge" {
				t.At = name
			}
			for k := range t.BoxesAt {
				if t.BoxesAt[k].Place == "kitchen fridge" {
					t.BoxesAt[k].Place, t.BoxesAt[k].Shelf = name, name
				}
			}
			for k := range t.Uses {
				t.Uses[k].Thing = name
			}
		}
	}
}
