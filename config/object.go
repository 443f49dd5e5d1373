package config

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"ripeby/config/keys"
)

// object is a mapping whose keys are all known and none given twice.
type object struct {
	page   *page
	label  string // what the maker calls it: pot "tall pot"
	node   *yaml.Node
	keys   *keys.Mapping // all that it may have
	fields map[string]*yaml.Node
	// meant holds the known keys that an unknown one was most likely meant to be,
	// which are not missing then.
	meant map[string]bool
}

// wholeFile is what faults call the mapping that a file consists of.
const wholeFile = "this file"

// below gives what a key of the object is called.
func (o *object) below(key string) string {
	if o.label == wholeFile {
		return key
	}
	return o.label + ", " + key
}

// object takes a mapping apart; false after a fault that leaves nothing to read.
// With no known keys at all every key is taken, for a mapping whose keys are
// names. The example is what is shown where something else stands, the mapping's own
// below the key under which it stands.
func (p *page) object(n *yaml.Node, label, example string, known *keys.Mapping) (*object, bool) {
	n = solid(n)
	if n.Kind != yaml.MappingNode {
		if text, ok := scalarText(n); ok {
			example = strings.Replace(example, known.Example, known.With(text), 1)
		}
		p.faultAt(n, wrongKind(label+" is written as keys and values", n, example))
		return nil, false
	}
	o := &object{page: p, label: label, node: n, keys: known, fields: map[string]*yaml.Node{}, meant: map[string]bool{}}
	lines, names := map[string]int{}, known.Names()
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := solid(n.Content[i]), n.Content[i+1]
		switch {
		case key.Kind != yaml.ScalarNode:
			p.faultAt(key, wrongKind(label+": a key is a single word", key, ""))
		case lines[key.Value] > 0:
			p.faultAt(n.Content[i], Fault{What: fmt.Sprintf("%s: this key stands on line %d already", label, lines[key.Value]), Got: clip(key.Value)})
		case len(names) > 0 && !slices.Contains(names, key.Value):
			o.unknown(n.Content[i], key.Value)
		default:
			o.fields[key.Value] = value
		}
		if key.Kind == yaml.ScalarNode && lines[key.Value] == 0 {
			lines[key.Value] = n.Content[i].Line
		}
	}
	return o, true
}

// unknown complains of a key that is not on the list. With no space after its colon
// a key reads as one with its value in it.
func (o *object) unknown(at *yaml.Node, key string) {
	for _, known := range o.keys.Names() {
		if rest, ok := strings.CutPrefix(key, known+":"); ok {
			o.meant[known] = true
			o.page.faultAt(at, Fault{What: o.label + ": a space is missing after the colon", Got: clip(key), Want: clip(known + ": " + strings.TrimSpace(rest))})
			return
		}
	}
	f := Fault{What: o.label + " has no such key", Got: clip(key), Near: nearest(key, o.keys.Names())}
	if f.Near == "" {
		f.Want = "one of " + strings.Join(o.keys.Names(), ", ")
	}
	o.meant[f.Near] = true
	o.page.faultAt(at, f)
}

// get gives a key's value, nil when it is not there or nothing is written.
func (o *object) get(key string) *yaml.Node {
	if n := o.fields[key]; !null(n) {
		return solid(n)
	}
	return nil
}

// fault complains of a key's value; of the whole object when there is none.
func (o *object) fault(key string, f Fault) {
	f.What = o.below(key) + ": " + f.What
	at := o.get(key)
	if at == nil {
		at = o.node
	}
	o.page.faultAt(at, f)
}

// faultAt complains of one value below a key.
func (o *object) faultAt(n *yaml.Node, key string, f Fault) {
	f.What = o.below(key) + ": " + f.What
	o.page.faultAt(n, f)
}

// missing complains that a key is not there and shows how to write it.
func (o *object) missing(key string) {
	if o.meant[key] {
		return // complained of as a misspelt key
	}
	o.page.faultAt(o.node, Fault{What: o.label + ": " + key + " is missing", Want: o.shown(key)})
}

// shown is one way of writing a key.
func (o *object) shown(key string) string { return key + ": " + o.keys.Key(key).Shown() }

// text gives a key's value as it was written; ok is false when nothing is, or
// after a fault.
func (o *object) text(key string) (text string, ok bool) {
	n := o.get(key)
	if n == nil {
		return "", false
	}
	if n.Kind != yaml.ScalarNode {
		o.fault(key, wrongKind("a single value is wanted here", n, ""))
		return "", false
	}
	return n.Value, true
}

