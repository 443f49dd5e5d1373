package main

import (
	"slices"
	"time"

	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// recordKitchen is what is known of a kitchen when something is said of it.
type recordKitchen struct {
	folder string
	zone   *time.Location
	plan   *schedule.Plan // in force; nil for none
	kept   []schedule.KeptBatch
	said   record.Entries // that stand
	known  record.Known
}

// recordKitchen reads the folder and the plan in force. Without a plan only what
// begun.yaml and the record name is under way.
func (p *program) recordKitchen(s *settings) (*recordKitchen, error) {
	k := kitchen{folder: s.folder}
	plan, err := output{s.out}.earlier()
	if err != nil {
		return nil, err
	}
	problem, err := k.load(p.startWith(plan), p.now())
	if err != nil {
		return nil, err
	}
	r, err := loadRecord(s.folder)
	if r == nil {
		return nil, err // a line that is wrong keeps nobody from saying something; it is told with it
	}
	known := knownOf(problem, plan, r)
	kept, _ := batchFolder{s.folder}.all() // what is wrong with them ripeby trace tells
	known.Batches = append(madeBefore(kept, known.Batches), known.Batches...)
	out := &recordKitchen{folder: s.folder, zone: problem.Kitchen.Zone, plan: plan, kept: kept, said: r.Book.Standing(), known: known}
	if plan != nil {
		problem.Earlier = plan
		went := follows.Of(problem, r.Book).Problem
		markWaiting(&out.known, went)
		markMade(&out.known, went, r.Book.Standing())
	}
	return out, nil
}

// knownOf gathers what an entry may refer to.
func knownOf(problem *schedule.Problem, plan *schedule.Plan, r *config.Record) record.Known {
	var k record.Known
	kit := problem.Kitchen
	for i := range problem.Recipes {
		k.Cheeses = append(k.Cheeses, record.KnownBatch{Names: []string{problem.Recipes[i].Name}, Stages: stagesOf(problem, problem.Recipes[i].Name)})
	}
	k.Batches = batchesOf(problem, plan, r.Book)
	for _, m := range kit.Milk {
		k.Milk = append(k.Milk, m.Name)
	}
	for _, one := range kit.People {
		k.People = append(k.People, one.Name)
	}
	for _, pot := range kit.Pots {
		k.Pots = append(k.Pots, pot.Name)
	}
	for _, c := range kit.Cold {
		place := record.KnownPlace{Name: c.Name}
		for _, shelf := range c.Shelves {
			place.Shelves = append(place.Shelves, shelf.Name)
		}
		k.Places = append(k.Places, place)
	}
	k.Businesses = []string{}
	for _, b := range kit.Businesses {
		k.Businesses = append(k.Businesses, b.Name)
	}
	k.Targets = slices.Clone(r.Targets)
	for _, t := range problem.Targets {
		k.Targets = append(k.Targets, t.Name)
	}
	if plan != nil {
		for _, t := range plan.Targets {
			k.Targets = append(k.Targets, t.Target)
		}
	}
	k.Targets = once(k.Targets)
	return k
}

// markWaiting marks the batches of the earlier plan that have not begun.
func markWaiting(k *record.Known, p *schedule.Problem) {
	for i := range k.Batches {
		b := &k.Batches[i]
		planned := p.Earlier.Batch(b.Names[0])
		b.Waits = planned != nil && !planned.Begun && !p.HasBegun(b.Names[0]) && !slices.Contains(p.Lost, b.Names[0])
	}
}

// markMade says how many pieces there were of each batch that has begun and of each lot of stock, and of each
// cheese in all.
func markMade(k *record.Known, p *schedule.Problem, said record.Entries) {
	made := func(pieces int, cheese string, names ...string) {
		for _, list := range [][]record.KnownBatch{k.Batches, k.Cheeses} {
			for i := range list {
				if slices.ContainsFunc(list[i].Names, func(name string) bool { return name == cheese || slices.Contains(names, name) }) {
					list[i].Made += pieces
				}
			}
		}
	}
	of := func(b *schedule.Batch) {
		first, _ := said.Of(record.OfBatch, b.Names()...).FirstCount()
		made(max(b.Made, b.Pieces, first), b.Cheese, b.Names()...)
	}
	went := p.Went()
	for i := range went.Batches {
		if b := &went.Batches[i]; p.HasBegun(b.ID) {
			of(b)
		}
	}
	for i := range went.Past {
		of(&went.Past[i])
	}
	for i := range p.Stock {
		s := &p.Stock[i]
		made(s.Pieces+schedule.LeftPieces(s.Left), s.Cheese, s.Lot)
	}
	for i := range p.PastStock {
		s := &p.PastStock[i]
		made(s.Pieces+schedule.LeftPieces(s.Left), s.Cheese, s.Lot)
	}
	// Of a cheese with batches that only begun.yaml speaks of there may be more.
	for _, b := range p.Begun {
		for i := range k.Cheeses {
			if slices.Contains(k.Cheeses[i].Names, b.Cheese) {
				k.Cheeses[i].Made = 0
			}
		}
	}
}

// once leaves out what stands in a list before.
func once(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// batchesOf are the batches of the plan in force, of begun.yaml, and those that the record
// has spoken of: what was true of them once can be said of them still.
func batchesOf(problem *schedule.Problem, plan *schedule.Plan, book *record.Book) (all []record.KnownBatch) {
	add := func(stages []record.KnownStage, names ...string) (isNew bool) {
		if slices.ContainsFunc(all, func(b record.KnownBatch) bool { return slices.Contains(b.Names, names[0]) }) {
			return false
		}
		all = append(all, record.KnownBatch{Names: names, Stages: stages})
		return true
	}
	if plan != nil {
		for i := range plan.Batches {
			b := &plan.Batches[i]
			stages := stagesOf(problem, b.Cheese)
			if stages == nil {
				for _, t := range b.Stages {
					stages = append(stages, record.KnownStage{Name: t.Stage, Work: t.Work > 0, Hold: t.Hold > 0})
				}
			}
			add(stages, b.Names()...)
		}
	}
	for _, b := range problem.Begun {
		add(stagesOf(problem, b.Cheese), b.ID)
	}
	for _, s := range problem.Stock {
		if s.Lot != "" && add(nil, s.Lot) {
			all[len(all)-1].Stock = true
		}
	}
	if plan != nil {
		for i := range plan.Past {
			b := &plan.Past[i]
			add(stagesOf(problem, b.Cheese), b.Names()...)
		}
	}
	for _, id := range problem.Lost {
		add(nil, id)
	}
	for _, e := range book.All() {
		if e.Subject.Kind == record.OfBatch {
			add(nil, e.Subject.Name)
		}
	}
	return all
}

// madeBefore are the batches that were kept and that neither a plan nor begun.yaml has any more.
func madeBefore(kept []schedule.KeptBatch, known []record.KnownBatch) (all []record.KnownBatch) {
	for i := range kept {
		b := &kept[i]
		if slices.ContainsFunc(known, func(k record.KnownBatch) bool {
			return k.Stages != nil && slices.ContainsFunc(b.Names(), func(name string) bool { return slices.Contains(k.Names, name) })
		}) {
			continue
		}
		k := record.KnownBatch{Names: b.Names()}
		for _, s := range b.Stages {
			k.Stages = append(k.Stages, record.KnownStage{Name: s.Stage, Work: s.Work > 0, Hold: s.Hold > 0})
		}
		all = append(all, k)
	}
	return all
}

// stagesOf are the stages of a cheese as its recipe has them now; nil without a recipe.
func stagesOf(problem *schedule.Problem, cheese string) (stages []record.KnownStage) {
	recipe := problem.Recipe(cheese)
	if recipe == nil {
		return nil
	}
	for _, s := range recipe.Stages {
		stages = append(stages, record.KnownStage{Name: s.Name, Work: s.Hands != nil && *s.Hands != (schedule.Hands{}), Hold: s.Hold != nil && s.Hold.Most > 0, Who: s.Who})
	}
	return stages
}

// subjectOf gives a verb's words with the subject that its first word really names: a
// cheese of which a batch is made off the plan, or a place in which something was measured.
func (k *recordKitchen) subjectOf(v recordVerb, args []string) []string {
	words := slices.Clone(v.words)
	if len(args) == 0 || words[0] != "batch" || slices.ContainsFunc(k.known.Batches, func(b record.KnownBatch) bool { return slices.Contains(b.Names, args[0]) }) {
		return words
	}
	cheese := func(b record.KnownBatch) bool { return slices.Contains(b.Names, args[0]) }
	switch {
	case v.name == "measured" && (args[0] == record.Room || slices.ContainsFunc(k.known.Places, func(p record.KnownPlace) bool { return p.Name == args[0] })):
		words[0] = "place"
	case (v.name == "did" || v.name == "began") && slices.ContainsFunc(k.known.Cheeses, cheese):
		words[0] = "cheese"
	}
	return words
}
