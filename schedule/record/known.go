package record

import (
	"regexp"
	"slices"
)

// Known is what an entry may refer to, as the folder and the plan in force have it.
type Known struct {
	Batches    []KnownBatch
	Cheeses    []KnownBatch // by name: those that a batch off the plan may be of
	Milk       []string
	Targets    []string // with their dates where they repeat, or without: any date then
	People     []string
	Pots       []string
	Places     []KnownPlace
	Businesses []string // nil: not checked
}

// KnownBatch is a batch by its names, id and lot, with the stages of its recipe in their
// order; no stages where the recipe is not known any more.
type KnownBatch struct {
	Names  []string
	Stages []KnownStage
	Waits  bool // it is planned, and has not begun: which batch it will be is the next plan's to choose
	Stock  bool // an entry of stock with a lot: packed, and where begun.yaml has it
	Made   int  // how many pieces there were of it, of a cheese of all that is known of; 0 where that is not known
}

// KnownStage is a stage, whether somebody works in it, and whether a hold follows.
type KnownStage struct {
	Name       string
	Work, Hold bool
	Who        []string // who may do it by the recipe; nil for anybody
}

// KnownPlace is a cold place and its shelves.
type KnownPlace struct {
	Name    string
	Shelves []string
}

// find gives a batch, or a cheese, by any of its names; nil for none.
func find(all []KnownBatch, name string) *KnownBatch {
	for i := range all {
		if slices.Contains(all[i].Names, name) {
			return &all[i]
		}
	}
	return nil
}

// namesOf are the names of all.
func namesOf(all []KnownBatch) (names []string) {
	for _, b := range all {
		names = append(names, b.Names...)
	}
	return names
}

// stage is a stage's place in its recipe; -1 for none.
func (b *KnownBatch) stage(name string) int {
	return slices.IndexFunc(b.Stages, func(s KnownStage) bool { return s.Name == name })
}

// stages are the names of a batch's stages.
func (b *KnownBatch) stages() (names []string) {
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	return names
}

// dated is a name of one date of a repeated target: "Saturday stall 2027-03-13".
var dated = regexp.MustCompile(` \d{4}-\d{2}-\d{2}$`)

// target reports whether there is a target of a name, of a repeated one on whatever date:
// what left last week is no target of the folder any more.
func (k *Known) target(name string) bool {
	return slices.Contains(k.Targets, name) || slices.Contains(k.Targets, dated.ReplaceAllString(name, ""))
}

// dates are the known dates of a repeated target that was named without one; nil for any
// other.
func (k *Known) dates(name string) (of []string) {
	for _, t := range k.Targets {
		if t != name && dated.ReplaceAllString(t, "") == name {
			of = append(of, t)
		}
	}
	return of
}
