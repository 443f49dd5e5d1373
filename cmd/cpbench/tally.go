package main

import (
	"fmt"
	"io"
	"slices"
	"time"

	"ripeby/schedule/cp/kernel"
)

// answer is what came of a trial.
type answer struct {
	status   kernel.Status
	found    bool // a schedule was found, of makespan
	makespan int
	took     time.Duration
	counted  kernel.Counters
}

// String writes the answer beside what is known.
func (a answer) String() string {
	switch {
	case a.status == kernel.Impossible:
		return "impossible"
	case a.status == kernel.Solved:
		return fmt.Sprintf("least %d", a.makespan)
	case a.found:
		return fmt.Sprintf("found %d", a.makespan)
	}
	return "found none"
}

// contradicts reports whether the answer and what is known cannot both be right.
func (a answer) contradicts(k known) bool {
	switch {
	case a.status == kernel.Impossible:
		return k.upper > 0
	case !a.found:
		return false
	case k.impossible || a.makespan < k.lower:
		return true
	}
	return a.status == kernel.Solved && k.upper > 0 && a.makespan > k.upper
}

// tally counts the answers of one set.
type tally struct {
	set                     string
	proved, equal, contrary int
	open                    int // proved where the tables leave it open
	took                    []time.Duration
}

// count adds an answer, and prints it unless it is proved and contradicts nothing.
func (t *tally) count(out io.Writer, one trial, a answer) {
	t.took = append(t.took, a.took)
	word := "not proved"
	if a.status != kernel.Unknown {
		t.proved++
		word = ""
	}
	switch {
	case a.contradicts(one.known):
		t.contrary++
		word = "CONTRADICTS THE TABLE"
	case a.status != kernel.Unknown && one.known.closed():
		t.equal++
	case a.status != kernel.Unknown:
		t.open++
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
	fmt.Fprintf(out, "%s: %d instances, %d proved, %d equal to the table, %d proved where the table is open, %d contradicting; median %v, total %v\n",
		t.set, len(t.took), t.proved, t.equal, t.open, t.contrary, median.Round(time.Millisecond/10), total.Round(time.Millisecond))
}
