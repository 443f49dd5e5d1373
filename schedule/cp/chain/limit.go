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
