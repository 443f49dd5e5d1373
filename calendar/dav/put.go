package dav

import (
	"errors"
	"io"
	"mime"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"ripeby/calendar/ical"
	"ripeby/calendar/said"
	"ripeby/resources"
)

// Sentences of what is not done here.
const (
	onlyTicks = "Only that it is done is taken from a calendar program. All else is as the plan has it, and was put back."
	noNewTask = "Tasks come from the plan; none is added here. Targets in the kitchen folder are what more is planned for."
	noRemoval = "Tasks come from the plan; none is removed here. On the page it can be said that a batch is lost."
)

// put takes a task that a program has changed (RFC 4791, 5.3.2; RFC 9110, 9.3.4). Only whether it is done is
// taken: that is said, or taken back, as on the page. No tag is in the answer, since what is kept is not what
// was sent (RFC 4791, 5.3.4): the program fetches it then.
func (h *Handler) put(w http.ResponseWriter, r *http.Request, p *person, at place) *fault {
	if at.kind != memberKind {
		return notAllowed(r.URL.Path, "write-content", noNewTask)
	}
	text, f := bodyOf(r)
	if f != nil {
		return f
	}
	v, f := h.viewOf(p, "")
	if f != nil {
		return f
	}
	task := v.shelf.todos[at.member]
	if f := v.conditions(r, at, task); f != nil {
		return f
	}
	if task == nil {
		return notAllowed(v.tasks(), "bind", noNewTask) // RFC 3744, 3.9
	}
	sent, f := readTask(text, task.Text, v.shelf.problem.Kitchen.Zone)
	if f != nil {
		return f
	}
	if sent.uid != task.UID {
		return broken(http.StatusForbidden, caldavName("no-uid-conflict"), "This is another task's UID.")
	}
	word := v.shelf.didWord(task.Batch, task.Stage)
	switch done := word != nil; {
	case sent.done && !done:
		f = h.tick(v, task, sent)
	case !sent.done && done:
		f = h.untick(v, task, word)
	case sent.others:
		h.putBack(p, at.member)
		sendText(w, http.StatusOK, onlyTicks)
		return nil
	default: // as it is: a resend
	}
	if f != nil {
		h.putBack(p, at.member)
		return f
	}
	if sent.others {
		h.putBack(p, at.member)
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// bodyOf reads a calendar that is sent.
func bodyOf(r *http.Request) ([]byte, *fault) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "text/calendar" {
		return nil, broken(http.StatusForbidden, caldavName("supported-calendar-data"), "A task is sent as text/calendar.")
	}
	text, err := io.ReadAll(r.Body)
	switch {
	case isTooLarge(err):
		return nil, broken(http.StatusRequestEntityTooLarge, caldavName("max-resource-size"), tooLarge)
	case err != nil:
		return nil, refused(http.StatusBadRequest, "what was sent did not come whole")
	}
	return text, nil
}

// conditions holds a request against what it says it has seen (RFC 9110, 13.1.1 and 13.1.2).
func (v *view) conditions(r *http.Request, at place, task *ical.Todo) *fault {
	tag := ""
	if task != nil {
		tag = v.seen.Members[at.member].etag()
	}
	lists := func(name string) bool {
		return task != nil && (strings.TrimSpace(r.Header.Get(name)) == "*" || slices.Contains(tagsOf(r.Header.Values(name)), tag))
	}
	if r.Header.Get("If-Match") != "" && !lists("If-Match") || r.Header.Get("If-None-Match") != "" && lists("If-None-Match") {
		return refused(http.StatusPreconditionFailed, "The task has changed since, or is not in the plan any more. Fetch it, and tick it again.")
	}
	return nil
}

// tick says that a task is done.
func (h *Handler) tick(v *view, task *ical.Todo, sent *ticked) *fault {
	now := resources.MomentOf(h.opt.Now())
	heard, err := h.desk.Take(v.Address, sent.saying(v.person, task.Batch, task.Stage, v.shelf.lastNumber(), now, v.shelf.problem.Kitchen.Zone))
	if err == nil && heard.Other != "" && !h.isDone(v.person, task) {
		return notAllowed(v.tasks(), "write-content", "Something else was said already: "+heard.Other+". It is put right on the page.")
	}
	var before *said.Refusal
	if errors.As(err, &before) && before.Said && h.isDone(v.person, task) {
		return nil // somebody was faster
	}
	return notSaid(v, err)
}

// isDone reports whether a task is done by now.
func (h *Handler) isDone(p *person, task *ical.Todo) bool {
	now, f := h.viewOf(p, "")
	return f == nil && now.shelf.didWord(task.Batch, task.Stage) != nil
}

// untick takes back that a task is done: whoever said so may, as long as nothing was said of the batch since.
func (h *Handler) untick(v *view, task *ical.Todo, word *said.Word) *fault {
	if word.Nr == 0 || word.Who != v.Person || !word.Last {
		return notAllowed(v.tasks(), "write-content", "Only who said it takes it back, and only as long as nothing was said of the batch since. The page shows what was said.")
	}
	about := said.About{Nr: word.Nr, After: v.shelf.lastNumber()}
	_, err := h.desk.Take(v.Address, said.Saying{Verb: "strike", Words: []string{strconv.Itoa(word.Nr)}, Who: v.Person,
		Options: map[string]string{}, Once: about.Key(v.Address) + "-strike"})
	return notSaid(v, err)
}

// notSaid is why nothing was written; nil where something was.
func notSaid(v *view, err error) *fault {
	var why *said.Refusal
	var often *said.TooOften
	switch {
	case err == nil:
		return nil
	case errors.As(err, &often):
		return &fault{status: http.StatusTooManyRequests, text: often.Error(), wait: often.Seconds()}
	case errors.As(err, &why) && why.Later:
		return &fault{status: http.StatusServiceUnavailable, text: strings.Join(why.Lines, " "), wait: 10}
	case errors.As(err, &why):
		return notAllowed(v.tasks(), "write-content", strings.Join(why.Lines, " "))
	case errors.Is(err, said.ErrBusy):
		return &fault{status: http.StatusServiceUnavailable, text: "Somebody else is saying something just now. Say it once more.", wait: 2}
	}
	return refused(http.StatusInternalServerError, "It may not have been written. The page shows whether it was.")
}

// remove refuses to remove what is there; a program that goes by that fetches it again.
func (h *Handler) remove(p *person, at place) *fault {
	if at.kind != memberKind {
		return notAllowed(p.pathOf(at), "unbind", noRemoval)
	}
	v, f := h.viewOf(p, "")
	if f != nil {
		return f
	}
	if v.shelf.todos[at.member] == nil {
		return refused(http.StatusNotFound, "This task is not in the plan any more.")
	}
	h.putBack(p, at.member)
	return notAllowed(p.tasks(), "unbind", noRemoval)
}

// putBack has a member count as changed, so that the program that changed it on its own side fetches it: so
// often as one may say something, and no oftener.
func (h *Handler) putBack(p *person, member string) {
	if h.returns.Wait(p.Token, h.opt.Now()) > 0 {
		return
	}
	_, _ = h.viewOf(p, member) // what cannot be shown needs no putting back
}
