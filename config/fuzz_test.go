package config

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// FuzzLoad reads a folder of arbitrary bytes. Whatever it holds, the reader does
// not panic, comes back in time, and gives either a problem or faults, each of
// which is one line that names its file.
func FuzzLoad(f *testing.F) {
	files := saltgrass(f)
	text := func(name string) string { return string(files[name].Data) }
	f.Add(text("kitchen.yaml"), text(button), text("targets.yaml"), text("begun.yaml"))
	f.Add("kitchen: {timezone: UTC}", minimalRecipe, "targets: []", "")
	f.Add("kitchen: {timezone: Pacific/Apia}\npots: [{name: p, holds: 1 gal (US)}]", minimalRecipe,
		"targets: [{name: t, by: {feast: easter, time: '24:00'}}, {name: u, by: 2011-12-30 07:00, every: week, until: 2028-01-01}]", "lost: [a, a]")
	f.Add("kitchen: {timezone: UTC}", "Ame: \nYeld:\nATCh:\neeps: \nstAgs:", "targets: []", "")
	f.Add("&a [*a]", "<<: *a", "a: &a [*a, *b]", "\t")
	f.Fuzz(func(t *testing.T, kitchen, recipe, targets, begun string) {
		start := time.Now()
		p, err := LoadFS(fstest.MapFS{
			"kitchen.yaml":   {Data: []byte(kitchen)},
			"recipes/a.yaml": {Data: []byte(recipe)},
			"targets.yaml":   {Data: []byte(targets)},
			"begun.yaml":     {Data: []byte(begun)},
		}, Options{From: saltgrassFrom})
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("took %v", took)
		}
		if (p == nil) == (err == nil) {
			t.Fatalf("got problem %v and error %v", p, err)
		}
		if err == nil {
			return
		}
		var faults Faults
		if !errors.As(err, &faults) || len(faults) == 0 {
			t.Fatalf("got %v, want faults", err)
		}
		for _, one := range faults {
			if line := one.Error(); one.File == "" || one.What == "" || strings.ContainsAny(line, "\n\r") {
				t.Errorf("got the fault %q, want one line with its file and what is wrong", line)
			}
		}
	})
}
