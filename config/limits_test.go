package config

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/schedule/testrun"
)

// TestLimits goes to each limit and one step beyond: the first loads, the second
// is refused in words that name the limit.
func TestLimits(t *testing.T) {
	entries := func(n int, one string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "  - "+one+"\n", i)
		}
		return b.String()
	}
	kitchen := func(more string) func(n int) (string, string) {
		return func(n int) (string, string) {
			return "kitchen.yaml", "kitchen: {timezone: Europe/Dublin}\npots: [{name: big, holds: 100000 L}]\n" + fmt.Sprintf(more, n)
		}
	}
	recipe := func(format string) func(n int) (string, string) {
		return func(n int) (string, string) { return "recipes/a.yaml", fmt.Sprintf(format, n) }
	}
	named := func(n int) string { return strings.Repeat("x", n) }
	cheese := strings.Replace(minimalRecipe, "most: 2 L", "most: 90000 L, step: 10000 L", 1)
	for _, c := range []struct {
		name  string
		limit int
		file  func(n int) (name, text string)
		want  string
	}{
		{"bytes", MaxFileBytes, func(n int) (string, string) { return "begun.yaml", "#" + strings.Repeat("x", n-1) }, "larger than the limit of 1048576 bytes"},
		{"entries", MaxEntries, func(n int) (string, string) {
			return "kitchen.yaml", "kitchen: {timezone: UTC}\npots: [{name: big, holds: 9 L}]\nmoulds:\n" + entries(n, "{name: m%d}")
		}, "more than the limit of 2000"},
		{"count", MaxCount, kitchen("moulds: [{name: m, count: %d}]"), "more than the limit of 10000"},
		{"boxes", MaxCount, kitchen("cold: [{name: m, temperature: 4 C, boxes: %d}]"), "more than the limit of 10000"},
		{"name", MaxNameLength, func(n int) (string, string) {
			return "kitchen.yaml", "kitchen: {timezone: UTC, name: " + named(n) + "}\npots: [{name: big, holds: 9 L}]"
		}, "a name has at most 80 characters"},
		{"code", MaxCodeLength, func(n int) (string, string) { return "recipes/a.yaml", "code: " + named(n) + "\n" + minimalRecipe }, "a code is 1 to 12 letters"},
		{"stages", MaxStages, func(n int) (string, string) {
			return "recipes/a.yaml", strings.Replace(minimalRecipe, "stages: [", "stages:\n"+entries(n, "{stage: s%d, hands: {fixed: 5 min}}")+"#", 1)
		}, "61 stages are more than the limit of 60"},
		{"needs", MaxNeeds, func(n int) (string, string) {
			return "recipes/a.yaml", minimalRecipe + "\nneeds:\n" + entries(n, "{what: n%d, stage: make, fixed: 1 g}")
		}, "61 needs are more than the limit of 60"},
		{"measures", MaxMeasures, func(n int) (string, string) {
			return "recipes/a.yaml", minimalRecipe + "\nmeasures:\n" + entries(n, "{what: n%d, stage: make}")
		}, "61 measures are more than the limit of 60"},
		{"else", MaxElse, func(n int) (string, string) {
			return "recipes/a.yaml", minimalRecipe + "\nmeasures: [{what: pH, stage: make, to: 4.7, else: " + named(n) + "}]"
		}, "this text has at most 200 characters"},
		{"batch sizes", MaxBatchSizes, func(n int) (string, string) {
			return "recipes/a.yaml", strings.Replace(minimalRecipe, "most: 2 L", fmt.Sprintf("most: %d mL, step: 1 mL", 1000+n-1), 1)
		}, "10001 sizes, more than the limit of 10000"},
		{"pieces of a batch", MaxPieces, recipe(strings.Replace(cheese, "{pieces: 1, from: 1 L}", "{pieces: %d, from: 80001 L}", 1)), "this is more than the limit of 100000"},
		{"horizon", MaxHorizonDays, func(n int) (string, string) {
			day := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n)
			return "targets.yaml", "targets: [{name: far, by: " + day.Format(time.DateOnly) + "T00:00Z}]"
		}, "further ahead of the planning start, 2027-03-01 00:00, than the limit of 731 days"},
		{"horizon of a repetition", MaxHorizonDays, func(n int) (string, string) {
			day := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n)
			return "targets.yaml", "targets: [{name: far, by: 2027-03-06 07:00, every: week, until: " + day.Format(time.DateOnly) + "}]"
		}, "further ahead of the planning start, 2027-03-01 00:00, than the limit of 731 days"},
		{"targets", MaxTargets, func(n int) (string, string) {
			// 20 entries of 100 weeks each, less what the last has too many.
			var b strings.Builder
			for i := range (n + 99) / 100 {
				weeks := min(100, n-100*i)
				until := time.Date(2027, 3, 6, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 7*(weeks-1))
				fmt.Fprintf(&b, "  - {name: t%d, by: 2027-03-06 07:00, every: week, until: %s}\n", i, until.Format(time.DateOnly))
			}
			return "targets.yaml", "targets:\n" + b.String()
		}, "more than the limit of 2000"},
		{"past", MaxPastDays, func(n int) (string, string) {
			day := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, -n)
			return "begun.yaml", "stock: [{cheese: Second, pieces: 1, packed: " + day.Format(time.DateOnly) + "T00:00Z}]"
		}, "longer ago than the limit of 1500 days"},
	} {
		for _, beyond := range []bool{false, true} {
			files := small()
			edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: Europe/Dublin}\npots: [{name: big, holds: 100000 L}]\n")
			edit(t, files, "recipes/a.yaml", "", minimalRecipe)
			n := c.limit
			if beyond {
				n++
			}
			file, text := c.file(n)
			edit(t, files, file, "", text)
			_, err := LoadFS(files, Options{From: "2027-03-01"})
			if !beyond && err != nil {
				t.Errorf("%s at the limit: got %v, want it to load", c.name, err)
			}
			if beyond && (err == nil || !strings.Contains(err.Error(), c.want)) {
				t.Errorf("%s beyond the limit: got %v, want %q", c.name, err, c.want)
			}
		}
	}
}

