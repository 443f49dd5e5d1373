package main

import (
	"fmt"
	"io"
	"sync"
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

	mu       sync.Mutex // Ctrl-C comes from outside the planner's own run
	last     time.Time
	drawn    bool
	stopping bool
}

// newProgress draws on a terminal that can take a line away again, which one that
// calls itself dumb cannot.
func newProgress(w io.Writer, now func() time.Time, env func(string) string) *progress {
	width, _ := terminalWidth(w)
	if env("TERM") == "dumb" {
		width = 0
	}
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
	g.mu.Lock()
	defer g.mu.Unlock()
	now := g.now()
	if g.stopping || g.drawn && now.Sub(g.last) < progressEvery {
		return
	}
	g.last = now
	g.line(progressText(at))
}

// say draws a text.
func (g *progress) say(text string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.width > 0 && !g.stopping {
		g.line(text)
	}
}

// stop says that Ctrl-C was heard: a large plan takes a moment to end.
func (g *progress) stop() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.width > 0 && !g.stopping {
		g.stopping = true
		g.line("Stopping with the best plan so far; Ctrl-C again quits")
	}
}

// line draws one line in place of the last. One column stays free: some terminals
// break the line at the last one.
func (g *progress) line(text string) {
	g.drawn = true
	fmt.Fprintf(g.w, "\r\x1b[K%s", runewidth.Truncate(text, g.width-1, "…"))
}

// wipe takes the line away, so that something else can be printed; clear takes it away for
// good.
func (g *progress) wipe() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.drawn {
		fmt.Fprint(g.w, "\r\x1b[K")
	}
}

func (g *progress) clear() {
	g.wipe()
	g.mu.Lock()
	defer g.mu.Unlock()
	g.stopping = true
}

// progressText is the line: the best plan so far, the bound, and what is being
// proved.
func progressText(at planner.Progress) string {
	if !at.Found {
		return "Looking for a first plan; Ctrl-C stops"
	}
	text := "All met"
	if short := at.Score.PromisedShort + at.Score.Short; short > 0 {
		text = money(short) + " worth short"
	}
	text += fmt.Sprintf(", %s, %s; Ctrl-C keeps this plan", schedule.Counted(at.Score.Batches, "batch"), litres(at.Score.Litres))
	if at.Budget > 0 {
		text += fmt.Sprintf("; %d %% done", min(100, at.Spent*100/at.Budget))
	}
	text += "; bother " + schedule.Counted(int(at.Score.Bother), "point")
	if at.Proving != "" && at.Proving != schedule.LevelNone {
		text += "; working on " + provingText(at)
	}
	return text
}

// provingText names the part that is being proved and its bound.
func provingText(at planner.Progress) string {
	switch at.Proving {
	case schedule.LevelPromisedShort:
		return "what is promised (at least " + money(at.Bound.PromisedShort) + " worth short)"
	case schedule.LevelLate:
		return "lateness (at least " + schedule.Counted(int(at.Bound.Late), "point") + ")"
	case schedule.LevelShort:
		return "what is wanted (at least " + money(at.Bound.Short) + " worth short)"
	case schedule.LevelBatches:
		return fmt.Sprintf("batches (at least %d)", at.Bound.Batches)
	case schedule.LevelMoved:
		return fmt.Sprintf("stages moved (at least %d)", at.Bound.Moved)
	case schedule.LevelLitres:
		return "milk (at least " + litres(at.Bound.Litres) + ")"
	case schedule.LevelBother:
		return "bother (at least " + schedule.Counted(int(at.Bound.Bother), "point") + ")"
	}
	return "later makes"
}
