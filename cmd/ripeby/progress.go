package main

import (
	"fmt"
	"io"
	"time"

	"github.com/mattn/go-runewidth"

	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// progressEvery is how often the line is drawn at most.
const progressEvery = 100 * time.Millisecond

// progress shows one line that is drawn over and over while a plan is made. It
// shows nothing when standard error is not a terminal.
type progress struct {
	w     io.Writer
	now   func() time.Time
	width int // 0: no terminal
	last  time.Time
	drawn bool
}

func newProgress(w io.Writer, now func() time.Time) *progress {
	width, _ := terminalWidth(w)
	return &progress{w: w, now: now, width: width}
}

// callback is what the planner calls; nil when nothing is to be shown.
func (g *progress) callback() func(planner.Progress) {
	if g.width == 0 {
		return nil
	}
	return g.draw
}

func (g *progress) draw(at planner.Progress) {
	now := g.now()
	if g.drawn && now.Sub(g.last) < progressEvery {
		return
	}
	g.last, g.drawn = now, true
	// One column stays free: some terminals break the line at the last one.
	fmt.Fprintf(g.w, "\r\x1b[K%s", runewidth.Truncate(progressText(at), g.width-1, "…"))
}

// clear takes the line away.
func (g *progress) clear() {
	if g.drawn {
		fmt.Fprint(g.w, "\r\x1b[K")
	}
}

// progressText is the line: the best plan so far, the bound, and what is being
// proved.
func progressText(at planner.Progress) string {
	if !at.Found {
		return "Looking for a first plan; Ctrl-C ends it"
	}
	text := "Best: all met"
	if short := at.Score.PromisedShort + at.Score.Short; short > 0 {
		text = "Best: short " + money(short)
	}
	text += fmt.Sprintf(", %s, %s, bother %d", counted(at.Score.Batches, "batch"), litres(at.Score.Litres), at.Score.Bother)
	if at.Proving != "" && at.Proving != schedule.LevelNone {
		text += "; proving " + provingText(at)
	}
	if at.Budget > 0 {
		text += fmt.Sprintf("; %d %%", min(100, at.Spent*100/at.Budget))
	}
	return text + "; Ctrl-C takes it"
}

// provingText names the part that is being proved and its bound.
func provingText(at planner.Progress) string {
	switch at.Proving {
	case schedule.LevelPromisedShort:
		return "promised (at least " + money(at.Bound.PromisedShort) + " short)"
	case schedule.LevelShort:
		return "short (at least " + money(at.Bound.Short) + ")"
	case schedule.LevelBatches:
		return fmt.Sprintf("batches (at least %d)", at.Bound.Batches)
	case schedule.LevelLitres:
		return "milk (at least " + litres(at.Bound.Litres) + ")"
	case schedule.LevelBother:
		return fmt.Sprintf("bother (at least %d)", at.Bound.Bother)
	}
	return "late makes"
}
