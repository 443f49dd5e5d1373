package recordfile

import (
	"slices"
	"strings"

	"ripeby/config/keys"
	"ripeby/schedule/record"
)

// subject is one kind of subject: the key that names it, the keys that say more exactly
// which, and what may be said of it.
type subject struct {
	kind  record.Kind
	name  keys.Key
	what  string // in a sentence
	which []keys.Key
	facts []keys.Key
}

// key is the key that names the subject.
func (s *subject) key() string { return s.name.Name }

// table holds all that an entry about the subject may have, in the order in which it is written.
func (s *subject) table() *keys.Mapping {
	return &keys.Mapping{Keys: slices.Concat(common[:4], []keys.Key{s.name}, s.which, s.facts, common[4:])}
}

// said reports whether a key is one of the subject's facts or says more exactly which it is.
func (s *subject) said(key string) bool {
	of := func(k keys.Key) bool { return k.Name == key }
	return slices.ContainsFunc(s.facts, of) || slices.ContainsFunc(s.which, of)
}

// known reports whether some entry may have the key.
func known(key string) bool { return slices.Contains(allKeys, key) }

// allKeys are the keys of all subjects, each once.
var allKeys = func() []string {
	all := (&keys.Mapping{Keys: common}).Names()
	for _, s := range subjects {
		for _, key := range s.table().Names() {
			if !slices.Contains(all, key) {
				all = append(all, key)
			}
		}
	}
	return all
}()

// saidOf names the subjects of which a fact may be said: "a target".
func saidOf(key string) string {
	var of []string
	for _, s := range subjects {
		if s.said(key) {
			of = append(of, s.what)
		}
	}
	return strings.Join(of, " or ")
}

// exampleOf is one way of writing a key's value, wherever it stands.
func exampleOf(key string) string {
	for _, m := range Keys() {
		if shown := within(m.Top, key); shown != "" {
			return shown
		}
	}
	return ""
}

// within looks for a key in a mapping and in those below it.
func within(m *keys.Mapping, key string) string {
	for _, k := range m.Keys {
		if k.Name == key {
			return k.Shown()
		}
	}
	for _, k := range m.Keys {
		if k.In != nil {
			if shown := within(k.In, key); shown != "" {
				return shown
			}
		}
	}
	return ""
}

// Keys are the keys of an entry: those that any may have, and for each subject its own.
func Keys() []keys.File {
	all := []keys.File{{Word: "record", Name: Folder + "/2027-03.yaml", Says: "what happened, one entry a line, as in - {at: 2027-03-13 08:10, who: Nell, batch: AB-270312-1, did: drain}; any entry may have these",
		Top: &keys.Mapping{Keys: common}}}
	for _, s := range subjects {
		all = append(all, keys.File{Word: "record", Name: s.key(), Says: "what is said of " + s.what,
			Top: &keys.Mapping{Keys: slices.Concat([]keys.Key{s.name}, s.which, s.facts)}})
	}
	return all
}
