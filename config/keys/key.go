package keys

import (
	"slices"
	"strings"
)

// Key is one key of a mapping.
type Key struct {
	Name string
	As   string // how its value is written: one of the kinds, or the words of which it is one
	// Default is what is taken where the key is left out, as a maker would write it; Else says in
	// words what holds then, where that cannot be written. With neither the key is needed.
	Default, Else string
	Example       string   // a value, as it is written
	Says          string   // what it means
	In            *Mapping // the keys of the mapping under it, or of each entry of the list
	Listed        bool     // a list of mappings stands under it
}

// Needed reports whether the key cannot be left out.
func (k *Key) Needed() bool { return k.Default == "" && k.Else == "" }

// Mapping is the keys that one mapping may have.
type Mapping struct {
	Example string // the whole of it on one line, with what is needed
	Keys    []Key
	// Any stands for all keys of a mapping whose keys are names.
	Any *Key
}

// Names are the mapping's keys; none where any is taken.
func (m *Mapping) Names() []string {
	var names []string
	for _, k := range m.Keys {
		names = append(names, k.Name)
	}
	return names
}

// all are the mapping's keys, as they are shown: where any is taken, the one that stands for them.
func (m *Mapping) all() []Key {
	if m.Any != nil {
		return []Key{*m.Any}
	}
	return m.Keys
}

// Key finds a key; nil where the mapping has none of this name.
func (m *Mapping) Key(name string) *Key {
	if m.Any != nil {
		return m.Any
	}
	if i := slices.IndexFunc(m.Keys, func(k Key) bool { return k.Name == name }); i >= 0 {
		return &m.Keys[i]
	}
	return nil
}

// File is one kind of file of a kitchen folder, or of an entry in one.
type File struct {
	Word string // by which it is asked for: kitchen
	Name string // kitchen.yaml
	Says string
	Top  *Mapping
}

// Files are the files of a kitchen folder but for the record's.
func Files() []File {
	return []File{
		{"kitchen", "kitchen.yaml", "who works in the kitchen, what there is, where cheese ripens, which milk", Kitchen()},
		{"recipe", "recipes/NAME.yaml", "one cheese a file", Recipe()},
		{"targets", "targets.yaml", "what must be ready, how many, by when", Targets()},
		{"begun", "begun.yaml", "the position that the folder starts from; may be left out", Begun()},
	}
}

// Shown is one way of writing the value.
func (k *Key) Shown() string {
	switch {
	case k.In == nil || k.Example != "":
		return k.Example
	case k.Listed:
		return "[" + k.In.Example + "]"
	}
	return k.In.Example
}

// With is the example with a text in it that a maker wrote alone: as the name that comes first, or
// as the only value that is needed; else as it is.
func (m *Mapping) With(written string) string {
	if len(m.Keys) == 0 || strings.ContainsAny(written, ",[]{}:#\"'\n") {
		return m.Example
	}
	if first := m.Keys[0]; first.As == text {
		return strings.Replace(m.Example, first.Name+": "+first.Example, first.Name+": "+written, 1)
	}
	var needed []Key
	for _, k := range m.Keys {
		if k.Needed() {
			needed = append(needed, k)
		}
	}
	if len(needed) == 1 {
		return "{" + needed[0].Name + ": " + written + "}"
	}
	return m.Example
}
