package problem

import "slices"

// Within is the model in which each job under way runs late by so much at the most, -1 for
// one that is left where it is. Its lags go on past their time as far as that, so that it is
// planned like any other; those of the model itself end in time.
func (m *Model) Within(late []int64) *Model {
	out := *m
	out.Begun = slices.Clone(m.Begun)
	known := stretches{}
	for b := range out.Begun {
		bg := &out.Begun[b]
		switch {
		case late[b] < 0 && bg.Left == nil:
			*bg = m.Begun[b].Held(m.Horizon - bg.Starts[len(bg.Starts)-1]) // nothing comes after the horizon
		case late[b] >= 0:
			bg.runLate(m, late[b], known)
		}
	}
	return &out
}

// runLate lets the lags to come go on past their time, for so much at the most and no
// further than the activities after them may start.
func (b *Begun) runLate(m *Model, most int64, known stretches) {
	b.Mode.Acts = slices.Clone(b.Mode.Acts)
	for i := max(len(b.Starts)-1, 0); i < len(b.Mode.Acts)-1; i++ {
		act := &b.Mode.Acts[i]
		if act.Lag.Past == nil {
			continue
		}
		last, from := m.Horizon, m.From // an activity to come starts no sooner
		if b.Latest != nil {
			last = min(last, b.Latest[i+1])
		}
		if i < len(b.Starts) {
			from = b.Starts[i]
		}
		act.Lag = act.Lag.Each(func(l Lag) Lag { return known.lateBy(l, most, last-from-act.Work) })
	}
}

// CanRunLate reports whether anything under way has a lag that may go on past its time.
func (m *Model) CanRunLate() bool {
	for b := range m.Begun {
		if m.Begun[b].CanRunLate() {
			return true
		}
	}
	return false
}

// CanRunLate reports whether a job under way has a lag that may go on past its time.
func (b *Begun) CanRunLate() bool {
	open := b.Mode.Acts[max(len(b.Starts)-1, 0):]
	return b.Left == nil && slices.ContainsFunc(open, func(a Activity) bool { return a.Lag.Past != nil })
}

// WithNoWay is the model in which it is known of a job under way that it cannot go on.
func (m *Model) WithNoWay(b int) *Model {
	out := *m
	out.Begun = slices.Clone(m.Begun)
	out.Begun[b].NoWay = true
	return &out
}

// LateBy is how late a job under way is that starts its activities so; its lags may go on as
// far as they do.
func (b *Begun) LateBy(starts []int) int64 {
	sum := int64(0)
	for i := max(len(b.Starts)-1, 0); i < len(starts)-1; i++ {
		worked := starts[i] + b.Mode.Acts[i].Work
		lag, long := b.Mode.Acts[i].Lag.At(worked), starts[i+1]-worked
		sum += lag.LateOf(long)
		if long > lag.Most && lag.Past != nil {
			late, _ := lag.Past.Of(long)
			sum += int64(late)
		}
	}
	return sum
}
