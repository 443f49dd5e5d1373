package schedule

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"ripeby/resources"
)

// MadeOf is what a plan was made from, in short: enough to tell, when the next one is made, what has
// become otherwise since.
type MadeOf struct {
	Entry  int         // the highest number of an entry of the record that was read; 0 for none
	Lines  []string    // its entries without a number, each in short, in their order
	Things []MadeThing // of the folder
	Packed []PackedBy  // targets that are to be packed some time before they leave
}

// MadeThing is a thing of the folder: what it is called, and in short what was said of it.
type MadeThing struct{ What, Entry string }

// PackedBy is how long before it leaves a target is packed.
type PackedBy struct {
	Target string
	By     resources.Moment
	Before resources.Minutes
}

// InShort names what anything says: the same for the same, another for anything else. What it is made
// of must be plain: fields that others can read, no channels and no functions.
func InShort(of any) string {
	text, err := json.Marshal(of)
	if err != nil {
		panic("a thing of the folder has no text: " + err.Error()) // of plain types only a broken build has none
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:6])
}

// Things lists what the folder says, thing by thing, but for targets and what is under way. How long
// the settled time is makes a plan, too, but nothing move.
func (p *Problem) Things() []MadeThing {
	var out []MadeThing
	add := func(what string, of any) { out = append(out, MadeThing{what, InShort(of)}) }
	k := p.Kitchen
	for _, x := range k.People {
		add(x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Pots {
		add("the pot "+x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Stations {
		add("the station "+x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Moulds {
		add("the mould "+x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Boxes {
		add("the box "+x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Cold {
		add("the place "+x.Name+" in kitchen.yaml", x)
	}
	for _, x := range k.Milk {
		add("the milk "+x.Name+" in kitchen.yaml", x)
	}
	add("the round in kitchen.yaml", k.Round)
	whole := []any{k.TimeZone, k.Step, k.Room, k.UnsaidWaits}
	if len(k.Rooms) > 0 {
		whole = append(whole, k.Rooms)
	}
	add("what kitchen.yaml says of the whole kitchen", whole)
	for i := range p.Recipes {
		r := p.Recipes[i]
		r.Needs = nil // no plan moves for what goes in
		add("the recipe of "+r.Name, r)
	}
	add("what begun.yaml says of lost batches", p.Lost)
	add("what begun.yaml says of milk", p.Ordered)
	return out
}
