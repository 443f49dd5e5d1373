package main

import (
	"fmt"
	"io"
	"slices"
	"time"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/schedule/cp/kernel"
)

// answer is what came of a trial.
type answer struct {
	status  kernel.Status
	found   bool  // a schedule was found, of value
	value   int   // its end, or what missing the wanted times costs
	bound   int   // the value is proved to be at least this; 0 for nothing proved
	starts  []int // of what was found; nil where the solver gives none
	took    time.Duration
	counted kernel.Counters
}

// String writes the answer beside what is known.
func (a answer) String() string {
	switch {
	case a.status == kernel.Impossible:
		return "impossible"
	case a.status == kernel.Solved:
		return fmt.Sprintf("least %d", a.value)
	case a.found && a.bound > 0:
		return fmt.Sprintf("found %d, at least %d", a.value, a.bound)
	case a.found:
		return fmt.Sprintf("found %d", a.value)
	}
	return "found none"
}

// contradicts reports whether the answer and what is known cannot both be right.
func (a answer) contradicts(k known) bool {
	switch {
	case a.status == kernel.Impossible:
		return k.upper > 0
	case k.upper > 0 && a.bound > k.upper:
		return true
	case !a.found:
		return false
	case k.impossible || a.value < k.lower:
		return true
	}
	return a.status == kernel.Solved && k.upper > 0 && a.value > k.upper
}

// against reports whether something that the answer says is proved does not hold of
// what the other found.
func (a answer) against(other answer) bool {
	if !other.found {
		return false
	}
	return a.status == kernel.Impossible || a.bound > other.value || a.status == kernel.Solved && a.value > other.value
}

// tally counts the answers of one solver on one set.
type tally struct {
	who                     string // the set, or who else answered its questions
	proved, equal, contrary int
	open                    int // proved where the tables leave it open
	took                    []time.Duration
	found, above            int     // with a value to compare with; of them above it
	gap                     float64 // sum of how far above, as parts of it
}

// count adds an answer, and prints it unless it is proved and contradicts nothing.
func (t *tally) count(out io.Writer, one trial, in *psplib.Dated, a answer) {
	t.took = append(t.took, a.took)
	word := "not proved"
	if a.status != kernel.Unknown {
		t.proved++
		word = ""
	}
	if a.found && one.known.upper > 0 {
		t.found++
		t.gap += float64(a.value-one.known.upper) / float64(one.known.upper)
		if a.value > one.known.upper {
			t.above++
		}
	}
	var wrong error
	if a.starts != nil {
		wrong = check(in, one.calendar, a.starts, a.value)
	}
	switch {
	case wrong != nil:
		t.contrary++
		word = fmt.Sprintf("BREAKS THE PROJECT: %v", wrong)
	case a.contradicts(one.known):
		t.contrary++
		word = "CONTRADICTS THE TABLE"
	case a.status != kernel.Unknown && one.known.closed():
		t.equal++
	case a.status != kernel.Unknown:
		t.open++
	}
	if word == "" && !one.known.closed() && one.known.upper > 0 {
		word = "proved"
	}
	if word != "" {
		fmt.Fprintf(out, "%s: %s: %v; the table says %v; %d conflicts, %v\n", one.name, word, a, one.known, a.counted.Conflicts, a.took.Round(time.Millisecond))
	}
}

// print writes the line of the set.
func (t *tally) print(out io.Writer) {
	slices.Sort(t.took)
	total := time.Duration(0)
	for _, d := range t.took {
		total += d
	}
	median := time.Duration(0)
	if n := len(t.took); n > 0 {
		median = t.took[n/2]
	}
	fmt.Fprintf(out, "%s: %d instances, %d proved, %d equal to the table, %d proved where the table is open, %d contradicting; median %v, total %v",
		t.who, len(t.took), t.proved, t.equal, t.open, t.contrary, median.Round(time.Millisecond/10), total.Round(time.Millisecond))
	if t.found > 0 {
		fmt.Fprintf(out, "; %d of %d found are above the table's, gap %.2f%%", t.above, t.found, 100*t.gap/float64(t.found))
	}
	fmt.Fprintln(out)
}