func TestLimitOfTheBatchInPieces(t *testing.T) {
	files := small()
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: Europe/Dublin}\npots: [{name: big, holds: 100000 L}]\n")
	edit(t, files, "recipes/a.yaml", "", strings.NewReplacer("most: 2 L", "most: 2 L", "pieces: 1,", "pieces: 50000,").Replace(minimalRecipe))
	loaded(t, files, "2027-03-01")
	edit(t, files, "recipes/a.yaml", "pieces: 50000", "pieces: 50001")
	_, err := LoadFS(files, Options{From: "2027-03-01"})
	if err == nil || !strings.Contains(err.Error(), "the largest batch gives 100002 pieces, more than the limit of 100000") {
		t.Errorf("got %v, want the limit of pieces", err)
	}
}

func TestLimitOfRecipes(t *testing.T) {
	files := small()
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: Europe/Dublin}\npots: [{name: big, holds: 100000 L}]\n")
	for i := range MaxRecipes {
		edit(t, files, fmt.Sprintf("recipes/r%03d.yaml", i), "", strings.Replace(minimalRecipe, "Second", fmt.Sprintf("N%d\ncode: N%d", i, i), 1))
	}
	same(t, "recipes", len(loaded(t, files, "2027-03-01").Recipes), MaxRecipes)
	edit(t, files, "recipes/z.yaml", "", minimalRecipe)
	_, err := LoadFS(files, Options{From: "2027-03-01"})
	if err == nil || err.Error() != "recipes: 201 recipes are more than the limit of 200" {
		t.Errorf("got %v, want the limit of recipes", err)
	}
}

