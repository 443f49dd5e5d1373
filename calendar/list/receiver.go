package list

import (
	"fmt"
	"hash/fnv"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Receiver is a business that a target may have a delivery note for. Key is what it is known by in an
// address, which may not hold every name.
type Receiver struct{ Key, Name string }

// Receivers are the businesses that a target may have a delivery note for: the one whose name it has, else
// all that the kitchen lists, for what goes along a round may be for any of them.
func Receivers(k *resources.Kitchen, t Target) (out []Receiver) {
	for i := range k.Businesses {
		b := Receiver{keyOf(&k.Businesses[i]), words.Printable(k.Businesses[i].Name)}
		if k.Businesses[i].Name == schedule.Undated(t.Name) {
			return []Receiver{b}
		}
		out = append(out, b)
	}
	return out
}

// AskedNote reads what an address asks for: the key of a target and that of a business. ok is false where
// one of them is not there.
func AskedNote(p *schedule.Problem, plan *schedule.Plan, path []string) (t Target, to resources.Business, ok bool) {
	if len(path) != 2 {
		return t, to, false
	}
	if t, ok = WithKey(plan, path[0]); !ok {
		return t, to, false
	}
	for i := range p.Kitchen.Businesses {
		if b := &p.Kitchen.Businesses[i]; keyOf(b) == path[1] {
			return t, *b, true
		}
	}
	return t, to, false
}

func keyOf(b *resources.Business) string {
	h := fnv.New64a()
	fmt.Fprint(h, b.Name)
	return fmt.Sprintf("%016x", h.Sum64())
}
