package feed

import (
	"context"
	"errors"
	"sync"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/edition"
	"ripeby/calendar/standing"
)

// The folder is polled, not watched by the system's notices: those do not come from
// network and synced folders, are lost when an editor replaces a file, and a folder
// of a dozen small files costs nothing to look at. A change counts when it has
// looked the same twice, so that a folder is not read while it is being saved.

const (
	// LookEvery is how often the kitchen is looked at when Options do not say.
	LookEvery = 2 * time.Second
	// tryAgain is how long after a failure that may pass by itself it is tried again.
	tryAgain = time.Minute
	// hearEvery is how often it is asked what was said, and what is to be answered by now.
	hearEvery = time.Minute
)

// watch is what the watching goroutine knows. Nobody else reads it.
type watch struct {
	server *Server
	memory edition.Memory

	of       string // print of the folder that the shown plan was made from; "" when not known
	tried    string // print of the folder for which a plan was last made, or could not be
	seen     string // print at the last look
	plan     string // print of the plan that is shown
	bookText string // the addresses' file as it was last read
	retry    time.Time

	running chan attempt // nil while no plan is being made
}

// attempt is how making a plan ended.
type attempt struct {
	made  *Made
	print string // the folder's, before it was read
	err   error
}

// Watch keeps the board up to date, and has what is asked answered, until ctx ends. It
// returns when no plan is being made any more.
func (s *Server) Watch(ctx context.Context) {
	w := s.watch
	if s.desk != nil {
		var desk sync.WaitGroup
		desk.Go(func() { s.desk.Run(ctx) })
		defer desk.Wait()
	}
	tick := time.NewTicker(s.opt.Every)
	defer tick.Stop()
	for {
		w.look(ctx)
		select {
		case <-ctx.Done():
			if w.running != nil {
				<-w.running
			}
			return
		case a := <-w.running: // a nil channel never answers
			w.running = nil
			w.take(a)
		case <-tick.C:
		}
	}
}

// begin shows the plan that is kept, and decides whether it is still the folder's:
// by what is remembered of it, or by its age when nothing is.
func (w *watch) begin() {
	s := w.server
	var err error
	if w.memory, err = edition.Read(s.store); err != nil {
		s.opt.Say(err.Error())
	}
	w.seen = s.kitchen.Print()
	w.plan = s.kitchen.PlanPrint()
	made, err := safely(s.kitchen.Kept)
	if err != nil {
		w.fault(err)
		return
	}
	if made == nil {
		return
	}
	switch {
	case w.memory.Plan == w.plan && w.memory.Folder != "":
		w.of = w.memory.Folder
	case made.Fresh:
		w.of = w.seen
	}
	w.tried = w.of
	w.show(made)
	s.hear()
}

// look finds out what has changed since the last look.
func (w *watch) look(ctx context.Context) {
	s := w.server
	w.readBook()
	if w.running != nil {
		return
	}
	if p := s.kitchen.PlanPrint(); p != w.plan {
		w.plan = p
		w.otherPlan()
	}
	p := s.kitchen.Print()
	quiet := p == w.seen
	if w.seen = p; !quiet {
		s.hear() // what one says the others see before the plan is made anew
	}
	s.hearAgain()
	due := !w.retry.IsZero() && !s.opt.Now().Before(w.retry)
	if quiet && (p != w.tried || due) && ctx.Err() == nil {
		w.start(ctx, p)
	}
}

// otherPlan shows a plan that another run has kept. One that is younger than the
// folder is what the folder says.
func (w *watch) otherPlan() {
	made, err := safely(w.server.kitchen.Kept)
	if err != nil {
		w.fault(err)
		return
	}
	if made == nil {
		w.of, w.tried = "", "" // somebody took it away
		return
	}
	if made.Fresh {
		w.of = w.server.kitchen.Print()
		w.tried, w.retry = w.of, time.Time{}
		w.clear()
	}
	w.show(made)
	w.server.hear() // as the new plan names it
}