func TestLimitOfDepth(t *testing.T) {
	for _, c := range []struct {
		depth int
		deep  bool
	}{{MaxDepth, false}, {MaxDepth + 1, true}, {9000, true}, {200_000, true}} {
		files := small()
		// The mapping is the first value; an empty list is as deep as itself.
		edit(t, files, "begun.yaml", "", "lost: "+strings.Repeat("[", c.depth-1)+strings.Repeat("]", c.depth-1))
		start := time.Now()
		_, err := LoadFS(files, Options{From: "2027-03-01"})
		if err == nil {
			t.Fatalf("depth %d: got no fault", c.depth)
		}
		deep := strings.Contains(err.Error(), "the limit of 40 deep") || strings.Contains(err.Error(), "exceeded max depth")
		if deep != c.deep {
			t.Errorf("depth %d: got %v, want a refusal for depth %v", c.depth, err, c.deep)
		}
		if took := time.Since(start); took > 10*time.Second {
			t.Errorf("depth %d: took %v", c.depth, took)
		}
	}
}

// A few lines that stand for 10^9 values are refused before any is written out.
func TestAliasBombsAreRefusedAtOnce(t *testing.T) {
	var b strings.Builder
	b.WriteString("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n")
	for i := 1; i < 10; i++ {
		one := fmt.Sprintf("*a%d", i-1)
		fmt.Fprintf(&b, "a%d: &a%d [%s]\n", i, i, strings.Repeat(one+", ", 9)+one)
	}
	targets := "one: &t {name: t, by: 2027-03-06 07:00, want: &w [" + strings.Repeat("{cheese: Second, pieces: 1},", 100) + "]}\n" +
		"targets: [" + strings.Repeat("*t,", 1000) + "]\n"
	for name, text := range map[string]string{"lists of lists": b.String(), "targets that are all one": targets} {
		files := small()
		edit(t, files, "targets.yaml", "", text)
		start := time.Now()
		_, err := LoadFS(files, Options{From: "2027-03-01"})
		want := "targets.yaml: with its aliases (*name) written out, this file has more than the limit of 100000 values"
		if err == nil || err.Error() != want {
			t.Errorf("%s: got %v, want %s", name, err, want)
		}
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%s: took %v", name, took)
		}
	}
}

func TestLimitOfFaults(t *testing.T) {
	files := fstest.MapFS{"targets.yaml": {Data: []byte("targets: []")}}
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: UTC}\nmoulds:\n"+strings.Repeat("  - {nmae: x}\n", MaxFaults+3))
	_, err := LoadFS(files, Options{From: "2027-03-01"})
	var faults Faults
	if !errors.As(err, &faults) || len(faults) != MaxFaults+1 {
		t.Fatalf("got %d faults, want %d and one that says how many more", len(faults), MaxFaults)
	}
	same(t, "last", faults[MaxFaults].Error(), "kitchen.yaml: 3 more faults are not listed (limit 200); these come first")
}

// Whatever a file of the largest size holds, reading it takes seconds at most; in a quick
// run of a quarter of that.
func TestLargeFilesAreReadInTime(t *testing.T) {
	for _, one := range []string{"- ", "[", "{", "a: ", "? ", "&a ", "*a ", "- a\n", "a: 1\n", "\"", "'", "|\n ", "# x\n", "!a ", "%\n",
		"--- \n", "\n", "\t", "- - - a\n", "{a: b},", "a: &a [*a]\n", "<<: ", "\xc2\x85", "- {name: x, holds: 1 L}\n"} {
		files := small()
		edit(t, files, "targets.yaml", "", strings.Repeat(one, MaxFileBytes/testrun.Rounds(4, 1)/len(one)))
		start := time.Now()
		if _, err := LoadFS(files, Options{From: "2027-03-01"}); err != nil && len(err.Error()) > 200*1000 {
			t.Errorf("%q: the faults are %d bytes long", one, len(err.Error()))
		}
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%q: took %v", one, took)
		}
		t.Logf("%q: %v", one, time.Since(start))
	}
}
