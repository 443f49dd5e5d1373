// Package config reads a kitchen folder into a [schedule.Problem] and says
// everything that is wrong with it, each fault with its file, line and column.
//
// # What is read
//
//	kitchen.yaml      who, which kit, which cold space, which milk (required)
//	recipes/*.yaml    one cheese each, in the order of the file names
//	targets.yaml      what must be ready, how many, by when (required)
//	begun.yaml        what is under way, in stock or ordered (may be left out)
//	record/*.yaml     what happened since, one entry a line (may be left out)
//
// Other files are none of its business, but a file that was surely meant to be
// read and will not be (recipes/brie.yml) is a fault.
//
// # How it is read
//
//  1. folder.go opens the files; regular.go looks first whether it is one, and gives it
//     whole or, beyond [MaxFileBytes], not at all.
//  2. document.go makes one tree of YAML nodes of each, within [MaxNodes]. Of what is
//     not YAML, notyaml.go finds the place, and punctuation.go and causes.go the
//     likely cause.
//  3. object.go takes mappings apart strictly: every key known, none twice.
//  4. kitchen.go, recipe.go, targets.go and begun.go read the four kinds of
//     file, in this order, so that every name is known before it is referred to.
//
// The content is read from the nodes' own text, with resources' Parse functions.
// A YAML library's typed decoding would turn 06:00 into 360, no into false and a
// date into a time stamp before the kitchen's zone is known, and a settings
// library (viper) lower-cases keys, merges "Cave" with "cave" and types weakly.
// Here names are values, and keep their letters. Settings and flags are cmd's.
//
// # Writing back
//
// A target can be added to targets.yaml, which is otherwise the maker's own:
// newtarget.go inserts text in one place (insertion.go), laid out as what stands
// there (layout.go), and reads the result again before it is given. learned.go changes
// numbers of a recipe so. replace.go and
// scratch.go put a file in another's place whole or not at all.
//
// Reading order: limits.go, fault.go (whose room is config/fault), load.go, then 1 to 4
// above with survey.go (a tree that is too much, or holds what no folder needs), spans.go
// and plain.go (single values), kit.go and room.go (of kitchen.yaml), label.go (of both), stage.go, settime.go, warmth.go, recipeneeds.go and recipemeasures.go (of a recipe) and
// stock.go (of begun.yaml); names.go for names; stagecheck.go and batchcheck.go for what a
// recipe must obey; repeat.go and feast.go for dates of targets; record.go for the record,
// whose lines config/recordfile reads; starter.go for a new folder.
package config