// start makes the plan anew in the background.
func (w *watch) start(ctx context.Context, print string) {
	s := w.server
	w.tried, w.retry = print, time.Time{}
	w.running = make(chan attempt, 1)
	s.change(func(b *board) { b.status.Planning, b.status.Since = true, s.opt.Now() })
	go func(done chan<- attempt) {
		made, err := safely(func() (*Made, error) { return s.kitchen.Plan(ctx) })
		done <- attempt{made, print, err}
	}(w.running)
}

// take takes what came of it.
func (w *watch) take(a attempt) {
	s := w.server
	s.change(func(b *board) { b.status.Planning = false })
	var folder *FolderFault
	switch {
	case a.err == nil:
		w.of, w.plan = a.print, a.made.Print
		w.clear()
		w.show(a.made)
		s.opt.Say("the plan is made anew, and served: " + standing.ChangedText(a.made.Problem, a.made.Plan))
		s.hear() // as the new plan names it
	case errors.Is(a.err, context.Canceled):
	case errors.Is(a.err, ErrBusy):
		w.retry = s.opt.Now() // when the other is done
	case errors.As(a.err, &folder):
		w.fault(a.err) // until the folder changes
	default:
		w.retry = s.opt.Now().Add(tryAgain)
		w.fault(a.err)
	}
}

// fault shows what is wrong; the plan that is shown stays.
func (w *watch) fault(err error) {
	s := w.server
	s.change(func(b *board) { b.status.Faults, b.status.FaultsSince = linesOf(err), s.opt.Now() })
	if s.board.Load().made == nil {
		s.opt.Say("there is no plan to serve: " + detailsOf(err))
		return
	}
	s.opt.Say("the last good plan is still served: " + detailsOf(err))
}

func (w *watch) clear() {
	w.server.change(func(b *board) { b.status.Faults, b.status.FaultsSince = nil, time.Time{} })
}

// show puts a plan on a new board. What is remembered is written down first: a time
// of change that a phone has seen must never be forgotten.
func (w *watch) show(made *Made) {
	w.adopt(w.server.board.Load().book, made)
}

// adopt makes the board of a book and a plan, with an address for everybody in it. New ones
// that cannot be kept are not given out: a restart would take them back. Another run may
// have taken addresses back since the last look; its book is not written over.
func (w *watch) adopt(book *address.Book, made *Made) {
	s := w.server
	if text := w.readBookText(); text != w.bookText && text != "" {
		if other, err := address.Decode([]byte(text)); err == nil {
			book, w.bookText = other, text
		}
	}
	if whole, added := book.Complete(peopleOf(made.Problem), s.placesOf(made.Problem)...); added {
		if err := whole.Keep(s.store); err != nil {
			s.opt.Say("new addresses cannot be kept: " + err.Error())
		} else {
			book = whole
		}
		w.bookText = w.readBookText()
	}
	w.redraw(book, made)
}

// redraw makes the board of a book and a plan.
func (w *watch) redraw(book *address.Book, made *Made) {
	s := w.server
	now := s.opt.Now()
	before := s.board.Load()
	next := &board{book: book, made: made, status: before.status}
	if made != nil {
		var err error
		next.editions, err = draw(before, book, made, w.memory, s.site.Root, now)
		if err != nil {
			s.opt.Say(detailsOf(err))
			next.status.Faults, next.status.FaultsSince = linesOf(err), now
		}
		if made != before.made {
			next.status.PlanSeen = now
		}
		w.memory = next.remember(w.of, w.plan, s.site.Root)
		if err := w.memory.Keep(s.store); err != nil {
			s.opt.Say("what phones have seen cannot be kept: " + err.Error())
		}
	}
	s.change(func(b *board) {
		next.told, next.seen = b.told, b.seen
		*b = *next
	})
}

// readBook takes over addresses that another run has made or taken back.
func (w *watch) readBook() {
	s := w.server
	text := w.readBookText()
	if text == w.bookText || text == "" {
		return // a file that is gone takes no address back
	}
	w.bookText = text
	book, err := address.Decode([]byte(text))
	if err != nil {
		s.opt.Say(address.File + " " + err.Error())
		return
	}
	if b := s.board.Load(); b.made != nil {
		w.adopt(book, b.made)
		return
	}
	w.redraw(book, nil)
}

func (w *watch) readBookText() string {
	text, err := w.server.store.Read(address.File)
	if err != nil {
		return ""
	}
	return string(text)
}
