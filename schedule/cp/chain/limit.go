package chain

import "context"

// Limit is how much counted work a schedule may take, and who may call it off. Whatever can
// grow without end with the kitchen asks between two steps whether it is over.
type Limit struct {
	Ctx   context.Context // nil: nobody calls it off
	Until int64           // 0: any work
}

// Over reports whether the work is spent or called off.
func (s *Schedule) Over() bool {
	return s.Limit.Until > 0 && s.Spent >= s.Limit.Until || s.CalledOff()
}

// CalledOff reports whether somebody wants what there is.
func (s *Schedule) CalledOff() bool { return s.Limit.Ctx != nil && s.Limit.Ctx.Err() != nil }

// buildFloor is the counted work that a plan may be filled with however little there is: to make
// some plan of a kitchen is no more than to read it, unless that is absurdly large.
const buildFloor = 10_000_000

// OutOfWork reports whether a plan is to be filled no further.
func (s *Schedule) OutOfWork() bool {
	return s.CalledOff() || s.Limit.Until > 0 && s.Spent >= max(s.Limit.Until, buildFloor)
}
