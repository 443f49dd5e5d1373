package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"maps"
	"os"
	"strconv"
	"strings"
	"testing"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

var python = flag.String("python", os.Getenv("RIPEBY_CPSAT"), "a python that has the package ortools")

var node = flag.String("node", os.Getenv("RIPEBY_SOLVER"), "folder whose node_modules holds the package minizinc")

func TestCompareSkips(t *testing.T) {
	var out, errs bytes.Buffer
	code := execute([]string{"compare", "--node", t.TempDir()}, &out, &errs)
	if code != exitFine || strings.Count(out.String(), "\n") != 1 || !strings.HasPrefix(out.String(), "skipped: ") {
		t.Errorf("got exit %d and %q, want exit 0 and one line that says why", code, &out)
	}
	if code := execute([]string{"compare", "--kitchens", "0"}, &out, &errs); code != exitFault {
		t.Errorf("no kitchens: got exit %d, want %d", code, exitFault)
	}
}

// The general solver and the planner on kitchens that both can prove, and the solver's
// answers before the judge.
func TestCompareSolves(t *testing.T) {
	if _, err := generalsolver.Find(*node); *node == "" || err != nil {
		testrun.Missing(t, fmt.Sprintf("-node %q: %v", *node, err))
	}
	var out, errs bytes.Buffer
	code := execute([]string{"compare", "--node", *node, "--kitchens", strconv.Itoa(testrun.Rounds(4, 16)), "--seed", "1"}, &out, &errs)
	if code != exitFine || !strings.Contains(out.String(), "chuffed: ") || strings.Contains(out.String(), ": 0 equal") {
		t.Errorf("got exit %d\n%s%s, want none wrong and some equal", code, &out, &errs)
	}
	t.Logf("%s", &out)
}

// CP-SAT by its own model, and the planner; the drawn kitchens come with begun batches, and
// with shelves.
func TestCompareCPSAT(t *testing.T) {
	if _, err := generalsolver.FindPython(*python); *python == "" || err != nil {
		testrun.Missing(t, fmt.Sprintf("-python %q: %v", *python, err))
	}
	var out, errs bytes.Buffer
	code := execute([]string{"compare", "--solvers", "cpsat", "--python", *python, "--kitchens", strconv.Itoa(testrun.Rounds(8, 40)), "--seed", "2"}, &out, &errs)
	if code != exitFine || !strings.Contains(out.String(), "cpsat: ") || strings.Contains(out.String(), ": 0 equal") {
		t.Errorf("got exit %d\n%s%s, want none wrong and some equal", code, &out, &errs)
	}
	t.Logf("%s", &out)
}

// What is not stated has no times to tell: it is planned once, whatever the runs.
func TestTimeOfWhatIsNotStated(t *testing.T) {
	p := tiny(t)
	p.Earlier = &schedule.Plan{Batches: []schedule.Batch{{}}}
	f, m, count := compareFlags{time: true, runs: 3}, meeting{name: "tiny", p: p}, newTally(nil)
	var out bytes.Buffer
	if err := f.compare(context.Background(), &out, nil, count, &m); err != nil {
		t.Fatal(err)
	}
	if len(m.spent) != 1 || count.refused != 1 || out.Len() > 0 {
		t.Errorf("got %d runs, %d refused, %q, want one of each and no word", len(m.spent), count.refused, &out)
	}
}

// Kitchens by chance are the same for the same seed, can be read, and are of all kinds.
func TestKitchensByChance(t *testing.T) {
	has, read, stated, short, made := map[string]int{}, 0, 0, 0, 0
	all := testrun.Rounds(75, 150)
	for n := range all {
		d := newKitchen(1, n)
		if again := newKitchen(1, n); !maps.Equal(d.files, again.files) || d.from != again.from {
			t.Fatalf("kitchen %d: two draws differ", n)
		}
		dir := t.TempDir()
		if err := d.write(dir); err != nil {
			t.Fatal(err)
		}
		p, err := config.Load(dir, config.Options{From: d.from})
		if err != nil {
			continue
		}
		read++
		if _, err := newStatement(p, 2); err == nil {
			stated++
		}
		plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: 1_000_000})
		if err != nil {
			t.Fatal(err)
		}
		if plan.Outcome == schedule.Short {
			short++
		}
		if plan.Score.Batches > 0 {
			made++
		}
		for name := range d.has {
			has[name]++
		}
	}
	t.Logf("%d read, %d stated, %d short, %d with batches; %v", read, stated, short, made, has)
	if read < all*9/10 || stated < all*8/10 || short < all/3 || made < all/2 {
		t.Errorf("got %d of %d read, %d stated, %d short, %d with batches, want nine, eight, three and a third, five of ten", read, all, stated, short, made)
	}
	for _, name := range []string{"two cheeses", "two people", "two pots", "shelves", "milk", "standing", "ordered", "stock", "round", "rather not", "most per day",
		"away", "taken", "promised", "packed early", "clock change", "spare", "last hold", "fresh boxes", "another kind of box", "stay of two stages",
		"stage without work", "packing without work", "ripening", "who", "begun batch", "begun later", "overdue"} {
		if has[name] < 3 {
			t.Errorf("got %d kitchens with %s, want some", has[name], name)
		}
	}
}

