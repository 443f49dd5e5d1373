package chance

import (
	"fmt"
	"math"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// From which share on a want has which word.
const (
	firmFrom   = 0.95
	likelyFrom = 0.80
	shakyFrom  = 0.50
)

// Word is one word for how often a want is met.
func (w *Want) Word() string {
	switch share := w.Share(); {
	case share >= firmFrom:
		return "firm"
	case share >= likelyFrom:
		return "likely"
	case share >= shakyFrom:
		return "shaky"
	}
	return "doubtful"
}

// WordsMean says what the words stand for.
const WordsMean = "firm: met 95 times in 100 or more; likely: 80 or more; shaky: half or more; doubtful: less."

// NoSafety says what none of it is.
const NoSafety = "It counts times and nothing else: it says nothing of whether a cheese is safe. The cautions for a slow set stay."

// Often is how often it is met, with the band: "1790 of 2000 times, so 88 to 91 in 100".
func (w *Want) Often() string {
	low, high := math.Floor(100*w.Low), math.Ceil(100*w.High)
	return fmt.Sprintf("%d of %d times, so %.0f to %.0f in 100", w.Hits, w.Times, low, high)
}

// Says is what fails it most often, in a sentence without a last full stop; "" for nothing.
func (b *Breaks) Says() string {
	if b.Batch == "" {
		return ""
	}
	of := fmt.Sprintf("%s of %s", b.Stage, b.Batch)
	text := map[Why]string{
		NotOver: "the hold after " + of + " is not over in time",
		NoHands: "nobody has time for " + of + " when it may be done",
		NoKit:   "what " + of + " needs is not free yet",
		OldMilk: "the milk of " + b.Batch + " would be too old",
		WasLost: b.Batch + " is lost",
		InTime:  b.Batch + " is planned too late for it",
	}[b.Why]
	return fmt.Sprintf("what fails it most often: %s (%s)", text, schedule.Counted(b.Times, "time"))
}

// Sentence tells all of it: the word, how often, what fails it and what would help. when writes a moment.
func (w *Want) Sentence(when func(resources.Moment) string) string {
	text := strings.ToUpper(w.Word()[:1]) + w.Word()[1:] + ": all there in time " + w.Often()
	if b := w.Breaks.Says(); b != "" {
		text += "; " + b
	}
	text += "."
	if r := w.Remedy; r != nil {
		text += fmt.Sprintf(" What would help most: %s of %s at %s instead of %s, then %d of %d times.", r.Stage, r.Batch, when(r.Now), when(r.Was), r.Hits, w.Times)
	}
	return text
}