// take reads a value, or where it is left out what the table of keys has in its place;
// false after a fault, and where nothing stands for what is missing.
func take[T any](o *object, key string, parse func(string) (T, error)) (v T, ok bool) {
	if o.get(key) != nil {
		return value(o, key, parse)
	}
	k := o.keys.Key(key)
	if k.Needed() {
		o.missing(key)
		return v, false
	}
	v, err := parse(k.Default)
	return v, err == nil
}

// either reads a value in whose place, where it is left out, stands something that
// nobody could write; false after a fault.
func either[T any](o *object, key string, otherwise T, parse func(string) (T, error)) (T, bool) {
	if o.get(key) == nil {
		return otherwise, true
	}
	return value(o, key, parse)
}

// value reads what is written; false after a fault.
func value[T any](o *object, key string, parse func(string) (T, error)) (v T, ok bool) {
	text, ok := o.text(key)
	if !ok {
		return v, false
	}
	v, err := parse(text)
	if err != nil {
		o.fault(key, suggested(quantityFault(err), text, parse))
		return v, false
	}
	return v, true
}

// list gives the values of a list, nil when it is left out. A list that is too
// long is refused as a whole.
func (o *object) list(key string) []*yaml.Node {
	n := o.get(key)
	switch {
	case n == nil:
		return nil
	case n.Kind != yaml.SequenceNode:
		o.fault(key, wrongKind("a list is wanted here", n, o.listShown(key, n)))
		return nil
	case len(n.Content) > MaxEntries:
		o.fault(key, Fault{What: fmt.Sprintf("%d entries are more than the limit of %d", len(n.Content), MaxEntries)})
		return nil
	}
	return n.Content
}

// listShown is one way of writing a list; of a single value one that has it alone.
func (o *object) listShown(key string, n *yaml.Node) string {
	text, ok := scalarText(n)
	if !ok || o.keys.Key(key).Listed || strings.ContainsFunc(text, unicode.IsControl) {
		return o.shown(key)
	}
	if strings.ContainsAny(text, ",[]{}:#\"'") {
		text = strconv.Quote(text)
	}
	return key + ": [" + clip(text) + "]"
}

// each reads a list of single values, leaving out what is wrong after a fault.
func each[T any](o *object, key string, parse func(string) (T, error)) (values []T, nodes []*yaml.Node) {
	for _, n := range o.list(key) {
		n = solid(n)
		if n.Kind != yaml.ScalarNode || null(n) {
			o.faultAt(n, key, wrongKind("a single value is wanted here", n, o.shown(key)))
			continue
		}
		v, err := parse(n.Value)
		if err != nil {
			o.faultAt(n, key, suggested(quantityFault(err), n.Value, parse))
			continue
		}
		values, nodes = append(values, v), append(nodes, n)
	}
	return values, nodes
}

// objects takes a list of mappings apart. Each is labelled with the kind and its
// name, or with its place when it has none.
func (o *object) objects(key, kind string) []*object {
	var found []*object
	in := o.keys.Key(key).In
	for i, n := range o.list(key) {
		label := fmt.Sprintf("%s %d", kind, i+1)
		if name := nameOf(n, in.Keys[0].Name); name != "" {
			label = fmt.Sprintf("%s %q", kind, clip(name))
		}
		if one, ok := o.page.object(n, label, in.Example, in); ok {
			found = append(found, one)
		}
	}
	return found
}

// inner takes the mapping under a key apart; false when it is left out or after a
// fault.
func (o *object) inner(key string) (*object, bool) {
	n := o.get(key)
	if n == nil {
		return nil, false
	}
	return o.page.object(n, o.below(key), o.shown(key), o.keys.Key(key).In)
}

// nameOf looks ahead for the text by which the maker knows a mapping.
func nameOf(n *yaml.Node, key string) string {
	if n = solid(n); n.Kind != yaml.MappingNode {
		return ""
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := solid(n.Content[i]), solid(n.Content[i+1])
		if k.Value == key && v.Kind == yaml.ScalarNode && !null(v) {
			return v.Value
		}
	}
	return ""
}

// wrongKind says that a list, say, stands where something else is wanted.
func wrongKind(what string, n *yaml.Node, want string) Fault {
	switch n = solid(n); {
	case null(n):
		what += ", not nothing"
	case n.Kind == yaml.MappingNode:
		what += ", not keys and values"
	case n.Kind == yaml.SequenceNode:
		what += ", not a list"
	default:
		return Fault{What: what, Got: clip(n.Value), Want: want}
	}
	return Fault{What: what, Want: want}
}
