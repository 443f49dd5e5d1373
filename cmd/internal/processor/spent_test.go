package processor_test

import (
	"testing"

	"ripeby/cmd/internal/processor"
)

// What is done takes time, and none is given back.
func TestSpent(t *testing.T) {
	before := processor.Spent()
	for n := 0; processor.Spent() == before; n++ {
		if n == 1e7 {
			t.Fatalf("got %v before and after ten million questions", before)
		}
	}
	if after := processor.Spent(); after < before {
		t.Errorf("got %v after %v", after, before)
	}
}