func TestVerdict(t *testing.T) {
	at := func(short, batches int, bother, starts int64) schedule.Score {
		return schedule.Score{Short: resources.Money(short), Batches: batches, Litres: 4000, Bother: bother, MakeStarts: starts}
	}
	late := func(s schedule.Score, late int64) schedule.Score { s.Late = late; return s }
	for _, c := range []struct {
		name              string
		plan, bound, best schedule.Score
		proved            int
		none              bool
		faults, broken    []judge.Violation
		want, wantIn      string
	}{
		{"equal", at(1, 2, 3, 4), at(0, 0, 0, 9), at(1, 2, 3, 4), 9, false, nil, nil, "equal", ""},
		{"not all proved", at(1, 2, 3, 4), at(0, 0, 0, 9), at(1, 2, 0, 0), 7, false, nil, nil, "open", ""},
		{"worse", at(1, 2, 3, 4), at(1, 2, 1, 9), at(1, 2, 2, 4), 9, false, nil, nil, "worse", "bother"},
		{"worse in what is large", at(1, 2, 3, 4), at(1, 2, 3, 9), at(1, 2, 3, 5), 9, false, nil, nil, "worse", "make starts"},
		{"worse before the rest is proved", at(1, 2, 3, 4), at(0, 0, 0, 9), at(0, 0, 0, 0), 4, false, nil, nil, "worse", "short"},
		{"later than need be", late(at(0, 2, 3, 4), 7), at(0, 0, 0, 9), late(at(5, 2, 3, 4), 6), 9, false, nil, nil, "worse", "late"},
		{"better", at(1, 2, 3, 4), at(1, 2, 1, 9), at(1, 2, 4, 4), 9, false, nil, nil, "WRONG", "better in bother"},
		{"better in make starts", at(1, 2, 3, 4), at(1, 2, 3, 9), at(1, 2, 3, 3), 9, false, nil, nil, "WRONG", "better in make starts"},
		{"bound beyond", at(1, 2, 3, 4), at(1, 2, 3, 9), at(1, 2, 2, 4), 9, false, nil, nil, "WRONG", "bound in bother"},
		{"bound short of", at(1, 2, 3, 4), at(1, 2, 3, 4), at(1, 2, 3, 5), 9, false, nil, nil, "WRONG", "bound in make starts"},
		{"a bad plan", at(1, 2, 3, 4), at(0, 0, 0, 9), at(1, 2, 3, 4), 9, false, []judge.Violation{{Rule: "x"}}, nil, "WRONG", "the plan breaks"},
		{"a bad answer", at(1, 2, 3, 4), at(0, 0, 0, 9), at(1, 2, 3, 4), 9, false, nil, []judge.Violation{{Rule: "x"}}, "WRONG", "answer breaks"},
		{"no answer", at(1, 2, 3, 4), at(0, 0, 0, 9), at(0, 0, 0, 0), 0, true, nil, nil, "WRONG", "no plan at all"},
	} {
		m := meeting{plan: &schedule.Plan{Score: c.plan, Proof: schedule.Proof{Bound: c.bound}}, worth: worthOf(c.plan, overdue{}), faults: c.faults}
		a := answer{best: worthOf(c.best, overdue{}), proved: c.proved, none: c.none, broken: c.broken}
		if word, text := m.verdict(&a); word != c.want || !strings.Contains(text, c.wantIn) {
			t.Errorf("%s: got %s%s, want %s with %q", c.name, word, text, c.want, c.wantIn)
		}
	}
}

// Two solvers that prove different things of a kitchen quarrel; what one has not proved is
// no quarrel.
func TestQuarrel(t *testing.T) {
	a := answer{by: "one", best: worth{0, 0, 3, 5}, proved: 8}
	for _, c := range []struct {
		name string
		b    answer
		want string
	}{
		{"alike", answer{by: "two", best: worth{0, 0, 3, 5}, proved: 8}, ""},
		{"apart in late", answer{by: "two", best: worth{0, 0, 2, 5}, proved: 8}, "one proves 3 in late, two 2"},
		{"apart where it is not proved", answer{by: "two", proved: 2}, ""},
		{"no plan at all", answer{by: "two", none: true}, "only one of one and two"},
		{"failed", answer{by: "two", failed: "?"}, ""},
	} {
		m := meeting{answers: []*answer{&a, &c.b}}
		if got := m.quarrel(); !strings.HasPrefix(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
