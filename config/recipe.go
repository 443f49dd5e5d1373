package config

import (
	"ripeby/config/keys"
	"ripeby/resources"
	"ripeby/schedule"
)

// recipe reads one file of recipes/. It is added to the problem in any case, so
// that its name is known; only a recipe without a fault becomes sound.
func (l *loader) recipe(p *page) {
	if p.root == nil {
		l.recipesUnsure = true
		p.faultAt(nil, Fault{What: "this file is empty; a recipe starts with its name", Want: "name: Ash button"})
		return
	}
	before := len(l.faults)
	known := keys.Recipe()
	o, ok := p.object(p.root, recipeLabel(p), known.Example, known)
	if !ok {
		l.recipesUnsure = true
		return
	}
	var r schedule.Recipe
	r.Name, ok = take(o, "name", nameText)
	if !ok {
		l.recipesUnsure = true
	} else if l.recipeNames.enter(o, "name", r.Name) {
		r.Code = l.code(o, r.Name)
	}
	r.Milk = l.milkName(o, "milk", false)
	r.Yield = yieldOf(o)
	r.Piece, _ = either(o, "piece", 0, above0(resources.ParseMass))
	r.Spare, _ = take(o, "spare", whole(0, MaxPieces))
	r.Batch = batchOf(o)
	r.Mould = l.mouldName(o)
	r.Box = l.boxing(o)
	r.Keeps, _ = take(o, "keeps", above0(resources.ParseMinutes))
	r.Cost, _ = either(o, "cost", 0, above0(resources.ParseMoney))
	r.Label = l.label(o, &r)
	var nodes []*object
	r.Stages, nodes = l.stages(o)
	r.Needs = needsOf(o, r.Stages)
	r.Measures = measuresOf(o, r.Stages)
	if len(l.faults) == before {
		l.checkStages(&r, nodes)
		l.checkBatch(&r, o)
	}
	if len(l.faults) == before {
		l.sound[r.Name] = true
	}
	l.problem.Recipes = append(l.problem.Recipes, r)
}

// recipeLabel is what faults call the recipe.
func recipeLabel(p *page) string {
	if name := nameOf(p.root, "name"); name != "" {
		return "recipe \"" + clip(name) + "\""
	}
	return "recipe"
}

// code reads the code for lot numbers, or makes it of the name.
func (l *loader) code(o *object, name string) string {
	code, ok := either(o, "code", initials(name), codeText)
	if !ok {
		return code
	}
	if code == "" {
		o.page.faultAt(o.node, Fault{What: o.label + ": the name has no initials to make a code of", Want: "code: AB"})
		return ""
	}
	if first, taken := l.codes.at[code]; taken {
		f := Fault{What: "this code is taken, see " + first + "; choose another", Got: code}
		if o.get("code") == nil {
			f = Fault{What: "the initials of this name are the code of another recipe, see " + first, Got: code, Want: "a code of your own, code: " + code + "2"}
		}
		o.fault("code", f)
		return code
	}
	l.codes.enter(o, "code", code)
	return code
}

// milkName reads the name of a supply.
func (l *loader) milkName(o *object, key string, required bool) string {
	if o.get(key) == nil && required {
		o.missing(key)
	}
	name, ok := o.text(key)
	if ok {
		o.knownName(o.get(key), key, name, "milk", namesOf(l.problem.Kitchen.Milk, func(m resources.Milk) string { return m.Name }), l.sure["milk"])
	}
	return name
}

// mouldName reads the recipe's own mould.
func (l *loader) mouldName(o *object) string {
	name, ok := o.text("mould")
	if ok {
		o.knownName(o.get("mould"), "mould", name, "mould", namesOf(l.problem.Kitchen.Moulds, func(m resources.Mould) string { return m.Name }), l.sure["moulds"])
	}
	return name
}

// boxing reads a kind of box and how many pieces one takes; nil when left out.
func (l *loader) boxing(o *object) *schedule.Boxing {
	f, ok := o.inner("box")
	if !ok {
		return nil
	}
	var b schedule.Boxing
	if b.Name, ok = take(f, "name", nameText); ok {
		f.knownName(f.get("name"), "name", b.Name, "box", namesOf(l.problem.Kitchen.Boxes, func(b resources.Box) string { return b.Name }), l.sure["boxes"])
	}
	b.Takes, _ = take(f, "takes", whole(1, MaxPieces))
	return &b
}

// yieldOf reads how many pieces come from how much milk.
func yieldOf(o *object) schedule.Yield {
	if o.get("yield") == nil {
		o.missing("yield")
	}
	f, ok := o.inner("yield")
	if !ok {
		return schedule.Yield{}
	}
	var y schedule.Yield
	y.Pieces, _ = take(f, "pieces", whole(1, MaxPieces))
	y.From, _ = take(f, "from", above0(resources.ParseVolume))
	return y
}

// batchOf reads which sizes a batch may have.
func batchOf(o *object) schedule.BatchSize {
	if o.get("batch") == nil {
		o.missing("batch")
	}
	f, ok := o.inner("batch")
	if !ok {
		return schedule.BatchSize{}
	}
	var b schedule.BatchSize
	var okLeast, okMost bool
	b.Least, okLeast = take(f, "least", above0(resources.ParseVolume))
	b.Most, okMost = take(f, "most", above0(resources.ParseVolume))
	b.Step, _ = take(f, "step", above0(resources.ParseVolume))
	b.Serves, _ = take(f, "serves", whole(1, MaxPieces))
	if okLeast && okMost && b.Most < b.Least {
		f.fault("most", Fault{What: "most is below least, which is " + resources.FormatVolume(b.Least), Got: clip(f.get("most").Value)})
	}
	return b
}
