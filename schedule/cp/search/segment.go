package search

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/problem"
)

// A long plan is improved a segment at a time.
//
// What one neighbourhood changes concerns the jobs near it in time, so with many
// jobs most of what is tried and compared has nothing to do with the change. Jobs are
// taken in order of readiness, so many to a segment, half of them again in the next:
//
//	jobs      1 2 3 4 5 6 7 8 9 …
//	segments └──────┘
//	              └──────┘
//	                  └──────┘
//
// While a segment is improved, everything outside it stays as it is. Each gets the
// same work, then all again with more; where something is short comes first.

const (
	wholeJobs    = 32        // up to so many jobs a plan is one segment
	segmentJobs  = 14        // jobs of a segment in the first passes
	segmentSizes = 3         // then twice as many, four times as many, and again
	segmentWork  = 2_000_000 // counted work of a segment in the first pass over all
	shortShare   = 8         // a segment with something short gets so many times as much at the most
	passes       = 4         // passes of a turn
	segmentMost  = 64        // a later pass gives it so many times as much at the most
)

// whole reports whether the plan is one segment.
func (im *improver) whole() bool { return im.focus == problem.Always() }

// improve goes on for as long as more says; what the kernel presses later, until a pass over a plan in
// which nothing is short finds none that serves as well in fewer jobs or less.
func (im *improver) improve(more func() bool, report func(), pressed bool) {
	turn := func() {
		if im.round() {
			report()
		}
	}
	if len(im.s.Jobs) <= wholeJobs {
		for more() {
			turn()
		}
		return
	}
	for pass, times := 0, int64(1); more(); pass++ {
		before := im.best
		spans, work := im.segments(pass)
		for _, span := range spans {
			im.focus = span
			im.start()
			end := im.s.Spent + work*times
			for more() && im.s.Spent < end {
				turn()
			}
			im.finish()
		}
		if pressed && im.best.ServesAs(before) && im.best.PromisedShort+im.best.Short == 0 {
			break
		}
		if pass%passes == passes-1 {
			times = min(times*2, segmentMost)
		}
	}
	im.focus = problem.Always()
}

// segments are the segments of a pass and the work for each: but for the last of a
// turn those in which something is short, if any is, which then share the work.
func (im *improver) segments(pass int) (spans []problem.Span, work int64) {
	turn := pass / passes
	if pass%passes != passes-1 {
		var short []problem.Span
		all := im.cut(segmentJobs<<(pass%2), pass%4)
		for _, span := range all {
			if im.shortIn(span) {
				short = append(short, span)
			}
		}
		if len(short) > 0 {
			return short, segmentWork * min(int64(len(all)/len(short)), shortShare)
		}
	}
	longer := pass % segmentSizes
	return im.cut(segmentJobs<<longer, (pass+turn)%4), segmentWork << longer
}

// cut cuts the plan into segments of so many jobs, the first one shorter by so many
// eighths.
func (im *improver) cut(size, eighths int) (all []problem.Span) {
	ready := make([]int, 0, len(im.s.Jobs))
	for _, j := range im.movable(im.s.Jobs) {
		ready = append(ready, j.Ready)
	}
	slices.Sort(ready)
	for at := -eighths * size / 8; ; at += size / 2 {
		end := at + size
		span := problem.Always()
		if at > 0 {
			span.From = ready[at]
		}
		if end < len(ready) {
			span.Until = ready[end]
		}
		all = append(all, span)
		if end >= len(ready) {
			return all
		}
	}
}

// shortIn reports whether a demand due in a segment is short.
func (im *improver) shortIn(span problem.Span) bool {
	for d, n := range im.s.Unmet {
		if n > 0 && im.s.Model.Demands[d].Value > 0 && span.Holds(im.s.Model.Demands[d].Due) {
			return true
		}
	}
	return false
}

// inFocus are the jobs that may be changed: those that begin or are ready in the
// segment.
func (im *improver) inFocus(list []*problem.Job) []*problem.Job {
	out := im.movable(list)
	if im.whole() {
		return out
	}
	return slices.DeleteFunc(out, func(j *problem.Job) bool { return !im.focus.Holds(j.Ready) && !im.focus.Holds(j.Starts[0]) })
}

// byDistance puts jobs in order of how near a moment they are: their readiness, or
// in a segment also their first start.
func (im *improver) byDistance(list []*problem.Job, t int) {
	dist := func(j *problem.Job) int {
		d := max(j.Ready-t, t-j.Ready)
		if !im.whole() {
			d = min(d, max(j.Starts[0]-t, t-j.Starts[0]))
		}
		return d
	}
	slices.SortStableFunc(list, func(a, b *problem.Job) int { return cmp.Compare(dist(a), dist(b)) })
}
