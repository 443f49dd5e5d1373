package standing

import (
	"strings"
	"testing"

	"ripeby/schedule"
)

// What is proved is said in one sentence, for every level.
func TestProofInWords(t *testing.T) {
	seen := map[string]bool{}
	for _, level := range []schedule.Level{schedule.LevelNone, schedule.LevelPromisedShort, schedule.LevelShort, schedule.LevelBatches,
		schedule.LevelLitres, schedule.LevelBother, schedule.LevelAll} {
		text := ProofText(schedule.Proof{Level: level})
		if seen[text] || !strings.HasSuffix(text, ".") || strings.Count(text, ".") != 1 {
			t.Errorf("%s: got %q, want a sentence of its own", level, text)
		}
		seen[text] = true
	}
}
