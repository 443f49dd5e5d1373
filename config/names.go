package config

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"
)

// reserved are the words that mean something of their own where kit and places
// are named.
func reserved() []string { return []string{"pot", "mould", "box", "room"} }

// register holds names that must differ from each other, with the place where
// each was first given.
type register struct{ at map[string]string }

// claim reads the name of an object and sees that nobody had it before. The name
// is given back even when it is taken, so that what refers to it is found.
func (r *register) claim(o *object, key string, parse func(string) (string, error)) (string, bool) {
	name, ok := take(o, key, parse)
	if !ok {
		return "", false
	}
	return name, r.enter(o, key, name)
}

// enter notes a name; false after a fault when it is taken.
func (r *register) enter(o *object, key, name string) bool {
	if r.at == nil {
		r.at = map[string]string{}
	}
	if first, taken := r.at[name]; taken {
		o.fault(key, Fault{What: "this name is taken, see " + first + "; choose another", Got: clip(name)})
		return false
	}
	at := o.node
	if n := o.get(key); n != nil {
		at = n
	}
	r.at[name] = fmt.Sprintf("%s:%d", o.page.file, at.Line)
	return true
}

// kitName reads the name of kit or of a place, none of which is a reserved word.
func kitName(text string) (string, error) {
	name, err := nameText(text)
	if err == nil && slices.Contains(reserved(), name) {
		err = Fault{What: "this word has a meaning of its own in recipes; add a word to the name", Got: name, Want: "my " + name}
	}
	return name, err
}

// knownName refers to something by its name; false after a fault, or when the list is
// not to be relied on because it could not be read as a whole.
func (o *object) knownName(n *yaml.Node, key, name, what string, list []string, complete bool) bool {
	if slices.Contains(list, name) {
		return true
	}
	if !complete {
		return false
	}
	f := Fault{What: "there is no " + what + " of this name", Got: clip(name), Near: nearest(name, list)}
	switch {
	case len(list) == 0:
		f.What = "there is no " + what + " at all"
		if what == "recipe" {
			f.What = "there is no recipe at all, and a target needs one: put a file such as " + recipeFolder + "/ash-button.yaml into the folder"
		}
	case f.Near == "" && len(list) == 1:
		f.Want = listed(list)
	case f.Near == "":
		f.Want = "one of " + listed(list)
	}
	o.faultAt(n, key, f)
	return false
}

// listed names the first few of a list, and how many more there are.
func listed(list []string) string {
	const most = 8
	text := ""
	for i, name := range list {
		if i == most {
			return fmt.Sprintf("%s and %d more", text, len(list)-most)
		}
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%q", name)
	}
	return text
}

// namesOf gives a list's names in order.
func namesOf[T any](list []T, name func(T) string) []string {
	names := make([]string, len(list))
	for i, v := range list {
		names[i] = name(v)
	}
	return names
}
