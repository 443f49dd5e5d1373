package config

import (
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
	o, ok := p.object(p.root, recipeLabel(p), "name: Ash button",
		"name", "code", "milk", "yield", "piece", "spare", "batch", "mould", "box", "keeps", "stages")
	if !ok {
		l.recipesUnsure = true
		return
	}
	var r schedule.Recipe
	r.Name, ok = need(o, "name", "Ash button", nameText)
	if !ok {
		l.recipesUnsure = true
	} else if l.recipeNames.enter(o, "name", r.Name) {
		r.Code = l.code(o, r.Name)
	}
	r.Milk = l.milkName(o, "milk", false)
	r.Yield = yieldOf(o)
	r.Piece, _ = either(o, "piece", 0, above0(resources.ParseMass))
	r.Spare, _ = either(o, "spare", 0, whole(0, MaxPieces))
	r.Batch = batchOf(o)
	r.Mould = l.mouldName(o)
	r.Box = l.boxing(o)
	r.Keeps, _ = need(o, "keeps", "6 d", above0(resources.ParseMinutes))
	var nodes []*object
	r.Stages, nodes = l.stages(o)
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
		o.missing(key, "Hill Farm cow")
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
	f, ok := o.inner("box", "{name: ripening box, takes: 8}", "name", "takes")
	if !ok {
		return nil
	}
	var b schedule.Boxing
	if b.Name, ok = need(f, "name", "ripening box", nameText); ok {
		f.knownName(f.get("name"), "name", b.Name, "box", namesOf(l.problem.Kitchen.Boxes, func(b resources.Box) string { return b.Name }), l.sure["boxes"])
	}
	b.Takes, _ = need(f, "takes", "8", whole(1, MaxPieces))
	return &b
}

// yieldOf reads how many pieces come from how much milk.
func yieldOf(o *object) schedule.Yield {
	const example = "{pieces: 9, from: 5 L}"
	if o.get("yield") == nil {
		o.missing("yield", example)
	}
	f, ok := o.inner("yield", example, "pieces", "from")
	if !ok {
		return schedule.Yield{}
	}
	var y schedule.Yield
	y.Pieces, _ = need(f, "pieces", "8", whole(1, MaxPieces))
	y.From, _ = need(f, "from", "4 L", above0(resources.ParseVolume))
	return y
}

// batchOf reads which sizes a batch may have.
func batchOf(o *object) schedule.BatchSize {
	const example = "{least: 5 L, most: 15 L, step: 1 L}"
	if o.get("batch") == nil {
		o.missing("batch", example)
	}
	f, ok := o.inner("batch", example, "least", "most", "step", "serves")
	if !ok {
		return schedule.BatchSize{}
	}
	var b schedule.BatchSize
	var okLeast, okMost bool
	b.Least, okLeast = need(f, "least", "4 L", above0(resources.ParseVolume))
	b.Most, okMost = need(f, "most", "12 L", above0(resources.ParseVolume))
	b.Step, _ = either(f, "step", defaultBatchStep, above0(resources.ParseVolume))
	b.Serves, _ = either(f, "serves", 1, whole(1, MaxPieces))
	if okLeast && okMost && b.Most < b.Least {
		f.fault("most", Fault{What: "most is below least, which is " + resources.FormatVolume(b.Least), Got: clip(f.get("most").Value)})
	}
	return b
}

// defaultBatchStep holds where a recipe is silent.
const defaultBatchStep resources.Millilitres = 1000
