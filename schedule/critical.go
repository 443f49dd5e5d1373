package schedule

// MarkCritical marks the batch's critical stages, from how far they may slip. A stage
// is critical when somebody has to come for it, it has not begun, pieces of its batch
// go to a target, and it may begin no later than it is planned to: SlipUntil is Start.
// Any delay of it breaks a hold, the hours or kit that others have, or a target,
// however short the waits after it are made.
//
// The critical stages of a batch in their order are its critical path from make to
// market. A wait is never critical by itself: a path runs through it at its shortest,
// so a stage before a wait that could be shorter still has the room of that wait.
func (b *Batch) MarkCritical() {
	for i := range b.Stages {
		t := &b.Stages[i]
		t.Critical = t.Work > 0 && !t.Begun && len(b.For) > 0 && t.SlipUntil <= t.Start
	}
}
