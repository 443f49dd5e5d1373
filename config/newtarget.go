package config

import (
	"bytes"
	"fmt"
	"reflect"
	"slices"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
	"ripeby/schedule"
)

// NewTarget is a target to be written into targets.yaml.
type NewTarget struct {
	Name   string
	By     string            // as a maker writes it: 2027-03-27 07:00, or RFC 3339 with an offset
	Packed resources.Minutes // 0 is not written
	Wants  []schedule.Want   // a price of 1 and a promise that is none are not written
}

// AddTarget gives the text of a targets.yaml with one more target at the end of its
// list, as [AddTargets] does with several.
func AddTarget(text []byte, kitchen *schedule.Problem, t NewTarget) ([]byte, error) {
	return AddTargets(text, kitchen, []NewTarget{t})
}

// AddTargets gives the text of a targets.yaml with more targets at the end of its
// list, one or several, in their order. Text is only inserted, in one place: comments,
// layout, quotation marks, line ends and a missing last one stay byte for byte. The new
// targets are laid out as the last one is. A comment below the last target stays with it
// when it is indented further than that target's dash; any other stays below the list.
//
// The kitchen is a folder that was loaded: its zone, its recipes and its planning
// start say whether the targets can be read. The error is [Faults] when the old text or
// a new target would be complained of by [Load], and then of those a fault of a
// new target has no line. Another error means that the layout of the file leaves no
// place that was found; then the targets have to be written by hand. Of several all are
// added or none.
//
// Before the new text is given it is read again, and says what the old one said, and
// then the new targets.
func AddTargets(text []byte, kitchen *schedule.Problem, add []NewTarget) ([]byte, error) {
	old := readTargets(text, kitchen)
	if len(old.faults) > 0 {
		return nil, old.faults
	}
	if len(add) == 0 {
		return text, nil
	}
	ins, fault := insertionOf(text, old.root, add)
	if fault != nil {
		return nil, Faults{*fault}
	}
	added := ins.into(text)
	if err := old.grownBy(add, added, kitchen); err != nil {
		return nil, err
	}
	return added, nil
}

// ReadTargets reads the text of a targets.yaml for a kitchen that was loaded: the targets
// from its planning start on, and every name that is taken, by a target that is over or
// comes again too, with where it was given ("targets.yaml:12"). The error is [Faults].
func ReadTargets(text []byte, kitchen *schedule.Problem) (targets []schedule.Target, taken map[string]string, err error) {
	read := readTargets(text, kitchen)
	if len(read.faults) > 0 {
		return nil, nil, read.faults
	}
	return read.targets, read.taken, nil
}

// targetsText is what a targets.yaml says to a kitchen.
type targetsText struct {
	root    *yaml.Node // nil when the file holds nothing
	targets []schedule.Target
	taken   map[string]string // where each name was given
	faults  Faults
}

// readTargets reads a targets.yaml as [Load] does.
func readTargets(text []byte, kitchen *schedule.Problem) targetsText {
	l := &loader{zoneKnown: true, fromKnown: true,
		problem: schedule.Problem{Kitchen: kitchen.Kitchen, Recipes: kitchen.Recipes, From: kitchen.From}}
	p := &page{loader: l, file: targetsFile}
	if len(text) > MaxFileBytes {
		l.unreadable(targetsFile, &TooLarge{MaxFileBytes})
	} else if p.parse(text) {
		l.targets(p)
	}
	return targetsText{p.root, l.problem.Targets, l.targetsAt.at, l.faults.Sorted()}
}

// grownBy sees that a text says what the old one said, and then some targets more.
func (old targetsText) grownBy(add []NewTarget, text []byte, kitchen *schedule.Problem) error {
	want := slices.Clip(old.targets)
	for _, t := range add {
		by, err := momentOf(t, kitchen)
		if err != nil {
			return err
		}
		w := schedule.Target{Name: t.Name, By: by, Packed: t.Packed}
		w.Wants = append(w.Wants, t.Wants...) // nil for none, as the reader has it
		want = append(want, w)
	}
	now := readTargets(text, kitchen)
	if now.root == nil && len(now.faults) > 0 && now.faults[0].Line == 0 {
		return now.faults // a limit of the whole file
	}
	if !soManyMore(old.root, now.root, len(add)) {
		return &NoPlaceError{add}
	}
	// The old text had no fault, so each is of a new target, on a line that
	// nobody has written.
	for i := range now.faults {
		now.faults[i].Line, now.faults[i].Column = 0, 0
	}
	if len(now.faults) > 0 {
		return now.faults
	}
	if !reflect.DeepEqual(now.targets, want) {
		return &NoPlaceError{add}
	}
	return nil
}

// momentOf reads the moment of a target that is yet to come.
func momentOf(t NewTarget, kitchen *schedule.Problem) (resources.Moment, error) {
	zone := kitchen.Kitchen.Zone
	by, err := resources.ParseMoment(t.By, zone)
	if err == nil && by < kitchen.From {
		err = Fault{What: "this is before the planning start, " + resources.FormatMoment(kitchen.From, zone), Got: clip(t.By)}
	}
	if err != nil {
		f := quantityFault(err)
		f.File, f.What = targetsFile, fmt.Sprintf("target %q, by: %s", clip(t.Name), f.What)
		return 0, Faults{f}
	}
	return by, nil
}

// NoPlaceError says that targets cannot be inserted without changing what else
// the file says, and shows how to write them by hand.
type NoPlaceError struct{ Targets []NewTarget }

// Error shows each target in one line of YAML.
func (e *NoPlaceError) Error() string {
	text := targetsFile + ": no place was found at which a target can be added to this layout; add it by hand to the list:"
	if len(e.Targets) > 1 {
		text = targetsFile + ": no place was found at which targets can be added to this layout; add them by hand to the list:"
	}
	for _, t := range e.Targets {
		text += " - " + layout{}.flow(t)
	}
	return text
}

// soManyMore reports whether two trees are the same but for so many more entries at the
// end of the later one's targets.
func soManyMore(old, now *yaml.Node, more int) bool {
	was, is := targetsOf(old), targetsOf(now)
	if is == nil || is.Kind != yaml.SequenceNode || len(now.Content) != 2 {
		return false
	}
	var entries []*yaml.Node
	if !null(was) {
		entries = was.Content
	}
	if len(is.Content) != len(entries)+more {
		return false
	}
	for i := range entries {
		if !sameTree(entries[i], is.Content[i]) {
			return false
		}
	}
	return true
}

// targetsOf is what stands under the key targets, nil when there is no such key.
func targetsOf(root *yaml.Node) *yaml.Node {
	if key := keyAt(root, "targets"); key >= 0 {
		return root.Content[key+1]
	}
	return nil
}

// keyAt is the index of a key among the content of a mapping, -1 when it is not
// there.
func keyAt(n *yaml.Node, key string) int {
	if n != nil && n.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(n.Content); i += 2 {
			if solid(n.Content[i]).Value == key {
				return i
			}
		}
	}
	return -1
}

// sameTree compares everything but places and comments. What an alias stands for
// is compared where it is written.
func sameTree(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || a.Style != b.Style || a.Tag != b.Tag || a.Value != b.Value || a.Anchor != b.Anchor || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !sameTree(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}

// insertion is a text and the offset at which it goes into another.
type insertion struct {
	at   int
	text string
}

// into gives the text with the insertion in it.
func (ins insertion) into(text []byte) []byte {
	return bytes.Join([][]byte{text[:ins.at], []byte(ins.text), text[ins.at:]}, nil)
}
