package feed

import (
	"context"
	"errors"

	"ripeby/calendar/label"
	"ripeby/calendar/list"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
	"ripeby/schedule/demand"
)

// Kitchen is what is watched, and what is spoken to. Its methods are called by one goroutine at a
// time, except that Print and PlanPrint may be called while Plan runs, and Told, Say, Labels, Sheet and Note at any time.
type Kitchen interface {
	// Print tells one content of the kitchen folder from another.
	Print() string
	// PlanPrint tells one content of the kept plan from another; "" for none.
	PlanPrint() string
	// Kept reads the plan that is kept; nil when there is none.
	Kept() (*Made, error)
	// Plan makes the plan anew and keeps it. When ctx ends it gives up and keeps
	// nothing. The error is a [FolderFault], [ErrBusy], or something else that may
	// pass by itself.
	Plan(ctx context.Context) (*Made, error)
	// Told is what the kitchen has said; nil where nothing can be said of it.
	Told() (*said.Told, error)
	// Say puts down what somebody says. The error is a [said.Refusal] or [said.ErrBusy], and nothing was
	// written; or something else, and it may have been.
	Say(said.Saying) (said.Heard, error)
	// Labels is the page from which the labels of a batch are printed, at any time; the error says in the
	// words of a page why there is none.
	Labels(batch string, opt label.Options) ([]byte, error)
	// Sheet is the page from which the batch sheet of a batch is printed, likewise; it leads to back.
	Sheet(batch, back string) ([]byte, error)
	// Note is the page from which a delivery note is printed, which leads back to an address; at any time.
	Note(problem *schedule.Problem, plan *schedule.Plan, t list.Target, to resources.Business, back string) ([]byte, error)
}

// Made is a plan with what it was made from.
type Made struct {
	Problem *schedule.Problem
	Plan    *schedule.Plan
	// Print is the plan's, as PlanPrint tells it.
	Print string
	// Fresh says that the plan is younger than every file of the folder, so that it
	// is taken to be made from what they say.
	Fresh bool
	// Bring is what the kitchen's own sales say of the wants to come.
	Bring []demand.Want
	// Chances is how often each want of the plan is met; nil where no hold scatters.
	Chances []chance.Want
}

// ErrBusy says that another run is planning for the same kitchen just now.
var ErrBusy = errors.New("another ripeby is planning for this kitchen just now")

// FolderFault says what is wrong with a kitchen folder, a line a fault.
type FolderFault struct{ Lines []string }

// Error gives the first fault, and how many more there are.
func (f *FolderFault) Error() string {
	switch len(f.Lines) {
	case 0:
		return "the kitchen folder cannot be read"
	case 1:
		return f.Lines[0]
	}
	return f.Lines[0] + " (and more)"
}
