package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"ripeby/config"
)

// Every kitchen by which two builds are compared can be read from the planning start
// that its first line gives; else refusals would be compared.
func TestKitchensToCompareAreRead(t *testing.T) {
	start := regexp.MustCompile(`^# --from "([^"]+)": `)
	files, err := filepath.Glob("../../testdata/kitchens/*/kitchen.yaml")
	if err != nil || len(files) < 25 {
		t.Fatalf("found %d kitchens, error %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		from := start.FindSubmatch(text)
		if from == nil {
			t.Errorf("%s does not begin with its planning start and what it is for", file)
			continue
		}
		if _, err := config.Load(filepath.Dir(file), config.Options{From: string(from[1])}); err != nil {
			t.Errorf("%s: %v", file, err)
		}
	}
}
